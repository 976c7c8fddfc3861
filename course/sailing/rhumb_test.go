package sailing_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"pgregory.net/rapid"
)

func drawFigure(t *rapid.T) *sailing.Ellipsoid {
	flat := angle.Must(sailing.NewEllipsoid("flat", 6400000, 0.02))
	return rapid.SampledFrom([]*sailing.Ellipsoid{sailing.WGS84(), sailing.Clarke1866(), sailing.Sphere(), flat, nil}).Draw(t, "figure")
}

// slack is a tolerance in metres, wider where the series leave out the seventh
// power of n = 0.01: parts in 1e12 of the way.
func slack(e *sailing.Ellipsoid, metres float64) float64 {
	if e.Flattening() > 0.01 {
		return metres + 1e-4
	}
	return metres
}

func TestRhumbReversed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e, p, q := drawFigure(t), drawPosition(t, 89*deg), drawPosition(t, 89*deg)
		if p.Longitude.Sub(q.Longitude).Abs() == 180*deg || p == q {
			t.Skip("both ways are east, or there is no course")
		}
		there, back := e.Rhumb(p, q), e.Rhumb(q, p)
		if !near(there.Distance, back.Distance, 1e-7) { // of 2e7 m, some units of float64
			t.Fatalf("%v and %v", there.Distance.Metres(), back.Distance.Metres())
		}
		if off := there.Course.Sub(back.Course.Reciprocal()); off.Abs() > 1 { // a rounding each
			t.Fatalf("%v and %v", there.Course, back.Course)
		}
	})
}

func TestRhumbLinesMirrorAndTurn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e, p, q := drawFigure(t), drawPosition(t, 90*deg), drawPosition(t, 90*deg)
		if p.Longitude.Sub(q.Longitude).Abs() == 180*deg {
			t.Skip("both ways are east")
		}
		r := e.Rhumb(p, q)
		by := drawAngle(-180*deg, 180*deg).Draw(t, "turn")
		if got := e.Rhumb(turned(p, by), turned(q, by)); got != r { // angles are whole numbers: exactly
			t.Fatalf("turned %v: %v, want %v", by, got, r)
		}
		west := e.Rhumb(mirrorEast(p), mirrorEast(q))
		if west.Distance != r.Distance || west.Course != angle.TrueFrom(-r.Course.FromNorth()) { // the same sums with one sign
			t.Fatalf("west %v, want the mirror of %v", west, r)
		}
		south := e.Rhumb(mirrorNorth(p), mirrorNorth(q))
		if !near(south.Distance, r.Distance, 1e-7) { // some units of float64
			t.Fatalf("south %v, want %v", south.Distance.Metres(), r.Distance.Metres())
		}
		want := angle.TrueFrom(180*deg - r.Course.FromNorth())
		if r.Distance > 0 && p.Latitude != q.Latitude && south.Course.Sub(want).Abs() > 20 {
			if d := swerve(south.Course, want, r.Distance); d > 2e-4 { // metres from a pole, as above
				t.Fatalf("south %v, want %v, %g m", south.Course, want, d)
			}
		}
	})
}

// The sphere's formulas as textbooks have them, in plain floats.
func textbookRhumb(p, q angle.Position) (course, metres float64) {
	lat1, lat2 := p.Latitude.Angle().Radians(), q.Latitude.Angle().Radians()
	dlong := math.Remainder(q.Longitude.Angle().Radians()-p.Longitude.Angle().Radians(), 2*math.Pi)
	dpsi := math.Log(math.Tan(math.Pi/4+lat2/2) / math.Tan(math.Pi/4+lat1/2))
	ratio := (lat2 - lat1) / dpsi
	radius := 10800 * 1852 / math.Pi
	return math.Atan2(dlong, dpsi) * 180 / math.Pi, radius * math.Hypot(lat2-lat1, ratio*dlong)
}

