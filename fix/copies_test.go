package fix_test

import (
	"encoding/json"
	"reflect"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/fix"
	"lubberline.example/fix/internal/fixtest"
)

// TestLineAndFixCannotBeChanged changes everything that a caller can reach of a line, of the
// options and of a fix, and checks that the originals stay the same.
func TestLineAndFixCannotBeChanged(t *testing.T) {
	for _, of := range []any{fix.Line{}, fix.Fix{}} {
		for _, f := range reflect.VisibleFields(reflect.TypeOf(of)) {
			if f.IsExported() {
				t.Errorf("%T: field %s is exported", of, f.Name)
			}
		}
	}
	near := svVessel
	prior := stream.Estimate{Position: svVessel, Covariance: sailing.Covariance{North: 1e6, East: 1e6}}
	lines := append(svThree(), angle.Must(fix.Transit(fix.Mark{Name: "front", Position: fixtest.At(47.1, -19)}, fix.Mark{Name: "rear", Position: fixtest.At(47.2, -19)}, fixtest.Sigma(1))))
	f := svSolve(t, lines, fix.Options{Near: &near, Prior: &prior})
	text := func(of any) string { return string(angle.Must(json.Marshal(of))) }
	line, whole, working := text(lines[0]), text(f), f.Working().String()

	near, prior.Position, prior.Covariance.North = fixtest.At(-10, 100), fixtest.At(-10, 100), 1
	for i := range lines {
		for j := range lines[i].Marks() {
			lines[i].Marks()[j] = fix.Mark{Name: "changed"}
		}
		for j := range lines[i].Working() {
			lines[i].Working()[j].Value = "changed"
		}
		lines[i].WithName("changed").WithTime(time.Now())
	}
	if got := text(lines[0]); got != line {
		t.Errorf("the line is now %s, want %s", got, line)
	}
	clear(lines)
	clear(f.Lines())
	clear(f.Residuals())
	clear(f.Alternatives())
	if got := text(f); got != whole {
		t.Errorf("the fix is now %s, want %s", got, whole)
	}
	if got := f.Working().String(); got != working {
		t.Errorf("its working is now %s, want %s", got, working)
	}
}
