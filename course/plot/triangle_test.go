package plot_test

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/course/plot"
	"lubberline.example/course/sailing"
	"lubberline.example/course/signs"
	"lubberline.example/course/stream"
)

// triangles are triangles of every shape, by their names.
func triangles(t testing.TB) map[string]plot.Triangle {
	t.Helper()
	flow := func(set string, rate float64) stream.Stream {
		return stream.Stream{Set: angle.MustParseTrue(set), Rate: sailing.Speed(rate) * sailing.Knot}
	}
	steer := func(track string, speed, rate float64, set string) plot.Triangle {
		s, err := stream.CourseToSteer(angle.MustParseTrue(track), sailing.Speed(speed)*sailing.Knot, flow(set, rate))
		if err != nil {
			t.Fatal(err)
		}
		return plot.Triangle{Steering: s}
	}
	made := func(course string, speed, rate float64, set string) plot.Triangle {
		s, err := stream.MadeGood(stream.Motion{Course: angle.MustParseTrue(course), Speed: sailing.Speed(speed) * sailing.Knot}, flow(set, rate))
		if err != nil {
			t.Fatal(err)
		}
		return plot.Triangle{Steering: s, MadeGood: true}
	}
	with := func(p plot.Triangle, change func(*plot.Triangle)) plot.Triangle {
		change(&p)
		return p
	}
	at := time.Date(2026, time.July, 2, 10, 0, 0, 0, time.UTC)
	track := angle.MustParseTrue("112")
	_, err := stream.CourseToSteer(track, sailing.Knot, flow("020", 2))
	strong, ok := err.(*stream.Error)
	if !ok {
		t.Fatal(err)
	}
	hourly := stream.Hourly{Start: at.Add(-30 * time.Minute), Streams: []stream.Stream{flow("040", 0.6), flow("045", 1.5), flow("050", 2.1), flow("060", 1.2), flow("200", 0.4), flow("225", 1)}}
	across, err := stream.CourseToSteerAcross(angle.MustParsePosition("46°58.0′N 019°17.8′W"), angle.MustParsePosition("47°03.0′N 018°50.0′W"), at, 5.5*sailing.Knot, hourly)
	if err != nil {
		t.Fatal(err)
	}
	return map[string]plot.Triangle{
		"steer":           steer("112", 6, 2, "020"),
		"steer-us":        with(steer("112", 6, 2, "020"), func(p *plot.Triangle) { p.Signs = signs.UnitedStates }),
		"steer-leg":       with(steer("236", 5.5, 1.4, "150"), func(p *plot.Triangle) { p.Lasts, p.Begins = 2*time.Hour+24*time.Minute, at }),
		"made-good":       with(made("235", 6, 1.5, "330"), func(p *plot.Triangle) { p.Begins = at }),
		"leeway":          with(made("049", 5, 1.5, "120"), func(p *plot.Triangle) { p.Leeway = stream.Leeway{Angle: 8 * angle.Degree, WindSide: angle.Port} }),
		"hours":           {Crossing: across},
		"hours-made-good": {Crossing: across, MadeGood: true, Begins: at},
		"no-stream":       steer("112", 6, 0, "020"),
		"along":           made("112", 6, 2, "112"),
		"against":         steer("112", 6, 2, "292"),
		"tiny":            steer("112", 6, 0.02, "020"),
		"huge":            made("112", 0.5, 9, "020"),
		"no-way":          made("112", 0, 2, "020"),
		"nothing-good":    made("112", 2, 2, "292"),
		"impossible":      {Steering: strong.Nearest, Track: &track},
		"slow":            steer("000", 0.0004, 0.0002, "090"),
	}
}

