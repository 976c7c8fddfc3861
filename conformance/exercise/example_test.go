package exercise_test

import (
	"fmt"
	"log"
	"os"
	"strings"

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
	for _, part := range paper.Questions().Parts {
		fmt.Println(part.Heading, part.Text[0])
	}
	for _, row := range paper.Key().Parts[0].Tables[0].Rows {
		fmt.Println(row)
	}
	// Output:
	// 1. variation The rose says 4°00′E 2019 (6′E). What is the variation in 2026, to the minute?
	// 2. variation The rose says 8°00′E 2020 (5′E). What is the variation in 2026, to the minute?
	// [1 variation 4°42′E]
	// [2 variation 8°30′E]
}

// A paper on one passage. Its foot says how to make it again.
func ExampleNew() {
	paper, err := exercise.New(exercise.Options{Seed: 7, Level: slip.Hard, Questions: 12})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(paper.Title)
	fmt.Println(len(paper.Problems), "questions")
	fmt.Println(paper.Made)
	// Output:
	// Paper 7: to St Osk Road (invented)
	// 12 questions
	// Seed 7, level hard, 12 questions, all topics, version 0.2.
}

// A school's own problem, with the slips that it knows.
func ExampleRead() {
	paper, err := exercise.Read(strings.NewReader(`{"title": "Ours", "problems": [{
		"topic": "distance run", "question": "How far does the vessel run in 1 h 30 min at 6 kn?",
		"form": "miles", "answer": "9", "working": [{"what": "Time", "value": "1.5 h"}],
		"slips": [{"slip": "minutes-as-decimals", "answer": "7.8"}, {"slip": "the half hour was left out", "answer": "6"}]
	}]}`))
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(paper.Workings().Parts[0].Tables[0].Rows)
	_, err = exercise.Read(strings.NewReader(`{"title": "Ours", "problems": [{"question": "How far?", "form": "feet"}]}`))
	fmt.Println(err)
	// Output:
	// [[7.8 M minutes were taken as decimals] [6.0 M the half hour was left out]]
	// exercise: problems[0]: the problem is not valid: slip: the form "feet" is unknown: give one such as direction, east-west, miles or position
}

// Two learners, one with a formula for an answer.
func ExamplePaper_Mark() {
	paper, err := exercise.Read(strings.NewReader(`{"title": "Ours", "problems": [{"question": "What is the variation?",
		"form": "east-west", "answer": "5°08′W", "slips": [{"slip": "change-left-out", "answer": "7°20′W"}]}]}`))
	if err != nil {
		log.Fatal(err)
	}
	answers := "name,question,answer\nAda,1,7°20′W\nBo,1,=1+1\n"
	results, err := paper.Mark(strings.NewReader(answers), exercise.Marking{CSV: os.Stdout})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(results.Slips[0].Slip, results.Slips[0].Times)
	fmt.Println("made harmless:", results.Escaped)
	// Output:
	// name,question,topic,figure,given,verdict,right,diagnosis
	// Ada,1,,answer,7°20′W,wrong,5°08′W,wrong; this slip would give it: the variation was not brought up to date
	// Bo,1,,answer,'=1+1,not-read,5°08′W,"""=1+1"" is not an angle east or west; write an angle such as 4°15′W or -4.25"
	// the variation was not brought up to date 1
	// made harmless: 1
}
