// Package drawing makes SVG drawings in millimetres, to show or to print. The module draws
// deviation curves, plots of fixes and voyages with it. It holds what these drawings share,
// and is not a general library of shapes.
//
//	sheet := drawing.New(120, 90, "Orlesk Bay", "The bay, which is invented, north up.")
//	beacon := drawing.At(60, 80)
//	sheet.Line(drawing.At(0, 80), beacon, `stroke="black" stroke-width="0.3"`)
//	sheet.Text(drawing.At(62, 81), "", "Minnow Ledge beacon")
//	if err := sheet.WriteSVG(os.Stdout, drawing.Plate); err != nil {
//		log.Fatal(err)
//	}
//
// # Where to begin
//
// Make a sheet with [New] and draw with the methods of [Sheet]. Then write it with
// [Sheet.WriteSVG], as a [Plate] to print or as a [Figure] for a web page. [Labels] places texts so
// that they overlap neither each other nor what is drawn. [Sheet.Put] writes an element that no
// other method writes. [Shortened] and [Wrapped] fit texts into a space. A [Box] reports what it
// overlaps. [Sheet.Ruled] draws a table to write on.
//
// Lengths are millimetres from the upper left corner, x to the right and y down. They are
// rounded to a hundredth, so that every machine writes the same file. A drawing has no ids,
// so several can stand on one HTML page.
//
// Texts are plain text, and are escaped. Styles, fonts and classes are not escaped: never
// take them from outside the program. A number that is not finite is written as it is, and
// viewers do not draw its element.
package drawing
