package main

import (
	"encoding/json"
	"strings"
	"testing"
)

func TestOperationsAreDescribed(t *testing.T) {
	operations := func(args ...string) (int, string) {
		var out, errs strings.Builder
		return run(append([]string{"-operations"}, args...), &out, &errs), out.String()
	}
	status, stdout := operations()
	for _, want := range []string{
		"fix.horizon  14 cases\n  Find the distance of the sea horizon from a height of eye.\n  Convention: The distance is 1.17 miles",
		"  given\n    heightFeet: number, ft, at least 0\n        The height of eye.\n  answer\n    horizonMiles: number, M, at least 0\n",
		"    [magneticDegrees]: number, °, from 0 to 360\n",
		"    reciprocalDegrees: number, °, from 0 to 360, on the circle\n",
		"  refused\n    bad-separator, empty, ",
		"    leaveTo: string, port or starboard\n",
	} {
		if status != 0 || !strings.Contains(stdout, want) {
			t.Errorf("status %d: %s\nwant %s", status, stdout, want)
		}
	}
	if status, stdout = operations("-topic", "fix", "-skip", "Danger"); status != 0 || strings.Contains(stdout, "\nangle.") || strings.Contains(stdout, "DangerAngle") || !strings.Contains(stdout, "fix.horizon") {
		t.Errorf("status %d: %s", status, stdout)
	}
	status, stdout = operations("-report", "json", "-run", "^fix")
	var described struct {
		Corpus     string
		Operations map[string]struct {
			About string
			Cases int
			Given map[string]any
		}
		Definitions map[string]any `json:"$defs"`
	}
	if err := json.Unmarshal([]byte(stdout), &described); err != nil || status != 0 || described.Corpus == "" || described.Operations["fix.horizon"].Cases != 14 || described.Operations["fix.horizon"].About == "" || described.Definitions["direction"] == nil || len(described.Operations) > 20 {
		t.Errorf("status %d, %v: %.300s", status, err, stdout)
	}
}
