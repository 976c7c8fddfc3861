package deviation_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"

	"lubberline.example/angle"
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
		swing[i].Deviation = swing[i].Deviation.WithUncertainty(sigma(u(i)))
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
		order := rapid.IntRange(1, deviation.MostOrder).Draw(t, "order")
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
			options.Common = sigma(deg / 2)
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
		for i := range p {
			for j := range p {
				want := inverse.At(i, j) * squares / float64(n-p)
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
		by := deviation.By(rapid.IntRange(0, 1).Draw(t, "by"))
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

func TestWhatNoCurveCanBeFittedTo(t *testing.T) {
	sector := madeEven(36, 0)[:14] // 000 to 130
	same := make([]angle.Angle, 20)
	for _, test := range []struct {
		name     string
		headings []angle.Angle
		options  deviation.FitOptions
		kind     deviation.FitErrorKind
		want     int
		got      int
		from, to angle.Angle
		message  string
	}{
		{"nothing", nil, deviation.FitOptions{}, deviation.TooFewHeadings, 5, 0, 0, 0, "0 different headings: want at least 5"},
		{"order 7", madeEven(36, 0), deviation.FitOptions{Order: 7}, deviation.OrderOutOfRange, 6, 7, 0, 0, "order 7: want 1 to 6"},
		{"order −1", madeEven(36, 0), deviation.FitOptions{Order: -1}, deviation.OrderOutOfRange, 6, -1, 0, 0, "order -1: want 1 to 6"},
		{"all on north", same, deviation.FitOptions{}, deviation.TooFewHeadings, 5, 1, 0, 0, "1 different headings"},
		{"the cardinal headings", madeEven(4, 0), deviation.FitOptions{}, deviation.TooFewHeadings, 5, 4, 0, 90 * deg, "4 different headings"},
		{"order 3 of six headings", madeEven(6, 0), deviation.FitOptions{Order: 3}, deviation.TooFewHeadings, 7, 6, 0, 60 * deg, "want at least 7"},
		{"a sector of 130°", sector, deviation.FitOptions{}, deviation.BadlySpread, 0, 14, 130 * deg, 0, "badly spread"},
		{"choosing, the cardinal headings", madeEven(4, 0), deviation.FitOptions{ChooseOrder: true}, deviation.TooFewHeadings, 5, 4, 0, 90 * deg, "4 different"},
		{"choosing, a sector", sector, deviation.FitOptions{ChooseOrder: true}, deviation.BadlySpread, 0, 14, 130 * deg, 0, "130"},
		{"robust, all on north", same, deviation.FitOptions{Robust: true}, deviation.TooFewHeadings, 5, 1, 0, 0, "1 different headings"},
	} {
		fit, err := deviation.NewFit(madeSwing(test.headings, usual), test.options)
		e, ok := errors.AsType[*deviation.FitError](err)
		if !ok || fit != nil {
			t.Errorf("%s: %v, %v", test.name, fit, err)
			continue
		}
		if e.Kind != test.kind || e.Want != test.want || e.Got != test.got || e.From != test.from || e.To != test.to || e.Sector != (test.from != test.to) {
			t.Errorf("%s: %+v", test.name, *e)
		}
		if !strings.Contains(err.Error(), test.message) || e.Sector != strings.Contains(err.Error(), "nothing was observed from") {
			t.Errorf("%s: %v", test.name, err)
		}
	}
}

func TestAMissingSectorIsNamedByTheHeadingOfTheCurve(t *testing.T) {
	swing := madeSwing(madeEven(36, 0)[:14], func(angle.Angle) float64 { return 2 })
	_, err := deviation.NewFit(swing, deviation.FitOptions{By: deviation.ByMagnetic})
	e, ok := errors.AsType[*deviation.FitError](err)
	if !ok || e.From != 132*deg || e.To != 2*deg || !strings.Contains(err.Error(), angle.MagneticFrom(132*deg).String()) {
		t.Errorf("%v", err)
	}
}

func TestACurveOfMoreThan90DegreesIsNotFitted(t *testing.T) {
	swing := madeSwing(madeEven(16, 0), func(z angle.Angle) float64 { return 100 * z.Sin() })
	_, err := deviation.NewFit(swing, deviation.FitOptions{})
	if _, ok := errors.AsType[*deviation.CurveError](err); !ok {
		t.Error(err)
	}
}

func TestWithNothingLeftOverTheUncertaintyIsThatStatedOrNone(t *testing.T) {
	swing := madeSwing(madeEven(5, 0), usual)
	fit := madeFit(t, swing, deviation.FitOptions{})
	if _, ok := fit.StandardErrors(); ok || fit.DegreesOfFreedom != 0 || fit.StandardDeviation != 0 {
		t.Errorf("standard errors known: %+v", fit)
	}
	if _, ok := fit.Within(0, 0.95); ok {
		t.Error("interval known")
	}
	if _, ok := fit.Covariance(0, 0); ok {
		t.Error("covariance known")
	}
	if d, err := fit.Curve.OnCompass(angle.Compass{}); err != nil || d.Uncertainty() != (angle.Uncertainty{}) {
		t.Errorf("%v, %v", d, err)
	}

	madeState(swing, func(int) angle.Angle { return deg })
	fit = madeFit(t, swing, deviation.FitOptions{Common: sigma(2 * deg)})
	errs, ok := fit.StandardErrors()
	// A is the mean of five, B is 2/5 Σ d sin z with Σ sin² z = 5/2.
	if !ok || !near(errs.A.Degrees(), math.Sqrt(1.0/5+4), 1e-9) || !near(errs.B.Degrees(), math.Sqrt(2.0/5), 1e-9) { // floating point
		t.Errorf("standard errors %v, %v", errs, ok)
	}
	if fit.ChiSquare != 0 || fit.ChiSquareProbability != 0 {
		t.Error("χ² of nothing left over")
	}
	within, ok := fit.Within(30*deg, 0.95)
	if want := 1.959964 * math.Sqrt(1+4); !ok || !near(within.Degrees(), want, 1e-5) { // the normal quantile to 7 figures; leverage of each is 1 all round
		t.Errorf("within %v, want %v", within.Degrees(), want)
	}
}

func TestAStatedUncertaintyOfNoughtDoesNotWeigh(t *testing.T) {
	swing := madeSwing(madeEven(8, 0), usual)
	madeNoise(rand.New(rand.NewPCG(5, 6)), swing, 0.5)
	plain := madeFit(t, swing, deviation.FitOptions{})
	madeState(swing, func(i int) angle.Angle { return deg * angle.Angle(i) })
	if stated := madeFit(t, swing, deviation.FitOptions{}); stated.Coefficients() != plain.Coefficients() || stated.ChiSquare != 0 {
		t.Errorf("%v, want %v", stated.Coefficients(), plain.Coefficients())
	}
}

func TestTheIntervalGrowsWithTheProbability(t *testing.T) {
	swing := madeSwing(madeEven(12, 0), usual)
	madeNoise(rand.New(rand.NewPCG(7, 8)), swing, 0.5)
	fit := madeFit(t, swing, deviation.FitOptions{})
	last := angle.Angle(0)
	for _, p := range []float64{0.01, 0.1, 0.5, 0.9, 0.95, 0.99, 0.9999} {
		within, ok := fit.Within(40*deg, p)
		if !ok || within <= last {
			t.Errorf("within %v at %v, %v", within, p, ok)
		}
		last = within
	}
	// Student's 97.5 % point for 7 degrees of freedom is 2.3646 (any table).
	within, _ := fit.Within(40*deg, 0.95)
	d, _ := fit.Curve.OnCompass(angle.CompassFrom(40 * deg))
	u, _ := d.Uncertainty().Sigma()
	if got := within.Degrees() / u.Degrees(); !near(got, 2.3646, 0.0001) { // the table's last figure
		t.Errorf("Student's factor %v", got)
	}
	for _, p := range []float64{0, 1, -0.1, 1.1, math.NaN(), math.Inf(1)} {
		if within, ok := fit.Within(0, p); ok || within != 0 {
			t.Errorf("within %v at %v", within, p)
		}
	}
}

func TestAnIntervalWiderThanTheCircleIsNotKnown(t *testing.T) {
	swing := madeSwing(madeEven(6, 0), usual)
	madeNoise(rand.New(rand.NewPCG(9, 8)), swing, 2)
	fit := madeFit(t, swing, deviation.FitOptions{})
	if within, ok := fit.Within(0, 1-1e-12); ok {
		t.Errorf("within %v with one degree of freedom", within)
	}
}

func TestTheCovarianceOfACoefficientThereIsNot(t *testing.T) {
	fit := madeFit(t, madeSwing(madeEven(12, 0), usual), deviation.FitOptions{})
	for _, ij := range [][2]int{{-1, 0}, {0, -1}, {5, 0}, {0, 5}} {
		if v, ok := fit.Covariance(ij[0], ij[1]); ok || v != 0 {
			t.Errorf("%v: %v", ij, v)
		}
	}
	fit = madeFit(t, madeSwing(madeEven(12, 0), usual), deviation.FitOptions{Order: 1})
	if k := fit.Coefficients(); k.D != 0 || k.E != 0 || k.B == 0 {
		t.Errorf("%v", k)
	}
	if errs, ok := fit.StandardErrors(); !ok || errs.D != 0 || errs.B == 0 {
		t.Errorf("%v, %v", errs, ok)
	}
}

// A curve that is exact by magnetic heading is found by magnetic heading.
func TestAFitByMagneticHeading(t *testing.T) {
	k := deviation.Coefficients{A: deg, B: -12 * deg, C: 9 * deg, D: 4 * deg, E: -deg}
	curve := angle.Must(k.Curve(deviation.ByMagnetic))
	var swing []deviation.Observation
	for _, z := range madeEven(16, 0) {
		c := angle.CompassFrom(z)
		swing = append(swing, deviation.Observation{Heading: c, Deviation: angle.Must(curve.OnCompass(c))})
	}
	fit := madeFit(t, swing, deviation.FitOptions{By: deviation.ByMagnetic})
	got := fit.Coefficients()
	for i, d := range []angle.Angle{got.A - k.A, got.B - k.B, got.C - k.C, got.D - k.D, got.E - k.E} {
		if !near(d.Degrees(), 0, 1e-9) { // deviations solved to a few units
			t.Errorf("coefficient %d differs by %v°", i, d.Degrees())
		}
	}
	if fit.Curve.By() != deviation.ByMagnetic {
		t.Error(fit.Curve.By())
	}
	if wrong := madeFit(t, swing, deviation.FitOptions{}); wrong.StandardDeviation < deg/10 {
		t.Errorf("by compass it fits as well, to %v", wrong.StandardDeviation)
	}
}

func TestARobustFitListsWhatItRejected(t *testing.T) {
	swing := madeSwing(madeEven(16, 0), usual)
	madeNoise(rand.New(rand.NewPCG(11, 12)), swing, 0.3)
	swing[5].Deviation = deviation.East(swing[5].Deviation.Angle() + 10*deg)
	fit := madeFit(t, swing, deviation.FitOptions{Robust: true})
	rejected := fit.Rejected()
	if len(rejected) != 1 || rejected[0].Heading != swing[5].Heading || rejected[0].Leverage != 0 || !rejected[0].Rejected {
		t.Fatalf("rejected %v", rejected)
	}
	if !near(rejected[0].Residual.Degrees(), 10, 1.5) { // the noise of 0.3°, five times
		t.Errorf("residual %v", rejected[0].Residual)
	}
	if len(fit.Residuals) != 16 || fit.DegreesOfFreedom != 10 || fit.StandardDeviation > deg {
		t.Errorf("%d residuals, %d degrees of freedom, %v", len(fit.Residuals), fit.DegreesOfFreedom, fit.StandardDeviation)
	}
	plain := madeFit(t, swing, deviation.FitOptions{})
	if plain.Rejected() != nil || plain.StandardDeviation < 2*deg {
		t.Errorf("not robust: %v rejected, %v", plain.Rejected(), plain.StandardDeviation)
	}
	// The rejected one has no say: the rest alone give the same.
	rest := madeFit(t, append(slices.Clone(swing[:5]), swing[6:]...), deviation.FitOptions{})
	if rest.Coefficients() != fit.Coefficients() {
		t.Errorf("%v, want %v", fit.Coefficients(), rest.Coefficients())
	}
}

// Twenty-three readings of 1° round the circle are a good swing; a twenty-fourth
// that is known better makes it no worse.
func TestOneExcellentReadingSpoilsNoSwing(t *testing.T) {
	swing := madeSwing(madeEven(24, 0), usual)
	madeState(swing, func(i int) angle.Angle {
		if i == 0 {
			return minute
		}
		return deg
	})
	if _, err := deviation.NewFit(swing, deviation.FitOptions{}); err != nil {
		t.Error(err)
	}
}
