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
	if len(legs) != 4 || len(p.Bearings) != 4 || len(p.Invented) != 5 || p.Caution == "" || p.Passage.Distance < 80*sailing.Kilometre {
		t.Fatalf("got %d legs, %d bearings, invented %v, caution %q", len(legs), len(p.Bearings), p.Invented, p.Caution)
	}
	if !strings.HasPrefix(legs[0].Track, "236°") || len(legs[0].Working.Steps) == 0 || legs[0].SteerCompassDegrees != 243 || !strings.HasSuffix(legs[0].Heading.Compass, "C") {
		t.Errorf("leg 1: %+v", legs[0])
	}
}

// TestFaultsAreNamedByLine gives the program bad files and bad flags.
func TestFaultsAreNamedByLine(t *testing.T) {
	for _, test := range []struct {
		desc, flag, file string
		status           int
		want             []string
	}{
		{"a latitude of 61 minutes", "-waypoints", "name,position\n# a comment\nOne,47°61′N 19°W\n", 1, []string{"line 3, position", "minutes-out-of-range"}},
		{"a sailing of its own", "-waypoints", "position,sailing\n47°N 19°W,zigzag\n", 1, []string{"line 2, sailing", "zigzag"}},
		{"a speed of nought", "-waypoints", "position,speed\n47°N 19°W,0\n", 1, []string{"line 2, speed"}},
		{"a missing column", "-waypoints", "name\nOne\n", 1, []string{"line 1", `"position"`}},
		{"a stream that sets nowhere", "-streams", "set,rate\n45,1\nout,1\n", 1, []string{"line 3, set"}},
		{"a stream of no rate", "-streams", "set,rate\n45,fast\n", 1, []string{"line 2, rate", "knots"}},
		{"a rose without a year", "-roses", "position,legend\n47°N 19°W,3°50′W (9′E)\n", 1, []string{"line 2, legend", "no-year"}},
		{"no roses", "-roses", "position,legend\n", 1, []string{"no rows"}},
		{"a table with a gap", "-deviation", "compass,deviation\n000,1E\n", 1, []string{"line 2, compass", "45° apart"}},
		{"a deviation that is no angle", "-deviation", "compass,deviation\n000,one\n", 1, []string{"line 2, deviation"}},
		{"a bearing without its north", "-bearings", "object,bearing,head,at\nOne,112,225,47°N 19°W\n", 1, []string{"line 2, bearing"}},
		{"a heading beyond 360°", "-bearings", "object,bearing,head,at\nOne,112C,400,47°N 19°W\n", 1, []string{"line 2, head"}},
		{"broken JSON", "-waypoints", "[{\"name\": \"One\",\n \"position\" 1}]", 1, []string{"line 2"}},
		{"an empty file", "-waypoints", "", 1, []string{"empty"}},
		{"a route that is none", "-gpx", "<gpx xmlns=\"http://www.topografix.com/GPX/1/1\" version=\"1.1\" creator=\"me\">\n</gpx>", 1, []string{"no route"}},
	} {
		t.Run(test.desc, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "file")
			if err := os.WriteFile(path, []byte(test.file), 0o644); err != nil {
				t.Fatal(err)
			}
			var stdout, stderr bytes.Buffer
			if status := run([]string{test.flag, path}, &stdout, &stderr); status != test.status {
				t.Errorf("status %d, want %d", status, test.status)
			}
			for _, want := range append(test.want, path) {
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
		{"-depart", "2 July"}, {"-speed", "0"}, {"-speed", "NaN"}, {"-wind", "up"}, {"-leeway", "7°"}, {"-gpx", "a", "-waypoints", "b"}, {"-method", "guess"}, {"-years", "some"}, {"-format", "xml"}, {"file.csv"}, {"-nonsense"},
	} {
		var stdout, stderr bytes.Buffer
		if status := run(args, &stdout, &stderr); status != 2 || stderr.Len() == 0 {
			t.Errorf("%v: status %d, %q: want 2 and a message", args, status, &stderr)
		}
	}
	var stdout, stderr bytes.Buffer
	if status := run([]string{"-waypoints", filepath.Join(t.TempDir(), "missing")}, &stdout, &stderr); status != 1 {
		t.Errorf("a missing file: status %d", status)
	}
}

// TestAPlanThatCannotBeWorkedIsSaidOnce has the program's name before its message once.
func TestAPlanThatCannotBeWorkedIsSaidOnce(t *testing.T) {
	var stdout, stderr bytes.Buffer
	if status := run([]string{"-speed", "0.2"}, &stdout, &stderr); status != 1 || !strings.HasPrefix(stderr.String(), "passage: leg 1, Orlesk Head to Minnow Ledge: ") {
		t.Errorf("status %d: %s", status, &stderr)
	}
}

// TestOwnFiles reads files of the reader's own, in JSON and as GPX, with bearings of
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
	waypoints := write("waypoints.json", `[
		{"name": "One", "position": "47°N 19°W"},
		{"name": "Two", "position": "47.1, -19.2", "speed": 4},
		{"name": "Three", "position": "47°06′N 019°40′W", "sailing": "great circle"}
	]`)
	bearings := write("bearings.csv", "object,bearing,head,at\nOne,112T,225,47N 19W\nTwo,35° to starboard,225,47N 19W\nThree,325R,SW,47N 19W\nFour,ahead,225°C,47N 19W\n")
	args := []string{"-bearings", bearings, "-streams", "none", "-depart", "2027-01-01T00:00:00Z", "-years", "decimal", "-wind", "NW", "-leeway", "4°"}
	var stdout, stderr bytes.Buffer
	if status := run(append(args, "-waypoints", waypoints), &stdout, &stderr); status != 0 {
		t.Fatalf("status %d: %s", status, &stderr)
	}
	if want := "passage: used with your own files, from this invented example: roses, deviation\n"; stderr.String() != want {
		t.Errorf("got %q, want %q", &stderr, want)
	}
	for _, want := range []string{
		"Compass work for 1 January 2027.",
		"Invented places and figures: roses, deviation.",
		"Years, 2015 to 1 January 2027",
		"12 years  counted in decimal years",
		"Leg 2: Two to Three",
		"4°00′ to port  head up to the wind by as much",
	} {
		if !strings.Contains(stdout.String(), want) {
			t.Errorf("want %q in:\n%s", want, &stdout)
		}
	}
	// The route that it writes is the route that it reads.
	var route, again bytes.Buffer
	if status := run(append(args, "-waypoints", waypoints, "-format", "gpx"), &route, &stderr); status != 0 {
		t.Fatalf("status %d: %s", status, &stderr)
	}
	if status := run(append(args, "-gpx", write("route.gpx", route.String()), "-format", "gpx"), &again, &stderr); status != 0 || !strings.Contains(again.String(), "<name>Three</name>") {
		t.Errorf("status %d: %s\n%s", status, &stderr, &again)
	}
	for _, format := range []string{"csv", "geojson"} {
		stdout.Reset()
		if status := run(append(args, "-waypoints", waypoints, "-format", format), &stdout, &stderr); status != 0 || !strings.Contains(stdout.String(), "Three") {
			t.Errorf("%s: status %d: %s\n%s", format, status, &stderr, &stdout)
		}
	}
}
