// Package exercise makes papers of questions on one passage. The sheets of a paper are the questions
// with room for the working, the key, and the workings. It also marks the answers of a class.
//
//	paper, err := exercise.New(exercise.Options{Seed: 7, Level: slip.Medium, Questions: 8})
//	if err != nil {
//		log.Fatal(err)
//	}
//	doc := paper.Questions()
//	doc.Size = page.Letter // A4 if left out
//	if err := page.Write(os.Stdout, doc); err != nil {
//		log.Fatal(err)
//	}
//
// # Where to begin
//
//   - A paper by seed, level, topics and length: [New]. Its foot says how to make it again.
//   - Problems on one topic: fill in a [Paper] with those of
//     [lubberline.example/conformance/slip.Exercises], and a [CardTable].
//   - A paper of your own, from JSON: [Read]. [Paper.MarshalJSON] shows the form.
//   - The sheets: [Paper.Questions] to hand out, [Paper.Key] and [Paper.Workings].
//     Package [lubberline.example/angle/page] writes them as HTML to print, or as Markdown.
//   - The chart to work on: [lubberline.example/fix/plot.PracticeChart].
//   - The answers of a class, from CSV: [Paper.Mark], then [Results.Page].
//
// # Papers
//
// All questions of a paper that [New] makes lie on one passage of a vessel through the invented
// waters of package [lubberline.example/fix/practice]. New simulates the passage. Bearings are those
// from where the vessel is, with the deviation of the card. The stream is that of the table.
//
// The questions begin with the course at departure, and end with a clearing bearing to the
// anchorage. Between them are dead reckoning and estimated positions, fixes, and checks of the
// compass. Each question gives what it needs, so that a wrong answer spoils no other. The chart, the
// card and the table of tidal streams are for all of them.
//
// # Marks
//
// For a wrong answer, [Paper.Mark] names the usual slips that would give it, by package
// [lubberline.example/conformance/slip]. Only the learner's working shows which was made. Further
// figures in the CSV, such as the variation, are marked too. A figure that follows correctly from a
// wrong one before it counts as carried on.
//
// # Cautions
//
// Papers are for teaching. The coast, the vessel and all figures are invented: no paper and no
// chart of one is for navigation.
//
// Names and answers come from others. So Paper.Mark makes formulas in the cells of its CSV harmless,
// and pages escape all texts.
package exercise
