package angle_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
)

func place(lat, lon float64) angle.Position { return angle.Must(angle.PositionDegrees(lat, lon)) }

func TestLatitudesEndAtThePoles(t *testing.T) {
	for _, a := range []angle.Angle{90*deg + 1, -90*deg - 1, math.MaxInt64, math.MinInt64, turn} {
		_, err := angle.LatitudeFrom(a)
		wantRange(t, err, "LatitudeFrom")
	}
	for _, d := range []float64{90.00000000001, -91, 1e300, math.NaN(), math.Inf(1), math.Inf(-1)} {
		_, err := angle.LatitudeDegrees(d)
		wantRange(t, err, "LatitudeDegrees")
		_, err = angle.PositionDegrees(d, 0)
		wantRange(t, err, "PositionDegrees, latitude")
	}
	for _, d := range []float64{90, -90, 47.5, math.Copysign(0, -1)} {
		l, err := angle.LatitudeDegrees(d)
		if err != nil || l.Degrees() != d || l.Angle() != angle.Must(angle.Degrees(d)) {
			t.Errorf("%v°: %v, %v", d, l, err)
		}
	}
	var equator angle.Latitude
	if equator != angle.Must(angle.LatitudeFrom(0)) {
		t.Error("the zero value is the equator")
	}
}

func TestLongitudesGoRoundTheEarth(t *testing.T) {
	for _, c := range []struct{ east, want angle.Angle }{
		{0, 0}, {180 * deg, 180 * deg},
		{-180 * deg, 180 * deg}, // one value for both
		{540 * deg, 180 * deg}, {-180*deg + 1, -180*deg + 1}, {180*deg + 1, -180*deg + 1}, {341 * deg, -19 * deg},
	} {
		if got := angle.LongitudeFrom(c.east).Angle(); got != c.want {
			t.Errorf("%v east: %v, want %v", c.east, got, c.want)
		}
	}
	for _, d := range []float64{180.0000001, -181, 359, math.NaN(), math.Inf(1), math.Inf(-1)} {
		_, err := angle.LongitudeDegrees(d)
		wantRange(t, err, "LongitudeDegrees")
		_, err = angle.PositionDegrees(0, d)
		wantRange(t, err, "PositionDegrees, longitude")
	}
	if got := angle.Must(angle.LongitudeDegrees(-180)).Degrees(); got != 180 {
		t.Errorf("180° W is %v", got)
	}
	var zero angle.Longitude
	if zero != angle.LongitudeFrom(turn) {
		t.Error("the zero value is the prime meridian")
	}
}

func TestAcrossTheDateLine(t *testing.T) {
	for _, c := range []struct{ from, east, to float64 }{
		{179, 2, -179}, {-179, -2, 179}, {180, 1, -179}, {0, 180, 180}, {0, -180, 180}, {-19, 360, -19},
	} {
		from, to := angle.LongitudeFrom(angle.Must(angle.Degrees(c.from))), angle.LongitudeFrom(angle.Must(angle.Degrees(c.to)))
		if got := from.Add(angle.Must(angle.Degrees(c.east))); got != to {
			t.Errorf("%v and %v° east: %v", from, c.east, got)
		}
	}
	east, west := angle.LongitudeFrom(179*deg), angle.LongitudeFrom(-179*deg)
	if west.Sub(east) != 2*deg || east.Sub(west) != -2*deg {
		t.Errorf("the shorter way over the date line: %v, %v", west.Sub(east), east.Sub(west))
	}
}

func TestTheLawsOfMeridians(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, m, a := anyLongitude().Draw(t, "l"), anyLongitude().Draw(t, "m"), anyAngle().Draw(t, "a")
		switch {
		case l.Add(a).Add(-a) != l:
			t.Fatal("east and back west is another meridian")
		case m.Add(l.Sub(m)) != l:
			t.Fatal("the difference of longitude leads elsewhere")
		case l.Sub(m) != -m.Sub(l) && l.Sub(m) != turn/2:
			t.Fatal("there and back differ")
		case l.Add(a).Sub(m.Add(a)) != l.Sub(m):
			t.Fatal("turning the earth changed the difference of longitude")
		case l.Equal(m) != (l == m):
			t.Fatal("Equal is the operator")
		case angle.Must(angle.LongitudeDegrees(l.Degrees())) != l:
			t.Fatal("the degrees are those of another meridian")
		}
		lat := anyLatitude().Draw(t, "lat")
		if angle.Must(angle.LatitudeDegrees(lat.Degrees())) != lat || !lat.Equal(lat) {
			t.Fatal("the degrees are those of another parallel")
		}
	})
}

func TestPoleIsOnePlace(t *testing.T) {
	for _, c := range []struct {
		p, q        angle.Position
		equal, same bool
	}{
		{place(90, 10), place(90, -75), false, true},
		{place(-90, 0), place(-90, 180), false, true},
		{place(90, 10), place(-90, 10), false, false},
		{place(47, -19), place(47, -19), true, true},
		{place(47, -19), place(47, -18), false, false},
		{place(10, 180), place(10, -180), true, true},
		{place(89.9999, 0), place(89.9999, 1), false, false},
	} {
		if (c.p == c.q) != c.equal || c.p.SamePlace(c.q) != c.same {
			t.Errorf("%v and %v: equal %v, same place %v", c.p, c.q, c.p == c.q, c.p.SamePlace(c.q))
		}
	}
	if lat, lon := place(47.25, -19.5).Degrees(); lat != 47.25 || lon != -19.5 {
		t.Errorf("%v, %v", lat, lon)
	}
	if (angle.Position{}) != place(0, 0) {
		t.Error("the zero value is where the equator meets the prime meridian")
	}
}

