package deviation_test

import (
	"fmt"
	"log"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

// Where a deviation comes from: the rows of the card on both sides of the heading.
func ExampleExplain() {
	table, err := deviation.NewTable(quillon)
	if err != nil {
		log.Fatal(err)
	}
	e, err := deviation.Explain(table, angle.MustParseCompass("052°C"))
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(e.Working)
	// Output:
	// Deviation  1°34′E  table, linearly between 2°30′E on 045°C and 3°30′W on 090°C
}
