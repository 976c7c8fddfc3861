package danger

import (
	"fmt"
	"math"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"lubberline.example/fix"
	"lubberline.example/fix/internal/earth"
)

// An Angle is a horizontal or vertical danger angle. While the angle by sextant is not less,
// or not more, than the limit, the vessel is clear of the danger.
type Angle struct {
	Limit angle.Angle `json:"limit"` // by sextant, corrected for index error
	Bound Bound       `json:"bound"` // on which side of the limit the vessel is safe

	// What the limit was found from, for the working. If both are zero, the limit was given
	// otherwise.
	vertical   vertical
	horizontal horizontal
}

// vertical is what a vertical danger angle was found from.
type vertical struct {
	height   sailing.Distance // of the object above the water
	distance sailing.Distance // to keep from the object
}

// horizontal is what a horizontal danger angle was found from.
type horizontal struct {
	left, right fix.Mark
	danger      angle.Position
	margin      sailing.Distance // to keep from the danger
}

// Clear reports whether an angle is on the safe side of the limit, or on it. An angle below 0° or
// above 180° is never clear, and if the bound is invalid, no angle is.
func (d Angle) Clear(a angle.Angle) bool {
	return a >= 0 && a <= angle.Turn/2 && d.Bound.clear(a-d.Limit)
}

// Round returns the danger angle with its limit rounded to a unit, to the safe side. If the unit
// is not above zero, the limit is as before.
func (d Angle) Round(unit angle.Angle) Angle {
	d.Limit = d.Bound.safely(d.Limit, unit)
	return d
}

// String returns the limit to a tenth of a minute, rounded to the safe side: not more than
// 0°32.4′.
func (d Angle) String() string {
	r := d.Round(angle.Minute / 10)
	return fmt.Sprintf("%s %.1v", r.Bound.words(), r.Limit)
}

// VerticalAngle returns the vertical danger angle: the angle of an object of known height at a
// distance. To pass [Outside] the distance, keep the angle not more than the limit. To pass
// [Inside] it, between the object and a danger, keep the angle not less.
//
// The water line must be seen: the distance must not be beyond the [fix.Horizon] of the eye.
// Charted heights are above high water. At a lower tide the object stands higher, and the
// vessel is farther off than the angle says. That is safe outside, and unsafe inside.
//
// If the height or the distance is not above zero, it returns an [*angle.RangeError]. If the limit
// outside is under 0.1′, which no sextant shows, it returns an [*Error]. If pass is neither Outside
// nor Inside, it returns an [*angle.ParseError].
func VerticalAngle(height, distance sailing.Distance, pass Pass) (Angle, error) {
	bound, err := pass.bound()
	if err != nil {
		return Angle{}, err
	}
	if !(height > 0 && height <= 10_000) {
		return Angle{}, &angle.RangeError{What: "height of the object", Value: height.Metres(), Accepted: "metres above 0, at most 10000"}
	}
	if !(distance > 0) || math.IsInf(float64(distance), 0) {
		return Angle{}, &angle.RangeError{What: "distance in metres", Value: float64(distance), Accepted: "above 0"}
	}
	a, err := angle.Atan2(float64(height), float64(distance))
	if err != nil {
		return Angle{}, err
	}
	if pass == Outside && a < angle.Minute/10 {
		return Angle{}, &Error{fmt.Sprintf("an object of %g m at %v subtends less than 0.1′, which no sextant shows: take a higher object or a nearer one", height.Metres(), distance)}
	}
	return Angle{Limit: a, Bound: bound, vertical: vertical{height, distance}}, nil
}

// HorizontalAngle returns the horizontal danger angle between two marks that keeps the vessel a
// margin away from a danger. To pass [Outside], with the danger between the vessel and the marks,
// keep the angle not more than the limit. The limit is the least angle of the marks from anywhere
// within the margin. To pass [Inside], between the marks and the danger, keep it not less than the
// greatest.
//
// It returns an [*Error] if the marks are at one place, or if a mark lies within the margin. It
// also does if the line through the marks passes within the margin: between them to pass inside,
// beyond them to pass outside. If the margin is not above zero, it returns an [*angle.RangeError].
// If pass is neither Outside nor Inside, it returns an [*angle.ParseError].
func HorizontalAngle(left, right fix.Mark, danger angle.Position, margin sailing.Distance, pass Pass) (Angle, error) {
	bound, err := pass.bound()
	if err != nil {
		return Angle{}, err
	}
	if err := checkMargin(margin); err != nil {
		return Angle{}, err
	}
	if left.Position.SamePlace(right.Position) {
		return Angle{}, &Error{fmt.Sprintf("%v and %v are at one place: choose two marks apart", left, right)}
	}
	a, b := earth.PlaceOf(left.Position), earth.PlaceOf(right.Position)
	f := earth.FrameAt(earth.Upright(danger))
	for _, m := range []fix.Mark{left, right} {
		if d, _, _ := f.Surface(earth.PlaceOf(m.Position)); d <= float64(margin) {
			return Angle{}, &Error{fmt.Sprintf("%v lies within the margin of %v: choose another mark", m, margin)}
		}
	}
	subtends := func(direction float64) float64 {
		s, c := math.Sincos(direction)
		at := earth.FrameAt(f.Moved(float64(margin)*c, float64(margin)*s))
		return math.Abs(math.Remainder(at.Sight(b).Azimuth-at.Sight(a).Azimuth, 2*math.Pi))
	}
	sign := 1.0 // to find the least
	if pass == Inside {
		sign = -1 // to find the greatest
	}
	d := Angle{Bound: bound, horizontal: horizontal{left, right, danger, margin}}
	if d.Limit, err = angle.Radians(subtends(leastRound(func(direction float64) float64 { return sign * subtends(direction) }))); err != nil {
		return Angle{}, &Error{err.Error()}
	}
	if pass == Outside && d.Limit < angle.Minute || pass == Inside && d.Limit > angle.Turn/2-angle.Minute {
		return Angle{}, &Error{fmt.Sprintf("the line through %v and %v passes within the margin, so that no angle keeps clear of it: choose other marks", left, right)}
	}
	return d, nil
}

// leastRound returns the direction in radians in which a value is least. It looks all round
// in steps of 2°, then closes in on the best by thirds.
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