func TestRhumbOnSphere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, q := drawPosition(t, 70*deg), drawPosition(t, 70*deg)
		if (p.Latitude.Angle()-q.Latitude.Angle()).Abs() < deg || p.Longitude.Sub(q.Longitude).Abs() > 179*deg {
			t.Skip("where the textbook divides little by little, or goes the other way")
		}
		course, metres := textbookRhumb(p, q)
		got := sailing.Sphere().Rhumb(p, q)
		if math.Abs(got.Distance.Metres()-metres) > 1e-5 { // the textbook's ratio loses two digits in a degree
			t.Fatalf("%v m, want %v", got.Distance.Metres(), metres)
		}
		if math.Abs(math.Remainder(got.Course.Degrees()-course, 360)) > 1e-10 { // likewise
			t.Fatalf("%v, want %v", got.Course.Degrees(), course)
		}
	})
}

func TestSphereIsUnflattenedEllipsoid(t *testing.T) {
	round, err := sailing.NewEllipsoid("round", sailing.Sphere().EquatorialRadius().Metres(), 0)
	if err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(t *rapid.T) {
		p, q := drawPosition(t, 90*deg), drawPosition(t, 90*deg)
		if a, b := round.Rhumb(p, q), sailing.Sphere().Rhumb(p, q); a != b {
			t.Fatalf("%v and %v", a, b)
		}
	})
}

func TestRhumbDistancesAdd(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e, p, q := drawFigure(t), drawPosition(t, 85*deg), drawPosition(t, 85*deg)
		if p.Longitude.Sub(q.Longitude).Abs() > 179*deg {
			t.Skip("the other way round may be as short")
		}
		whole := e.Rhumb(p, q)
		part := sailing.Distance(rapid.Float64Range(0, 1).Draw(t, "part"))
		m, err := e.Follow(p, sailing.Run{Course: whole.Course, Distance: whole.Distance * part})
		if err != nil {
			t.Fatal(err)
		}
		first, second := e.Rhumb(p, m), e.Rhumb(m, q)
		if !near(first.Distance+second.Distance, whole.Distance, slack(e, 1e-6)) { // positions are held to 31 nm
			t.Fatalf("%v + %v, want %v", first.Distance.Metres(), second.Distance.Metres(), whole.Distance.Metres())
		}
		for _, r := range []sailing.Run{first, second} {
			// The course is held to 5e-15 rad; the sideways error of m, turned into a course.
			if d := swerve(r.Course, whole.Course, r.Distance); d > slack(e, 1e-5) {
				t.Fatalf("%v and %v: %g m", r, whole, d)
			}
		}
	})
}

func TestRhumbNearlyEastAndWest(t *testing.T) {
	for _, e := range []*sailing.Ellipsoid{sailing.WGS84(), sailing.Sphere()} {
		for north := -80 * deg; north <= 80*deg; north += 5 * deg {
			level := e.Rhumb(place(north, 0), place(north, 40*deg))
			for _, d := range []angle.Angle{1, -1, 3, 1000, -1000} {
				r := e.Rhumb(place(north, 0), place(north+d, 40*deg))
				// The parallel shrinks by sin lat × d × 40°; at most 1000 units, 31 µm.
				if !near(r.Distance, level.Distance, 1e-7+float64(d.Abs())*31e-9) {
					t.Errorf("%v from %v: %v, want near %v", d, north, r.Distance.Metres(), level.Distance.Metres())
				}
				if north != 0 && (r.Course.FromNorth()-90*deg).Abs() > 9000 { // 1000 over 40° cos 80°
					t.Errorf("%v from %v: %v", d, north, r.Course)
				}
			}
		}
	}
}

