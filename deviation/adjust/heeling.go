package adjust

import (
	"fmt"
	"math"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

// Heeling is the heeling coefficient J: the deviation in degrees that each degree of heel adds on
// north and south by compass. It is positive if the needle's north end is drawn to the high side.
//
// On other headings the effect varies as the cosine of the compass heading. It is greatest on north
// and south, and zero on east and west (Admiralty Manual for the Deviations of the Compass, cited
// from memory). With the zero value, heel has no effect.
type Heeling float64

// NewHeeling returns the heeling coefficient
//
//	J = (D + μ/λ − 1) tan θ
//
// where D is the exact coefficient, μ and λ are the mean vertical and horizontal force at the
// compass as parts of the earth's, and θ is the dip (Archibald Smith's formula; cited from memory).
// If λ or μ is not above zero, or the dip is 90° or more, it returns a [*FieldError].
func NewHeeling(d, mu, lambda float64, dip angle.Angle) (Heeling, error) {
	s, c := dip.SinCos()
	switch {
	case !(lambda > 0) || !(mu > 0) || math.IsInf(lambda, 0) || math.IsInf(mu, 0):
		return 0, &FieldError{Reason: fmt.Sprintf("μ is %v and λ is %v; both must be above 0, near 1", mu, lambda)}
	case math.IsNaN(d) || math.Abs(d) > 1:
		return 0, &FieldError{Reason: fmt.Sprintf("the exact coefficient D is %v; give −1 to 1", d)}
	case dip.Abs() >= 90*angle.Degree || c < 1e-6:
		return 0, &FieldError{Reason: fmt.Sprintf("the dip is %v; give less than 90°", dip)}
	}
	j := (d + mu/lambda - 1) * s / c
	if !(math.Abs(j) <= mostHeeling) {
		return 0, &FieldError{Reason: fmt.Sprintf("the heeling coefficient is %v with D %v, μ %v, λ %v and dip %v; it must be at most %v degrees for each degree of heel", j, d, mu, lambda, dip, mostHeeling)}
	}
	return Heeling(j), nil
}

// mostHeeling is the largest accepted heeling coefficient. At 90° for each degree of heel a compass
// is useless.
const mostHeeling = 90

// HeelingFrom returns the heeling coefficient from what a heel added to the deviation on one
// compass heading. Near east and west heel adds almost nothing. If the heading is within 30° of
// them, or the heel is not from 1° to 45°, it returns a [*FieldError]. If the side is invalid, it
// returns an [*angle.ParseError].
func HeelingFrom(added deviation.Deviation, on angle.Compass, heel angle.Angle, high angle.Side) (Heeling, error) {
	if err := checkSide(high); err != nil {
		return 0, err
	}
	_, c := on.FromNorth().SinCos()
	if math.Abs(c) < 0.5 {
		return 0, &FieldError{Reason: fmt.Sprintf("the heading is %v; give one within 60° of north or south, where heel acts", on)}
	}
	if heel < angle.Degree || heel > 45*angle.Degree {
		return 0, &FieldError{Reason: fmt.Sprintf("the heel is %v; give 1° to 45°", heel)}
	}
	return Heeling(added.Angle().Degrees() / (heel.Degrees() * c * toEast(high))), nil
}

// checkSide returns an error if side is not a side of the vessel.
func checkSide(side angle.Side) error {
	if side != angle.Starboard && side != angle.Port {
		return &angle.ParseError{What: "side of the vessel", Input: string(side), Kind: angle.UnknownWord, Want: "angle.Starboard or angle.Port"}
	}
	return nil
}

// toEast returns +1 if the side is to the east when the vessel heads north, and −1 otherwise.
func toEast(side angle.Side) float64 {
	if side == angle.Port {
		return -1
	}
	return 1
}

// Adds returns what a heel adds to the deviation on a compass heading. The argument high is the
// high side of the vessel. A negative heel is to the other side. If the heel is not from −90° to
// 90°, or the coefficient is not finite or too large, it returns an [*angle.RangeError]. If the side
// is invalid, it returns an [*angle.ParseError].
func (j Heeling) Adds(on angle.Compass, heel angle.Angle, high angle.Side) (deviation.Deviation, error) {
	if err := checkSide(high); err != nil {
		return deviation.Deviation{}, err
	}
	if heel.Abs() > 90*angle.Degree {
		return deviation.Deviation{}, &angle.RangeError{What: "heel in degrees", Value: heel.Degrees(), Accepted: "−90 to 90"}
	}
	_, c := on.FromNorth().SinCos()
	a, err := heel.Scale(float64(j) * c * toEast(high))
	if err != nil {
		return deviation.Deviation{}, &angle.RangeError{What: "heeling coefficient", Value: float64(j), Accepted: "a finite one, usually within ±3, in degrees for each degree of heel"}
	}
	return deviation.East(a), nil
}
