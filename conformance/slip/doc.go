// Package slip finds the slip behind a wrong answer to a problem of navigation, and makes
// exercises.
//
//	p, err := slip.NewToSteer(angle.MustParseTrue("112°T"), course.With{
//		Variation: variation.MustParse("5°W"), Deviation: deviation.MustParse("3°E"),
//		On: time.Date(2026, time.July, 2, 0, 0, 0, 0, time.UTC),
//	})
//	if err != nil {
//		log.Fatal(err)
//	}
//	fmt.Println(p.Question)
//	answer, err := p.Read("120") // the learner's
//	if err != nil {
//		log.Fatal(err)
//	}
//	fmt.Println(p.Diagnose(answer)) // wrong; this slip would give it: the deviation was applied the wrong way
//
// # Where to begin
//
//   - A conversion: [NewToSteer], [NewToSteerInWind], [NewTrueCourse], [NewPositionLine]. They take
//     the sources of package [lubberline.example/course].
//   - A rose: [NewRose], [NewRoseAgainstModel].
//   - The compass: [NewDeviation] by a transit, [NewDeviationBySun], [NewDeviationByAmplitude],
//     [NewCardReading], [NewSwingHeading], [NewCoefficient].
//   - A fix by bearings: [NewFix], [NewFixByRange], [NewRunningFix].
//   - A distance off or a danger: [NewTwoBearings], [NewVerticalAngle], [NewDippingLight],
//     [NewAngleCircle], [NewDangerAngle], [NewClearingBearing].
//   - A stream: [NewToSteerThroughStream], [NewMadeGood], [NewSetAndDrift], [NewTidalRate].
//   - Dead reckoning and time: [NewReckoning], [NewCourseMadeGood], [NewRun], [NewArrival].
//   - A sailing: [NewSailing], [NewGreatCircle], [NewLatitude], [NewDLong].
//   - Exercises of a topic: [Exercises]. Package [lubberline.example/conformance/exercise] makes
//     papers and sheets to hand out.
//   - The answer of a learner: [Problem.Read], then [Problem.Diagnose].
//   - Several figures of a learner, such as variation, magnetic, deviation and compass:
//     [Problem.Mark].
//   - Marking tolerances: [ChartWork] or your own [Scheme], with [Problem.MarkedBy].
//
// # How slips are found
//
// A [Problem] is worked by a function. At each place where people make slips, the function asks
// whether one is made. Examples are a stream drawn the wrong way, a deviation for the wrong
// heading, and minutes carried at 100. [Problem.Diagnose] works the problem again with each of
// these slips. If none gives the answer, to within its rounding, it tries each pair of them. If
// one does, it still tries the pairs of common slips, since two of them may be likelier than a
// rare one. It lists the slips that would give the answer, the likeliest first.
//
// A right answer has no slips. Nor has an answer by another convention: the nearest row of a
// card, decimal years, or a variation rounded to half a degree first. If a slip would give the
// same answer as the convention, the diagnosis has both.
//
// An answer shows which slips would give it, not which was made. [Diagnosis.Certain] reports
// whether one slip alone explains it, and hardly by chance. By a course to the whole degree no
// slip is certain, since slips give one course in seven. Ask for the figures before it, and mark
// them with [Problem.Mark].
//
// # Step by step
//
// [Problem.Mark] compares each figure of a learner with the right working, and with what follows
// from the learner's own figures before it. A slip is charged once, where it was made.
// What follows from it is carried on, and so is the same slip in another figure.
//
// Fixes with slips are worked as plotted, with straight lines on a Mercator chart. If a slip makes a
// wide cocked hat, its answer is the middle of the hat, by least squares.
//
// A slip affects what follows. If the variation is applied the wrong way on the way to the
// compass, the deviation is that of the wrong magnetic heading. The answer with the deviation of
// the right heading counts as the same slip.
package slip
