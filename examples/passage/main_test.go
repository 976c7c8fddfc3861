package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
)

var update = flag.Bool("update", false, "write the golden file anew; read it before committing")

// TestInventedPassage holds the whole printed working to a file that was read
// by a person.
func TestInventedPassage(t *testing.T) {
	var stdout, stderr bytes.Buffer
	if status := run(nil, &stdout, &stderr); status != 0 || stderr.Len() > 0 {
		t.Fatalf("status %d: %s", status, &stderr)
	}
	golden := filepath.Join("testdata", "passage.golden")
	if *update {
		if err := os.WriteFile(golden, stdout.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(stdout.Bytes(), want) {
		t.Errorf("the working has changed; got\n%s", &stdout)
	}
}

// TestJSON checks that the same answers come out as data.
func TestJSON(t *testing.T) {
	var stdout, stderr bytes.Buffer
	if status := run([]string{"-format", "json"}, &stdout, &stderr); status != 0 {
		t.Fatalf("status %d: %s", status, &stderr)
	}
	var p struct {
		Invented []string
		Passage  struct {
			Distance sailing.Distance
			Legs     []struct {
				Track   string
				Heading struct{ True, Compass string }
				Working working.Sheet

				SteerCompassDegrees float64
			}
		}
		Bearings []struct {
			Object  string
			Bearing struct{ True string }
		}
		Caution string
	}
	if err := json.Unmarshal(stdout.Bytes(), &p); err != nil {
		t.Fatal(err)
	}
	legs := p.Passage.Legs
	if len(legs) != 4 || len(p.Bearings) != 4 || len(p.Invented) != 5 || p.Caution == "" || p.Passage.Distance < 80_000*sailing.Metre {
		t.Fatalf("got %d legs, %d bearings, invented %v, caution %q", len(legs), len(p.Bearings), p.Invented, p.Caution)
	}
	if !strings.HasPrefix(legs[0].Track, "236°") || len(legs[0].Working.Steps) == 0 || legs[0].SteerCompassDegrees != 243 || !strings.HasSuffix(legs[0].Heading.Compass, "C") {
		t.Errorf("leg 1: %+v", legs[0])
	}
}

// ownChart are the files that your own waypoints need.
var ownChart = []string{"-roses", "roses.csv", "-deviation", "deviation.csv"}

// TestFaultsAreNamedByLine gives the program bad files and bad flags.
func TestFaultsAreNamedByLine(t *testing.T) {
	for _, test := range []struct {
		desc, flag, file string
		status           int
		want             []string
	}{
		{"a latitude of 61 minutes", "-waypoints", "name,position\n# a comment\nOne,47°61′N 19°W\n", 1, []string{"line 3, position", "minutes out of range"}},
		{"a sailing of its own", "-waypoints", "position,sailing\n47°N 19°W,zigzag\n", 1, []string{"line 2, sailing", "zigzag"}},
		{"a speed of zero", "-waypoints", "position,speed\n47°N 19°W,0\n", 1, []string{"line 2, speed"}},
		{"a missing column", "-waypoints", "name\nOne\n", 1, []string{"line 1", `"position"`}},
		{"a stream that sets nowhere", "-streams", "set,rate\n45,1\nout,1\n", 1, []string{"line 3, set"}},
		{"a stream of no rate", "-streams", "set,rate\n45,fast\n", 1, []string{"line 2, rate", "knots"}},
		{"a rose without a year", "-roses", "position,legend\n47°N 19°W,3°50′W (9′E)\n", 1, []string{"line 2, legend", "no year"}},
		{"a waypoint alone", "-waypoints", "name,position\nOne,47°N 19°W\n", 1, []string{"only one waypoint: give two or more"}},
		{"a route of one point", "-gpx", "<gpx xmlns=\"http://www.topografix.com/GPX/1/1\" version=\"1.1\" creator=\"me\"><rte><rtept lat=\"1\" lon=\"1\"/></rte></gpx>", 1, []string{"the first route has fewer than two waypoints"}},
		{"a bearing beyond the stern", "-bearings", "object,bearing,head,at\nOne,190° to port,225,47°N 19°W\n", 1, []string{"line 2, bearing", "180"}},
		{"seconds with a quotation mark", "-waypoints", "name,position\nOne,47°08'24\"N 19°W\n", 1, []string{"line 2", "for seconds write ″"}},
		{"no roses", "-roses", "position,legend\n", 1, []string{"no rows"}},
		{"a table with a gap", "-deviation", "compass,deviation\n000,1E\n", 1, []string{"line 2, compass", "45° apart"}},
		{"a deviation that is no angle", "-deviation", "compass,deviation\n000,one\n", 1, []string{"line 2, deviation"}},
		{"a bearing without its north", "-bearings", "object,bearing,head,at\nOne,112,225,47°N 19°W\n", 1, []string{"line 2, bearing"}},
		{"a heading beyond 360°", "-bearings", "object,bearing,head,at\nOne,112C,400,47°N 19°W\n", 1, []string{"line 2, head"}},
		{"broken JSON", "-waypoints", "[{\"name\": \"One\",\n \"position\" 1}]", 1, []string{"line 2"}},
		{"JSON that is no list", "-waypoints", "{\"passage\": {}}", 1, []string{"line 1", "this is a JSON object"}},
		{"a spreadsheet's semicolons", "-waypoints", "name;position\nOne;47°N 19°W\n", 1, []string{"line 1", "semicolon"}},
		{"streams without times", "-streams", "set,rate\n045,1\n", 1, []string{"add the column begins, or give -streams-start"}},
		{"a stream without a zone", "-streams", "begins,set,rate\n2026-07-02T06:00,045,1\n", 1, []string{"line 2, begins", "with a zone"}},
		{"a file of tracks only", "-gpx", "<gpx xmlns=\"http://www.topografix.com/GPX/1/1\" version=\"1.1\" creator=\"me\"><trk/><trk/></gpx>", 1, []string{"no route in it; it has 0 waypoints outside routes and 2 tracks"}},
		{"the same place twice", "-waypoints", "name,position\nOne,47°N 19°W\nTwo,47°N 19°W\n", 1, []string{"leg 1, One to Two", "leave one of them out"}},
		{"an empty file", "-waypoints", "", 1, []string{"empty"}},
		{"a file without a route", "-gpx", "<gpx xmlns=\"http://www.topografix.com/GPX/1/1\" version=\"1.1\" creator=\"me\">\n</gpx>", 1, []string{"no route"}},
	} {
		t.Run(test.desc, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "file")
			if err := os.WriteFile(path, []byte(test.file), 0o644); err != nil {
				t.Fatal(err)
			}
			var stdout, stderr bytes.Buffer
			args := []string{test.flag, path}
			if test.flag == "-waypoints" || test.flag == "-gpx" {
				args = append(args, ownChart...)
			}
			if status := run(args, &stdout, &stderr); status != test.status {
				t.Errorf("status %d, want %d", status, test.status)
			}
			if test.desc != "the same place twice" { // a fault of the plan, not of a file
				test.want = append(test.want, path)
			}
			for _, want := range test.want {
				if !strings.Contains(stderr.String(), want) {
					t.Errorf("want %q in: %s", want, &stderr)
				}
			}
			if stdout.Len() > 0 {
				t.Errorf("something was printed all the same: %s", &stdout)
			}
		})
	}
	for _, args := range [][]string{
		{"-depart", "2 July"}, {"-depart", "2026-07-02T06:00"}, {"-speed", "0"}, {"-speed", "5 M"}, {"-speed", "100 kn"}, {"-apart", "0"}, {"-apart", "5 kn"}, {"-streams-start", "six"}, {"-waypoints", "waypoints.csv"}, {"-waypoints", "waypoints.csv", "-roses", "roses.csv"}, {"-speed", "NaN"}, {"-wind", "up"}, {"-leeway", "7°"}, {"-wind", "SW", "-leeway", "50°"}, {"-wind", "SW", "-leeway", "-5°"}, append([]string{"-waypoints", "waypoints.csv", "-streams-start", "2026-07-02T06:00Z"}, ownChart...), {"-streams", "none", "-streams-start", "2026-07-02T06:00Z"}, {"-gpx", "a", "-waypoints", "b"}, {"-method", "guess"}, {"-years", "some"}, {"-format", "xml"}, {"file.csv"}, {"-nonsense"},
	} {
		var stdout, stderr bytes.Buffer
		if status := run(args, &stdout, &stderr); status != 2 || stderr.Len() == 0 {
			t.Errorf("%v: status %d, %q: want 2 and a message", args, status, &stderr)
		}
	}
	var stdout, stderr bytes.Buffer
	if status := run(append([]string{"-waypoints", filepath.Join(t.TempDir(), "missing")}, ownChart...), &stdout, &stderr); status != 1 {
		t.Errorf("a missing file: status %d", status)
	}
}

