package passage_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/course"
	"lubberline.example/course/gpx"
	"lubberline.example/course/passage"
	"lubberline.example/course/sailing"
	"lubberline.example/deviation"
	"lubberline.example/variation"
	"lubberline.example/wmm"
)

const deg = angle.Degree

var departure = time.Date(2026, time.July, 2, 6, 0, 0, 0, time.UTC)

// plan is a plan through some places, at 6 knots, variation 5°W ±0°30′ and no
// deviation.
func plan(places ...string) passage.Plan {
	p := passage.Plan{
		Depart: departure, Speed: 6 * sailing.Knot,
		Variation: variation.MustParse("5°W ±0°30′"), Deviation: deviation.None(),
	}
	for i, place := range places {
		p.Waypoints = append(p.Waypoints, passage.Waypoint{Name: fmt.Sprintf("W%d", i), Position: angle.MustParsePosition(place)})
	}
	return p
}

func worked(t testing.TB, p passage.Plan) *passage.Passage {
	t.Helper()
	w, err := passage.New(p)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// kinds are those of the warnings of a leg.
func kinds(l passage.Leg) string {
	var out []string
	for _, w := range l.Warnings() {
		out = append(out, string(w.Kind))
	}
	return strings.Join(out, " ")
}

func TestALegInSlackWaterSteersItsTrack(t *testing.T) {
	w := worked(t, plan("47°00′N 019°00′W", "47°12′N 019°00′W", "47°12′N 019°30′W"))
	first, second := w.Legs[0], w.Legs[1]
	if first.Track != (angle.True{}) || first.Heading.Magnetic() != angle.MustParseMagnetic("005") || first.Water.Course != first.Track {
		t.Errorf("%+v", first)
	}
	// A minute of latitude there is 1852.8 m: 12′ are 12.005 M, two hours and 3 s.
	if d := first.Distance.NauticalMiles(); math.Abs(d-12) > 0.01 || math.Abs(first.Time().Hours()-2) > 0.002 {
		t.Errorf("%v in %v", first.Distance, first.Time())
	}
	if second.Begins != first.Ends || w.Arrive != second.Ends || w.Distance != first.Distance+second.Distance || second.Track != angle.MustParseTrue("270") {
		t.Errorf("%+v", w)
	}
}

// A plan and its parts agree: time, distance, and the triangle of velocities.
func TestASteadyStreamIsAllowedFor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := func(label string) angle.Position {
			lat := rapid.Float64Range(-60, 60).Draw(t, label+" latitude")
			lon := rapid.Float64Range(-180, 180).Draw(t, label+" longitude")
			p, err := angle.PositionDegrees(lat, lon)
			if err != nil {
				t.Fatal(err)
			}
			return p
		}
		stream := course.Stream{
			Set:  angle.TrueFrom(angle.Angle(rapid.Int64Range(0, int64(angle.Turn)-1).Draw(t, "set"))),
			Rate: sailing.Speed(rapid.Float64Range(0, 5).Draw(t, "rate")) * sailing.Knot,
		}
		p := plan()
		p.Streams = stream
		p.Waypoints = []passage.Waypoint{{Position: at("from")}, {Position: at("to")}}
		if p.Waypoints[0].Position.SamePlace(p.Waypoints[1].Position) {
			return
		}
		w, err := passage.New(p)
		if err != nil {
			t.Fatal(err)
		}
		l := w.Legs[0]
		made, err := course.MadeGood(l.Water, stream)
		if err != nil {
			t.Fatal(err)
		}
		if off := made.Ground.Course.Sub(l.Track); off.Abs() > deg/1_000_000 { // rounding of courses, near a standstill
			t.Fatalf("made good %v on a track of %v", made.Ground, l.Track)
		}
		// Times are to the nanosecond.
		if d := float64(made.Ground.Speed.For(l.Time()) - l.Distance); math.Abs(d) > 1e-6*float64(l.Distance)+1e-3 {
			t.Fatalf("%v made good in %v, %v to go", made.Ground, l.Time(), l.Distance)
		}
	})
}

