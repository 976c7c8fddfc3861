package variation_test

// The Quillon, its passages and the coast of Orlesk are invented, and so is
// every figure of these examples.

import (
	"errors"
	"fmt"
	"log"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/variation"
)

// The Quillon is in Orlesk Bay in 2026 with a chart whose rose is of 2015. The
// course to make good is 035° true.
func Example() {
	// What the rose prints: variation, year, annual change.
	rose, err := variation.ParseLegend("7°20′W 2015 (12′E)")
	if err != nil {
		log.Fatal(err)
	}
	now, err := rose.InYear(2026)
	if err != nil {
		log.Fatal(err)
	}
	course := angle.MustParseTrue("035°T")
	fmt.Println("variation in 2026:", now.Variation)
	fmt.Println("standard uncertainty:", now.Variation.Uncertainty())
	fmt.Printf("steer %v magnetic: %.0v\n", course, now.Variation.Magnetic(course))
	// Output:
	// variation in 2026: 5°08′W
	// standard uncertainty: ±0°33.7′
	// steer 035°T magnetic: 040°08′M
}

// Four roses off Orlesk, each printed in the manner of its time.
func ExampleParseLegend() {
	for _, text := range []string{
		"7°20′W 2015 (12′E)",
		"VAR 7°55'W (2012) ANNUAL DECREASE 9'",
		"Mag. Var. 8 deg 20 min W (1984), decreasing about 9 min annually",
		"Variation 14½° West in 1914. Decreasing 5′ per year",
	} {
		rose, err := variation.ParseLegend(text)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("%-18s  %s\n", rose, rose.LegendInWords())
	}
	// Output:
	// 7°20′W 2015 (12′E)  7°20′W (2015), annual decrease 12′
	// 7°55′W 2012 (9′E)   7°55′W (2012), annual decrease 9′
	// 8°20′W 1984 (9′E)   8°20′W (1984), annual decrease 9′
	// 14½°W 1914 (5′E)    14½°W (1914), annual decrease 5′
}

// A legend that does not say which way the variation changes is refused. Half of all guesses
// would double the error.
func ExampleError() {
	_, err := variation.ParseLegend("7°20′W 2015 (12′)")
	if e, ok := errors.AsType[*variation.Error](err); ok {
		fmt.Println(e.Kind)
		fmt.Println("after:", e.Input[:e.Offset])
		fmt.Println(e.Reason)
	}
	// Output:
	// change-without-side
	// after: 7°20′W 2015 (12′
	// the annual change has no name; write it as (8′E), or as increasing 8′ annually
}

// The working is what a navigator writes down. Here the variation passes through
// zero and changes its name.
func ExampleRose_InYear() {
	p, err := variation.MustParseLegend("0°40′W 2014 (8′E)").InYear(2026)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(p.Working())
	for _, w := range p.Warnings(variation.Limits{}) {
		fmt.Println("Warning:", w)
	}
	// Output:
	// Variation in 2014      0°40′W  printed at the rose, annual change 8′E
	// Years, 2014 to 2026  12 years  counted in whole years
	// Change                 1°36′E  12 years × 8′E
	// Change error           ±0°27′  the annual change is not steady over 12 years
	// Source                 ±0°23′  the error of the forecast on the chart; local anomalies are not included
	// Uncertainty            ±0°36′  standard: change error, source and rounding (±0°04′) together
	// Variation in 2026      0°56′E  change east, variation west: it decreases through zero and becomes east
	// Warning: the rose of 2014 gives 0°56′E ±0°36′ for 2026, beyond the limit of ±0°30′: use a newer chart or a field model
}

// The Quillon is between two roses of its chart, which differ. The nearest is usual; a
// blend interpolates between them.
func ExampleChart() {
	chart, err := variation.NewChart("Orlesk approaches",
		variation.ChartRose{
			Name:     "Orlesk Bay",
			Position: angle.MustParsePosition("47°06′N 019°02′W"),
			Rose:     variation.MustParseLegend("7°20′W 2015 (12′E)"),
		},
		variation.ChartRose{
			Name:     "Offing",
			Position: angle.MustParsePosition("46°52′N 019°31′W"),
			Rose:     variation.MustParseLegend("7°55′W 2012 (9′E)"),
		},
	)
	if err != nil {
		log.Fatal(err)
	}
	ship := angle.MustParsePosition("47°00′N 019°14′W")
	day := time.Date(2026, time.July, 2, 0, 0, 0, 0, time.UTC)

	e, err := chart.ExplainVariation(ship, day)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println("nearest:", e.Variation)
	for _, w := range e.Warnings {
		fmt.Println("Warning:", w)
	}

	chart.Method = variation.Blended
	v, err := chart.VariationAt(ship, day)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println("blended:", v)
	// Output:
	// nearest: 5°08′W
	// Warning: the rose of 2015 gives 5°08′W ±0°39′ for 2026, beyond the limit of ±0°30′: use a newer chart or a field model
	// Warning: the two nearest roses differ by 0°41′ (the second, Offing, 14 M away, gives 5°49′W): check which applies
	// blended: 5°25.2′W
}

