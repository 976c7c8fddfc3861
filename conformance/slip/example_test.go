package slip_test

import (
	"errors"
	"fmt"
	"log"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/conformance/slip"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/deviation"
	"lubberline.example/fix"
	"lubberline.example/variation"
)

// The vessel Quillon, the Orlesk coast and every figure here are invented.

// The deviation card of the Quillon's steering compass.
var cardOfQuillon = angle.Must(deviation.ReadTable(strings.NewReader(`compass,deviation
000,2°W
030,1°E
060,3°30′E
090,4°E
120,3°E
150,2°30′E
180,2°E
210,1°30′E
240,0°
270,2°W
300,4°W
330,4°W
`)))

// The sources for the Quillon off Orlesk Head: the rose printed on the chart, and its
// card.
var offOrleskHead = course.With{
	Variation: variation.MustParseLegend("7°20′W 2015 (12′E)"),
	Deviation: cardOfQuillon,
	At:        new(angle.MustParsePosition("47°02′N 019°06′W")),
	On:        time.Date(2026, time.July, 2, 9, 0, 0, 0, time.UTC),
}

// A learner has the variation right, but added it.
func Example() {
	p, err := slip.NewToSteer(angle.MustParseTrue("230"), course.With{
		Variation: variation.MustParseLegend("7°20′W 2015 (12′E)"),
		Deviation: deviation.East(3 * angle.Degree),
		On:        offOrleskHead.On,
	})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(p.Print(p.Answer()))
	fmt.Println(p.Diagnose(222))
	// Output:
	// 232°
	// wrong; each of these would give it: the variation was applied the wrong way; or a figure was misread by ten
}

// Three learners work the course to Minnow Ledge and get 103°, 120° and 114°. Which answers
// are wrong, and why?
func ExampleProblem_Diagnose() {
	p, err := slip.NewToSteer(angle.MustParseTrue("112"), offOrleskHead)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(p.Diagnose(103))
	fmt.Println(p.Diagnose(120))
	fmt.Println(p.Diagnose(114))
	// Output:
	// wrong; this slip would give it: the variation was applied the wrong way
	// wrong; this slip would give it: the deviation was applied the wrong way
	// right
}

// The wrong answers that a teacher can expect: one for each slip.
func ExampleProblem_Slips() {
	p, err := slip.NewRose(variation.MustParseLegend("7°20′W 2015 (12′E)"), 2026)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(p.Working())
	for _, cause := range p.Slips() {
		fmt.Println(p.Print(cause.Answer), "-", cause)
	}
	// Output:
	// Variation in 2015      7°20′W  printed at the rose, annual change 12′E
	// Years, 2015 to 2026  11 years  counted in whole years
	// Change                 2°12′E  11 years × 12′E
	// Change error           ±0°24′  the annual change is not steady over 11 years
	// Source                 ±0°23′  the error of the forecast on the chart; local anomalies are not included
	// Uncertainty            ±0°34′  standard: change error, source and rounding (±0°05′) together
	// Variation in 2026      5°08′W  change east, variation west: it decreases
	// 7°20′W - the variation was not brought up to date
	// 9°32′W - the annual change was applied the wrong way
	// 2°12′E - the change was taken instead of the variation
	// 4°56′W - the years were miscounted, one year too many
	// 5°20′W - the years were miscounted, one year too few
	// 3°08′W - the years were miscounted, ten years too many
	// 7°08′W - the years were miscounted, ten years too few
	// 6°28′W - minutes were carried at 100, not at 60, in the sum
	// 5°48′W - minutes were carried at 100, not at 60, in the change
	// 5°05′W - minutes were taken as decimals, in the answer
	// 6°01′W - minutes were taken as decimals, on the way
	// 5°13′W - minutes were taken as decimals, the other way round
	// 5°08′E - east and west were exchanged
	// 4°58′W - a figure was misread by ten
	// 5°18′W - a figure was misread by ten
	// 0°58′W - two figures were exchanged
}

// An answer that cannot be read is an error, not a wrong answer.
func ExampleProblem_Read() {
	p, err := slip.NewRose(variation.MustParseLegend("7°20′W 2015 (12′E)"), 2026)
	if err != nil {
		log.Fatal(err)
	}
	answer, err := p.Read("5°08′W")
	fmt.Println(p.Print(answer), err)
	_, err = p.Read("5°68′W")
	if e, ok := errors.AsType[*angle.ParseError](err); ok {
		fmt.Println(e.Kind)
	}
	// Output:
	// 5°08′W <nil>
	// minutes-out-of-range
}

// Exercises of a topic. The same seed draws the same exercises.
func ExampleExercises() {
	problems, err := slip.Exercises("variation", slip.Easy, 2, 7, nil)
	if err != nil {
		log.Fatal(err)
	}
	for _, p := range problems {
		fmt.Println(p.Question, p.Print(p.Answer()))
	}
	// Output:
	// The rose says 4°00′E 2019 (6′E). What is the variation in 2026, to the minute? 4°42′E
	// The rose says 8°00′E 2020 (5′E). What is the variation in 2026, to the minute? 8°30′E
}

// A running fix off Minnow Ledge. A learner measures the run on the longitude scale.
func ExampleNewRunningFix() {
	ledge := fix.Mark{Name: "Minnow Ledge beacon", Position: angle.MustParsePosition("47°03.6′N 019°11.6′W")}
	run := stream.ReckonedRun{Speed: 6 * sailing.Knot, Lasts: 45 * time.Minute, Stream: stream.Stream{Set: angle.MustParseTrue("180"), Rate: 2 * sailing.Knot}}
	p, err := slip.NewRunningFix(
		slip.Sighting{Mark: ledge, Bearing: angle.MustParseCompass("044")},
		slip.Sighting{Mark: ledge, Bearing: angle.MustParseCompass("355")},
		run, angle.MustParseCompass("090"), offOrleskHead)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(p.Print(p.Answer()))
	answer, err := p.Read("46°59.8′N 019°11.0′W")
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(p.Diagnose(answer))
	// Output:
	// 46°58.0′N 019°10.7′W
	// wrong; this slip would give it: the distance was taken from the longitude scale
}
