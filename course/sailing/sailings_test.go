package sailing_test

import (
	"errors"
	"math"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
	"pgregory.net/rapid"
)

func drawRun(t *rapid.T, miles float64) sailing.Run {
	return sailing.Run{Course: drawCourse(t), Distance: sailing.Distance(rapid.Float64Range(0, miles).Draw(t, "miles")) * mile}
}

func TestPlaneSailingThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRun(t, 10000)
		p, err := sailing.Plane(r)
		if err != nil || p.Run != r {
			t.Fatal(p, err)
		}
		if d := math.Hypot(p.DLat.Minutes(), p.Departure.NauticalMiles()); math.Abs(d-r.Distance.NauticalMiles()) > 1e-10 { // d.lat is held to 2e-11 miles
			t.Fatalf("sides of %v miles for %v", d, r.Distance.NauticalMiles())
		}
		if r.Distance < mile {
			return
		}
		of, err := sailing.PlaneFromSides(p.DLat, p.Departure)
		if err != nil || !near(of.Distance, r.Distance, 1e-7) || swerve(of.Course, r.Course, r.Distance) > 2e-7 { // d.lat to 31 nm, courses to 5e-15 rad in 2e7 m
			t.Fatalf("%v, want %v; %v", of.Run, r, err)
		}
		if math.Abs(r.Course.FromNorth().Cos()) < 0.01 || p.DLat == 0 {
			return
		}
		along, err := sailing.PlaneFromCourse(r.Course, p.DLat)
		if err != nil || !near(along.Distance, r.Distance, 1e-5) { // 31 nm over the cosine, and units of float64
			t.Fatalf("%v, want %v; %v", along.Run, r, err)
		}
	})
}

func TestPlaneSailingRefusals(t *testing.T) {
	nan := sailing.Distance(math.NaN())
	for _, d := range []sailing.Distance{-1, nan, 21601 * mile, sailing.Distance(math.Inf(1))} {
		_, err := sailing.Plane(run(30, d))
		refused[*angle.RangeError](t, "plane", err)
		_, err = sailing.NewTraverse(run(30, 5), run(40, d))
		refused[*angle.RangeError](t, "traverse", err)
		for _, follow := range []func() error{
			func() error { _, err := sailing.FollowMidLatitude(place(0, 0), run(30, d)); return err },
			func() error { _, err := sailing.FollowMercator(place(0, 0), run(30, d), nil); return err },
		} {
			refused[*angle.RangeError](t, "follow", follow())
		}
	}
	for _, d := range []sailing.Distance{nan, 21601 * mile, -21601 * mile} {
		_, err := sailing.PlaneFromSides(deg, d)
		refused[*angle.RangeError](t, "departure", err)
	}
	_, err := sailing.PlaneFromSides(0, 0)
	refused[*angle.RangeError](t, "no sides", err)
	for _, c := range []struct {
		course float64
		dlat   angle.Angle
	}{{90, deg}, {270, -deg}, {89.99, deg}, {30, -deg}, {150, deg}, {30, 0}, {150, 0}, {89.98, 90 * deg}} {
		_, err := sailing.PlaneFromCourse(course(c.course), c.dlat)
		refused[*angle.RangeError](t, "along", err)
	}
}

func TestTraverseSums(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var runs []sailing.Run
		var north, east float64
		for range rapid.IntRange(0, 8).Draw(t, "legs") {
			r := drawRun(t, 300)
			runs = append(runs, r)
			north += r.Distance.Metres() * r.Course.FromNorth().Cos()
			east += r.Distance.Metres() * r.Course.FromNorth().Sin()
		}
		got, err := sailing.NewTraverse(runs...)
		if err != nil || len(got.Legs) != len(runs) {
			t.Fatal(err)
		}
		s, c := got.Course.FromNorth().SinCos()
		if d := math.Hypot(got.Distance.Metres()*c-north, got.Distance.Metres()*s-east); d > 4e-5 { // a run of less than 31 µm has no course
			t.Fatalf("%g m off", d)
		}
		// There and back.
		for _, r := range runs {
			r.Course = r.Course.Reciprocal()
			runs = append(runs, r)
		}
		back, err := sailing.NewTraverse(runs...)
		if err != nil || back.Run != (sailing.Run{}) {
			t.Fatalf("there and back %v, %v", back.Run, err)
		}
	})
	triangle, err := sailing.NewTraverse(run(0, 30*mile), run(120, 30*mile), run(240, 30*mile))
	if err != nil || triangle.Run != (sailing.Run{}) {
		t.Errorf("round a triangle: %v, %v", triangle.Run, err)
	}
}

