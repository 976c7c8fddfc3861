package slip_test

import (
	"fmt"
	"log"

	"lubberline.example/angle"
	"lubberline.example/conformance/slip"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/deviation"
	"lubberline.example/fix"
	"lubberline.example/variation"
)

// An answer of two figures, and the slip behind a wrong one. Every figure of these examples is
// invented.
func ExampleProblem_Pair() {
	p, err := slip.NewMadeGood(stream.ReckonedRun{
		Heading: angle.MustParseTrue("090"), Speed: 5 * sailing.Knot,
		Stream: stream.Stream{Set: angle.MustParseTrue("000"), Rate: 2 * sailing.Knot},
	})
	if err != nil {
		log.Fatal(err)
	}
	course, speed := p.Pair(p.Answer())
	fmt.Printf("%.1f degrees, %.2f knots\n", course, speed)
	answer, err := p.Read("112° 5.4 kn")
	if err != nil {
		log.Fatal(err)
	}
	likeliest := p.Diagnose(answer).Causes[0]
	fmt.Println(likeliest.Printed, likeliest)
	// Output:
	// 68.2 degrees, 5.38 knots
	// 112°, 5.4 kn the stream was drawn from its direction, not toward it
}

// A fix by two bearings, marked by the tolerances of the official exercises.
func ExampleProblem_MarkedBy() {
	p, err := slip.NewFix([]slip.Sighting{
		{Mark: fix.Mark{Name: "Minnow Ledge beacon", Position: angle.MustParsePosition("47°03.6′N 019°11.6′W")}, Bearing: angle.MustParseCompass("039")},
		{Mark: fix.Mark{Name: "Braddle Point tower", Position: angle.MustParsePosition("46°47.5′N 019°01.0′W")}, Bearing: angle.MustParseCompass("134")},
	}, angle.MustParseCompass("226"), course.With{Variation: variation.MustParse("5°W"), Deviation: deviation.MustParse("3°E")})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(p.Print(p.Answer()))
	answer, err := p.Read("46°57.8′N 019°17.9′W")
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(p.MarkedBy(slip.ChartWork()).Diagnose(answer))
	fmt.Println(p.MarkedBy(slip.Scheme{Name: "strict", Position: 0.05}).Diagnose(answer))
	// Output:
	// 46°57.9′N 019°17.8′W
	// right
	// wrong; each of these would give it: intermediate figures were rounded; or the answer was rounded too far
}

// A problem that a teacher states in a file, with a slip of the teacher's own.
func ExampleStated() {
	p, err := slip.Stated{
		Topic: "course to steer", Question: "The course is 112°T. What is it by compass?",
		Form: slip.Direction, North: "C", Answer: "114",
		Slips: []slip.StatedSlip{
			{Slip: slip.VariationWrongWay, Answer: "104"},
			{Slip: "the card of the other compass was used", Answer: "117"},
		},
	}.Problem()
	if err != nil {
		log.Fatal(err)
	}
	answer, err := p.Read("117")
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(p.Diagnose(answer))
	// Output:
	// wrong; this slip would give it: the card of the other compass was used
}
