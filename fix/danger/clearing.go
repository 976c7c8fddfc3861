package danger

import (
	"fmt"
	"math"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/fix"
	"lubberline.example/fix/internal/earth"
)

// A ClearingBearing is the bearing of a mark that keeps the vessel clear of a danger. While
// the mark bears not less, or not more, than the limit, the vessel is clear. It serves a
// vessel that heads roughly for the mark or away from it.
type ClearingBearing struct {
	Mark  fix.Mark   `json:"mark"`  // the mark to watch
	Limit angle.True `json:"limit"` // its true bearing where the vessel just clears the danger
	Bound Bound      `json:"bound"` // on which side of the limit the vessel is safe

	// What the limit was found from, for the working. If margin is zero, the limit was given
	// otherwise.
	danger angle.Position
	margin sailing.Distance
}

// NewClearingBearing returns the clearing bearing of a mark that keeps the vessel a margin
// away from a danger. leaveTo is the side on which a vessel that heads for the mark leaves
// the danger. To starboard, the mark must bear not less than the limit; to port, not more.
//
// If the mark lies within the margin of the danger, it returns an [*Error]. If the margin is
// not above zero, it returns an [*angle.RangeError]. If leaveTo is not a side, it returns an
// [*angle.ParseError].
func NewClearingBearing(mark fix.Mark, danger angle.Position, margin sailing.Distance, leaveTo angle.Side) (ClearingBearing, error) {
	if err := checkMargin(margin); err != nil {
		return ClearingBearing{}, err
	}
	if leaveTo != angle.Port && leaveTo != angle.Starboard {
		return ClearingBearing{}, &angle.ParseError{What: "side of the vessel", Input: string(leaveTo), Kind: angle.UnknownWord, Want: "angle.Port or angle.Starboard"}
	}
	out := sailing.WGS84().Rhumb(mark.Position, danger)
	if out.Distance <= margin {
		return ClearingBearing{}, &Error{fmt.Sprintf("%v lies %v from the danger, within the margin of %v: choose another mark", mark, out.Distance, margin)}
	}
	ratio := float64(margin / out.Distance)
	half, err := angle.Radians(math.Asin(ratio))
	if err != nil {
		return ClearingBearing{}, &Error{err.Error()}
	}
	c := ClearingBearing{Mark: mark, Bound: NotLessThan, danger: danger, margin: margin}
	if leaveTo == angle.Port {
		half, c.Bound = -half, NotMoreThan
	}
	// Where the line touches the margin, the mark bears exactly the limit.
	touch, err := sailing.WGS84().Follow(mark.Position, sailing.Run{Course: out.Course.Add(half), Distance: out.Distance * sailing.Distance(math.Sqrt(1-ratio*ratio))})
	if err != nil {
		return ClearingBearing{}, &Error{err.Error()}
	}
	c.Limit = earth.BearingBetween(touch, mark.Position)
	return c, nil
}

// String returns the rule as a true bearing, rounded to the safe side to a tenth of a degree:
// Orlesk Head light bears not less than 045.3°T, that is, to the right of it. Near north the side
// decides, since 359° is to the left of 001°.
func (c ClearingBearing) String() string {
	limit := angle.TrueFrom(c.Bound.safely(c.Limit.FromNorth(), angle.Degree/10))
	return fmt.Sprintf("%v bears %s %.1f, that is, to the %s of it", c.Mark, c.Bound.words(), limit, c.Bound.hand())
}

// Clear reports whether a true bearing of the mark is on the safe side of the limit, or on
// it. If the bound is invalid, no bearing is clear.
func (c ClearingBearing) Clear(bearing angle.True) bool { return c.Bound.clear(bearing.Sub(c.Limit)) }

// Working shows how [NewClearingBearing] found the limit. It returns the limit as a true bearing, as
// a magnetic bearing for a hand-bearing compass, and by the steering compass on a heading, whose
// deviation applies. The rule in words is to a tenth and to the whole degree. Working prints the
// uncertainty of variation and deviation; the limit does not contain it.
func (c ClearingBearing) Working(heading course.Heading) working.Sheet {
	b := heading.BearingFromTrue(c.Limit)
	s := b.Working()
	limit := angle.CompassFrom(c.Bound.safely(b.Compass().FromNorth(), angle.Degree/10))
	whole := angle.CompassFrom(c.Bound.safely(b.Compass().FromNorth(), angle.Degree))
	s.Title = fmt.Sprintf("Clearing bearing of %v: %s %.0f", c.Mark, c.Bound.words(), whole)
	for i := range s.Steps {
		switch step := &s.Steps[i]; step.Key {
		case "true bearing":
			*step = working.Direction(step.Key, step.What, c.Limit)
			if c.margin == 0 {
				*step = step.Because("clearing-limit", "the limit")
			}
		case "uncertainty":
			*step = step.Because("limit-without-uncertainty", "not in the limit: keep that much farther off")
		}
	}
	if c.margin > 0 {
		s.Steps = c.found(s.Steps)
	}
	rule := working.Step{Key: "rule", What: "Safe while it bears", Value: fmt.Sprintf("%s %v", c.Bound.words(), limit), Number: limit.Degrees(), Unit: working.DegreesFromNorth}
	if c.Bound == NotMoreThan {
		rule = rule.Because("bears-to-left", "that is, to the left of it, by compass on this heading")
	} else {
		rule = rule.Because("bears-to-right", "that is, to the right of it, by compass on this heading")
	}
	rounded := working.Step{Key: "whole degree", What: "To the whole degree", Value: fmt.Sprintf("%s %.0f", c.Bound.words(), whole), Number: whole.Degrees(), Unit: working.DegreesFromNorth}
	s.Steps = append(s.Steps,
		rule.Because("deviation-of-this-heading", "the deviation differs on another heading"),
		rounded.Because("steering-compass-safe-side", "as a steering compass is read, rounded to the safe side"))
	s.Caution = working.Caution
	return s
}

// found puts how the limit was found before the conversion.
func (c ClearingBearing) found(conversion working.Steps) working.Steps {
	out := sailing.WGS84().Rhumb(c.Mark.Position, c.danger)
	half, err := angle.Radians(math.Asin(float64(c.margin / out.Distance)))
	if err != nil {
		return conversion // NewClearingBearing refuses such a margin
	}
	sign := "+"
	if c.Bound == NotMoreThan {
		sign = "−"
	}
	half = half.Round(angle.Minute)
	bears := working.Direction("danger bears", "Danger bears", out.Course.Round(angle.Minute)).Because("from-mark", "from the mark")
	conversion[0] = conversion[0].Because("clearing-limit-found", "the limit: the reciprocal of %v %s %v, corrected by half the convergency", bears.Value, sign, half)
	at := working.Step{Key: "margin angle", What: "Angle at the mark", Value: half.String(), Number: half.Degrees(), Unit: "degrees"}
	return append(working.Steps{
		bears,
		miles("danger off", "Danger off the mark", out.Distance),
		miles("margin", "Margin", c.margin).Because("distance-from-danger", "distance to keep from the danger"),
		at.Because("margin-over-distance", "between the danger and the clearing line: sine = margin / distance"),
	}, conversion...)
}

// miles returns a step with a distance in nautical miles.
func miles(key, what string, d sailing.Distance) working.Step {
	return working.Step{Key: key, What: what, Value: fmt.Sprintf("%.2f M", d.NauticalMiles()), Number: d.NauticalMiles(), Unit: "nautical miles"}
}
