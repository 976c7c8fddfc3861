// Package conformance holds worked examples of compass navigation from published
// manuals, as data that any implementation in any language can be held to.
//
// The data are the JSON files under cases, one a topic, described by the schema
// under schema; [Files] gives them raw and [Load] parsed. Each case names its
// source and where in it the figures stand, what is given, what is expected, and
// how close an answer must come and why. A case whose answer is that the input
// is refused lists the reasons that will do.
//
// What a case's standing says matters: a worked example is a book's own; a rule
// applied is a published rule with figures of ours, and not to be cited as the
// book's example.
//
// The test of this package holds the packages of this module to every case.
package conformance
