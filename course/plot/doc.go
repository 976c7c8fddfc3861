// Package plot draws conversions between true, magnetic and compass, and compass roses.
//
//	h, err := course.FromTrue(angle.MustParseTrue("112°"), course.With{
//		Variation: variation.MustParse("7°W"), Deviation: deviation.MustParse("3°E"),
//	})
//	if err != nil {
//		log.Fatal(err)
//	}
//	if err := plot.HeadingDial(h).WriteSVG(os.Stdout, drawing.Plate); err != nil {
//		log.Fatal(err)
//	}
//
// # Where to begin
//
//   - The dial of a course or a heading: [HeadingDial].
//   - The dial of a bearing, with the ship's head: [BearingDial].
//   - A compass rose for a year, alone or with a direction laid across it: [CompassRose].
//   - The same in words, for readers who cannot see it:
//     [lubberline.example/angle/drawing.Sheet.Description].
//
// # Cautions
//
// What this package draws is an aid for checking. It does not replace up-to-date charts
// and notices to mariners, a proper lookout, or a competent navigator; local rules and
// licensed practice come first.
package plot
