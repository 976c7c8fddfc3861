// Package plot draws fixes, the limits that keep clear of dangers, and charts for practice. The
// plot of a fix has the marks, the position lines, the cocked hat, the 95 % ellipse and the position.
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
//   - Clearing bearings, horizontal and vertical danger angles: [Dangers].
//   - A chart of an invented coast, to practise on: [PracticeChart].
//   - The figures in the drawing: [fix.Fix.Working], [fix.Line.Residual], [fix.Fix.Hat],
//     [fix.Fix.Ellipse].
//
// The signs are those of package [lubberline.example/course/signs], in the usage that the caller
// chooses. A fix is a dot in a circle, and an estimated position a dot in a triangle. Lines that do not
// agree get neither: the page says NO FIX.
//
// # Cautions
//
// What this package draws is an aid for checking. It is not a chart.
package plot
