// Package swing reduces the record of a swing of the compass. In a swing the vessel turns through
// all headings, and its compass is compared with a known direction on each. The package finds the
// deviation on each heading, fits a curve to the deviations, and points at suspect readings.
//
//	transit := swing.Transit{
//		Direction: angle.MustParseTrue("062°T"),
//		Variation: variation.West(5 * angle.Degree),
//	}
//	file, err := os.Open("swing.csv")
//	if err != nil {
//		log.Fatal(err)
//	}
//	defer file.Close()
//	swung, err := swing.ReadSwing(file, transit) // CSV with the columns heading, bearing
//	if err != nil {
//		log.Fatal(err)
//	}
//	fit, err := swung.Fit(swing.FitOptions{})
//	if err != nil {
//		log.Fatal(err)
//	}
//	card, err := deviation.NewCard(fit.Curve, 15*angle.Degree, deviation.Details{})
//	if err != nil {
//		log.Fatal(err)
//	}
//	fmt.Print(card)
//
// # Where to begin
//
//   - To reduce a swing, choose the [Method]: what the compass was compared with. A [Transit] or a
//     [DistantObject] ashore, [SunAzimuths], the [TrueHeadings] of a gyro-compass or a satellite
//     compass, a [ShoreCompass], a [SecondCompass] aboard, or [StatedDeviations] already reduced.
//   - Read the record with [ReadSwing], or give readings to [Reduce].
//   - Look at [Swing.Suspicions] and [Swing.Warnings] before anything else.
//   - Fit a curve with [Swing.Fit]. It chooses how many harmonics the readings support.
//   - Print [Swing.Working] and [Fit.Working]. Make the deviation card with
//     [lubberline.example/deviation.NewCard].
//
// # How far to trust a fit
//
// The uncertainties come from the scatter of the readings about the curve. They allow for few
// readings, for readings rounded to 5°, and for neighbouring readings that share errors. An error
// that all readings share, such as a wrong variation, does not show in the scatter. State its
// uncertainty in the method; it is then part of the uncertainty of A.
//
// In simulated swings of 6 to 36 headings, twice the standard uncertainty holds the true
// deviation in 93 to 97 % of cases. The tests of this package measure it.
//
// # Errors
//
// If a reading cannot be reduced, or if no curve fits, the result is an [*Error] with a kind. A record that cannot be read is a
// [*lubberline.example/angle/record.Error] with the line.
package swing