// A variation that is known already, with how well.
func ExampleVariation() {
	v, err := variation.Parse("5°08′W ±0°30′")
	if err != nil {
		log.Fatal(err)
	}
	m := v.Magnetic(angle.MustParseTrue("236°T"))
	fmt.Printf("%.0v, and back %.0v; known to %v\n", m, v.True(m), v.Uncertainty())
	fmt.Println(variation.Between(angle.MustParseTrue("236°T"), angle.MustParseMagnetic("241°08′M")))
	// Output:
	// 241°08′M, and back 236°00′T; known to ±0°30′
	// 5°08′W
}

// The roses of a chart as a file.
func ExampleReadChart() {
	const file = `name,position,legend
Orlesk Bay,47°06′N 019°02′W,7°20′W 2015 (12′E)
Offing,46°52′N 019°31′W,7°55′W 2012 (9′E)
`
	chart, err := variation.ReadChart("Orlesk approaches (invented)", strings.NewReader(file))
	if err != nil {
		log.Fatal(err)
	}
	vessel := angle.MustParsePosition("47°05′N 019°05′W")
	for _, r := range chart.Roses() {
		p, err := r.Rose.InYear(2026)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("%s, %.0f miles off: %v\n", r.Name, vessel.ArcTo(r.Position).Minutes(), p.Variation)
	}
	_, err = variation.ReadChart("misread", strings.NewReader("position,legend\n47°06′N 019°02′W,7°20′W 2015 (12′)\n"))
	fmt.Println(err)
	// Output:
	// Orlesk Bay, 2 miles off: 5°08′W
	// Offing, 22 miles off: 5°49′W
	// line 2, legend: variation: legend "7°20′W 2015 (12′)": the annual change has no name; write it as (8′E), or as increasing 8′ annually
}

// Outside its roses a chart does not blend. The error names the nearest rose.
func ExampleError_outside() {
	chart, err := variation.NewChart("Orlesk approaches",
		variation.ChartRose{Name: "Orlesk Bay", Position: angle.MustParsePosition("47°06′N 019°02′W"), Rose: variation.MustParseLegend("7°20′W 2015 (12′E)")},
		variation.ChartRose{Name: "Offing", Position: angle.MustParsePosition("46°52′N 019°31′W"), Rose: variation.MustParseLegend("7°55′W 2012 (9′E)")},
	)
	if err != nil {
		log.Fatal(err)
	}
	chart.Method = variation.Blended
	_, err = chart.VariationAt(angle.MustParsePosition("47°20′N 018°40′W"), time.Date(2026, time.July, 2, 0, 0, 0, 0, time.UTC))
	if e, ok := errors.AsType[*variation.Error](err); ok {
		fmt.Println("nearest:", e.Rose)
	}
	fmt.Println(err)
	// Output:
	// nearest: Orlesk Bay
	// variation: 47°20.0′N 018°40.0′W: beyond the two roses; the nearest rose is Orlesk Bay, 20.5 M away
}

// What weakens an answer comes with it.
func ExampleExplain() {
	rose := variation.MustParseLegend("14½°W 1914 (5′E)")
	e, err := variation.Explain(rose, angle.MustParsePosition("47°06′N 019°02′W"), time.Date(2026, time.July, 2, 0, 0, 0, 0, time.UTC))
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(e.Variation)
	for _, w := range e.Warnings {
		fmt.Println(w.Kind, "-", w)
	}
	// Output:
	// 5°10′W
	// old-rose - the rose of 1914 gives 5°10′W ±10°11′ for 2026, beyond the limit of ±0°30′: use a newer chart or a field model
}

// Is the rose of the Quillon's chart still good? The audit compares it with a newer
// rose. A field model of package wmm would do as well.
func ExampleRose_Audit() {
	ours := variation.MustParseLegend("7°20′W 2015 (12′E)")
	newer := variation.MustParseLegend("6°01′W 2025 (8′E)")
	newer.Variation = newer.Variation.WithUncertainty(angle.Must(angle.StandardUncertainty(10 * angle.Minute))) // by a survey
	day := time.Date(2026, time.July, 2, 0, 0, 0, 0, time.UTC)
	audit, err := ours.Audit(newer, angle.MustParsePosition("47°06′N 019°02′W"), day)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(audit.Working())
	// Output:
	// Rose 7°20′W 2015 (12′E) at 47°06.0′N 019°02.0′W
	//   Rose in 2015           7°20′W  as printed
	//   Source in 2015         7°21′W  standard uncertainty ±0°28.5′
	//   Rose minus source      0°01′E  within the allowed ±0°57.8′, twice the uncertainty
	//   Rose on 2 July 2026    5°08′W  the rose brought up to that year
	//   Source on 2 July 2026  5°53′W  standard uncertainty ±0°10.6′
	//   Rose minus source      0°45′E  beyond the allowed ±0°23.2′, twice the uncertainty
	//   Annual change, rose    0°12′E  as printed
	//   Annual change, source  0°08′E  around 2015
	//   Annual change, source  0°08′E  in the year around the date
	//   Verdict                        stale; the rose agrees in its own year, but not now; use a newer chart
}