func TestArcTo(t *testing.T) {
	for _, c := range []struct {
		p, q angle.Position
		want angle.Angle
	}{
		{place(0, 0), place(0, 0), 0},
		{place(47, -19), place(47, -19), 0},
		{place(90, 10), place(90, -75), 0}, // one pole
		{place(0, 0), place(0, 90), 90 * deg},
		{place(0, 170), place(0, -170), 20 * deg}, // over the date line
		{place(90, 0), place(-90, 120), 180 * deg},
		{place(47, -19), place(-47, 161), 180 * deg}, // antipodes
		{place(80, 0), place(80, 180), 20 * deg},     // over the pole
		{place(47, -19), place(48, -19), deg},        // along the meridian
		{place(45, 0), place(-45, 180), 180 * deg},
		{place(0, 0), place(60, 90), 90 * deg}, // the pole of the meridian
		{place(60, 0), place(60, 180), 60 * deg},
	} {
		// One unit is 31 nm: the sines are good to 0.03 of it near, 0.1 far.
		if got := c.p.ArcTo(c.q); (got - c.want).Abs() > 1 {
			t.Errorf("%v to %v: %d, want %d", c.p, c.q, int64(got), int64(c.want))
		}
	}
	// As close as one unit, and as close as one unit to the antipodes.
	near := angle.Position{Latitude: place(47, 0).Latitude, Longitude: angle.LongitudeFrom(-19*deg + 2)}
	if got := place(47, -19).ArcTo(near); got != 1 { // 2 cos 47° = 1.36
		t.Errorf("two units of longitude: %d", int64(got))
	}
	far := angle.Position{Latitude: angle.Must(angle.LatitudeFrom(-47*deg - 100)), Longitude: angle.LongitudeFrom(161 * deg)}
	if got := place(47, -19).ArcTo(far); (180*deg - 100 - got).Abs() > 1 {
		t.Errorf("100 units off the antipodes: %d", int64(180*deg-got))
	}
}

// slowArc is the cosine formula of the textbooks, good where the arc is neither
// very short nor near half a turn.
func slowArc(p, q angle.Position) (arc float64, good bool) {
	lat1, lat2 := p.Latitude.Angle().Radians(), q.Latitude.Angle().Radians()
	d := q.Longitude.Angle().Radians() - p.Longitude.Angle().Radians()
	c := math.Sin(lat1)*math.Sin(lat2) + math.Cos(lat1)*math.Cos(lat2)*math.Cos(d)
	return math.Acos(c), math.Abs(c) < 0.9999
}

func TestTheLawsOfTheGreatCircle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, q, a := anyPosition().Draw(t, "p"), anyPosition().Draw(t, "q"), anyAngle().Draw(t, "a")
		arc := p.ArcTo(q)
		if arc < 0 || arc > turn/2 {
			t.Fatalf("an arc of %v", arc)
		}
		if back := q.ArcTo(p); (arc - back).Abs() > 1 { // products in another order: 1e-16 radians
			t.Fatalf("there %d, back %d", int64(arc), int64(back))
		}
		shifted := angle.Position{Latitude: p.Latitude, Longitude: p.Longitude.Add(a)}
		if got := shifted.ArcTo(angle.Position{Latitude: q.Latitude, Longitude: q.Longitude.Add(a)}); got != arc {
			t.Fatal("turning the earth changed the arc")
		}
		if got := p.ArcTo(p); got != 0 {
			t.Fatalf("to itself: %d", int64(got))
		}
		antipode := angle.Position{Latitude: angle.Must(angle.LatitudeFrom(-p.Latitude.Angle())), Longitude: p.Longitude.Add(turn / 2)}
		if got := p.ArcTo(antipode); (got - turn/2).Abs() > 1 {
			t.Fatalf("to the antipodes: %d short", int64(turn/2-got))
		}
		if got := arc + q.ArcTo(antipode); (got - turn/2).Abs() > 2 {
			t.Fatalf("the arcs to a place and to its antipodes make %v", got)
		}
		// At cosine 0.9999 the textbook's error of 2e-16 grows seventyfold.
		if want, good := slowArc(p, q); good && math.Abs(arc.Radians()-want) > 5e-14 {
			t.Fatalf("%v, by the cosine formula %v", arc.Radians(), want)
		}
	})
}

// On the ellipsoid a minute of arc is nowhere farther from a nautical mile than
// the documentation says.
func TestAMinuteOfArcIsAboutANauticalMile(t *testing.T) {
	const a, e2 = 6378137.0, 0.00669437999014 // WGS 84
	for lat := 0.0; lat <= 90; lat++ {
		s := math.Sin(lat * math.Pi / 180)
		w := 1 - e2*s*s
		for _, radius := range []float64{a / math.Sqrt(w), a * (1 - e2) / (w * math.Sqrt(w))} {
			if miles := radius * minute.Radians() / 1852; math.Abs(miles-1) > 0.006 {
				t.Errorf("in latitude %v° a minute is %v miles", lat, miles)
			}
		}
	}
}
