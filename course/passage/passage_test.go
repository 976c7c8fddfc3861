package passage_test

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/passage"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
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

func TestSlackWater(t *testing.T) {
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
func TestSteadyStream(t *testing.T) {
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
		flow := stream.Stream{
			Set:  angle.TrueFrom(angle.Angle(rapid.Int64Range(0, int64(angle.Turn)-1).Draw(t, "set"))),
			Rate: sailing.Speed(rapid.Float64Range(0, 5).Draw(t, "rate")) * sailing.Knot,
		}
		p := plan()
		p.Streams = flow
		p.Waypoints = []passage.Waypoint{{Position: at("from")}, {Position: at("to")}}
		if p.Waypoints[0].Position.SamePlace(p.Waypoints[1].Position) {
			return
		}
		w, err := passage.New(p)
		if err != nil {
			t.Fatal(err)
		}
		l := w.Legs[0]
		made, err := stream.MadeGood(l.Water, flow)
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

func TestHourlyStreams(t *testing.T) {
	p := plan("47°00′N 019°00′W", "47°18′N 019°00′W")
	streams := stream.Hourly{Start: departure}
	for _, rate := range []float64{1, 2, 0, 2, 1} {
		streams.Streams = append(streams.Streams, stream.Stream{Set: angle.MustParseTrue("090"), Rate: sailing.Speed(rate) * sailing.Knot})
	}
	p.Streams = streams
	l := worked(t, p).Legs[0]
	// Three hours carry the vessel 1 + 2 + 0 miles east: sin = 3/18, and a little more for
	// the time beyond three hours.
	if got := -l.Water.Course.Sub(l.Track).Degrees(); got < 9.5 || got > 11 {
		t.Errorf("%v to the west of north", got)
	}
	s := l.Working().String()
	for _, want := range []string{"Stream 06:00–07:00 UTC", "Stream 08:00–09:00 UTC", "set 090°T, rate 2.0 kn", "slack water", "All the streams", "Course through the water"} {
		if !strings.Contains(s, want) {
			t.Errorf("no %q in\n%s", want, s)
		}
	}
}

func TestLeeway(t *testing.T) {
	p := plan("47°00′N 019°00′W", "47°12′N 019°00′W")
	p.Leeway = 5 * deg
	for wind, want := range map[string]string{"270": "355", "090": "005"} {
		p.WindFrom = new(angle.MustParseTrue(wind))
		if l := worked(t, p).Legs[0]; l.Heading.True() != angle.MustParseTrue(want) || l.Water.Course != l.Track {
			t.Errorf("wind %s: heads %v", wind, l.Heading)
		}
	}
	// Right before the wind no leeway is allowed for, with a warning.
	p.WindFrom = new(angle.MustParseTrue("180"))
	if l := worked(t, p).Legs[0]; l.Heading.True() != (angle.True{}) || kinds(l) != "before-the-wind" {
		t.Errorf("wind right astern: heads %v, %s", l.Heading, kinds(l))
	}
	// Within 5° of the wind's eye no heading makes the course good.
	for _, wind := range []string{"000", "003", "357"} {
		p.WindFrom = new(angle.MustParseTrue(wind))
		_, err := passage.New(p)
		if e, ok := errors.AsType[*stream.Error](err); !ok || e.Kind != stream.InvalidLeeway {
			t.Errorf("wind %s: %v", wind, err)
		}
	}
	p.WindFrom = nil
	if _, err := passage.New(p); err == nil {
		t.Error("leeway without a wind is accepted")
	}
}

func TestGreatCircleLeg(t *testing.T) {
	p := plan("47°N 010°W", "47°N 060°W")
	rhumb := worked(t, p).Legs[0]
	p.Waypoints[1].GreatCircle = true
	l := worked(t, p).Legs[0]
	if l.Distance >= rhumb.Distance || l.Track.Sub(l.Final) < 30*deg || !strings.Contains(kinds(l), "course-changes") || kinds(rhumb) != "" {
		t.Errorf("%v %v to %v, rhumb %v; warnings %s", l.Distance, l.Track, l.Final, rhumb.Distance, kinds(l))
	}
	if m := l.MiddleForTest(); m.Latitude.Degrees() < 49 || math.Abs(m.Longitude.Degrees()+35) > 1e-9 { // the middle, by symmetry
		t.Errorf("middle %v", m)
	}
}

func TestWarnings(t *testing.T) {
	field := wmm.Models()
	long := plan("47°N 010°W", "47°N 030°W")
	long.Variation = field
	long.Streams = stream.Stream{}
	if got := kinds(worked(t, long).Legs[0]); got != "variation-changes long-for-streams" {
		t.Errorf("a long leg: %s", got)
	}
	weak := plan("47°N 019°W", "47°10′N 019°W")
	weak.Deviation = deviation.East(0).WithUncertainty(angle.Must(angle.StandardUncertainty(2 * deg)))
	weak.Streams = stream.Stream{Set: angle.MustParseTrue("180"), Rate: 5 * sailing.Knot}
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

func TestErrorsNameTheLeg(t *testing.T) {
	against := plan("47°N 019°W", "47°10′N 019°W", "47°20′N 019°W")
	against.Streams = stream.Stream{Set: angle.MustParseTrue("180"), Rate: 7 * sailing.Knot}
	short := plan("47°N 019°W", "47°10′N 019°W", "47°20′N 019°W")
	short.Streams = stream.Hourly{Start: departure, Streams: make([]stream.Stream, 2)}
	none := plan("47°N 019°W", "47°10′N 019°W")
	none.Variation = nil
	still := plan("47°N 019°W", "47°10′N 019°W")
	still.Speed = 0
	nan := plan("47°N 019°W", "47°10′N 019°W")
	nan.Speed = sailing.Speed(math.NaN())
	undated := plan("47°N 019°W", "47°10′N 019°W")
	undated.Depart = time.Time{}
	unlimited := plan("47°N 019°W", "47°10′N 019°W")
	unlimited.MaxOffTrack = sailing.Distance(math.NaN())
	circle := plan("47°N 019°W", "47°10′N 040°W")
	circle.Waypoints[1].GreatCircle = true
	circle.Streams = stream.Hourly{Start: departure, Streams: make([]stream.Stream, 400)}
	for _, c := range []struct {
		name string
		plan passage.Plan
		leg  int
		says string
	}{
		{"no waypoints", plan(), 0, "0 waypoints: give two or more"},
		{"one waypoint", plan("47°N 019°W"), 0, "1 waypoints"},
		{"twice the same", plan("47°N 019°W", "47°10′N 019°W", "47°10′N 019°W"), 2, "same place: leave one of them out"},
		{"a stream too strong", against, 1, "cannot be made good"},
		{"too few streams", short, 2, "no stream for"},
		{"no variation", none, 1, "variation"},
		{"no speed", still, 1, "speed"},
		{"an invalid speed", nan, 1, "speed"},
		{"no departure", undated, 0, "no departure"},
		{"no limit off the track", unlimited, 0, "maximum distance off the track NaN"},
		{"changing streams on a great circle", circle, 1, "split it"},
	} {
		_, err := passage.New(c.plan)
		e, ok := errors.AsType[*passage.Error](err)
		if !ok || e.Leg != c.leg || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

func TestDateLineAndPole(t *testing.T) {
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

func TestWaypointsAreCopied(t *testing.T) {
	p := plan("47°00′N 019°00′W", "47°12′N 019°00′W")
	p.Waypoints[1].Name = "A\nLeg 9:\tB"
	w := worked(t, p)
	p.Waypoints[1].Name = "changed"
	if r, _ := w.Route(0); r.Points[1].Name == "changed" {
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

// The middle of a leg may be 0° N 0° E: then it is meant.
func TestLegThroughOrigin(t *testing.T) {
	p := plan("1°S 1°W", "1°N 1°E")
	p.Depart = time.Date(2026, time.July, 2, 6, 0, 0, 0, time.UTC)
	p.Variation = wmm.WMM2025()
	w := worked(t, p)
	if m := w.Legs[0].MiddleForTest(); m != (angle.Position{}) {
		t.Logf("not tried: the middle is %v", m)
	}
}

// The course and the variation of a great circle are those at its beginning. The
// variation of a rhumb line is that at its middle.
func TestPlaceOfVariation(t *testing.T) {
	p := plan("47°N 010°W", "47°N 040°W")
	p.Variation = wmm.Models()
	for name, great := range map[string]bool{"rhumb line": false, "great circle": true} {
		p.Waypoints[1].GreatCircle = great
		l := worked(t, p).Legs[0]
		at, how := l.MiddleForTest(), "the middle of the leg: one course is steered all along it"
		if great {
			at, how = l.From.Position, "where the leg begins, as the course is"
		}
		want := angle.Must(p.Variation.VariationAt(at, l.Begins))
		if l.Heading.Variation() != want {
			t.Errorf("%s: %v, want %v", name, l.Heading.Variation(), want)
		}
		if s, ok := l.Working().Steps.Find("variation place"); !ok || s.Value != at.String() || s.How != how {
			t.Errorf("%s: %+v", name, s)
		}
	}
	p.Variation = variation.MustParse("5°W") // the same everywhere: no place to name
	if s, ok := worked(t, p).Legs[0].Working().Steps.Find("variation place"); ok {
		t.Errorf("%+v", s)
	}
}

// Under leeway the head is off the water track, and both are printed.
func TestCourseToSteerReasons(t *testing.T) {
	p := plan("47°00′N 019°00′W", "47°12′N 019°00′W")
	track := "the track: no stream and no leeway"
	check := func(name string, water, how, steer string) {
		t.Helper()
		steps := worked(t, p).Legs[0].Working().Steps
		w, has := steps.Find("water course")
		if has != (water != "") || w.Value != water {
			t.Errorf("%s: through the water %+v", name, w)
		}
		if s, _ := steps.Find("true course"); s.What != "Course to steer, true" || s.How != how || s.Value != steer {
			t.Errorf("%s: %+v", name, s)
		}
	}
	check("nothing", "", track, "000°T")
	p.WindFrom, p.Leeway = new(angle.MustParseTrue("090")), 5*deg
	check("leeway", "000°T", "the course through the water, turned into the wind by the leeway", "005°T")
	p.Streams = stream.Stream{Set: angle.MustParseTrue("180"), Rate: sailing.Knot}
	check("both", "000°T", "the course through the water, turned into the wind by the leeway", "005°T")
	p.WindFrom, p.Leeway = nil, 0
	check("a stream", "000°T", "the course through the water", "000°T")
}

// A learner works the track from the differences.
func TestWorkingDifferences(t *testing.T) {
	p := plan("47°00′N 179°50′W", "46°50′N 179°50′E")
	steps := worked(t, p).Legs[0].Working().Steps
	for key, want := range map[string]string{"d.lat": "10.0′S", "d.long": "20.0′W", "departure": "13.7 M W"} {
		if s, ok := steps.Find(key); !ok || s.Value != want {
			t.Errorf("%s: %+v, want %s", key, s, want)
		}
	}
	p.Waypoints[1].GreatCircle = true
	if s, ok := worked(t, p).Legs[0].Working().Steps.Find("departure"); ok {
		t.Errorf("a great circle has no departure: %+v", s)
	}
}

// What is weak about the deviation is among the warnings of the leg.
func TestDeviationWarning(t *testing.T) {
	rows := []deviation.Row[angle.Compass]{{Heading: angle.CompassFrom(5 * deg), Deviation: deviation.East(8 * deg)}}
	for h := angle.Angle(0); h < angle.Turn; h += 45 * deg {
		rows = append(rows, deviation.Row[angle.Compass]{Heading: angle.CompassFrom(h), Deviation: deviation.East(2 * deg)})
	}
	p := plan("47°00′N 019°00′W", "47°12′N 018°50′W")
	p.Deviation = angle.Must(deviation.NewTable(rows)).Smooth()
	l := worked(t, p).Legs[0]
	if !strings.Contains(kinds(l), string(deviation.SwingsOut)) || len(l.Working().Warnings) != len(l.Warnings()) {
		t.Errorf("%v: %v", l.Heading, l.Warnings())
	}
}

func TestNilStreamPointerIsRefused(t *testing.T) {
	for _, streams := range []stream.Source{(*stream.Hourly)(nil), (*stream.Stream)(nil)} {
		p := plan("47°00′N 019°00′W", "47°12′N 019°00′W")
		p.Streams = streams
		_, err := passage.New(p)
		if e, is := errors.AsType[*variation.MissingInputError](err); !is || e.What != "streams" {
			t.Errorf("%T: %v", streams, err)
		}
	}
}

// A pointer to a stream is the stream, on a rhumb line and on a great circle.
func TestPointerToStreamIsTheStream(t *testing.T) {
	flow := stream.Stream{Set: angle.MustParseTrue("045"), Rate: 1.5 * sailing.Knot}
	for _, greatCircle := range []bool{false, true} {
		p := plan("47°00′N 019°00′W", "47°12′N 019°30′W")
		p.Waypoints[1].GreatCircle = greatCircle
		p.Streams = flow
		want := worked(t, p)
		p.Streams = &flow
		if got := worked(t, p); got.Legs[0].Working().String() != want.Legs[0].Working().String() {
			t.Errorf("great circle %v:\n%v\nwant\n%v", greatCircle, got.Legs[0].Working(), want.Legs[0].Working())
		}
	}
}

// A constant of the caller's is the same everywhere: the working says no place for it.
func TestConstantVariationHasNoPlace(t *testing.T) {
	p := plan("47°00′N 019°00′W", "47°12′N 019°30′W")
	for _, c := range []struct {
		source variation.Source
		place  bool
	}{{p.Variation, false}, {constant{}, false}, {new(constant), false}, {wmm.WMM2025(), true}} {
		p.Variation = c.source
		if _, place := worked(t, p).Legs[0].Working().Steps.Find("variation place"); place != c.place {
			t.Errorf("%T: place %v", c.source, place)
		}
	}
}

type constant struct{}

func (constant) VariationAt(angle.Position, time.Time) (variation.Variation, error) {
	return variation.West(5 * deg), nil
}
func (constant) VariationNeeds() (position, date bool) { return false, false }

// warned is a stream whose tide is beyond springs.
type warned struct{ stream.Hourly }

func (warned) Warnings() []working.Warning {
	return []working.Warning{{Kind: "beyond-springs", Message: "the rates are extrapolated"}}
}

// TestWarningsOfStreamsArePrinted prints the warnings of a table of tidal streams once, with the
// first leg.
func TestWarningsOfStreamsArePrinted(t *testing.T) {
	p := plan("47°N 019°W", "47°10′N 019°W", "47°10′N 019°10′W")
	p.Streams = warned{stream.Hourly{Start: departure, Streams: slices.Repeat([]stream.Stream{{Set: angle.MustParseTrue("090"), Rate: sailing.Knot}}, 6)}}
	worked := worked(t, p)
	if kinds(worked.Legs[0]) != "beyond-springs" || kinds(worked.Legs[1]) != "" {
		t.Errorf("%s; %s", kinds(worked.Legs[0]), kinds(worked.Legs[1]))
	}
	if text := worked.String(); strings.Count(text, "Leg 1: the rates are extrapolated\n") != 1 {
		t.Error(text)
	}
}
