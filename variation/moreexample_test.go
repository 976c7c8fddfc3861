package variation_test

import (
	"errors"
	"fmt"
	"log"
	"time"

	"lubberline.example/angle"
	"lubberline.example/variation"
)

// The steps that a navigator writes down, and what weakens the answer.
func ExampleProjection() {
	p, err := variation.MustParseLegend("7°20′W 1995 (12′E)").InYear(2026)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(p.Working())
	for _, w := range p.Warnings(variation.Limits{}) {
		fmt.Println(w)
	}
	// Output:
	// Variation in 1995      7°20′W  printed at the rose, annual change 12′E
	// Years, 1995 to 2026  31 years  counted in whole years
	// Change                 6°12′E  31 years × 12′E
	// Change error           ±1°34′  the annual change is not steady over 31 years
	// Source                 ±0°23′  the error of the forecast on the chart; local anomalies are not included
	// Uncertainty            ±1°37′  standard: change error, source and rounding (±0°09′) together
	// Variation in 2026      1°08′W  change east, variation west: it decreases
	// the rose of 1995 gives 1°08′W ±1°37′ for 2026, beyond the limit of ±0°30′: use a newer chart or a field model
}

// harbour is a source of variation of your own: a survey of one harbour, good for one year.
type harbour struct{ surveyed variation.Variation }

func (h harbour) VariationAt(position angle.Position, date time.Time) (variation.Variation, error) {
	if date.Year() != 2026 {
		return variation.Variation{}, errors.New("the survey is of 2026")
	}
	return h.surveyed, nil
}

// VariationNeeds says that the answer depends on the date, and not on the position.
func (h harbour) VariationNeeds() (position, date bool) { return false, true }

// A source of variation of your own needs one method. With VariationNeeds, callers may leave out
// the position.
func ExampleSource() {
	source := harbour{variation.MustParse("5°05′W ±0°03′")}
	for _, day := range []time.Time{time.Date(2026, time.July, 2, 0, 0, 0, 0, time.UTC), {}} {
		if err := variation.Missing(source, nil, day); err != nil {
			fmt.Println(err)
			continue
		}
		e, err := variation.Explain(source, angle.Position{}, day)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Print(e.Working)
	}
	// Output:
	// Variation  5°05′W  as given
	// no date: the variation depends on it; give the day of the passage
}

// A legend with the letter O: west in French, east in German.
func ExampleParseLegendIn() {
	for _, language := range []variation.Language{variation.French, variation.German, variation.English} {
		rose, err := variation.ParseLegendIn("4°15′ O 2009 (8′ E)", language)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(language, rose)
	}
	// Output:
	// fr 4°15′W 2009 (8′E)
	// de 4°15′E 2009 (8′E)
	// variation: legend "4°15′ O 2009 (8′ E)": "O" is west in some languages and east in others; write E or W, or name the language of the legend
}
