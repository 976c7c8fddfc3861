package drawing_test

import (
	"fmt"
	"log"
	"os"

	"lubberline.example/angle/drawing"
)

// A mark of the Orlesk coast, which is invented, with its name beside it.
func Example() {
	sheet := drawing.New(120, 90, "Orlesk Bay", "A beacon and its name.")
	beacon := drawing.At(60, 80)
	sheet.Polygon("mark", `fill="black"`, []drawing.Spot{
		beacon.Moved(0, -1.2), beacon.Moved(1.2, 0), beacon.Moved(0, 1.2), beacon.Moved(-1.2, 0),
	})
	sheet.Text(beacon.Moved(2.2, 0.8), `font-style="italic"`, "Minnow Ledge beacon")
	if err := sheet.WriteSVG(os.Stdout, drawing.Figure); err != nil {
		log.Fatal(err)
	}
	// Output:
	// <svg xmlns="http://www.w3.org/2000/svg" class="lubberline-figure" role="img" width="100%" style="max-width:160mm" viewBox="0 0 120 90" font-family="sans-serif" font-size="2.7">
	// <title>Orlesk Bay</title>
	// <desc>A beacon and its name.</desc>
	// <style>@media screen and (prefers-color-scheme:dark){.lubberline-figure{filter:invert(.93) hue-rotate(180deg)}}</style>
	// <rect width="120" height="90" fill="white"/>
	// <polygon class="mark" fill="black" points="60.00,78.80 61.20,80.00 60.00,81.20 58.80,80.00"/>
	// <text x="62.20" y="80.80" font-style="italic">Minnow Ledge beacon</text>
	// </svg>
}

func ExampleShortened() {
	// In letters of 2.7 mm there is room for this many of their sizes in 40 mm.
	room := 40 / drawing.Letters
	fmt.Println(drawing.Shortened("Orlesk Head light", room))
	fmt.Println(drawing.Shortened("Orlesk Head light with a white sector", room))
	// Output:
	// Orlesk Head light
	// Orlesk Head light with a…
}

// A line with a text along it, and a mark with its name.
func ExampleLabels() {
	sheet := drawing.New(90, 60, "A bearing", "A position line with its bearing.")
	mark, end := drawing.At(70, 15), drawing.At(20, 45)
	sheet.Line(mark, end, `stroke="black" stroke-width="0.4"`)

	labels := drawing.Labels{Room: drawing.Box{Right: 90, Bottom: 60}}
	labels.AvoidLine(mark, end)
	labels.Avoid(drawing.Around(mark, 1.2, 1.2))
	labels.Add(drawing.Label{Text: "1030 059°T", Along: []drawing.Spot{mark, end}})
	labels.Add(drawing.Label{Text: "Minnow Ledge beacon", At: mark})
	for _, l := range labels.Draw(sheet) {
		fmt.Println("no room for", l.Text)
	}
	// Output:
}
