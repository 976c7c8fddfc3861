package conformance_test

import (
	"math"
	"strings"
	"testing"

	"lubberline.example/conformance"
)

// A navigator's program that rounds to a hundredth of a degree or a mile passes all cases of
// the trade. At the tier library it does not.
func TestNavigationAllowsRounding(t *testing.T) {
	rounded := answers{}
	for _, topic := range load(t) {
		for _, c := range topic.Cases {
			rounded[c.ID] = conformance.Answer{}
			for key, want := range c.Expect {
				rounded[c.ID][key] = roundTo(want.Value, 0.01)
			}
		}
	}
	passed := map[conformance.Tier]int{}
	for _, tier := range []conformance.Tier{conformance.TierLibrary, conformance.TierNavigation} {
		report, err := conformance.Hold(rounded, "rounded", "", conformance.Options{Tier: tier}, nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range report.Results {
			switch {
			case r.Status == conformance.Pass:
				passed[tier]++
			case tier == conformance.TierNavigation && r.Case.Refused == nil:
				t.Error(r)
			}
		}
	}
	t.Logf("a program that rounds to 0.01 passes %v", passed)
	if passed[conformance.TierLibrary] >= passed[conformance.TierNavigation] {
		t.Errorf("passed: %v", passed)
	}
	if _, err := conformance.Hold(rounded, "rounded", "", conformance.Options{Tier: "racing"}, nil); err == nil || !strings.Contains(err.Error(), "navigation, library or format") {
		t.Error("an unknown tier is accepted")
	}
}

// Spellings are compared at the tier format and at no other, and each result tells at which
// tiers it passes.
func TestFormatIsATierOfItsOwn(t *testing.T) {
	odd := answers{}
	for _, topic := range load(t) {
		for _, c := range topic.Cases {
			odd[c.ID] = conformance.Answer{}
			for key, want := range c.Expect {
				odd[c.ID][key] = want.Value
			}
			if _, has := c.Expect["text"]; has {
				odd[c.ID]["text"] = "as nobody writes it"
			}
		}
	}
	library, err := conformance.Hold(odd, "odd", "", conformance.Options{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	spelt := 0
	for _, r := range library.Results {
		_, spells := r.Case.Expect["text"]
		if r.Case.Refused == nil && (r.Status != conformance.Pass || !r.Tiers[conformance.TierNavigation] || !r.Tiers[conformance.TierLibrary]) {
			t.Error(r)
		}
		passes, has := r.Tiers[conformance.TierFormat]
		if has != spells || passes {
			t.Errorf("%s: %v", r.Case.ID, r.Tiers)
		}
		if spells {
			spelt++
		}
	}
	format, err := conformance.Hold(odd, "odd", "", conformance.Options{Tier: conformance.TierFormat}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if n := format.Counts()[conformance.Fail]; n != spelt || n != len(format.Results) || n < 10 {
		t.Errorf("%d of %d spellings fail: %s", n, spelt, format.Summary())
	}
}

// roundTo rounds a number, or each of a list.
func roundTo(v any, step float64) any {
	switch v := v.(type) {
	case float64:
		return math.Round(v/step) * step
	case []any:
		out := make([]any, len(v))
		for i := range v {
			out[i] = roundTo(v[i], step)
		}
		return out
	}
	return v
}
