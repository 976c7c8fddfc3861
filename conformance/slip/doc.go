// Package slip tells which slip of the hand or the eye makes a wrong answer to a worked
// problem of navigation, and sets exercises.
//
//	p, err := slip.NewToSteer(track, course.With{Variation: rose, Deviation: card, On: date})
//	if err != nil {
//		log.Fatal(err)
//	}
//	answer, err := p.Read("117") // the learner's
//	if err != nil {
//		log.Fatal(err)
//	}
//	fmt.Println(p.Diagnose(answer)) // wrong: the deviation was applied the wrong way
//
// # Where to begin
//
//   - A conversion: [NewToSteer], [NewTrueCourse], [NewPositionLine], with what package
//     [lubberline.example/course] converts with.
//   - A rose, a stream, a run: [NewRose], [NewToSteerThroughStream], [NewRun],
//     [NewLatitude], [NewDLong].
//   - A sheet to hand out: [Exercises], then [Questions] and [Answers].
//   - What a learner answered: [Problem.Read], then [Problem.Diagnose].
//
// # How slips are found
//
// A [Problem] is worked by a function that asks, at each place where people go wrong,
// whether they do: the stream laid off the wrong way, the deviation taken on the wrong
// heading, minutes carried at a hundred. [Problem.Diagnose] works it again with each slip
// that it asked for, and if none gives the answer, to within its rounding, with
// each two of them. It lists those that do, the likelier first. Where several explain the
// answer equally it says so, and where none does; an answer that is right is accused of
// nothing.
//
// A slip that changes what follows is followed: on the way to the compass, with the
// variation applied the wrong way, the deviation is the one on the wrong magnetic heading.
// The answer with that of the right heading is known for the same slip.
//
// A new slip is one [Kind] with its words, and a question in the function of the problem
// where it happens.
package slip
