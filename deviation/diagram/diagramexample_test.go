package diagram_test

import (
	"bytes"
	"fmt"
	"log"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/deviation"
	"lubberline.example/deviation/diagram"
)

// The curve as a drawing, to be kept beside the card.
func ExamplePlot() {
	curve, err := deviation.Coefficients{B: -4 * angle.Degree, C: 3 * angle.Degree, D: 2 * angle.Degree}.Curve(deviation.ByCompass)
	if err != nil {
		log.Fatal(err)
	}
	sheet, err := diagram.Curve(diagram.Plot{Details: deviation.Details{Vessel: "Quillon (invented)"}, Source: curve})
	if err != nil {
		log.Fatal(err)
	}
	var svg bytes.Buffer // or a file
	if err := sheet.WriteSVG(&svg, drawing.Plate); err != nil {
		log.Fatal(err)
	}
	fmt.Println(bytes.HasPrefix(svg.Bytes(), []byte("<svg")))
	// Output:
	// true
}

// A card to post by the compass, with room for a signature.
func ExampleCard() {
	k := deviation.Coefficients{B: -4 * angle.Degree, C: 3 * angle.Degree, D: 2 * angle.Degree}
	curve, err := k.Curve(deviation.ByCompass)
	if err != nil {
		log.Fatal(err)
	}
	card, err := deviation.NewCard(curve, 15*angle.Degree, deviation.Details{Vessel: "Quillon (invented)"})
	if err != nil {
		log.Fatal(err)
	}
	sheet, err := diagram.Card(card, diagram.Options{Coefficients: &k})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(sheet.Description())
	// Output:
	// A deviation card with 24 rows: for each heading by compass the deviation and the magnetic heading; for each magnetic course the deviation and the course to steer by compass. Deviation by compass: N 3.0°E, NE 1.3°E, E 4.0°W, SE 6.9°W, S 3.0°W, SW 2.7°E, W 4.0°E, NW 2.9°E.
}

// The deviations before and after adjusting, on one page.
func ExampleBeforeAfter() {
	before, err := deviation.Coefficients{A: angle.Degree, B: -4 * angle.Degree}.Curve(deviation.ByCompass)
	if err != nil {
		log.Fatal(err)
	}
	after, err := deviation.Coefficients{A: angle.Degree}.Curve(deviation.ByCompass)
	if err != nil {
		log.Fatal(err)
	}
	sheet, err := diagram.BeforeAfter(diagram.Plot{Source: before}, diagram.Plot{Source: after})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(sheet.Description())
	// Output:
	// Deviation against compass heading before and after adjusting, 000 to 360 degrees down the page, west to the left and east to the right. Before: N 1.0°E, NE 1.8°W, E 3.0°W, SE 1.8°W, S 1.0°E, SW 3.8°E, W 5.0°E, NW 3.8°E; largest 5.0°E on 270°C. After: N 1.0°E, NE 1.0°E, E 1.0°E, SE 1.0°E, S 1.0°E, SW 1.0°E, W 1.0°E, NW 1.0°E; largest 1.0°E on 000°C.
}

// The same curve in three drawings: down a page, as Napier's diagram, and about the compass. Then a
// blank page of a record book.
func ExampleNapier() {
	curve, err := deviation.Coefficients{B: -4 * angle.Degree, C: 3 * angle.Degree, D: 2 * angle.Degree}.Curve(deviation.ByCompass)
	if err != nil {
		log.Fatal(err)
	}
	plot := diagram.Plot{Details: deviation.Details{Vessel: "Quillon (invented)"}, Source: curve}
	for _, draw := range []func(diagram.Plot) (*drawing.Sheet, error){diagram.Curve, diagram.Napier, diagram.Polar} {
		sheet, err := draw(plot)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Println(sheet.Description())
	}
	fmt.Println(diagram.RecordBook(deviation.Details{Vessel: "Quillon (invented)"}, diagram.Options{}).Description())
	// Output:
	// Deviation against compass heading, 000 to 360 degrees down the page, west to the left and east to the right; observations: 0.
	// Napier’s diagram of the deviation: headings down a vertical axis, crossed each 15 degrees by dotted and plain lines at 60 degrees to it, east to the right, with the curve of the deviation; observations: 0.
	// Deviation about the compass, north up: east outside the ring of no deviation, west inside it; N 3.0°E, NE 1.3°E, E 4.0°W, SE 6.9°W, S 3.0°W, SW 2.7°E, W 4.0°E, NW 2.9°E; largest 7.0°W on 132°C; observations: 0.
	// A page of a compass record book, ruled, with these columns: Date and time, UTC, Position, Heading, Method, Object, By compass, True, Error, Variation, Variation from, Deviation, Observer, Remarks. Checks filled in: 0.
}
