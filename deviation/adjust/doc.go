// Package adjust says what the coefficients of a compass mean, and how its deviation changes
// with the magnetic latitude and with heel.
//
//	k := deviation.Coefficients{B: -4 * angle.Degree, C: 3 * angle.Degree, D: 2 * angle.Degree}
//	meaning := adjust.Analyse(k) // of a swing: fit.Curve.Coefficients()
//	for _, f := range meaning.Findings {
//		fmt.Println(f.Letter, f.Value, f.Cause, f.Corrector)
//	}
//
// # Where to begin
//
//   - [Analyse] says what causes each of the coefficients A to E, and which corrector acts on it.
//   - [FitExact] finds the exact coefficients of a swing with large deviations.
//   - [AnotherLatitude] warns of a card that was carried far, and [Separate] tells permanent from
//     induced magnetism by swings at two places.
//   - [NewHeeling] and [HeelingFrom] give the heeling coefficient, and [Heeling.Adds] what a heel
//     adds to the deviation.
//   - [Rules] says which corrector acts on each coefficient and which way it stands. A [Lesson]
//     says so for one compass, and [After] predicts the curve that a [Correction] leaves.
//   - [Compare] puts the deviations before and after adjusting side by side.
//   - A [Limit] compares the largest deviation with what an authority allows.
//
// # Flinders bar
//
// Upright iron forward or aft of the compass takes its magnetism from the vertical part of the
// earth's field. Magnets can remove the B that it causes at one place only. A bar of the same iron
// on the other side of the compass, the Flinders bar, removes it everywhere, because both change
// together. On Flinders's own voyage B was −3.2° in latitude 35°S and −1.5° in 10°S, with the
// compass always in the same place (A Voyage to Terra Australis, 1814). The example of [Separate]
// for that voyage finds both parts of it. Swings at two places show how much of B is for the bar:
// [Separate], then [Forces.Corrected].
//
// # Heeling error
//
// A heel brings iron and magnetism that was below the compass to one side of it. If the needle is
// drawn to the high side, the [Heeling] coefficient is positive, and the red end of the heeling
// magnet goes up. The formula and the rule are from memory, and the sign follows from the poles. No
// published figures of a vessel's heeling error were found to test them.
//
// # Caution
//
// This package checks a compass. Correcting it is the work of a compass adjuster, certified
// where the flag state requires it. After any correction the compass is swung again.
package adjust
