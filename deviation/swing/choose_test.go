package swing_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"lubberline.example/deviation/internal/devtest"
	"lubberline.example/deviation/swing"

	"lubberline.example/angle"
)

func TestTheOrderChosenIsThatOfTheData(t *testing.T) {
	random := rand.New(rand.NewPCG(21, 22))
	two, four := 0, 0
	const swings = 200
	for range swings {
		swung := devtest.Swing(devtest.Even(24, 0), devtest.Usual)
		devtest.AddNoise(random, swung, 0.3)
		fit := devtest.Fit(t, swung, swing.FitOptions{Order: 0})
		if fit.Order == 2 {
			two++
		}
		swung = devtest.Swing(devtest.Even(24, 0), func(z angle.Angle) float64 { return devtest.Usual(z) + (4 * z).Sin() })
		devtest.AddNoise(random, swung, 0.3)
		fit = devtest.Fit(t, swung, swing.FitOptions{Order: 0})
		if fit.Order >= 4 {
			four++
		}
		sum := 0.0
		for i, c := range swing.Candidates(fit) {
			sum += c.Weight
			if c.Order != i+2 || c.Weight < 0 || c.Weight > 1 {
				t.Fatalf("%v", swing.Candidates(fit))
			}
			if chosen := swing.Candidates(fit)[fit.Order-2]; c.AICc < chosen.AICc {
				t.Fatalf("order %d chosen, %v", fit.Order, swing.Candidates(fit))
			}
		}
		if !devtest.Near(sum, 1, 1e-12) { // floating point
			t.Fatalf("weights sum to %v", sum)
		}
	}
	if two < swings*85/100 { // 0.9 or so is the criterion's own; this is fixed noise
		t.Errorf("order 2 was chosen in %d of %d", two, swings)
	}
	if four < swings*99/100 { // a harmonic ten times its standard error
		t.Errorf("order 4 was chosen in %d of %d", four, swings)
	}
}

func TestOrdersTriedAreSupported(t *testing.T) {
	for _, test := range []struct {
		n       int
		most    int
		orders  int
		highest int
	}{
		{36, 0, 5, 6}, {36, 3, 0, 3}, {36, 1, 0, 1}, {36, 2, 0, 2}, // one that is given is not chosen
		{12, 0, 1, 2}, {13, 0, 2, 3}, {14, 0, 2, 3}, {15, 0, 3, 4}, {8, 0, 1, 2},
		{7, 0, 0, 2}, {5, 0, 0, 2}, // too few to have a criterion
	} {
		swung := devtest.Swing(devtest.Even(test.n, 0), devtest.Usual)
		devtest.AddNoise(rand.New(rand.NewPCG(23, 24)), swung, 0.3)
		fit := devtest.Fit(t, swung, swing.FitOptions{Order: test.most})
		if len(swing.Candidates(fit)) != test.orders || fit.Order > test.highest {
			t.Errorf("%d headings, at most %d: %v, chosen %d", test.n, test.most, swing.Candidates(fit), fit.Order)
		}
	}
}

// Where headings are missing, a higher order stops at what they support.
func TestSpreadLimitsOrder(t *testing.T) {
	headings := devtest.Even(24, 0)[:20] // a gap of 75°
	fit := devtest.Fit(t, devtest.Swing(headings, devtest.Usual), swing.FitOptions{Order: 0})
	if n := len(swing.Candidates(fit)); n == 0 || n > 3 {
		t.Errorf("%v", swing.Candidates(fit))
	}
}

func TestChoosingOrderAddsUncertainty(t *testing.T) {
	swung := devtest.Swing(devtest.Even(24, 0), devtest.Usual)
	devtest.AddNoise(rand.New(rand.NewPCG(25, 26)), swung, 0.3)
	chosen := devtest.Fit(t, swung, swing.FitOptions{Order: 0, Common: devtest.Sigma(devtest.Deg)})
	given := devtest.Fit(t, swung, swing.FitOptions{Order: chosen.Order, Common: devtest.Sigma(devtest.Deg)})
	if chosen.Curve.Coefficients() != given.Curve.Coefficients() {
		t.Errorf("%v, given %v", chosen.Curve.Coefficients(), given.Curve.Coefficients())
	}
	a, _ := chosen.StandardErrors()
	b, _ := given.StandardErrors()
	if a.A < devtest.Deg || a.A > 11*devtest.Deg/10 { // the common uncertainty once, and a little
		t.Errorf("standard error of A %v", a.A)
	}
	wide, narrow := angle.Angle(0), angle.Angle(0)
	for _, z := range devtest.Even(36, 0) {
		w, ok1 := chosen.Within(z, 0.95)
		n, ok2 := given.Within(z, 0.95)
		if !ok1 || !ok2 {
			t.Fatal("not known")
		}
		wide, narrow = wide+w, narrow+n
	}
	if wide <= narrow {
		t.Errorf("%v, given %v; errors %v, %v", wide, narrow, a, b)
	}
}

// TestTheCriterionIsThatOfHurvichAndTsai works AICc anew from the scatter of each order's
// own fit, n ln(RSS/n) + 2K + 2K(K+1)/(n−K−1), with K the coefficients and the variance,
// (from memory, as the options say), and the weights from it with half its correction. AICc has a constant of
// the unit of the residuals in it, so differences are compared.
func TestTheCriterionIsThatOfHurvichAndTsai(t *testing.T) {
	const n = 24.0
	swung := devtest.Swing(devtest.Even(n, 0), func(z angle.Angle) float64 { return devtest.Usual(z) + 0.2*(3*z).Sin() })
	devtest.AddNoise(rand.New(rand.NewPCG(5, 6)), swung, 0.3)
	candidates := swing.Candidates(devtest.Fit(t, swung, swing.FitOptions{Order: 0}))
	if len(candidates) < 3 {
		t.Fatalf("%v", candidates)
	}
	aic := make([]float64, len(candidates))
	aicc := make([]float64, len(candidates))
	sum := 0.0
	for i, c := range candidates {
		fit := devtest.Fit(t, swung, swing.FitOptions{Order: c.Order})
		k := float64(2*c.Order + 2)
		s := fit.StandardDeviation.Degrees()
		aic[i] = n*math.Log(s*s*float64(fit.DegreesOfFreedom)/n) + 2*k
		aicc[i] = aic[i] + 2*k*(k+1)/(n-k-1)
		sum += math.Exp((aic[0] + aicc[0] - aic[i] - aicc[i]) / 4)
	}
	for i, c := range candidates {
		if got, want := c.AICc-candidates[0].AICc, aicc[i]-aicc[0]; !devtest.Near(got, want, 1e-6) {
			t.Errorf("order %d: AICc %v above the first, want %v", c.Order, got, want)
		}
		if want := math.Exp((aic[0]+aicc[0]-aic[i]-aicc[i])/4) / sum; !devtest.Near(c.Weight, want, 1e-6) {
			t.Errorf("order %d: weight %v, want %v", c.Order, c.Weight, want)
		}
	}
}
