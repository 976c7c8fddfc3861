package tidal_test

import (
	"fmt"
	"log"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course/tidal"
)

// The streams of whichever place is nearest, between the middles of the hours. Every figure is
// invented.
func ExampleTable_Nearest() {
	table, err := tidal.ReadTable(strings.NewReader(`place,hour,set,springs,neaps,position
A,HW,220,1.6,0.8,47°05′N 019°08′W
A,+1,225,1.1,0.5,
B,HW,040,0.9,0.4,46°50′N 019°02′W
B,+1,050,0.7,0.3,
`))
	if err != nil {
		log.Fatal(err)
	}
	highWater := time.Date(2026, time.July, 2, 5, 10, 0, 0, time.UTC)
	streams, err := table.Streams(tidal.Options{
		Tides:     []tidal.Tide{tidal.ByRatio(highWater, 0.5)}, // half way between neaps and springs
		PlaceAt:   table.Nearest,
		ByVectors: true,
	})
	if err != nil {
		log.Fatal(err)
	}
	for _, at := range []string{"47°06′N 019°10′W", "46°52′N 019°00′W"} {
		s, err := streams.StreamAt(angle.MustParsePosition(at), highWater.Add(30*time.Minute))
		if err != nil {
			log.Fatal(err)
		}
		fmt.Println(at, s)
	}
	// Output:
	// 47°06′N 019°10′W 222°T 1.0 kn
	// 46°52′N 019°00′W 044.3°T 0.6 kn
}