// aTriangle draws a triangle.
func aTriangle(t fails, p plot.Triangle) *drawing.Sheet {
	t.Helper()
	s, err := plot.StreamTriangle(p)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// scaleOf reads the scale of a triangle, mm to the mile.
func scaleOf(t fails, all []element) float64 {
	t.Helper()
	for _, e := range all {
		if _, text, ok := strings.Cut(e.text, "1 M is "); ok {
			k, err := strconv.ParseFloat(strings.TrimSuffix(text, " mm"), 64)
			if err != nil {
				t.Fatal(err)
			}
			return k
		}
	}
	t.Fatal("no scale")
	return 0
}

// A vector is a side of a triangle as it should be, in miles.
type vector struct{ east, north float64 }

// vectorOf returns a motion over some hours.
func vectorOf(course angle.True, speed sailing.Speed, hours float64) vector {
	sin, cos := math.Sincos(course.FromNorth().Degrees() * math.Pi / 180)
	return vector{speed.Knots() * hours * sin, speed.Knots() * hours * cos}
}

// checkSides reads the sides of a class back, and fails if one is not as long, and not in the
// direction, as it should be, to 0.02 mm. The key's samples follow the sides.
func checkSides(t fails, name, class string, all []element, want ...vector) {
	t.Helper()
	k, read := scaleOf(t, all), ofClass(all, class)
	want = slices.DeleteFunc(slices.Clone(want), func(v vector) bool { return math.Hypot(v.east, v.north) < 1e-12 })
	if len(want) > 0 && len(read) != len(want)+1 {
		t.Errorf("%s: %d of class %s, want %d", name, len(read)-1, class, len(want))
		return
	}
	for i, v := range want {
		p := read[i].points(t)
		if x, y := p[1].X-p[0].X-k*v.east, p[1].Y-p[0].Y+k*v.north; math.Hypot(x, y) > 0.02 {
			t.Errorf("%s: %s is off by %.3f, %.3f mm at %v mm a mile", name, class, x, y, k)
		}
	}
}

// Every side has its direction and its length, to 0.02 mm; asked for are 0.2 mm. The ground
// track is that of package stream, except through several streams: there it is their sum with
// the water track.
func TestSidesAreToScale(t *testing.T) {
	for name, p := range triangles(t) {
		all := elements(t, aTriangle(t, p))
		hours := 1.0
		if p.Lasts != 0 {
			hours = p.Lasts.Hours()
		}
		water, ground := vectorOf(p.Steering.Water.Course, p.Steering.Water.Speed, hours), vectorOf(p.Steering.Ground.Course, p.Steering.Ground.Speed, hours)
		streams := []vector{vectorOf(p.Steering.Stream.Set, p.Steering.Stream.Rate, hours)}
		if len(p.Crossing.Hours) > 0 {
			water = vectorOf(p.Crossing.Water.Course, p.Crossing.Water.Speed, p.Crossing.Lasts.Hours())
			ground, streams = water, nil
			for _, h := range p.Crossing.Hours {
				v := vectorOf(h.Stream.Set, h.Stream.Rate, h.Lasts.Hours())
				streams, ground = append(streams, v), vector{ground.east + v.east, ground.north + v.north}
			}
		}
		checkSides(t, name, "water-track", all, water)
		checkSides(t, name, "ground-track", all, ground)
		checkSides(t, name, "stream", all, streams...)
		textsApart(t, name, all)
	}
}

// The sides of a triangle that is not flat close it, in the order of the construction.
func TestSidesClose(t *testing.T) {
	for _, name := range []string{"steer", "made-good", "hours", "hours-made-good", "steer-leg", "impossible"} {
		p := triangles(t)[name]
		all := elements(t, aTriangle(t, p))
		at := ofClass(all, "ground-track")[0].points(t)[0]
		order := []string{"stream", "water-track"}
		if p.MadeGood {
			order = []string{"water-track", "stream"}
		}
		for _, class := range order {
			sides := ofClass(all, class)
			for _, e := range sides[:len(sides)-1] {
				s := e.points(t)
				if math.Hypot(s[0].X-at.X, s[0].Y-at.Y) > 0.02 {
					t.Errorf("%s: %s begins at %v, and not at %v", name, class, s[0], at)
				}
				at = s[1]
			}
		}
		if end := ofClass(all, "ground-track")[0].points(t)[1]; math.Hypot(end.X-at.X, end.Y-at.Y) > 0.02 {
			t.Errorf("%s: ends at %v, and the ground track at %v", name, at, end)
		}
	}
}

// Where no course makes the track good, the arc stays on one side of it, and the drawing says so.
func TestImpossibleCourseIsShownAsImpossible(t *testing.T) {
	sheet := aTriangle(t, triangles(t)["impossible"])
	if want := "No course makes good 112°T: the arc of the vessel's speed does not reach the track."; !strings.Contains(sheet.Description(), want) {
		t.Errorf("%s", sheet.Description())
	}
	all := elements(t, sheet)
	track := ofClass(all, "track")[0].points(t)
	for _, s := range ofClass(all, "arc")[0].points(t) {
		if off := (track[1].X-track[0].X)*(s.Y-track[0].Y) - (track[1].Y-track[0].Y)*(s.X-track[0].X); off > -1 {
			t.Errorf("the arc reaches the track at %v", s)
		}
	}
}

// Figures stand along the sides, in both usages.
func TestTriangleShowsItsFigures(t *testing.T) {
	for name, want := range map[string][]string{
		"steer":        {"131.5°T 6.0 kn", "112°T 5.6 kn", "020°T", "(2.0 kn)", "2 M; 1 M is 12 mm", "Signs of the Commonwealth (common practice)", "A", "B", "C", "N"},
		"steer-us":     {"C 131.5°T", "S 6.0 kn", "TR 112°T", "SOA 5.6 kn", "SET 020°T", "DRIFT 2.0 kn", "Signs of the United States (common practice)"},
		"steer-leg":    {"250.7°T 5.5 kn", "13.2 M", "236°T 5.4 kn", "13.0 M", "3.4 M", "A 1000", "C 1224"},
		"made-good":    {"235°T 6.0 kn", "249.3°T 6.1 kn", "A 1000", "EP 1100", "1100"},
		"leeway":       {"HDG 041°T", "leeway 8°00′", "A", "B", "EP"},
		"hours":        {"1", "2", "3", "4", "A 1000", "C 1253", "Stream 2: 1030 045°T (1.5 kn), 1 h, 1.5 M"},
		"no-stream":    {"No stream: the ground track is the water track."},
		"tiny":         {"020°T (0.02 kn)"},
		"nothing-good": {"The vessel makes good nothing over the ground."},
	} {
		var texts []string
		for _, e := range elements(t, aTriangle(t, triangles(t)[name])) {
			if e.name == "text" {
				texts = append(texts, e.text)
			}
		}
		for _, w := range want {
			if !slices.Contains(texts, w) {
				t.Errorf("%s: no %q in %q", name, w, texts)
			}
		}
	}
}

// A triangle of any courses and speeds is drawn on its sheet, with no text on another and its
// sides to scale.
func TestTrianglesOfAnyShape(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		motion := func(name string) (angle.True, sailing.Speed) {
			speed := rapid.Float64Range(0, 20).Draw(t, name+" speed")
			if rapid.IntRange(0, 3).Draw(t, name+" power") == 0 {
				speed = math.Pow(10, rapid.Float64Range(-6, 2.9).Draw(t, name+" exponent"))
			}
			return angle.TrueFrom(angle.Angle(rapid.IntRange(0, 359).Draw(t, name)) * angle.Degree), sailing.Speed(speed) * sailing.Knot
		}
		course, speed := motion("water")
		set, rate := motion("stream")
		if speed == 0 && rate == 0 {
			speed = sailing.Knot
		}
		s, err := stream.MadeGood(stream.Motion{Course: course, Speed: speed}, stream.Stream{Set: set, Rate: rate})
		if err != nil {
			t.Fatal(err)
		}
		p := plot.Triangle{Steering: s, MadeGood: rapid.Bool().Draw(t, "made good"), Lasts: time.Duration(rapid.IntRange(1, 100).Draw(t, "quarters")) * 15 * time.Minute}
		if rapid.Bool().Draw(t, "american") {
			p.Signs = signs.UnitedStates
		}
		p.Width = rapid.Float64Range(90, 190).Draw(t, "width")
		sheet := aTriangle(t, p)
		all := elements(t, sheet)
		checkSides(t, "drawn", "water-track", all, vectorOf(course, speed, p.Lasts.Hours()))
		checkSides(t, "drawn", "stream", all, vectorOf(set, rate, p.Lasts.Hours()))
		textsApart(t, "drawn", all)
		var wide, tall float64
		if _, err := fmt.Sscanf(all[0].attribute["viewBox"], "0 0 %g %g", &wide, &tall); err != nil || math.Abs(wide-p.Width) > 0.01 || tall > 1.25*p.Width+60 {
			t.Fatalf("view box %s", all[0].attribute["viewBox"])
		}
		room := drawing.Box{Right: wide, Bottom: tall}
		for _, e := range append(ofClass(all, "water-track"), ofClass(all, "stream")...) {
			for _, s := range e.points(t) {
				if !room.Holds(s) {
					t.Fatalf("%v is off the sheet", s)
				}
			}
		}
	})
}

