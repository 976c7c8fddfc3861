// Package tidal takes tidal streams from a chart's table of tidal diamonds. Each lettered place has
// a set and two rates, at springs and at neaps, for each hour before and after high water at a
// standard port.
//
//	file, err := os.Open("tidal.csv") // place, hour, set, springs, neaps, spring_range, neap_range
//	if err != nil {
//		log.Fatal(err)
//	}
//	table, err := tidal.ReadTable(file)
//	if err != nil {
//		log.Fatal(err) // with the line
//	}
//	highWater := time.Date(2026, 7, 2, 5, 10, 0, 0, time.UTC)
//	tide := tidal.ByHeights(highWater, 4.8*sailing.Metre, 0.9*sailing.Metre)
//	streams, err := table.Streams(tidal.Options{Tides: []tidal.Tide{tide}, Place: "A"})
//	if err != nil {
//		log.Fatal(err)
//	}
//	fmt.Println(streams.StreamAt(angle.Position{}, highWater.Add(2*time.Hour)))
//
// # Where to begin
//
// Read a [Table] with [ReadTable]. State the high waters of the day with [ByHeights] or
// [ByRatio], and call [Table.Streams]. The result is a source of streams for
// [lubberline.example/course/stream] and [lubberline.example/course/passage], which follow it from
// hour to hour. [Streams.Working] shows how one stream was found.
//
// # Rates
//
// The rate of the day follows from the range of the tide at the standard port:
//
//	rate = neaps + (springs − neaps) · (range − neap range) / (spring range − neap range)
//
// This is the rule of the diagram "computation of rates" in tidal stream atlases (common
// practice; from memory). It also serves beyond springs and below neaps, with a warning.
//
// # Hours
//
// The hour called high water lasts from half an hour before high water to half an hour after it.
// The other hours follow on (common practice). Between two high waters, the nearer one counts. The
// first and the last hour of a table reach to the middle between the two, by half an hour at most.
//
// [Options.ByVectors] takes the printed streams as those of the middle of each hour, and
// interpolates their components to north and to east between them.
//
// An hour that the table leaves out gives an error, never slack water.
//
// # Cautions
//
// Tidal streams are predictions, and the weather changes them. The standing caution of package
// working applies.
package tidal
