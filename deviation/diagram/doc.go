// Package diagram draws a compass and its deviations. It draws the card to post beside it, the
// deviation curve, Napier's diagram, a swing, and the deviations before and after adjusting. It
// also draws a page of the compass record book.
//
//	k := deviation.Coefficients{B: -4 * angle.Degree, C: 3 * angle.Degree, D: 2 * angle.Degree}
//	curve, err := k.Curve(deviation.ByCompass) // of a swing: fit.Curve
//	if err != nil {
//		log.Fatal(err)
//	}
//	sheet, err := diagram.Curve(diagram.Plot{Source: curve, Details: deviation.Details{Vessel: "Quillon"}})
//	if err != nil {
//		log.Fatal(err)
//	}
//	if err := sheet.WriteSVG(os.Stdout, drawing.Plate); err != nil {
//		log.Fatal(err)
//	}
//
// # Where to begin
//
//   - [Card] draws a deviation card to post by the compass, as two tables or about a rose, with
//     room for a signature.
//   - [Curve] draws the deviation against the compass heading, with the observations and a band of
//     one standard uncertainty. [Polar] draws the same about the compass, for a small screen.
//   - [Napier] draws Napier's diagram, which converts between compass and magnetic headings with
//     a pair of dividers.
//   - [BeforeAfter] draws two curves, before and after adjusting, with the change.
//   - [RecordBook] draws a page of a compass record book to write on, with checks filled in.
//
// Each returns a sheet, which is written as a page to print or as a figure for a web page. All
// but a card in small steps fit on A4.
package diagram
