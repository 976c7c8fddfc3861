package sailing_test

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"pgregory.net/rapid"
)

// geodesic is the line between two positions that are not the same place.
func geodesic(t rapid.TB, e *sailing.Ellipsoid, from, to angle.Position) sailing.GreatCircle {
	t.Helper()
	g, err := e.GreatCircle(from, to)
	if err != nil {
		t.Fatal(err)
	}
	return g
}

// Measured: distances within 3.4e-8 m, ends within 2.6e-8 m: the unit of positions is 31 nm. Courses within
// 1.5e-5 m sideways, most on lines nearly to the antipodes, where that unit turns the line by more.
func TestGeodesicsAgreeWithGeographicLib(t *testing.T) {
	var far, side, end float64
	for _, r := range rows(t, "geodesic_wgs84.csv") {
		from, to := at(t, r[0], r[1]), at(t, r[2], r[3])
		g := geodesic(t, nil, from, to)
		far = max(far, math.Abs(g.Distance.Metres()-r[6]))
		off := max(sideways(g.Initial.Degrees(), r[4], r[6]), sideways(g.Final.Degrees(), r[5], r[6]))
		// Near a pole the unit is a greater part of the direction.
		polar := (90 - max(math.Abs(r[0]), math.Abs(r[2]))) * 111e3
		side = max(side, off-31e-9*r[6]/polar)
		p, final := g.At(g.Distance)
		end = max(end, apart(p, to), 1e-6*sideways(final.Degrees(), g.Final.Degrees(), 6.4e6))
	}
	if far > 5e-8 || side > 2e-5 || end > 1e-7 {
		t.Errorf("distances within %.2g m, courses within %.2g m sideways, ends within %.2g m", far, side, end)
	}
}

// Examples of C. F. F. Karney, Algorithms for geodesics, Journal of Geodesy 87 (2013), tables 2 and 5, from
// memory: the direct problem, and an inverse one nearly to the antipodes.
func TestGeodesicsAgreeWithPublishedExamples(t *testing.T) {
	g, err := sailing.WGS84().FollowGreatCircle(at(t, 40, 0), run(30, 10_000*sailing.Kilometre))
	lat, lon := g.To.Degrees()
	if err != nil || math.Abs(lat-41.79331020506) > 1e-11 || math.Abs(lon-137.84490004377) > 1e-11 || math.Abs(g.Final.Degrees()-149.09016931807) > 1e-11 {
		t.Errorf("%v: %.11f %.11f %.11f", err, lat, lon, g.Final.Degrees())
	}
	g = geodesic(t, sailing.WGS84(), at(t, -30, 0), at(t, 29.9, 179.8))
	if math.Abs(g.Distance.Metres()-19989832.82761) > 1e-5 || math.Abs(g.Initial.Degrees()-161.89052473633) > 1e-9 || math.Abs(g.Final.Degrees()-18.09073724574) > 1e-9 {
		t.Errorf("%.6f %.11f %.11f", g.Distance, g.Initial.Degrees(), g.Final.Degrees())
	}
}

// integrated follows a geodesic by its differential equations on the ellipsoid, in
// small steps. It is slow, and uses nothing of the library.
func integrated(e *sailing.Ellipsoid, from angle.Position, course angle.True, distance float64) (lat, lon, azimuth float64) {
	a, f := float64(e.EquatorialRadius()), e.Flattening()
	e2 := f * (2 - f)
	slope := func(y [3]float64) [3]float64 {
		s, c := math.Sincos(y[0])
		w := math.Sqrt(1 - e2*s*s)
		normal, meridian := a/w, a*(1-e2)/(w*w*w)
		sa, ca := math.Sincos(y[2])
		return [3]float64{ca / meridian, sa / (normal * c), sa * s / (normal * c)}
	}
	const steps = 4000
	h := distance / steps
	y := [3]float64{from.Latitude.Angle().Radians(), from.Longitude.Angle().Radians(), course.FromNorth().Radians()}
	shifted := func(y, k [3]float64, h float64) [3]float64 {
		return [3]float64{y[0] + h*k[0], y[1] + h*k[1], y[2] + h*k[2]}
	}
	for range steps {
		k1 := slope(y)
		k2 := slope(shifted(y, k1, h/2))
		k3 := slope(shifted(y, k2, h/2))
		k4 := slope(shifted(y, k3, h))
		for i := range y {
			y[i] += h / 6 * (k1[i] + 2*k2[i] + 2*k3[i] + k4[i])
		}
	}
	return y[0] * 180 / math.Pi, y[1] * 180 / math.Pi, y[2] * 180 / math.Pi
}

