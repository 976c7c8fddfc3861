// Package drawing draws what this module prints, as SVG on a sheet in millimetres:
// deviation curves, plots of fixes, dials. It is small on purpose: it holds what those
// drawings share, and is no library of shapes.
//
//	sheet := drawing.New(drawing.A4(), "Orlesk Bay", "The bay, which is invented, north up.")
//	beacon := drawing.At(60, 80)
//	sheet.Line(drawing.At(drawing.A4Left, 80), beacon, `stroke="black" stroke-width="0.3"`)
//	sheet.Text(drawing.At(62, 81), "", "Minnow Ledge beacon")
//	if _, err := sheet.WriteTo(os.Stdout); err != nil {
//		log.Fatal(err)
//	}
//
// # Where to begin
//
// Begin a sheet with [New], draw with the methods of [Sheet], what they have no element
// for with [Sheet.Put], and end with [Sheet.WriteTo]. [TextBox], [Shortened] and
// [Wrapped] keep texts in their place, and a [Box] tells what it covers.
//
// Lengths are millimetres, x to the right and y down from the upper left corner, and are
// written rounded to a hundredth of one, so that the last digits of a machine's arithmetic
// do not show. A drawing has no ids, so that several may stand on one HTML page. Texts are taken as plain text: nothing in one can leave its element. Styles,
// fonts and classes are written as they are, and are to come from the program alone.
// A figure that is not finite is written as it is too, and no viewer draws it.
package drawing
