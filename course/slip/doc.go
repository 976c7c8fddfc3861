// Package slip tells which slip of the hand or the eye makes a wrong answer to a worked
// problem of navigation.
//
//	p, err := slip.NewToSteer(angle.MustParseTrue("230°"), slip.Compass{
//		Rose:      variation.MustParseLegend("7°20′W 2015 (12′E)"),
//		Year:      2026,
//		Deviation: deviation.MustParse("3°E"),
//	})
//	if err != nil {
//		log.Fatal(err)
//	}
//	fmt.Println(p.Explain(227)) // wrong: the variation was left out
//
// # Where to begin
//
// To explain one answer make its [Problem], read the answer with [Problem.Read] and give
// it to [Problem.Explain]. To teach, draw [Exercises] by a seed, print [Questions] and
// [Answers] with [working.WritePage], and mark what comes back. The command in
// examples/worksheet of this module does that on files. For a single conversion that is
// at hand as a [course.Heading] see also [course.Heading.CompassSlips].
//
// A [Problem] is worked by a function that asks, at each place where people go wrong,
// whether they do: the stream laid off the wrong way, the deviation taken on the wrong
// heading, minutes carried at a hundred. [Problem.Explain] works it again with each slip
// that it asked for, and with each two of them, and lists those that come to the answer
// given, to within its rounding: the likelier first, one before two. Where several explain
// it equally it says so, and where none does; an answer that is right is accused of
// nothing.
//
// The problems are [NewRose], [NewToSteer], [NewMade], [NewPositionLine], [NewStream],
// [NewRun], [NewDLong] and [NewLatitude]. A new slip is one [Kind] with its words, and a
// question in the function of the problem where it happens.
//
// Figures are float64 in the unit that the problem's [Form] tells.
package slip
