package working_test

import (
	"fmt"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// A leg of the fictional vessel Quillon, off the fictional coast of Orlesk; the
// figures are invented.
func Example() {
	sheet := working.Sheet{
		Title: "Orlesk Head to Minnow Ledge",
		Steps: working.Steps{
			working.Direction("true course", "True course", angle.MustParseTrue("104°15′"), "from the chart"),
			working.EastWest("variation", "Variation", angle.MustParse("-4°15′"), "from the rose"),
			working.Direction("magnetic course", "Magnetic course", angle.MustParseMagnetic("108.5"), "variation is west: magnetic is greater than true"),
		},
		Warnings: []string{"the rose is twenty years old"},
	}
	fmt.Print(sheet)
	if step, ok := sheet.Steps.Find("magnetic course"); ok {
		fmt.Println(step.Number, step.Unit)
	}
	// Output:
	// Orlesk Head to Minnow Ledge
	//   True course      104°15′T  from the chart
	//   Variation          4°15′W  from the rose
	//   Magnetic course  108°30′M  variation is west: magnetic is greater than true
	//   Warning: the rose is twenty years old
	// 108.5 degrees clockwise from north
}
