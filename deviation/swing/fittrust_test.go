package swing_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"lubberline.example/deviation/internal/devtest"
	"lubberline.example/deviation/swing"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

func TestWhatNoCurveCanBeFittedTo(t *testing.T) {
	sector := devtest.Even(36, 0)[:14] // 000 to 130
	same := make([]angle.Angle, 20)
	for _, test := range []struct {
		name     string
		headings []angle.Angle
		options  swing.FitOptions
		kind     swing.ErrorKind
		from, to angle.Angle
		message  string
	}{
		{"nothing", nil, swing.FitOptions{}, swing.TooFewHeadings, 0, 0, "there are 0 different headings; a curve of this order needs at least 5"},
		{"order 7", devtest.Even(36, 0), swing.FitOptions{Order: 7}, swing.OrderOutOfRange, 0, 0, "order 7 is out of range; give 1 to 6"},
		{"order −1", devtest.Even(36, 0), swing.FitOptions{Order: -1}, swing.OrderOutOfRange, 0, 0, "order -1 is out of range; give 1 to 6"},
		{"all on north", same, swing.FitOptions{}, swing.TooFewHeadings, 0, 0, "there are 1 different headings; a curve of this order needs at least 5"},
		{"the cardinal headings", devtest.Even(4, 0), swing.FitOptions{}, swing.TooFewHeadings, 0, 90 * devtest.Deg, "there are 4 different headings; a curve of this order needs at least 5"},
		{"order 3 of six headings", devtest.Even(6, 0), swing.FitOptions{Order: 3}, swing.TooFewHeadings, 0, 60 * devtest.Deg, "there are 6 different headings; a curve of this order needs at least 7"},
		{"a sector of 130°", sector, swing.FitOptions{}, swing.BadlySpread, 130 * devtest.Deg, 0, "badly spread"},
		{"choosing, the cardinal headings", devtest.Even(4, 0), swing.FitOptions{Order: 0}, swing.TooFewHeadings, 0, 90 * devtest.Deg, "there are 4 different headings; a curve of this order needs at least 5"},
		{"choosing, a sector", sector, swing.FitOptions{Order: 0}, swing.BadlySpread, 130 * devtest.Deg, 0, "130"},
		{"robust, all on north", same, swing.FitOptions{Robust: true}, swing.TooFewHeadings, 0, 0, "there are 1 different headings; a curve of this order needs at least 5"},
	} {
		fit, err := swing.NewFit(devtest.Swing(test.headings, devtest.Usual), test.options)
		e, ok := errors.AsType[*swing.Error](err)
		if !ok || fit != nil {
			t.Errorf("%s: %v, %v", test.name, fit, err)
			continue
		}
		if e.Kind != test.kind || e.From != test.from || e.To != test.to || e.Index != -1 {
			t.Errorf("%s: %+v", test.name, *e)
		}
		if !strings.Contains(err.Error(), test.message) || (e.From != e.To) != strings.Contains(err.Error(), "there is no observation from") {
			t.Errorf("%s: %v", test.name, err)
		}
	}
}

func TestMissingSectorHasKindOfCurve(t *testing.T) {
	swung := devtest.Swing(devtest.Even(36, 0)[:14], func(angle.Angle) float64 { return 2 })
	_, err := swing.NewFit(swung, swing.FitOptions{By: deviation.ByMagnetic})
	e, ok := errors.AsType[*swing.Error](err)
	if !ok || e.From != 132*devtest.Deg || e.To != 2*devtest.Deg || !strings.Contains(err.Error(), angle.MagneticFrom(132*devtest.Deg).String()) {
		t.Errorf("%v", err)
	}
}

func TestACurveOfMoreThan90DegreesIsNotFitted(t *testing.T) {
	swung := devtest.Swing(devtest.Even(16, 0), func(z angle.Angle) float64 { return 100 * z.Sin() })
	_, err := swing.NewFit(swung, swing.FitOptions{})
	if _, ok := errors.AsType[*deviation.Error](err); !ok {
		t.Error(err)
	}
}

func TestUncertaintyWithoutDegreesOfFreedom(t *testing.T) {
	swung := devtest.Swing(devtest.Even(5, 0), devtest.Usual)
	fit := devtest.Fit(t, swung, swing.FitOptions{})
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

	devtest.State(swung, func(int) angle.Angle { return devtest.Deg })
	fit = devtest.Fit(t, swung, swing.FitOptions{Common: devtest.Sigma(2 * devtest.Deg)})
	uncertainties, ok := fit.StandardErrors()
	// A is the mean of five, B is 2/5 Σ d sin z with Σ sin² z = 5/2.
	if !ok || !devtest.Near(uncertainties.A.Degrees(), math.Sqrt(1.0/5+4), 1e-9) || !devtest.Near(uncertainties.B.Degrees(), math.Sqrt(2.0/5), 1e-9) { // floating point
		t.Errorf("standard errors %v, %v", uncertainties, ok)
	}
	if fit.ChiSquare != 0 || fit.ChiSquareProbability != 0 {
		t.Error("χ² without degrees of freedom")
	}
	within, ok := fit.Within(30*devtest.Deg, 0.95)
	if want := 1.959964 * math.Sqrt(1+4); !ok || !devtest.Near(within.Degrees(), want, 1e-5) { // the normal quantile to 7 figures; leverage of each is 1 all round
		t.Errorf("within %v, want %v", within.Degrees(), want)
	}
}