// On WGS84 and on the flattest figure that NewEllipsoid takes.
func TestGeodesicsFollowTheirDifferentialEquations(t *testing.T) {
	flat := angle.Must(sailing.NewEllipsoid("flat", 6.4e6, 1.0/50))
	for _, e := range []*sailing.Ellipsoid{sailing.WGS84(), flat, sailing.Sphere()} {
		for _, c := range []struct{ lat, lon, course, km float64 }{
			{47, -19, 236, 15}, {47, -19, 60, 1500}, {-35, 170, 100, 9000}, {0, 0, 90, 8000}, {0, 0, 45, 12_000}, {10, 5, 269, 19_000}, {-60, 20, 170.5, 3000},
		} {
			distance := sailing.Distance(c.km) * sailing.Kilometre
			g, err := e.FollowGreatCircle(at(t, c.lat, c.lon), run(c.course, distance))
			if err != nil {
				t.Fatal(err)
			}
			lat, lon, azimuth := integrated(e, g.From, g.Initial, distance.Metres())
			want := at(t, lat, math.Remainder(lon, 360))
			if d := apart(want, g.To); d > 1e-5 || sideways(azimuth, g.Final.Degrees(), 6.4e6) > 1e-5 {
				t.Errorf("%v, %+v: %.2g m off, final %v, %.9f", e, c, d, g.Final, azimuth)
			}
		}
	}
}

// drawPlaces draws two positions, with the awkward ones often: antipodes and near them, poles, the
// equator, one parallel, one meridian.
func drawPlaces(t *rapid.T) (from, to angle.Position) {
	from = drawPosition(t, 90*deg)
	off := drawAngle(-2*minute, 2*minute)
	near := func(a angle.Angle) angle.Latitude {
		return lat(min(max(a+off.Draw(t, "off"), -90*deg), 90*deg))
	}
	switch rapid.IntRange(0, 5).Draw(t, "case") {
	case 0: // nearly antipodes, within what the flattening makes awkward
		to = angle.Position{Latitude: near(-from.Latitude.Angle()), Longitude: from.Longitude.Add(180*deg + 30*off.Draw(t, "east"))}
	case 1: // antipodes
		to = angle.Position{Latitude: lat(-from.Latitude.Angle()), Longitude: from.Longitude.Add(180 * deg)}
	case 2: // about one parallel, north or south
		side := rapid.SampledFrom([]angle.Angle{1, -1}).Draw(t, "side")
		to = angle.Position{Latitude: near(side * from.Latitude.Angle()), Longitude: drawPosition(t, 0).Longitude}
	case 3: // on one meridian
		to = angle.Position{Latitude: drawPosition(t, 90*deg).Latitude, Longitude: from.Longitude.Add(rapid.SampledFrom([]angle.Angle{0, 180 * deg}).Draw(t, "side"))}
	case 4: // close by
		to = angle.Position{Latitude: near(from.Latitude.Angle()), Longitude: from.Longitude.Add(off.Draw(t, "east"))}
	default:
		to = drawPosition(t, 90*deg)
	}
	return from, to
}