func TestRhumbAcrossDateLineAndEquator(t *testing.T) {
	e := sailing.WGS84()
	degree := sailing.Distance(6378137 * math.Pi / 180)
	for _, c := range []struct {
		from, to angle.Position
		course   float64
		distance sailing.Distance
	}{
		{place(0, 179*deg), place(0, -179*deg), 90, 2 * degree},
		{place(0, -179*deg), place(0, 179*deg), 270, 2 * degree},
		{place(0, 0), place(0, 180*deg), 90, 180 * degree},   // both ways are as long: east
		{place(0, 180*deg), place(0, 0), 90, 180 * degree},   // and back
		{place(0, 10*deg), place(0, 10*deg), 0, 0},           // the same place
		{place(90*deg, 0), place(90*deg, 50*deg), 0, 0},      // the same place
		{place(-90*deg, 0), place(-90*deg, 180*deg), 0, 0},   // the same place
		{place(47*deg, 10*deg), place(47*deg, 10*deg), 0, 0}, // the same place
	} {
		got := e.Rhumb(c.from, c.to)
		if got.Course != course(c.course) || !near(got.Distance, c.distance, 1e-8) { // the degree is rounded here
			t.Errorf("%v to %v: %v %v m, want %v", c.from, c.to, got.Course, got.Distance.Metres(), c.distance.Metres())
		}
	}
	if r := e.Rhumb(place(10*deg, 0), place(20*deg, 180*deg)); r.Course.FromNorth() >= 90*deg {
		t.Errorf("half way round %v, want it eastward", r)
	}
}

func TestRhumbToPole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e, p := drawFigure(t), drawPosition(t, 90*deg-1)
		north, south := place(90*deg, 0), place(-90*deg, 33*deg)
		quarter := e.MeridianArc(lat(90 * deg))
		for _, c := range []struct {
			from, to angle.Position
			course   angle.Angle
			distance sailing.Distance
		}{
			{p, north, 0, quarter - e.MeridianArc(p.Latitude)},
			{north, p, 180 * deg, quarter - e.MeridianArc(p.Latitude)},
			{p, south, 180 * deg, quarter + e.MeridianArc(p.Latitude)},
			{south, p, 0, quarter + e.MeridianArc(p.Latitude)},
			{south, north, 0, 2 * quarter},
		} {
			got := e.Rhumb(c.from, c.to)
			if got.Course.FromNorth() != c.course || !near(got.Distance, c.distance, 1e-8) { // units of float64 at 1e7 m
				t.Fatalf("%v to %v: %v %v m, want %v m", c.from, c.to, got.Course, got.Distance.Metres(), c.distance.Metres())
			}
		}
		for _, c := range []struct {
			pole angle.Position
		}{{north}, {south}} {
			got, err := e.Follow(p, e.Rhumb(p, c.pole))
			if err != nil || apart(got, c.pole) > slack(e, 1e-7) { // three units of position
				t.Fatalf("from %v to the pole itself: %v, %v", p, got, err)
			}
		}
	})
}

func TestFollowInvertsRhumb(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e, p, q := drawFigure(t), drawPosition(t, 89*deg), drawPosition(t, 89*deg)
		got, err := e.Follow(p, e.Rhumb(p, q))
		if err != nil {
			t.Fatal(err)
		}
		// The course is held to 5e-15 rad, 1e-7 m in 20,000 km, more where the line winds.
		if off := apart(got, q); off > slack(e, 2e-6) {
			t.Fatalf("%v, want %v: %g m", got, q, off)
		}
	})
}

func TestFollowBackwards(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e, p, c := drawFigure(t), drawPosition(t, 60*deg), drawCourse(t)
		d := sailing.Distance(rapid.Float64Range(0, 3e6).Draw(t, "distance"))
		back, err1 := e.Follow(p, sailing.Run{Course: c, Distance: -d})
		want, err2 := e.Follow(p, sailing.Run{Course: c.Reciprocal(), Distance: d})
		if err1 != nil || err2 != nil || apart(back, want) > 1e-7 { // two roundings of positions
			t.Fatalf("%v, want %v; %v, %v", back, want, err1, err2)
		}
	})
}

