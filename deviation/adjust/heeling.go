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
// where D is the exact coefficient and θ the dip, positive down. μ and λ are the mean vertical and
// horizontal force at the compass, as parts of the earth's (Archibald Smith's formula; cited from
// memory). λ and μ must be finite and above zero, D from −1 to 1, and the dip less than 90° either
// way. Otherwise it returns an [*angle.RangeError].
func NewHeeling(d, mu, lambda float64, dip angle.Angle) (Heeling, error) {
	s, c := dip.SinCos()
	switch {
	case !(lambda > 0) || math.IsInf(lambda, 0):
		return 0, &angle.RangeError{What: "λ", Value: lambda, Accepted: "a figure above 0, near 1: the mean horizontal force at the compass, as a part of the earth's"}
	case !(mu > 0) || math.IsInf(mu, 0):
		return 0, &angle.RangeError{What: "μ", Value: mu, Accepted: "a figure above 0, near 1: the mean vertical force at the compass, as a part of the earth's"}
	case !(math.Abs(d) <= 1):
		return 0, &angle.RangeError{What: "exact coefficient D", Value: d, Accepted: "−1 to 1"}
	case dip.Abs() >= 90*angle.Degree || c < 1e-6:
		return 0, &angle.RangeError{What: "dip in degrees", Value: dip.Degrees(), Accepted: "less than 90 up or down"}
	}
	j := (d + mu/lambda - 1) * s / c
	if !(math.Abs(j) <= mostHeeling) {
		return 0, &angle.RangeError{What: "heeling coefficient", Value: j, Accepted: fmt.Sprintf("at most %d degrees for each degree of heel; look at D, μ, λ and the dip", mostHeeling)}
	}
	return Heeling(j), nil
}

// mostHeeling is the largest accepted heeling coefficient. At 90° for each degree of heel a compass
// is useless.
const mostHeeling = 90

// HeelingFrom returns the heeling coefficient from what a heel added to the deviation on one
// compass heading. Near east and west heel adds almost nothing. If the heading is within 30° of
// them, or the heel is not from 1° to 45°, it returns an [*angle.RangeError]. If the side is invalid,
// it returns an [*angle.ParseError].
func HeelingFrom(added deviation.Deviation, on angle.Compass, heel angle.Angle, high angle.Side) (Heeling, error) {
	if err := checkSide(high); err != nil {
		return 0, err
	}
	_, c := on.FromNorth().SinCos()
	if math.Abs(c) < 0.5 {
		return 0, &angle.RangeError{What: "heading of a heel in degrees", Value: on.Degrees(), Accepted: "one within 60 of north or south, where heel acts"}
	}
	if heel < angle.Degree || heel > 45*angle.Degree {
		return 0, &angle.RangeError{What: "heel in degrees", Value: heel.Degrees(), Accepted: "1 to 45"}
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
