package deviation_test

import (
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

// The sines and cosines of the multiples are had from those of the heading by
// recurrence; here each is computed by itself.
func TestHarmonicsAreSummedAsDefined(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		order := rapid.IntRange(1, deviation.MaxOrder).Draw(t, "order")
		curve := madeCurve(t, drawSeries(t, order, 5), deviation.ByCompass)
		b := madeSeries(madeCoefficients(curve)) // as they were found
		z := drawHeading(t, "heading")
		d, err := curve.OnCompass(angle.CompassFrom(z))
		if err != nil || !near(d.Degrees(), b.at(z), 1e-11) { // the unit of an Angle is 2.8e-13°, for each of 13 terms
			t.Fatalf("%v, want %v, %v", d.Degrees(), b.at(z), err)
		}
		if curve.Order() != order {
			t.Fatal(curve.Order())
		}
	})
}

// A curve is known as well as xᵀ Cov x says, with the orders averaged too: on
// the mean round the circle that is the trace, weighted by the mean squares of
// sines and cosines.
func TestTheUncertaintyRoundTheCircleIsThatOfTheCoefficients(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		order := rapid.IntRange(1, deviation.MaxOrder).Draw(t, "order")
		swing := madeSwing(drawSpread(t, 2*order+1+6), madeSeries{1, 3, -2, 1, 0, 0.5, 0, 0, 0.3, 0, 0, 0, 0, 0.2, 0.1}.at)
		fit := madeFit(t, swing, deviation.FitOptions{Order: order})
		want, _ := fit.Covariance(0, 0)
		for i := 1; i <= 2*order; i++ {
			v, ok := fit.Covariance(i, i)
			if !ok || v < 0 {
				t.Fatalf("variance %d: %v", i, v)
			}
			want += v / 2
		}
		sum := 0.0
		for _, z := range madeEven(36, drawHeading(t, "first")) {
			d, _ := fit.Curve.OnCompass(angle.CompassFrom(z))
			u, _ := d.Uncertainty().Sigma()
			sum += u.Degrees() * u.Degrees() / 36
		}
		if !near(sum, want, 1e-9*want+1e-12) { // floating point, and units of an Angle squared
			t.Fatalf("mean variance %v, want %v", sum, want)
		}
	})
}
