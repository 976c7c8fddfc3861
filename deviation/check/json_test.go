package check_test

import (
	"testing"

	"lubberline.example/deviation/adjust"
	"lubberline.example/deviation/check"
	"lubberline.example/deviation/internal/devtest"
	"lubberline.example/deviation/swing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

func TestDataReadBackFromTheirJSON(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		swung := devtest.Swing(devtest.Even(16, devtest.DrawBetween(t, 0, 20*devtest.Deg, "first")), devtest.Usual)
		for i := range swung {
			swung[i].Deviation = swung[i].Deviation.WithUncertainty(devtest.DrawUncertainty(t, "uncertainty"))
		}
		swung[rapid.IntRange(0, 15).Draw(t, "blunder")].Deviation = deviation.East(devtest.DrawBetween(t, 20*devtest.Deg, 40*devtest.Deg, "off"))
		devtest.RoundTrips(t, swung)
		devtest.RoundTrips(t, (&swing.Swing{Observations: swung}).Suspicions())

		v := variation.East(devtest.DrawBetween(t, -60*devtest.Deg, 60*devtest.Deg, "variation")).WithUncertainty(devtest.Sigma(12 * devtest.Minute))
		compass := angle.CompassFrom(devtest.DrawHeading(t, "compass"))
		reading := swing.Reading{
			Heading: new(angle.CompassFrom(devtest.DrawHeading(t, "heading"))), Bearing: &compass, Time: devtest.Noon, True: new(angle.TrueFrom(devtest.DrawHeading(t, "true"))),
			Shore: new(angle.MagneticFrom(devtest.DrawHeading(t, "shore"))), Other: &compass, Deviation: &swung[0].Deviation, Uncertainty: devtest.DrawUncertainty(t, "own"),
		}
		devtest.RoundTrips(t, reading)
		devtest.RoundTrips(t, swing.Reading{})
		for _, m := range []swing.Method{swing.Transit{Direction: *reading.True, Variation: v}, swing.TrueHeadings{Variation: v}} {
			devtest.RoundTrips(t, angle.Must(swing.Reduce([]swing.Reading{reading}, m)))
		}
		one := against(t, check.Reading{Time: devtest.Noon, Heading: reading.Heading, Bearing: new(compass), Uncertainty: devtest.Sigma(30 * devtest.Minute), Variation: v}, "the beacons", *reading.True, devtest.Sigma(0))
		devtest.RoundTrips(t, one)
		devtest.RoundTrips(t, angle.Must(check.Combine(one, one)))
		devtest.RoundTrips(t, angle.Must(check.ReviewCard(deviation.None(), []check.Check{one, one})))

		fit := devtest.DrawFit(t)
		devtest.RoundTrips(t, fit.Residuals)
		devtest.RoundTrips(t, fit.Curve.Coefficients())
		devtest.RoundTrips(t, adjust.Analyse(fit.Curve.Coefficients()))
		hand := angle.Must(deviation.OnEightHeadings(fit.Curve))
		devtest.RoundTrips(t, hand)
		devtest.RoundTrips(t, angle.Must(deviation.AnalyseByHand(hand)))
		exact := angle.Must(fit.Curve.Coefficients().Exact())
		devtest.RoundTrips(t, exact)
		devtest.RoundTrips(t, angle.Must(adjust.AllPermanent(exact, devtest.Earth{Horizontal: 20_000, Dip: 60 * devtest.Deg})))
		devtest.RoundTrips(t, adjust.FlagStateLimit())
		devtest.RoundTrips(t, angle.Must(deviation.NewCard(fit.Curve, 45*devtest.Deg, deviation.Details{Vessel: "Quillon", Date: devtest.Noon})))
		devtest.RoundTrips(t, swing.FitOptions{By: fit.Curve.By(), Order: 3, Robust: true, Common: devtest.DrawUncertainty(t, "common")})
		devtest.RoundTrips(t, deviation.Row[angle.Magnetic]{Heading: *reading.Shore, Deviation: *reading.Deviation})
	})
}

// A check as data, in the style of the module.
func TestACheckAsJSON(t *testing.T) {
	c := against(t, check.Reading{Time: devtest.Noon, Heading: new(angle.MustParseCompass("090")), Bearing: new(angle.MustParseCompass("250")), Variation: variation.MustParse("5°W ±0°15′")}, "a transit", angle.MustParseTrue("062"), devtest.Sigma(0))
	c.Steps = nil
	const want = `{"time":"2026-05-03T18:00:00Z","heading":"090°C","against":"a transit","bearing":"250°C","compassError":"172°00′E","variation":"5°00′W ±0°15′","deviation":"177°00′E",` +
		`"warnings":[{"kind":"not-a-deviation","message":"177°00′E cannot be a deviation","reason":{"key":"not-a-deviation","arguments":["177°00′E"]}},` +
		`{"kind":"not-a-deviation","message":"perhaps the reciprocal was read, 180° off","reason":{"key":"slip-reciprocal"}}]}`
	if text := devtest.RoundTrips(t, c); text != want {
		t.Errorf("%s\nwant %s", text, want)
	}
}
