// Package passage works a passage plan leg by leg: the track and the distance, the
// stream and the leeway allowed for, the course to steer by true, by magnetic and
// by compass, the time of arrival, and what is weak about the answer.
//
//	p, err := passage.New(passage.Plan{
//		Waypoints: waypoints,          // from passage.ReadWaypoints, or written out
//		Depart:    depart,             // a time.Time
//		Speed:     5.5 * sailing.Knot, // through the water
//		Variation: chart,              // a rose, a chart of several, a field model
//		Deviation: card,               // the table of the steering compass
//		Streams:   streams,            // nil for slack water
//	})
//	if err != nil {
//		log.Fatal(err)
//	}
//	fmt.Print(p) // a line for each leg; p.Legs[0].Working() shows every step of one
//
// # Where to begin
//
// A [Plan] is what is wanted: waypoints, a departure and a speed, and sources of
// variation, deviation and streams. [New] works it into a [Passage], which is
// printed, written as JSON or CSV, put on a map as GeoJSON, or made into a route
// of package [gpx]. [ReadWaypoints] reads waypoints from CSV or JSON, [ReadStreams]
// an atlas's streams hour by hour, and [WaypointsOf] takes them from a route.
//
// The sources come from packages [variation], [lubberline.example/wmm] and
// [deviation]; single courses are the business of package [course]. The command in
// examples/passage of this module is this package on files.
//
// Legs are rhumb lines on WGS84, or great circles on WGS84 where asked.
//
// # Cautions
//
// A plan is arithmetic. It knows no depths, dangers, traffic, weather or limits of
// the vessel, and streams and variation are forecasts. The standing caution of
// package [working] comes with each.
package passage
