package conformance

import (
	"strings"
	"testing"
)

// Run holds a subject to the corpus as a test. Each case is a subtest named by its id, so
// that go test -run 'TestIt/variation/project' picks some. It skips the cases of
// operations that are not offered, and those that fail or are declined and are listed in
// options.Known. It fails if nothing is offered. At the end it logs the summary.
func Run(t *testing.T, s Subject, options Options) {
	t.Helper()
	report, err := Check(s, options)
	if err != nil {
		t.Error(err)
	}
	for _, r := range report.Results {
		t.Run(r.Case.ID, func(t *testing.T) {
			switch {
			case r.Status == NotOffered:
				t.Skip("not offered: " + r.Case.Operation)
			case r.Status == KnownFail:
				t.Skip("known to fail: " + options.Known[r.Case.ID])
			case r.Status == Declined:
				t.Errorf("declined, and not listed as known: %s", strings.Join(r.Problems, "; "))
			case !r.Status.Good():
				t.Error(r)
			}
		})
	}
	if err == nil && !report.Good() && report.Counts()[NotOffered] == len(report.Results) {
		t.Errorf("%s offers none of the chosen operations", s.Name)
	}
	t.Logf("%s %s, corpus %s: %s", report.Subject, report.Version, report.Corpus, report.Summary())
}
