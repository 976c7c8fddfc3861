// Package tidal takes tidal streams from a printed table: sets and rates by the hours before
// and after high water at a standard port, at springs and at neaps, for lettered places.
//
//	file, err := os.Open("tidal.csv") // place, hour, set, springs, neaps
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
// [lubberline.example/course/stream] and [lubberline.example/course/passage]: a passage is laid
// through it hour by hour, with departure at any minute. [Streams.Working] shows how one stream
// was found.
//
// # Rates
//
// The rate of the day follows from the range of the tide at the standard port:
//
//	rate = neaps + (springs − neaps) · (range − neap range) / (spring range − neap range)
//
// This is the rule of the diagram "computation of rates" in tidal stream atlases (common
// practice; from memory). It also serves beyond springs and below neaps. The streams then have
// a warning.
//
// # Hours
//
// The hour called high water is from half an hour before it to half an hour after it, and so
// with the other hours (common practice). With two high waters, the nearer one counts. The
// first and the last hour stretch to the middle between two high waters, by half an hour at
// most.
//
// [Options.ByVectors] takes the printed streams as those of the middle of each hour, and
// interpolates their components to north and to east between them.
//
// What the table leaves out is an error, never slack water.
//
// # Cautions
//
// Tidal streams are predictions. Weather and the hours of slack water change them. The standing
// caution of package working applies.
package tidal
