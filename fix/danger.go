package fix

import (
	"fmt"
	"math"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
)

// A Bound says on which side of a limit it is safe.
type Bound string

// The bounds.
const (
	NotLess Bound = "not less than"
	NotMore Bound = "not more than"
)

// UnmarshalText reads one of the bounds, and refuses the rest with a
// [*angle.ParseError].
func (b *Bound) UnmarshalText(text []byte) error {
	if bound := Bound(text); bound == NotLess || bound == NotMore {
		*b = bound
		return nil
	}
	return noWord(text, "bound", string(NotLess+" or "+NotMore))
}

// safely rounds a limit to a unit, to the safe side.
func (b Bound) safely(a, unit angle.Angle) angle.Angle {
	rounded := a.Round(unit)
	switch {
	case b == NotMore && rounded > a:
		return rounded - unit
	case b == NotLess && rounded < a:
		return rounded + unit
	}
	return rounded
}

// A Clearing is a clearing (danger) bearing: as long as the mark bears not less, or
// not more, than the limit, the vessel is clear of the danger. It is for a vessel that
// heads for the mark, near enough, or away from it.
type Clearing struct {
	Mark  Mark       `json:"mark"`  // the one to watch
	Limit angle.True `json:"limit"` // the true bearing of it that just clears the danger
	Bound Bound      `json:"bound"` // on which side of the limit it is safe
}

// A DangerError reports a danger that no limit keeps clear of.
type DangerError struct {
	Reason string // why, and what would do
}

// Error says why.
func (e *DangerError) Error() string { return "fix: danger: " + e.Reason }

// ClearingBearing returns the clearing bearing of a mark that keeps a danger at a
// distance, a margin that the caller chooses, on one side: the side on which the
// danger is left by a vessel that heads for the mark. With the danger to starboard
// the mark must bear not less than the limit, to port not more. The mark may not lie
// within the margin, which is above nought: otherwise a [*DangerError].
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
	c := Clearing{Mark: mark, Bound: NotLess}
	if leaveTo == angle.Port {
		half, c.Bound = -half, NotMore
	}
	// At the place where the line touches the margin the mark bears exactly so.
	touch, err := sailing.WGS84().Follow(mark.Position, sailing.Run{Course: out.Course.Add(half), Distance: out.Distance * sailing.Distance(math.Sqrt(1-ratio*ratio))})
	if err != nil {
		return Clearing{}, &DangerError{err.Error()}
	}
	c.Limit = bearingFrom(touch, mark.Position)
	return c, nil
}

func checkMargin(margin sailing.Distance) error {
	if !(margin > 0) || math.IsInf(float64(margin), 0) {
		return &DangerError{fmt.Sprintf("margin %v: want more than 0", margin)}
	}
	return nil
}

// bearingFrom is how a place bears from another.
func bearingFrom(from, to angle.Position) angle.True {
	f := frameAt(upright(from))
	g := frameAt(upright(to))
	s := f.sight(g.at)
	a, err := angle.Atan2(s.east, s.north)
	if err != nil {
		return angle.True{} // the same place
	}
	return angle.TrueFrom(a)
}