func TestFollowInvertsSailings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from := place(drawAngle(5*deg, 60*deg).Draw(t, "latitude"), drawAngle(-180*deg, 180*deg).Draw(t, "longitude"))
		r := drawRun(t, 290)
		r.Distance += mile
		figure := drawFigure(t)
		for name, there := range map[string]func() (sailing.Solution, error){
			"mid-latitude": func() (sailing.Solution, error) { return sailing.FollowMidLatitude(from, r) },
			"Mercator":     func() (sailing.Solution, error) { return sailing.FollowMercator(from, r, figure) },
		} {
			w, err := there()
			if err != nil {
				t.Fatal(name, err)
			}
			var back sailing.Solution
			if name == "Mercator" {
				back, err = sailing.Mercator(from, w.To, figure)
			} else {
				back, err = sailing.MidLatitude(from, w.To)
			}
			if err != nil {
				t.Fatal(name, err)
			}
			if back.Method != w.Method {
				t.Fatalf("%s: %v and %v", name, back.Method, w.Method)
			}
			if !near(back.Distance, r.Distance, 2e-7) || swerve(back.Course, r.Course, r.Distance) > 2e-7 { // roundings of positions
				t.Fatalf("%s: %v, want %v", name, back.Run, r)
			}
			if back.DLat != w.DLat || (back.DLong-w.DLong).Abs() > 1 || !near(back.Departure, w.Departure, 2e-7) || math.Abs(back.Parts-w.Parts) > 1e-9 { // likewise
				t.Fatalf("%s: %+v, want %+v", name, back, w)
			}
		}
	})
}

func TestParallelSailingThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from := drawPosition(t, 89*deg)
		dlong := drawAngle(-179*deg, 179*deg).Draw(t, "d.long")
		w, err := sailing.MidLatitude(from, turned(from, dlong))
		if w.Method != sailing.ParallelSailing || err != nil || w.Departure != sailing.Departure(from.Latitude, dlong) || w.DLong != dlong {
			t.Fatal(w, err)
		}
		if dlong == 0 {
			if w.Run != (sailing.Run{}) {
				t.Fatal(w.Run)
			}
			return
		}
		back, err := sailing.FollowMidLatitude(from, w.Run)
		if err != nil || (back.DLong-dlong).Abs() > 200 { // 1e-16 of 180°, in units of 1e-9″, some times
			t.Fatalf("%v, want %v; %v", back.DLong, dlong, err)
		}
		l, err := sailing.LatitudeFromDLong(w.Departure, dlong)
		if err != nil || math.Abs(l.Degrees()-math.Abs(from.Latitude.Degrees())) > 2e-6 { // acos loses half its digits near the equator
			t.Fatalf("%v, want %v; %v", l, from.Latitude, err)
		}
		mercator, err := sailing.Mercator(from, turned(from, dlong), nil)
		if err != nil || mercator != w {
			t.Fatalf("Mercator %+v, %v", mercator, err)
		}
	})
}

func TestMercatorIsRhumbOnSphere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, q := drawPosition(t, 89*deg), drawPosition(t, 89*deg)
		w, err := sailing.Mercator(p, q, sailing.Sphere())
		if err != nil {
			t.Fatal(err)
		}
		want := sailing.Sphere().Rhumb(p, q)
		if w.Course != want.Course || !near(w.Distance, want.Distance, 1e-7) { // units of float64 at 2e7 m
			t.Fatalf("%v, want %v", w.Run, want)
		}
	})
}

