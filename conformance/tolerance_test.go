package conformance_test

import (
	"encoding/json"
	"math"
	"strings"
	"testing"
)

// halfAUnit is the reason of a tolerance that is half a unit of what is printed.
const halfAUnit = "half a unit of the last printed figure"

// A tolerance that claims half a unit is not wider: half of the coarsest unit that the value is a
// whole number of.
func TestHalfAUnitIsHalfAUnit(t *testing.T) {
	for _, topic := range load(t) {
		for _, c := range topic.Cases {
			reason, more, _ := strings.Cut(c.WithinBecause, ";")
			if c.Status != "active" || reason != halfAUnit || strings.Contains(more, "leaves up to") {
				continue
			}
			for key, want := range c.Expect {
				value, ok := want.Value.(float64)
				if ok && want.Within > 0.5001*coarsestUnit(value) {
					t.Errorf("%s: %s: %v ± %v is wider than half a unit; say the true reason", c.ID, key, value, want.Within)
				}
			}
		}
	}
}

// coarsestUnit returns the coarsest unit that a value may be printed to: a whole number, tenths,
// minutes of arc and so on.
func coarsestUnit(value float64) float64 {
	for _, unit := range []float64{1, 0.1, 1. / 60, 0.01, 1. / 600, 0.001, 1. / 3600, 1e-4} {
		if n := value / unit; math.Abs(n-math.Round(n)) < 1e-5 {
			return unit
		}
	}
	return 1e-5
}

// No two cases of an operation are given the same, unless the notes say why.
func TestNoCaseIsAskedTwice(t *testing.T) {
	first := map[string]string{}
	for _, topic := range load(t) {
		for _, c := range topic.Cases {
			if c.Status != "active" {
				continue
			}
			var given any
			if err := json.Unmarshal(c.Given, &given); err != nil {
				t.Fatal(c.ID, err)
			}
			plain, err := json.Marshal(given) // keys in order
			if err != nil {
				t.Fatal(c.ID, err)
			}
			key := c.Operation + string(plain)
			if other := first[key]; other != "" && !strings.Contains(c.Notes, "the input of ") {
				t.Errorf("%s: is given the same as %s; its notes must say why, beginning with: the input of", c.ID, other)
			}
			first[key] = c.ID
		}
	}
}
