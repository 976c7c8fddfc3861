package page_test

import (
	"fmt"

	"lubberline.example/angle"
	"lubberline.example/angle/page"
	"lubberline.example/angle/working"
)

// A page for the learner, with a section for each problem. [lubberline.example/angle/page.Write] writes the
// same page as one HTML file.
func Example() {
	doc := page.Page{
		Title: "Out of Orlesk Bay (invented)",
		Parts: []page.Part{{
			Heading: "The variation",
			Text:    []string{"Taken from the rose in Orlesk Bay."},
			Sheet:   &working.Sheet{Steps: working.Steps{working.EastWest("variation", "Variation", angle.Must(angle.Parse("-5°08′"))).Because("in-year", "in 2026")}},
		}},
	}
	fmt.Print(doc.Markdown())
	// Output:
	// # Out of Orlesk Bay (invented)
	//
	// ## The variation
	//
	// Taken from the rose in Orlesk Bay.
	//
	// | What      |  Value | How |
	// | :-------- | -----: | :-- |
	// | Variation | 5°08′W | in 2026 |
}
