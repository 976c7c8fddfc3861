package adjust

import (
	"errors"
	"fmt"
	"math"
	"reflect"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

// An EarthField is the earth's magnetic field at a place. A
// [lubberline.example/wmm.Field] is one. Functions refuse, with a [*FieldError],
// nil and a nil pointer, one whose horizontal intensity is under 1 nT or not finite, and
// one that has no inclination.
type EarthField interface {
	H() float64              // horizontal intensity, in nanotesla
	I() (angle.Angle, error) // inclination (dip), positive down
}

// Forces are what turns a compass, told apart by what they do elsewhere. The
// exact coefficients B and C have two parts each, from the ship's permanent
// magnetism and from vertical soft iron, which the vertical field of the place
// magnetizes:
//
//	B = (P/λ + (c/λ) Z) / H
//	C = (Q/λ + (f/λ) Z) / H
//
// with H and Z the horizontal and the vertical intensity, Z positive down
// (Poisson's equations, in the Admiralty Manual for the Deviations of the
// Compass; cited from memory). A, D and E come from horizontal soft iron and are
// the same everywhere. λ, the mean part of the earth's horizontal force that
// acts on the compass, is taken to be the same everywhere too.
type Forces struct {
	A float64 `json:"A"` // exact coefficient
	D float64 `json:"D"` // exact coefficient
	E float64 `json:"E"` // exact coefficient

	PermanentAhead     float64 `json:"permanentAheadNanotesla"`     // P/λ, nanotesla, positive toward the bow
	PermanentStarboard float64 `json:"permanentStarboardNanotesla"` // Q/λ, nanotesla, positive to starboard
	InducedAhead       float64 `json:"inducedAhead"`                // c/λ, force ahead for a unit of Z
	InducedStarboard   float64 `json:"inducedStarboard"`            // f/λ, force to starboard for a unit of Z
}

// A FieldError reports fields of the earth that the answer can't be had from.
type FieldError struct {
	Reason string
	Err    error // the field's own error, if it has one
}

// Error says what is wrong and what is accepted.
func (e *FieldError) Error() string { return "deviation: earth's field: " + e.Reason }

// Unwrap returns the field's own error.
func (e *FieldError) Unwrap() error { return e.Err }

// components returns H and Z.
func components(field EarthField) (h, z float64, err error) {
	if v := reflect.ValueOf(field); field == nil || v.Kind() == reflect.Pointer && v.IsNil() {
		return 0, 0, &FieldError{Reason: "none given: want that of the place, such as a field model's"}
	}
	h = field.H()
	if !(h >= 1) || math.IsInf(h, 0) {
		return 0, 0, &FieldError{Reason: fmt.Sprintf("horizontal intensity %v nT: want at least 1; near a dip pole no compass points", h)}
	}
	dip, err := field.I()
	if err != nil {
		return 0, 0, &FieldError{fmt.Sprintf("no inclination: %v", err), err}
	}
	s, c := dip.SinCos()
	if c <= 0 {
		return 0, 0, &FieldError{Reason: fmt.Sprintf("inclination %v: want between 90° up and 90° down", dip)}
	}
	// No field of the earth is stronger than some 70,000 nT; this is far beyond it.
	if z = h * s / c; !(math.Hypot(h, z) <= 1e9) {
		return 0, 0, &FieldError{Reason: fmt.Sprintf("horizontal intensity %v nT at inclination %v: want a field of at most 1e9 nT", h, dip)}
	}
	return h, z, nil
}

// mostCoefficient is the largest exact coefficient or force, as a part of the earth's, that
// is worked with: a compass stops pointing at about 1.
const mostCoefficient = 1000

// checkExact refuses coefficients that are not finite, or beyond all compasses.
func checkExact(k deviation.ExactCoefficients) error {
	for i, x := range []float64{k.A, k.B, k.C, k.D, k.E} {
		if !(math.Abs(x) <= mostCoefficient) {
			return &angle.RangeError{What: "exact coefficient " + "ABCDE"[i:i+1], Value: x, Accepted: fmt.Sprintf("−%d to %d", mostCoefficient, mostCoefficient)}
		}
	}
	return nil
}

// leastDifference is by how much Z must differ between two places, as a part of
// the greater H, for the two parts to be told apart: errors of ½° in a coefficient
// at both then make one of at most √2 · ½°/0.5 = 1.4° for each unit of Z/H in the
// induced part.
const leastDifference = 0.5

// Separate tells the permanent from the induced part of B and C, from the exact
// coefficients at two places. A, D and E are the mean of both. The places must
// differ in Z by at least half of the greater H: less, and the fields that no
// [EarthField] may be, are refused with a [*FieldError].
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
		return Forces{}, &FieldError{Reason: fmt.Sprintf("Z is %.0f nT and %.0f nT: want two places where it differs by %.0f nT or more", z1, z2, least)}
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

// AllPermanent takes B and C to be permanent magnetism altogether, for a compass
// that was swung at one place only. With [AllInduced] it brackets what the two
// parts may do elsewhere where they pull the same way. It refuses the fields that no
// [EarthField] may be, with a [*FieldError], and
// coefficients that are not finite, with an [*angle.RangeError].
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

// AllInduced takes B and C to be induced in vertical soft iron altogether. It
// refuses a place with less than 1 nT of vertical field, where there is nothing
// to induce it, and the fields that no [EarthField] may be, with a [*FieldError], and
// coefficients that are not finite, with an [*angle.RangeError].
func AllInduced(k deviation.ExactCoefficients, at EarthField) (Forces, error) {
	h, z, err := components(at)
	if err == nil {
		err = checkExact(k)
	}
	if err != nil {
		return Forces{}, err
	}
	if math.Abs(z) < 1 {
		return Forces{}, &FieldError{Reason: fmt.Sprintf("vertical intensity %.1f nT: nothing is induced there", z)}
	}
	return Forces{A: k.A, D: k.D, E: k.E, InducedAhead: k.B * h / z, InducedStarboard: k.C * h / z}, nil
}

// At returns the exact coefficients that the forces have at a place. It refuses the
// fields that no [EarthField] may be, with a [*FieldError]; coefficients
// beyond 1000 or not finite are an [*angle.RangeError]. The coefficients may be such that the compass does not point there; asked for a deviation they say so.
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
