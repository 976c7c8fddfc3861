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
