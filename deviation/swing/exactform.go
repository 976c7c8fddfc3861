package swing

import (
	"math"

	"lubberline.example/angle"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/harmonic"
)

// exactFrom is the limit above which a fit that chooses its order takes the exact form. With B of
// 8° and D of 3°, the curve of A to E differs from the exact one by 0.2°.
const exactFrom = 8 * angle.Degree

// takeExact changes the problem to the exact form if the deviations are large. It finds from A to E
// what the exact form adds to them, and subtracts this from the observations. It repeats this until
// A to E no longer change.
func (q *problem) takeExact() {
	for range 8 {
		f, _, err := q.curveOf(2)
		if err != nil {
			return
		}
		k := f.Curve.Coefficients()
		if h := listOf(k); math.Abs(h.Constant)+h.Bound() < float64(exactFrom)-1 || h.Largest() < exactFrom {
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

// exactOf finds the exact coefficients whose curve A to E follow best, and what that curve adds to
// A to E. It reports false if a compass with these coefficients has no directive force on some
// heading.
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

// seriesOf returns the curve as harmonics, in units.
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

// listOf returns the harmonics of A to E.
func listOf(k deviation.Coefficients) harmonic.Series {
	return harmonic.FromAngles(k.A, k.B, k.C, k.D, k.E)
}
