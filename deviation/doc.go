// Package deviation holds what is known of the vessel's own compass: its
// deviation on each heading, how it was found, and whether it still holds.
//
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
//   - With a deviation card: [ReadTable] or [NewTable]; give the [Table] to package
//     [lubberline.example/course], which converts courses and bearings with it.
//   - Without one: swing the vessel, read the record with [lubberline.example/deviation/swing.ReadSwing], fit it with
//     [lubberline.example/deviation/swing.Swing.Fit], print a [Card] with [NewCard].
//   - To check one: a [lubberline.example/deviation/check.Reading] against the Sun or a transit, then [lubberline.example/deviation/check.ReviewCard].
//   - For a compass taken to have no deviation: [None].
//
// A [Deviation] is east (positive) or west, and is the only way between
// [angle.Magnetic] and [angle.Compass] directions. It belongs to the heading of
// the vessel, never to the direction of an object: package
// [lubberline.example/course] sees to that.
// A [Source] tells the deviation on a heading; the sources are a [Table], a
// [Curve], [ExactCoefficients], and a known [Deviation].
//
// # Keep a table
//
// A [Table] is read from CSV or JSON with [ReadTable], or made with [NewTable].
// It says by which heading, compass or magnetic, it is kept, and answers for
// both: which compass heading has a given magnetic heading is solved for, not
// approximated, and where two have it an [*AmbiguousHeadingError] names them.
// Between its rows it goes linearly, as navigators do, or after [Table.Smooth]
// along the periodic cubic spline through them.
//
// # Swing the vessel
//
// [lubberline.example/deviation/swing.ReadSwing] and [lubberline.example/deviation/swing.Reduce] turn what was read on each heading into deviations, by
// one of several methods: [lubberline.example/deviation/swing.Transit], [lubberline.example/deviation/swing.DistantObject], [lubberline.example/deviation/swing.SunAzimuths],
// [lubberline.example/deviation/swing.TrueHeadings], [lubberline.example/deviation/swing.ShoreCompass], [lubberline.example/deviation/swing.SecondCompass]. [lubberline.example/deviation/swing.Swing.Suspicions] points at
// readings that look like slips, and changes nothing. [lubberline.example/deviation/swing.Swing.Fit] fits the curve
//
//	A + B sin z + C cos z + D sin 2z + E cos 2z
//
// over the heading z, or more of its kind, and says how well it is known on every
// heading; [EightHeadings] does it by hand, as examiners ask. [lubberline.example/deviation/adjust.Analyse] says what
// the [Coefficients] mean, [lubberline.example/deviation/adjust.Separate] how they will change with the magnetic
// latitude, and a [lubberline.example/deviation/adjust.Limit] remarks on the largest deviation.
//
// A [Card] is what is posted beside the compass; a [lubberline.example/deviation/diagram.Plot] draws the curve and
// Napier's diagram.
//
// # Check it
//
// A [lubberline.example/deviation/check.Reading] against a transit, the Sun or its amplitude gives the compass
// error and the deviation in it, a [lubberline.example/deviation/check.Check]; where the Sun stands is found by package
// [sky]. The variation is that of a [variation.Source], asked for the place and the
// time: a chart's roses, a field model, or one that is known. [lubberline.example/deviation/check.ReviewCard] tells by a
// log of checks whether the card still holds.
//
// # Working and warnings
//
// [lubberline.example/deviation/swing.Swing.Working], [lubberline.example/deviation/swing.Fit.Working], [lubberline.example/deviation/check.Check.Working], [lubberline.example/deviation/check.Review.Working] and the others are
// the answer as it stands on the page, under its caution. What weakens an answer is a
// [lubberline.example/angle/working.Warning], whose kind programs can compare; an error says that there is none. What
// is nil or forgotten, a variation or a table, is an error, never 0°.
//
// # Signs
//
// East is positive: deviations, coefficients and compass errors. Where compass is
// least, error is east; where compass is best, error is west.
//
// # Sources
//
// Handbook of Magnetic Compass Adjustment (formerly Pub. No. 226), 1980, for the
// coefficients and their causes; Evans, Elementary Manual for the Deviations of
// the Compass in Iron Ships (Admiralty, 1870), for the hand formulas on
// intercardinal headings; Archibald Smith's formulas in the Admiralty Manual for
// the Deviations of the Compass, from memory, for the exact coefficients. Each
// formula names its own source where it stands.
//
// # Cautions
//
// A table holds for the vessel as she was when it was made: iron moved, an
// engine or a radio fitted, a lightning strike, or a passage to another magnetic
// latitude changes it. Check it often, by a transit or the Sun. Adjusting a
// compass is the work of a compass adjuster, certified where the flag state
// requires it.
package deviation