func TestHourlyStreamsAreAllowedForOverTheWholeLeg(t *testing.T) {
	p := plan("47°00′N 019°00′W", "47°18′N 019°00′W")
	streams := course.HourlyStreams{Start: departure}
	for _, rate := range []float64{1, 2, 0, 2, 1} {
		streams.Streams = append(streams.Streams, course.Stream{Set: angle.MustParseTrue("090"), Rate: sailing.Speed(rate) * sailing.Knot})
	}
	p.Streams = streams
	l := worked(t, p).Legs[0]
	// Three hours carry her 1 + 2 + 0 miles east: sin = 3/18, and a little more for
	// the time beyond three hours.
	if got := -l.Water.Course.Sub(l.Track).Degrees(); got < 9.5 || got > 11 {
		t.Errorf("%v to the west of north", got)
	}
	s := l.Working().String()
	for _, want := range []string{"Stream from 06:00", "Stream from 08:00", "All the streams", "Course through the water"} {
		if !strings.Contains(s, want) {
			t.Errorf("no %q in\n%s", want, s)
		}
	}
}

func TestLeewayIsHeadedUpFor(t *testing.T) {
	p := plan("47°00′N 019°00′W", "47°12′N 019°00′W")
	p.Leeway = 5 * deg
	for wind, want := range map[string]string{"270": "355", "090": "005"} {
		p.Wind = &course.Wind{From: angle.MustParseTrue(wind)}
		if l := worked(t, p).Legs[0]; l.Heading.True() != angle.MustParseTrue(want) || l.Water.Course != l.Track {
			t.Errorf("wind %s: heads %v", wind, l.Heading)
		}
	}
	// Right before the wind there is none, and that is said.
	p.Wind = &course.Wind{From: angle.MustParseTrue("180")}
	if l := worked(t, p).Legs[0]; l.Heading.True() != (angle.True{}) || kinds(l) != "before-the-wind" {
		t.Errorf("wind right astern: heads %v, %s", l.Heading, kinds(l))
	}
	// Within 5° of the wind's eye no heading makes the course good.
	for _, wind := range []string{"000", "003", "357"} {
		p.Wind = &course.Wind{From: angle.MustParseTrue(wind)}
		_, err := passage.New(p)
		if _, ok := errors.AsType[*course.LeewayError](err); !ok {
			t.Errorf("wind %s: %v", wind, err)
		}
	}
	p.Wind = nil
	if _, err := passage.New(p); err == nil {
		t.Error("leeway without a wind is accepted")
	}
}

func TestAGreatCircleIsAskedForLegByLeg(t *testing.T) {
	p := plan("47°N 010°W", "47°N 060°W")
	rhumb := worked(t, p).Legs[0]
	p.Waypoints[1].GreatCircle = true
	l := worked(t, p).Legs[0]
	if l.Distance >= rhumb.Distance || l.Track.Sub(l.Final) < 30*deg || !strings.Contains(kinds(l), "course-changes") || kinds(rhumb) != "" {
		t.Errorf("%v %v to %v, rhumb %v; warnings %s", l.Distance, l.Track, l.Final, rhumb.Distance, kinds(l))
	}
	if m := l.Middle(); m.Latitude.Degrees() < 49 || math.Abs(m.Longitude.Degrees()+35) > 1e-9 { // the middle, by symmetry
		t.Errorf("middle %v", m)
	}
}

func TestWhatIsWeakIsSaid(t *testing.T) {
	field := wmm.Models()
	long := plan("47°N 010°W", "47°N 030°W")
	long.Variation = field
	long.Streams = course.Stream{}
	if got := kinds(worked(t, long).Legs[0]); got != "variation-changes long-for-streams" {
		t.Errorf("a long leg: %s", got)
	}
	weak := plan("47°N 019°W", "47°10′N 019°W")
	weak.Deviation = deviation.East(0).WithUncertainty(angle.Must(angle.StandardUncertainty(2 * deg)))
	weak.Streams = course.Stream{Set: angle.MustParseTrue("180"), Rate: 5 * sailing.Knot}
	if got := kinds(worked(t, weak).Legs[0]); got != "deviation-unsure stream-nearly-stops" {
		t.Errorf("a weak leg: %s", got)
	}
	polar := plan("86°N 170°E", "86°N 171°E")
	polar.Variation = field
	if got := kinds(worked(t, polar).Legs[0]); !strings.Contains(got, "zone") {
		t.Errorf("near the dip pole: %s", got)
	}
	chart, err := variation.NewChart("", variation.ChartRose{Position: angle.MustParsePosition("47°N 019°W"), Rose: variation.MustParseLegend("7°20′W 2015 (12′E)")},
		variation.ChartRose{Position: angle.MustParsePosition("47°20′N 019°W"), Rose: variation.MustParseLegend("9°20′W 2015 (12′E)")})
	if err != nil {
		t.Fatal(err)
	}
	two := plan("47°N 019°W", "47°20′N 019°W")
	two.Variation = chart
	if got := kinds(worked(t, two).Legs[0]); !strings.Contains(got, "variation-changes") || len(strings.Fields(got)) < 2 {
		t.Errorf("two roses that disagree: %s", got)
	}
}

