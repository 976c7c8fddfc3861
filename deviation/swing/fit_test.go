package swing_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"lubberline.example/deviation/internal/devtest"
	"lubberline.example/deviation/swing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

func TestFitReproducesCoefficients(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		order := rapid.IntRange(1, swing.MaxOrder).Draw(t, "order")
		b := devtest.DrawSeries(t, order, 3)
		n := 2*order + 1 + rapid.IntRange(3, 20).Draw(t, "more")
		fit := devtest.Fit(t, devtest.Swing(devtest.DrawSpread(t, n), b.At), swing.FitOptions{Order: order})
		if fit.Order != order || fit.Curve.Order() != order || fit.DegreesOfFreedom != n-2*order-1 {
			t.Fatalf("order %d, %d degrees of freedom", fit.Order, fit.DegreesOfFreedom)
		}
		for i, got := range devtest.AllCoefficients(fit.Curve) {
			if !devtest.Near(got, b[i], 1e-9) { // headings and deviations are kept to 1e-11° or better; spread may magnify that some
				t.Fatalf("coefficient %d: %v, want %v", i, got, b[i])
			}
		}
		for _, r := range fit.Residuals {
			if !devtest.Near(r.Residual.Degrees(), 0, 1e-9) { // as above
				t.Fatalf("residual %v", r.Residual)
			}
		}
	})
}

