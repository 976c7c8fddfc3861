package sailing_test

import (
	"errors"
	"math"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"pgregory.net/rapid"
)

const sphereRadius = 10800 * 1852 / math.Pi

// haversine is the distance on the sphere in metres, and bearing the course that
// sets out, by formulas that use no vectors.
func haversine(p, q angle.Position) float64 {
	lat1, lat2 := p.Latitude.Angle().Radians(), q.Latitude.Angle().Radians()
	dlong := q.Longitude.Angle().Radians() - p.Longitude.Angle().Radians()
	hav := func(x float64) float64 { s := math.Sin(x / 2); return s * s }
	h := hav(lat2-lat1) + math.Cos(lat1)*math.Cos(lat2)*hav(dlong)
	return 2 * sphereRadius * math.Atan2(math.Sqrt(h), math.Sqrt(math.Max(0, 1-h)))
}

func bearing(p, q angle.Position) float64 {
	lat1, lat2 := p.Latitude.Angle().Radians(), q.Latitude.Angle().Radians()
	dlong := q.Longitude.Angle().Radians() - p.Longitude.Angle().Radians()
	return math.Atan2(math.Sin(dlong), math.Cos(lat1)*math.Tan(lat2)-math.Sin(lat1)*math.Cos(dlong)) * 180 / math.Pi
}

// drawCircle draws a great circle whose ends are neither near each other nor near
// antipodes.
func drawCircle(t *rapid.T, within angle.Angle) sailing.GreatCircle {
	p, q := drawPosition(t, within), drawPosition(t, within)
	if d := p.ArcTo(q); d < deg || d > 179*deg {
		t.Skip("badly conditioned")
	}
	g, err := sailing.Sphere().GreatCircle(p, q)
	if err != nil {
		t.Fatal(err)
	}
	return g
}

func TestGreatCircleSphericalTriangle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawCircle(t, 89*deg)
		if want := haversine(g.From, g.To); math.Abs(g.Distance.Metres()-want) > 1e-6 { // the haversine loses digits towards 179°
			t.Fatalf("%v m, want %v", g.Distance.Metres(), want)
		}
		// A degree from antipodes 1e-16 grows to 1e-14 rad, 1e-12°.
		if want := bearing(g.From, g.To); math.Abs(math.Remainder(g.Initial.Degrees()-want, 360)) > 1e-11 {
			t.Fatalf("initial %v, want %v", g.Initial.Degrees(), want)
		}
		if want := bearing(g.To, g.From) + 180; math.Abs(math.Remainder(g.Final.Degrees()-want, 360)) > 1e-11 { // likewise
			t.Fatalf("final %v, want %v", g.Final.Degrees(), want)
		}
	})
}

func TestGreatCircleEnds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawCircle(t, 90*deg)
		if off := max(apart(placeAt(g, 0), g.From), apart(placeAt(g, g.Distance), g.To)); off > 2e-6 { // 1e-14 rad and the roundings of positions
			t.Fatalf("%g m off", off)
		}
		if g.From.Latitude.Angle().Abs() < 89*deg && swerve(courseAt(g, 0), g.Initial, 1000*mile) > 1e-5 { // a course is good to 1e-12 rad near the poles
			t.Fatalf("%v, want %v", courseAt(g, 0), g.Initial)
		}
		back, err := sailing.Sphere().GreatCircle(g.To, g.From)
		if err != nil || !near(back.Distance, g.Distance, 1e-7) { // three units of position
			t.Fatalf("back %v m, there %v m, %v", back.Distance.Metres(), g.Distance.Metres(), err)
		}
		if back.Initial.Sub(g.Final.Reciprocal()).Abs() > 400 { // 2e-12 rad, a degree from antipodes
			t.Fatalf("back on %v, there it ended on %v", back.Initial, g.Final)
		}
		half := g.Distance / 2
		if !near(sailing.Distance(haversine(g.From, placeAt(g, half))), half, 1e-6) { // as the haversine above
			t.Fatal("half way is not half way")
		}
		if rhumb := sailing.Sphere().Rhumb(g.From, g.To); g.Distance > rhumb.Distance+1e-6 { // their roundings
			t.Fatalf("%v m is longer than the rhumb line, %v m", g.Distance.Metres(), rhumb.Distance.Metres())
		}
	})
}

