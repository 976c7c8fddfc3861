// Package passage works a passage plan leg by leg. For each leg it gives the track and
// distance, the allowance for tidal stream or current and for leeway, the course to steer
// (true, magnetic and compass), the time of arrival, and warnings.
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
// Fill in a [Plan]: waypoints, a departure and a speed, and sources of variation, deviation
// and streams. [New] works it into a [Passage]. Print it, write it as JSON, CSV or GeoJSON, or
// turn it into a route of package [gpx]. [ReadWaypoints] reads waypoints from CSV or JSON,
// [WaypointsOf] takes them from a route, and [ReadStreams] reads an atlas's tidal streams hour by
// hour.
//
// The sources come from packages [variation], [lubberline.example/wmm] and [deviation]. For
// single courses use package [course]. For one stream triangle, the set and drift from a fix, a
// dead reckoning (DR) position or an estimated position use package [stream]. The command
// examples/passage of this module works a passage from files.
//
// Legs are rhumb lines on WGS84, or great circles on WGS84 where [Waypoint].GreatCircle is set.
//
// # Cautions
//
// A plan is arithmetic. It does not know depths, dangers, traffic, weather or the limits of the
// vessel. Streams and variation are forecasts. The standing caution of package [working] is
// printed with each plan.
package passage
