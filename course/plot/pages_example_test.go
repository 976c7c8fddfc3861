package plot_test

import (
	"fmt"
	"log"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/course/decklog"
	"lubberline.example/course/passage"
	"lubberline.example/course/plot"
	"lubberline.example/course/sailing"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// A bearing by the steering compass, drawn with the ship's head, whose deviation it has. Every
// figure of these examples is invented.
func ExampleBearingDial() {
	h, err := course.FromCompass(angle.MustParseCompass("112"), course.With{
		Variation: variation.MustParse("5°08′W"), Deviation: deviation.MustParse("3°12′E"),
	})
	if err != nil {
		log.Fatal(err)
	}
	bearing := h.BearingFromCompass(angle.MustParseCompass("203"))
	fmt.Println(plot.BearingDial(bearing).Description())
	// Output:
	// A compass dial graduated from true north. Magnetic north is 5°08′ west of true north (the variation); compass north is 3°12′ east of magnetic north (the deviation) and 1°56′ west of true north (the compass error). The bearing is 201.1°T, 206.2°M and 203.0°C; the ship's head is 110.1°T, 115.2°M and 112.0°C.
}

// A page of the deck log of the Quillon with two rows filled in, to write on.
func ExampleDeckLog() {
	entries, err := decklog.ReadLog(strings.NewReader(`time,log,compass,fix,fix_uncertainty,remarks
2026-07-02T06:00Z,0.0,226°C,47°07.8′N 019°01.0′W,0.1 M,off Orlesk Head
2026-07-02T07:00Z,5.4,,,,
`))
	if err != nil {
		log.Fatal(err)
	}
	reckoning, err := entries.Reckon(decklog.Options{Variation: variation.West(5 * angle.Degree), Deviation: deviation.None()})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(plot.DeckLog(reckoning, plot.Page{Vessel: "Quillon"}).Description())
	// Output:
	// A page of a deck log, ruled, with these columns: Time, UTC, Log, Course by compass, Compass error, Course true, Wind, from, Leeway, Run through water, M, Stream: set, rate kn, EP, or DR, 95 %, M, Fix, Remarks. Lines filled in: 2. 0600 0.0 226°C 5°00′W 221.0°T 47°07.8′N 019°01.0′W off Orlesk Head; 0700 5.4 5.4 47°03.7′N 019°06.2′W
}

// A form for a passage plan with its one leg filled in.
func ExamplePassagePlan() {
	p, err := passage.New(passage.Plan{
		Waypoints: []passage.Waypoint{
			{Name: "Orlesk Head", Position: angle.MustParsePosition("47°07.8′N 019°01.0′W")},
			{Name: "Minnow Ledge", Position: angle.MustParsePosition("47°02.6′N 019°11.6′W")},
		},
		Depart:    time.Date(2026, time.July, 2, 6, 0, 0, 0, time.UTC),
		Speed:     6 * sailing.Knot,
		Variation: variation.West(5 * angle.Degree), Deviation: deviation.None(),
	})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(plot.PassagePlan(p, plot.Page{Vessel: "Quillon"}).Description())
	// Output:
	// A form for a passage plan, ruled, with these columns: Leg, To, Position, Track, M, Stream: set, rate kn, Leeway, Heading true, Variation, Heading magnetic, Deviation, Compass course, Speed made good, Time, ETA, UTC, Marks, dangers, clearing lines. Lines filled in: 1. 1 Minnow Ledge 47°02.6′N 019°11.6′W 234°T 8.9 234.3°T 5°00′W 239.3°M 0°00′E 239°C 6.0 kn 1 h 29 0729
}

// An empty chart between two parallels and two meridians, to plot on.
func ExampleCovering() {
	area := plot.Covering(angle.Must(angle.ParseLatitude("46°50′N")), angle.Must(angle.ParseLatitude("47°10′N")),
		angle.Must(angle.ParseLongitude("019°20′W")), angle.Must(angle.ParseLongitude("018°55′W")), 200_000)
	sheet, err := plot.PlottingSheet(area)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(sheet.Description())
	// Output:
	// An empty Mercator chart to plot on, Mercator projection on WGS 84, 1:200 000 in 47°N. It reaches from 46°50.0′N to 47°10.0′N and from 019°20.0′W to 018°55.0′W.
}
