package fix_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"lubberline.example/fix"
	"lubberline.example/fix/internal/fixtest"
)

const svCentimetre = 0.01 // the normal section for the geodesic, and units of Angle

func TestTwoLinesMeetAtVessel(t *testing.T) {
	pairs := map[string]func(p angle.Position, m []fix.Mark) (a, b fix.Line){
		"two bearings": func(p angle.Position, m []fix.Mark) (a, b fix.Line) {
			return svBearing(p, m[0], 0, 1), svBearing(p, m[1], 0, 1)
		},
		"a bearing and a range": func(p angle.Position, m []fix.Mark) (a, b fix.Line) {
			return svBearing(p, m[0], 0, 1), svRange(p, m[1], 0, 50)
		},
		"of one mark": func(p angle.Position, m []fix.Mark) (a, b fix.Line) {
			return svBearing(p, m[0], 0, 1), svRange(p, m[0], 0, 50)
		},
		"two ranges": func(p angle.Position, m []fix.Mark) (a, b fix.Line) {
			return svRange(p, m[0], 0, 50), svRange(p, m[1], 0, 50)
		},
		"two angles": func(p angle.Position, m []fix.Mark) (a, b fix.Line) {
			return svAngle(p, m[0], m[1], 0.1), svAngle(p, m[1], m[2], 0.1)
		},
		"a transit and a bearing": func(p angle.Position, m []fix.Mark) (a, b fix.Line) {
			rear := fix.Mark{Name: "rear"}
			ahead := fixtest.Azimuth(p, m[0].Position)
			course := ahead
			for range 6 {
				rear.Position = fixtest.From(m[0].Position, course, 3000)
				course -= math.Remainder(fixtest.Azimuth(p, rear.Position)-ahead, 360) * (fixtest.Apart(p, m[0].Position) + 3000) / 3000
			}
			return angle.Must(fix.Transit(m[0], rear, fixtest.Sigma(0.05))), svBearing(p, m[2], 0, 1)
		},
	}
	for name, pair := range pairs {
		t.Run(name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				p := svDraw(t, 85)
				m := svDrawMarks(t, p, 3)
				if name == "two angles" && onOneCircle(p, m) {
					t.Skip("vessel and marks lie on one circle, on which both angles are the same everywhere")
				}
				a, b := pair(p, m)
				within := svCentimetre
				if name == "a transit and a bearing" {
					within = 0.1 // and the rear mark is near the front one
				}
				if name == "two angles" {
					within = 0.1 // the circles may cut at few degrees
				}
				for _, o := range []fix.Options{{Near: &p}} {
					f, err := fix.Solve([]fix.Line{a, b}, o)
					if err != nil {
						t.Fatal(err)
					}
					if d := fixtest.Apart(f.Position(), p); d > within {
						t.Fatalf("%v m off, others %v", d, f.Alternatives())
					}
					if f.ChiSquare() > 1e-6 || f.DegreesOfFreedom() != 0 || f.Probability() != 1 || f.Suspicions() != nil {
						t.Fatalf("χ² %v, %d degrees of freedom", f.ChiSquare(), f.DegreesOfFreedom())
					}
				}
			})
		})
	}
}

// onOneCircle reports whether the circles through the vessel and each two of three marks
// touch, to half a degree: the angles at the outer marks make two right angles.
func onOneCircle(p angle.Position, m []fix.Mark) bool {
	at := func(corner, from, to angle.Position) float64 {
		return math.Abs(math.Remainder(fixtest.Azimuth(corner, from)-fixtest.Azimuth(corner, to), 360))
	}
	sum := at(m[0].Position, p, m[1].Position) + at(m[2].Position, p, m[1].Position)
	return math.Abs(sum-180) < 0.5
}

func TestTwoRangesMeetTwice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := svDraw(t, 80)
		m := svDrawMarks(t, p, 2)
		lines := []fix.Line{svRange(p, m[0], 0, 50), svRange(p, m[1], 0, 50)}
		f := svSolve(t, lines, fix.Options{Near: &p})
		if len(f.Alternatives()) != 1 {
			t.Fatalf("%d others", len(f.Alternatives()))
		}
		other := f.Alternatives()[0]
		for _, mark := range m {
			if d := fixtest.Apart(other, mark.Position) - fixtest.Apart(p, mark.Position); math.Abs(d) > svCentimetre {
				t.Fatalf("the other is %v m off its circle", d)
			}
		}
		g := svSolve(t, lines, fix.Options{Near: &other})
		if fixtest.Apart(g.Position(), other) > svCentimetre || len(g.Alternatives()) != 1 || fixtest.Apart(g.Alternatives()[0], p) > svCentimetre {
			t.Fatalf("near the other: %v and %v", g.Position(), g.Alternatives())
		}
		h := svSolve(t, lines, fix.Options{})
		if len(h.Alternatives()) != 1 || fixtest.Apart(h.Position(), p) > svCentimetre && fixtest.Apart(h.Alternatives()[0], p) > svCentimetre {
			t.Fatalf("near nowhere: %v and %v", h.Position(), h.Alternatives())
		}
	})
}

func TestTwoBearingsMeetOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := svDraw(t, 80)
		m := svDrawMarks(t, p, 2)
		f := svSolve(t, []fix.Line{svBearing(p, m[0], 0, 1), svBearing(p, m[1], 0, 1)}, fix.Options{})
		if d := fixtest.Apart(f.Position(), p); d > svCentimetre || len(f.Alternatives()) != 0 {
			t.Fatalf("%v m off, others %v", d, f.Alternatives())
		}
	})
}

func TestLatitudeAndLongitudeMeet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := svDraw(t, 90)
		lines := []fix.Line{angle.Must(fix.Latitude(p.Latitude, 500)), angle.Must(fix.Longitude(p.Longitude, 500))}
		f := svSolve(t, lines, fix.Options{})
		if d := fixtest.Apart(f.Position(), p); d > 1e-4 { // settled to 10 µm
			t.Fatalf("%v, want %v: %v m", f.Position(), p, d)
		}
		e := angle.Must(f.Ellipse(0.95))
		if math.Abs(float64(e.SemiMajor-e.SemiMinor)) > 1e-6 { // alike both ways
			t.Fatalf("%v", e)
		}
	})
	for _, latitude := range []float64{90, -90, 89.9999999, 0} {
		p := fixtest.At(latitude, 120)
		lines := []fix.Line{angle.Must(fix.Latitude(p.Latitude, 500)), angle.Must(fix.Longitude(p.Longitude, 500))}
		f := svSolve(t, lines, fix.Options{})
		if d := fixtest.Apart(f.Position(), p); d > 1e-4 { // settled to 10 µm
			t.Errorf("%v, want %v: %v m", f.Position(), p, d)
		}
	}
}

func TestTwoLinesNearPoleAndDateLine(t *testing.T) {
	for _, p := range []angle.Position{fixtest.At(89.9, 30), fixtest.At(-89.9, -170), fixtest.At(10, 180), fixtest.At(-10, -179.9999), fixtest.At(0, 0)} {
		for name, lines := range map[string][]fix.Line{
			"bearings": {svBearing(p, svRing(p, 5000, 20, 100)[0], 0, 1), svBearing(p, svRing(p, 5000, 20, 100)[1], 0, 1)},
			"ranges":   {svRange(p, svRing(p, 5000, 20, 100)[0], 0, 50), svRange(p, svRing(p, 5000, 20, 100)[1], 0, 50)},
			"both":     {svBearing(p, svRing(p, 5000, 20, 100)[0], 0, 1), svRange(p, svRing(p, 5000, 20, 100)[1], 0, 50)},
		} {
			f := svSolve(t, lines, fix.Options{Near: &p})
			if d := fixtest.Apart(f.Position(), p); d > svCentimetre {
				t.Errorf("%s at %v: %v m off", name, p, d)
			}
		}
	}
}

func TestLinesThatDoNotMeetAreRefused(t *testing.T) {
	a, b := svRing(svVessel, 8000, 90)[0], fix.Mark{Name: "b", Position: fixtest.From(svVessel, 90, 30_000)}
	bearing := svBearing(svVessel, a, 0, 1)
	north, south := fixtest.From(svVessel, 0, 500), fixtest.From(svVessel, 180, 500)
	for name, lines := range map[string][]fix.Line{
		"one line twice":             {bearing, bearing},
		"circles apart":              {angle.Must(fix.Range(a, 5000, 50)), angle.Must(fix.Range(b, 5000, 50))},
		"circles apart, known badly": {angle.Must(fix.Range(a, 10_000, 100_000)), angle.Must(fix.Range(b, 10_000, 100_000))},
		"circle within circle":       {angle.Must(fix.Range(a, 5000, 50)), angle.Must(fix.Range(b, 60_000, 50))},
		"one circle twice":           {angle.Must(fix.Range(a, 5000, 50)), angle.Must(fix.Range(a, 5000, 50))},
		"two bearings of one mark":   {bearing, fix.Bearing(a, fixtest.True(fixtest.Azimuth(svVessel, a.Position)+20), fixtest.Sigma(1))},
		"two latitudes":              {angle.Must(fix.Latitude(svVessel.Latitude, 5)), angle.Must(fix.Latitude(svHead.Position.Latitude, 5))},
		"bearings that part":         {fix.Bearing(fix.Mark{Position: north}, fixtest.True(100), fixtest.Sigma(1)), fix.Bearing(fix.Mark{Position: south}, fixtest.True(80), fixtest.Sigma(1))},
	} {
		for _, o := range []fix.Options{{}, {Near: &svVessel}} {
			f, err := fix.Solve(lines, o)
			if err == nil {
				t.Logf("%s: %v, %v m off, χ² %v", name, f.Position(), fixtest.Apart(f.Position(), svVessel), f.ChiSquare())
			}
			fixtest.Refused[*fix.Error](t, name, err)
		}
	}
}

