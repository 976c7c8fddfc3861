package passage_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"reflect"
	"strings"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/gpx"
	"lubberline.example/course/passage"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

func TestOutputs(t *testing.T) {
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
			Working  working.Sheet
			Warnings []working.Warning

			TrackDegrees, DistanceNauticalMiles, TimeSeconds, SteerCompassDegrees float64
		}
		Caution string

		DistanceNauticalMiles, TimeSeconds float64
	}
	if err := json.Unmarshal(data, &back); err != nil || back.Name != p.Name || len(back.Legs) != 1 || !reflect.DeepEqual(back.Legs[0].Working, w.Legs[0].Working()) || back.Caution == "" {
		t.Errorf("%v: %s", err, data)
	}
	if l := back.Legs[0]; l.TrackDegrees != 0 || l.DistanceNauticalMiles != w.Legs[0].Distance.NauticalMiles() || l.TimeSeconds != 2*3600+3 || l.SteerCompassDegrees != 5 ||
		back.DistanceNauticalMiles != l.DistanceNauticalMiles || back.TimeSeconds != l.TimeSeconds {
		t.Errorf("plain numbers: %+v", back)
	}
	var b bytes.Buffer
	if err := w.WriteCSV(&b); err != nil {
		t.Fatal(err)
	}
	const csv = `leg,name,position,sailing,speed,track_true,distance_nautical_miles,water_course_true,water_speed_knots,leeway_starboard,heading_true,variation_east,heading_magnetic,deviation_east,heading_compass,uncertainty,ground_speed_knots,begins,ends,warnings
,W0,47°00′N 019°00′W,,,,,,,,,,,,,,,,2026-07-02T06:00:00Z,
1,"The Ledge, outer",47°12′N 019°00′W,rhumb,,000.0,12.0,000.0,6.0,0.0,000.0,-5.0,005.0,0.0,005.0,0.5,6.0,2026-07-02T06:00:00Z,2026-07-02T08:00:03Z,
`
	if b.String() != csv {
		t.Errorf("got\n%s", &b)
	}
	r, lost := w.Route(0)
	if len(lost) != 0 || r.Description != "" || r.Name != p.Name || len(r.Points) != 2 || !r.Points[1].Time.Equal(w.Arrive.Round(time.Second)) || r.Points[0].Time != departure {
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

// A Passage encodes alike by value and by pointer, and a leg as in it.
func TestJSONByValueAndPointer(t *testing.T) {
	p := plan("47°00′N 019°00′W", "47°12′N 019°00′W", "47°12′N 018°00′W")
	p.Name, p.WindFrom, p.Leeway = "Out", new(angle.MustParseTrue("300")), 5*deg
	p.Waypoints[1].Speed = 5.5 * sailing.Knot
	w := worked(t, p)
	encoded := func(v any) string {
		t.Helper()
		data, err := json.Marshal(v)
		if err != nil {
			t.Fatal(err)
		}
		return string(data)
	}
	whole := encoded(w)
	if got := encoded(*w); got != whole {
		t.Errorf("by value\n%s\nby pointer\n%s", got, whole)
	}
	if !strings.Contains(whole, encoded(w.Legs[1])) || !strings.HasPrefix(whole, `{"name":"Out","depart":"2026-07-02T06:00:00Z"`) {
		t.Error(whole)
	}
	var back struct {
		Distance sailing.Distance
		WindFrom angle.True
		Legs     []struct {
			Distance      sailing.Distance
			Water, Ground stream.Motion
			Leeway        stream.Leeway
			To            passage.Waypoint
		}
	}
	if err := json.Unmarshal([]byte(whole), &back); err != nil || back.Distance != w.Distance || back.WindFrom != *p.WindFrom || len(back.Legs) != 2 {
		t.Fatal(err, whole)
	}
	for i, l := range w.Legs {
		if b := back.Legs[i]; b.Distance != l.Distance || b.Water != l.Water || b.Ground != l.Ground || b.Leeway != l.Leeway || b.To != l.To {
			t.Errorf("leg %d: %+v", l.Number(), b)
		}
	}
	if (*w).String() != w.String() {
		t.Error("another text")
	}
	if got := encoded(passage.Passage{}); !strings.Contains(got, `"legs":[]`) || strings.Contains(got, "windFrom") {
		t.Error(got)
	}
}

// A map of a leg of which nothing is weak has no warnings, and no null for them.
func TestGeoJSONWarnings(t *testing.T) {
	p := plan("47°00′N 019°00′W", "47°12′N 019°00′W")
	for _, c := range []struct {
		deviation deviation.Source
		warned    bool
	}{{deviation.None(), false}, {deviation.East(0).WithUncertainty(angle.Must(angle.StandardUncertainty(2 * deg))), true}} {
		p.Deviation = c.deviation
		var b bytes.Buffer
		if err := worked(t, p).WriteGeoJSON(&b); err != nil || strings.Contains(b.String(), "warnings") != c.warned || strings.Contains(b.String(), "null") || !strings.Contains(b.String(), `"steerCompassDegrees":5,`) {
			t.Errorf("%v\n%s", err, &b)
		}
	}
}

func TestWaypointsAndLegsOnTheMap(t *testing.T) {
	p := plan("47°00′N 019°00′W", "47°12′N 019°00′W", "47°12′N 018°30′W")
	var b bytes.Buffer
	if err := worked(t, p).WriteGeoJSON(&b); err != nil {
		t.Fatal(err)
	}
	var back struct {
		Features []struct {
			Geometry struct {
				Type        string
				Coordinates json.RawMessage
			}
			Properties map[string]any
		}
	}
	if err := json.Unmarshal(b.Bytes(), &back); err != nil || len(back.Features) != 5 {
		t.Fatalf("%d features, %v", len(back.Features), err)
	}
	for i, want := range []string{"[-19,47]", "[-19,47.2]", "[-18.5,47.2]"} {
		f := back.Features[i]
		if f.Properties["waypoint"] != float64(i+1) || f.Properties["name"] != p.Waypoints[i].Name || string(f.Geometry.Coordinates) != want {
			t.Errorf("waypoint %d: %v at %s, want %s", i+1, f.Properties, f.Geometry.Coordinates, want)
		}
	}
	for i, f := range back.Features[3:] {
		if f.Properties["leg"] != float64(i+1) || f.Geometry.Type != "MultiLineString" {
			t.Errorf("leg %d: %v, a %s", i+1, f.Properties["leg"], f.Geometry.Type)
		}
	}
}

// A nil Passage is one without legs, as the zero one is, and legs may be dropped.
func TestNilPassage(t *testing.T) {
	for _, p := range []*passage.Passage{nil, {}} {
		var table, chart bytes.Buffer
		if err := p.WriteCSV(&table); err != nil || strings.Count(table.String(), "\n") != 1 {
			t.Errorf("%v\n%s", err, &table)
		}
		if err := p.WriteGeoJSON(&chart); err != nil || !strings.Contains(chart.String(), `"features":[]`) {
			t.Errorf("%v\n%s", err, &chart)
		}
		if r, lost := p.Route(0); lost != nil || len(r.Points) != 0 {
			t.Errorf("%+v", r)
		}
	}
	w := worked(t, plan("47°00′N 019°00′W", "47°12′N 019°00′W"))
	w.Legs = nil
	if r, _ := w.Route(0); len(r.Points) != 2 {
		t.Errorf("%+v", r)
	}
}

type full struct{}

var errFull = errors.New("full")

func (full) Write([]byte) (int, error) { return 0, errFull }

func TestWriterErrorIsReturned(t *testing.T) {
	w := worked(t, plan("47°00′N 019°00′W", "47°12′N 019°00′W"))
	if err := w.WriteCSV(full{}); !errors.Is(err, errFull) {
		t.Error(err)
	}
	if err := w.WriteGeoJSON(full{}); !errors.Is(err, errFull) {
		t.Error(err)
	}
}

func TestPassageText(t *testing.T) {
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
		"Total 1", "; arrival 1",
		"Leg 2: the great circle's course goes from 079.",
		"± is one standard uncertainty", "An aid for checking.",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
}

func TestErrorUnwraps(t *testing.T) {
	e := &passage.Error{Leg: 3, Err: errFull}
	if !errors.Is(e, errFull) || e.Error() != "passage: leg 3, full" {
		t.Error(e)
	}
}

// A waypoint's name comes from a file: it cannot steer a terminal, turn the line around or
// run as a formula of a spreadsheet.
func TestNamesFromFilesAreHarmless(t *testing.T) {
	waypoints, err := passage.ReadWaypoints(strings.NewReader("name,position\nOrlesk,47°08.4′N 019°00.0′W\n\"=1+1 \u202edael\x1b[31m\",47°03.6′N 019°11.6′W\n"))
	if err != nil {
		t.Fatal(err)
	}
	p, err := passage.New(passage.Plan{Waypoints: waypoints, Variation: variation.West(5 * angle.Degree), Deviation: deviation.None(), Speed: 5 * sailing.Knot, Depart: time.Date(2026, time.July, 2, 9, 0, 0, 0, time.UTC)})
	if err != nil {
		t.Fatal(err)
	}
	if text := p.String(); strings.ContainsAny(text, "\u202e\x1b") || !strings.Contains(text, `=1+1 \u202edael\x1b[31m`) {
		t.Errorf("%q", text)
	}
	var b strings.Builder
	if err := p.WriteCSV(&b); err != nil || strings.Contains(b.String(), ",=1") || !strings.Contains(b.String(), ",'=1+1") {
		t.Errorf("%v: %q", err, b.String())
	}
}