func TestTrianglesThatCannotBeDrawn(t *testing.T) {
	steering := func(water, rate float64) stream.Steering {
		return stream.Steering{Water: stream.Motion{Speed: sailing.Speed(water)}, Stream: stream.Stream{Rate: sailing.Speed(rate)}}
	}
	for name, p := range map[string]plot.Triangle{
		"zero": {}, "NaN speed": {Steering: steering(math.NaN(), 1)}, "negative speed": {Steering: steering(-1, 1)},
		"infinite rate": {Steering: steering(1, math.Inf(1))}, "NaN rate": {Steering: steering(1, math.NaN())},
		"narrow": {Steering: steering(1, 1), Width: 80}, "wide": {Steering: steering(1, 1), Width: math.NaN()},
		"negative time":     {Steering: steering(1, 1), Lasts: -time.Hour},
		"an hour of 0 time": {Crossing: stream.Crossing{Water: stream.Motion{Speed: 1}, Hours: []stream.CrossingHour{{}}}},
	} {
		_, err := plot.StreamTriangle(p)
		if _, ok := errors.AsType[*angle.RangeError](err); !ok {
			t.Errorf("%s: %v", name, err)
		}
	}
	_, err := plot.StreamTriangle(plot.Triangle{Steering: steering(1, 1), Signs: "baltic"})
	if _, ok := errors.AsType[*angle.ParseError](err); !ok {
		t.Errorf("unknown usage: %v", err)
	}
	for _, leeway := range []stream.Leeway{{Angle: 400 * deg, WindSide: angle.Port}, {Angle: 5 * deg}, {Angle: -5 * deg, WindSide: angle.Port}} {
		_, err := plot.StreamTriangle(plot.Triangle{Steering: steering(1, 1), Leeway: leeway})
		if e, ok := errors.AsType[*stream.Error](err); !ok || e.Kind != stream.InvalidLeeway {
			t.Errorf("%s: %v", leeway, err)
		}
	}
}

