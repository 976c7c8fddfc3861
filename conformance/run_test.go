package conformance_test

import (
	"testing"

	"lubberline.example/conformance"
	"lubberline.example/conformance/lubberline"
)

// TestLubberline holds the packages of this module to every case. Subtests are
// named by id: go test -run 'TestLubberline/variation/project'.
func TestLubberline(t *testing.T) {
	conformance.Run(t, lubberline.Subject(), conformance.Options{})
}

// TestNothingIsLeftOut checks that every case passes at every tier, and that every operation has
// a case.
func TestNothingIsLeftOut(t *testing.T) {
	ran := map[string]bool{}
	for _, tier := range []conformance.Tier{conformance.TierNavigation, conformance.TierLibrary, conformance.TierFormat} {
		report, err := conformance.Check(lubberline.Subject(), conformance.Options{Tier: tier})
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range report.Results {
			if r.Status != conformance.Pass {
				t.Errorf("%v", r)
			}
			ran[r.Case.Operation] = true
		}
	}
	for name := range lubberline.Subject().Operations {
		if !ran[name] {
			t.Errorf("no case of %s", name)
		}
	}
}
