package plot_test

import (
	"fmt"
	"log"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/course/plot"
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