func TestGeodesicLaws(t *testing.T) {
	flat := angle.Must(sailing.NewEllipsoid("flat", 6378137, 1.0/50))
	rapid.Check(t, func(t *rapid.T) {
		e := rapid.SampledFrom([]*sailing.Ellipsoid{sailing.WGS84(), sailing.Clarke1866(), flat}).Draw(t, "figure")
		from, to := drawPlaces(t)
		if from.SamePlace(to) {
			return
		}
		g := geodesic(t, e, from, to)
		// It leads there, and is as long on the way back.
		if p, final := g.At(g.Distance); apart(p, to) > 2e-7 {
			t.Fatalf("%v leads to %v, %.2g m off", g, p, apart(p, to))
		} else if polar := math.Cos(to.Latitude.Angle().Radians()); to.Latitude.Angle().Abs() < 90*deg && math.Abs(final.Sub(g.Final).Radians())*polar*6.4e6 > 1e-6*max(1, polar) {
			t.Fatalf("%v ends on %v", g, final)
		}
		back := geodesic(t, e, to, from)
		if !near(g.Distance, back.Distance, 1e-7) {
			t.Fatalf("%v there, %v back", g.Distance.Metres(), back.Distance.Metres())
		}
		// No line is shorter: not the rhumb line, not the way over a pole.
		if rhumb := e.Rhumb(from, to).Distance; g.Distance > rhumb+1e-6 {
			t.Fatalf("%v is longer than the rhumb line, %v", g.Distance.Metres(), rhumb.Metres())
		}
		pole := 2*e.MeridianArc(lat(90*deg)) - sailing.Distance(math.Abs(float64(e.MeridianArc(from.Latitude)+e.MeridianArc(to.Latitude))))
		if g.Distance > pole+1e-6 {
			t.Fatalf("%v is longer than over the pole, %v", g.Distance.Metres(), pole.Metres())
		}
		// Half way is half as far from both ends.
		if g.Distance > 1 {
			half, _ := g.At(g.Distance / 2)
			if d := geodesic(t, e, half, to).Distance; !near(d, g.Distance/2, 2e-7) {
				t.Fatalf("%v: %v is left half way", g.Distance.Metres(), d.Metres())
			}
		}
		// Mirrored in the equator and in a meridian it is the same line.
		for name, m := range map[string]sailing.GreatCircle{"north": geodesic(t, e, mirrorNorth(from), mirrorNorth(to)), "east": geodesic(t, e, mirrorEast(from), mirrorEast(to)), "turned": geodesic(t, e, turned(from, 77*deg), turned(to, 77*deg))} {
			if !near(m.Distance, g.Distance, 1e-7) {
				t.Fatalf("mirrored %s: %v, not %v", name, m.Distance.Metres(), g.Distance.Metres())
			}
		}
	})
}

// The chord between two places gives the arc on the sphere by another way.
func TestGreatCircleOnSphereByChord(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from, to := drawPlaces(t)
		arc := 2 * math.Asin(min(1, apart(from, to)/6366707/2))
		if from.SamePlace(to) || arc > 3 { // the arc of a long chord has few digits
			return
		}
		if g := geodesic(t, sailing.Sphere(), from, to); math.Abs(g.Distance.Metres()-sphereRadius*arc) > 1e-6 {
			t.Fatalf("%v m, not %v", g.Distance.Metres(), sphereRadius*arc)
		}
	})
}

