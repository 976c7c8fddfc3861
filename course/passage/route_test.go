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

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/course/gpx"
	"lubberline.example/course/passage"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
)

// readBack writes a route as GPX and reads it back as waypoints.
func readBack(t *testing.T, r gpx.Route) []passage.Waypoint {
	t.Helper()
	var b bytes.Buffer
	if err := gpx.Write(&b, &gpx.Document{Routes: []gpx.Route{r}}); err != nil {
		t.Fatal(err)
	}
	d, err := gpx.Read(&b)
	if err != nil {
		t.Fatal(err)
	}
	return passage.WaypointsOf(d.Routes[0])
}

// There must be a warning if a great circle becomes a rhumb line that is 13 M longer, or if
// a speed is lost.
func TestRouteWarnings(t *testing.T) {
	p := plan("47°N 010°W", "50°N 032°W", "51°N 033°W")
	p.Waypoints[1].GreatCircle = true
	p.Waypoints[2].Speed = 4.2 * sailing.Knot
	w := worked(t, p)
	r, lost := w.Route(0)
	if len(r.Points) != 3 || len(lost) != 2 || lost[0].Kind != passage.LostInRoute || r.Description != strings.TrimSuffix(lost[0].Message, ": add points along it")+"; "+lost[1].Message {
		t.Fatalf("%+v\n%+v", r, lost)
	}
	rhumb := sailing.WGS84().Rhumb(p.Waypoints[0].Position, p.Waypoints[1].Position).Distance
	for i, want := range []string{"leg 1 is a great circle of " + w.Legs[0].Distance.String() + "; in the route it is a rhumb line of " + rhumb.String(), "the speed of leg 2, 4.2 kn, is not in the route"} {
		if !strings.HasPrefix(lost[i].Message, want) {
			t.Errorf("%q, want %q", lost[i].Message, want)
		}
	}
	for _, apart := range []sailing.Distance{-1, sailing.Distance(math.NaN()), 1} {
		if r, lost := w.Route(apart); len(r.Points) != 3 || len(lost) != 2 {
			t.Errorf("%v apart: %d points, %v", float64(apart), len(r.Points), lost)
		}
	}
}

// With points along it, the great circle is still one after it was read back, to 0.1 M.
func TestRoutePointsAlongGreatCircle(t *testing.T) {
	p := plan("47°N 010°W", "50°N 032°W", "51°N 033°W")
	p.Waypoints[1].GreatCircle = true
	w := worked(t, p)
	r, lost := w.Route(100 * sailing.NauticalMile)
	if len(lost) != 0 || r.Description != "" || len(r.Points) != 11 || r.Points[9].Name != "W1" || r.Points[10].Name != "W2" {
		t.Fatalf("%d points, lost %v", len(r.Points), lost)
	}
	for i := range r.Points[1:] {
		if !r.Points[i+1].Time.After(r.Points[i].Time) {
			t.Errorf("point %d at %v, %d at %v", i, r.Points[i].Time, i+1, r.Points[i+1].Time)
		}
	}
	p.Waypoints = readBack(t, r)
	again := worked(t, p)
	if d := again.Distance - w.Distance; d < 0 || d > sailing.NauticalMile/5 {
		t.Errorf("%v is %v after reading back", w.Distance, again.Distance)
	}
	if d := again.Arrive.Sub(w.Arrive); d < 0 || d > 3*time.Minute {
		t.Errorf("arrives %v later", d)
	}
}

// On WGS84 a great circle is not longer than a rhumb line: 10°N 20°W to 40°N 22°W
// once gave 1803.2 M and 1797.8 M, with the great circle on the sphere.
func TestGreatCircleLegIsShorter(t *testing.T) {
	p := plan("10°N 020°W", "40°N 022°W")
	rhumb := worked(t, p).Distance
	p.Waypoints[1].GreatCircle = true
	circle := worked(t, p)
	if circle.Distance > rhumb || rhumb-circle.Distance > sailing.NauticalMile {
		t.Errorf("great circle %v, rhumb line %v", circle.Distance, rhumb)
	}
	if s, _ := circle.Legs[0].Working().Steps.Find("track"); s.How != "great circle on WGS84, where it begins" {
		t.Errorf("%+v", s)
	}
	// Between antipodes it goes over a pole.
	p = plan("10°N 019°W", "10°S 161°E")
	p.Waypoints[1].GreatCircle = true
	if l := worked(t, p).Legs[0]; l.Track != (angle.True{}) || l.MiddleForTest().Latitude.Degrees() < 80-1 {
		t.Errorf("antipodes: %v, middle %v", l.Track, l.MiddleForTest())
	}
}

