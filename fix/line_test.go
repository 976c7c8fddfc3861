package fix_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/deviation"
	"lubberline.example/fix"
	"lubberline.example/fix/internal/fixtest"
	"lubberline.example/variation"
)

var (
	svHead   = fix.Mark{Name: "Orlesk Head light", Position: angle.MustParsePosition("47°08.4′N 019°00.0′W")}
	svLedge  = fix.Mark{Name: "Minnow Ledge beacon", Position: angle.MustParsePosition("47°03.6′N 019°11.6′W")}
	svTower  = fix.Mark{Name: "Braddle Point tower", Position: angle.MustParsePosition("46°47.5′N 019°01.0′W")}
	svChurch = fix.Mark{Name: "St Osk church", Position: angle.MustParsePosition("46°57.0′N 019°03.0′W")}
	svVessel = angle.MustParsePosition("46°58.0′N 019°17.8′W")
)

func TestInvalidLinesAreRefused(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	u := fixtest.Sigma(1)
	depth := func(angle.Position) float64 { return 1 }
	for name, make := range map[string]func() (fix.Line, error){
		"range of zero":            func() (fix.Line, error) { return fix.Range(svHead, 0, 1) },
		"range below zero":         func() (fix.Line, error) { return fix.Range(svHead, -5, 1) },
		"range that is no number":  func() (fix.Line, error) { return fix.Range(svHead, sailing.Distance(nan), 1) },
		"range without end":        func() (fix.Line, error) { return fix.Range(svHead, sailing.Distance(inf), 1) },
		"range round the earth":    func() (fix.Line, error) { return fix.Range(svHead, 5001*svMile, 1) },
		"range known below zero":   func() (fix.Line, error) { return fix.Range(svHead, 5, -1) },
		"range known to no number": func() (fix.Line, error) { return fix.Range(svHead, 5, sailing.Distance(nan)) },
		"range known without end":  func() (fix.Line, error) { return fix.Range(svHead, 5, sailing.Distance(inf)) },
		"transit of one mark":      func() (fix.Line, error) { return fix.Transit(svHead, svHead, u) },
		"angle of one mark":        func() (fix.Line, error) { return fix.HorizontalAngle(svHead, svHead, angle.Degree, u) },
		"angle of zero":            func() (fix.Line, error) { return fix.HorizontalAngle(svHead, svLedge, 0, u) },
		"angle below zero":         func() (fix.Line, error) { return fix.HorizontalAngle(svHead, svLedge, -1, u) },
		"angle of 180°":            func() (fix.Line, error) { return fix.HorizontalAngle(svHead, svLedge, 180*angle.Degree, u) },
		"latitude known below":     func() (fix.Line, error) { return fix.Latitude(svVessel.Latitude, -1) },
		"longitude known to NaN":   func() (fix.Line, error) { return fix.Longitude(svVessel.Longitude, sailing.Distance(nan)) },
		"other without a function": func() (fix.Line, error) { return fix.LineFromFunc("depth", "m", nil, 1, 1) },
		"other known below zero":   func() (fix.Line, error) { return fix.LineFromFunc("depth", "m", depth, 1, -1) },
		"other known to NaN":       func() (fix.Line, error) { return fix.LineFromFunc("depth", "m", depth, 1, nan) },
		"other known without end":  func() (fix.Line, error) { return fix.LineFromFunc("depth", "m", depth, 1, inf) },
		"other that is no number":  func() (fix.Line, error) { return fix.LineFromFunc("depth", "m", depth, nan, 1) },
		"other that has no end":    func() (fix.Line, error) { return fix.LineFromFunc("depth", "m", depth, -inf, 1) },
		"two names for a pole apart": func() (fix.Line, error) {
			return fix.Transit(fix.Mark{Position: fixtest.At(90, 0)}, fix.Mark{Position: fixtest.At(90, 50)}, u)
		},
	} {
		l, err := make()
		fixtest.Refused[*fix.Error](t, name, err)
		if l.Kind() != "" {
			t.Errorf("%s: a line all the same", name)
		}
	}
}

