package decklog_test

import (
	"fmt"
	"log"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course/decklog"
	"lubberline.example/course/sailing"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// Two hours of a log of the Quillon, with a fix at the end: the set and rate that it shows. Every
// figure is invented.
func ExampleReadLog() {
	entries, err := decklog.ReadLog(strings.NewReader(`time,log,compass,fix,fix_uncertainty,remarks
2026-07-02T06:00Z,0.0,226°C,47°07.8′N 019°01.0′W,0.1 M,off Orlesk Head
2026-07-02T07:00Z,5.4,,,,
2026-07-02T08:00Z,10.9,,46°59.0′N 019°13.0′W,0.2 M,by bearings
`))
	if err != nil {
		log.Fatal(err)
	}
	reckoning, err := entries.Reckon(decklog.Options{
		Factor:    decklog.Factor{Value: 1.03},
		Variation: variation.West(5 * angle.Degree),
		Deviation: deviation.None(),
	})
	if err != nil {
		log.Fatal(err)
	}
	last := reckoning.Points[len(reckoning.Points)-1]
	fmt.Println("DR", last.DR)
	fmt.Println("stream", last.SetAndDrift.Stream)
	fmt.Print(reckoning.DaysWork())
	// Output:
	// DR 46°59.3′N 019°11.8′W
	// stream 248.5°T 0.5 kn
	// Departure           47°07.8′N 019°01.0′W
	// Arrival             46°59.0′N 019°13.0′W
	// Distance by log                   11.2 M  with the factor of the log
	// Course made good              222°58.9′T
	// Distance made good                12.0 M
	// Speed made good                   6.0 kn  in 2.0 hours
	// Set and rate              248.5°T 0.5 kn  at the last fix, from the reckoning without stream
	// Warning: 2 runs have no stream: they count as slack water
	// An aid for checking. It does not replace up-to-date charts and notices to mariners, a proper lookout, or a competent navigator; local rules and licensed practice come first.
}

// The factor of the log by two runs over a measured mile, there and back.
func ExampleMeasuredMile() {
	mile := decklog.MeasuredMile{Length: 1 * sailing.NauticalMile, Runs: []decklog.MileRun{
		{Course: angle.MustParseTrue("090"), Lasts: 10*time.Minute + 12*time.Second, Log: 1.08 * sailing.NauticalMile},
		{Course: angle.MustParseTrue("270"), Lasts: 8*time.Minute + 48*time.Second, Log: 0.86 * sailing.NauticalMile},
	}}
	factor, err := mile.Factor()
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.3f\n", factor.Value)
	steps, err := mile.Working()
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(steps)
	// Output:
	// 1.040
	// Run 1 over the ground    5.88 kn  1.000 M in 10 min 12 s on 090°T; by log 1.080 M
	// Run 2 over the ground    6.82 kn  1.000 M in 8 min 48 s on 270°T; by log 0.860 M
	// Speed through the water  6.35 kn  mean of means of the speeds over the ground, so that the stream cancels
	// Speed by log             6.11 kn  mean of means of the speeds by log
	// Factor of the log          1.040  speed through the water over speed by log
}
