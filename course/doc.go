// Package course turns courses and bearings between true, magnetic and compass,
// and shows how.
//
//	h, err := course.FromTrue(angle.MustParseTrue("112°"), course.With{
//		Variation: variation.MustParseLegend("7°20′W 2015 (12′E)"), // the chart's rose
//		Deviation: card,                                            // read with deviation.ReadTable
//		On:        time.Now(),
//	})
//	if err != nil {
//		log.Fatal(err)
//	}
//	fmt.Print(h.Working()) // every step, ending with the course to steer
//
// # Where to begin
//
//   - A course from the chart to the helm: [FromTrue], then [Heading.Steer]. From the
//     helm to the chart: [FromCompass]. What they take is [With].
//   - A bearing: make the [Heading] on which it was taken, then
//     [Heading.BearingFromCompass] or its like.
//   - A bearing by a hand-bearing compass: [HandBearing]. It needs the variation only.
//   - Through a tidal stream or a current, and with leeway: package
//     [lubberline.example/course/stream]. It also has dead reckoning, the course made
//     good, and set and drift.
//
// The variation comes from package [lubberline.example/variation] or
// [lubberline.example/wmm], the deviation from package [lubberline.example/deviation].
// Package [lubberline.example/course/passage] works whole passages,
// [lubberline.example/fix] plots bearings into a position.
//
// A [Heading] is a course to steer, or the direction of the vessel's head, by
// all three norths. It keeps the variation of the place and date, and the
// deviation of that heading. Any other [Bearing] can only be had from a Heading, since
// the deviation in a bearing is that of the ship's head when it was taken; the
// bearing's own direction has no part in it.
//
// # Rules
//
// With east positive and west negative:
//
//	magnetic = compass + deviation
//	true     = magnetic + variation
//	error    = variation + deviation
//
// so that going from compass to true east is added and west taken away, and
// going to compass the other way about. Nothing is rounded on the way; the one
// rounding is that of the course to steer, to a whole degree, and the working
// says so.
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