// On the ellipsoid too: at the vertex the course is east or west, and no place of the circle
// is farther from the equator.
func TestVerticesOnTheEllipsoid(t *testing.T) {
	flat := angle.Must(sailing.NewEllipsoid("flat", 6378137, 1.0/50))
	rapid.Check(t, func(t *rapid.T) {
		e := rapid.SampledFrom([]*sailing.Ellipsoid{sailing.WGS84(), flat}).Draw(t, "figure")
		p, q := drawPosition(t, 80*deg), drawPosition(t, 80*deg)
		if d := p.ArcTo(q); d < deg || d > 178*deg {
			t.Skip("badly conditioned")
		}
		g := geodesic(t, e, p, q)
		north, south, ok := g.Vertices()
		if c := g.Initial.FromNorth().Sin(); !ok || math.Abs(c) < 0.01 {
			t.Skip("the equator, or near a meridian")
		}
		if (north.Position.Latitude.Angle() + south.Position.Latitude.Angle()).Abs() > 100 {
			t.Fatalf("%v and %v", north, south)
		}
		for _, v := range []sailing.Vertex{north, south} {
			if c := courseAt(g, v.Distance).FromNorth(); math.Abs(c.Cos()) > 1e-6 && north.Position.Latitude.Degrees() > 0.01 {
				t.Fatalf("course %v at the vertex", c)
			}
			for _, off := range []sailing.Distance{-3e6, -1e3, 1e3, 5e6} {
				if at := placeAt(g, v.Distance+off).Latitude.Angle().Abs(); at > v.Position.Latitude.Angle().Abs()+100 {
					t.Fatalf("%v is beyond the vertex %v", at, v)
				}
			}
		}
	})
}

// On the ellipsoid the positions at meridians lie on the line.
func TestWaypointsByLongitudeOnTheEllipsoid(t *testing.T) {
	flat := angle.Must(sailing.NewEllipsoid("flat", 6378137, 1.0/50))
	rapid.Check(t, func(t *rapid.T) {
		e := rapid.SampledFrom([]*sailing.Ellipsoid{sailing.WGS84(), flat}).Draw(t, "figure")
		p, q := drawPosition(t, 75*deg), drawPosition(t, 75*deg)
		if d, east := p.ArcTo(q), p.Longitude.Sub(q.Longitude).Abs(); d < deg || d > 170*deg || east < deg || east > 179*deg {
			t.Skip("badly conditioned, or a meridian")
		}
		g := geodesic(t, e, p, q)
		points, err := g.WaypointsByLongitude(7 * deg)
		if err != nil {
			t.Fatal(err)
		}
		var sum sailing.Distance
		for i, next := range points[1:] {
			sum += geodesic(t, e, points[i], next).Distance
		}
		if !near(sum, g.Distance, 1e-6) { // a place off the line makes it longer
			t.Fatalf("%v m by %d places, %v m", sum.Metres(), len(points), g.Distance.Metres())
		}
		for _, w := range points[1 : len(points)-1] {
			leg := geodesic(t, e, g.From, w)
			if on := placeAt(g, leg.Distance); apart(on, w) > 1e-6 {
				t.Fatalf("%v is %g m off the line", w, apart(on, w))
			}
		}
	})
}

// Half round the earth every line is half a meridian long.
func TestGeodesicBetweenAntipodesGoesOverAPole(t *testing.T) {
	half := 2 * sailing.WGS84().MeridianArc(lat(90*deg))
	for _, north := range []angle.Angle{0, 1, -1, minute, 30 * deg, -45 * deg, 90*deg - 1, 90 * deg} {
		from := place(north, 20*deg)
		g := geodesic(t, nil, from, place(-north, -160*deg))
		if s := math.Abs(g.Initial.FromNorth().Sin()); s > 1e-12 || !near(g.Distance, half, 1e-7) {
			t.Errorf("from %v: %v, %.9f m", from, g, g.Distance)
		}
	}
}

// 10°N 20°W to 40°N 22°W: a great circle on the sphere (1803.2 M) seems longer than the
// rhumb line on WGS84 (1797.8 M). On one figure it is not.
func TestGreatCircleIsNotLongerThanRhumb(t *testing.T) {
	from, to := place(10*deg, -20*deg), place(40*deg, -22*deg)
	g, rhumb := geodesic(t, nil, from, to), sailing.WGS84().Rhumb(from, to)
	if g.Distance > rhumb.Distance || rhumb.Distance-g.Distance > mile/2 {
		t.Errorf("%v, rhumb line %v", g, rhumb)
	}
}

