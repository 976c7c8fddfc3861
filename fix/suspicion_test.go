package fix_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/fix"
	"lubberline.example/fix/internal/fixtest"
)

// svBlunder returns five bearings, of which the third is wrong by some degrees.
func svBlunder(degrees float64) []fix.Line {
	var lines []fix.Line
	for i, m := range svRing(svVessel, 8000, 0, 50, 100, 150, 205) {
		off := 0.3 * math.Pow(-1, float64(i))
		if i == 2 {
			off += degrees
		}
		lines = append(lines, svBearing(svVessel, m, off, 1))
	}
	return lines
}

func TestMisreadBearingIsSuspected(t *testing.T) {
	lines := svBlunder(10)
	f := svSolve(t, lines, fix.Options{Near: &svVessel})
	if f.Probability() > 1e-6 {
		t.Errorf("probability %v", f.Probability())
	}
	s := f.Suspicions()
	if len(s) == 0 || s[0].Line != 2 {
		t.Fatalf("%v", s)
	}
	without := svSolve(t, append(lines[:2:2], lines[3:]...), fix.Options{Near: &svVessel})
	if d := fixtest.Apart(s[0].Position, without.Position()); d > 0.001 { // it settles to 10 µm
		t.Errorf("%v m from the fix without it", d)
	}
	if math.Abs(s[0].Probability-without.Probability()) > 1e-6 { // likewise
		t.Errorf("probability %v, want %v", s[0].Probability, without.Probability())
	}
	// For straight lines, the sum of squares falls by the square of the ratio.
	if fall := f.ChiSquare() - without.ChiSquare(); math.Abs(s[0].Ratio*s[0].Ratio-fall) > 0.1*fall { // ten degrees bend
		t.Errorf("ratio %v, squares fall by %v", s[0].Ratio, fall)
	}
	if s[0].Ratio < 0 {
		t.Errorf("ratio %v: the bearing is too large", s[0].Ratio)
	}
}

// A bearing that is wrong by a common slip has that slip.
func TestSlipIsNamed(t *testing.T) {
	for _, c := range []struct {
		degrees float64
		want    fix.ReadingSlip
		text    string
	}{
		{10, fix.TensMisread, " (the bearing may be misread by 10°)"},
		{-20, fix.TensMisread, " (the bearing may be misread by 20°)"},
		{15, "", ""}, {-34.5, "", ""}, {70, "", ""},
	} {
		f := svSolve(t, svBlunder(c.degrees), fix.Options{Near: &svVessel})
		s := f.Suspicions()
		if len(s) == 0 || s[0].Line != 2 || s[0].Slip != c.want || math.Abs(s[0].Value*180/math.Pi-c.degrees) > 1.5 {
			t.Errorf("%v°: %+v, want %v", c.degrees, s, c.want)
			continue
		}
		if w := f.Warnings(); len(w) < 2 || w[1].Kind != fix.LineSuspected || !strings.HasSuffix(w[1].Message, "at "+s[0].Position.String()+c.text) {
			t.Errorf("%v°: %v", c.degrees, w)
		}
	}
	// A reciprocal gives no position, even with an estimated position.
	prior := stream.Estimate{Position: svVessel, Covariance: sailing.Circular(500)}
	for degrees, options := range map[float64]fix.Options{180: {Near: &svVessel}, -179: {Prior: &prior}, 178: {}} {
		const text = " (the bearing may be the reciprocal, 180° off)"
		_, err := fix.Solve(svBlunder(degrees), options)
		if e, ok := errors.AsType[*fix.Error](err); !ok || len(e.Suspicions) != 1 || e.Suspicions[0].Line != 2 || e.Suspicions[0].Slip != fix.ReciprocalTaken ||
			fixtest.Apart(e.Suspicions[0].Position, svVessel) > 150 || !strings.HasSuffix(err.Error(), text) {
			t.Errorf("%v°: %v", degrees, err)
		}
	}
	// For parallel lines no line is to blame.
	ring := svRing(svVessel, 8000, 0)
	parallel := []fix.Line{svBearing(svVessel, ring[0], 0, 1), svBearing(svVessel, ring[0], 0, 1), svBearing(svVessel, ring[0], 0, 1), svBearing(svVessel, ring[0], 0, 1)}
	_, err := fix.Solve(parallel, fix.Options{Near: &svVessel})
	if e, ok := errors.AsType[*fix.Error](err); ok && e.Suspicions != nil {
		t.Errorf("parallel lines: %v", err)
	}
	// Only bearings have slips of tens of degrees.
	lines := append(svBlunder(0)[:4:4], svRange(svVessel, svRing(svVessel, 8000, 0, 205)[0], 3000, 50))
	if s := svSolve(t, lines, fix.Options{Near: &svVessel}).Suspicions(); len(s) == 0 || s[0].Slip != "" || math.Abs(s[0].Value-3000) > 300 {
		t.Errorf("a distance off: %+v", s)
	}
}

func TestNoSuspicionWithoutRedundancy(t *testing.T) {
	if s := svSolve(t, svBlunder(0), fix.Options{Near: &svVessel}).Suspicions(); s != nil {
		t.Errorf("of lines that agree: %v", s)
	}
	f := svSolve(t, svBlunder(40)[1:4], fix.Options{Near: &svVessel})
	if s := f.Suspicions(); s != nil || f.Probability() > 0.01 {
		t.Errorf("of three lines: %v, probability %v", s, f.Probability())
	}
}

func TestSuspicionOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := svDraw(t, 80)
		var lines []fix.Line
		for _, m := range svDrawMarks(t, p, 5) {
			lines = append(lines, svBearing(p, m, rapid.Float64Range(-4, 4).Draw(t, "error"), 1))
		}
		f, err := fix.Solve(lines, fix.Options{Near: &p})
		if err != nil {
			t.Skip("errors that leave no position")
		}
		s := f.Suspicions()
		for i := range s {
			if i > 0 && s[i].Probability > s[i-1].Probability || s[i].Probability < 0.01 || f.Probability() >= 0.01 {
				t.Fatalf("%v of %v", s, f.Probability())
			}
		}
	})
}

func TestNeededLineIsNotSuspected(t *testing.T) {
	m := svRing(svVessel, 8000, 0, 0, 90)
	// Bearings that disagree along one meridian, and one that crosses them.
	lines := []fix.Line{
		svBearing(svVessel, m[0], 5, 1), svBearing(svVessel, m[0], -5, 1), svBearing(svVessel, m[0], 0, 1), svBearing(svVessel, m[2], 0, 1),
	}
	f := svSolve(t, lines, fix.Options{Near: &svVessel})
	for _, s := range f.Suspicions() {
		if s.Line == 3 {
			t.Errorf("%v", s)
		}
	}
}
