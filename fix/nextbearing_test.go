package fix_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/fix"
	"lubberline.example/fix/internal/fixtest"
)

func TestBestNextBearingCrossesLongAxis(t *testing.T) {
	m := svRing(svVessel, 9000, 0, 20) // a poor cut: weak to the north and south
	f := svSolve(t, []fix.Line{svBearing(svVessel, m[0], 0, 1), svBearing(svVessel, m[1], 0, 1)}, fix.Options{Near: &svVessel})
	before := angle.Must(f.Ellipse(0.95))
	marks := svRing(svVessel, 9000, 10, 100, 55)
	advice, err := f.NextBearings(marks, fixtest.Sigma(1))
	if err != nil {
		t.Fatal(err)
	}
	if len(advice) != 3 || advice[0].Mark != marks[1] || advice[2].Mark != marks[0] {
		t.Fatalf("%v", advice)
	}
	for _, a := range advice {
		if a.Ellipse.SemiMajor > before.SemiMajor {
			t.Errorf("%v: a bearing makes the ellipse longer: %v", a.Mark, a.Ellipse)
		}
		if off := math.Remainder(a.Bearing.Degrees()-fixtest.Azimuth(f.Position(), a.Mark.Position), 360); math.Abs(off) > 1e-6 { // normal section for geodesic
			t.Errorf("%v bears %v", a.Mark, a.Bearing)
		}
	}
	if none, err := f.NextBearings(nil, fixtest.Sigma(1)); err != nil || none != nil {
		t.Errorf("of no marks: %v, %v", none, err)
	}
	_, err = f.NextBearings(marks, fixtest.Sigma(0))
	fixtest.Refused[*fix.Error](t, "known exactly", err)
}

func TestNextBearingAgreesWithSolve(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := svDraw(t, 80)
		m := svDrawMarks(t, p, 4)
		lines := []fix.Line{svBearing(p, m[0], 0, 1), svBearing(p, m[1], 0, 1), svRange(p, m[2], 0, 50)}
		before := svSolve(t, lines, fix.Options{Near: &p})
		advice, err := before.NextBearings(m[3:], fixtest.Sigma(0.7))
		if err != nil || len(advice) != 1 {
			t.Fatalf("%v, %v", advice, err)
		}
		after := svSolve(t, append(lines, svBearing(p, m[3], 0, 0.7)), fix.Options{Near: &p})
		e := angle.Must(after.Ellipse(0.95))
		if a := advice[0].Ellipse; math.Abs(float64(a.SemiMajor/e.SemiMajor)-1) > 1e-4 || math.Abs(float64(a.SemiMinor/e.SemiMinor)-1) > 1e-4 { // what of the geodesic is not the normal section
			t.Fatalf("%v, want %v", a, e)
		}
	})
}