// What is written as CSV is read back as the same waypoints; names are data.
func TestCSVRoundTrip(t *testing.T) {
	p := plan("47°00′N 019°00.123456′W", "47°12′N 019°00′W", "47°20′N 019°10′W", "47°20′N 019°30′W")
	for i, name := range []string{"=1+1", "", "'@home", "-3"} {
		p.Waypoints[i].Name = name
	}
	p.Waypoints[2].GreatCircle, p.Waypoints[2].Speed = true, 5.2*sailing.Knot
	p.Streams = stream.Stream{Set: angle.MustParseTrue("180"), Rate: 4.6 * sailing.Knot}
	var b bytes.Buffer
	if err := worked(t, p).WriteCSV(&b); err != nil {
		t.Fatal(err)
	}
	text := b.String()
	for _, want := range []string{",'=1+1,", ",''@home,", ",'-3,", ",5.2 kn,", "great circle", "the speed made good is only"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
	back, err := passage.ReadWaypoints(&b)
	if err != nil || !slices.Equal(back, p.Waypoints) {
		t.Errorf("%v\n%+v\n%+v\n%s", err, back, p.Waypoints, text)
	}
}

// One leg is never 0 min in the working and 1 min in the table, and the times add up.
func TestLegTimesAreRoundedOnce(t *testing.T) {
	p := plan("47°00′N 019°00′W")
	p.Depart = departure.Add(20 * time.Second)
	for i := range 40 {
		p.Waypoints = append(p.Waypoints, passage.Waypoint{Position: angle.Position{
			Latitude:  angle.Must(angle.LatitudeFrom(47*deg + angle.Angle(i+1)*47*angle.Second)),
			Longitude: angle.LongitudeFrom(-19 * deg)}})
	}
	w := worked(t, p)
	table := w.String()
	total := 0
	for _, l := range w.Legs {
		s, _ := l.Working().Steps.Find("time")
		if !strings.Contains(table, s.Value) {
			t.Errorf("leg %d: %s is not in the table\n%s", l.Number(), s.Value, table)
		}
		var hours, minutes int
		if _, err := fmt.Sscanf(s.Value, "%d h %d min", &hours, &minutes); err != nil {
			hours = 0
			if _, err := fmt.Sscanf(s.Value, "%d min", &minutes); err != nil {
				t.Fatal(err)
			}
		}
		total += 60*hours + minutes
	}
	if want := w.Arrive.Round(time.Minute).Sub(w.Legs[0].Begins.Round(time.Minute)); total != int(want.Minutes()) {
		t.Errorf("the legs add up to %d min, the passage takes %v", total, want)
	}
}

// A departure in a zone is printed so, with UTC beside it.
func TestDepartureKeepsItsZone(t *testing.T) {
	p := plan("47°00′N 019°00′W", "47°12′N 019°00′W")
	p.Depart = time.Date(2026, time.July, 3, 0, 30, 0, 0, time.FixedZone("", 2*3600))
	w := worked(t, p)
	got := w.String()
	for _, want := range []string{"Departure 3 July 2026, 00:30 +02:00 (22:30 UTC)\n", "3 Jul 02:30 (00:30 UTC)", "arrival 3 July 2026, 02:30 +02:00 (00:30 UTC)"} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
	if s, _ := w.Legs[0].Working().Steps.Find("arrival"); s.Value != "02:30 +02:00 (00:30 UTC)" || s.How != "3 July 2026" {
		t.Errorf("%+v", s)
	}
	if w.Legs[0].Begins.Location() != time.UTC || !w.Legs[0].Begins.Equal(p.Depart) {
		t.Errorf("%v", w.Legs[0].Begins)
	}
}

// Streams have times of their own: a later departure meets other streams.
func TestStreamsKeepTheirTimes(t *testing.T) {
	streams, err := passage.ReadStreams(strings.NewReader("begins,set,rate\n2026-07-02T06:00Z,090,1\n2026-07-02T08:30:00+02:00,090,2\n2026-07-02T07:00Z,270,2\n2026-07-02T07:30Z,270,2\n2026-07-02T08:00Z,270,2\n"))
	if err != nil || !streams.Start.Equal(departure) || streams.Period != 30*time.Minute {
		t.Fatal(streams, err)
	}
	p := plan("47°00′N 019°00′W", "47°03′N 019°00′W")
	p.Streams = streams
	first := worked(t, p).Legs[0]
	p.Depart = departure.Add(time.Hour)
	second := worked(t, p).Legs[0]
	if first.Water.Course.FromNorth() < 180*deg || second.Water.Course.FromNorth() > 180*deg {
		t.Errorf("steers %v at six, %v at seven", first.Water.Course, second.Water.Course)
	}
	for text, line := range map[string]int{
		"begins,set,rate\n2026-07-02T06:00,090,1\n": 2, "begins,set,rate\nsix,090,1\n": 2,
		"begins,set,rate\n2026-07-02T06:00Z,090,1\n,090,1\n":                                                   3,
		"begins,set,rate\n,090,1\n2026-07-02T06:00Z,090,1\n":                                                   3,
		"begins,set,rate\n2026-07-02T06:00Z,090,1\n2026-07-02T06:00Z,090,1\n":                                  3,
		"begins,set,rate\n2026-07-02T06:00Z,090,1\n2026-07-02T07:00Z,090,1\n2026-07-02T09:00Z,090,1\n":         4,
		"begins,set,rate\n2026-07-02T06:00Z,090,1\n2026-07-02T07:00Z,090,1\n2026-07-02T08:00:00+01:00,090,1\n": 4,
	} {
		_, err := passage.ReadStreams(strings.NewReader(text))
		if e, ok := errors.AsType[*record.Error](err); !ok || e.Line != line || e.Column != "begins" {
			t.Errorf("%q: %v", text, err)
		}
	}
}

// The helm must not turn by twice the leeway because the wind is a second of arc off right astern.
func TestWindNearlyAstern(t *testing.T) {
	p := plan("47°07.8′N 019°01.0′W", "47°03.2′N 019°11.0′W") // track 236°
	p.Leeway = 5 * deg
	heading := func(wind angle.True) (angle.True, passage.Leg) {
		p.WindFrom = new(wind)
		l := worked(t, p).Legs[0]
		return l.Heading.True(), l
	}
	track := worked(t, plan("47°07.8′N 019°01.0′W", "47°03.2′N 019°11.0′W")).Legs[0].Track
	before, _ := heading(track.Reciprocal().Add(-8 * deg))
	for off := -8 * deg; off <= 8*deg; off += deg / 60 {
		got, l := heading(track.Reciprocal().Add(off))
		if turn := got.Sub(before).Abs(); turn > 5*deg {
			t.Fatalf("wind %v off right astern: the heading turns by %v", off, turn)
		}
		if within := off.Abs() <= 5*deg; within != (got == track) || within != (warning(l, stream.BeforeTheWind) != "") {
			t.Fatalf("wind %v off right astern: heads %v, %v", off, got, l.Warnings())
		}
		before = got
	}
	// Near the other edge, closer to the wind than a vessel can sail, it is said.
	for off, want := range map[angle.Angle]bool{6 * deg: true, -6 * deg: true, 44 * deg: true, 46 * deg: false, -90 * deg: false} {
		_, l := heading(track.Add(off))
		if got := warning(l, stream.CloseToTheWind); (got != "") != want {
			t.Errorf("wind %v off the bow: %q", off, got)
		}
	}
}
