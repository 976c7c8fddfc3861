package deviation_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
)

// madeSeries is an invented deviation in degrees, by its constant and then the
// sine and cosine of each multiple of the heading.
type madeSeries []float64

// at is the series on a heading, summed term by term.
func (b madeSeries) at(z angle.Angle) float64 {
	sum := 0.0
	for i, x := range madeBasis(len(b), z) {
		sum += b[i] * x
	}
	return sum
}

// madeBasis is 1, sin z, cos z, sin 2z, cos 2z and so on, p of them.
func madeBasis(p int, z angle.Angle) []float64 {
	x := []float64{1}
	for k := 1; len(x) < p; k++ {
		kz := float64(k) * z.Radians()
		x = append(x, math.Sin(kz), math.Cos(kz))
	}
	return x
}

// madeEven is n headings at equal steps.
func madeEven(n int, first angle.Angle) []angle.Angle {
	var headings []angle.Angle
	for i := range n {
		headings = append(headings, (first + angle.Turn*angle.Angle(i)/angle.Angle(n)).Normalized())
	}
	return headings
}

// madeSwing is a swing of a deviation in degrees, without noise.
func madeSwing(headings []angle.Angle, east func(angle.Angle) float64) []deviation.Observation {
	var swing []deviation.Observation
	for _, z := range headings {
		swing = append(swing, deviation.Observation{Heading: angle.CompassFrom(z), Deviation: deviation.East(degrees(east(z)))})
	}
	return swing
}

// madeNoise adds noise of some standard deviation in degrees.
func madeNoise(random *rand.Rand, swing []deviation.Observation, sd float64) {
	for i, o := range swing {
		swing[i].Deviation = deviation.East(o.Deviation.Angle() + degrees(sd*random.NormFloat64())).WithUncertainty(o.Deviation.Uncertainty())
	}
}

// madeState states an uncertainty of each observation.
func madeState(swing []deviation.Observation, u func(i int) angle.Angle) {
	for i := range swing {
		swing[i].Deviation = swing[i].Deviation.WithUncertainty(Sigma(u(i)))
	}
}

func madeFit(t fails, swing []deviation.Observation, options deviation.FitOptions) *deviation.Fit {
	t.Helper()
	fit, err := deviation.NewFit(swing, options)
	if err != nil {
		t.Fatal(err)
	}
	return fit
}

// drawSpread draws at least n headings, no two of them near and none far: one in
// the middle half of each of n equal sectors.
func drawSpread(t *rapid.T, n int) []angle.Angle {
	first := drawHeading(t, "first sector")
	sector := angle.Turn / angle.Angle(n)
	var headings []angle.Angle
	for i := range n {
		headings = append(headings, (first + angle.Angle(i)*sector + drawBetween(t, sector/4, 3*sector/4, "in its sector")).Normalized())
	}
	return headings
}

func drawSeries(t *rapid.T, order int, most float64) madeSeries {
	b := make(madeSeries, 2*order+1)
	for i := range b {
		b[i] = rapid.Float64Range(-most, most).Draw(t, "coefficient")
	}
	return b
}

// madeCoefficients are all coefficients of a curve in degrees.
func madeCoefficients(c *deviation.Curve) []float64 {
	_, constant := c.Harmonic(0)
	b := []float64{constant.Degrees()}
	for k := 1; k <= c.Order(); k++ {
		s, c := c.Harmonic(k)
		b = append(b, s.Degrees(), c.Degrees())
	}
	return b
}