func TestDueEastIsParallelSailing(t *testing.T) {
	from := place(47*deg, -19*deg)
	want := turned(from, angle.Must(sailing.DLong(from.Latitude, 100*mile)))
	mid, err1 := sailing.FollowMidLatitude(from, run(90, 100*mile))
	mercator, err2 := sailing.FollowMercator(from, run(90, 100*mile), sailing.Clarke1866())
	if err1 != nil || err2 != nil || mid.To != want || mercator.To != want || mid.Method != sailing.ParallelSailing || mercator.Method != sailing.ParallelSailing {
		t.Errorf("%+v, %+v, %v, %v", mid, mercator, err1, err2)
	}
}

func TestUnsuitableSailingsAreRefused(t *testing.T) {
	p, south, pole := place(10*deg, 0), place(-deg, 0), place(90*deg, 0)
	second := func(_ sailing.Solution, err error) error { return err }
	for name, err := range map[string]error{
		"mid-latitude, equator":        second(sailing.MidLatitude(p, south)),
		"mid-latitude, equator, north": second(sailing.MidLatitude(south, p)),
		"mid-latitude, pole":           second(sailing.MidLatitude(p, pole)),
		"mid-latitude, from a pole":    second(sailing.MidLatitude(pole, pole)),
		"mid-latitude, over equator":   second(sailing.FollowMidLatitude(p, run(180, 601*mile))),
		"mid-latitude, to a pole":      second(sailing.FollowMidLatitude(p, run(0, 4800*mile))),
		"Mercator, pole":               second(sailing.Mercator(p, pole, nil)),
		"Mercator, from a pole":        second(sailing.Mercator(pole, p, nil)),
		"Mercator, to a pole":          second(sailing.FollowMercator(p, run(0, 4800*mile), nil)),
	} {
		refusedAs(t, name, sailing.Unsuitable, err)
	}
	for _, c := range []struct {
		course float64
		to     sailing.Distance
	}{{0, 4800}, {180, 6000}, {60, 9600}, {120, 12000}} {
		for _, err := range []error{
			second(sailing.FollowMidLatitude(p, run(c.course, (c.to+1)*mile))),
			second(sailing.FollowMercator(p, run(c.course, (c.to+1)*mile), nil)),
		} {
			var over *sailing.Error
			if !errors.As(err, &over) || over.Kind != sailing.OverPole || !near(over.ToPole, c.to*mile, 1e-6) { // units of float64 at 2e7 m
				t.Errorf("on %v: %v", c.course, err)
			}
		}
	}
	near := place(90*deg-1000, 0)
	refused[*angle.RangeError](t, "round the pole", second(sailing.FollowMidLatitude(near, run(90, mile))))
	refused[*angle.RangeError](t, "round the pole", second(sailing.FollowMercator(near, run(90, mile), nil)))
	almost := angle.TrueFrom(90*deg + 10000)
	refused[*angle.RangeError](t, "winding", second(sailing.FollowMercator(near, sailing.Run{Course: almost, Distance: 1e6}, nil)))
}

func TestImpossibleDeparturesAreRefused(t *testing.T) {
	for _, c := range []struct {
		departure sailing.Distance
		dlong     angle.Angle
	}{{61 * mile, deg}, {-mile, deg}, {mile, 0}, {0, 0}, {sailing.Distance(math.NaN()), deg}} {
		_, err := sailing.LatitudeFromDLong(c.departure, c.dlong)
		refused[*angle.RangeError](t, "latitude", err)
	}
	if l, err := sailing.LatitudeFromDLong(0, deg); err != nil || l != lat(90*deg) { // meridians meet at the pole
		t.Error(l, err)
	}
	if l, err := sailing.LatitudeFromDLong(-30*mile, -deg); err != nil || l != lat(60*deg) {
		t.Error(l, err)
	}
	for dlong := angle.Angle(1); dlong < 100*deg; dlong = dlong*3 + 1 { // the ratio may come out a unit above 1
		if l, err := sailing.LatitudeFromDLong(sailing.Departure(lat(0), dlong), dlong); err != nil || l.Degrees() > 2e-6 { // acos loses half its digits
			t.Error(dlong, l, err)
		}
	}
	for _, d := range []sailing.Distance{21601 * mile, sailing.Distance(math.NaN())} {
		_, err := sailing.DLong(lat(0), d)
		refused[*angle.RangeError](t, "d.long", err)
	}
}

