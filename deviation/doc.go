// Package deviation holds the deviation of the vessel's own compass on each heading: tables,
// curves, coefficients and the deviation card. It converts between compass and magnetic
// headings.
//
//	file, err := os.Open("card.csv")
//	if err != nil {
//		log.Fatal(err)
//	}
//	defer file.Close()
//	table, err := deviation.ReadTable(file) // CSV with the columns compass, deviation
//	if err != nil {
//		log.Fatal(err)
//	}
//	d, err := table.OnMagnetic(angle.MustParseMagnetic("037°M"))
//	if err != nil {
//		log.Fatal(err)
//	}
//	fmt.Println("steer", d.Compass(angle.MustParseMagnetic("037°M")))
//
// # Where to begin
//
//   - With a deviation card: [ReadTable] or [NewTable]. Give the [Table] to package
//     [lubberline.example/course], which converts courses and bearings with it.
//   - Without a card: swing the vessel. Package [lubberline.example/deviation/swing] reads the
//     record and fits a [Curve]; [NewCard] makes a [Card] of it.
//   - To check a card in service: package [lubberline.example/deviation/check].
//   - To draw a card as a curve or as Napier's diagram: package
//     [lubberline.example/deviation/diagram].
//   - To learn what causes the deviation, and what changes it: package
//     [lubberline.example/deviation/adjust].
//   - For the true bearing of the Sun: package [lubberline.example/deviation/sky].
//   - For a compass without deviation: [None].
//
// The deviation belongs to the heading of the vessel, never to the direction of an object.
// Package [lubberline.example/course] applies it so.
//
// # Sources of deviation
//
// A [Source] gives the deviation on a heading. The sources are a [Table], a [Curve],
// [ExactCoefficients], and a known [Deviation].
//
// A [Table] is kept by compass or by magnetic heading and answers for both kinds. For the other
// kind it finds the heading on which both agree. It never enters the table with the wrong heading.
// If two headings fit, it returns an [*AmbiguousHeadingError] with both. Between its rows a table
// is linear, as in common practice. After [Table.Smooth] it follows a smooth curve.
//
// A [Curve] is a sum of sines and cosines of the heading z:
//
//	A + B sin z + C cos z + D sin 2z + E cos 2z
//
// [Coefficients.Curve] makes one of the approximate coefficients. [AnalyseByHand]
// finds the coefficients by the hand rules, as examiners ask. Above about 20° of deviation use [ExactCoefficients].
//
// # Signs
//
// East is positive, for deviations, coefficients and compass errors. Compass least, error
// east; compass best, error west.
//
// # Errors and warnings
//
// Rows that are not a table, and data that are not a curve, are an [*Error]. If a source is nil,
// the error is a [*lubberline.example/variation.MissingInputError]. A forgotten source never counts
// as 0°. The warnings of an [Explanation] say what weakens an answer; programs compare their kind.
//
// # Sources of the formulas
//
// Handbook of Magnetic Compass Adjustment (formerly Pub. No. 226), 1980, for the
// coefficients; Evans, Elementary Manual for the Deviations of the Compass in Iron Ships
// (Admiralty, 1870), for the hand formulas on intercardinal headings; Archibald Smith's
// formulas in the Admiralty Manual for the Deviations of the Compass, from memory, for the
// exact coefficients. Each formula names its own source.
//
// # Cautions
//
// A table holds for the vessel as it was when the compass was swung. Iron that was moved, a
// new engine or radio, a lightning strike, or a passage to another magnetic latitude changes
// it. Check it often, by a transit or by the Sun. Adjusting a compass is the work of a compass
// adjuster, certified where the flag state requires it.
package deviation
