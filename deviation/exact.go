package deviation

import (
	"fmt"
	"math"

	"lubberline.example/angle"
	"lubberline.example/deviation/internal/harmonic"
	"lubberline.example/deviation/internal/say"
)

// ExactCoefficients are the coefficients in terms of forces, without a unit. Each is a force
// divided by the mean force to magnetic north at the compass. With the magnetic heading ζ and the
// compass heading ζ′ the deviation δ is
//
//	tan δ = (A + B sin ζ + C cos ζ + D sin 2ζ + E cos 2ζ)
//	      / (1 + B cos ζ − C sin ζ + D cos 2ζ − E sin 2ζ)
//
//	sin δ = A cos δ + B sin ζ′ + C cos ζ′ + D sin(2ζ′ + δ) + E cos(2ζ′ + δ)
//
// (Archibald Smith's formulas, in the Admiralty Manual for the Deviations of the Compass, which
// writes these coefficients in Gothic letters; cited from memory. Each follows from the other.)
// They hold for any size of deviation. For small deviations, the approximate [Coefficients] are
// nearly the same as angles.
//
// ExactCoefficients are a [Source] by compass and by magnetic heading. The zero value is a compass
// without deviation.
type ExactCoefficients struct {
	A float64 `json:"A"`
	B float64 `json:"B"`
	C float64 `json:"C"`
	D float64 `json:"D"`
	E float64 `json:"E"`
}

// OnMagnetic returns the deviation on a magnetic heading. If on that heading the vessel's force
// is as large as the earth's, the compass has no steady direction, or points more than 90°
// aside. It then returns an [*Error].
func (k ExactCoefficients) OnMagnetic(m angle.Magnetic) (Deviation, error) {
	s, c := m.FromNorth().SinCos()
	s2, c2 := 2*s*c, (c-s)*(c+s)
	east := k.A + k.B*s + k.C*c + k.D*s2 + k.E*c2
	north := 1 + k.B*c - k.C*s + k.D*c2 - k.E*s2
	d, err := angle.Atan2(east, north)
	if err != nil || !(north > 0) || math.IsInf(east, 0) || math.IsInf(north, 0) {
		return Deviation{}, k.pointless(ByMagnetic, m.FromNorth())
	}
	return East(d), nil
}

// OnCompass returns the deviation on a compass heading. It solves the second formula, which in sin
// δ and cos δ is
//
//	P sin δ − Q cos δ = R
//
// with P = 1 − D cos 2ζ′ + E sin 2ζ′, Q = A + D sin 2ζ′ + E cos 2ζ′ and
// R = B sin ζ′ + C cos ζ′. Its errors are those of OnMagnetic.
func (k ExactCoefficients) OnCompass(heading angle.Compass) (Deviation, error) {
	s, c := heading.FromNorth().SinCos()
	s2, c2 := 2*s*c, (c-s)*(c+s)
	p := 1 - k.D*c2 + k.E*s2
	q := k.A + k.D*s2 + k.E*c2
	r := k.B*s + k.C*c
	size := math.Hypot(p, q)
	if !(math.Abs(r) < size) {
		return Deviation{}, k.pointless(ByCompass, heading.FromNorth())
	}
	delta := math.Asin(r/size) + math.Atan2(q, p)
	d, err := angle.Radians(delta)
	if err != nil || d.Abs() > MaxDeviation {
		return Deviation{}, k.pointless(ByCompass, heading.FromNorth())
	}
	// The force must point the needle this way, not the other way round.
	sd, cd := math.Sincos(delta)
	along := cd + k.A*sd + k.B*c - k.C*s + k.D*(c2*cd-s2*sd) - k.E*(s2*cd+c2*sd)
	if !(along > 0) {
		return Deviation{}, k.pointless(ByCompass, heading.FromNorth())
	}
	return East(d), nil
}