func TestVerticesBySineRule(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawCircle(t, 80*deg)
		cosV := math.Abs(g.Initial.FromNorth().Sin()) * g.From.Latitude.Angle().Cos()
		if cosV > 0.9999 || cosV < 0.01 {
			t.Skip("near the equator, or a meridian")
		}
		north, south, ok := g.Vertices()
		want := math.Acos(cosV) * 180 / math.Pi
		if !ok || math.Abs(north.Position.Latitude.Degrees()-want) > 1e-9 { // acos loses digits towards 1
			t.Fatalf("%v, want %v", north.Position, want)
		}
		if (south.Position.Latitude.Angle() + north.Position.Latitude.Angle()).Abs() > 10 { // roundings
			t.Fatalf("%v and %v", north.Position, south.Position)
		}
		if !near(sailing.Distance(math.Abs(float64(north.Distance-south.Distance))), 10800*mile, 1e-6) { // units of float64 at 2e7 m
			t.Fatalf("%v and %v", north.Distance, south.Distance)
		}
		for _, v := range []sailing.Vertex{north, south} {
			c := courseAt(g, v.Distance).FromNorth()
			if min((c-90*deg).Abs(), (c-270*deg).Abs()) > minute/60000 { // a thousandth of a second, as it is flat there
				t.Fatalf("course %v at the vertex", c)
			}
		}
	})
}

func TestEquatorHasNoVertices(t *testing.T) {
	g, err := sailing.Sphere().GreatCircle(place(0, 0), place(0, 90*deg))
	if err != nil {
		t.Fatal(err)
	}
	if _, _, ok := g.Vertices(); ok {
		t.Error("the equator has vertices")
	}
}

func TestLatitudeAt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawCircle(t, 80*deg)
		if math.Abs(g.Initial.FromNorth().Sin()) < 0.01 {
			t.Skip("steep")
		}
		d := sailing.Distance(rapid.Float64Range(-1e7, 3e7).Draw(t, "distance"))
		p := placeAt(g, d)
		got, ok := g.LatitudeAt(p.Longitude)
		// A unit of longitude is up to 600 of latitude where cos vertex = 0.0017.
		if !ok || (got.Angle()-p.Latitude.Angle()).Abs() > 3000 {
			t.Fatalf("%v, want %v", got, p.Latitude)
		}
	})
}

func TestMeridianHasNoLatitudeAt(t *testing.T) {
	g, err := sailing.Sphere().GreatCircle(place(10*deg, 20*deg), place(50*deg, 20*deg))
	if err != nil {
		t.Fatal(err)
	}
	if _, ok := g.LatitudeAt(angle.LongitudeFrom(20 * deg)); ok {
		t.Error("a meridian crosses itself")
	}
	_, err = g.WaypointsByLongitude(deg)
	refused[*angle.RangeError](t, "meridian", err)
	north, _, ok := g.Vertices()
	if !ok || north.Position.Latitude != lat(90*deg) || !near(north.Distance, 4800*mile, 1e-7) { // units of float64
		t.Errorf("%+v", north)
	}
}

func TestWaypointsAreEvenlySpaced(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawCircle(t, 89*deg)
		distance := sailing.Distance(rapid.Float64Range(50, 12000).Draw(t, "miles")) * mile
		w, err := g.Waypoints(distance)
		if err != nil || w[0] != g.From || w[len(w)-1] != g.To {
			t.Fatal(err)
		}
		legs := len(w) - 1
		if legs != max(1, int(math.Ceil(float64(g.Distance/distance)))) {
			t.Fatalf("%d legs of %v", legs, g.Distance)
		}
		for i := range legs {
			if d := haversine(w[i], w[i+1]); math.Abs(d-g.Distance.Metres()/float64(legs)) > 1e-6 { // as the haversine above
				t.Fatalf("leg %d is %v m", i, d)
			}
		}
	})
	g, _ := sailing.Sphere().GreatCircle(place(0, 0), place(40*deg, 90*deg))
	for _, d := range []float64{0, -1, math.NaN(), 1e-3} {
		_, err := g.Waypoints(sailing.Distance(d))
		refused[*angle.RangeError](t, "apart", err)
	}
	if w, err := g.Waypoints(sailing.Distance(math.Inf(1))); err != nil || len(w) != 2 {
		t.Errorf("one leg: %v, %v", w, err)
	}
}