// From the far side of an object the bearing is the reciprocal: that is no meeting.
func TestReciprocalsDoNotMeet(t *testing.T) {
	head := fix.Mark{Name: "head", Position: fixtest.At(47, -19)}
	// The whole circle is south of the mark, but the mark bears south.
	far := fix.Mark{Name: "far", Position: fixtest.From(head.Position, 180, 20_000)}
	lines := []fix.Line{fix.Bearing(head, fixtest.True(180), fixtest.Sigma(1)), angle.Must(fix.Range(far, 5000, 50))}
	near := fixtest.From(head.Position, 180, 15_000)
	_, err := fix.Solve(lines, fix.Options{Near: &near})
	fixtest.Refused[*fix.Error](t, "reciprocal", err)
	lines[0] = fix.Bearing(head, fixtest.True(0), fixtest.Sigma(1))
	f := svSolve(t, lines, fix.Options{Near: &near})
	if fixtest.Apart(f.Position(), near) > 1 || len(f.Alternatives()) != 1 { // the places were laid off by rhumb lines along a meridian
		t.Errorf("%v, others %v", f.Position(), f.Alternatives())
	}
}

func TestMarkAtVessel(t *testing.T) {
	m := svRing(svVessel, 8000, 10, 100, 200)
	own := fix.Mark{Name: "own", Position: svVessel}
	lines := []fix.Line{svBearing(svVessel, m[0], 0, 1), svBearing(svVessel, m[1], 0, 1)}
	for name, l := range map[string]fix.Line{
		"bearing": fix.Bearing(own, fixtest.True(50), fixtest.Sigma(1)),
		"range":   angle.Must(fix.Range(own, 1, 50)),
	} {
		for n := 1; n <= 2; n++ {
			f, err := fix.Solve(append(lines[:n:n], l), fix.Options{Near: &svVessel})
			if err != nil {
				fixtest.Refused[*fix.Error](t, name, err)
				continue
			}
			if d := fixtest.Apart(f.Position(), svVessel); !(d < 200) || math.IsNaN(f.ChiSquare()) { // a standard uncertainty at the other marks
				t.Errorf("%s with %d: %v m off, χ² %v", name, n, d, f.ChiSquare())
			}
		}
	}
	f := svSolve(t, lines, fix.Options{})
	// The computed position differs from the vessel's by nanometres, but is exactly that of the mark "own".
	advice, err := f.NextBearings([]fix.Mark{{Name: "own", Position: f.Position()}, m[2]}, fixtest.Sigma(1))
	if err != nil || len(advice) == 0 {
		t.Fatalf("%v, %v", advice, err)
	}
	for _, a := range advice {
		if math.IsNaN(float64(a.Ellipse.SemiMajor)) {
			t.Errorf("%v", a)
		}
	}
}

func TestCockedHatAgreesWithPlane(t *testing.T) {
	const far = 4000.0
	p := fixtest.At(0, 0) // where the plane is best
	m := svRing(p, far, 0, 120, 240)
	off := []float64{0.5, -0.4, 0.7}
	var lines []fix.Line
	// Each line as a point and a direction on the plane, in metres.
	type planeLine struct{ n, e, sin, cos float64 }
	var plane []planeLine
	for i, mark := range m {
		lines = append(lines, svBearing(p, mark, off[i], 1))
		d, a := fixtest.Apart(p, mark.Position), fixtest.Azimuth(p, mark.Position)*math.Pi/180
		sin, cos := math.Sincos(a + off[i]*math.Pi/180)
		plane = append(plane, planeLine{d * math.Cos(a), d * math.Sin(a), sin, cos})
	}
	corners, hatSide := svSolve(t, lines, fix.Options{Near: &p}).Hat()
	if len(corners) != 3 {
		t.Fatalf("%d corners", len(corners))
	}
	var at [][2]float64
	longest := 0.0
	for _, c := range corners {
		a, b := plane[c.A], plane[c.B]
		k := ((b.n-a.n)*b.sin - (b.e-a.e)*b.cos) / (a.cos*b.sin - a.sin*b.cos)
		n, e := a.n+k*a.cos, a.e+k*a.sin
		want := fixtest.At(n/110_574.3, e/111_319.5)        // degrees on the equator
		if d := fixtest.Apart(c.Position, want); d > 0.05 { // the plane, over four kilometres
			t.Errorf("corner of %d and %d: %v m off", c.A, c.B, d)
		}
		for _, o := range at {
			longest = max(longest, math.Hypot(n-o[0], e-o[1]))
		}
		at = append(at, [2]float64{n, e})
	}
	if math.Abs(hatSide.Metres()-longest) > 0.05 { // likewise
		t.Errorf("longest %v, want %v", hatSide, longest)
	}
}