func TestLineAccessors(t *testing.T) {
	u := fixtest.Sigma(1)
	when := time.Date(2026, time.July, 2, 9, 0, 0, 0, time.UTC)
	unnamed := fix.Mark{Position: svVessel}
	if got := unnamed.String(); got != "46°58.0′N 019°17.8′W" {
		t.Errorf("a mark without a name is %q", got)
	}
	for _, c := range []struct {
		line    fix.Line
		kind    fix.Kind
		name    string
		marks   int
		working string
	}{
		{fix.Bearing(svHead, fixtest.True(49), u), fix.KindBearing, "Orlesk Head light", 1, "049°T"},
		{angle.Must(fix.Range(svHead, 5*svMile, 100)), fix.KindRange, "Orlesk Head light", 1, "5.00 M"},
		{angle.Must(fix.Transit(svHead, svLedge, u)), fix.KindTransit, "Orlesk Head light and Minnow Ledge beacon", 2, "in line"},
		{angle.Must(fix.HorizontalAngle(svHead, svLedge, 40*angle.Degree, u)), fix.KindHorizontalAngle, "Orlesk Head light to Minnow Ledge beacon", 2, "40°00′"},
		{angle.Must(fix.Latitude(svVessel.Latitude, 0)), fix.KindLatitude, "latitude 46°58.0′N", 0, "46°58.0′N"},
		{angle.Must(fix.Longitude(svVessel.Longitude, 0)), fix.KindLongitude, "longitude 019°17.8′W", 0, "019°17.8′W"},
		{angle.Must(fix.LineFromFunc("depth", "m", func(angle.Position) float64 { return 0 }, 20, 1)), fix.KindOther, "depth", 0, "20 m"},
	} {
		l := c.line.WithTime(when)
		if l.Kind() != c.kind || l.Name() != c.name || len(l.Marks()) != c.marks || !l.Time().Equal(when) {
			t.Errorf("%s: %v %q, %d marks at %v", c.name, l.Kind(), l.Name(), len(l.Marks()), l.Time())
		}
		steps := l.Working()
		if len(steps) != 1 || !strings.Contains(steps.String(), c.working) {
			t.Errorf("%s: worked %q, want %q in it", c.name, steps.String(), c.working)
		}
	}
}

func TestCompassBearingUncertainty(t *testing.T) {
	h := angle.Must(course.FromCompass(angle.MustParseCompass("226°C"), course.With{
		Variation: variation.West(5 * angle.Degree).WithUncertainty(fixtest.Sigma(0.3)),
		Deviation: deviation.East(angle.Degree).WithUncertainty(fixtest.Sigma(0.4)),
	}))
	b := h.BearingFromCompass(angle.MustParseCompass("050°C"))
	sigma, stated := b.Uncertainty().Sigma()
	if !stated || math.Abs(sigma.Degrees()-0.5) > 1e-9 { // 3-4-5
		t.Fatalf("the conversion's is %v", b.Uncertainty())
	}
	prior := stream.Estimate{Position: fixtest.From(svHead.Position, 226, 10_000), Covariance: sailing.Circular(30_000)}
	across := func(l fix.Line) float64 {
		f := svSolve(t, []fix.Line{l}, fix.Options{Prior: &prior})
		e := angle.Must(f.Ellipse(0.95))
		return float64(e.SemiMinor) / math.Sqrt(-2*math.Log(0.05)) / fixtest.Apart(f.Position(), svHead.Position) * 180 / math.Pi
	}
	got := across(fix.CompassBearing(svHead, b, fixtest.Sigma(1.2))) // 5-12-13
	if math.Abs(got-1.3) > 0.002 {                                   // the north turns as one moves across, a part of 0.0012
		t.Errorf("the line is known to %v°, want 1.3°", got)
	}
	if !strings.Contains(fix.CompassBearing(svHead, b, fixtest.Sigma(1)).Working().String(), "050°C") {
		t.Error("the working does not begin with the compass bearing")
	}
	known := func(f fix.Fix) bool { _, known := f.Covariance(); return known }
	for name, l := range map[string]fix.Line{
		"reading":    fix.CompassBearing(svHead, b, angle.Uncertainty{}),
		"conversion": fix.CompassBearing(svHead, angle.Must(course.FromCompass(angle.MustParseCompass("226°C"), course.With{Variation: variation.West(angle.Degree), Deviation: deviation.None()})).BearingFromCompass(angle.MustParseCompass("050°C")), fixtest.Sigma(1)),
	} {
		if f := svSolve(t, []fix.Line{l}, fix.Options{Prior: &prior}); known(f) {
			t.Errorf("%s not stated: known all the same", name)
		}
	}
}

func TestTransferredLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := svDraw(t, 80)
		marks := svDrawMarks(t, p, 2)
		run := sailing.Run{Course: fixtest.True(rapid.Float64Range(0, 359).Draw(t, "course")), Distance: sailing.Distance(rapid.Float64Range(10, 5000).Draw(t, "run"))}
		q := angle.Must(sailing.WGS84().Follow(p, run))
		var here, later []fix.Line
		for _, m := range marks {
			l := svBearing(p, m, 0, 1)
			here, later = append(here, l), append(later, l.Transferred(run, sailing.Exactly()))
		}
		before := svSolve(t, here, fix.Options{Near: &p})
		after := svSolve(t, later, fix.Options{Near: &q})
		if d := fixtest.Apart(before.Position(), p); d > 0.01 { // normal section for geodesic
			t.Fatalf("before: %v m off", d)
		}
		// A straight move on the plane differs from the rhumb line by half the convergency
		// and by the curvature of the earth.
		bend := float64(run.Distance) * float64(run.Distance) / 6.3e6 * (1 + math.Abs(p.Latitude.Angle().Tan()))
		if d := fixtest.Apart(after.Position(), q); d > 0.01+bend {
			t.Fatalf("after %v: %v m off, want %v", run, d, bend)
		}
	})
}

// A run transfers a line by the same vector and with the same covariance as the dead reckoning.
func TestTransferAgreesWithDeadReckoning(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		between := func(low, high float64, what string) float64 { return rapid.Float64Range(low, high).Draw(t, what) }
		knots := func(low, high float64, what string) sailing.Speed {
			return sailing.Speed(between(low, high, what)) * sailing.Knot
		}
		run := stream.ReckonedRun{
			Heading: fixtest.True(between(0, 359, "heading")), Speed: knots(0, 10, "speed"), Lasts: time.Duration(between(0, 90, "minutes") * float64(time.Minute)),
			Stream:             stream.Stream{Set: fixtest.True(between(0, 359, "set")), Rate: knots(0, 3, "rate")},
			Leeway:             stream.Leeway{Angle: angle.Angle(between(0, 15, "leeway")) * angle.Degree, WindSide: angle.Starboard},
			HeadingUncertainty: fixtest.Sigma(between(0, 3, "of the heading")),
			SpeedUncertainty:   angle.Must(sailing.StandardUncertainty(knots(0, 0.5, "of the speed"))),
			StreamUncertainty:  angle.Must(sailing.StandardUncertainty(knots(0.01, 0.5, "of the stream"))),
		}
		start := stream.Estimate{Position: svVessel, Covariance: sailing.Exactly()}
		after := angle.Must(start.Run(run))
		l := svBearing(svVessel, svHead, 0, 1)
		got := angle.Must(l.TransferredBy(run))
		want := l.Transferred(sailing.WGS84().Rhumb(start.Position, after.Position), after.Covariance)
		solved := func(l fix.Line) fix.Fix {
			return svSolve(t, []fix.Line{l, svBearing(after.Position, svTower, 0, 1)}, fix.Options{Near: &after.Position})
		}
		a, b := solved(got), solved(want)
		if d := fixtest.Apart(a.Position(), b.Position()); d > 0.01 { // the rounding of course and distance
			t.Fatalf("%v: %v m apart", run, d)
		}
		if ca, cb := svKnown(a), svKnown(b); math.Abs(ca.North-cb.North) > 1e-3*cb.North || math.Abs(ca.East-cb.East) > 1e-3*cb.East {
			t.Fatalf("%v: known to %v, want %v", run, ca, cb)
		}
	})
	l := svBearing(svVessel, svHead, 0, 1)
	unstated := angle.Must(l.TransferredBy(stream.ReckonedRun{Heading: fixtest.True(10), Speed: 5 * sailing.Knot, Lasts: time.Hour}))
	church := fix.Bearing(svChurch, fixtest.True(95), angle.Uncertainty{})
	if _, known := svSolve(t, []fix.Line{unstated, church}, fix.Options{Near: &svVessel}).Covariance(); known {
		t.Error("known by a run that is not")
	}
	for name, run := range map[string]stream.ReckonedRun{"back in time": {Lasts: -time.Hour}, "too fast": {Speed: 5000 * sailing.Knot, Lasts: time.Hour}} {
		_, err := l.TransferredBy(run)
		fixtest.Refused[*angle.RangeError](t, name, err)
	}
}

