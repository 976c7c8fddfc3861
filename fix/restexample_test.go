package fix_test

// The Quillon, the coast of Orlesk with its lights, beacons and dangers, and every
// figure of these examples are invented.

import (
	"fmt"
	"log"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/deviation"
	"lubberline.example/fix"
	"lubberline.example/variation"
)

var (
	rxOrlesk = fix.Mark{Name: "Orlesk Head light", Position: angle.MustParsePosition("47°08.4′N 019°00.0′W")}
	rxMinnow = fix.Mark{Name: "Minnow Ledge beacon", Position: angle.MustParsePosition("47°03.6′N 019°11.6′W")}
)

// The Quillon makes good 080° and takes Orlesk Head light on the port bow, and
// again when it has opened, 4.2 miles later.
func ExampleByTwoBearings() {
	cmg := angle.MustParseTrue("080°T")
	first := fix.OnBow(cmg, angle.MustParseTrue("053.5°T"))
	second := fix.OnBow(cmg, angle.MustParseTrue("035°T"))
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
	// Distance abeam            4.2 M  that, × sin second, if course and speed over the ground are kept
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

// Heading for Minnow Ledge beacon the Quillon leaves a rock to starboard, by three
// cables.
func ExampleClearingBearing() {
	rock := angle.MustParsePosition("47°04.6′N 019°09.0′W")
	clearing, err := fix.ClearingBearing(rxMinnow, rock, 3*sailing.Cable, angle.Starboard)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%v bears %s %v\n", clearing.Mark, clearing.Bound, clearing.Limit)
	heading, err := course.FromTrue(angle.MustParseTrue("245°T"), course.With{
		Variation: variation.MustParse("5°00′W"), Deviation: deviation.MustParse("2°E"), At: &rock, On: time.Date(2026, 5, 3, 0, 0, 0, 0, time.UTC),
	})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(clearing.Working(heading))
	fmt.Println(clearing.Clear(angle.MustParseTrue("235°T")), clearing.Clear(angle.MustParseTrue("250°T")))
	// Output:
	// Minnow Ledge beacon bears not less than 249.1°T
	// Clearing bearing of Minnow Ledge beacon: not less than 253°C
	//   Danger bears                      060°37′T  from the mark
	//   Danger off the mark                 2.04 M
	//   Margin                              0.30 M  to keep from the danger
	//   Angle at the mark                    8°28′  between the danger and the line that passes it at the margin: sine = margin / distance
	//   True bearing                      249°06′T  the limit: the reciprocal of 060°37′T + 8°28′, the line from the mark on the safe side; half the convergency allowed for
	//   Variation                           5°00′W  as given
	//   Magnetic bearing                  254°06′M  variation is west: magnetic is greater than true
	//   Ship's head                          248°C  by compass: the deviation is that of the heading, not of the bearing
	//   Deviation                           2°00′E  as given
	//   Compass bearing                   252°06′C  deviation is east: compass is less than magnetic
	//   Safe while it bears  not less than 252.1°C  that is, to the right of it, by compass on this heading, rounded to the safe side; the deviation differs on another heading
	//   To the whole degree    not less than 253°C  as a steering compass is read, rounded to the safe side
	//   An aid for checking. It does not replace up-to-date charts and notices to mariners, a proper lookout, or a competent navigator; local rules and licensed practice come first.
	// false true
}

// The Quillon lies to 45 m of chain; from the bow roller to the bottom there are 9 m at
// low water.
func ExampleNewAnchorWatch() {
	anchor := angle.MustParsePosition("47°07.60′N 019°01.20′W")
	watch, err := fix.NewAnchorWatch(anchor, fix.Swinging{Cable: 45, Height: 9, Length: 11, Margin: 15})
	if err != nil {
		log.Fatal(err)
	}
	inside, off := watch.Inside(angle.MustParsePosition("47°07.62′N 019°01.22′W"))
	fmt.Printf("radius %.0f m; %.0f m from the anchor, inside: %t\n", watch.Radius.Metres(), off.Metres(), inside)
	least, greatest, err := watch.Bearings(rxOrlesk)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%v bears between %.1f and %.1f\n", rxOrlesk, least, greatest)
	// Output:
	// radius 70 m; 45 m from the anchor, inside: true
	// Orlesk Head light bears between 043.8°T and 047.6°T
}

// The Quillon keeps a reckoning: an hour on 285°, then bearings of both marks.
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
	off, err := fix.DistanceByVerticalAngle(62, angle.MustParse("0°42′"), 2.5)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(off)
	_, err = fix.DistanceByVerticalAngle(62, angle.MustParse("0°12′"), 2.5)
	fmt.Println(err)
	off, err = fix.DistanceByVerticalAngleBeyond(62, angle.MustParse("0°12′"), 2.5, fix.HorizonTable)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(off)
	// Output:
	// 2.7 M
	// distance of the object in metres 17762: want one within the horizon of the eye, 3.4 M, where its base is seen; beyond it use DistanceByVerticalAngleBeyond
	// 8.6 M
}

// To pass outside a rock off Orlesk Head the angle between the light and the beacon is
// kept not more than the limit, by sextant held level.
func ExampleHorizontalDangerAngle() {
	rock := angle.MustParsePosition("47°04.0′N 019°03.5′W")
	limit, err := fix.HorizontalDangerAngle(rxMinnow, rxOrlesk, rock, 5*sailing.Cable, fix.Outside)
	if err != nil {
		log.Fatal(err)
	}
	limit = limit.Round(angle.Degree)
	fmt.Printf("keep the angle %s %.0f\n", limit.Bound, limit.Limit)
	fmt.Println(limit.Clear(80*angle.Degree), limit.Clear(130*angle.Degree))
	// Output:
	// keep the angle not more than 113°
	// true false
}
