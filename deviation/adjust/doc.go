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
//   - A [Limit] compares the largest deviation with what an authority allows.
//
// # Caution
//
// This package checks a compass. Correcting it is the work of a compass adjuster, certified
// where the flag state requires it. After any correction the compass is swung again.
package adjust