func TestStepKeysAndSums(t *testing.T) {
	from, to := place(47*deg, -19*deg-10*minute), place(48*deg+12*minute, -21*deg-40*minute)
	number := func(s working.Steps, key string) float64 {
		step, ok := s.Find(key)
		if !ok {
			t.Errorf("no step %q in\n%v", key, s)
		}
		return step.Number
	}
	mid := angle.Must(sailing.MidLatitude(from, to)).Working().Steps
	departure := number(mid, "d.long") * math.Cos(number(mid, "middle latitude")*math.Pi/180)
	if math.Abs(departure-number(mid, "departure")) > 1e-9 || math.Abs(math.Hypot(departure, number(mid, "d.lat"))-number(mid, "distance")) > 1e-9 { // rounding
		t.Errorf("\n%v", mid)
	}
	mercator := angle.Must(sailing.Mercator(from, to, sailing.Clarke1866())).Working().Steps
	tan := number(mercator, "d.long") / number(mercator, "d.m.p.")
	if math.Abs(math.Hypot(number(mercator, "d.lat"), number(mercator, "d.lat")*tan)-number(mercator, "distance")) > 1e-9 { // rounding
		t.Errorf("\n%v", mercator)
	}
	traverse := angle.Must(sailing.NewTraverse(run(275, 8.2*mile), run(0, 6.5*mile))).Working().Steps
	if number(traverse, "leg 1") != (8.2*mile).NauticalMiles() || math.Abs(math.Hypot(number(traverse, "d.lat"), number(traverse, "departure"))-number(traverse, "distance")) > 1e-9 { // rounding
		t.Errorf("\n%v", traverse)
	}
	composite := angle.Must(sailing.NewComposite(place(35*deg, 140*deg), place(40*deg, -125*deg), lat(42*deg))).Working().Steps
	if math.Abs(number(composite, "first")+number(composite, "parallel")+number(composite, "last")-number(composite, "distance")) > 1e-9 { // rounding
		t.Errorf("\n%v", composite)
	}
	circle := angle.Must(sailing.Sphere().GreatCircle(place(-35*deg, 20*deg), place(-30*deg, 115*deg))).Working().Steps
	if number(circle, "vertex") >= -35 {
		t.Errorf("\n%v", circle)
	}
}