func TestZeroUncertaintyDoesNotWeigh(t *testing.T) {
	swung := devtest.Swing(devtest.Even(8, 0), devtest.Usual)
	devtest.AddNoise(rand.New(rand.NewPCG(5, 6)), swung, 0.5)
	plain := devtest.Fit(t, swung, swing.FitOptions{})
	devtest.State(swung, func(i int) angle.Angle { return devtest.Deg * angle.Angle(i) })
	if stated := devtest.Fit(t, swung, swing.FitOptions{}); stated.Curve.Coefficients() != plain.Curve.Coefficients() || stated.ChiSquare != 0 {
		t.Errorf("%v, want %v", stated.Curve.Coefficients(), plain.Curve.Coefficients())
	}
}

func TestTheIntervalGrowsWithTheProbability(t *testing.T) {
	swung := devtest.Swing(devtest.Even(12, 0), devtest.Usual)
	devtest.AddNoise(rand.New(rand.NewPCG(7, 8)), swung, 0.5)
	fit := devtest.Fit(t, swung, swing.FitOptions{})
	last := angle.Angle(0)
	for _, p := range []float64{0.01, 0.1, 0.5, 0.9, 0.95, 0.99, 0.9999} {
		within, ok := fit.Within(40*devtest.Deg, p)
		if !ok || within <= last {
			t.Errorf("within %v at %v, %v", within, p, ok)
		}
		last = within
	}
	// The uncertainty handed on is Student's interval over the normal one: it makes up
	// for the few readings. At other probabilities Student's own points hold: for 7
	// degrees of freedom 2.3646 at 97.5 % and 3.4995 at 99.5 % (any table).
	fit = devtest.Fit(t, swung, swing.FitOptions{Order: 2})
	within, _ := fit.Within(40*devtest.Deg, 0.95)
	rare, _ := fit.Within(40*devtest.Deg, 0.99)
	if got := rare.Degrees() / within.Degrees(); !devtest.Near(got, 3.4995/2.3646, 0.0001) { // the table's last figure
		t.Errorf("99 %% over 95 %%: %v", got)
	}
	d, _ := fit.Curve.OnCompass(angle.CompassFrom(40 * devtest.Deg))
	u, _ := d.Uncertainty().Sigma()
	if got := within.Degrees() / u.Degrees(); !devtest.Near(got, 1.95996, 0.00001) { // any table
		t.Errorf("95 %% over the uncertainty: %v", got)
	}
	for _, p := range []float64{0, 1, -0.1, 1.1, math.NaN(), math.Inf(1)} {
		if within, ok := fit.Within(0, p); ok || within != 0 {
			t.Errorf("within %v at %v", within, p)
		}
	}
}

func TestTooWideIntervalIsUnknown(t *testing.T) {
	swung := devtest.Swing(devtest.Even(6, 0), devtest.Usual)
	devtest.AddNoise(rand.New(rand.NewPCG(9, 8)), swung, 2)
	fit := devtest.Fit(t, swung, swing.FitOptions{})
	if within, ok := fit.Within(0, 1-1e-12); ok {
		t.Errorf("within %v with one degree of freedom", within)
	}
}

func TestCovarianceBeyondOrder(t *testing.T) {
	fit := devtest.Fit(t, devtest.Swing(devtest.Even(12, 0), devtest.Usual), swing.FitOptions{})
	for _, ij := range [][2]int{{-1, 0}, {0, -1}, {5, 0}, {0, 5}} {
		if v, ok := fit.Covariance(ij[0], ij[1]); ok || v != 0 {
			t.Errorf("%v: %v", ij, v)
		}
	}
	fit = devtest.Fit(t, devtest.Swing(devtest.Even(12, 0), devtest.Usual), swing.FitOptions{Order: 1})
	if k := fit.Curve.Coefficients(); k.D != 0 || k.E != 0 || k.B == 0 {
		t.Errorf("%v", k)
	}
	if uncertainties, ok := fit.StandardErrors(); !ok || uncertainties.D != 0 || uncertainties.B == 0 {
		t.Errorf("%v, %v", uncertainties, ok)
	}
}

