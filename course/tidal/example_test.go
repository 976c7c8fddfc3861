package tidal_test

import (
	"fmt"
	"log"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"lubberline.example/course/tidal"
)

// The stream two hours after high water, on a day between springs and neaps. Every figure is
// invented.
func Example() {
	table, err := tidal.ReadTable(strings.NewReader(`place,hour,set,springs,neaps,port,spring_range,neap_range
A,HW,220,1.6,0.8,Orlesk Harbour,4.6 m,2.2 m
A,+1,225,1.1,0.5,,,
A,+2,230,0.7,0.3,,,
`))
	if err != nil {
		log.Fatal(err)
	}
	highWater := time.Date(2026, time.July, 2, 5, 10, 0, 0, time.UTC)
	tide := tidal.ByHeights(highWater, 4.8*sailing.Metre, 0.9*sailing.Metre)
	streams, err := table.Streams(tidal.Options{Tides: []tidal.Tide{tide}, Place: "A"})
	if err != nil {
		log.Fatal(err)
	}
	steps, err := streams.Working(angle.Position{}, highWater.Add(2*time.Hour))
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(steps)
	// What the table leaves out is an error, never slack water.
	_, err = streams.StreamAt(angle.Position{}, highWater.Add(5*time.Hour))
	fmt.Println(err)
	// Output:
	// High water       2026-07-02 05:10 UTC  at Orlesk Harbour
	// Hour                             HW+2  2026-07-02 07:10 UTC is 2 h 00 min after high water
	// Place                               A
	// Range                           3.9 m  high water 4.8 m, low water 0.9 m
	// Ratio                            0.71  (3.9 m − 2.2 m) / (4.6 m − 2.2 m), with the neap and the spring range
	// Rate at springs                0.7 kn  printed for the hour
	// Rate at neaps                  0.3 kn  printed for the hour
	// Set                             230°T
	// Rate                          0.58 kn  0.30 + (0.70 − 0.30) × 0.71
	// Set by vectors                  230°T
	// Rate by vectors               0.58 kn  between HW+2, 230°T 0.6 kn, and HW+2, 230°T 0.6 kn
	// Difference                       none  from the stream of the hour to that by vectors
	// Stream                   230°T 0.6 kn  that of the hour, as chosen
	// An aid for checking. It does not replace up-to-date charts and notices to mariners, a proper lookout, or a competent navigator; local rules and licensed practice come first.
	// stream: no stream at place A for 2026-07-02 10:10 UTC: the table leaves out hour HW+5 there; give that hour, or choose another place
}