// The same answer by singular values, where the fit uses a QR factorisation.
func TestAFitIsTheLeastSquaresFoundAnotherWay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		order := rapid.IntRange(1, 4).Draw(t, "order")
		p := 2*order + 1
		headings := devtest.DrawSpread(t, p+rapid.IntRange(3, 15).Draw(t, "more"))
		swung := devtest.Swing(headings, devtest.DrawSeries(t, 5, 2).At)
		weighted := rapid.Bool().Draw(t, "weighted")
		n := len(swung)
		common := rapid.Bool().Draw(t, "common uncertainty")
		options := swing.FitOptions{Order: order}
		if common {
			options.Common = devtest.Sigma(devtest.Deg / 2)
		}
		sd := make([]float64, n)
		for i := range sd {
			sd[i] = 1
		}
		if weighted {
			devtest.State(swung, func(i int) angle.Angle {
				u := devtest.DrawBetween(t, devtest.Deg/2, devtest.Deg, "uncertainty")
				sd[i] = u.Degrees()
				return u
			})
		}
		fit := devtest.Fit(t, swung, options)

		x, y := mat.NewDense(n, p, nil), mat.NewDense(n, 1, nil)
		for i, o := range swung {
			for j, v := range devtest.Basis(p, o.Heading.FromNorth()) {
				x.Set(i, j, v/sd[i])
			}
			y.Set(i, 0, o.Deviation.Degrees()/sd[i])
		}
		var svd mat.SVD
		if !svd.Factorize(x, mat.SVDThin) {
			t.Fatal("no singular values")
		}
		var beta, left mat.Dense
		svd.SolveTo(&beta, y, p)
		for i, got := range devtest.AllCoefficients(fit.Curve) {
			if !devtest.Near(got, beta.At(i, 0), 1e-9) { // two ways of solving well-conditioned equations in floating point
				t.Fatalf("coefficient %d: %v, want %v", i, got, beta.At(i, 0))
			}
		}
		left.Mul(x, &beta)
		left.Sub(y, &left)
		squares := 0.0
		for i := range n {
			squares += left.At(i, 0) * left.At(i, 0)
			if got := fit.Residuals[i].Residual.Degrees() / sd[i]; !devtest.Near(got, left.At(i, 0), 1e-8) { // as above
				t.Fatalf("residual %d: %v, want %v", i, got, left.At(i, 0))
			}
		}
		if !devtest.Near(swing.Condition(fit), svd.Cond(), 1e-6*svd.Cond()) { // scaling all weights leaves it
			t.Fatalf("condition %v, want %v", swing.Condition(fit), svd.Cond())
		}
		if weighted && !devtest.Near(fit.ChiSquare, squares, 1e-6*squares+1e-9) { // squares of small residuals
			t.Fatalf("χ² %v, want %v", fit.ChiSquare, squares)
		}
		if !weighted && fit.ChiSquare != 0 {
			t.Fatal("χ² of nothing stated")
		}

		var normal, inverse mat.Dense
		normal.Mul(x.T(), x)
		if err := inverse.Inverse(&normal); err != nil {
			t.Fatal(err)
		}
		if slices.ContainsFunc(fit.Working().Warnings, func(w working.Warning) bool {
			return w.Kind == swing.LackOfFit || w.Kind == swing.SerialCorrelation
		}) {
			return // they are allowed for
		}
		for i := range p {
			for j := range p {
				// Twice the uncertainty holds 95 %: Student's point over the normal one.
				factor := distuv.StudentsT{Sigma: 1, Nu: float64(n - p)}.Quantile(0.975) / distuv.UnitNormal.Quantile(0.975)
				want := inverse.At(i, j) * squares / float64(n-p) * factor * factor
				if common && i == 0 && j == 0 {
					want += 0.25 // ½° squared, to A only
				}
				got, ok := fit.Covariance(i, j)
				if !ok || !devtest.Near(got, want, 1e-8) { // squares of small residuals, twice solved
					t.Fatalf("covariance %d, %d: %v %v, want %v", i, j, got, ok, want)
				}
			}
		}
		uncertainties, ok := fit.StandardErrors()
		v, _ := fit.Covariance(1, 1)
		if !ok || !devtest.Near(uncertainties.B.Degrees(), math.Sqrt(v), 1e-9) { // rounding of an Angle
			t.Fatalf("standard error of B %v %v", uncertainties.B, ok)
		}
		// On every heading the stated uncertainty is that of xᵀ Cov x.
		z := devtest.DrawHeading(t, "heading")
		row := devtest.Basis(p, z)
		variance := 0.0
		for i := range p {
			for j := range p {
				c, _ := fit.Covariance(i, j)
				variance += row[i] * row[j] * c
			}
		}
		d, err := fit.Curve.OnCompass(angle.CompassFrom(z))
		u, stated := d.Uncertainty().Sigma()
		if err != nil || !stated || !devtest.Near(u.Degrees(), math.Sqrt(variance), 1e-6) { // the root of a sum of differences
			t.Fatalf("uncertainty %v, want %v", u.Degrees(), math.Sqrt(variance))
		}
		// The residuals are orthogonal to the basis, and the leverages sum to p.
		leverage := 0.0
		dot := make([]float64, p)
		for i, r := range fit.Residuals {
			leverage += r.Leverage
			for j, v := range devtest.Basis(p, r.Heading.FromNorth()) {
				dot[j] += v * r.Residual.Degrees() / sd[i] / sd[i]
			}
			if r.Leverage < 0 || r.Leverage > 1 || r.LeftOut {
				t.Fatalf("leverage %v, rejected %v", r.Leverage, r.LeftOut)
			}
		}
		for j, v := range dot {
			if !devtest.Near(v, 0, 1e-8) { // a sum of rounded residuals
				t.Fatalf("residuals times basis %d: %v", j, v)
			}
		}
		if !devtest.Near(leverage, float64(p), 1e-9) { // the trace of a projection
			t.Fatalf("leverages sum to %v, want %d", leverage, p)
		}
	})
}

func TestRotationLeavesResiduals(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		order := rapid.IntRange(1, 4).Draw(t, "order")
		swung := devtest.Swing(devtest.DrawSpread(t, 2*order+1+rapid.IntRange(3, 10).Draw(t, "more")), devtest.DrawSeries(t, 5, 2).At)
		by := devtest.Kinds[rapid.IntRange(0, 1).Draw(t, "by")]
		turn := devtest.DrawHeading(t, "turn")
		turned := slices.Clone(swung)
		for i := range turned {
			turned[i].Heading = turned[i].Heading.Add(turn)
		}
		a, err1 := swing.NewFit(swung, swing.FitOptions{Order: order, By: by})
		b, err2 := swing.NewFit(turned, swing.FitOptions{Order: order, By: by})
		if (err1 == nil) != (err2 == nil) {
			t.Skip("at the limit of what is spread well enough, which is looked through at steps of 5°")
		}
		if err1 != nil {
			return
		}
		for i := range a.Residuals {
			if !devtest.Near(a.Residuals[i].Residual.Degrees(), b.Residuals[i].Residual.Degrees(), 1e-8) || // two solutions in floating point
				!devtest.Near(a.Residuals[i].Leverage, b.Residuals[i].Leverage, 1e-8) { // as above
				t.Fatalf("residual %v, turned %v", a.Residuals[i], b.Residuals[i])
			}
		}
		if !devtest.Near(a.StandardDeviation.Degrees(), b.StandardDeviation.Degrees(), 1e-8) { // as above
			t.Fatalf("%v, turned %v", a.StandardDeviation, b.StandardDeviation)
		}
	})
}