// String returns the rule by true north, rounded to the safe side to a tenth of a
// degree: Orlesk Head light bears not less than 045.3°T.
func (c Clearing) String() string {
	limit := angle.TrueFrom(c.Bound.safely(c.Limit.FromNorth(), angle.Degree/10))
	return fmt.Sprintf("%v bears %s %.1f", c.Mark, c.Bound, limit)
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

// Working returns the steps for a heading, with the rule in words.
func (c Clearing) Working(heading course.Heading) working.Sheet {
	b := c.On(heading)
	s := b.Working()
	limit := angle.CompassFrom(c.Bound.safely(b.Compass().FromNorth(), angle.Degree/10))
	s.Title = fmt.Sprintf("Clearing bearing of %v: %s %v", c.Mark, c.Bound, limit)
	s.Steps = append(s.Steps, working.Step{Key: "rule", What: "Safe while it bears", Value: fmt.Sprintf("%s %v", c.Bound, limit), How: "by compass on this heading, rounded to the safe side; on another heading the deviation is another"})
	s.Caution = working.Caution
	return s
}

// A DangerAngle is a horizontal or vertical danger angle: as long as the angle is not
// less, or not more, than the limit, the vessel is clear.
type DangerAngle struct {
	Limit angle.Angle `json:"limit"` // as by sextant
	Bound Bound       `json:"bound"` // on which side of the limit it is safe
}

// Round returns the same with its limit rounded to a unit, to the safe side.
func (d DangerAngle) Round(unit angle.Angle) DangerAngle {
	return DangerAngle{d.Bound.safely(d.Limit, unit), d.Bound}
}

// Clear reports whether an angle is on the safe side of the limit, or on it.
func (d DangerAngle) Clear(a angle.Angle) bool {
	if d.Bound == NotMore {
		return a <= d.Limit
	}
	return a >= d.Limit
}

// String returns the limit to a tenth of a minute, rounded to the safe side: not more
// than 0°32.4′.
func (d DangerAngle) String() string {
	r := d.Round(angle.Minute / 10)
	return fmt.Sprintf("%s %s", r.Bound, r.Limit.AppendMinutes(nil, 1))
}

// Working returns the rule in words, with the caution.
func (d DangerAngle) Working() working.Sheet {
	return working.Sheet{
		Title: "Danger angle",
		Steps: working.Steps{
			{Key: "limit", What: "Limit", Value: string(d.Limit.AppendMinutes(nil, 1)), Number: d.Limit.Degrees(), Unit: "degrees"},
			{Key: "rule", What: "Safe while the angle is", Value: d.String(), How: "rounded to the safe side"},
		},
		Caution: working.Caution,
	}
}

// VerticalDangerAngle returns the angle that an object of a height subtends at a
// distance. To keep [Outside] the distance the angle is kept not more than it, to keep
// [Inside] (passing between the object and a danger) not less. Heights and distances
// must be above 0; otherwise a [*angle.RangeError], as for a pass that is none.
func VerticalDangerAngle(height, distance sailing.Distance, pass Pass) (DangerAngle, error) {
	if err := pass.check(); err != nil {
		return DangerAngle{}, err
	}
	if err := checkHeight("height of the object", height); err != nil {
		return DangerAngle{}, err
	}
	if height == 0 || !(distance > 0) || math.IsInf(float64(distance), 0) {
		return DangerAngle{}, &angle.RangeError{What: "distance in metres", Value: float64(distance), Accepted: "above 0, from an object higher than 0"}
	}
	a, err := angle.Atan2(float64(height), float64(distance))
	if err != nil {
		return DangerAngle{}, err
	}
	d := DangerAngle{a, NotLess}
	if pass == Outside {
		d.Bound = NotMore
	}
	return d, nil
}

// HorizontalDangerAngle returns the angle between two marks that keeps a danger at a
// distance. To pass [Outside], with the danger between the vessel and the marks, the
// angle is kept not more than the least that the marks subtend from anywhere within
// the margin; to pass [Inside], between marks and danger, not less than the greatest.
// The marks must be apart and outside the margin, and to pass outside the margin may
// not reach the line through both beyond them, to pass inside the line between them,
// where the angle tells nothing; otherwise a [*DangerError]. A pass that is none is
// refused with a [*angle.RangeError].
func HorizontalDangerAngle(left, right Mark, danger angle.Position, margin sailing.Distance, pass Pass) (DangerAngle, error) {
	if err := pass.check(); err != nil {
		return DangerAngle{}, err
	}
	if err := checkMargin(margin); err != nil {
		return DangerAngle{}, err
	}
	if left.Position.SamePlace(right.Position) {
		return DangerAngle{}, &DangerError{"both marks are at one place"}
	}
	a, b := place(left), place(right)
	f := frameAt(upright(danger))
	for _, m := range []Mark{left, right} {
		if d, _, _ := f.surface(place(m)); d <= float64(margin) {
			return DangerAngle{}, &DangerError{fmt.Sprintf("%v lies within the margin", m)}
		}
	}
	subtends := func(direction float64) float64 {
		s, c := math.Sincos(direction)
		at := frameAt(f.moved(float64(margin)*c, float64(margin)*s))
		return math.Abs(math.Remainder(at.sight(b).azimuth-at.sight(a).azimuth, 2*math.Pi))
	}
	sign := -1.0 // looking for the greatest
	d := DangerAngle{Bound: NotLess}
	if pass == Outside {
		sign, d.Bound = 1, NotMore
	}
	var err error
	if d.Limit, err = angle.Radians(subtends(leastRound(func(direction float64) float64 { return sign * subtends(direction) }))); err != nil {
		return DangerAngle{}, &DangerError{err.Error()}
	}
	if pass == Outside && d.Limit < angle.Minute || pass == Inside && d.Limit > angle.Turn/2-angle.Minute {
		return DangerAngle{}, &DangerError{fmt.Sprintf("the line through %v and %v passes within the margin, so that no angle keeps clear of it: want other marks", left, right)}
	}
	return d, nil
}

// leastRound is the direction in radians in which a value is least: looked for all
// round in steps of 2°, then closer by thirds about the best.
func leastRound(value func(direction float64) float64) float64 {
	best, at := math.Inf(1), 0.0
	const step = math.Pi / 90
	for i := range 180 {
		if v := value(float64(i) * step); v < best {
			best, at = v, float64(i)*step
		}
	}
	low, high := at-step, at+step
	for range 60 {
		p, q := low+(high-low)/3, high-(high-low)/3
		if value(p) < value(q) {
			high = q
		} else {
			low = p
		}
	}
	return (low + high) / 2
}