// pointless returns the error of a heading on which the compass does not point.
func (k ExactCoefficients) pointless(by HeadingKind, heading angle.Angle) error {
	return &Error{Kind: NoSteadyHeading, By: by, Heading: heading, Row: -1, Reason: fmt.Sprintf("on %s the coefficients leave the compass no steady direction within 90° of magnetic north", say.Heading(by, heading))}
}

// String prints the coefficients to four decimals.
func (k ExactCoefficients) String() string {
	return fmt.Sprintf("A %+.4f  B %+.4f  C %+.4f  D %+.4f  E %+.4f", k.A, k.B, k.C, k.D, k.E)
}

// Approximate returns the approximate coefficients by compass heading. They fit the exact curve
// best on headings all round the circle. If the exact curve has no answer on some heading, it
// returns an [*Error].
func (k ExactCoefficients) Approximate() (Coefficients, error) {
	sum := make([]float64, 5)
	line := make([]float64, 5)
	for i := range harmonic.ExactSteps {
		h := angle.Turn / harmonic.ExactSteps * angle.Angle(i)
		d, err := k.OnCompass(angle.CompassFrom(h))
		if err != nil {
			return Coefficients{}, err
		}
		s, c := h.SinCos()
		harmonic.Basis(line, s, c)
		for j, x := range line {
			if j > 0 {
				x *= 2
			}
			sum[j] += x * float64(d.Angle()) / harmonic.ExactSteps
		}
	}
	return fromList(sum), nil
}

// Exact returns the exact coefficients that fit the curve of the approximate ones best. It uses
// least squares on compass headings all round the circle, since the second formula of
// [ExactCoefficients] is linear. Exact coefficients describe the forces on the compass; those of A
// to E do so only for small deviations. If a deviation exceeds 90°, or is 90° on every heading, it
// returns an [*Error].
//
// To the second order, for A and E zero, they are
//
//	B = sin B (1 + ½ sin D)   C = sin C (1 − ½ sin D)   D = sin D
//
// (Admiralty Manual, cited from memory; the third-order terms grow as the square
// of the deviation).
func (k Coefficients) Exact() (ExactCoefficients, error) {
	curve, err := k.Curve(ByCompass)
	if err != nil {
		return ExactCoefficients{}, err
	}
	var normal [5][6]float64
	for i := range harmonic.ExactSteps {
		h := angle.CompassFrom(angle.Turn / harmonic.ExactSteps * angle.Angle(i))
		d, _ := curve.OnCompass(h) // a curve by compass answers on all
		row, y := harmonic.ExactRow(h.FromNorth(), d.Angle())
		for j := range row {
			for l, x := range row {
				normal[j][l] += row[j] * x
			}
			normal[j][5] += row[j] * y
		}
	}
	b := solveNormal(&normal)
	for _, x := range b {
		if math.IsNaN(x) || math.IsInf(x, 0) { // a constant 90°: no force is along the compass
			return ExactCoefficients{}, &Error{Kind: NoSteadyHeading, By: ByCompass, Row: -1, Reason: fmt.Sprintf("no forces give a deviation of %v on every heading; give a smaller A", k.A)}
		}
	}
	return ExactCoefficients{b[0], b[1], b[2], b[3], b[4]}, nil
}

// solveNormal solves the normal equations of five coefficients, whose right side stands in
// the last column. Headings all round the circle make them well conditioned.
func solveNormal(n *[5][6]float64) (b [5]float64) {
	for i := range n {
		for j := i + 1; j < len(n); j++ {
			part := n[j][i] / n[i][i]
			for l := i; l < len(n[j]); l++ {
				n[j][l] -= part * n[i][l]
			}
		}
	}
	for i := len(n) - 1; i >= 0; i-- {
		sum := n[i][5]
		for l := i + 1; l < len(n); l++ {
			sum -= n[i][l] * b[l]
		}
		b[i] = sum / n[i][i]
	}
	return b
}