// With leeway the course to steer is the heading, to windward of the water track.
func TestCourseToSteerAllowsForLeeway(t *testing.T) {
	p := triangles(t)["steer"]
	p.Leeway = stream.Leeway{Angle: 5 * angle.Degree, WindSide: angle.Starboard}
	if want, got := "Course to steer 136.5°T, allowing 5°00′ for leeway. Water track 131.5°T", aTriangle(t, p).Description(); !strings.Contains(got, want) {
		t.Errorf("no %q in %q", want, got)
	}
}

// Through many streams the triangle lists each of them.
func TestManyStreamsAreListed(t *testing.T) {
	c := stream.Crossing{Water: stream.Motion{Speed: 5 * sailing.Knot}}
	for i := range 24 {
		c.Hours = append(c.Hours, stream.CrossingHour{Lasts: time.Hour, Stream: stream.Stream{Set: angle.TrueFrom(angle.Angle(30*i) * angle.Degree), Rate: sailing.Knot}})
	}
	all := elements(t, aTriangle(t, plot.Triangle{Crossing: c, MadeGood: true}))
	textsApart(t, "many", all)
	listed := 0
	for _, e := range all {
		if _, err := strconv.Atoi(e.text); err == nil && e.attribute["x"] == "1.00" {
			t.Errorf("a bare %s stands in the list", e.text)
		}
		if strings.HasPrefix(e.text, "Stream ") {
			listed++
		}
	}
	if listed != 24 {
		t.Errorf("%d streams are listed", listed)
	}
}
