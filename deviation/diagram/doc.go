// Package diagram draws a deviation card as SVG: the curve of deviations and Napier's diagram.
//
//	plot := diagram.Plot{
//		Source:       fit.Curve,
//		Observations: swung.Observations,
//		Details:      deviation.Details{Vessel: "Quillon"},
//	}
//	if err := plot.WriteCurve(file); err != nil {
//		log.Fatal(err)
//	}
//
// # Where to begin
//
// [Plot.WriteCurve] draws the deviation against the compass heading, with the observations and
// the 95 % band. [Plot.WriteNapier] draws Napier's diagram, which converts between compass and
// magnetic headings with a pair of dividers. Each drawing is one page.
package diagram
