package adjust

import (
	"errors"
	"fmt"
	"math"
	"reflect"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

// An EarthField is the earth's magnetic field at a place, such as a [lubberline.example/wmm.Field].
// Functions return a [*FieldError] if it is nil, if its horizontal intensity is below 1 nT or not
// finite, or if it has no inclination.
type EarthField interface {
	H() float64              // horizontal intensity, in nanotesla
	I() (angle.Angle, error) // inclination (dip), positive down
}

// Forces are the magnetic forces of the vessel at the compass, in parts that change differently
// with the place. The exact coefficients B and C have two parts each. One is from the vessel's
// permanent magnetism. The other is from vertical soft iron, which the vertical field of the place
// magnetizes:
//
//	B = (P/λ + (c/λ) Z) / H
//	C = (Q/λ + (f/λ) Z) / H
//
// with H and Z the horizontal and the vertical intensity, Z positive down
// (Poisson's equations, in the Admiralty Manual for the Deviations of the
// Compass; cited from memory). A, D and E come from horizontal soft iron and are the same
// everywhere. λ, the mean part of the earth's horizontal force at the compass, is taken as the same
// everywhere too.
type Forces struct {
	A float64 `json:"A"` // exact coefficient
	D float64 `json:"D"` // exact coefficient
	E float64 `json:"E"` // exact coefficient

	PermanentAhead     float64 `json:"permanentAheadNanotesla"`     // P/λ, nanotesla, positive toward the bow
	PermanentStarboard float64 `json:"permanentStarboardNanotesla"` // Q/λ, nanotesla, positive to starboard
	InducedAhead       float64 `json:"inducedAhead"`                // c/λ, force ahead for a unit of Z
	InducedStarboard   float64 `json:"inducedStarboard"`            // f/λ, force to starboard for a unit of Z
}

// A FieldError reports a field of the earth from which there is no answer.
type FieldError struct {
	Reason string
	Err    error // the field's own error, if it has one
}

// Error says what is wrong, and what to give.
func (e *FieldError) Error() string { return "deviation: earth's field: " + e.Reason }

// Unwrap returns the field's own error.
func (e *FieldError) Unwrap() error { return e.Err }

// components returns H and Z.
func components(field EarthField) (h, z float64, err error) {
	if v := reflect.ValueOf(field); field == nil || v.Kind() == reflect.Pointer && v.IsNil() {
		return 0, 0, &FieldError{Reason: "the field is missing; give that of the place, such as a wmm.Field"}
	}
	h = field.H()
	if !(h >= 1) || math.IsInf(h, 0) {
		return 0, 0, &FieldError{Reason: fmt.Sprintf("the horizontal intensity is %v nT; it must be at least 1, because near a dip pole no compass points", h)}
	}
	dip, err := field.I()
	if err != nil {
		return 0, 0, &FieldError{fmt.Sprintf("no inclination: %v", err), err}
	}
	s, c := dip.SinCos()
	if c <= 0 {
		return 0, 0, &FieldError{Reason: fmt.Sprintf("the inclination is %v; it must be between 90° up and 90° down", dip)}
	}
	// No field of the earth is stronger than some 70,000 nT; this is far beyond it.
	if z = h * s / c; !(math.Hypot(h, z) <= 1e9) {
		return 0, 0, &FieldError{Reason: fmt.Sprintf("the field has %v nT horizontally at inclination %v; give at most 1e9 nT in all", h, dip)}
	}
	return h, z, nil
}

// mostCoefficient is the largest accepted exact coefficient. A compass stops pointing at about 1.
const mostCoefficient = 1000

// checkExact returns an error for coefficients that are not finite, or too large for any compass.
func checkExact(k deviation.ExactCoefficients) error {
	for i, x := range []float64{k.A, k.B, k.C, k.D, k.E} {
		if !(math.Abs(x) <= mostCoefficient) {
			return &angle.RangeError{What: "exact coefficient " + "ABCDE"[i:i+1], Value: x, Accepted: fmt.Sprintf("−%d to %d", mostCoefficient, mostCoefficient)}
		}
	}
	return nil
}

// leastDifference is the least difference of Z between two places, as a part of the greater H, for
// the two parts to be separated. Suppose a coefficient is wrong by ½° at both places. The error of
// the induced part is then at most √2 · ½°/0.5 = 1.4° for each unit of Z/H.
const leastDifference = 0.5

// Separate finds the permanent and the induced parts of B and C from the exact coefficients at two
// places. A, D and E are the means of both. If Z differs by less than half of the greater H, or if
// a field is invalid, it returns a [*FieldError].
func Separate(first deviation.ExactCoefficients, at EarthField, second deviation.ExactCoefficients, there EarthField) (Forces, error) {
	h1, z1, err := components(at)
	if err != nil {
		return Forces{}, err
	}
	h2, z2, err := components(there)
	if err != nil {
		return Forces{}, err
	}
	if err := errors.Join(checkExact(first), checkExact(second)); err != nil {
		return Forces{}, err
	}
	if least := leastDifference * max(h1, h2); !(math.Abs(z1-z2) >= least) {
		return Forces{}, &FieldError{Reason: fmt.Sprintf("Z is %.0f nT and %.0f nT; give two places where it differs by at least %.0f nT", z1, z2, least)}
	}
	f := Forces{A: (first.A + second.A) / 2, D: (first.D + second.D) / 2, E: (first.E + second.E) / 2}
	f.PermanentAhead, f.InducedAhead = separate(first.B*h1, z1, second.B*h2, z2)
	f.PermanentStarboard, f.InducedStarboard = separate(first.C*h1, z1, second.C*h2, z2)
	return f, nil
}

// separate solves force = permanent + induced·z for two places.
func separate(force1, z1, force2, z2 float64) (permanent, induced float64) {
	induced = (force2 - force1) / (z2 - z1)
	return force1 - induced*z1, induced
}

// AllPermanent takes all of B and C as permanent magnetism, for a compass that was swung at one
// place only. If the two parts act the same way, the true value elsewhere lies between this and
// [AllInduced]. If the field is invalid, it returns a [*FieldError]; if a coefficient is not
// finite, an [*angle.RangeError].
func AllPermanent(k deviation.ExactCoefficients, at EarthField) (Forces, error) {
	h, _, err := components(at)
	if err == nil {
		err = checkExact(k)
	}
	if err != nil {
		return Forces{}, err
	}
	return Forces{A: k.A, D: k.D, E: k.E, PermanentAhead: k.B * h, PermanentStarboard: k.C * h}, nil
}

// AllInduced takes all of B and C as induced in vertical soft iron. If the vertical field is below
// 1 nT, so that nothing is induced, or if the field is invalid, it returns a [*FieldError]. If a
// coefficient is not finite, it returns an [*angle.RangeError].
func AllInduced(k deviation.ExactCoefficients, at EarthField) (Forces, error) {
	h, z, err := components(at)
	if err == nil {
		err = checkExact(k)
	}
	if err != nil {
		return Forces{}, err
	}
	if math.Abs(z) < 1 {
		return Forces{}, &FieldError{Reason: fmt.Sprintf("the vertical intensity is %.1f nT; nothing is induced there", z)}
	}
	return Forces{A: k.A, D: k.D, E: k.E, InducedAhead: k.B * h / z, InducedStarboard: k.C * h / z}, nil
}

// At returns the exact coefficients at a place. If the field is invalid, it returns a
// [*FieldError]; if a coefficient is above 1000 or not finite, an [*angle.RangeError]. With some
// coefficients a compass does not point; they return an error when asked for a deviation.
func (f Forces) At(place EarthField) (deviation.ExactCoefficients, error) {
	h, z, err := components(place)
	if err != nil {
		return deviation.ExactCoefficients{}, err
	}
	k := deviation.ExactCoefficients{
		A: f.A, D: f.D, E: f.E,
		B: (f.PermanentAhead + f.InducedAhead*z) / h,
		C: (f.PermanentStarboard + f.InducedStarboard*z) / h,
	}
	if err := checkExact(k); err != nil {
		return deviation.ExactCoefficients{}, err
	}
	return k, nil
}
