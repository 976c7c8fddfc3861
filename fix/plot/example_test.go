package plot_test

import (
	"fmt"
	"log"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"lubberline.example/fix"
	"lubberline.example/fix/danger"
	"lubberline.example/fix/plot"
	"lubberline.example/fix/practice"
)

// What the plot of a fix shows, for readers who cannot see it. Every figure is invented.
func ExampleFix() {
	beacon := fix.Mark{Name: "Minnow Ledge beacon", Position: angle.MustParsePosition("47°03.6′N 019°11.6′W")}
	tower := fix.Mark{Name: "Braddle Point tower", Position: angle.MustParsePosition("46°47.5′N 019°01.0′W")}
	known, err := angle.StandardUncertainty(1 * angle.Degree)
	if err != nil {
		log.Fatal(err)
	}
	f, err := fix.Solve([]fix.Line{
		fix.Bearing(beacon, angle.MustParseTrue("037°T"), known),
		fix.Bearing(tower, angle.MustParseTrue("132°T"), known),
	}, fix.Options{})
	if err != nil {
		log.Fatal(err)
	}
	sheet, err := plot.Fix(f, plot.Options{Title: "Fix off Orlesk Head"})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(sheet.Description())
	// Output:
	// Fix at 46°57.9′N 019°17.8′W from position lines: 2. bearing of Minnow Ledge beacon 037.0°T ±1°. bearing of Braddle Point tower 132.0°T ±1°. Above the overview, north up; below the close-up of the fix.
}

// A clearing bearing that keeps the vessel off a rock, drawn.
func ExampleDangers() {
	beacon := fix.Mark{Name: "Minnow Ledge beacon", Position: angle.MustParsePosition("47°03.6′N 019°11.6′W")}
	rock := angle.MustParsePosition("47°04.6′N 019°09.0′W")
	bearing, err := danger.NewClearingBearing(beacon, rock, 3*sailing.Cable, angle.Starboard)
	if err != nil {
		log.Fatal(err)
	}
	sheet, err := plot.Dangers(plot.DangerPlan{
		Dangers:  []plot.Danger{{Name: "the rock", Position: rock, Margin: 3 * sailing.Cable}},
		Bearings: []danger.ClearingBearing{bearing},
	})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(sheet.Description())
	// Output:
	// Limits that keep clear of dangers, north up. Danger the rock at 47°04.6′N 019°09.0′W, margin 0.3 M. Minnow Ledge beacon bears not less than 249.1°T, that is, to the right of it. Cross in a dotted circle: a danger. Dashed circle: its margin. NLT: not less than. NMT: not more than. Limits of bearings are true. All are rounded to the safe side.
}

// The chart of the exercises.
func ExamplePracticeChart() {
	sheet, err := plot.PracticeChart(practice.Orlesk(), plot.PracticeOptions{})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(sheet.Description())
	// Output:
	// Practice chart of Orlesk coast. Invented: not for navigation. It reaches from 46°43′N to 47°13′N and from 019°36′W to 018°28′W. Orlesk Head light, light, 47°08.4′N 019°00.0′W. Minnow Ledge beacon, beacon, 47°03.6′N 019°11.6′W. Braddle Point tower, tower, 46°47.5′N 019°01.0′W. St Osk church, church, 46°57.0′N 019°03.0′W. Pell chimney, tower, 46°51.7′N 018°57.9′W. Harbour front light, light, 47°01.5′N 018°49.3′W. Harbour rear light, light, 47°01.4′N 018°47.6′W. Skerrin beacon, beacon, 47°09.8′N 019°01.3′W. Quern buoy, buoy, 46°59.1′N 019°07.4′W. Hob buoy, buoy, 46°49.3′N 019°03.2′W. Stennock Hill, summit, 46°53.6′N 018°52.5′W.
}
