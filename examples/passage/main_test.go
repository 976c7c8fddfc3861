package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
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
		Legs     []struct {
			Leg    string
			Course struct {
				True, Compass string
				Working       struct{ Steps []struct{ Key, Value string } }
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
	if len(p.Legs) != 4 || len(p.Bearings) != 4 || len(p.Invented) != 4 || p.Caution == "" {
		t.Fatalf("got %d legs, %d bearings, invented %v, caution %q", len(p.Legs), len(p.Bearings), p.Invented, p.Caution)
	}
	if p.Legs[0].Course.True != "236°T" || len(p.Legs[0].Course.Working.Steps) == 0 || !strings.HasSuffix(p.Legs[0].Course.Compass, "C") {
		t.Errorf("leg 1: %+v", p.Legs[0])
	}
}

// TestFaultsAreNamedByLine gives the program bad files and bad flags.
func TestFaultsAreNamedByLine(t *testing.T) {
	for _, test := range []struct {
		desc, flag, file string
		status           int
		want             []string
	}{
		{"a course beyond 360°", "-legs", "leg,at,course\n# a comment\nOne,47°N 19°W,361T\n", 1, []string{"line 3, course", "361T"}},
		{"a course without its north", "-legs", "leg,at,course\nOne,47°N 19°W,112\n", 1, []string{"line 2, course", "which north"}},
		{"a latitude of 61 minutes", "-legs", "leg,at,course\nOne,47°61′N 19°W,112T\n", 1, []string{"line 2, at", "minutes-out-of-range"}},
		{"a missing column", "-legs", "leg,course\nOne,112T\n", 1, []string{"line 1", `"at"`}},
		{"a rose without a year", "-roses", "position,legend\n47°N 19°W,3°50′W (9′E)\n", 1, []string{"line 2, legend", "no-year"}},
		{"no roses", "-roses", "position,legend\n", 1, []string{"no rows"}},
		{"a table with a gap", "-deviation", "compass,deviation\n000,1E\n", 1, []string{"line 2, compass", "45° apart"}},
		{"a deviation that is no angle", "-deviation", "compass,deviation\n000,one\n", 1, []string{"line 2, deviation"}},
		{"a bearing without its north", "-bearings", "object,bearing,head,at\nOne,112,225,47°N 19°W\n", 1, []string{"line 2, bearing"}},
		{"a heading beyond 360°", "-bearings", "object,bearing,head,at\nOne,112C,400,47°N 19°W\n", 1, []string{"line 2, head"}},
		{"broken JSON", "-legs", "[{\"leg\": \"One\",\n \"at\" 1}]", 1, []string{"line 2"}},
		{"an empty file", "-legs", "", 1, []string{"empty"}},
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
		{"-date", "2 July"}, {"-method", "guess"}, {"-years", "some"}, {"-format", "xml"}, {"file.csv"}, {"-nonsense"},
	} {
		var stdout, stderr bytes.Buffer
		if status := run(args, &stdout, &stderr); status != 2 || stderr.Len() == 0 {
			t.Errorf("%v: status %d, %q: want 2 and a message", args, status, &stderr)
		}
	}
	var stdout, stderr bytes.Buffer
	if status := run([]string{"-legs", filepath.Join(t.TempDir(), "missing")}, &stdout, &stderr); status != 1 {
		t.Errorf("a missing file: status %d", status)
	}
}

// TestOwnFiles reads files of the reader's own, in CSV and in JSON, with courses
// and bearings of every kind.
func TestOwnFiles(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return path
	}
	legs := write("legs.json", `[
		{"leg": "by true", "at": "47°N 19°W", "course": "112°T"},
		{"leg": "by magnetic", "at": "47°N 19°W", "course": "114M"},
		{"leg": "by compass", "at": "47, -19", "course": "N 62° E C"}
	]`)
	bearings := write("bearings.csv", "object,bearing,head,at\nOne,112T,225,47N 19W\nTwo,35° to starboard,225,47N 19W\nThree,325R,SW,47N 19W\nFour,ahead,225°C,47N 19W\n")
	var stdout, stderr bytes.Buffer
	if status := run([]string{"-legs", legs, "-bearings", bearings, "-date", "2027-01-01", "-years", "decimal"}, &stdout, &stderr); status != 0 {
		t.Fatalf("status %d: %s", status, &stderr)
	}
	for _, want := range []string{
		"Compass work for 1 January 2027.",
		"Invented places and figures: roses, deviation.",
		"Years, 2015 to 1 January 2027",
		"12 years  counted in decimal years",
		"by compass",
	} {
		if !strings.Contains(stdout.String(), want) {
			t.Errorf("want %q in:\n%s", want, &stdout)
		}
	}
}
