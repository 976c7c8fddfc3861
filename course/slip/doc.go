// Package slip tells which slip of the hand or the eye makes a wrong answer to a worked
// problem of navigation.
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
// [NewRun], [NewDLong] and [NewLatitude]. A new slip is one [Kind] with its words, and a question in the function of the
// problem where it happens.
package slip
