// Package variation brings the variation printed at a chart's compass rose to a
// date and a place.
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
//   - One rose: [ParseLegend], then [Rose.InYear]; [Projection.Working] shows the steps.
//   - Several roses on a chart: [ReadChart] or [NewChart].
//   - A variation that is known already: [Parse], [East], [West].
//   - To convert directions, give any of these to package [lubberline.example/course],
//     or use [Variation.Magnetic] and [Variation.True].
//
// A [Variation] is east (positive) or west, and is the only way between
// [angle.True] and [angle.Magnetic] directions. [ParseLegend] reads what a chart
// prints at its rose; [Rose.InYear] and [Rose.On] bring it up to date and keep
// the steps; a [Chart] chooses among the roses of a chart, or blends them. All
// of these, and the field models of package [lubberline.example/wmm], are a
// [Source]. [Rose.Audit] compares a rose with a
// source, such as a field model, and says whether its name, its place or its age
// is at fault.
//
// # Years
//
// The trade counts whole years: any day of 2026 is 12 years after a rose of
// 2014. [WholeYears] does that, and so do [Rose.InYear] and roses and charts as
// sources, unless a [Chart] is told otherwise. [DecimalYears] counts from the
// beginning of the rose's year to the date. The working says which was used. Time is UTC, and
// [DecimalYear] is the one place where it becomes a year.
//
// # Names
//
// An annual change with its own name, as in (8′E), moves the variation that
// way. In words an increase is of the name that the variation has, a decrease
// against it. Either way the change is added with its sign, east positive, so
// that a decrease passes through nought and the variation changes its name.
//
// # How far to trust it
//
// The standard uncertainty of a rose brought to a date combines three independent parts.
// The working shows them, and [Projection] keeps them.
//
// Drift: the annual change of the field is itself not steady. After n years, where the
// horizontal intensity is H,
//
//	σ = 375 × n^1.3 / H degrees, with H in nT, at most 31,000
//
// The law is derived from the field between 1900 and 2030 by IGRF-14. Twice σ, in degrees,
// holds 95 % of the departures of that history:
//
//	years                 1     5    10    20    40
//	H = 31,000 nT      0.02  0.20  0.48  1.19   2.9
//	H = 25,000 nT      0.03  0.24  0.60  1.47   3.6
//	H = 16,000 nT      0.05  0.38  0.94  2.30   5.7
//	H = 10,000 nT      0.08  0.61  1.50  3.69   9.1
//
// The tails are heavy, so σ is set by the 95 % point, and one σ holds about 80 %. A [Chart]
// with a Model takes H from it. Where only the latitude is known, 25,000 nT × its cosine
// stands for H. Where no place is known, 20,800 nT does: that holds 95 % between 60° S and
// 60° N, and too little beyond.
//
// Source: a chart prints a forecast by a model without the crust and disturbances. Its
// error is that of the World Magnetic Model 2020-2025 (Technical Report, section 3.4), from
// the rose's own year on:
//
//	σ = √(0.26² + (5625/H)²) degrees
//
// An uncertainty that is stated for the rose's variation stands in its place.
//
// Rounding: of the printed variation and annual change, and of the date.
//
//	σ² = q² + m² (u′² + q′²) + τ² c²
//
// Here q and q′ are half of the 95 % points of the rounding, 0.2375 of a step. Charts print
// minutes to 1′, 5′ or 15′ without saying which, so a figure that 15 divides counts as one to
// 15′, and one that 5 divides as one to 5′. The annual change is c, and u′ its uncertainty if
// that is stated. The legend names no day: τ is 0.475 of a year from the beginning of
// the rose's year, and 0.388 for whole years. The mean square m² of the years from the
// legend's day is n² − n + ⅓ or n² + ⅙.
//
// Without an annual change the uncertainty in other years is not stated. Warnings follow
// from the uncertainty; [Limits] sets from where on.
//
// # Cautions
//
// Local magnetic anomalies are not in any rose, nor in its uncertainty. Use the chart in force, with its
// corrections.
package variation