// TestPlanErrorIsPrintedOnce has the program's name before its message once.
func TestPlanErrorIsPrintedOnce(t *testing.T) {
	var stdout, stderr bytes.Buffer
	if status := run([]string{"-speed", "0.2"}, &stdout, &stderr); status != 1 || !strings.HasPrefix(stderr.String(), "passage: leg 1, Orlesk Head to Minnow Ledge: ") {
		t.Errorf("status %d: %s", status, &stderr)
	}
}

// TestOwnFiles reads files of the user's own, in JSON and as GPX, with bearings of
// every kind and leeway.
func TestOwnFiles(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return path
	}
	// works runs the program and returns what it prints.
	works := func(said string, args ...string) string {
		t.Helper()
		var stdout, stderr bytes.Buffer
		if status := run(append(args, ownChart...), &stdout, &stderr); status != 0 || stderr.String() != said {
			t.Fatalf("%q: status %d: %swant %s", args, status, &stderr, said)
		}
		return stdout.String()
	}
	holds := func(got string, wants ...string) {
		t.Helper()
		for _, want := range wants {
			if !strings.Contains(got, want) {
				t.Errorf("no %q in:\n%s", want, got)
			}
		}
	}
	waypoints := write("waypoints.json", `[
		{"name": "One", "position": "47°N 19°W"},
		{"name": "Two", "position": "47.1, -19.2", "speed": 4},
		{"name": "Three", "position": "47°06′N 019°40′W", "sailing": "great circle"}
	]`)
	bearings := write("bearings.csv", "object,bearing,head,at\nOne,112T,225,47N 19W\nTwo,35° to starboard,225,47N 19W\nThree,325R,SW,47N 19W\nFour,ahead,225°C,47N 19W\n")
	with := func(more ...string) []string {
		return append([]string{"-depart", "2027-01-01T01:00+01:00", "-years", "decimal", "-wind", "NW", "-leeway", "4°"}, more...)
	}
	text := works("", with("-bearings", bearings, "-waypoints", waypoints)...)
	holds(text, "Compass work for 1 January 2027.", "Years, 2015 to 1 January 2027", "12 years  counted in decimal years", "Leg 2: Two to Three", "4°00′  wind on the starboard side; turn into the wind by this angle",
		"Departure 1 January 2027, 01:00 +01:00 (00:00 UTC)", "To plot")
	// Nothing invented is mixed with the user's own.
	text = works("", with("-waypoints", waypoints)...)
	for _, invented := range []string{"To plot", "Stream", "Orlesk Head light", "Invented"} {
		if strings.Contains(text, invented) {
			t.Errorf("%q is not the user's:\n%s", invented, text)
		}
	}

	// The route that it writes is the route that it reads, and what it can't hold is said.
	lost := "passage: the speed of leg 1, 4.0 kn, is not in the route\n"
	route := works(lost+"passage: leg 2 is a great circle of 19.1 M; in the route it is a rhumb line of 19.1 M: give -apart for points along it\n", with("-waypoints", waypoints, "-format", "gpx")...)
	again := works("", with("-gpx", write("route.gpx", route), "-format", "gpx")...)
	holds(again, "<name>Three</name>")
	route = works(lost, with("-waypoints", waypoints, "-format", "gpx", "-apart", "5")...)
	if got := strings.Count(route, "<rtept"); got != 6 {
		t.Errorf("%d points with 5 M between:\n%s", got, route)
	}

	// So is the CSV.
	table := works("", with("-waypoints", waypoints, "-format", "csv")...)
	if again := works("", with("-waypoints", write("again.csv", table), "-format", "csv")...); again != table {
		t.Errorf("got\n%s\nwant\n%s", again, table)
	}
	holds(table, "47°06′N 019°40′W,great circle,,")
	holds(works("", with("-waypoints", waypoints, "-format", "geojson")...), "Three")

	// Streams have times of their own, and speeds have units.
	streams := write("streams.csv", "set,rate\n090,1\n090,1\n090,1\n270,2\n270,2\n270,2\n270,2\n270,2\n270,2\n270,2\n270,2\n")
	rhumbs := write("rhumbs.csv", "position\n47°N 19°W\n47°06′N 19°12′W\n")
	departs := func(at string) string {
		return works("", "-waypoints", rhumbs, "-streams", streams, "-streams-start", "2027-01-01T00:00Z", "-depart", at, "-speed", "2.5 m/s")
	}
	holds(departs("2027-01-01T00:00Z"), "set 090°T, rate 1.0 kn")
	if late := departs("2027-01-01T03:00Z"); strings.Contains(late, "set 090°T, rate 1.0 kn") {
		t.Error("a later departure meets the same streams")
	}
}

// TestEndlessFileIsRefused ends a file that does not end at a limit.
func TestEndlessFileIsRefused(t *testing.T) {
	if _, err := os.Stat("/dev/zero"); err != nil {
		t.Skip("no /dev/zero")
	}
	for _, flag := range []string{"-waypoints", "-streams", "-roses", "-deviation", "-bearings", "-gpx"} {
		args := []string{flag, "/dev/zero"}
		if flag == "-waypoints" || flag == "-gpx" {
			args = append(args, ownChart...)
		}
		var stdout, stderr bytes.Buffer
		if status := run(args, &stdout, &stderr); status != 1 || !strings.Contains(stderr.String(), "/dev/zero") {
			t.Errorf("%s: status %d: %s", flag, status, &stderr)
		}
	}
}
