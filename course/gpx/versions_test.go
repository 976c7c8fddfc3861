package gpx_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"lubberline.example/angle/working"
	"lubberline.example/course/gpx"
)

// The contents of the element gpx by the two schemas. In 1.0 the name and the time are in
// gpx itself, in 1.1 they are in metadata.
const (
	content10 = `<name>Orlesk Bay</name><author>by hand</author><time>2026-07-02T06:00:00Z</time>
<wpt lat="47.14" lon="-19"><ele>0</ele><name>Orlesk Head</name><url>light.html</url><urlname>the light</urlname></wpt>
<rte><name>Out</name><number>1</number><rtept lat="47.06" lon="-19.2"><name>Minnow Ledge</name></rtept></rte>
<trk><name>Back</name><trkseg><trkpt lat="47.06" lon="-19.2"><time>2026-07-02T09:00:00Z</time><speed>2.5</speed></trkpt><trkpt lat="47.07" lon="-19.1"/></trkseg><trkseg/></trk>`
	content11 = `<metadata><name>Orlesk Bay</name><author><name>by hand</name></author><time>2026-07-02T06:00:00Z</time></metadata>
<wpt lat="47.14" lon="-19"><ele>0</ele><name>Orlesk Head</name><link href="light.html"/></wpt>
<rte><name>Out</name><number>1</number><rtept lat="47.06" lon="-19.2"><name>Minnow Ledge</name></rtept></rte>
<trk><name>Back</name><trkseg><trkpt lat="47.06" lon="-19.2"><time>2026-07-02T09:00:00Z</time></trkpt><trkpt lat="47.07" lon="-19.1"/></trkseg><trkseg/></trk>`
)

// Many programs still write GPX 1.0, and some leave the namespace out.
func TestVersionsAndNamespaces(t *testing.T) {
	when := time.Date(2026, time.July, 2, 6, 0, 0, 0, time.UTC)
	want := gpx.Document{
		Creator: "by hand", Name: "Orlesk Bay", Time: when,
		Waypoints: []gpx.Point{{Position: at("47.14", "-19"), Name: "Orlesk Head"}},
		Routes:    []gpx.Route{{Name: "Out", Points: []gpx.Point{{Position: at("47.06", "-19.2"), Name: "Minnow Ledge"}}}},
	}
	track := gpx.Track{Name: "Back", Segments: [][]gpx.Point{{{Position: at("47.06", "-19.2"), Time: when.Add(3 * time.Hour)}, {Position: at("47.07", "-19.1")}}, nil}}
	for _, c := range []struct{ name, version, space, content string }{
		{"1.0", "1.0", ` xmlns="http://www.topografix.com/GPX/1/0"`, content10},
		{"1.1", "1.1", ` xmlns="http://www.topografix.com/GPX/1/1"`, content11},
		{"1.0 without a namespace", "1.0", "", content10},
		{"1.1 without a namespace", "1.1", "", content11},
		{"1.1 with an empty namespace", "1.1", ` xmlns=""`, content11},
		{"1.0 in the namespace of 1.1", "1.0", ` xmlns="http://www.topografix.com/GPX/1/1"`, content10},
	} {
		file := "\ufeff<?xml version=\"1.0\"?>\r\n<gpx creator=\"by hand\" version=\"" + c.version + `"` + c.space + ">" + c.content + "</gpx>\r\n<!-- end -->\r\n\r\n"
		for _, tracks := range []bool{false, true} {
			want := want
			read := gpx.Read
			want.PassedOver = map[string]int{"author": 1, "ele": 1, "number": 1, "trk": 1, "trkpt": 2}
			if c.content == content10 {
				want.PassedOver["url"], want.PassedOver["urlname"] = 1, 1
			} else {
				want.PassedOver["link"] = 1
			}
			if tracks {
				read = gpx.ReadWithTracks
				want.Tracks = []gpx.Track{track}
				delete(want.PassedOver, "trk")
				delete(want.PassedOver, "trkpt")
				if c.content == content10 {
					want.PassedOver["speed"] = 1
				}
			}
			got, err := read(strings.NewReader(file))
			if diff := cmp.Diff(&want, got); err != nil || diff != "" {
				t.Errorf("%s, tracks %v: %v\n%s", c.name, tracks, err, diff)
			}
		}
	}
}

// A file of tracks only does not look empty.
func TestTracksPassedOverAreCounted(t *testing.T) {
	d, err := gpx.Read(strings.NewReader(head + `<trk><trkseg><trkpt lat="1" lon="1"/><trkpt lat="1" lon="1"/></trkseg></trk><trk/><x xmlns="urn:x"><trkpt/></x><zigzag/></gpx>`))
	if diff := cmp.Diff(map[string]int{"trk": 2, "trkpt": 2, "other": 2}, d.PassedOver); err != nil || diff != "" {
		t.Errorf("%v\n%s", err, diff)
	}
}

