package fix_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/course/stream"
	"lubberline.example/fix"
)

// TestNilIsAnError gives nil for each pointer or function.
func TestNilIsAnError(t *testing.T) {
	var track *fix.Track
	_, noFunction := fix.LineFromFunc("depth", "m", nil, 10, 1)
	_, noRun := track.Run(stream.ReckonedRun{})
	_, noObservation := track.Observe(svThree()...)
	for name, err := range map[string]error{
		"a function": noFunction, "a track to run": noRun, "a track to observe": noObservation,
		"a track to read": track.UnmarshalJSON([]byte("{}")),
		"a line to read":  (*fix.Line)(nil).UnmarshalJSON([]byte("{}")),
	} {
		if err == nil || !strings.HasPrefix(err.Error(), "fix: ") {
			t.Errorf("%s: %v", name, err)
		}
	}
	if data, err := track.MarshalJSON(); string(data) != "null" || err != nil {
		t.Errorf("a track to write: %s, %v", data, err)
	}
	if track.Undo() || len(track.Entries()) > 0 || track.String() == "" || track.Estimate() != (stream.Estimate{}) {
		t.Error("a nil track holds something")
	}
}

// TestFunctionWithoutValueGivesNoFix uses functions that return no number.
func TestFunctionWithoutValueGivesNoFix(t *testing.T) {
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		l := angle.Must(fix.LineFromFunc("depth", "m", func(angle.Position) float64 { return bad }, 10, 1))
		_, err := fix.Solve([]fix.Line{l, svThree()[0]}, fix.Options{Near: &svVessel})
		_, err3 := fix.Solve(append(svThree(), l), fix.Options{Near: &svVessel})
		if !errors.As(err, new(*fix.Error)) || !errors.As(err3, new(*fix.Error)) {
			t.Errorf("%v: %v, %v", bad, err, err3)
		}
	}
}
