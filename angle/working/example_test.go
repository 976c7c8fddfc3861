package working_test

import (
	"encoding/json"
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
			working.Direction("true course", "True course", angle.MustParseTrue("236°")).Because("from-the-chart", "from the chart"),
			working.EastWest("variation", "Variation", angle.Must(angle.Parse("-5°08′"))).Because("from-rose", "from the rose"),
			working.Direction("magnetic course", "Magnetic course", angle.MustParseMagnetic("241°08′")).Because("variation-west", "variation is west: magnetic is greater than true"),
		},
		Warnings: []working.Warning{{Kind: "old-rose", Message: "the rose is 11 years old"}},
	}
	fmt.Print(sheet)
	if step, ok := sheet.Steps.Find("magnetic course"); ok {
		fmt.Printf("%.2f %s\n", step.Number, step.Unit)
	}
	// Output:
	// Orlesk Head to Minnow Ledge
	//   True course         236°T  from the chart
	//   Variation          5°08′W  from the rose
	//   Magnetic course  241°08′M  variation is west: magnetic is greater than true
	//   Warning: the rose is 11 years old
	// 241.13 degrees clockwise from north
}

func ExampleSheet_Markdown() {
	sheet := working.Sheet{
		Title: "Orlesk Head to Minnow Ledge",
		Steps: working.Steps{
			working.Direction("true course", "True course", angle.MustParseTrue("236°")).Because("from-the-chart", "from the chart"),
			working.EastWest("variation", "Variation", angle.Must(angle.Parse("-5°08′"))).Because("from-rose", "rose in Orlesk Bay"),
		},
		Warnings: []working.Warning{{Kind: "old-rose", Message: "the rose is 11 years old"}},
		Caution:  working.Caution,
	}
	fmt.Print(sheet.Markdown())
	// Output:
	// ## Orlesk Head to Minnow Ledge
	//
	// | What        |  Value | How |
	// | :---------- | -----: | :-- |
	// | True course |  236°T | from the chart |
	// | Variation   | 5°08′W | rose in Orlesk Bay |
	//
	// - **Warning:** the rose is 11 years old
	//
	// *An aid for checking. It does not replace up-to-date charts and notices to mariners, a proper lookout, or a competent navigator; local rules and licensed practice come first.*
}

// A step as data, for a program in any language: the figure as it is written, and as
// a number with its unit.
func ExampleStep() {
	step := working.EastWest("variation", "Variation", angle.Must(angle.Parse("-5°08′"))).Because("from-rose", "from the rose")
	data, err := json.MarshalIndent(step, "", "  ")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(string(data))
	// Output:
	// {
	//   "key": "variation",
	//   "what": "Variation",
	//   "value": "5°08′W",
	//   "number": -5.133333333333334,
	//   "unit": "degrees, east positive",
	//   "how": "from the rose",
	//   "reasons": [
	//     {
	//       "key": "from-rose"
	//     }
	//   ]
	// }
}

// A step in Spanish, made from its data: the key of the step, its value, and the keys and
// arguments of its reasons. The words are the program's own.
func ExampleReason() {
	step := working.EastWest("change", "Change", 132*angle.Minute).
		Because("annual-change", "%v a year for %d years", 12*angle.Minute, 11)

	quantities := map[string]string{"change": "Cambio"}
	sentences := map[string]string{"annual-change": "%s al año, %s años"}
	reason := step.Reasons[0]
	fmt.Println(quantities[step.Key], step.Value, fmt.Sprintf(sentences[reason.Key], reason.Arguments[0], reason.Arguments[1]))
	// Output:
	// Cambio 2°12′E 0°12′ al año, 11 años
}
