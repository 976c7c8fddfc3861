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

// TestNothingIsLeftOut wants every case worked, and a case for every operation.
func TestNothingIsLeftOut(t *testing.T) {
	report, err := conformance.Check(lubberline.Subject(), conformance.Options{})
	if err != nil {
		t.Fatal(err)
	}
	ran := map[string]bool{}
	for _, r := range report.Results {
		if r.Status != conformance.Pass {
			t.Errorf("%v", r)
		}
		ran[r.Case.Operation] = true
	}
	for name := range lubberline.Subject().Operations {
		if !ran[name] {
			t.Errorf("no case of %s", name)
		}
	}
}
