package fix

import (
	"fmt"
	"math"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/fix/internal/earth"
)

// A Clearing is a clearing (danger) bearing: as long as the mark bears not less, or
// not more, than the limit, the vessel is clear of the danger. It is for a vessel that
// heads for the mark, near enough, or away from it.
type Clearing struct {
	Mark  Mark       `json:"mark"`  // the one to watch
	Limit angle.True `json:"limit"` // the true bearing of it that just clears the danger
	Bound Bound      `json:"bound"` // on which side of the limit it is safe

	// Danger and Margin are what the limit was found from, for the working; the margin
	// is 0 if it was given otherwise.
	Danger angle.Position   `json:"danger,omitzero"`
	Margin sailing.Distance `json:"margin,omitzero"`
}

// ClearingBearing returns the clearing bearing of a mark that keeps a danger at a
// distance, a margin that the caller chooses, on one side: the side on which the
// danger is left by a vessel that heads for the mark. With the danger to starboard
// the mark must bear not less than the limit, to port not more. The mark may not lie
// within the margin, which must be above zero: otherwise a [*DangerError].
func ClearingBearing(mark Mark, danger angle.Position, margin sailing.Distance, leaveTo angle.Side) (Clearing, error) {
	if err := checkMargin(margin); err != nil {
		return Clearing{}, err
	}
	out := sailing.WGS84().Rhumb(mark.Position, danger)
	if out.Distance <= margin {
		return Clearing{}, &DangerError{fmt.Sprintf("%v lies %v from the danger, within the margin of %v: want another mark", mark, out.Distance, margin)}
	}
	ratio := float64(margin / out.Distance)
	half, err := angle.Radians(math.Asin(ratio))
	if err != nil {
		return Clearing{}, &DangerError{err.Error()}
	}
	if leaveTo != angle.Port && leaveTo != angle.Starboard {
		return Clearing{}, &DangerError{fmt.Sprintf("side %d: want Port or Starboard", leaveTo)}
	}
	c := Clearing{Mark: mark, Bound: NotLess, Danger: danger, Margin: margin}
	if leaveTo == angle.Port {
		half, c.Bound = -half, NotMore
	}
	// At the place where the line touches the margin the mark bears exactly so.
	touch, err := sailing.WGS84().Follow(mark.Position, sailing.Run{Course: out.Course.Add(half), Distance: out.Distance * sailing.Distance(math.Sqrt(1-ratio*ratio))})
	if err != nil {
		return Clearing{}, &DangerError{err.Error()}
	}
	c.Limit = earth.BearingBetween(touch, mark.Position)
	return c, nil
}

// String returns the rule by true north, rounded to the safe side to a tenth of a
// degree, and on which side of that the mark has to be seen, since about north 359° is
// less than 001°: Orlesk Head light bears not less than 045.3°T, that is, to the right of
// it.
func (c Clearing) String() string {
	limit := angle.TrueFrom(c.Bound.safely(c.Limit.FromNorth(), angle.Degree/10))
	return fmt.Sprintf("%v bears %s %.1f, that is, to the %s of it", c.Mark, c.Bound, limit, c.Bound.hand())
}

// Clear reports whether a bearing of the mark is on the safe side of the limit, or on
// it.
func (c Clearing) Clear(bearing angle.True) bool {
	off := bearing.Sub(c.Limit)
	if c.Bound == NotMore {
		off = -off
	}
	return off >= 0
}

// On returns the limit as it is to be watched while the vessel heads so: by true, by
// magnetic as with a hand-bearing compass, and by the steering compass, whose
// deviation is that of the heading.
func (c Clearing) On(heading course.Heading) course.Bearing { return heading.BearingFromTrue(c.Limit) }

// Working returns the steps for a heading: how the limit was found, if [ClearingBearing]
// found it, how it is converted, and the rule in words, to a tenth and to the whole degree
// that a steering compass is read to. The uncertainty of variation and deviation is
// printed, and is not in the limit.
func (c Clearing) Working(heading course.Heading) working.Sheet {
	b := c.On(heading)
	s := b.Working()
	limit := angle.CompassFrom(c.Bound.safely(b.Compass().FromNorth(), angle.Degree/10))
	whole := angle.CompassFrom(c.Bound.safely(b.Compass().FromNorth(), angle.Degree))
	s.Title = fmt.Sprintf("Clearing bearing of %v: %s %.0f", c.Mark, c.Bound, whole)
	for i := range s.Steps {
		switch step := &s.Steps[i]; step.Key {
		case "true bearing":
			step.How = "the limit"
		case "uncertainty":
			step.How += "; not in the limit, keep that much farther off"
		}
	}
	if c.Margin > 0 {
		s.Steps = c.found(s.Steps)
	}
	rule := working.Step{Key: "rule", What: "Safe while it bears", Value: fmt.Sprintf("%s %v", c.Bound, limit), Number: limit.Degrees(), Unit: working.DegreesFromNorth}
	rule.How = fmt.Sprintf("that is, to the %s of it, by compass on this heading, rounded to the safe side; the deviation differs on another heading", c.Bound.hand())
	s.Steps = append(s.Steps, rule, working.Step{
		Key: "whole degree", What: "To the whole degree", Value: fmt.Sprintf("%s %.0f", c.Bound, whole), Number: whole.Degrees(), Unit: working.DegreesFromNorth,
		How: "as a steering compass is read, rounded to the safe side",
	})
	s.Caution = working.Caution
	return s
}

// found puts before the conversion how the limit was found.
func (c Clearing) found(conversion working.Steps) working.Steps {
	out := sailing.WGS84().Rhumb(c.Mark.Position, c.Danger)
	half, err := angle.Radians(math.Asin(float64(c.Margin / out.Distance)))
	if err != nil {
		return conversion // a margin that ClearingBearing refuses
	}
	miles := func(key, what string, d sailing.Distance, how string) working.Step {
		return working.Step{Key: key, What: what, Value: fmt.Sprintf("%.2f M", d.NauticalMiles()), Number: d.NauticalMiles(), Unit: "nautical miles", How: how}
	}
	sign := "+"
	if c.Bound == NotMore {
		sign = "−"
	}
	half = half.Round(angle.Minute)
	bears := working.Direction("danger bears", "Danger bears", out.Course.Round(angle.Minute), "from the mark")
	conversion[0].How = fmt.Sprintf("the limit: the reciprocal of %v %s %v, the line from the mark on the safe side; half the convergency allowed for", bears.Value, sign, half)
	return append(working.Steps{
		bears,
		miles("danger off", "Danger off the mark", out.Distance, ""),
		miles("margin", "Margin", c.Margin, "to keep from the danger"),
		{Key: "margin angle", What: "Angle at the mark", Value: half.String(), Number: half.Degrees(), Unit: "degrees", How: "between the danger and the line that passes it at the margin: sine = margin / distance"},
	}, conversion...)
}