// Two documents in a file, and an attribute given twice, are not XML: either could be the
// right one.
func TestTwoDocumentsOrDoubledAttributes(t *testing.T) {
	many := ""
	for c := 'a'; c < 'z'; c++ {
		many += " " + string(c) + `=""`
	}
	for name, c := range map[string]struct{ file, want string }{
		"two documents":             {head + "</gpx>\n" + head + "</gpx>", "second document"},
		"another document after":    {head + "</gpx><html/>", "second document"},
		"text after":                {head + "</gpx>\nOrlesk", "text outside"},
		"an end after":              {head + "</gpx></gpx>", "unexpected end element"},
		"broken after":              {head + "</gpx><", "unexpected EOF"},
		"two latitudes":             {head + `<wpt lat="47" lon="1" lat="48"/></gpx>`, "attribute lat twice"},
		"two versions":              {`<gpx version="1.1" version="1.0"/>`, "attribute version twice"},
		"two of many attributes":    {`<gpx version="1.1"` + many + ` version="1.0"/>`, "attribute version twice"},
		"two in what is not wanted": {head + `<extensions><a b="1" b="2"/></extensions></gpx>`, "attribute b twice"},
	} {
		d, err := gpx.Read(strings.NewReader(c.file))
		if d != nil {
			t.Errorf("%s was read", name)
		}
		refusedBriefly(t, name, err, c.want)
	}
	// The same name in two namespaces is two attributes.
	if _, err := gpx.Read(strings.NewReader(head + `<wpt xmlns:x="urn:x" lat="47" lon="1" x:lat="48"/></gpx>`)); err != nil {
		t.Error(err)
	}
}

func TestTimeWithoutZone(t *testing.T) {
	point := func(time string) string { return "\n" + `<wpt lat="1" lon="1"><time>` + time + `</time></wpt>` }
	want := time.Date(2026, time.July, 2, 6, 0, 0, 0, time.UTC)
	for name, c := range map[string]struct {
		file    string
		warning string
	}{
		"a zone":            {point("2026-07-02T06:00:00Z"), ""},
		"another zone":      {point("2026-07-02T08:00:00+02:00"), ""},
		"an empty time":     {point("2026-07-02T06:00:00Z") + `<wpt lat="1" lon="1"><time/></wpt>`, ""},
		"one without":       {point("2026-07-02T06:00:00"), "a time has no zone (line 3, element time): it was read as UTC"},
		"three without":     {point("2026-07-02T06:00:00") + point("2026-07-02T06:00:00.5") + point("2026-07-02T06:00:00"), "3 times have no zone (the first on line 3, element time): they were read as UTC"},
		"in what is passed": {point("2026-07-02T06:00:00Z") + "<trk><trkseg><trkpt lat='1' lon='1'><time>noon</time></trkpt></trkseg></trk>", ""},
	} {
		d, err := gpx.Read(strings.NewReader(head + c.file + "</gpx>"))
		if err != nil || !d.Waypoints[0].Time.Equal(want) {
			t.Errorf("%s: %v, %v", name, d, err)
			continue
		}
		warned(t, name, d.Warnings, gpx.TimeWithoutZone, c.warning)
	}
}

func TestRepeatedElements(t *testing.T) {
	for name, c := range map[string]struct{ file, warning string }{
		"once":            {`<wpt lat="1" lon="1"><name>Orlesk</name></wpt>`, ""},
		"an empty first":  {`<wpt lat="1" lon="1"><name/><name>Orlesk</name></wpt>`, ""},
		"two names":       {`<wpt lat="1" lon="1"><name>Orlesk</name><name>Braddle</name></wpt>`, "an element is given twice (line 2, name): the first was kept"},
		"names and times": {`<wpt lat="1" lon="1"><name>Orlesk</name><time>2026-07-02T06:00:00Z</time><time>2027-07-02T06:00:00Z</time><name>Braddle</name></wpt>`, "2 elements are given twice (the first on line 2, time): of each, the first was kept"},
	} {
		d, err := gpx.Read(strings.NewReader(head + c.file + "</gpx>"))
		if err != nil || d.Waypoints[0].Name != "Orlesk" || d.Waypoints[0].Time.Year() > 2026 {
			t.Errorf("%s: %v, %v", name, d, err)
			continue
		}
		warned(t, name, d.Warnings, gpx.RepeatedElement, c.warning)
	}
}

// warned fails unless the warnings are one of a kind with a message, or none if it is empty.
func warned(t *testing.T, name string, got []working.Warning, kind working.WarningKind, message string) {
	t.Helper()
	switch {
	case message == "" && len(got) == 0:
	case len(got) != 1 || got[0].Kind != kind || got[0].Message != message || got[0].Reason.Key == "":
		t.Errorf("%s: %+v, want %s: %s", name, got, kind, message)
	}
}

func TestNilReaderOrWriterIsRefused(t *testing.T) {
	_, err := gpx.Read(nil)
	_, err2 := gpx.ReadWithTracks(nil)
	for _, err := range []error{err, err2, gpx.Write(nil, &gpx.Document{})} {
		if e, is := errors.AsType[*gpx.Error](err); !is || e.Line != 0 {
			t.Error(err)
		}
	}
}
