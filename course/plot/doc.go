// Package plot draws conversions between true, magnetic and compass as SVG.
//
//	h, err := course.FromTrue(angle.MustParseTrue("112°"), course.With{
//		Variation: variation.MustParse("7°W"), Deviation: deviation.MustParse("3°E"),
//	})
//	if err != nil {
//		log.Fatal(err)
//	}
//	if err := plot.WriteHeadingDial(os.Stdout, h); err != nil {
//		log.Fatal(err)
//	}
//
// # Where to begin
//
//   - The dial of a course or a heading: [WriteHeadingDial].
//   - The dial of a bearing, with the ship's head: [WriteBearingDial].
//   - The same in words, for readers who cannot see it: [HeadingDialText] and
//     [BearingDialText].
//
// # Cautions
//
// What this package draws is an aid for checking. It does not replace up-to-date charts
// and notices to mariners, a proper lookout, or a competent navigator; local rules and
// licensed practice come first.
package plot