func TestGeodesicWaypoints(t *testing.T) {
	g := geodesic(t, nil, place(47*deg, -10*deg), place(38*deg, -60*deg))
	points, err := g.Waypoints(300 * mile)
	if err != nil || len(points) != 9 || points[0] != g.From || points[8] != g.To {
		t.Fatal(points, err)
	}
	for i, p := range points[1:] {
		if leg := geodesic(t, nil, points[i], p); !near(leg.Distance, g.Distance/8, 1e-6) {
			t.Errorf("leg %d is %v", i+1, leg)
		}
	}
	for _, apart := range []sailing.Distance{0, -1, 1, sailing.Distance(math.NaN())} {
		_, err := g.Waypoints(apart)
		refused[*angle.RangeError](t, apart.String(), err)
	}
	if p, err := g.Waypoints(sailing.Distance(math.Inf(1))); err != nil || len(p) != 2 {
		t.Error(p, err)
	}
	if p, err := (sailing.GreatCircle{}).Waypoints(mile); err != nil || len(p) != 2 {
		t.Error(p, err)
	}
}

func TestInvalidGeodesicsAreRefused(t *testing.T) {
	here := place(47*deg, -10*deg)
	_, err := sailing.WGS84().GreatCircle(here, here)
	refusedAs(t, "one place", sailing.SamePlace, err)
	_, err = sailing.WGS84().GreatCircle(place(90*deg, 0), place(90*deg, 50*deg))
	refusedAs(t, "one pole", sailing.SamePlace, err)
	for _, distance := range []sailing.Distance{0, -1, 10_801 * mile, sailing.Distance(math.NaN()), sailing.Distance(math.Inf(1))} {
		_, err := sailing.WGS84().FollowGreatCircle(here, sailing.Run{Distance: distance})
		refused[*angle.RangeError](t, distance.String(), err)
	}
}

func TestGeodesicGoesOnBeyondItsEnds(t *testing.T) {
	g := geodesic(t, nil, place(47*deg, -10*deg), place(38*deg, -60*deg))
	before, course := g.At(-100 * mile)
	onward := geodesic(t, nil, before, g.From)
	if !near(onward.Distance, 100*mile, 1e-7) || swerve(onward.Initial, course, 100*mile) > 1e-6 || swerve(onward.Final, g.Initial, 100*mile) > 1e-6 {
		t.Errorf("%v, %v", onward, course)
	}
	// From a pole along the meridian that the course names.
	for _, pole := range []angle.Angle{90, -90} {
		g := geodesic(t, nil, place(pole*deg, 20*deg), place(40*deg, 50*deg))
		if p, _ := g.At(g.Distance); apart(p, g.To) > 1e-7 {
			t.Errorf("%v leads to %v", g, p)
		}
	}
}

// The working can be checked by hand, on the sphere of the books.
func TestGeodesicWorkingNamesItsFigure(t *testing.T) {
	g := geodesic(t, nil, place(47*deg, -10*deg), place(47*deg, -60*deg))
	if got, want := g.String(), "47°00.0′N 010°00.0′W to 47°00.0′N 060°00.0′W, 2017.4 M, 289°T becoming 251°T"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	got := g.Working().String()
	for _, want := range []string{"2017.4 M  shortest line on WGS84", "To check: on the sphere", "2010.2 M", "initial course 288.8°T"} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
	circle := angle.Must(sailing.Sphere().GreatCircle(g.From, g.To))
	if got := circle.Working().String(); !strings.Contains(got, "on the sphere") {
		t.Error(got)
	}
	data, err := json.Marshal(g)
	if err != nil || !strings.Contains(string(data), `"figure":"WGS84"`) || !strings.Contains(string(data), `"distance":"`) {
		t.Errorf("%s, %v", data, err)
	}
	if _, err := json.Marshal(sailing.GreatCircle{}); err != nil {
		t.Error(err)
	}
	_, err = (&sailing.Ellipsoid{}).GreatCircle(g.From, g.From)
	refusedAs(t, "one place", sailing.SamePlace, err)
}