func TestScalingTheWeightsLeavesTheAnswer(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	swung := devtest.Swing(devtest.Even(16, 0), devtest.Usual)
	devtest.AddNoise(random, swung, 0.5)
	devtest.State(swung, func(i int) angle.Angle { return devtest.Deg * angle.Angle(2+i%3) / 4 })
	a := devtest.Fit(t, swung, swing.FitOptions{})
	devtest.State(swung, func(i int) angle.Angle { return 3 * devtest.Deg * angle.Angle(2+i%3) / 4 })
	b := devtest.Fit(t, swung, swing.FitOptions{})
	ka, kb := a.Curve.Coefficients(), b.Curve.Coefficients()
	for i, d := range []angle.Angle{ka.A - kb.A, ka.B - kb.B, ka.C - kb.C, ka.D - kb.D, ka.E - kb.E, a.StandardDeviation - b.StandardDeviation} {
		if !devtest.Near(d.Degrees(), 0, 1e-9) { // floating point
			t.Errorf("figure %d differs by %v", i, d)
		}
	}
	if !devtest.Near(a.ChiSquare, 9*b.ChiSquare, 1e-9*a.ChiSquare) { // floating point
		t.Errorf("χ² %v and %v", a.ChiSquare, b.ChiSquare)
	}
	if !(a.ChiSquareProbability < b.ChiSquareProbability) {
		t.Errorf("probabilities %v and %v", a.ChiSquareProbability, b.ChiSquareProbability)
	}
}

// By the closed form of the chi-square distribution for an even number of
// degrees of freedom: exp(−x/2) Σ (x/2)ⁱ/i!.
func TestTheProbabilityOfChiSquare(t *testing.T) {
	swung := devtest.Swing(devtest.Even(9, 0), devtest.Usual)
	devtest.AddNoise(rand.New(rand.NewPCG(3, 4)), swung, 0.5)
	devtest.State(swung, func(int) angle.Angle { return devtest.Deg / 2 })
	fit := devtest.Fit(t, swung, swing.FitOptions{})
	half := fit.ChiSquare / 2
	if want := math.Exp(-half) * (1 + half); fit.DegreesOfFreedom != 4 || !devtest.Near(fit.ChiSquareProbability, want, 1e-9) { // the library's incomplete gamma
		t.Errorf("%d degrees of freedom, χ² %v, probability %v, want %v", fit.DegreesOfFreedom, fit.ChiSquare, fit.ChiSquareProbability, want)
	}
}

func TestConditionOfEvenHeadings(t *testing.T) {
	for _, n := range []int{8, 12, 16, 24, 36} {
		fit := devtest.Fit(t, devtest.Swing(devtest.Even(n, 3*devtest.Deg), devtest.Usual), swing.FitOptions{})
		if !devtest.Near(swing.Condition(fit), math.Sqrt2, 1e-9) { // floating point
			t.Errorf("%d headings: condition %v", n, swing.Condition(fit))
		}
	}
}

// A curve of order 2 leaves out 3°·sin 4h, whose root mean square is 3°/√2 = 2.1°.
func TestLackOfFitIsStated(t *testing.T) {
	swung := devtest.Swing(devtest.Even(16, 0), func(z angle.Angle) float64 { return 2*z.Sin() + 3*(4*z).Sin() })
	devtest.AddNoise(rand.New(rand.NewPCG(7, 7)), swung, 0.05)
	for _, w := range devtest.Fit(t, swung, swing.FitOptions{Order: 2}).Working().Warnings {
		if w.Kind == swing.LackOfFit {
			if !strings.Contains(w.Message, "differ by 2.1° more") {
				t.Error(w.Message)
			}
			return
		}
	}
	t.Error("no lack of fit")
}
