// Package conformance has worked examples of compass navigation from published manuals, as data,
// and tests any implementation against them.
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
//   - A library in Go: make a [Subject] with one operation, as above, [Run] it in a test, and
//     add operations. Package [lubberline.example/conformance/lubberline] is this module as a
//     subject, and shows them all.
//   - A program in another language: use the command [lubberline.example/conformance/run]. The
//     README leads to a first report in fifteen minutes.
//   - The cases alone: [Load] or [Files]. The command also writes them all to one file.
//
// # What there is
//
// The cases are JSON files, one a topic, with a schema. Each case has its source and the place in
// it, the input, the expected answer, and a tolerance with its reason. If the input is invalid,
// the case lists the kinds of refusal that pass. Another schema describes each operation: what it
// does, the keys of the input and of the answer, and the conventions that the answer follows.
//
// A [Subject] has a function for each operation that it offers. [Run] runs the corpus on it as a
// test, with a subtest for each case. [Check] does the same without a test. The command drives
// other programs over their standard input and output. [Serve] answers the command for a subject
// in Go.
//
// The standing of a case matters: a worked example is the book's own. A rule applied is a
// published rule with figures of ours. Do not cite it as the book's example.
package conformance