func TestRunsOverPoleAreRefused(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e, p, c := drawFigure(t), drawPosition(t, 89*deg), drawCourse(t)
		if math.Abs(c.FromNorth().Cos()) < 0.01 {
			t.Skip("it winds long")
		}
		sign := sailing.Distance(rapid.SampledFrom([]float64{1, -1}).Draw(t, "sign"))
		_, err := e.Follow(p, sailing.Run{Course: c, Distance: sign * 3e9})
		var pole *sailing.Error
		if !errors.As(err, &pole) || pole.Kind != sailing.OverPole || !strings.Contains(pole.Error(), p.String()) || !strings.Contains(pole.Error(), c.String()) {
			t.Fatalf("%v", err)
		}
		if _, err := e.Follow(p, sailing.Run{Course: c, Distance: pole.ToPole + sign}); !errors.As(err, &pole) {
			t.Fatalf("a metre beyond %v: %v", pole.ToPole, err)
		}
		got, err := e.Follow(p, sailing.Run{Course: c, Distance: pole.ToPole - sign})
		if err != nil {
			t.Fatal(err)
		}
		left := float64(e.MeridianArc(lat(90*deg)) - e.MeridianArc(lat(got.Latitude.Angle().Abs())))
		if want := math.Abs(c.FromNorth().Cos()); math.Abs(left-want) > 1e-5 { // 100 times the units of 2e9 m
			t.Fatalf("a metre before the pole it is %g m away, want %g", left, want)
		}
	})
}

func TestFollowFromPole(t *testing.T) {
	e := sailing.WGS84()
	north, south := place(90*deg, 20*deg), place(-90*deg, 20*deg)
	for _, p := range []angle.Position{north, south} {
		for _, c := range []float64{45, 90, 135, 270} {
			_, err := e.Follow(p, run(c, 1000))
			var pole *sailing.Error
			if !errors.As(err, &pole) || pole.ToPole != 0 {
				t.Errorf("%v on %v: %v", p, c, err)
			}
			if got, err := e.Follow(p, run(c, 0)); err != nil || got != p {
				t.Errorf("%v on %v, no distance: %v, %v", p, c, got, err)
			}
		}
	}
	_, err := e.Follow(north, run(0, 1000))
	refusedAs(t, "north from the north pole", sailing.OverPole, err)
	got, err := e.Follow(north, run(180, e.MeridianArc(lat(90*deg))))
	if err != nil || apart(got, place(0, 20*deg)) > 1e-7 { // three units of position
		t.Errorf("a quarter of the meridian from the pole: %v, %v", got, err)
	}
}

func TestFollowInvalidDistance(t *testing.T) {
	for _, d := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		_, err := sailing.WGS84().Follow(place(0, 0), run(40, sailing.Distance(d)))
		refused[*angle.RangeError](t, "distance", err)
	}
	// East along the equator, farther than an angle can count: reduced, or refused.
	for _, d := range []sailing.Distance{1e15, 1e300, math.MaxFloat64} {
		if got, err := sailing.WGS84().Follow(place(10*deg, 0), run(90, d)); err == nil && got.Latitude != lat(10*deg) {
			t.Errorf("%v: %v", d, got)
		}
	}
}

func TestFollowNearPoleStaysFinite(t *testing.T) {
	e := sailing.WGS84()
	for _, c := range []float64{1, 45, 89, 89.999, 271} {
		from := place(89*deg, 0)
		_, err := e.Follow(from, run(c, 1e12))
		var pole *sailing.Error
		if !errors.As(err, &pole) {
			t.Fatal(err)
		}
		for _, short := range []sailing.Distance{1, 1e-2, 1e-4, 1e-5} {
			got, err := e.Follow(from, run(c, pole.ToPole-short))
			if err != nil {
				continue // the rounding of ToPole may be as much
			}
			la, lo := got.Degrees()
			if math.IsNaN(la) || math.IsNaN(lo) || la < 89 || la > 90 {
				t.Errorf("on %v, %v before the pole: %v", c, short, got)
			}
		}
	}
}

func TestRhumbAndFollowAllocateNothing(t *testing.T) {
	e := sailing.WGS84()
	p, q := place(47*deg, -19*deg), place(40*deg, -74*deg)
	if n := testing.AllocsPerRun(100, func() {
		keptRun = e.Rhumb(p, q)
		keptPosition, keptErr = e.Follow(p, keptRun)
	}); n != 0 {
		t.Errorf("%v allocations", n)
	}
}

func TestRunString(t *testing.T) {
	if got := run(235, 12.5*mile).String(); got != "235°T 12.5 M" {
		t.Error(got)
	}
}