func TestWorkings(t *testing.T) {
	from := place(47*deg, -19*deg-10*minute)
	second := func(w sailing.Solution, err error) working.Steps {
		if err != nil {
			t.Fatal(err)
		}
		return w.Working().Steps
	}
	for want, got := range map[string]working.Steps{
		`Course                     235°T  S 55.0° W
Distance                  12.5 M
Difference of latitude     7.2′S  distance × cos course; a minute is a mile
Departure               10.2 M W  distance × sin course
`: angle.Must(sailing.Plane(run(235, 12.5*mile))).Working().Steps,
		`From                     47°00.0′N 019°10.0′W  given
To                       47°00.0′N 020°10.0′W  given
Difference of latitude                   0.0′  to minus from
Difference of longitude                60.0′W  to minus from, the shorter way round
Departure                            40.9 M W  d.long × cos latitude
Course                                  270°T  along the parallel; W
Distance                               40.9 M  the departure
`: second(sailing.MidLatitude(from, turned(from, -deg))),
		`From                     47°00.0′N 019°10.0′W  given
Course                                  270°T  W
Distance                               41.0 M  given
Difference of latitude                   0.0′  distance × cos course
Latitude of arrival                 47°00.0′N  starting latitude and d.lat
Departure                            41.0 M W  the distance
Difference of longitude                60.1′W  departure / cos latitude
Position of arrival      47°00.0′N 020°10.1′W  starting longitude and d.long
`: second(sailing.FollowMidLatitude(from, run(270, 41*mile))),
		`From                     47°00.0′N 019°10.0′W  given
Course                                  235°T  S 55.0° W
Distance                              125.0 M  given
Difference of latitude                 71.7′S  distance × cos course
Latitude of arrival                 45°48.3′N  starting latitude and d.lat
Departure                           102.4 M W  distance × sin course
Middle latitude                     46°24.2′N  half the sum of the latitudes
Difference of longitude               148.5′W  departure / cos middle latitude
Position of arrival      45°48.3′N 021°38.5′W  starting longitude and d.long
`: second(sailing.FollowMidLatitude(from, run(235, 125*mile))),
		`From                            47°00.0′N 019°10.0′W  given
Course                                         235°T  S 55.0° W
Distance                                     125.0 M  given
Difference of latitude                        71.7′S  distance × cos course
Latitude of arrival                        45°48.3′N  starting latitude and d.lat
Difference of meridional parts               103.6 S  of both latitudes (WGS84), to minus from
Difference of longitude                      148.0′W  difference of meridional parts × tan course
Position of arrival             45°48.3′N 021°38.0′W  starting longitude and d.long
`: second(sailing.FollowMercator(from, run(235, 125*mile), nil)),
		`Limiting latitude                   42°00.0′N  the great circle keeps within it
From                     10°00.0′N 020°00.0′E  given
To                       15°00.0′S 060°00.0′E  given
Difference of latitude               1500.0′S  to minus from
Difference of longitude              2400.0′E  to minus from, the shorter way round
Distance                             2811.7 M  on the sphere, where a minute of arc is a mile: cos D = sin lat₁ sin lat₂ + cos lat₁ cos lat₂ cos d.long
Initial course                     121°41.6′T  tan C = sin d.long / (cos lat₁ tan lat₂ − sin lat₁ cos d.long); S 58.3° E
Final course                       119°49.8′T  the same from the other end, reversed
Vertex                   33°04.6′N 054°17.6′W  cos lat = sin C cos lat₁; outside the leg
`: angle.Must(sailing.NewComposite(place(10*deg, 20*deg), place(-15*deg, 60*deg), lat(42*deg))).Working().Steps,
		`Leg 1                   010°T 1.0 M  N 10.0° E: d.lat 1.0′N, departure 0.2 M E
Leg 2                   190°T 1.0 M  S 10.0° W: d.lat 1.0′S, departure 0.2 M W
Difference of latitude         0.0′  north minus south
Departure                     0.0 M  east minus west
Course                        000°T  no course: back at the start
Distance                     0.00 M  made good
`: angle.Must(sailing.NewTraverse(run(10, mile), run(190, mile))).Working().Steps,
	} {
		if got.String() != want {
			t.Errorf("got\n%swant\n%s", got, want)
		}
	}
}

func TestMercatorAtPoleIsRefused(t *testing.T) {
	pole, ashore := angle.MustParsePosition("90°N 019°W"), angle.MustParsePosition("80°N 019°W")
	for name, err := range map[string]error{
		"from a pole":           second(sailing.Mercator(pole, ashore, nil)),
		"to a pole":             second(sailing.Mercator(ashore, pole, nil)),
		"following from a pole": second(sailing.FollowMercator(pole, sailing.Run{Course: angle.MustParseTrue("180"), Distance: 60 * sailing.NauticalMile}, nil)),
		"following to a pole":   second(sailing.FollowMercator(ashore, sailing.Run{Distance: 600 * sailing.NauticalMile}, nil)),
	} {
		refusedAs(t, name, sailing.Unsuitable, err)
	}
}

func second(_ sailing.Solution, err error) error { return err }

// TestFollowMercatorAtPolesIsRefused runs from each pole, and to it.
func TestFollowMercatorAtPolesIsRefused(t *testing.T) {
	for _, latitude := range []float64{90, -90} {
		pole := angle.Must(angle.PositionDegrees(latitude, 10))
		away := angle.Must(angle.PositionDegrees(latitude*80/90, 10))
		course, back := angle.MustParseTrue("180"), angle.MustParseTrue("000")
		if latitude < 0 {
			course, back = back, course
		}
		for _, run := range []struct {
			from angle.Position
			run  sailing.Run
		}{{pole, sailing.Run{Course: course, Distance: 600 * mile}}, {away, sailing.Run{Course: back, Distance: 600 * mile}}} {
			if w, err := sailing.FollowMercator(run.from, run.run, nil); err == nil {
				t.Errorf("%v from %v: %v", run.run, run.from, w.To)
			}
		}
	}
}