func TestWaypointsByLongitude(t *testing.T) {
	for _, c := range []struct {
		from, to angle.Position
		step     angle.Angle
		between  []angle.Angle
	}{
		{place(40*deg, -70*deg), place(50*deg, -48*deg), 10 * deg, []angle.Angle{-60, -50}},
		{place(50*deg, -48*deg), place(40*deg, -70*deg), 10 * deg, []angle.Angle{-50, -60}}, // not the end itself again
		{place(35*deg, 172*deg), place(40*deg, -172*deg), 5 * deg, []angle.Angle{175, 180, -175}},
		{place(40*deg, -172*deg), place(35*deg, 172*deg), 5 * deg, []angle.Angle{-175, 180, 175}},
		{place(10*deg, 1*deg), place(12*deg, 4*deg), 30 * deg, nil},
		{place(10*deg, -7*deg), place(-12*deg, 8*deg), 5 * deg, []angle.Angle{-5, 0, 5}},
	} {
		g, err := sailing.Sphere().GreatCircle(c.from, c.to)
		if err != nil {
			t.Fatal(err)
		}
		w, err := g.WaypointsByLongitude(c.step)
		if err != nil || len(w) != len(c.between)+2 || w[0] != c.from || w[len(w)-1] != c.to {
			t.Errorf("%v to %v: %v, %v", c.from, c.to, w, err)
			continue
		}
		for i, l := range c.between {
			want, _ := g.LatitudeAt(angle.LongitudeFrom(l * deg))
			if w[i+1].Longitude != angle.LongitudeFrom(l*deg) || w[i+1].Latitude != want {
				t.Errorf("%v to %v: %v, want %v°", c.from, c.to, w[i+1], int64(l))
			}
		}
		for _, step := range []angle.Angle{0, minute - 1, 90*deg + 1, -deg} {
			_, err := g.WaypointsByLongitude(step)
			refused[*angle.RangeError](t, "step", err)
		}
	}
}

func TestSamePlaceIsRefused(t *testing.T) {
	for _, c := range []struct{ from, to angle.Position }{
		{place(47*deg, -19*deg), place(47*deg, -19*deg)},
		{place(90*deg, 0), place(90*deg, 77*deg)},
	} {
		_, err := sailing.Sphere().GreatCircle(c.from, c.to)
		refusedAs(t, "great circle", sailing.SamePlace, err)
		_, err = sailing.NewComposite(c.from, c.to, lat(90*deg))
		refusedAs(t, "composite", sailing.SamePlace, err)
	}
}

// Every great circle through a place leads to its antipodes: one of them is the answer.
func TestGreatCircleToAntipodes(t *testing.T) {
	for _, from := range []angle.Position{place(47*deg, -19*deg), place(0, 0), place(90*deg, 0)} {
		to := place(-from.Latitude.Angle(), from.Longitude.Angle()+180*deg)
		g := geodesic(t, sailing.Sphere(), from, to)
		if !near(g.Distance, 10800*mile, 1e-7) || apart(placeAt(g, g.Distance), to) > 1e-6 {
			t.Errorf("%v", g)
		}
		c, err := sailing.NewComposite(from, to, lat(90*deg))
		if err != nil || !near(c.Distance, 10800*mile, 1e-7) {
			t.Errorf("%v, %v", c, err)
		}
	}
}

func TestGreatCircleFromPole(t *testing.T) {
	g, err := sailing.Sphere().GreatCircle(place(90*deg, 0), place(30*deg, 40*deg))
	if err != nil || !near(g.Distance, 3600*mile, 1e-7) || g.Final != course(180) { // units of float64
		t.Errorf("%+v, %v", g, err)
	}
	// Along its own meridian north is 000°, so that the meridian of 40° E is 140°.
	if g.Initial != course(140) {
		t.Errorf("%v", g.Initial)
	}
	if p := placeAt(g, g.Distance/2); apart(p, place(60*deg, 40*deg)) > 1e-7 { // three units of position
		t.Errorf("half way %v", p)
	}
}

