//go:build ignore

// A program that converts one course, to show what a page on the web would load.
package main

import (
	"fmt"
	"os"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

func main() {
	h, err := course.FromTrue(angle.MustParseTrue("104°15′"), course.With{
		Variation: variation.MustParseLegend("7°20'W 2015 (12'E)"), // invented
		Deviation: deviation.East(3*angle.Degree + 30*angle.Minute),
		On:        time.Date(2026, time.July, 2, 0, 0, 0, 0, time.UTC),
	})
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	fmt.Print(h.Working())
}
