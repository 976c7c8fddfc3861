package deviation_test

import (
	"testing"

	"lubberline.example/deviation/internal/devtest"
	"lubberline.example/deviation/swing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

// The sines and cosines of the multiples are had from those of the heading by
// recurrence; here each is computed by itself.
func TestHarmonicsAreSummedAsDefined(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		order := rapid.IntRange(1, swing.MaxOrder).Draw(t, "order")
		curve := madeCurve(t, devtest.DrawSeries(t, order, 5), deviation.ByCompass)
		b := devtest.Series(devtest.AllCoefficients(curve)) // as they were found
		z := devtest.DrawHeading(t, "heading")
		d, err := curve.OnCompass(angle.CompassFrom(z))
		if err != nil || !devtest.Near(d.Degrees(), b.At(z), 1e-11) { // the unit of an Angle is 2.8e-13°, for each of 13 terms
			t.Fatalf("%v, want %v, %v", d.Degrees(), b.At(z), err)
		}
		if curve.Order() != order {
			t.Fatal(curve.Order())
		}
	})
}

// A curve is known as well as xᵀ Cov x says, with the orders averaged too: on
// the mean round the circle that is the trace, weighted by the mean squares of
// sines and cosines.
func TestCurveUncertaintyFollowsCovariance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		order := rapid.IntRange(1, swing.MaxOrder).Draw(t, "order")
		swung := devtest.Swing(devtest.DrawSpread(t, 2*order+1+6), devtest.Series{1, 3, -2, 1, 0, 0.5, 0, 0, 0.3, 0, 0, 0, 0, 0.2, 0.1}.At)
		fit := devtest.Fit(t, swung, swing.FitOptions{Order: order})
		want, _ := fit.Covariance(0, 0)
		for i := 1; i <= 2*order; i++ {
			v, ok := fit.Covariance(i, i)
			if !ok || v < 0 {
				t.Fatalf("variance %d: %v", i, v)
			}
			want += v / 2
		}
		sum := 0.0
		for _, z := range devtest.Even(36, devtest.DrawHeading(t, "first")) {
			d, _ := fit.Curve.OnCompass(angle.CompassFrom(z))
			u, _ := d.Uncertainty().Sigma()
			sum += u.Degrees() * u.Degrees() / 36
		}
		if !devtest.Near(sum, want, 1e-9*want+1e-12) { // floating point, and units of an Angle squared
			t.Fatalf("mean variance %v, want %v", sum, want)
		}
	})
}
