package danger_test

// The Quillon, the coast of Orlesk with its lights, beacons and dangers, and every figure of
// these examples are invented.

import (
	"fmt"
	"log"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/deviation"
	"lubberline.example/fix/danger"
	"lubberline.example/variation"
)

// The Quillon heads for Minnow Ledge beacon and leaves a rock three cables to starboard.
func ExampleNewClearingBearing() {
	rock := angle.MustParsePosition("47°04.6′N 019°09.0′W")
	clearing, err := danger.NewClearingBearing(minnow, rock, 3*sailing.Cable, angle.Starboard)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(clearing)
	heading, err := course.FromTrue(angle.MustParseTrue("245°T"), course.With{
		Variation: variation.MustParse("5°00′W"), Deviation: deviation.MustParse("2°E"), At: &rock, On: time.Date(2026, 5, 3, 0, 0, 0, 0, time.UTC),
	})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(clearing.Working(heading))
	fmt.Println(clearing.Clear(angle.MustParseTrue("235°T")), clearing.Clear(angle.MustParseTrue("250°T")))
	// Output:
	// Minnow Ledge beacon bears not less than 249.1°T, that is, to the right of it
	// Clearing bearing of Minnow Ledge beacon: not less than 253°C
	//   Danger bears                      060°37′T  from the mark
	//   Danger off the mark                 2.04 M
	//   Margin                              0.30 M  distance to keep from the danger
	//   Angle at the mark                    8°28′  between the danger and the clearing line: sine = margin / distance
	//   True bearing                      249°06′T  the limit: the reciprocal of 060°37′T + 8°28′, corrected by half the convergency
	//   Variation                           5°00′W  as given
	//   Magnetic bearing                  254°06′M  variation is west: magnetic is greater than true
	//   Ship's head                          248°C  by compass: take the deviation for the heading, not for the bearing
	//   Deviation                           2°00′E  as given
	//   Compass bearing                   252°06′C  deviation is east: compass is less than magnetic
	//   Safe while it bears  not less than 252.1°C  that is, to the right of it, by compass on this heading; the deviation differs on another heading
	//   To the whole degree    not less than 253°C  as a steering compass is read, rounded to the safe side
	//   An aid for checking. It does not replace up-to-date charts and notices to mariners, a proper lookout, or a competent navigator; local rules and licensed practice come first.
	// false true
}

// The Quillon lies to 45 m of chain. The bow roller is 9 m above the bottom at low water.
func ExampleNewAnchorWatch() {
	anchor := angle.MustParsePosition("47°07.60′N 019°01.20′W")
	watch, err := danger.NewAnchorWatch(anchor, danger.SwingingCircle{Cable: 45, Height: 9, Length: 11, Margin: 15})
	if err != nil {
		log.Fatal(err)
	}
	inside, off := watch.Inside(angle.MustParsePosition("47°07.62′N 019°01.22′W"))
	fmt.Printf("radius %.0f m; %.0f m from the anchor, inside: %t\n", watch.Radius.Metres(), off.Metres(), inside)
	least, greatest, err := watch.Bearings(orlesk)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%v bears between %.1f and %.1f\n", orlesk, least, greatest)
	// Output:
	// radius 70 m; 45 m from the anchor, inside: true
	// Orlesk Head light bears between 043.8°T and 047.6°T
}

// To pass outside a rock off Orlesk Head, keep the horizontal sextant angle between the light
// and the beacon not more than the limit.
func ExampleHorizontalAngle() {
	rock := angle.MustParsePosition("47°04.0′N 019°03.5′W")
	limit, err := danger.HorizontalAngle(minnow, orlesk, rock, 5*sailing.Cable, danger.Outside)
	if err != nil {
		log.Fatal(err)
	}
	limit = limit.Round(angle.Degree)
	fmt.Println("keep the angle", limit)
	fmt.Println(limit.Clear(80*angle.Degree), limit.Clear(130*angle.Degree))
	// Output:
	// keep the angle not more than 113°00.0′
	// true false
}

// To pass at least two miles outside a light 38 m high, keep the sextant angle between its lamp and
// the water line not more than the limit.
func ExampleVerticalAngle() {
	limit, err := danger.VerticalAngle(38*sailing.Metre, 2*sailing.NauticalMile, danger.Outside)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println("keep the angle", limit)
	fmt.Println(limit.Clear(30*angle.Minute), limit.Clear(40*angle.Minute))
	fmt.Print(limit.Working())
	// Output:
	// keep the angle not more than 0°35.2′
	// true false
	// Vertical danger angle
	//   Height                             38.0 metres  of the object; charted above high water: at a lower tide the vessel is farther off than the angle says, on the safe side
	//   Distance                                2.00 M  from the object; its water line must be seen
	//   Limit                                  0°35.3′  tangent = height / distance
	//   Safe while the angle is  not more than 0°35.2′  rounded to the safe side
	//   An aid for checking. It does not replace up-to-date charts and notices to mariners, a proper lookout, or a competent navigator; local rules and licensed practice come first.
}