func TestCockedHatLeavesOutFarCorners(t *testing.T) {
	m := svRing(svVessel, 9000, 0, 90)
	apart := fix.Mark{Name: "apart", Position: fixtest.From(m[0].Position, 90, 30)}
	// Two bearings that are almost parallel.
	lines := []fix.Line{svBearing(svVessel, m[0], 0, 1), svBearing(svVessel, m[1], 0, 1), svBearing(svVessel, apart, 0.17, 1)}
	f := svSolve(t, lines, fix.Options{Near: &svVessel})
	corners, _ := f.Hat()
	for _, c := range corners {
		if d := fixtest.Apart(c.Position, f.Position()); d > 60*1852 {
			t.Errorf("a corner %v m off", d)
		}
	}
	if corners, longest := (fix.Fix{}).Hat(); corners != nil || longest != 0 {
		t.Errorf("of nothing: %v, %v", corners, longest)
	}
	parallel := []fix.Line{lines[0], lines[0], lines[1]}
	if corners, longest := svSolve(t, parallel, fix.Options{Near: &svVessel}).Hat(); len(corners) != 2 || longest > 1e-3 { // they meet in one place
		t.Errorf("%v, %v", corners, longest)
	}
}

func TestBestCut(t *testing.T) {
	for _, c := range []struct {
		degrees []float64
		a, b    int
		cut     float64
	}{
		{[]float64{0, 90}, 0, 1, 90},
		{[]float64{10, 50}, 0, 1, 40},
		{[]float64{10, 170}, 0, 1, 20},
		{[]float64{350, 20, 110}, 1, 2, 90},
		{[]float64{0, 177, 275}, 0, 2, 85},
	} {
		var lines []fix.Line
		for _, m := range svRing(svVessel, 2000, c.degrees...) {
			lines = append(lines, svBearing(svVessel, m, 0, 1))
		}
		a, b, cut := svSolve(t, lines, fix.Options{Near: &svVessel}).BestCut()
		if a != c.a || b != c.b {
			t.Errorf("%v: lines %d and %d", c.degrees, a, b)
		}
		if d := math.Abs(cut.Degrees() - c.cut); d > 0.1 { // rhumb lines for bearings, and the turning north
			t.Errorf("%v: cut %v, want %v", c.degrees, cut, c.cut)
		}
	}
	lines := []fix.Line{svBearing(svVessel, svRing(svVessel, 8000, 45)[0], 0, 1), svRange(svVessel, svRing(svVessel, 8000, 45)[0], 0, 50)}
	if _, _, cut := svSolve(t, lines, fix.Options{Near: &svVessel}).BestCut(); math.Abs(cut.Degrees()-90) > 0.2 { // likewise
		t.Errorf("bearing and range of one mark cut at %v", cut)
	}
}

func TestMeetingsOfOtherLines(t *testing.T) {
	// A slope that falls away to the west, 20 m in each minute of longitude.
	depth := func(p angle.Position) float64 {
		return 20 - p.Longitude.Sub(svVessel.Longitude).Minutes()*20
	}
	lines := []fix.Line{angle.Must(fix.LineFromFunc("depth", "m", depth, 20, 1)), svBearing(svVessel, svLedge, 0, 1)}
	f := svSolve(t, lines, fix.Options{Near: &svVessel})
	if d := fixtest.Apart(f.Position(), svVessel); d > svCentimetre {
		t.Errorf("%v m off", d)
	}
	if got := sailing.Distance(math.Abs(float64(f.Residuals()[0].Offset))); got > 0.01 {
		t.Errorf("offset %v", got)
	}
	silent := angle.Must(fix.LineFromFunc("nothing", "m", func(angle.Position) float64 { return math.NaN() }, 20, 1))
	_, err := fix.Solve([]fix.Line{silent, lines[1]}, fix.Options{Near: &svVessel})
	fixtest.Refused[*fix.Error](t, "no number", err)
	_, err = fix.Solve([]fix.Line{silent, silent, silent}, fix.Options{})
	fixtest.Refused[*fix.Error](t, "no mark and nowhere near", err)
}
