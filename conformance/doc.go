// Package conformance holds worked examples of compass navigation from published
// manuals, as data, and the means to hold any implementation to them.
//
//	func TestConformance(t *testing.T) {
//		conformance.Run(t, conformance.Subject{
//			Name: "mine", Version: "1",
//			Operations: map[string]conformance.Operation{
//				"fix.horizon": conformance.On(func(given struct{ HeightFeet float64 }) (conformance.Answer, error) {
//					return conformance.Answer{"horizonMiles": 1.17 * math.Sqrt(given.HeightFeet)}, nil
//				}),
//			},
//		}, conformance.Options{})
//	}
//
// # Where to begin
//
// For a program in Go make a [Subject] with one operation, as above, [Run] it, and add
// operations; package [lubberline.example/conformance/lubberline], which is this module as
// a subject, shows all of them. For a program in another language there is the command
// [lubberline.example/conformance/run]; the README leads to a first report in fifteen
// minutes. To use the cases alone take them from [Load] or [Files].
//
// # What there is
//
// The data are the JSON files under cases, one a topic, described by the schema under
// schema; [Files] gives them raw, [Load] parsed, and [Facts] what manuals state that is no
// example. Each case names its source and where in it the figures stand, what is given,
// what is expected, and how close an answer must come and why. A case whose answer is that
// the input is refused lists the reasons that will do.
//
// A [Subject] is an implementation: for each operation that it offers, a function from
// what a case gives to the answer. [Run] holds it to the corpus as a test, with a subtest
// for each case; [Check] does the same without a test. A program in another language is
// driven over its standard input and output by the command; its protocol stands in the
// README. [Serve] answers it for a subject written in Go.
//
// What a case's standing says matters: a worked example is a book's own; a rule applied is
// a published rule with figures of ours, and not to be cited as the book's example.
package conformance
