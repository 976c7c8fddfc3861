package variation_test

// The Quillon, her passages and the coast of Orlesk are invented, and so is
// every figure of these examples.

import (
	"errors"
	"fmt"
	"log"
	"time"

	"lubberline.example/angle"
	"lubberline.example/variation"
)

// The Quillon is off Orlesk Head in 2026 with a chart whose rose is of 2014. She
// wants to make good 035° true.
func Example() {
	// What the rose prints: variation, year, annual change.
	rose, err := variation.ParseLegend("3°50′W 2014 (9′E)")
	if err != nil {
		log.Fatal(err)
	}
	now, err := rose.InYear(2026)
	if err != nil {
		log.Fatal(err)
	}
	course := angle.MustParseTrue("035°T")
	fmt.Println("variation in 2026:", now.Variation)
	fmt.Println("as well as the print allows:", now.Variation.Uncertainty())
	fmt.Printf("steer %v magnetic: %.0v\n", course, now.Variation.Magnetic(course))
	// Output:
	// variation in 2026: 2°02′W
	// as well as the print allows: ±0°05.1′
	// steer 035°T magnetic: 037°02′M
}

// Four roses off Orlesk, each printed in the manner of its time.
func ExampleParseLegend() {
	for _, text := range []string{
		"3°50′W 2014 (9′E)",
		"VAR 5°20'W (2004) ANNUAL DECREASE 9'",
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
	// 3°50′W 2014 (9′E)   3°50′W (2014), annual decrease 9′
	// 5°20′W 2004 (9′E)   5°20′W (2004), annual decrease 9′
	// 8°20′W 1984 (9′E)   8°20′W (1984), annual decrease 9′
	// 14½°W 1914 (5′E)    14½°W (1914), annual decrease 5′
}

// A legend that does not say which way the variation goes is refused: half of
// all guesses would double the error.
func ExampleLegendError() {
	_, err := variation.ParseLegend("3°50′W 2014 (9′)")
	if e, ok := errors.AsType[*variation.LegendError](err); ok {
		fmt.Println(e.Kind)
		fmt.Println("after:", e.Input[:e.Offset])
		fmt.Println("want:", e.Want)
	}
	// Output:
	// change-without-side
	// after: 3°50′W 2014 (9′
	// want: E or W, or increase or decrease, with the annual change
}

// The working is what a navigator writes down. Here the variation passes through
// nought and changes its name.
func ExampleRose_InYear() {
	p, err := variation.MustParseLegend("0°40′W 2014 (8′E)").InYear(2026)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(p.Working())
	for _, w := range p.Warnings(variation.Limits{Age: 10}) {
		fmt.Println("Warning:", w)
	}
	// Output:
	// Variation in 2014      0°40′W  printed at the rose, annual change 8′E
	// Years, 2014 to 2026  12 years  counted in whole years
	// Change                 1°36′E  12 years × 8′E
	// Variation in 2026      0°56′E  change east, variation west: it decreases through nought and becomes east
	// Warning: the rose of 2014 is 12 years from 2026: over the limit of 10 years
}

// The Quillon is between two roses of her chart that differ by a degree. The
// nearest is the rule; blended, she sees what lies between.
func ExampleChart() {
	chart, err := variation.NewChart("Orlesk approaches",
		variation.ChartRose{
			Name:     "Orlesk Head",
			Position: angle.MustParsePosition("47°00′N 019°00′W"),
			Rose:     variation.MustParseLegend("3°50′W 2014 (9′E)"),
		},
		variation.ChartRose{
			Name:     "Braddle Point",
			Position: angle.MustParsePosition("47°40′N 019°00′W"),
			Rose:     variation.MustParseLegend("4°50′W 2014 (9′E)"),
		},
	)
	if err != nil {
		log.Fatal(err)
	}
	ship := angle.MustParsePosition("47°15′N 019°00′W")
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
	// nearest: 2°02′W
	// Warning: the next rose, Braddle Point, 25 nautical miles away, gives 3°02′W: the choice matters
	// blended: 2°24.5′W
}