func TestAFitOfExactDataReproducesTheCoefficients(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		order := rapid.IntRange(1, deviation.MaxOrder).Draw(t, "order")
		b := drawSeries(t, order, 3)
		n := 2*order + 1 + rapid.IntRange(3, 20).Draw(t, "more")
		fit := madeFit(t, madeSwing(drawSpread(t, n), b.at), deviation.FitOptions{Order: order})
		if fit.Order != order || fit.Curve.Order() != order || fit.DegreesOfFreedom != n-2*order-1 {
			t.Fatalf("order %d, %d degrees of freedom", fit.Order, fit.DegreesOfFreedom)
		}
		for i, got := range madeCoefficients(fit.Curve) {
			if !near(got, b[i], 1e-9) { // headings and deviations are kept to 1e-11° or better; spread may magnify that some
				t.Fatalf("coefficient %d: %v, want %v", i, got, b[i])
			}
		}
		for _, r := range fit.Residuals {
			if !near(r.Residual.Degrees(), 0, 1e-9) { // as above
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
		headings := drawSpread(t, p+rapid.IntRange(3, 15).Draw(t, "more"))
		swing := madeSwing(headings, drawSeries(t, 5, 2).at)
		weighted := rapid.Bool().Draw(t, "weighted")
		n := len(swing)
		common := rapid.Bool().Draw(t, "common uncertainty")
		options := deviation.FitOptions{Order: order}
		if common {
			options.Common = Sigma(deg / 2)
		}
		sd := make([]float64, n)
		for i := range sd {
			sd[i] = 1
		}
		if weighted {
			madeState(swing, func(i int) angle.Angle {
				u := drawBetween(t, deg/2, deg, "uncertainty")
				sd[i] = u.Degrees()
				return u
			})
		}
		fit := madeFit(t, swing, options)

		x, y := mat.NewDense(n, p, nil), mat.NewDense(n, 1, nil)
		for i, o := range swing {
			for j, v := range madeBasis(p, o.Heading.FromNorth()) {
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
		for i, got := range madeCoefficients(fit.Curve) {
			if !near(got, beta.At(i, 0), 1e-9) { // two ways of solving well-conditioned equations in floating point
				t.Fatalf("coefficient %d: %v, want %v", i, got, beta.At(i, 0))
			}
		}
		left.Mul(x, &beta)
		left.Sub(y, &left)
		squares := 0.0
		for i := range n {
			squares += left.At(i, 0) * left.At(i, 0)
			if got := fit.Residuals[i].Residual.Degrees() / sd[i]; !near(got, left.At(i, 0), 1e-8) { // as above
				t.Fatalf("residual %d: %v, want %v", i, got, left.At(i, 0))
			}
		}
		if !near(fit.Condition, svd.Cond(), 1e-6*svd.Cond()) { // scaling all weights leaves it
			t.Fatalf("condition %v, want %v", fit.Condition, svd.Cond())
		}
		if weighted && !near(fit.ChiSquare, squares, 1e-6*squares+1e-9) { // squares of small residuals
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
			return w.Kind == deviation.LackOfFit || w.Kind == deviation.SerialCorrelation
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
				if !ok || !near(got, want, 1e-8) { // squares of small residuals, twice solved
					t.Fatalf("covariance %d, %d: %v %v, want %v", i, j, got, ok, want)
				}
			}
		}
		errs, ok := fit.StandardErrors()
		v, _ := fit.Covariance(1, 1)
		if !ok || !near(errs.B.Degrees(), math.Sqrt(v), 1e-9) { // rounding of an Angle
			t.Fatalf("standard error of B %v %v", errs.B, ok)
		}
		// On every heading the stated uncertainty is that of xᵀ Cov x.
		z := drawHeading(t, "heading")
		row := madeBasis(p, z)
		variance := 0.0
		for i := range p {
			for j := range p {
				c, _ := fit.Covariance(i, j)
				variance += row[i] * row[j] * c
			}
		}
		d, err := fit.Curve.OnCompass(angle.CompassFrom(z))
		u, stated := d.Uncertainty().Sigma()
		if err != nil || !stated || !near(u.Degrees(), math.Sqrt(variance), 1e-6) { // the root of a sum of differences
			t.Fatalf("uncertainty %v, want %v", u.Degrees(), math.Sqrt(variance))
		}
		// The residuals are orthogonal to the basis, and the leverages sum to p.
		leverage := 0.0
		dot := make([]float64, p)
		for i, r := range fit.Residuals {
			leverage += r.Leverage
			for j, v := range madeBasis(p, r.Heading.FromNorth()) {
				dot[j] += v * r.Residual.Degrees() / sd[i] / sd[i]
			}
			if r.Leverage < 0 || r.Leverage > 1 || r.Rejected {
				t.Fatalf("leverage %v, rejected %v", r.Leverage, r.Rejected)
			}
		}
		for j, v := range dot {
			if !near(v, 0, 1e-8) { // a sum of rounded residuals
				t.Fatalf("residuals times basis %d: %v", j, v)
			}
		}
		if !near(leverage, float64(p), 1e-9) { // the trace of a projection
			t.Fatalf("leverages sum to %v, want %d", leverage, p)
		}
	})
}

func TestRotatingAllHeadingsLeavesTheResiduals(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		order := rapid.IntRange(1, 4).Draw(t, "order")
		swing := madeSwing(drawSpread(t, 2*order+1+rapid.IntRange(3, 10).Draw(t, "more")), drawSeries(t, 5, 2).at)
		by := kinds[rapid.IntRange(0, 1).Draw(t, "by")]
		turn := drawHeading(t, "turn")
		turned := slices.Clone(swing)
		for i := range turned {
			turned[i].Heading = turned[i].Heading.Add(turn)
		}
		a, err1 := deviation.NewFit(swing, deviation.FitOptions{Order: order, By: by})
		b, err2 := deviation.NewFit(turned, deviation.FitOptions{Order: order, By: by})
		if (err1 == nil) != (err2 == nil) {
			t.Skip("at the limit of what is spread well enough, which is looked through at steps of 5°")
		}
		if err1 != nil {
			return
		}
		for i := range a.Residuals {
			if !near(a.Residuals[i].Residual.Degrees(), b.Residuals[i].Residual.Degrees(), 1e-8) || // two solutions in floating point
				!near(a.Residuals[i].Leverage, b.Residuals[i].Leverage, 1e-8) { // as above
				t.Fatalf("residual %v, turned %v", a.Residuals[i], b.Residuals[i])
			}
		}
		if !near(a.StandardDeviation.Degrees(), b.StandardDeviation.Degrees(), 1e-8) { // as above
			t.Fatalf("%v, turned %v", a.StandardDeviation, b.StandardDeviation)
		}
	})
}