// A curve that is exact by magnetic heading is found by magnetic heading.
func TestAFitByMagneticHeading(t *testing.T) {
	k := deviation.Coefficients{A: devtest.Deg, B: -12 * devtest.Deg, C: 9 * devtest.Deg, D: 4 * devtest.Deg, E: -devtest.Deg}
	curve := angle.Must(k.Curve(deviation.ByMagnetic))
	var swung []swing.Observation
	for _, z := range devtest.Even(16, 0) {
		c := angle.CompassFrom(z)
		swung = append(swung, swing.Observation{Heading: c, Deviation: angle.Must(curve.OnCompass(c))})
	}
	fit := devtest.Fit(t, swung, swing.FitOptions{By: deviation.ByMagnetic, Order: 2})
	got := fit.Curve.Coefficients()
	for i, d := range []angle.Angle{got.A - k.A, got.B - k.B, got.C - k.C, got.D - k.D, got.E - k.E} {
		if !devtest.Near(d.Degrees(), 0, 1e-9) { // deviations solved to a few units
			t.Errorf("coefficient %d differs by %v°", i, d.Degrees())
		}
	}
	if fit.Curve.By() != deviation.ByMagnetic {
		t.Error(fit.Curve.By())
	}
	if wrong := devtest.Fit(t, swung, swing.FitOptions{Order: 2}); wrong.StandardDeviation < devtest.Deg/10 {
		t.Errorf("by compass it fits as well, to %v", wrong.StandardDeviation)
	}
}

func TestARobustFitListsWhatItRejected(t *testing.T) {
	swung := devtest.Swing(devtest.Even(16, 0), devtest.Usual)
	devtest.AddNoise(rand.New(rand.NewPCG(11, 12)), swung, 0.3)
	swung[5].Deviation = deviation.East(swung[5].Deviation.Angle() + 10*devtest.Deg)
	fit := devtest.Fit(t, swung, swing.FitOptions{Robust: true})
	rejected := fit.LeftOut()
	if len(rejected) != 1 || rejected[0].Heading != swung[5].Heading || rejected[0].Leverage != 0 || !rejected[0].LeftOut {
		t.Fatalf("rejected %v", rejected)
	}
	if !devtest.Near(rejected[0].Residual.Degrees(), 10, 1.5) { // the noise of 0.3°, five times
		t.Errorf("residual %v", rejected[0].Residual)
	}
	if len(fit.Residuals) != 16 || fit.DegreesOfFreedom != 10 || fit.StandardDeviation > devtest.Deg {
		t.Errorf("%d residuals, %d degrees of freedom, %v", len(fit.Residuals), fit.DegreesOfFreedom, fit.StandardDeviation)
	}
	plain := devtest.Fit(t, swung, swing.FitOptions{})
	if plain.LeftOut() != nil || plain.StandardDeviation < 2*devtest.Deg {
		t.Errorf("not robust: %v rejected, %v", plain.LeftOut(), plain.StandardDeviation)
	}
	// The rejected one has no say: the rest alone give the same.
	rest := devtest.Fit(t, append(slices.Clone(swung[:5]), swung[6:]...), swing.FitOptions{})
	if rest.Curve.Coefficients() != fit.Curve.Coefficients() {
		t.Errorf("%v, want %v", fit.Curve.Coefficients(), rest.Curve.Coefficients())
	}
}

// Twenty-three readings of 1° round the circle are a good swing; a twenty-fourth
// that is known better makes it no worse.
func TestOneExcellentReadingSpoilsNoSwing(t *testing.T) {
	swung := devtest.Swing(devtest.Even(24, 0), devtest.Usual)
	devtest.State(swung, func(i int) angle.Angle {
		if i == 0 {
			return devtest.Minute
		}
		return devtest.Deg
	})
	if _, err := swing.NewFit(swung, swing.FitOptions{}); err != nil {
		t.Error(err)
	}
}

// By hand: the triangle 2, 1 3 makes the normal matrix 4 2, 2 10 with the inverse 10 −2, −2 4 over
// 36. The coefficients 1 and 2 have the right side 8 and 22, which is the triangle times 4 and 6.
func TestEquationsOfCorrelatedErrorsBySmallCase(t *testing.T) {
	b, inverse := swing.SolveWhitened([][]float64{{2, 0}, {1, 3}}, []float64{4, 6})
	got := []float64{b[0], b[1], inverse[0][0], inverse[0][1], inverse[1][0], inverse[1][1]}
	for i, want := range []float64{1, 2, 10.0 / 36, -2.0 / 36, -2.0 / 36, 4.0 / 36} {
		if !devtest.Near(got[i], want, 1e-12) { // floating point
			t.Errorf("%v: figure %d should be %v", got, i, want)
		}
	}
}
