// Package diagram draws a deviation card: the curve of deviations and Napier's diagram.
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
// To draw a deviation card, fill in a [Plot]. [Curve] draws the deviation against the
// compass heading, with the observations and a band of one standard uncertainty. [Napier]
// draws Napier's diagram, which converts between compass and magnetic headings with a pair of
// dividers. Each drawing is one page.
package diagram