func TestFollowGreatCircleOnSphere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawCircle(t, 90*deg)
		f, err := sailing.Sphere().FollowGreatCircle(g.From, sailing.Run{Course: g.Initial, Distance: g.Distance})
		if err != nil || apart(f.To, g.To) > 1e-6 { // the course is held to 5e-15 rad; 1e-7 m sideways, more by rounding
			t.Fatalf("%v, want %v; %v", f.To, g.To, err)
		}
		if g.To.Latitude.Angle().Abs() < 89*deg && f.Final.Sub(g.Final).Abs() > 4000 { // 2e-11 rad, a degree from a pole
			t.Fatalf("%v, want %v", f.Final, g.Final)
		}
	})
	for _, d := range []float64{0, -1, math.NaN(), math.Inf(1), 10800*1852 + 1} {
		_, err := sailing.Sphere().FollowGreatCircle(place(0, 0), run(50, sailing.Distance(d)))
		refused[*angle.RangeError](t, "distance", err)
	}
}

func TestCompositeKeepsWithinLimit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawCircle(t, 60*deg)
		limit := lat(drawAngle(-75*deg, 75*deg).Draw(t, "limit"))
		sign := 1.0
		if limit.Angle() < 0 {
			sign = -1
		}
		within := func(p angle.Position, by float64) bool { return sign*(p.Latitude.Degrees()-limit.Degrees()) <= by }
		c, err := sailing.NewComposite(g.From, g.To, limit)
		if !within(g.From, 0) || !within(g.To, 0) {
			var beyond *angle.RangeError
			if !errors.As(err, &beyond) {
				t.Fatalf("an end is beyond the limit: %v", err)
			}
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		for _, part := range []sailing.GreatCircle{c.First, c.Last} {
			for i := range 21 {
				if p := placeAt(part, part.Distance*sailing.Distance(i)/20); !within(p, 1e-10) { // 10 µm
					t.Fatalf("%v is beyond %v", p, limit)
				}
			}
		}
		if c.Distance < g.Distance-1e-6 { // units of float64 at 2e7 m, summed
			t.Fatalf("%v m is shorter than the great circle, %v m", c.Distance.Metres(), g.Distance.Metres())
		}
		if c.Parallel.Distance == 0 && c.First == c.Last {
			if c.Distance != g.Distance {
				t.Fatal("alone, but not the great circle")
			}
			return
		}
		if c.First.From != g.From || c.Last.To != g.To || c.First.To.Latitude != limit || c.Last.From.Latitude != limit {
			t.Fatalf("the parts do not join: %+v", c)
		}
		if !near(c.Distance, c.First.Distance+c.Parallel.Distance+c.Last.Distance, 1e-8) { // the same sum
			t.Fatal("the parts do not add up")
		}
		// Up to the parallel, along it and away is longer.
		up := func(p angle.Position) sailing.Distance {
			return sailing.Distance((limit.Angle() - p.Latitude.Angle()).Abs().Minutes()) * mile
		}
		along := sailing.Sphere().Rhumb(angle.Position{Latitude: limit, Longitude: g.From.Longitude}, angle.Position{Latitude: limit, Longitude: g.To.Longitude})
		if c.Distance > up(g.From)+along.Distance+up(g.To)+1e-6 { // units of float64, summed
			t.Fatalf("%v m is longer than by the parallel", c.Distance.Metres())
		}
		if p := c.Parallel.Course; c.Parallel.Distance > 1 && p != along.Course {
			t.Fatalf("along the limit on %v, want %v", p, along.Course)
		}
		back, err := sailing.NewComposite(g.To, g.From, limit)
		if err != nil || !near(back.Distance, c.Distance, 1e-6) { // units of float64, summed
			t.Fatalf("back %v m, there %v m, %v", back.Distance.Metres(), c.Distance.Metres(), err)
		}
		south, err := sailing.NewComposite(mirrorNorth(g.From), mirrorNorth(g.To), lat(-limit.Angle()))
		if err != nil || !near(south.Distance, c.Distance, 1e-6) { // likewise
			t.Fatalf("mirrored %v m, %v", south.Distance.Metres(), err)
		}
	})
}

