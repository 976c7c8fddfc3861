package slip_test

// The Quillon, the rose of Orlesk Bay and every figure of these examples are invented.

import (
	"errors"
	"fmt"
	"log"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/slip"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// What shall the Quillon steer by compass to head 230° true? Three have answered.
func Example() {
	p, err := slip.NewToSteer(angle.MustParseTrue("230"), slip.Compass{
		Rose:      variation.MustParseLegend("7°20′W 2015 (12′E)"),
		Year:      2026,
		Deviation: deviation.MustParse("3°E"),
	})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(p.Question)
	fmt.Println("right:", p.Print(p.Answer()))
	for _, text := range []string{"232", "227", "222"} {
		answer, err := p.Read(text)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Println(text, "is", p.Explain(answer))
	}
	// Output:
	// The course is 230°T; the rose says 7°20′W 2015 (12′E); the year is 2026. What is the course to steer by compass, to the degree?
	// right: 232°
	// 232 is right
	// 227 is wrong: the variation was left out
	// 222 is wrong: the variation was applied the wrong way; or the answer is ten off: a figure misread; these explain it equally
}

// What a teacher may expect: the answer that each slip comes to.
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
	// Variation in 2015    7°20′W  printed at the rose, annual change 0°12′E
	// Years              11 years  2015 to 2026
	// Change               2°12′E  11 years × 0°12′E
	// Variation in 2026    5°08′W  the printed one and the change: of the same name their sum, otherwise their difference, of the name of the greater
	// 7°20′W - the variation was not brought up to date
	// 9°32′W - the annual change was applied the wrong way
	// 4°56′W - the years were miscounted
	// 5°20′W - the years were miscounted
	// 3°08′W - the years were miscounted
	// 7°08′W - the years were miscounted
	// 6°28′W - minutes were carried at a hundred
	// 5°05′W - minutes were taken for decimals
	// 5°08′E - east and west were interchanged
	// 0°58′W - two figures were transposed
}

// An answer that can't be read is no wrong answer.
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

// A sheet of exercises: the same seed always draws the same. Questions and Answers are
// pages; working.WritePage writes them as HTML.
func ExampleExercises() {
	problems, err := slip.Exercises("variation", slip.Easy, 2, 7, nil)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(slip.Questions("Orlesk, sheet 7 (invented)", problems, nil).Markdown())
	var page strings.Builder // or a file
	if err := working.WritePage(&page, slip.Answers("Orlesk, sheet 7: answers", problems)); err != nil {
		log.Fatal(err)
	}
	// Output:
	// # Orlesk, sheet 7 (invented)
	//
	// ## 1. variation
	//
	// The rose says 4°00′E 2019 (6′E). What is the variation in 2026, to the minute?
	//
	// Answer:
	//
	// ## 2. variation
	//
	// The rose says 8°00′E 2020 (5′E). What is the variation in 2026, to the minute?
	//
	// Answer:
}
