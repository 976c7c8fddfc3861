package exercise_test

import (
	"fmt"
	"log"

	"lubberline.example/conformance/exercise"
	"lubberline.example/conformance/slip"
)

// A sheet of two questions on one topic, and its key. The figures are invented.
func ExamplePaper() {
	problems, err := slip.Exercises("variation", slip.Easy, 2, 7, nil)
	if err != nil {
		log.Fatal(err)
	}
	paper := exercise.Paper{Title: "Orlesk, sheet 7 (invented)", Problems: problems}
	fmt.Print(paper.Questions().Markdown())
	fmt.Print(paper.Key().Parts[0].Tables[0].Rows)
	// Output:
	// # Orlesk, sheet 7 (invented)
	//
	// Name:
	//
	// Date:
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
	//
	// *An aid for checking. It does not replace up-to-date charts and notices to mariners, a proper lookout, or a competent navigator; local rules and licensed practice come first.*
	// [[1 variation 4°42′E] [2 variation 8°30′E]]
}
