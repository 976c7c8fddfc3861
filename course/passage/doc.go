// Package passage works a passage plan leg by leg. For each leg it gives the track, the
// distance and the time of arrival. It allows for a tidal stream or current, and for
// leeway. It gives the course to steer (true, magnetic and compass), and warnings.
//
//	p, err := passage.New(passage.Plan{
//		Waypoints: []passage.Waypoint{ // or passage.ReadWaypoints
//			{Name: "Orlesk Head", Position: angle.MustParsePosition("47°07.8′N 019°01.0′W")},
//			{Name: "Minnow Ledge", Position: angle.MustParsePosition("47°03.2′N 019°11.0′W")},
//		},
//		Depart:    time.Now(),
//		Speed:     5.5 * sailing.Knot, // through the water
//		Variation: variation.MustParseLegend("7°20′W 2015 (12′E)"), // the chart's rose
//		Deviation: deviation.MustParse("3°E"), // or the vessel's card: deviation.ReadTable
//		Streams:   stream.Stream{Set: angle.MustParseTrue("215"), Rate: 0.8 * sailing.Knot},
//	})
//	if err != nil {
//		log.Fatal(err)
//	}
//	fmt.Print(p) // a line for each leg; p.Legs[0].Working() shows every step of one
//
// # Where to begin
//
// Fill in a [Plan]: waypoints, a departure and a speed, and sources of variation, deviation
// and tidal streams or currents. [New] works the plan into a [Passage], with the course to
// steer on each leg. Print the passage, write it as JSON, CSV or GeoJSON, or turn it into a
// route of package [gpx]. [ReadWaypoints] reads waypoints from CSV or JSON, [WaypointsOf]
// takes them from a route, and [ReadStreams] reads an atlas's tidal streams hour by hour.
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
