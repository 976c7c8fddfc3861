package gpx_test

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"
	"testing"
	"testing/iotest"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"lubberline.example/angle"
	"lubberline.example/course/gpx"
)

// at is a position by its decimal degrees, exactly.
func at(latitude, longitude string) angle.Position {
	return angle.Position{Latitude: angle.Must(angle.ParseLatitude(latitude)), Longitude: angle.Must(angle.ParseLongitude(longitude))}
}

func readFile(t *testing.T, name string) *gpx.Document {
	t.Helper()
	f, err := os.Open("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	d, err := gpx.Read(f)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func TestRead(t *testing.T) {
	head := at("47.0333333333333", "-19.1")
	want := &gpx.Document{
		Creator: "a hand & a pencil", Name: "Orlesk Head to Minnow Ledge", Time: time.Date(2026, time.July, 2, 6, 0, 0, 0, time.UTC),
		Waypoints: []gpx.Point{
			{Position: head, Name: "Orlesk Head", Comment: "light <white> & red", Description: "on the  point", Symbol: "Light", Type: "mark", Time: time.Date(2026, time.July, 2, 6, 0, 0, 250_000_000, time.UTC)},
			{Position: at("46.5", "180")},
		},
		Routes: []gpx.Route{
			{Name: "Out", Description: "by the ledge", Points: []gpx.Point{{Position: head, Name: "Orlesk Head"}, {Position: at("46.95", "-18.8"), Name: "Minnow Ledge", Symbol: "Buoy"}}},
			{Name: "Braddle — Ørlesk", Points: []gpx.Point{{Position: at("-0.5", "0")}}},
		},
		PassedOver: map[string]int{
			"author": 1, "bounds": 1, "cmt": 1, "copyright": 1, "desc": 1, "ele": 1, "extensions": 4, "keywords": 1, "link": 1,
			"magvar": 1, "number": 1, "other": 1, "src": 1, "trk": 1, "trkpt": 1,
		},
	}
	if diff := cmp.Diff(want, readFile(t, "orlesk.gpx")); diff != "" {
		t.Error(diff)
	}
}

func TestNamespacePrefixes(t *testing.T) {
	want := &gpx.Document{Creator: "by hand", Waypoints: []gpx.Point{{Position: at("47", "-19"), Name: "Orlesk Head"}}, PassedOver: map[string]int{"other": 1}}
	if diff := cmp.Diff(want, readFile(t, "prefixed.gpx")); diff != "" {
		t.Error(diff)
	}
}

const head = `<gpx version="1.1" creator="by hand" xmlns="http://www.topografix.com/GPX/1/1">` + "\n"

func TestInvalidFilesAreRefused(t *testing.T) {
	wpt := func(lat, lon string) string {
		return head + fmt.Sprintf("\n<wpt lat=%q lon=%q>\n<name>Orlesk</name></wpt></gpx>", lat, lon)
	}
	for _, c := range []struct {
		name, file string
		line       int
		element    string
		want       string
	}{
		{"empty", "", 1, "", "no element gpx"},
		{"text only", "\n\nOrlesk", 3, "", "no element gpx"},
		{"a comment only", "<!-- gpx -->", 1, "", "no element gpx"},
		{"another document", "\n<html></html>", 2, "html", "this is not a GPX file"},
		{"wrong namespace", "<gpx version=\"1.1\" xmlns=\"http://www.topografix.com/GPX/2/0\"/>", 1, "gpx", "GPX/2/0"},
		{"version 2.0", strings.Replace(head, "1.1", "2.0", 1) + "</gpx>", 1, "gpx", `version "2.0" is not supported; use 1.1 or 1.0`},
		{"no version in no namespace", `<gpx/>`, 1, "gpx", `version "" is not supported; use 1.1 or 1.0`},
		{"another element of no namespace", `<kml version="1.1"/>`, 1, "kml", "this is not a GPX file"},
		{"text before the document", "Orlesk\n" + head + "</gpx>", 2, "", "no element gpx"},
		{"no version", `<gpx xmlns="http://www.topografix.com/GPX/1/1"/>`, 1, "gpx", `version "" is not supported; use 1.1 or 1.0`},
		{"version of another namespace", `<gpx xmlns="http://www.topografix.com/GPX/1/1" xmlns:x="urn:x" x:version="1.1"/>`, 1, "gpx", `version ""`},
		{"latitude 91", wpt("91", "0"), 3, "wpt", "write a latitude from 90° S to 90° N"},
		{"latitude -90.0000000000003", wpt("-90.0000000000003", "0"), 3, "wpt", "write a latitude"},
		{"longitude 181", wpt("0", "181"), 3, "wpt", "write a longitude from 180° W to 180° E"},
		{"longitude -180.1", wpt("0", "-180.1"), 3, "wpt", "write a longitude"},
		{"latitude NaN", wpt("NaN", "0"), 3, "wpt", `attribute lat "NaN" is not in decimal degrees; write it as 47.14`},
		{"latitude Inf", wpt("0", "-Inf"), 3, "wpt", `attribute lon "-Inf" is not in decimal degrees`},
		{"latitude 4e1", wpt("4e1", "0"), 3, "wpt", `attribute lat "4e1" is not in decimal degrees`},
		{"latitude with a name", wpt("47N", "0"), 3, "wpt", `is not in decimal degrees`},
		{"latitude of a decimal comma", wpt("47,5", "0"), 3, "wpt", `is not in decimal degrees`},
		{"latitude in degrees and minutes", wpt("47-30", "0"), 3, "wpt", "attribute lat"},
		{"latitude with minutes apart", wpt("47 30", "0"), 3, "wpt", `attribute lat "47 30" is not in decimal degrees`},
		{"latitude as of ISO 6709", wpt("+4730", "0"), 3, "wpt", "attribute lat"},
		{"two signs", wpt("--47", "0"), 3, "wpt", "attribute lat"},
		{"two points", wpt("4.7.0", "0"), 3, "wpt", "attribute lat"},
		{"no figure", wpt("", "0"), 3, "wpt", "attribute lat"},
		{"a point only", wpt("0", "."), 3, "wpt", "attribute lon"},
		{"no latitude", head + `<wpt lon="1"/></gpx>`, 2, "wpt", "no attribute lat"},
		{"no longitude", head + `<rte>` + "\n" + `<rtept lat="1"/></rte></gpx>`, 3, "rtept", "no attribute lon"},
		{"latitude of another namespace", head + `<wpt xmlns:x="urn:x" x:lat="1" lon="1"/></gpx>`, 2, "wpt", "no attribute lat"},
		{"a time of words", head + "<metadata>\n<time>noon</time></metadata></gpx>", 3, "time", `"noon" is not a date and time; write it as 2026-07-02T06:00:00Z`},
		{"a time of half an hour", head + `<wpt lat="1" lon="1">` + "\n\n<time>2026-07-02T06</time></wpt></gpx>", 4, "time", "is not a date and time"},
		{"another encoding", `<?xml version="1.0" encoding="ISO-8859-1"?><gpx/>`, 1, "", "save the file as UTF-8"},
		{"the 31st of June", head + `<wpt lat="1" lon="1"><time>2026-06-31T06:00:00Z</time></wpt></gpx>`, 2, "time", "is not a date and time"},
		{"a time before year zero", head + `<wpt lat="1" lon="1"><time>0000-01-01T00:00:00+01:00</time></wpt></gpx>`, 2, "time", "is not a date and time"},
		{"ends in the root", head, 2, "gpx", "unexpected EOF"},
		{"ends in a track", head + "<trk>\n", 3, "trk", "unexpected EOF"},
		{"ends in a foreign element", head + "<x xmlns=\"urn:x\">\n\n", 4, "x", "unexpected EOF"},
		{"ends in a name", head + `<wpt lat="1" lon="1"><name>Orl`, 2, "name", "unexpected EOF"},
		{"ends in a time", head + "<metadata><time>2026", 2, "time", "unexpected EOF"},
		{"ends in a route", head + "<rte>", 2, "rte", "unexpected EOF"},
		{"ends in a tag", head + "<rte", 2, "gpx", "unexpected EOF"},
		{"crossed elements", head + "<rte>\n</gpx></rte>", 3, "rte", "closed by"},
		{"broken before the root", "<?xml version=\"1.0\"?>\n<<", 2, "", "syntax error"},
		{"an entity of its own", "<!DOCTYPE gpx [<!ENTITY a \"aaaa\">]>\n" + head + `<wpt lat="1" lon="1"><name>&a;</name></wpt></gpx>`, 3, "name", "entity"},
		{"an encoding that is not read", `<?xml version="1.0" encoding="x-orlesk"?>` + head, 1, "", "encoding"},
	} {
		d, err := gpx.Read(strings.NewReader(c.file))
		e, is := errors.AsType[*gpx.Error](err)
		if !is || d != nil {
			t.Errorf("%s: %v, %v", c.name, d, err)
			continue
		}
		if e.Line != c.line || e.Element != c.element || !strings.Contains(e.Error(), c.want) {
			t.Errorf("%s: line %d, element %q: %v\nwant line %d, element %q: %s", c.name, e.Line, e.Element, e, c.line, c.element, c.want)
		}
		where := fmt.Sprintf("gpx: line %d", c.line)
		if c.element != "" {
			where += ", element " + c.element
		}
		if !strings.HasPrefix(e.Error(), where+": ") {
			t.Errorf("%s: %v, want %s", c.name, e, where)
		}
	}
	_, err := gpx.Read(strings.NewReader(wpt("91", "0")))
	if _, is := errors.AsType[*angle.ParseError](err); !is {
		t.Errorf("%v wraps no error of the angle", err)
	}
}

// The reader's own error is not lost.
func TestReaderErrorIsWrapped(t *testing.T) {
	wet := errors.New("the disk is wet")
	for _, before := range []string{"", head, head + "<trk>", head + "<metadata><name>Orl"} {
		_, err := gpx.Read(io.MultiReader(strings.NewReader(before), iotest.ErrReader(wet)))
		if _, is := errors.AsType[*gpx.Error](err); !is || !errors.Is(err, wet) {
			t.Errorf("after %q: %v", before, err)
		}
	}
}

// repeated reads a text over and over, and never holds it all.
type repeated struct {
	text  string
	times int
	rest  string
}

func (r *repeated) Read(b []byte) (int, error) {
	if r.rest == "" {
		if r.times == 0 {
			return 0, io.EOF
		}
		r.times--
		r.rest = r.text
	}
	n := copy(b, r.rest)
	r.rest = r.rest[n:]
	return n, nil
}

// The limit is a million points. By default a reader with a lower limit is tested, with
// FULL=1 the limit itself.
func TestTooManyPointsAreRefused(t *testing.T) {
	type limited struct {
		most int
		read func(io.Reader) (*gpx.Document, error)
	}
	few := limited{20_000, func(r io.Reader) (*gpx.Document, error) { return gpx.ReadBounded(r, 20_000, gpx.MaxBytes) }}
	cases := []limited{few}
	if os.Getenv("FULL") == "1" {
		cases = append(cases, limited{gpx.MaxPoints, gpx.Read})
	}
	if gpx.MaxPoints != 1_000_000 {
		t.Error("the documented limit is a million")
	}
	for _, c := range cases {
		points := func(n int) io.Reader {
			return io.MultiReader(strings.NewReader(head+"<rte>"), &repeated{text: `<rtept lat="1" lon="1"/>`, times: n}, strings.NewReader("</rte></gpx>"))
		}
		if _, err := c.read(points(c.most)); err != nil {
			t.Error(err)
		}
		_, err := c.read(points(c.most + 1))
		e, is := errors.AsType[*gpx.Error](err)
		if !is || e.Element != "rtept" || !strings.Contains(e.Error(), fmt.Sprintf("more than %d points", c.most)) {
			t.Error(err)
		}
		_, err = c.read(io.MultiReader(strings.NewReader(head), &repeated{text: `<rte/>`, times: c.most + 1}))
		if err == nil || !strings.Contains(err.Error(), fmt.Sprintf("more than %d routes", c.most)) {
			t.Error(err)
		}
	}
}

// Elements within elements to a great depth are passed over, or refused where
// text was wanted; nothing overflows.
func TestDeepNestingIsBounded(t *testing.T) {
	const deep = 200_000
	deepIn := func(before, after string) error {
		_, err := gpx.Read(io.MultiReader(strings.NewReader(head+before), &repeated{text: "<a>", times: deep}, &repeated{text: "</a>", times: deep}, strings.NewReader(after+"</gpx>")))
		return err
	}
	if err := deepIn("<extensions>", "</extensions>"); err != nil {
		t.Errorf("in extensions: %v", err)
	}
	if err := deepIn("<own xmlns='urn:x'>", "</own>"); err != nil {
		t.Errorf("in a foreign element: %v", err)
	}
	err := deepIn(`<wpt lat="1" lon="1"><name>`, "</name></wpt>")
	if _, is := errors.AsType[*gpx.Error](err); err != nil && !is {
		t.Errorf("in a name: %v", err)
	}
}

func FuzzRead(f *testing.F) {
	for _, name := range []string{"orlesk.gpx", "prefixed.gpx"} {
		data, err := os.ReadFile("testdata/" + name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Add([]byte(head + "</gpx>"))
	f.Add([]byte(head + `<trk><name>a</name><trkseg><trkpt lat="1" lon="1"><time>2026-07-02T06:00:00</time></trkpt></trkseg><trkseg/></trk></gpx>`))
	f.Add([]byte(`<gpx version="1.0"><name>a</name><name>b</name><wpt lat="1" lon="1"/></gpx><gpx/>`))
	f.Add([]byte(head + `<wpt lat="-90" lon="-180"><name>&#x9;a&#xD;b</name><time>0000-01-01T00:00:00Z</time></wpt></gpx>`))
	f.Add([]byte(head + `<rte/><rte><rtept lat="1" lon="1"/></rte></gpx>`))
	f.Add([]byte(head + `<wpt lat="1" lon="1"><time>9999-12-31T23:59:59.999999999-00:01</time></wpt></gpx>`))
	f.Fuzz(func(t *testing.T, data []byte) {
		d, err := gpx.ReadWithTracks(bytes.NewReader(data))
		if err != nil {
			if e, is := errors.AsType[*gpx.Error](err); !is || e.Line < 1 {
				t.Fatalf("%v", err)
			}
			return
		}
		var b bytes.Buffer
		if err := gpx.Write(&b, d); err != nil {
			t.Fatal(err)
		}
		again, err := gpx.ReadWithTracks(&b)
		if err != nil {
			t.Fatal(err)
		}
		if d.Creator == "" {
			d.Creator = "lubberline"
		}
		if diff := cmp.Diff(d, again, cmpopts.EquateEmpty(), cmpopts.IgnoreFields(gpx.Document{}, "PassedOver", "Warnings")); diff != "" {
			t.Fatal(diff)
		}
	})
}
