package gpx_test

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"
	"time"
	"unicode"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/gpx"
)

// written writes a document and reads it back.
func written(t rapid.TB, d *gpx.Document) *gpx.Document {
	t.Helper()
	var b bytes.Buffer
	if err := gpx.Write(&b, d); err != nil {
		t.Fatal(err)
	}
	again, err := gpx.ReadWithTracks(&b)
	if err != nil {
		t.Fatal(err)
	}
	return again
}

// anyText draws a text as XML can hold it; space before and after is no part of a
// name.
func anyText() *rapid.Generator[string] {
	return rapid.Map(rapid.OneOf(rapid.String(), rapid.StringOf(rapid.SampledFrom([]rune("<>&\"'] —Øé日本🚢\t\n\ra")))), func(s string) string {
		s = strings.Map(func(r rune) rune {
			if unicode.IsControl(r) && r != '\t' && r != '\n' && r != '\r' || r == 0xFFFE || r == 0xFFFF {
				return -1
			}
			return r
		}, strings.ToValidUTF8(s, ""))
		return strings.TrimSpace(s)
	})
}

func anyTime() *rapid.Generator[time.Time] {
	return rapid.OneOf(rapid.Just(time.Time{}), rapid.Map(rapid.Int64(), func(ns int64) time.Time { return time.Unix(0, ns).UTC() }))
}

// anyPoint draws a point whose position is any unit of angle.
func anyPoint() *rapid.Generator[gpx.Point] {
	return rapid.Custom(func(t *rapid.T) gpx.Point {
		latitude := rapid.Int64Range(-int64(90*angle.Degree), int64(90*angle.Degree)).Draw(t, "latitude")
		longitude := rapid.Int64Range(-int64(180*angle.Degree), int64(180*angle.Degree)).Draw(t, "longitude")
		return gpx.Point{
			Position: angle.Position{Latitude: angle.Must(angle.LatitudeFrom(angle.Angle(latitude))), Longitude: angle.LongitudeFrom(angle.Angle(longitude))},
			Name:     anyText().Draw(t, "name"), Comment: anyText().Draw(t, "comment"), Description: anyText().Draw(t, "description"),
			Symbol: anyText().Draw(t, "symbol"), Type: anyText().Draw(t, "type"), Time: anyTime().Draw(t, "time"),
		}
	})
}

func TestWriteReadRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		points := rapid.SliceOfN(anyPoint(), 0, 4)
		d := &gpx.Document{Creator: anyText().Draw(t, "creator"), Name: anyText().Draw(t, "name"), Time: anyTime().Draw(t, "time"), Waypoints: points.Draw(t, "waypoints")}
		for range rapid.IntRange(0, 3).Draw(t, "routes") {
			d.Routes = append(d.Routes, gpx.Route{Name: anyText().Draw(t, "route"), Description: anyText().Draw(t, "description"), Points: points.Draw(t, "points")})
		}
		for range rapid.IntRange(0, 2).Draw(t, "tracks") {
			track := gpx.Track{Name: anyText().Draw(t, "track")}
			for range rapid.IntRange(0, 2).Draw(t, "segments") {
				track.Segments = append(track.Segments, points.Draw(t, "segment"))
			}
			d.Tracks = append(d.Tracks, track)
		}
		got := written(t, d)
		if d.Creator == "" {
			d.Creator = "lubberline"
		}
		if diff := cmp.Diff(d, got, cmpopts.EquateEmpty()); diff != "" {
			t.Fatal(diff)
		}
	})
}

func TestPositionsRoundTripExactly(t *testing.T) {
	d := &gpx.Document{}
	for _, near := range []angle.Angle{0, angle.Degree, -angle.Degree, 90*angle.Degree - 3, 90 * angle.Degree / 7, -90*angle.Degree + 3} {
		for off := angle.Angle(-3); off <= 3; off++ {
			d.Waypoints = append(d.Waypoints, gpx.Point{Position: angle.Position{Latitude: angle.Must(angle.LatitudeFrom(near + off)), Longitude: angle.LongitudeFrom(2 * (near + off))}})
			d.Waypoints = append(d.Waypoints, gpx.Point{Position: angle.Position{Longitude: angle.LongitudeFrom(2*near + off)}})
		}
	}
	for i, p := range written(t, d).Waypoints {
		if p.Position != d.Waypoints[i].Position {
			t.Errorf("%v became %v", d.Waypoints[i].Position, p.Position)
		}
	}
}

