package fix_test

import (
	"fmt"
	"log"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/course/decklog"
	"lubberline.example/course/sailing"
	"lubberline.example/deviation"
	"lubberline.example/fix"
	"lubberline.example/variation"
)

// A bearing by the steering compass, with the uncertainty of its reading. Every figure of these
// examples is invented.
func ExampleCompassBearing() {
	heading, err := course.FromCompass(angle.MustParseCompass("226"), course.With{
		Variation: variation.MustParse("5°08′W ±0.5°"), Deviation: deviation.MustParse("3°E ±1°"),
	})
	if err != nil {
		log.Fatal(err)
	}
	reading, err := angle.StandardUncertainty(2 * angle.Degree)
	if err != nil {
		log.Fatal(err)
	}
	beacon := fix.Mark{Name: "Minnow Ledge beacon", Position: angle.MustParsePosition("47°03.6′N 019°11.6′W")}
	fmt.Println(fix.CompassBearing(beacon, heading.BearingFromCompass(angle.MustParseCompass("039")), reading))
	// Output:
	// bearing of Minnow Ledge beacon 036.9°T ±2.3°
}

// A transit and a light that has just dipped give a fix without a compass.
func ExampleTransit() {
	front := fix.Mark{Name: "Harbour front light", Position: angle.MustParsePosition("47°01.5′N 018°49.3′W")}
	rear := fix.Mark{Name: "Harbour rear light", Position: angle.MustParsePosition("47°01.4′N 018°47.6′W")}
	sharp, err := angle.StandardUncertainty(angle.Degree / 20)
	if err != nil {
		log.Fatal(err)
	}
	transit, err := fix.Transit(front, rear, sharp)
	if err != nil {
		log.Fatal(err)
	}
	head := fix.Mark{Name: "Orlesk Head light", Position: angle.MustParsePosition("47°08.4′N 019°00.0′W")}
	dipped, err := fix.DippingLight(head, 38*sailing.Metre, 2*sailing.Metre, fix.HorizonTable, 1.5*sailing.NauticalMile)
	if err != nil {
		log.Fatal(err)
	}
	near := angle.MustParsePosition("47°03′N 019°15′W")
	f, err := fix.Solve([]fix.Line{transit, dipped}, fix.Options{Near: &near})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(transit)
	fmt.Println(dipped)
	fmt.Println(f)
	// Output:
	// transit, Harbour front light and Harbour rear light 094.9°T ±3.0′
	// distance off Orlesk Head light 16.06 M ±1.50 M
	// 47°03.4′N 019°22.3′W, 95 %: 4.01 M along 096°T, 0.98 M across
}

// A depth on a slope that falls to the west is a line too: 10 m at 19°W, and 10 m more for each 5′.
func ExampleLineFromFunc() {
	depth := func(p angle.Position) float64 {
		return 10 - 2*(p.Longitude.Degrees()+19)*60
	}
	line, err := fix.LineFromFunc("depth", "m", depth, 45, 2)
	if err != nil {
		log.Fatal(err)
	}
	latitude, err := fix.Latitude(angle.Must(angle.ParseLatitude("47°02′N")), 1*sailing.NauticalMile)
	if err != nil {
		log.Fatal(err)
	}
	near := angle.MustParsePosition("47°N 019°15′W")
	f, err := fix.Solve([]fix.Line{line, latitude}, fix.Options{Near: &near})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(f)
	// Output:
	// 47°02.0′N 019°17.5′W, 95 %: 2.45 M along 000°T, 1.67 M across
}

// The track of a deck log weighs its fix against the reckoning.
func ExampleTrackOfLog() {
	entries, err := decklog.ReadLog(strings.NewReader(`time,log,true,fix,fix_uncertainty
2026-07-02T06:00Z,0.0,221,47°07.8′N 019°01.0′W,0.1 M
2026-07-02T08:00Z,10.9,,46°59.0′N 019°11.0′W,0.5 M
`))
	if err != nil {
		log.Fatal(err)
	}
	heading, err := angle.StandardUncertainty(3 * angle.Degree)
	if err != nil {
		log.Fatal(err)
	}
	current, err := sailing.StandardUncertainty(0.3 * sailing.Knot)
	if err != nil {
		log.Fatal(err)
	}
	perMile, err := sailing.StandardUncertainty(0.05 * sailing.NauticalMile)
	if err != nil {
		log.Fatal(err)
	}
	reckoning, err := entries.Reckon(decklog.Options{
		Factor: decklog.Factor{Value: 1, PerMile: perMile}, HeadingUncertainty: heading, StreamUncertainty: current,
	})
	if err != nil {
		log.Fatal(err)
	}
	track, err := fix.TrackOfLog(reckoning)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(track)
	// Output:
	// 2 Jul 06:00  47°07.8′N 019°01.0′W  ±0.24 M  start
	// 2 Jul 08:00  46°59.6′N 019°11.5′W  ±2.0 M  run of 2 h 00 min on 221°T at 5.4 kn
	// 2 Jul 08:00  46°59.2′N 019°11.1′W  ±1.0 M  latitude 46°59.0′N, longitude 019°11.0′W
}
