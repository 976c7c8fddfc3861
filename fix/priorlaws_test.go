package fix_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/fix"
	"lubberline.example/fix/internal/fixtest"
)

func TestBearingImprovesPriorAcross(t *testing.T) {
	for _, p := range []angle.Position{svVessel, fixtest.At(0, 179.999), fixtest.At(-60, -180), fixtest.At(75, 10)} {
		reckoned := fixtest.From(p, 120, 800)
		mark := fix.Mark{Name: "mark", Position: fixtest.From(p, 50, 15_000)}
		prior := stream.Estimate{Position: reckoned, Covariance: sailing.Circular(1000)}
		f := svSolve(t, []fix.Line{svBearing(p, mark, 0, 0.5)}, fix.Options{Prior: &prior})
		azimuth := fixtest.Azimuth(f.Position(), mark.Position)
		if got := float64(svAlong(svKnown(f), azimuth)); math.Abs(got-1000) > 1 { // the line bends a little
			t.Errorf("%v: along %v, want 1000", p, got)
		}
		across := fixtest.Apart(p, mark.Position) * 0.5 * math.Pi / 180
		want := math.Sqrt(1 / (1/across/across + 1e-6))
		if got := float64(svAlong(svKnown(f), azimuth+90)); math.Abs(got-want) > 5 { // the distance at the fix is another
			t.Errorf("%v: across %v, want %v", p, got, want)
		}
		// It moves at right angles to the line.
		off := math.Remainder(fixtest.Azimuth(reckoned, f.Position())-azimuth, 180)
		if math.Abs(math.Abs(off)-90) > 1 { // the bearing turns a little on the way
			t.Errorf("%v: moves at %v° to the line", p, off)
		}
		if before, after := fixtest.Apart(reckoned, p), fixtest.Apart(f.Position(), p); after > before {
			t.Errorf("%v: %v m off before and %v after", p, before, after)
		}
		if f.DegreesOfFreedom() != 1 || f.Probability() > 0.9 || f.Probability() < 0.1 { // 750 m across, of 1000
			t.Errorf("%v: %d degrees of freedom, probability %v", p, f.DegreesOfFreedom(), f.Probability())
		}
	}
}

func TestLineWithPriorIsKalmanUpdate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := svDraw(t, 80)
		m := svDrawMarks(t, p, 1)[0]
		prior := stream.Estimate{Position: fixtest.From(p, rapid.Float64Range(0, 359).Draw(t, "course"), 100), Covariance: sailing.Oriented(fixtest.True(rapid.Float64Range(0, 359).Draw(t, "axis")), 120, 60)}
		o := svObserved{m, rapid.Bool().Draw(t, "distance off"), 0, 50}
		o.value = fixtest.Apart(p, m.Position)
		if !o.off {
			o.value, o.sigma = fixtest.Azimuth(p, m.Position), 0.5
		}
		f := svSolve(t, []fix.Line{o.line()}, fix.Options{Prior: &prior})
		at := func(n, e float64) float64 { // expected, in standard uncertainties, less the observed
			q := angle.Must(sailing.WGS84().Follow(prior.Position, sailing.Run{Course: fixtest.True(math.Atan2(e, n) * 180 / math.Pi), Distance: sailing.Distance(math.Hypot(n, e))}))
			return -svRatios([]svObserved{o}, q, 0, 0)[0]
		}
		hn, he := (at(1, 0)-at(-1, 0))/2, (at(0, 1)-at(0, -1))/2
		c := prior.Covariance
		pn, pe := c.North*hn+c.Both*he, c.Both*hn+c.East*he
		s := hn*pn + he*pe + 1
		innovation := -at(0, 0)
		n, e := pn/s*innovation, pe/s*innovation
		want := angle.Must(sailing.WGS84().Follow(prior.Position, sailing.Run{Course: fixtest.True(math.Atan2(e, n) * 180 / math.Pi), Distance: sailing.Distance(math.Hypot(n, e))}))
		if d := fixtest.Apart(f.Position(), want); d > 10 { // the line bends and turns: 100 m of 3000, squared
			t.Fatalf("%v m from the linear update", d)
		}
		for _, v := range [][2]float64{{svKnown(f).North, c.North - pn*pn/s}, {svKnown(f).East, c.East - pe*pe/s}, {svKnown(f).Both, c.Both - pn*pe/s}} {
			if math.Abs(v[0]-v[1]) > 0.1*(c.North+c.East) { // likewise, of the slope
				t.Fatalf("covariance %v, want %v", v[0], v[1])
			}
		}
	})
}

