// Package variation brings the variation printed at a chart's compass rose to a date and a
// place.
//
//	rose, err := variation.ParseLegend("7°20′W 2015 (12′E)") // as printed on the chart
//	if err != nil {
//		log.Fatal(err)
//	}
//	now, err := rose.InYear(2026)
//	if err != nil {
//		log.Fatal(err)
//	}
//	fmt.Println(now.Variation) // 5°08′W
//
// # Where to begin
//
//   - One rose: [ParseLegend] reads its legend, the text printed there. Then call
//     [Rose.InYear]. [Projection.Working] shows the steps.
//   - A legend in French, German or Spanish: [ParseLegendIn]. O is west in some languages
//     and east in others, so the caller names the language.
//   - Several roses on a chart: [ReadChart] or [NewChart].
//   - A known variation: [Parse], [East] or [West].
//   - A check of a rose against a field model: [Rose.Audit].
//   - Converting directions: pass any of these to package [lubberline.example/course], or
//     use [Variation.Magnetic] and [Variation.True].
//
// Variation is also called magnetic declination. East is positive. Only a [Variation]
// converts between [angle.True] and [angle.Magnetic] directions. A [Rose], a [Projection], a
// [Chart] and the field models of package [lubberline.example/wmm] are a [Source] of it.
//
// # Years
//
// Navigators count whole years: any day of 2026 is 12 years after a rose of 2014. This is
// [WholeYears], the default. [DecimalYears] counts from the beginning of the rose's year to
// the date. The working says which count is used. Dates are in UTC, and [DecimalYear]
// converts them.
//
// # Names
//
// An annual change with its own name, as in (8′E), moves the variation that way. In words,
// an increase has the name of the variation, and a decrease the other name. Either way the
// change is added with its sign, east positive. So a decrease can pass through zero, and the
// variation then changes its name.
//
// # Uncertainty
//
// The standard uncertainty of a rose brought to a date combines three independent parts.
// The working shows them, and [Projection] keeps them.
//
// Drift ([Projection.Drift]; in the working, change error): the annual change of the field is not
// steady. After n years, where the horizontal intensity is H,
//
//	σ = 375 × n^1.3 / H degrees, with H in nT, at most 31,000
//
// The law is derived from the field between 1900 and 2030 by IGRF-14. Twice σ, in degrees,
// holds 95 % of the departures in that time:
//
//	years                 1     5    10    20    40
//	H = 31,000 nT      0.02  0.20  0.48  1.19   2.9
//	H = 25,000 nT      0.03  0.24  0.60  1.47   3.6
//	H = 16,000 nT      0.05  0.38  0.94  2.30   5.7
//	H = 10,000 nT      0.08  0.61  1.50  3.69   9.1
//
// The tails are heavy. So σ is half of the 95 % point, and one σ holds about 80 %. A [Chart]
// with a Model takes H from it. If only the latitude is known, H is 25,000 nT × its cosine.
// If the place is unknown, H is 20,800 nT. Then twice σ holds 95 % between 60° S and 60° N,
// and less beyond.
//
// Source ([Projection.Source]): a chart prints a forecast by a model, which leaves out the crust
// and disturbances. Its error is that of the World Magnetic Model 2020-2025 (Technical Report,
// section 3.4), from the rose's own year on:
//
//	σ = √(0.26² + (5625/H)²) degrees
//
// If the uncertainty of the rose's variation is stated, it replaces this.
//
// Rounding ([Projection.Rounding]): of the printed variation and annual change, and of the date.
//
//	σ² = q² + m² (u′² + q′²) + τ² c²
//
// Here q and q′ are half of the 95 % points of the rounding, 0.2375 of a step. Charts
// print minutes to 1′, 5′ or 15′ without saying which. So a figure that 15 divides counts
// as one to 15′, and one that 5 divides as one to 5′. The annual change is c. Its
// uncertainty, if stated, is u′. The legend names no day: τ is 0.475 of a year from the
// beginning of the rose's year, and 0.388 for whole years. The mean square of the years
// since the day of the legend is m². It is n² − n + ⅓ for decimal years, and n² + ⅙ for
// whole years.
//
// Without an annual change the uncertainty in other years is unknown. [Limits] says when an
// uncertain rose gets a warning.
//
// # Cautions
//
// Local magnetic anomalies are not in any rose, nor in its uncertainty. Use a corrected
// chart.
package variation
