package fix_test

// The Quillon, the coast of Orlesk with its lights, beacons and dangers, and every
// figure of these examples are invented.

import (
	"fmt"
	"log"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/fix"
)

var (
	rxOrlesk = fix.Mark{Name: "Orlesk Head light", Position: angle.MustParsePosition("47°08.4′N 019°00.0′W")}
	rxMinnow = fix.Mark{Name: "Minnow Ledge beacon", Position: angle.MustParsePosition("47°03.6′N 019°11.6′W")}
)

// The Quillon makes good 080° and takes Orlesk Head light on the port bow, and
// again when it has opened, 4.2 miles later.
func ExampleByTwoBearings() {
	cmg := angle.MustParseTrue("080°T")
	first := angle.MustParseTrue("053.5°T").Sub(cmg)
	second := angle.MustParseTrue("035°T").Sub(cmg)
	off, err := fix.ByTwoBearings(first, second, 4.2*sailing.NauticalMile)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(off.Working().Steps)
	// Output:
	// First angle on the bow   26°30′
	// Second angle on the bow  45°00′  the run is the distance abeam
	// Run                       4.2 M  over the ground, on one course
	// Distance off              5.9 M  at the second bearing: run × sin first / sin(second − first)
	// Distance abeam            4.2 M  distance off × sin second, if course and speed over the ground are kept
	// Run to abeam              4.2 M  from the second bearing
}

// How far the Quillon's watch sees, and where the light of Orlesk Head, 62 m high,
// comes over the horizon.
func ExampleHorizon() {
	eye, err := fix.Horizon(2.5, fix.HorizonTable)
	if err != nil {
		log.Fatal(err)
	}
	light, err := fix.GeographicRange(62, 2.5, fix.HorizonTable)
	if err != nil {
		log.Fatal(err)
	}
	dip, err := fix.Dip(2.5, fix.HorizonTable)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("horizon %v, dip %.1f′; light raised at %v\n", eye, dip.Minutes(), light)
	// Output:
	// horizon 3.4 M, dip 2.8′; light raised at 20.0 M
}

// A dead reckoning of the Quillon: an hour on 285°, then bearings of both marks.
func ExampleTrack() {
	start := time.Date(2026, 5, 3, 9, 0, 0, 0, time.UTC)
	track := fix.NewTrack(stream.Estimate{Position: angle.MustParsePosition("47°02.0′N 018°54.5′W"), Time: start, Covariance: sailing.Circular(200)})
	_, err := track.Run(stream.ReckonedRun{
		Heading: angle.MustParseTrue("285°T"), Speed: 6 * sailing.Knot, Lasts: time.Hour,
		HeadingUncertainty: angle.Must(angle.StandardUncertainty(2 * angle.Degree)), SpeedUncertainty: angle.Must(sailing.StandardUncertainty(0.3 * sailing.Knot)), StreamUncertainty: angle.Must(sailing.StandardUncertainty(0.3 * sailing.Knot)),
	})
	if err != nil {
		log.Fatal(err)
	}
	known := angle.Must(angle.StandardUncertainty(angle.Degree))
	f, err := track.Observe(
		fix.Bearing(rxOrlesk, angle.MustParseTrue("023°T"), known).WithTime(start.Add(time.Hour)),
		fix.Bearing(rxMinnow, angle.MustParseTrue("270°T"), known).WithTime(start.Add(time.Hour)),
	)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(track)
	fmt.Printf("chance alone makes them disagree so much in %.0f of 100 cases\n", 100*f.Probability())
	// Output:
	// 3 May 09:00  47°02.0′N 018°54.5′W  ±0.26 M  start
	// 3 May 10:00  47°03.6′N 019°03.0′W  ±1.1 M by 0.93 M, longer toward 105°T  run of 1 h 00 min on 285°T at 6.0 kn
	// 3 May 10:00  47°03.6′N 019°03.0′W  ±0.29 M by 0.20 M, longer toward 049°T  bearing of Orlesk Head light, bearing of Minnow Ledge beacon
	// chance alone makes them disagree so much in 99 of 100 cases
}

// Orlesk Head light, 62 m above the water, subtends 42′ by sextant.
func ExampleDistanceByVerticalAngle() {
	off, err := fix.DistanceByVerticalAngle(62, angle.Must(angle.Parse("0°42′")), 2.5)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(off)
	_, err = fix.DistanceByVerticalAngle(62, angle.Must(angle.Parse("0°12′")), 2.5)
	fmt.Println(err)
	off, err = fix.DistanceByVerticalAngleBeyond(62, angle.Must(angle.Parse("0°12′")), 2.5, fix.HorizonTable)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(off)
	// Output:
	// 2.7 M
	// distance of the object in metres 17762 is invalid; give at most 3.4 M, the distance of the horizon, so that the water line is seen; for an object farther off, measure the angle above the horizon, and allow for the dip
	// 8.6 M
}
