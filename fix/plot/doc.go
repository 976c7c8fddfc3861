// Package plot draws a fix: the marks, the position lines, the cocked hat, the 95 % ellipse
// and the position, as an SVG page to print.
//
//	f, err := fix.Solve(lines, fix.Options{Near: &reckoned})
//	if err != nil {
//		log.Fatal(err)
//	}
//	if err := plot.Write(file, f, plot.Options{Title: "Fix off Orlesk Head"}); err != nil {
//		log.Fatal(err)
//	}
//
// # Where to begin
//
//   - A fix, a running fix or an estimated position on one A4 page: [Write].
//   - The figures in the drawing: [fix.Fix.Working], [fix.Line.Residual], [fix.Fix.Hat],
//     [fix.Fix.Ellipse].
//
// A fix is a dot in a circle, and an estimated position a dot in a triangle. Lines that do
// not agree get neither: the page says NO FIX. The plot is an aid for checking and no chart.
package plot
