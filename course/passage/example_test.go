package passage_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"log"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course/passage"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// The coast, the vessel and the figures are invented.
func Example() {
	p, err := passage.New(passage.Plan{
		Name: "Quillon, Orlesk Head to Minnow Ledge",
		Waypoints: []passage.Waypoint{
			{Name: "Orlesk Head", Position: angle.MustParsePosition("47°07.8′N 019°01.0′W")},
			{Name: "Minnow Ledge", Position: angle.MustParsePosition("47°03.2′N 019°11.0′W")},
		},
		Depart:    time.Date(2026, time.July, 2, 6, 0, 0, 0, time.UTC),
		Speed:     5.5 * sailing.Knot,
		Variation: variation.MustParse("5°08′W"),
		Deviation: deviation.MustParse("0°30′W"),
		Streams:   stream.Stream{Set: angle.MustParseTrue("215"), Rate: 0.8 * sailing.Knot},
	})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(p.Legs[0].Working())
	// Output:
	// Leg 1: Orlesk Head to Minnow Ledge
	//   Difference of latitude           4.6′S
	//   Difference of longitude         10.0′W
	//   Track                       236°02.3′T  rhumb line on WGS84
	//   Distance                         8.2 M
	//   Departure                      6.8 M W  distance × sin track
	//   Stream                    215°T 0.8 kn  set (toward) and rate
	//   Course through the water    239°01.9′T  to steer: cancels the stream across the track
	//   Speed through the water         5.5 kn
	//   Course made good            236°02.3′T  the track; the parts along it are added
	//   Speed made good                 6.2 kn
	//   Course to steer, true       239°01.9′T  the course through the water
	//   Variation                       5°08′W  as given
	//   Magnetic course             244°09.9′M  variation is west: magnetic is greater than true
	//   Deviation                       0°30′W  as given
	//   Compass course              244°39.9′C  deviation is west: compass is greater than magnetic
	//   Total compass error             5°38′W  variation and deviation have the same name: added
	//   Steer by compass                 245°C  to the nearest whole degree
	//   Time                        1 h 19 min  8.2 M at 6.2 kn over the ground
	//   Arrival                      07:19 UTC  2 July 2026
	//   An aid for checking. It does not replace up-to-date charts and notices to mariners, a proper lookout, or a competent navigator; local rules and licensed practice come first.
}

// The same passage and back, with waypoints and streams from files, as the plan on one
// page.
func ExampleNew() {
	waypoints, err := passage.ReadWaypoints(strings.NewReader(`name,position,speed
Fairway,47°07.8′N 019°01.0′W,
Ledge,47°03.2′N 019°11.0′W,
Fairway,47°07.8′N 019°01.0′W,5
`))
	if err != nil {
		log.Fatal(err)
	}
	depart := time.Date(2026, time.July, 2, 6, 0, 0, 0, time.UTC)
	streams, err := passage.ReadStreams(strings.NewReader("set,rate\n215,0.8\n215,0.6\n035,0.2\n035,0.7\n035,0.9\n"))
	if err != nil {
		log.Fatal(err)
	}
	streams.Start = depart
	p, err := passage.New(passage.Plan{
		Waypoints: waypoints, Depart: depart, Speed: 5.5 * sailing.Knot, Streams: streams,
		Variation: variation.MustParse("5°08′W ±0°15′"), Deviation: deviation.MustParse("0°30′W ±0°30′"),
	})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(p)
	// Output:
	// Departure 2 July 2026, 06:00 UTC
	//
	// leg  to       track    distance  heading  variation  magnetic  deviation  compass  ±     ground speed  time        arrival
	// 1    Ledge    236.0°T  8.2 M     238.8°T  5°08′W     244.0°M   0°30′W     244°C    0.6°  6.2 kn        1 h 20 min  2 Jul 07:20
	// 2    Fairway  056.0°T  8.2 M     055.6°T  5°08′W     060.7°M   0°30′W     061°C    0.6°  4.9 kn        1 h 41 min  2 Jul 09:01
	//
	// Total 16.5 M, 3 h 01 min; arrival 2 July 2026, 09:01 UTC
	// ± is one standard uncertainty of the conversion.
	// An aid for checking. It does not replace up-to-date charts and notices to mariners, a proper lookout, or a competent navigator; local rules and licensed practice come first.
}

// Which leg can't be worked, and why: here the stream is faster than the vessel.
func ExampleError() {
	_, err := passage.New(passage.Plan{
		Waypoints: []passage.Waypoint{
			{Name: "Ledge", Position: angle.MustParsePosition("47°03.2′N 019°11.0′W")},
			{Name: "Fairway", Position: angle.MustParsePosition("47°07.8′N 019°01.0′W")},
		},
		Depart: time.Date(2026, time.July, 2, 6, 0, 0, 0, time.UTC), Speed: 2 * sailing.Knot,
		Streams:   stream.Stream{Set: angle.MustParseTrue("235"), Rate: 2.5 * sailing.Knot},
		Variation: variation.MustParse("5°08′W"), Deviation: deviation.None(),
	})
	if e, ok := errors.AsType[*passage.Error](err); ok {
		fmt.Println("leg", e.Leg)
	}
	if e, ok := errors.AsType[*stream.Error](err); ok && e.Kind == stream.TooStrong {
		fmt.Println("nearest over the ground:", e.Nearest.Ground)
	}
	// Output:
	// leg 1
	// nearest over the ground: 181.9°T 1.5 kn
}

// An invented tidal stream, hour by hour; a rate without a unit is in knots.
func ExampleReadStreams() {
	const file = `set,rate
215,0.8
210,1.1 kn
040,0.3 m/s
`
	streams, err := passage.ReadStreams(strings.NewReader(file))
	if err != nil {
		log.Fatal(err)
	}
	streams.Start = time.Date(2026, time.July, 2, 6, 0, 0, 0, time.UTC)
	for _, s := range streams.Streams {
		fmt.Println(s)
	}
	s, err := streams.StreamAt(angle.MustParsePosition("47°06′N 019°02′W"), streams.Start.Add(90*time.Minute))
	fmt.Println("at 07:30", s, err)
	// Output:
	// 215°T 0.8 kn
	// 210°T 1.1 kn
	// 040°T 0.6 kn
	// at 07:30 210°T 1.1 kn <nil>
}

// Waypoints may be written as JSON and are read back to the same.
func ExampleReadWaypoints() {
	const file = `name,position,speed,sailing
Orlesk Head,47°07.8′N 019°01.0′W,,
Minnow Ledge,47°03.2′N 019°11.0′W,5.5,rhumb
`
	points, err := passage.ReadWaypoints(strings.NewReader(file))
	if err != nil {
		log.Fatal(err)
	}
	data, err := json.Marshal(points)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(string(data))
	again, err := passage.ReadWaypoints(bytes.NewReader(data))
	fmt.Println(len(again), again[1] == points[1], err)
	// Output:
	// [{"name":"Orlesk Head","position":"47°07.8′N 019°01′W"},{"name":"Minnow Ledge","position":"47°03.2′N 019°11′W","speed":"5.5 kn"}]
	// 2 true <nil>
}
