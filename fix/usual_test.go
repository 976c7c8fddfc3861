package fix_test

import (
	"encoding/json"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/deviation"
	"lubberline.example/fix"
	"lubberline.example/fix/internal/fixtest"
	"lubberline.example/variation"
)

// usUnstated returns two hand bearings by a variation without an uncertainty, as a program
// would first write them.
func usUnstated() []fix.Line {
	with := course.With{Variation: variation.MustParse("6°W")}
	var lines []fix.Line
	for _, m := range []fix.Mark{svHead, svTower} {
		b := angle.Must(course.HandBearing(variation.MustParse("6°W").Magnetic(fixtest.True(fixtest.Azimuth(svVessel, m.Position))), with))
		lines = append(lines, fix.CompassBearing(m, b, fixtest.Sigma(2)))
	}
	return lines
}

// TestForgottenUncertaintyIsNamed leaves out the uncertainty of the variation. There is no
// ellipse, and the line, the fix and the error of Solve say why.
func TestForgottenUncertaintyIsNamed(t *testing.T) {
	lines := usUnstated()
	const why = "variation is not stated"
	if got := lines[0].Working().String(); !strings.Contains(got, why) {
		t.Errorf("the line: %s", got)
	}
	f := svSolve(t, lines, fix.Options{Near: &svVessel})
	if kinds := dbWarned(f); !slices.Contains(kinds, fix.UncertaintyUnknown) || !strings.Contains(dbText(f), why+" for Orlesk Head light, Braddle Point tower: state it, as in 6°W ±0°30′") {
		t.Errorf("the fix: %v", f.Working())
	}
	_, err := fix.Solve(append(lines, svRange(svVessel, svLedge, 0, 100)), fix.Options{Near: &svVessel})
	e, ok := errors.AsType[*fix.Error](err)
	if !ok || !strings.Contains(e.Reason, why+" for bearing of Orlesk Head light, but is for distance off Minnow Ledge beacon") {
		t.Errorf("with a distance: %v", err)
	}
	run := stream.ReckonedRun{Heading: fixtest.True(90), Speed: 6 * sailing.Knot}
	f = svSolve(t, []fix.Line{angle.Must(svThree()[0].TransferredBy(run)), angle.Must(svThree()[1].TransferredBy(run))}, fix.Options{Near: &svVessel, UsualUncertainties: true})
	if !strings.Contains(dbText(f), "run of the transfer is not stated") {
		t.Errorf("a run: %v", f.Working())
	}
}

// TestUsualUncertaintiesAreReported checks that usual values are taken only for what was not
// stated.
func TestUsualUncertaintiesAreReported(t *testing.T) {
	var unstated angle.Uncertainty
	usual := fix.Options{Near: &svVessel, UsualUncertainties: true}
	f := svSolve(t, usUnstated(), usual)
	if kinds := dbWarned(f); !slices.Contains(kinds, fix.UncertaintyAssumed) || !strings.Contains(dbText(f), "±2.1°; uncertainty of the variation assumed") || !strings.Contains(f.String(), "95 % by usual uncertainties") {
		t.Errorf("%v\n%v", f, f.Working())
	}
	if back := f.Lines()[0]; back.Working().String() != usUnstated()[0].Working().String() {
		t.Error("the line of the fix is another")
	}
	// The same values stated by hand give the same fix.
	with := course.With{Variation: variation.MustParse("6°W ±0°30′"), Deviation: deviation.MustParse("2°E ±1°")}
	without := course.With{Variation: variation.MustParse("6°W"), Deviation: deviation.MustParse("2°E")}
	h, g := angle.Must(course.FromCompass(angle.MustParseCompass("226°C"), with)), angle.Must(course.FromCompass(angle.MustParseCompass("226°C"), without))
	stated := []fix.Line{fix.CompassBearing(svHead, h.BearingFromTrue(fixtest.True(50)), fixtest.Sigma(2)), fix.CompassBearing(svTower, h.BearingFromCompass(angle.MustParseCompass("137°C")), fixtest.Sigma(2)),
		fix.CompassBearing(svLedge, h.BearingFromMagnetic(angle.MustParseMagnetic("043°M")), fixtest.Sigma(2)), svRange(svVessel, svHead, 0, 0.05*fixtest.Apart(svVessel, svHead.Position)),
		angle.Must(fix.Latitude(svVessel.Latitude, svMile)), angle.Must(fix.HorizontalAngle(svHead, svTower, fixtest.True(83).FromNorth(), fixtest.Sigma(0.1)))}
	lacking := []fix.Line{fix.CompassBearing(svHead, g.BearingFromTrue(fixtest.True(50)), unstated), fix.CompassBearing(svTower, g.BearingFromCompass(angle.MustParseCompass("137°C")), unstated),
		fix.CompassBearing(svLedge, g.BearingFromMagnetic(angle.MustParseMagnetic("043°M")), fixtest.Sigma(2)), svRange(svVessel, svHead, 0, 0),
		angle.Must(fix.Latitude(svVessel.Latitude, 0)), angle.Must(fix.HorizontalAngle(svHead, svTower, fixtest.True(83).FromNorth(), unstated))}
	a, b := svKnown(svSolve(t, stated, usual)), svKnown(svSolve(t, lacking, usual))
	for name, pair := range map[string][2]float64{"north": {a.North, b.North}, "east": {a.East, b.East}, "both": {a.Both, b.Both}} {
		if math.Abs(pair[0]-pair[1]) > 1e-6*math.Abs(pair[0]) {
			t.Errorf("%s: stated %v, assumed %v", name, pair[0], pair[1])
		}
	}
	if slices.Contains(dbWarned(svSolve(t, stated, usual)), fix.UncertaintyAssumed) {
		t.Error("stated ones are called assumed")
	}
	text := angle.Must(json.Marshal(svSolve(t, lacking, usual)))
	var given struct {
		Lines   []fix.Line
		Options fix.Options
	}
	if err := json.Unmarshal(text, &given); err != nil {
		t.Fatal(err)
	}
	if again := svSolve(t, given.Lines, given.Options); string(angle.Must(json.Marshal(again))) != string(text) {
		t.Errorf("solved again: %v", again)
	}
}