func TestPriorAlone(t *testing.T) {
	prior := stream.Estimate{Position: svVessel, Covariance: sailing.Oriented(fixtest.True(30), 500, 200)}
	f := svSolve(t, nil, fix.Options{Prior: &prior})
	if d := fixtest.Apart(f.Position(), svVessel); d > 1e-6 { // there and back through a vector
		t.Errorf("%v m off", d)
	}
	for _, v := range [][2]float64{{svKnown(f).North, prior.Covariance.North}, {svKnown(f).East, prior.Covariance.East}, {svKnown(f).Both, prior.Covariance.Both}} {
		if math.Abs(v[0]-v[1]) > 1e-6*math.Abs(v[1]) { // inverted twice
			t.Errorf("covariance %v, want %v", v[0], v[1])
		}
	}
	if f.DegreesOfFreedom() != 0 || f.Probability() != 1 {
		t.Errorf("%d degrees of freedom", f.DegreesOfFreedom())
	}
	if a, b, cut := f.BestCut(); a != b || cut != 0 {
		t.Error("no lines cross")
	}
}

func TestFarPriorIsRefusedOrRight(t *testing.T) {
	marks := svRing(svVessel, 8000, 0, 90, 225)
	lines := []fix.Line{svBearing(svVessel, marks[0], 0, 1), svBearing(svVessel, marks[1], 0, 1), svRange(svVessel, marks[2], 0, 50)}
	latitude, longitude := svVessel.Degrees()
	for name, far := range map[string]angle.Position{
		"antipodal":        fixtest.At(-latitude, longitude+180),
		"near antipodal":   fixtest.At(-latitude+1, longitude+179),
		"a quarter away":   fixtest.At(0, longitude+90),
		"the pole":         fixtest.At(90, 0),
		"a thousand miles": fixtest.From(svVessel, 200, 1_852_000),
		"sixty miles":      fixtest.From(svVessel, 290, 111_120),
	} {
		for n := range 4 {
			prior := stream.Estimate{Position: far, Covariance: sailing.Circular(1000)}
			f, err := fix.Solve(lines[:n], fix.Options{Prior: &prior})
			if err != nil {
				fixtest.Refused[*fix.Error](t, name, err)
				continue
			}
			if math.IsNaN(f.ChiSquare()) || math.IsNaN(svKnown(f).North+svKnown(f).East) {
				t.Errorf("%s: χ² %v, covariance %v", name, f.ChiSquare(), svKnown(f))
			}
			// A fix far from the prior must not seem to agree with it.
			if apart := fixtest.Apart(f.Position(), far); f.ChiSquare() < 0.9*(apart/1000)*(apart/1000) && apart < 1.9e7 || f.ChiSquare() < 300e6 && apart > 1.9e7 {
				t.Errorf("%s, %d lines: χ² %v, %v m from the prior", name, n, f.ChiSquare(), apart)
			}
			if n >= 2 && f.Probability() > 0.01 {
				t.Errorf("%s, %d lines: probability %v, %v m from the vessel, %v m from the prior", name, n, f.Probability(), fixtest.Apart(f.Position(), svVessel), fixtest.Apart(f.Position(), far))
			}
		}
	}
}

func TestPoorNearKeepsFix(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := svDraw(t, 80)
		lines := svLines(svDrawObserved(t, p, 5))
		near := fixtest.From(p, rapid.Float64Range(0, 359).Draw(t, "course"), 2000)
		a, b := svSolve(t, lines, fix.Options{Near: &p}), svSolve(t, lines, fix.Options{Near: &near})
		if d := fixtest.Apart(a.Position(), b.Position()); d > 0.001 { // both settle to 10 µm
			t.Fatalf("%v m apart", d)
		}
	})
}