func TestPlansThatCannotBeWorkedNameTheLeg(t *testing.T) {
	against := plan("47°N 019°W", "47°10′N 019°W", "47°20′N 019°W")
	against.Streams = course.Stream{Set: angle.MustParseTrue("180"), Rate: 7 * sailing.Knot}
	short := plan("47°N 019°W", "47°10′N 019°W", "47°20′N 019°W")
	short.Streams = course.HourlyStreams{Start: departure, Streams: make([]course.Stream, 2)}
	none := plan("47°N 019°W", "47°10′N 019°W")
	none.Variation = nil
	still := plan("47°N 019°W", "47°10′N 019°W")
	still.Speed = 0
	nan := plan("47°N 019°W", "47°10′N 019°W")
	nan.Speed = sailing.Speed(math.NaN())
	undated := plan("47°N 019°W", "47°10′N 019°W")
	undated.Depart = time.Time{}
	circle := plan("47°N 019°W", "47°10′N 040°W")
	circle.Waypoints[1].GreatCircle = true
	circle.Streams = course.HourlyStreams{Start: departure, Streams: make([]course.Stream, 400)}
	antipodes := plan("10°N 019°W", "10°S 161°E")
	antipodes.Waypoints[1].GreatCircle = true
	for _, c := range []struct {
		name string
		plan passage.Plan
		leg  int
		says string
	}{
		{"no waypoints", plan(), 0, "0 waypoints: want two or more"},
		{"one waypoint", plan("47°N 019°W"), 0, "1 waypoints"},
		{"twice the same", plan("47°N 019°W", "47°10′N 019°W", "47°10′N 019°W"), 2, "same place"},
		{"a stream too strong", against, 1, "can't be made good"},
		{"too few streams", short, 2, "no stream for"},
		{"no variation", none, 1, "variation"},
		{"no speed", still, 1, "speed"},
		{"a speed that is none", nan, 1, "speed"},
		{"antipodes", antipodes, 1, "antipodes"},
		{"no departure", undated, 0, "no departure"},
		{"changing streams on a great circle", circle, 1, "split it"},
	} {
		_, err := passage.New(c.plan)
		e, ok := errors.AsType[*passage.PlanError](err)
		if !ok || e.Leg != c.leg || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

func TestLegsOverTheDateLineAndToThePole(t *testing.T) {
	w := worked(t, plan("10°N 179°E", "10°N 179°W", "90°N 000°E", "80°N 045°E"))
	if w.Legs[0].Track != angle.MustParseTrue("090") || w.Legs[0].Distance > 130*sailing.NauticalMile {
		t.Errorf("%+v", w.Legs[0])
	}
	if w.Legs[1].Track != (angle.True{}) || w.Legs[2].Track != angle.MustParseTrue("180") {
		t.Errorf("to the pole %v, from it %v", w.Legs[1].Track, w.Legs[2].Track)
	}
	var b bytes.Buffer
	if err := w.WriteGeoJSON(&b); err != nil || !strings.Contains(b.String(), "[180,10]],[[-180,10]") {
		t.Errorf("%v\n%s", err, &b)
	}
}

func TestAPassageAsDataCSVAndRoute(t *testing.T) {
	p := plan("47°00′N 019°00′W", "47°12′N 019°00′W")
	p.Name = "Out, and \"back\""
	p.Waypoints[1].Name = "The Ledge, outer"
	w := worked(t, p)
	data, err := json.Marshal(w)
	if err != nil {
		t.Fatal(err)
	}
	var back struct {
		Name string
		Legs []struct {
			To       struct{ Name, Position string }
			Working  []struct{ Key, Value string }
			Warnings []passage.Warning
		}
		Caution string
	}
	if err := json.Unmarshal(data, &back); err != nil || back.Name != p.Name || len(back.Legs) != 1 || len(back.Legs[0].Working) < 5 || back.Caution == "" {
		t.Errorf("%v: %s", err, data)
	}
	var b bytes.Buffer
	if err := w.WriteCSV(&b); err != nil {
		t.Fatal(err)
	}
	const csv = `leg,from,to,line,track_true,distance_nautical_miles,water_course_true,water_speed_knots,leeway_starboard,heading_true,variation_east,heading_magnetic,deviation_east,heading_compass,uncertainty,ground_speed_knots,begins,ends
1,W0,"The Ledge, outer",rhumb,000.0,12.0,000.0,6.0,0.0,000.0,-5.0,005.0,0.0,005.0,0.5,6.0,2026-07-02T06:00:00Z,2026-07-02T08:00:03Z
`
	if b.String() != csv {
		t.Errorf("got\n%s", &b)
	}
	r := w.Route()
	if r.Name != p.Name || len(r.Points) != 2 || !r.Points[1].Time.Equal(w.Arrive.Round(time.Second)) || r.Points[0].Time != departure {
		t.Errorf("%+v", r)
	}
	b.Reset()
	if err := gpx.Write(&b, &gpx.Document{Routes: []gpx.Route{r}}); err != nil {
		t.Fatal(err)
	}
	again, err := gpx.Read(&b)
	if err != nil || passage.WaypointsOf(again.Routes[0])[1] != p.Waypoints[1] {
		t.Errorf("%+v, %v", again, err)
	}
}

type full struct{}

var errFull = errors.New("full")

func (full) Write([]byte) (int, error) { return 0, errFull }

func TestAWritersErrorComesBack(t *testing.T) {
	w := worked(t, plan("47°00′N 019°00′W", "47°12′N 019°00′W"))
	if err := w.WriteCSV(full{}); !errors.Is(err, errFull) {
		t.Error(err)
	}
	if err := w.WriteGeoJSON(full{}); !errors.Is(err, errFull) {
		t.Error(err)
	}
}

func TestWaypointsAndStreamsAreReadWithTheirLines(t *testing.T) {
	points, err := passage.ReadWaypoints(strings.NewReader("name,position,speed,sailing\nOne,47°N 019°W,,\n,\"47.1, -19.2\",5.5 kn,Great Circle\nThree,48N 20W,4,rhumb\n"))
	if err != nil || len(points) != 3 || points[0].Name != "One" || points[1].Speed != 5.5*sailing.Knot || !points[1].GreatCircle || points[2].GreatCircle || points[1].String() != "47°06.0′N 019°12.0′W" {
		t.Errorf("%+v, %v", points, err)
	}
	for text, column := range map[string]string{
		"position\n47N 19W\n91N 19W\n":                         "position",
		"position,speed\n47N 19W,1\n47N 19W,x\n":               "speed",
		"position,speed\n47N 19W,1\n47N 19W,-1\n":              "speed",
		"position,sailing\n47N 19W,rhumb\n47N 19W,loxodrome\n": "sailing",
	} {
		_, err := passage.ReadWaypoints(strings.NewReader(text))
		if e, ok := errors.AsType[*record.Error](err); !ok || e.Line != 3 || e.Column != column {
			t.Errorf("%q: %v", text, err)
		}
	}
	streams, err := passage.ReadStreams(strings.NewReader("set,rate\n045,1.5\n225°T,0\n"))
	if err != nil || len(streams.Streams) != 2 || streams.Streams[0].Rate != 1.5*sailing.Knot {
		t.Errorf("%+v, %v", streams, err)
	}
	for text, column := range map[string]string{"set,rate\n400,1\n": "set", "set,rate\n045°M,1\n": "set", "set,rate\n040,NaN\n": "rate", "set,rate\n040,1000\n": "rate"} {
		_, err := passage.ReadStreams(strings.NewReader(text))
		if e, ok := errors.AsType[*record.Error](err); !ok || e.Line != 2 || e.Column != column {
			t.Errorf("%q: %v", text, err)
		}
	}
}

func FuzzReadWaypoints(f *testing.F) {
	f.Add("name,position,speed,sailing\nOne,47°N 019°W,5,great circle\n")
	f.Add(`[{"position": "47.1, -19.2", "speed": 4}]`)
	f.Fuzz(func(t *testing.T, text string) {
		points, err := passage.ReadWaypoints(strings.NewReader(text))
		if err != nil {
			if _, ok := errors.AsType[*record.Error](err); !ok {
				t.Fatalf("%#v", err)
			}
			return
		}
		p := plan()
		p.Waypoints = points
		if w, err := passage.New(p); err == nil {
			_ = w.String()
		} else if _, ok := errors.AsType[*passage.PlanError](err); !ok {
			t.Fatalf("%#v", err)
		}
	})
}

func FuzzReadStreams(f *testing.F) {
	f.Add("set,rate\n045,1.5\n225°T,0 kn\n")
	f.Fuzz(func(t *testing.T, text string) {
		if _, err := passage.ReadStreams(strings.NewReader(text)); err != nil {
			if _, ok := errors.AsType[*record.Error](err); !ok {
				t.Fatalf("%#v", err)
			}
		}
	})
}

// legs is a plan of n legs to and fro, with the sources of a real passage.
func legs(b testing.TB, n int) passage.Plan {
	b.Helper()
	file, err := os.Open("../../examples/passage/roses.csv")
	if err != nil {
		b.Fatal(err)
	}
	defer file.Close()
	chart, err := variation.ReadChart("", file)
	if err != nil {
		b.Fatal(err)
	}
	var rows []deviation.Row[angle.Compass]
	for h := angle.Angle(0); h < angle.Turn; h += 15 * deg {
		rows = append(rows, deviation.Row[angle.Compass]{Heading: angle.CompassFrom(h), Deviation: deviation.East(angle.Must((3 * deg).Scale(h.Sin())))})
	}
	p := plan()
	p.Variation, p.Deviation = chart, angle.Must(deviation.NewTable(rows))
	p.Streams = course.Stream{Set: angle.MustParseTrue("045"), Rate: sailing.Knot}
	for i := range n + 1 {
		p.Waypoints = append(p.Waypoints, passage.Waypoint{Position: angle.Must(angle.PositionDegrees(47+0.1*math.Sin(float64(i)), -19+0.2*math.Cos(float64(2*i))))})
	}
	return p
}

var kept *passage.Passage

func BenchmarkTenThousandLegs(b *testing.B) {
	p := legs(b, 10_000)
	b.ReportAllocs()
	for b.Loop() {
		kept = worked(b, p)
	}
}

func TestAPassageAsText(t *testing.T) {
	p := plan("47°00′N 019°00′W", "47°12′N 019°00′W", "47°12′N 010°00′E")
	p.Name = "Out and about"
	p.Variation = variation.MustParse("5°W")
	p.Waypoints[2].GreatCircle = true
	p.Waypoints[2].Name = ""
	got := worked(t, p).String()
	for _, want := range []string{
		"Out and about\nDeparture 2 July 2026, 06:00 UTC\n",
		"1    W1 ",
		"000.0°T  12.0 M", "not stated", "2 Jul 08:00",
		"2    47°12.0′N 010°00.0′E",
		"Together 1", "; arrival 1",
		"Leg 2: the great circle's course goes from 079.",
		"± is one standard uncertainty", "An aid for checking.",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
}

func TestALegsErrorsUnwrap(t *testing.T) {
	e := &passage.PlanError{Leg: 3, From: passage.Waypoint{Name: "A"}, To: passage.Waypoint{Name: "B"}, Err: errFull}
	if !errors.Is(e, errFull) || e.Error() != "passage: leg 3, A to B: full" {
		t.Error(e)
	}
}

func TestAPassageKeepsItsOwnWaypoints(t *testing.T) {
	p := plan("47°00′N 019°00′W", "47°12′N 019°00′W")
	p.Waypoints[1].Name = "A\nLeg 9:\tB"
	w := worked(t, p)
	p.Waypoints[1].Name = "changed"
	if got := w.Route().Points[1].Name; got == "changed" {
		t.Error("the caller's waypoints are the passage's")
	}
	if got := w.Legs[0].To.String(); got != "A Leg 9: B" {
		t.Errorf("%q", got)
	}
	var none passage.Leg
	if none.Warnings() != nil || len(none.Working().Steps) != 0 {
		t.Error("a leg that was not worked has a working")
	}
}
