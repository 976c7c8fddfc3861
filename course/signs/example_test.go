package signs_test

import (
	"fmt"

	"lubberline.example/angle/drawing"
	"lubberline.example/course/signs"
)

// A course steered from a fix, and the legend of what is drawn.
func ExamplePen() {
	sheet := drawing.New(120, 100, "Course steered", "A course steered from a fix.")
	labels := &drawing.Labels{Room: drawing.Box{Right: 120, Bottom: 100}}
	pen := signs.Pen{Sheet: sheet, Usage: signs.UnitedStates, Labels: labels}
	fix := drawing.At(20, 80)
	pen.Line(signs.Line{Kind: signs.WaterTrack, Path: []drawing.Spot{fix, drawing.At(80, 60)}, Direction: "072°T", Speed: "5.5 kn"})
	pen.Mark(signs.Mark{Kind: signs.Fix, At: fix, Time: "1030"})
	fmt.Println(len(labels.Draw(sheet)), "texts without room")
	for _, line := range pen.Legend() {
		fmt.Println(line)
	}
	// Output:
	// 0 texts without room
	// Signs of the United States (common practice)
	// course steered, water track (C, S)
	// fix
}