// A compass that reads too small has an error to the east: true is more than compass.
func TestCompassErrorSign(t *testing.T) {
	marks := svRing(svVessel, 8000, 10, 100, 190, 280)
	for _, e := range []float64{3, -3, 0.5, 20} {
		var lines []fix.Line
		for _, m := range marks {
			lines = append(lines, svCompass(svVessel, m, e, 0, 0.5))
		}
		for n := 3; n <= 4; n++ {
			f := svSolve(t, lines[:n], fix.Options{CompassError: true, Near: &svVessel})
			if got := f.CompassError().Degrees(); math.Abs(got-e) > 1e-5 { // normal section for geodesic, and units of Angle
				t.Errorf("%d lines: error %v, want %v", n, got, e)
			}
			if d := fixtest.Apart(f.Position(), svVessel); d > 0.01 { // likewise
				t.Errorf("%d lines: %v m off", n, d)
			}
			if f.ChiSquare() > 1e-6 || f.DegreesOfFreedom() != n-3 { // likewise
				t.Errorf("%d lines: χ² %v, %d degrees of freedom", n, f.ChiSquare(), f.DegreesOfFreedom())
			}
			if u, stated := f.CompassError().Uncertainty().Sigma(); !stated || u.Degrees() < 0.2 || u.Degrees() > 1 { // 0.5° over the root of four, or more
				t.Errorf("%d lines: known to %v", n, u)
			}
		}
	}
}

func TestCompassErrorWithOtherLines(t *testing.T) {
	marks := svRing(svVessel, 8000, 10, 60, 190)
	lines := []fix.Line{svRange(svVessel, marks[0], 0, 50), svRange(svVessel, marks[1], 0, 50), svCompass(svVessel, marks[2], 3, 0, 0.5)}
	f := svSolve(t, lines, fix.Options{CompassError: true, Near: &svVessel})
	if math.Abs(f.CompassError().Degrees()-3) > 1e-5 { // normal section for geodesic
		t.Errorf("error %v", f.CompassError())
	}
	// True bearings do not have the compass error.
	lines[1] = svBearing(svVessel, marks[1], 0, 0.5)
	f = svSolve(t, lines, fix.Options{CompassError: true, Near: &svVessel})
	if math.Abs(f.CompassError().Degrees()-3) > 1e-5 { // likewise
		t.Errorf("error %v", f.CompassError().Degrees())
	}
	prior := stream.Estimate{Position: svVessel, Covariance: sailing.Circular(10)}
	f = svSolve(t, lines[2:], fix.Options{CompassError: true, Prior: &prior})
	if math.Abs(f.CompassError().Degrees()-3) > 1e-5 { // likewise
		t.Errorf("by the prior: error %v", f.CompassError())
	}
	if f := svSolve(t, lines, fix.Options{Near: &svVessel}); f.CompassError() != (angle.EastWest{}) {
		t.Errorf("not asked for: %v", f.CompassError())
	}
	// With two marks in one direction, an error cannot be separated from a move.
	row := []fix.Mark{{Name: "a", Position: fixtest.From(svVessel, 0, 8000)}, {Name: "b", Position: fixtest.From(svVessel, 0, 9000)}, {Name: "c", Position: fixtest.From(svVessel, 0, 10_000)}}
	_, err := fix.Solve([]fix.Line{svCompass(svVessel, row[0], 0, 0, 1), svCompass(svVessel, row[0], 0, 0, 1), svCompass(svVessel, row[0], 0, 0, 1)}, fix.Options{CompassError: true, Near: &svVessel})
	fixtest.Refused[*fix.Error](t, "one mark thrice", err)
}

func TestCompassErrorWithoutUncertainty(t *testing.T) {
	marks := svRing(svVessel, 8000, 10, 100, 190)
	h := svHeading()
	var lines []fix.Line
	for _, m := range marks {
		c := h.BearingFromTrue(fixtest.True(fixtest.Azimuth(svVessel, m.Position))).Compass().Add(-2 * angle.Degree)
		lines = append(lines, fix.CompassBearing(m, h.BearingFromCompass(c), angle.Uncertainty{}))
	}
	f := svSolve(t, lines, fix.Options{CompassError: true, Near: &svVessel})
	if _, stated := f.CompassError().Uncertainty().Sigma(); stated || math.Abs(f.CompassError().Degrees()-2) > 1e-5 { // normal section for geodesic
		t.Errorf("%v, stated %v", f.CompassError(), stated)
	}
}
