package fix_test

import (
	"encoding/json"
	"errors"
	"reflect"
	"slices"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/fix"
	"lubberline.example/fix/internal/fixtest"
)

// jsonKeys returns the keys of an object.
func jsonKeys(t *testing.T, text []byte) []string {
	t.Helper()
	var f map[string]json.RawMessage
	if err := json.Unmarshal(text, &f); err != nil {
		t.Fatal(err)
	}
	keys := make([]string, 0, len(f))
	for k := range f {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}

func TestFixIsSolvedAgainFromJSON(t *testing.T) {
	prior := stream.Estimate{Position: fixtest.From(svVessel, 120, 1500), Time: time.Date(2026, time.July, 2, 9, 0, 0, 0, time.UTC), Covariance: sailing.Circular(1000)}
	h := svOn(226, 1, 1)
	var unstated angle.Uncertainty
	mixed := []fix.Line{svByHand(svVessel, svHead, h, 0.5, 0.5), svByShip(svVessel, svTower, h, -0.5, 0.5), svByShip(svVessel, svChurch, h, 0.2, 0.5), svRange(svVessel, svHead, 100, 200)}
	for name, c := range map[string]struct {
		lines   []fix.Line
		options fix.Options
	}{
		"three bearings":   {svThree(), fix.Options{Near: &svVessel}},
		"nothing reckoned": {svThree(), fix.Options{}},
		"a blunder":        {svBlunder(10), fix.Options{Near: &svVessel}},
		"a prior":          {svFive(), fix.Options{Prior: &prior}},
		"two places":       {[]fix.Line{svRange(svVessel, svHead, 0, 50), svRange(svVessel, svTower, 0, 50)}, fix.Options{}},
		"mixed":            {mixed, fix.Options{Near: &svVessel}},
		"compass error":    {mixed, fix.Options{Near: &svVessel, CompassError: true}},
		"not stated":       {[]fix.Line{fix.Bearing(svHead, fixtest.True(49.6), unstated), fix.Bearing(svTower, fixtest.True(132.5), unstated)}, fix.Options{}},
	} {
		f := svSolve(t, c.lines, c.options)
		text, err := json.Marshal(f)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		var given struct {
			Lines   []fix.Line
			Options fix.Options
		}
		if err := json.Unmarshal(text, &given); err != nil {
			t.Errorf("%s: %v of %s", name, err, text)
			continue
		}
		back := svSolve(t, given.Lines, given.Options)
		again, err := json.Marshal(back)
		if err != nil || string(again) != string(text) || back.Working().String() != f.Working().String() {
			t.Errorf("%s: %v\n%s\nwant\n%s", name, err, again, text)
		}
		if _, known := f.Covariance(); known == slices.Contains(jsonKeys(t, text), "covariance") {
			continue
		}
		t.Errorf("%s: a covariance that is not known in %s", name, text)
	}
	if got := jsonKeys(t, angle.Must(json.Marshal(svSolve(t, svThree(), fix.Options{Near: &svVessel})))); !slices.Equal(got, []string{"chiSquare", "covariance", "degreesOfFreedom", "ellipse", "lines", "options", "position", "probability", "residuals"}) {
		t.Errorf("%q", got)
	}
	// A fix that is not to be used has no ellipse in JSON.
	if keys := jsonKeys(t, angle.Must(json.Marshal(svSolve(t, svBlunder(10), fix.Options{Near: &svVessel})))); slices.Contains(keys, "ellipse") || !slices.Contains(keys, "covariance") || !slices.Contains(keys, "warnings") {
		t.Errorf("of lines that do not agree: %q", keys)
	}
}

func TestTrackIsReadBackByReplay(t *testing.T) {
	k := tkTrack(t)
	text, err := json.Marshal(k)
	if err != nil {
		t.Fatal(err)
	}
	var back fix.Track
	if err := json.Unmarshal(text, &back); err != nil {
		t.Fatalf("%v of %s", err, text)
	}
	if back.String() != k.String() || back.Estimate() != k.Estimate() {
		t.Errorf("\n%v\nwant\n%v", &back, k)
	}
	err = json.Unmarshal([]byte(`{"entries":[{"lines":[]}]}`), &back)
	if e, ok := errors.AsType[*fix.Error](err); !ok || e.Entry != 1 || e.Kind != fix.TooFewLines || back.String() != k.String() {
		t.Errorf("%v", err)
	}
}

// jsonBack writes a value as JSON and reads it back, and compares the keys and the value.
func jsonBack[T any](t *testing.T, v T, keys ...string) {
	t.Helper()
	text, err := json.Marshal(v)
	if err != nil {
		t.Errorf("%T: %v", v, err)
		return
	}
	var back T
	if err := json.Unmarshal(text, &back); err != nil || !reflect.DeepEqual(back, v) {
		t.Errorf("%T: %v\n%+v\nwant\n%+v", v, err, back, v)
	}
	if got := jsonKeys(t, text); !slices.Equal(got, keys) {
		t.Errorf("%T: keys %q, want %q", v, got, keys)
	}
}

func TestResultsAsJSON(t *testing.T) {
	f := svSolve(t, svBlunder(10), fix.Options{Near: &svVessel})
	jsonBack(t, angle.Must(f.Ellipse(0.95)), "majorAxis", "probability", "semiMajor", "semiMinor")
	jsonBack(t, sailing.Run{Course: fixtest.True(45.1), Distance: 1234.5}, "course", "distance")
	jsonBack(t, f.Suspicions()[0], "line", "position", "probability", "ratio", "slip", "value")
	jsonBack(t, angle.Must(f.NextBearings([]fix.Mark{svChurch}, fixtest.Sigma(1)))[0], "bearing", "ellipse", "mark")
	jsonBack(t, fix.Residual{Value: 0.1, Ratio: -2, Offset: 30, Toward: fixtest.True(10)}, "offset", "ratio", "toward", "value")
	jsonBack(t, fix.Corner{A: 1, B: 2, Position: svVessel}, "a", "b", "position")
	jsonBack(t, fix.TwoBearings{Distance: 5, Abeam: 4, ToAbeam: 3}, "abeam", "distance", "toAbeam")
	jsonBack(t, fix.Options{Near: &svVessel, CompassError: true}, "compassError", "near")
}
