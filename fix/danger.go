package fix

import (
	"fmt"
	"math"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"lubberline.example/fix/internal/earth"
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

// hand is on which hand of the limit a mark has to be seen.
func (b Bound) hand() string {
	if b == NotMore {
		return "left"
	}
	return "right"
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

// A DangerError reports a danger that no limit keeps clear of.
type DangerError struct {
	Reason string // why, and what would do
}

// Error says why.
func (e *DangerError) Error() string { return "fix: danger: " + e.Reason }

func checkMargin(margin sailing.Distance) error {
	if !(margin > 0) || math.IsInf(float64(margin), 0) {
		return &DangerError{fmt.Sprintf("margin %v: want more than 0", margin)}
	}
	return nil
}

// A DangerAngle is a horizontal or vertical danger angle: as long as the angle is not
// less, or not more, than the limit, the vessel is clear.
type DangerAngle struct {
	Limit angle.Angle `json:"limit"` // as by sextant
	Bound Bound       `json:"bound"` // on which side of the limit it is safe

	// Vertical or Horizontal is what the limit was found from, for the working; both are
	// zero if it was given otherwise.
	Vertical   VerticalDanger   `json:"vertical,omitzero"`
	Horizontal HorizontalDanger `json:"horizontal,omitzero"`
}

// A VerticalDanger is what a vertical danger angle was found from.
type VerticalDanger struct {
	Height   sailing.Distance `json:"height"`   // of the object above the water
	Distance sailing.Distance `json:"distance"` // to keep from it
}

// A HorizontalDanger is what a horizontal danger angle was found from.
type HorizontalDanger struct {
	Left   Mark             `json:"left"`
	Right  Mark             `json:"right"`
	Danger angle.Position   `json:"danger"`
	Margin sailing.Distance `json:"margin"` // to keep from the danger
}

// Round returns the same with its limit rounded to a unit, to the safe side.
func (d DangerAngle) Round(unit angle.Angle) DangerAngle {
	d.Limit = d.Bound.safely(d.Limit, unit)
	return d
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
	return fmt.Sprintf("%s %.1v", r.Bound, r.Limit)
}

// VerticalDangerAngle returns the angle that an object of a height subtends at a
// distance. To keep [Outside] the distance the angle is kept not more than it, to keep
// [Inside] (passing between the object and a danger) not less. Heights and distances
// must be above 0; otherwise an [*angle.RangeError], as for an invalid pass.
//
// The water line must be seen: the distance may not be beyond the [Horizon] of the eye.
// Charted heights are above high water. At a lower tide the object stands higher, and the
// vessel is farther off than the angle says: outside that is on the safe side, inside it
// is not.
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
	d := DangerAngle{Limit: a, Bound: NotLess, Vertical: VerticalDanger{height, distance}}
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
// where the angle says nothing; otherwise a [*DangerError]. An invalid pass is
// refused with an [*angle.RangeError].
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
	f := earth.FrameAt(earth.Upright(danger))
	for _, m := range []Mark{left, right} {
		if d, _, _ := f.Surface(place(m)); d <= float64(margin) {
			return DangerAngle{}, &DangerError{fmt.Sprintf("%v lies within the margin", m)}
		}
	}
	subtends := func(direction float64) float64 {
		s, c := math.Sincos(direction)
		at := earth.FrameAt(f.Moved(float64(margin)*c, float64(margin)*s))
		return math.Abs(math.Remainder(at.Sight(b).Azimuth-at.Sight(a).Azimuth, 2*math.Pi))
	}
	sign := -1.0 // looking for the greatest
	d := DangerAngle{Bound: NotLess, Horizontal: HorizontalDanger{left, right, danger, margin}}
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