func TestTransfersAdd(t *testing.T) {
	l := svBearing(svVessel, svHead, 0, 1)
	c := sailing.Covariance{North: 100, East: 400, Both: 30}
	first, second := sailing.Run{Course: fixtest.True(0), Distance: 3000}, sailing.Run{Course: fixtest.True(90), Distance: 4000}
	both := sailing.Run{Course: fixtest.True(math.Atan2(4, 3) * 180 / math.Pi), Distance: 5000}
	near := fixtest.From(svVessel, 53, 5000)
	church := svBearing(near, svChurch, 0, 1)
	a := svSolve(t, []fix.Line{l.Transferred(first, c).Transferred(second, c), church}, fix.Options{Near: &near})
	b := svSolve(t, []fix.Line{l.Transferred(both, c.Plus(c)), church}, fix.Options{Near: &near})
	if d := fixtest.Apart(a.Position(), b.Position()); d > 1e-4 { // rounding of the course
		t.Errorf("%v m apart", d)
	}
	if math.Abs(svKnown(a).North-svKnown(b).North) > 1e-6*svKnown(b).North { // likewise
		t.Errorf("covariances %v and %v", svKnown(a), svKnown(b))
	}
	if n := len(l.Working()); n != 1 {
		t.Errorf("the first line has %d steps", n)
	}
	if steps := a.Lines()[0].Working(); len(steps) != 3 || steps[2].Key != "transferred" {
		t.Errorf("worked %v", steps)
	}
}

func TestRunUncertaintyCountsAcrossLine(t *testing.T) {
	vessel := fixtest.From(svHead.Position, 180, 10_000) // the mark bears north
	wide := stream.Estimate{Position: vessel, Covariance: sailing.Circular(1e6)}
	east := func(l fix.Line) float64 {
		return svKnown(svSolve(t, []fix.Line{l}, fix.Options{Prior: &wide})).East
	}
	l := svBearing(vessel, svHead, 0, 0.5)
	still := sailing.Run{}
	plain, along, across := east(l), east(l.Transferred(still, sailing.Covariance{North: 40_000})), east(l.Transferred(still, sailing.Covariance{East: 40_000}))
	if math.Abs(along-plain) > 1 { // square metres, of 7,600
		t.Errorf("along: %v, want %v", along, plain)
	}
	if math.Abs(across-plain-40_000) > 10 { // square metres; the wide prior has a part of 1e-7
		t.Errorf("across: %v, want %v", across, plain+40_000)
	}
}

// The number of a step has the sign of its unit's words: north and east are positive.
func TestNumbersOfLines(t *testing.T) {
	var u angle.Uncertainty
	south, west := angle.MustParsePosition("47°30′S 019°15′E"), angle.MustParsePosition("47°30′N 019°15′W")
	for _, c := range []struct {
		line fix.Line
		want float64
		unit string
	}{
		{angle.Must(fix.Latitude(south.Latitude, 0)), -47.5, "degrees, north positive"},
		{angle.Must(fix.Latitude(west.Latitude, 0)), 47.5, "degrees, north positive"},
		{angle.Must(fix.Longitude(south.Longitude, 0)), 19.25, "degrees, east positive"},
		{angle.Must(fix.Longitude(west.Longitude, 0)), -19.25, "degrees, east positive"},
		{fix.Bearing(svHead, fixtest.True(349), u), 349, working.DegreesFromNorth},
		{angle.Must(fix.Range(svHead, 5*svMile, 100)), 5, "nautical miles"},
		{angle.Must(fix.HorizontalAngle(svHead, svLedge, 40*angle.Degree, u)), 40, "degrees"},
		{angle.Must(fix.LineFromFunc("depth", "m", func(angle.Position) float64 { return 0 }, -20, 1)), -20, "m"},
	} {
		if s := c.line.Working()[0]; math.Abs(s.Number-c.want) > 1e-9 || s.Unit != c.unit {
			t.Errorf("%v: %v %s, want %v %s", c.line, s.Number, s.Unit, c.want, c.unit)
		}
	}
}
