// Package exercise makes papers of problems in navigation, and the sheets of a paper: the
// questions, the key and the workings.
//
//	problems, err := slip.Exercises("variation", slip.Easy, 2, 7, nil)
//	if err != nil {
//		log.Fatal(err)
//	}
//	paper := exercise.Paper{Title: "Orlesk, sheet 7 (invented)", Problems: problems}
//	if err := page.Write(os.Stdout, paper.Questions()); err != nil {
//		log.Fatal(err)
//	}
//
// # Where to begin
//
// Fill in a [Paper]. [Paper.Questions] is the page to hand out, [Paper.Key] the answers, and
// [Paper.Workings] the full workings. Package [lubberline.example/angle/page] writes them as HTML
// to print, or as Markdown.
//
// # Cautions
//
// The figures are invented, and so is the coast. A paper is not for navigation.
package exercise
