package swing

import (
	"math"

	"lubberline.example/angle"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/harmonic"
)

// exactFrom is the largest deviation from which on a fit that chooses takes the form
// that forces make: with B of 8° and D of 3°, A to E leave 0.2°.
const exactFrom = 8 * angle.Degree

// takeExact makes the problem one of the exact form, if the deviations are large: what
// that form has beyond A to E is found from them, and taken from the observations, until
// A to E no longer change.
func (q *problem) takeExact() {
	for range 8 {
		f, _, err := q.fitOrder(2)
		if err != nil {
			return
		}
		k := f.Curve.Coefficients()
		if largest(k) < exactFrom {
			return
		}
		exact, bend, ok := exactOf(k, q.by)
		if !ok {
			q.exact, q.bend = nil, harmonic.Series{}
			return
		}
		var was float64
		if q.exact == nil {
			was = math.Inf(1)
		} else {
			was = math.Abs(exact.B-q.exact.B) + math.Abs(exact.C-q.exact.C) + math.Abs(exact.D-q.exact.D)
		}
		q.exact, q.bend = &exact, bend
		if was < 1e-9 {
			return
		}
	}
}

// exactOf finds the exact coefficients whose curve A to E follow best, and what that
// curve has beyond them. It is false where their compass does not point on some heading.
func exactOf(k deviation.Coefficients, by deviation.HeadingKind) (exact deviation.ExactCoefficients, bend harmonic.Series, ok bool) {
	series := listOf(k)
	want := series.List(five)
	guess := make([]float64, five)
	for i, v := range want {
		guess[i] = math.Sin(v / harmonic.Radian)
	}
	for range 40 {
		exact = deviation.ExactCoefficients{A: guess[0], B: guess[1], C: guess[2], D: guess[3], E: guess[4]}
		if bend, ok = seriesOf(exact, by); !ok {
			return exact, bend, false
		}
		most := 0.0
		for i, v := range bend.List(five) {
			off := (want[i] - v) / harmonic.Radian
			guess[i] += off
			most = max(most, math.Abs(off))
		}
		if most < 1e-11 {
			break
		}
	}
	bend.Constant = 0
	for i := range 2 {
		bend.Sin[i], bend.Cos[i] = 0, 0
	}
	return exact, bend, true
}

// seriesOf is the curve as harmonics, in units.
func seriesOf(k deviation.ExactCoefficients, by deviation.HeadingKind) (harmonic.Series, bool) {
	p := 2*harmonic.MaxOrder + 1
	sum, line := make([]float64, p), make([]float64, p)
	for i := range harmonic.ExactSteps {
		h := angle.Turn / harmonic.ExactSteps * angle.Angle(i)
		var d deviation.Deviation
		var err error
		if by == deviation.ByMagnetic {
			d, err = k.OnMagnetic(angle.MagneticFrom(h))
		} else {
			d, err = k.OnCompass(angle.CompassFrom(h))
		}
		if err != nil {
			return harmonic.Series{}, false
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
	return harmonic.From(sum), true
}

// listOf is the function that A to E make.
func listOf(k deviation.Coefficients) harmonic.Series {
	return harmonic.FromAngles(k.A, k.B, k.C, k.D, k.E)
}

// largest is the largest deviation that A to E make, east or west.
func largest(k deviation.Coefficients) angle.Angle {
	h := listOf(k)
	return h.Largest()
}
