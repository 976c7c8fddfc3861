// Package course converts courses and bearings between true, magnetic and compass, and
// shows each step.
//
//	h, err := course.FromTrue(angle.MustParseTrue("112°"), course.With{
//		Variation: variation.MustParseLegend("7°20′W 2015 (12′E)"), // the chart's rose
//		Deviation: deviation.MustParse("3°E"), // or the vessel's card: deviation.ReadTable
//		On:        time.Now(),
//	})
//	if err != nil {
//		log.Fatal(err)
//	}
//	fmt.Print(h.Working()) // every step, ending with the course to steer
//
// # Where to begin
//
//   - The course to steer by compass for a true course: [FromTrue], then [Heading.Steer].
//   - The true course from a compass course: [FromCompass].
//   - The sources of variation and deviation, the position and the date: [With].
//   - A bearing by the vessel's compass: make the [Heading] on which it was taken, then
//     call [Heading.BearingFromCompass].
//   - A bearing by a hand-bearing compass: [HandBearing]. It needs no deviation.
//   - A tidal stream or a current, leeway, dead reckoning, the course made good, set and
//     drift: package [lubberline.example/course/stream].
//
// The variation comes from package [lubberline.example/variation] or
// [lubberline.example/wmm], and the deviation from [lubberline.example/deviation]. Package
// [lubberline.example/course/passage] works a whole passage. Package
// [lubberline.example/fix] finds a position from bearings.
//
// The deviation in a bearing is that of the ship's head when the bearing was taken. It
// does not depend on the direction of the bearing. That is why a [Bearing] is made from a
// [Heading].
//
// # Rules
//
// With east positive and west negative:
//
//	magnetic = compass + deviation
//	true     = magnetic + variation
//	error    = variation + deviation
//
// From compass to true, add east and subtract west. From true to compass, subtract east
// and add west. The only figure that is rounded is the course to steer, to a whole degree.
//
// To find the slip that explains a wrong answer, use package
// [lubberline.example/conformance/slip].
//
// # Cautions
//
// What this package prints is an aid for checking. It does not replace
// up-to-date charts and notices to mariners, a proper lookout, or a competent
// navigator; local rules and licensed practice come first.
package course