// In the schema longitudes go from −180 to below 180.
func TestLongitude180IsWrittenAsMinus180(t *testing.T) {
	d := &gpx.Document{Waypoints: []gpx.Point{{Position: at("1", "180")}, {Position: at("1", "-180")}, {Position: at("-90", "179.9999999999997")}}}
	var b bytes.Buffer
	if err := gpx.Write(&b, d); err != nil {
		t.Fatal(err)
	}
	if got := b.String(); strings.Count(got, `lon="-180"`) != 2 || strings.Contains(got, `lon="180`) {
		t.Error(got)
	}
	if diff := cmp.Diff(d.Waypoints, written(t, d).Waypoints); diff != "" {
		t.Error(diff)
	}
}

// XML has no place for most control characters: U+FFFD stands for them.
func TestInvalidCharactersAreReplaced(t *testing.T) {
	for text, want := range map[string]string{
		"a\x00b": "a\uFFFDb", "a\x1bb": "a\uFFFDb", "a\uFFFEb": "a\uFFFDb", "a\xffb": "a\uFFFDb",
		"a\tb\nc\rd": "a\tb\nc\rd", // these it holds
		" apart ":    "apart",      // space around a text is no part of it
	} {
		got := written(t, &gpx.Document{Name: text, Waypoints: []gpx.Point{{Name: text}}})
		if got.Name != want || got.Waypoints[0].Name != want {
			t.Errorf("%q came back as %q and %q, want %q", text, got.Name, got.Waypoints[0].Name, want)
		}
	}
}

// order is that of the schema, for the elements that are written.
var order = map[string][]string{
	"gpx":      {"metadata", "wpt", "rte", "trk"},
	"trk":      {"name", "trkseg"},
	"trkseg":   {"trkpt"},
	"trkpt":    {"time", "name", "cmt", "desc", "sym", "type"},
	"metadata": {"name", "time"},
	"wpt":      {"time", "name", "cmt", "desc", "sym", "type"},
	"rtept":    {"time", "name", "cmt", "desc", "sym", "type"},
	"rte":      {"name", "desc", "rtept"},
}

func TestElementOrderOfTheSchema(t *testing.T) {
	point := gpx.Point{Position: at("47", "-19"), Name: "a", Comment: "b", Description: "c", Symbol: "d", Type: "e", Time: time.Date(2026, time.July, 2, 8, 0, 0, 0, time.FixedZone("", 7200))}
	d := &gpx.Document{Creator: `by "hand"`, Name: "f", Time: point.Time, Waypoints: []gpx.Point{point, point}, Routes: []gpx.Route{{Name: "g", Description: "h", Points: []gpx.Point{point, point}}}, Tracks: []gpx.Track{{Name: "i", Segments: [][]gpx.Point{{point}}}}}
	var b bytes.Buffer
	if err := gpx.Write(&b, d); err != nil {
		t.Fatal(err)
	}
	if !strings.HasPrefix(b.String(), xml.Header+"<gpx version=\"1.1\" creator=\"by &#34;hand&#34;\" xmlns=\"http://www.topografix.com/GPX/1/1\">\n") || !strings.HasSuffix(b.String(), "</gpx>\n") {
		t.Error(b.String())
	}
	if strings.Count(b.String(), "<time>2026-07-02T06:00:00Z</time>") != 6 {
		t.Errorf("times are not in UTC:\n%s", b.String())
	}
	type open struct {
		name string
		next int
	}
	var stack []open
	seen := map[string]bool{}
	for decoder := xml.NewDecoder(&b); ; {
		token, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			name := token.Name.Local
			if token.Name.Space != gpx.Namespace {
				t.Errorf("%s is of %q", name, token.Name.Space)
			}
			if len(stack) > 0 {
				parent := &stack[len(stack)-1]
				allowed := order[parent.name]
				for parent.next < len(allowed) && allowed[parent.next] != name {
					parent.next++
				}
				if parent.next == len(allowed) {
					t.Errorf("%s in %s out of order", name, parent.name)
				}
				seen[parent.name+" "+name] = true
			}
			stack = append(stack, open{name: name})
		case xml.EndElement:
			stack = stack[:len(stack)-1]
		}
	}
	for parent, children := range order {
		for _, child := range children {
			if !seen[parent+" "+child] {
				t.Errorf("no %s in %s", child, parent)
			}
		}
	}
}

