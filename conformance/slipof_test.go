package conformance

import "testing"

// A slip that lists no figure for a key explains no answer under that key, not even zero.
func TestSlipWithoutAFigureIsNotNamed(t *testing.T) {
	c := Case{
		Expect: map[string]Expected{"variation": {Within: 0.5}, "error": {Within: 0.5}},
		Slips:  []map[string]any{{"name": "annual-change-wrong-way", "variation": 3.0}},
	}
	for key, named := range map[string]bool{"variation": true, "error": false} {
		answer := 0.0
		if named {
			answer = 3.0
		}
		if got := slipOf(quantity{}, c, key, answer); (got != "") != named {
			t.Errorf("%s: %q", key, got)
		}
	}
}