func TestCompositeMeetsLimitEastOrWest(t *testing.T) {
	// Across the date line, from 40° N to 35° N, no farther north than 42°.
	c, err := sailing.NewComposite(place(35*deg, 140*deg), place(40*deg, -125*deg), lat(42*deg))
	if err != nil || c.Parallel.Course != course(90) {
		t.Fatal(c, err)
	}
	for _, got := range []angle.True{c.First.Final, c.Last.Initial} {
		if (got.FromNorth() - 90*deg).Abs() > minute/600 { // a tenth of a second: a tangent point is ill-defined along the parallel
			t.Errorf("%v at the limit", got)
		}
	}
	// cos d.long = tan lat cot limit
	want := math.Acos(math.Tan(35*math.Pi/180)/math.Tan(42*math.Pi/180)) * 180 / math.Pi
	if got := c.First.To.Longitude.Sub(c.First.From.Longitude).Degrees(); math.Abs(got-want) > 1e-10 { // rounding
		t.Errorf("%v, want %v", got, want)
	}
}

func TestCompositeStartsOnLimit(t *testing.T) {
	c, err := sailing.NewComposite(place(50*deg, -10*deg), place(50*deg, -60*deg), lat(50*deg))
	if err != nil || c.First.Distance != 0 || c.Last.Distance != 0 || c.Parallel.Course != course(270) {
		t.Fatalf("%+v, %v", c, err)
	}
	if want := sailing.Distance(3000*math.Cos(50*math.Pi/180)) * mile; !near(c.Distance, want, 1e-6) { // rounding
		t.Errorf("%v, want %v", c.Distance, want)
	}
	if c.First.Initial != course(270) || placeAt(c.First, 0) != place(50*deg, -10*deg) {
		t.Errorf("%+v", c.First)
	}
	for _, p := range []angle.Position{place(51*deg, 0), place(50*deg+1, 0)} {
		_, err := sailing.NewComposite(place(40*deg, -70*deg), p, lat(50*deg))
		refused[*angle.RangeError](t, "beyond", err)
	}
	_, err = sailing.NewComposite(place(-51*deg, -70*deg), place(-40*deg, 0), lat(-50*deg))
	refused[*angle.RangeError](t, "beyond, south", err)
}

// Limits a hair above an end, or a hair below the vertex, where rounding could
// take the touching points past each other.
func TestCompositeAtEdgesOfLimit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawCircle(t, 88*deg)
		north, _, ok := g.Vertices()
		if !ok {
			t.Skip("the equator")
		}
		hair := angle.Angle(rapid.Int64Range(0, 1000).Draw(t, "hair"))
		ends := max(g.From.Latitude.Angle(), g.To.Latitude.Angle())
		limit := ends + hair
		if rapid.Bool().Draw(t, "at the vertex") && north.Position.Latitude.Angle()-hair >= ends {
			limit = north.Position.Latitude.Angle() - hair
		}
		if limit < 0 {
			t.Skip("it would be a southern limit")
		}
		c, err := sailing.NewComposite(g.From, g.To, lat(limit))
		if err != nil {
			t.Fatal(err)
		}
		if c.Distance < g.Distance-1e-5 || c.First.To.Longitude.Sub(c.Last.From.Longitude).Abs() > 181*deg { // rounding
			t.Fatalf("%v m, the great circle %v m", c.Distance.Metres(), g.Distance.Metres())
		}
		if c.First != c.Last && !near(c.Distance, c.First.Distance+c.Parallel.Distance+c.Last.Distance, 1e-8) { // the same sum
			t.Fatal("the parts do not add up")
		}
		if c.First != c.Last && c.Parallel.Distance > 1 {
			if east := g.To.Longitude.Sub(g.From.Longitude) > 0; (c.Parallel.Course == course(90)) != east {
				t.Fatalf("along the limit on %v", c.Parallel.Course)
			}
		}
		for _, part := range []sailing.GreatCircle{c.First, c.Last} {
			for i := range 11 {
				p := placeAt(part, part.Distance*sailing.Distance(i)/10)
				if c.First != c.Last && p.Latitude.Angle() > limit+4000 { // a tenth of a millimetre
					t.Fatalf("%v is beyond %v", p, limit)
				}
			}
		}
	})
}
