// Package plot draws what a navigator draws: conversions between true, magnetic and compass,
// stream triangles, compass roses, plotting sheets and passages. It also draws pages to write on.
//
//	tide := stream.Stream{Set: angle.MustParseTrue("020"), Rate: 2 * sailing.Knot}
//	s, err := stream.CourseToSteer(angle.MustParseTrue("112"), 6*sailing.Knot, tide)
//	if err != nil {
//		log.Fatal(err)
//	}
//	sheet, err := plot.StreamTriangle(plot.Triangle{Steering: s})
//	if err != nil {
//		log.Fatal(err)
//	}
//	if err := sheet.WriteSVG(os.Stdout, drawing.Plate); err != nil {
//		log.Fatal(err)
//	}
//
// # Where to begin
//
//   - The dial of a course or a heading: [HeadingDial].
//   - The dial of a bearing, with the ship's head: [BearingDial].
//   - The stream triangle: course to steer, or course made good: [StreamTriangle].
//   - A compass rose for a year, alone or with a direction laid across it: [CompassRose].
//   - An empty Mercator chart of any latitude and scale, to plot on: [PlottingSheet].
//   - A passage plan on such a chart: [Passage].
//   - Pages to write on, with what is known filled in: a deck log with [DeckLog], a passage plan
//     with [PassagePlan].
//   - The same in words, for readers who cannot see it:
//     [lubberline.example/angle/drawing.Sheet.Description].
//
// # Cautions
//
// What this package draws is an aid for checking. It does not replace up-to-date charts
// and notices to mariners, a proper lookout, or a competent navigator; local rules and
// licensed practice come first.
package plot