func TestScalingTheWeightsLeavesTheAnswer(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	swing := madeSwing(madeEven(16, 0), usual)
	madeNoise(random, swing, 0.5)
	madeState(swing, func(i int) angle.Angle { return deg * angle.Angle(2+i%3) / 4 })
	a := madeFit(t, swing, deviation.FitOptions{})
	madeState(swing, func(i int) angle.Angle { return 3 * deg * angle.Angle(2+i%3) / 4 })
	b := madeFit(t, swing, deviation.FitOptions{})
	ka, kb := a.Coefficients(), b.Coefficients()
	for i, d := range []angle.Angle{ka.A - kb.A, ka.B - kb.B, ka.C - kb.C, ka.D - kb.D, ka.E - kb.E, a.StandardDeviation - b.StandardDeviation} {
		if !near(d.Degrees(), 0, 1e-9) { // floating point
			t.Errorf("figure %d differs by %v", i, d)
		}
	}
	if !near(a.ChiSquare, 9*b.ChiSquare, 1e-9*a.ChiSquare) { // floating point
		t.Errorf("χ² %v and %v", a.ChiSquare, b.ChiSquare)
	}
	if !(a.ChiSquareProbability < b.ChiSquareProbability) {
		t.Errorf("probabilities %v and %v", a.ChiSquareProbability, b.ChiSquareProbability)
	}
}

// By the closed form of the chi-square distribution for an even number of
// degrees of freedom: exp(−x/2) Σ (x/2)ⁱ/i!.
func TestTheProbabilityOfChiSquare(t *testing.T) {
	swing := madeSwing(madeEven(9, 0), usual)
	madeNoise(rand.New(rand.NewPCG(3, 4)), swing, 0.5)
	madeState(swing, func(int) angle.Angle { return deg / 2 })
	fit := madeFit(t, swing, deviation.FitOptions{})
	half := fit.ChiSquare / 2
	if want := math.Exp(-half) * (1 + half); fit.DegreesOfFreedom != 4 || !near(fit.ChiSquareProbability, want, 1e-9) { // the library's incomplete gamma
		t.Errorf("%d degrees of freedom, χ² %v, probability %v, want %v", fit.DegreesOfFreedom, fit.ChiSquare, fit.ChiSquareProbability, want)
	}
}

func TestTheConditionOfEvenHeadingsIsTheRootOfTwo(t *testing.T) {
	for _, n := range []int{8, 12, 16, 24, 36} {
		fit := madeFit(t, madeSwing(madeEven(n, 3*deg), usual), deviation.FitOptions{})
		if !near(fit.Condition, math.Sqrt2, 1e-9) { // floating point
			t.Errorf("%d headings: condition %v", n, fit.Condition)
		}
	}
}