func TestEmptyDocument(t *testing.T) {
	got := written(t, &gpx.Document{})
	if diff := cmp.Diff(&gpx.Document{Creator: "lubberline"}, got); diff != "" {
		t.Error(diff)
	}
}

func TestTimesOutsideTheSchema(t *testing.T) {
	for _, year := range []int{-1, 10_000, 60_000} {
		bad := time.Date(year, time.July, 2, 0, 0, 0, 0, time.UTC)
		for where, d := range map[string]*gpx.Document{
			"of the document":    {Time: bad},
			`of point "Orlesk"`:  {Waypoints: []gpx.Point{{}, {Name: "Orlesk", Time: bad}}},
			`of point "Braddle"`: {Waypoints: []gpx.Point{{}}, Routes: []gpx.Route{{}, {Points: []gpx.Point{{Name: "Braddle", Time: bad}}}}},
			`of point "Quay"`:    {Tracks: []gpx.Track{{Segments: [][]gpx.Point{{}, {{Name: "Quay", Time: bad}}}}}},
		} {
			var b bytes.Buffer
			err := gpx.Write(&b, d)
			if e, is := errors.AsType[*gpx.Error](err); !is || e.Line != 0 || e.Element != "time" || b.Len() > 0 || !strings.Contains(err.Error(), "gpx: element time: "+where) || !strings.Contains(err.Error(), "the year must be from 0 to 9999") {
				t.Errorf("year %d, %s: %v, %q", year, where, err, b.String())
			}
		}
	}
	first := time.Date(0, time.January, 1, 0, 0, 0, 0, time.UTC)
	if got := written(t, &gpx.Document{Time: first}).Time; !got.Equal(first) {
		t.Errorf("%v", got)
	}
	last := time.Date(9999, time.December, 31, 23, 59, 59, 999_999_999, time.UTC)
	if got := written(t, &gpx.Document{Time: last}).Time; !got.Equal(last) {
		t.Errorf("%v", got)
	}
}

// wetPaper is a writer that fails.
type wetPaper struct{ err error }

func (w wetPaper) Write([]byte) (int, error) { return 0, w.err }

func TestWriterErrorIsReturned(t *testing.T) {
	wet := errors.New("the paper is wet")
	if err := gpx.Write(wetPaper{wet}, &gpx.Document{}); err != wet {
		t.Error(err)
	}
	err := gpx.Write(wetPaper{wet}, nil)
	if e, is := errors.AsType[*gpx.Error](err); !is || e.Line != 0 || err.Error() != "gpx: no document: give one, even without points" {
		t.Error(err)
	}
}

func TestDocumentJSONRoundTrip(t *testing.T) {
	time1 := time.Date(2026, time.July, 2, 6, 0, 0, 1, time.UTC)
	d := gpx.Document{
		Creator: "by hand", Name: "Orlesk", Time: time1,
		Waypoints: []gpx.Point{{Position: at("47.05", "-19.1"), Name: "Orlesk Head", Comment: "light", Description: "white", Symbol: "Light", Type: "mark", Time: time1}, {}},
		Routes:    []gpx.Route{{Name: "Out", Description: "a day", Points: []gpx.Point{{Position: at("47", "180")}}}, {}},
		Tracks:    []gpx.Track{{Name: "Back", Segments: [][]gpx.Point{{{Position: at("47", "1"), Time: time1}}}}}, PassedOver: map[string]int{"ele": 2},
		Warnings: []working.Warning{{Kind: gpx.TimeWithoutZone, Message: "a time has no zone"}},
	}
	for _, d := range []gpx.Document{d, {}} {
		data, err := json.Marshal(d)
		if err != nil {
			t.Fatal(err)
		}
		var back gpx.Document
		if err := json.Unmarshal(data, &back); err != nil || !cmp.Equal(back, d) {
			t.Errorf("%s: %v\n%s", data, err, cmp.Diff(d, back))
		}
	}
	if data, err := json.Marshal(d.Routes[0]); err != nil || string(data) != `{"name":"Out","description":"a day","points":[{"position":"47°00′N 180°00′E"}]}` {
		t.Errorf("%s, %v", data, err)
	}
}
