package course_test

import (
	"fmt"
	"log"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/variation"
)

// A bearing by a hand-bearing compass needs the variation alone. Every figure is invented.
func ExampleHandBearing() {
	b, err := course.HandBearing(angle.MustParseMagnetic("142"), course.With{
		Variation: variation.MustParse("5°08′W"),
	})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(b)
	fmt.Println("to plot:", b.True())
	// Output:
	// 136.9°T 142°M
	// to plot: 136.9°T
}
