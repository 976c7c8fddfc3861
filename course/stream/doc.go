// Package stream allows for tidal streams, currents and leeway. It finds the course
// to steer, the course made good, the position by dead reckoning, the estimated
// position, and set and drift.
//
//	tide := stream.Stream{Set: angle.MustParseTrue("020"), Rate: 2 * sailing.Knot}
//	s, err := stream.CourseToSteer(angle.MustParseTrue("112"), 6*sailing.Knot, tide)
//	if err != nil {
//		log.Fatal(err) // the stream is too strong
//	}
//	windFrom := angle.MustParseTrue("200")
//	leeway, _, err := stream.LeewayOn(s.Water.Course, 5*angle.Degree, windFrom)
//	if err != nil {
//		log.Fatal(err)
//	}
//	heading := s.Water.Course.Add(-leeway.Deflection()) // true
//	fmt.Println(heading, s.Ground.Speed)
//
// # Where to begin
//
//   - The course to steer through one tidal stream or current: [CourseToSteer]. To arrive
//     at a given time: [CourseAndSpeedToSteer].
//   - The course to steer across streams that change every hour: [CourseToSteerAcross].
//   - The course made good and the speed made good: [MadeGood].
//   - The leeway, from the wind: [LeewayOn].
//   - Dead reckoning and the estimated position: [Estimate.Run], with its 95 % ellipse.
//   - Set and drift, from a dead reckoning position and a fix: [SetAndDriftBetween].
//
// A true heading becomes a course by compass with [lubberline.example/course.FromTrue].
// Package [lubberline.example/course/passage] works a whole passage, and
// [lubberline.example/fix] a position from bearings.
//
// # Words
//
// A stream is named by the direction toward which it flows, its set. Its rate is a
// speed. Its drift is a distance: rate × time. In the US, drift means the rate. A wind
// is named by the direction from which it blows.
//
// A dead reckoning (DR) position follows from heading and log alone. An estimated
// position (EP) also allows for leeway and the stream.
//
// # Cautions
//
// What this package prints is an aid for checking. It does not replace
// up-to-date charts and notices to mariners, a proper lookout, or a competent
// navigator; local rules and licensed practice come first.
package stream
