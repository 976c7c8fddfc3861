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
// The standard uncertainty of a projected rose is
//
//	u² = u₀² + q²/12 + m² (u′² + q′²/12) + τ² c²
//
// where q and q′ are one unit of the last figure printed of the variation and of
// the annual change (rectangular distributions, JCGM 100:2008, F.2.2.1), c is
// the annual change, and τ the uncertainty of the count in years: the legend
// names no day, so that a count from the beginning of its year is off by up to a
// year (τ² = 1/3), and one of whole years by the difference of two unknown days
// (τ² = 1/6). m² is the mean square of the years from the legend's day to the
// date: of the n counted, n² + 1/6 if they are whole years, n² − n + 1/3 if they
// are decimal. u₀ and u′ are how well the hydrographic office knew the variation
// and its change; legends do not say, and they count only where the caller states
// them. So the figure is what the print allows, and is the least there is: the
// true annual change itself drifts over the years, which is why [Limits] flags
// old roses.
//
// # Cautions
//
// Local magnetic anomalies are not in any rose. Use the chart in force, with its
// corrections.
package variation
