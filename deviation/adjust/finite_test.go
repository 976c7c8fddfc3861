package adjust_test

import (
	"errors"
	"math"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/deviation"
	"lubberline.example/deviation/adjust"
	"lubberline.example/deviation/internal/devtest"
	"lubberline.example/wmm"
)

// Forces and heeling never give NaN or an infinite figure, for any input.
func TestForcesAndHeelingAreFinite(t *testing.T) {
	figures := []float64{0, 0.1, -1, 1e-300, 1e300, -1e300, math.MaxFloat64, math.NaN(), math.Inf(1), math.Inf(-1)}
	finite := func(what string, err error, list ...float64) {
		t.Helper()
		for _, x := range list {
			if err == nil && (math.IsNaN(x) || math.IsInf(x, 0)) {
				t.Errorf("%s: %v", what, list)
			}
		}
	}
	dips := []angle.Angle{0, 60 * devtest.Deg, -89 * devtest.Deg, 90*devtest.Deg - 1, 90 * devtest.Deg, math.MaxInt64, math.MinInt64}
	for _, x := range figures {
		k := deviation.ExactCoefficients{A: 0.01, B: x, C: -x, D: x}
		for _, h := range figures {
			for _, dip := range dips {
				at := devtest.Earth{Horizontal: h, Dip: dip}
				permanent, err := adjust.AllPermanent(k, at)
				finite("permanent", err, permanent.A, permanent.D, permanent.PermanentAhead, permanent.PermanentStarboard)
				induced, err := adjust.AllInduced(k, at)
				finite("induced", err, induced.InducedAhead, induced.InducedStarboard)
				there, err := adjust.Forces{A: x, PermanentAhead: x, InducedAhead: -x, PermanentStarboard: -x, InducedStarboard: x}.At(at)
				finite("at", err, there.A, there.B, there.C)
				both, err := adjust.Separate(k, at, k, devtest.Earth{Horizontal: 20_000, Dip: 10 * devtest.Deg})
				finite("separate", err, both.PermanentAhead, both.InducedAhead)
				for _, mu := range figures {
					j, err := adjust.NewHeeling(x, mu, h, dip)
					finite("heeling", err, float64(j))
				}
			}
		}
	}
}

// A nil pointer to a field is a field left out.
func TestNilPointerToAFieldIsRefused(t *testing.T) {
	var none *wmm.Field
	sound := wmm.Field{X: 20000, Z: 40000}
	_, err1 := adjust.AllPermanent(deviation.ExactCoefficients{}, none)
	_, err2 := adjust.AllInduced(deviation.ExactCoefficients{}, none)
	_, err3 := adjust.Separate(deviation.ExactCoefficients{}, sound, deviation.ExactCoefficients{}, none)
	_, err4 := adjust.Forces{}.At(none)
	for i, err := range []error{err1, err2, err3, err4} {
		if _, ok := errors.AsType[*adjust.FieldError](err); !ok {
			t.Errorf("call %d: %v", i+1, err)
		}
	}
}
