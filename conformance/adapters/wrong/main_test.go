package main

import (
	"testing"

	"lubberline.example/conformance"
)

// Every slip is caught, and in the operations that it is in only.
func TestTheCorpusCatchesEverySlip(t *testing.T) {
	for name, operations := range map[string][]string{
		"variation-sign":                 {"course.convert", "course.bearing", "check.bearing"},
		"deviation-on-the-wrong-heading": {"deviation.lookup"},
		"annual-change-forgotten":        {"variation.project"},
		"minutes-carried-at-100":         {"angle.add"},
		"mean-across-north":              {"angle.mean"},
		"wrong-hemisphere":               {"sailing.rhumb", "sailing.midLatitude", "field.evaluate", "sun.place"},
	} {
		s, err := wrong(name)
		if err != nil {
			t.Fatal(err)
		}
		report, err := conformance.Check(s, conformance.Options{})
		if err != nil {
			t.Fatal(err)
		}
		if report.Good() {
			t.Errorf("%s: not caught", name)
		}
		failed := map[string]int{}
		for _, r := range report.Results {
			if !r.Status.Good() {
				failed[r.Case.Operation]++
			}
		}
		for _, o := range operations {
			if failed[o] == 0 {
				t.Errorf("%s: not caught in %s", name, o)
			}
			delete(failed, o)
		}
		if len(failed) > 0 {
			t.Errorf("%s: failures elsewhere: %v", name, failed)
		}
	}
	if len(slips) != 6 {
		t.Errorf("%d slips, not all tested", len(slips))
	}
	if _, err := wrong("none"); err == nil {
		t.Error("an unknown slip is accepted")
	}
}
