package plot_test

import (
	"fmt"
	"log"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/course/passage"
	"lubberline.example/course/plot"
	"lubberline.example/course/sailing"
	"lubberline.example/course/signs"
	"lubberline.example/course/stream"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// What the dial of a course shows, for readers who cannot see it. Every figure is invented.
func ExampleHeadingDial() {
	h, err := course.FromTrue(angle.MustParseTrue("112"), course.With{
		Variation: variation.MustParse("5°08′W"), Deviation: deviation.MustParse("3°12′E"),
	})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(plot.HeadingDial(h).Description())
	// Output:
	// A compass dial graduated from true north. Magnetic north is 5°08′ west of true north (the variation); compass north is 3°12′ east of magnetic north (the deviation) and 1°56′ west of true north (the compass error). The heading is 112.0°T, 117.1°M and 113.9°C.
}

// The course to steer through a stream, drawn.
func ExampleStreamTriangle() {
	tide := stream.Stream{Set: angle.MustParseTrue("020"), Rate: 2 * sailing.Knot}
	steering, err := stream.CourseToSteer(angle.MustParseTrue("112"), 6*sailing.Knot, tide)
	if err != nil {
		log.Fatal(err)
	}
	sheet, err := plot.StreamTriangle(plot.Triangle{Steering: steering})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(sheet.Description())
	// Output:
	// A stream triangle for 1 h, north up. Course to steer 131.5°T. Water track 131.5°T at 6.0 kn. Stream 020°T at 2.0 kn. Ground track 112°T at 5.6 kn.
}

// A rose brought to a year, with a direction laid across it.
func ExampleCompassRose() {
	sheet, err := plot.CompassRose(plot.Rose{
		Legend: variation.MustParseLegend("7°20′W 2015 (12′E)"), Year: 2026,
		Direction: new(angle.MustParseTrue("112")),
	})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(sheet.Description())
	// Output:
	// A compass rose. The outer ring is true. The inner ring is magnetic, with its north 5°08′W of true north. The legend is 5°08′W 2026 (12′E). A line lies across it, through the centre, from 292°T, 297.1°M to 112°T, 117.1°M.
}

// An empty chart of Orlesk Bay. On a Canvas, positions are drawn where they lie.
func ExampleGraticule() {
	area := plot.Graticule{Middle: angle.MustParsePosition("47°N 019°10′W"), Scale: 150_000}
	sheet, err := plot.PlottingSheet(area)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(sheet.Description())
	_, err = area.Draw("The bay, with its middle marked.", 0, 0, func(c plot.Canvas) {
		middle := c.Spot(area.Middle)
		fmt.Println(c.Frame.Holds(middle))
		fmt.Printf("%.2f mm to a mile\n", c.Mile(area.Middle.Latitude))
	})
	if err != nil {
		log.Fatal(err)
	}
	// Output:
	// An empty Mercator chart to plot on, Mercator projection on WGS 84, 1:150 000 in 47°N. It reaches from 46°50.9′N to 47°09.0′N and from 019°19.5′W to 019°00.5′W.
	// true
	// 12.35 mm to a mile
}

// A passage plan of one leg, drawn on a chart.
func ExamplePassage() {
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
	sheet, err := plot.Passage(p, plot.Graticule{}, signs.Commonwealth)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(sheet.Description())
	// Output:
	// A passage of 1 leg, 8.9 M; Orlesk Head to Minnow Ledge, track 234°T, 8.9 M, steer 239°C, Mercator projection on WGS 84, 1:100 000 in 47°05.2′N. It reaches from 46°59.6′N to 47°10.8′N and from 019°12.7′W to 018°59.9′W.
}
