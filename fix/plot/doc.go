// Package plot draws fixes and charts for practice. A plot has the marks, the position lines, the
// cocked hat, the 95 % ellipse and the position.
//
//	beacon := fix.Mark{Name: "Minnow Ledge beacon", Position: angle.MustParsePosition("47°03.6′N 019°11.6′W")}
//	tower := fix.Mark{Name: "Braddle Point tower", Position: angle.MustParsePosition("46°47.5′N 019°01.0′W")}
//	var unknown angle.Uncertainty
//	f, err := fix.Solve([]fix.Line{
//		fix.Bearing(beacon, angle.MustParseTrue("037°T"), unknown),
//		fix.Bearing(tower, angle.MustParseTrue("132°T"), unknown),
//	}, fix.Options{})
//	if err != nil {
//		log.Fatal(err)
//	}
//	sheet, err := plot.Fix(f, plot.Options{Title: "Fix off Orlesk Head"})
//	if err != nil {
//		log.Fatal(err)
//	}
//	if err := sheet.WriteSVG(os.Stdout, drawing.Plate); err != nil {
//		log.Fatal(err)
//	}
//
// # Where to begin
//
//   - A fix, a running fix or an estimated position on one A4 page: [Fix].
//   - A chart of an invented coast, to practise on: [PracticeChart].
//   - The figures in the drawing: [fix.Fix.Working], [fix.Line.Residual], [fix.Fix.Hat],
//     [fix.Fix.Ellipse].
//
// A fix is a dot in a circle, and an estimated position a dot in a triangle. Lines that do not
// agree get neither: the page says NO FIX. The plot is an aid for checking. It is not a chart.
package plot
