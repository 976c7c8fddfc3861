package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the golden file anew; read it before committing")

// TestInventedLog holds the printed reckoning to a file that was read by a person.
func TestInventedLog(t *testing.T) {
	var stdout, stderr bytes.Buffer
	if status := run(nil, &stdout, &stderr); status != 0 || stderr.Len() > 0 {
		t.Fatalf("status %d: %s", status, &stderr)
	}
	golden := filepath.Join("testdata", "log.golden")
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
		t.Errorf("the reckoning has changed; got\n%s", &stdout)
	}
}

// TestFormats writes valid JSON and a line of CSV for each row, and help.
func TestFormats(t *testing.T) {
	var stdout, stderr bytes.Buffer
	if status := run([]string{"-format", "json", "-by-vectors", "-place", "nearest"}, &stdout, &stderr); status != 0 || !json.Valid(stdout.Bytes()) {
		t.Errorf("status %d: %s", status, &stderr)
	}
	stdout.Reset()
	if status := run([]string{"-format", "csv"}, &stdout, &stderr); status != 0 || strings.Count(stdout.String(), "\n") != 7 {
		t.Errorf("status %d: %s%s", status, &stderr, &stdout)
	}
	if status := run([]string{"-h"}, &stdout, &stderr); status != 0 || !strings.Contains(stderr.String(), "Usage: log") {
		t.Errorf("status %d: %s", status, &stderr)
	}
}

// TestOutputIsReadBack reads the output of -format json: the same is reckoned again, also from a
// log without tidal streams, and flags on the command line come first.
func TestOutputIsReadBack(t *testing.T) {
	file := filepath.Join(t.TempDir(), "out.json")
	again := func(args ...string) string {
		var stdout, stderr bytes.Buffer
		if status := run(args, &stdout, &stderr); status != 0 {
			t.Fatalf("%q: status %d: %s", args, status, &stderr)
		}
		return stdout.String()
	}
	for _, args := range [][]string{{"-by-vectors", "-place", "B"}, {"-log", "log.csv", "-roses", "roses.csv", "-deviation", "deviation.csv"}} {
		if err := os.WriteFile(file, []byte(again(append(args, "-format", "json")...)), 0o644); err != nil {
			t.Fatal(err)
		}
		if got, want := again("-log", file), again(args...); got != want {
			t.Errorf("%q: read back as\n%s\nwant\n%s", args, got, want)
		}
	}
	if err := os.WriteFile(file, []byte(again("-format", "json")), 0o644); err != nil {
		t.Fatal(err)
	}
	if again("-log", file, "-place", "B") != again("-place", "B") {
		t.Error("-place is not that of the command line")
	}
	if err := os.WriteFile(file, []byte(`{"inputs": {"sea": 1}}`), 0o644); err != nil {
		t.Fatal(err)
	}
	var stderr bytes.Buffer
	if status := run([]string{"-log", file}, &bytes.Buffer{}, &stderr); status != 1 || !strings.Contains(stderr.String(), "no input") {
		t.Errorf("status %d: %s", status, &stderr)
	}
}

// TestFaults gives the exit status of each fault.
func TestFaults(t *testing.T) {
	bad := filepath.Join(t.TempDir(), "bad.csv")
	if err := os.WriteFile(bad, []byte("time,log\nnow,1\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "own.csv")
	n := 0
	own := func(rows string) []string {
		n++
		path := strings.Replace(file, "own.csv", strconv.Itoa(n)+"own.csv", 1)
		if err := os.WriteFile(path, []byte("time,log,compass,leeway,fix\n"+rows), 0o644); err != nil {
			t.Fatal(err)
		}
		return []string{"-log", path, "-roses", "roses.csv", "-deviation", "deviation.csv"}
	}
	for _, test := range []struct {
		args   []string
		status int
		want   string
	}{
		{[]string{"x"}, 2, "flags"}, {[]string{"-format", "xml"}, 2, "text, json or csv"}, {[]string{"-hw", "noon"}, 2, "zone"}, {[]string{"-heights", "4"}, 2, "unit"},
		{[]string{"-log", bad}, 2, "-roses"}, {[]string{"-log", bad, "-roses", "roses.csv", "-deviation", "deviation.csv"}, 1, "line 2, time"},
		{own("2026-06-21T22:00Z,0,104,,\n2026-06-22T02:00Z,20,,,\n"), 1, "own.csv: no position where the log begins: give a fix in its first row\n"},
		{own("2026-06-21T22:00Z,0,,,41°S 179°E\n2026-06-22T02:00Z,20,,,\n"), 1, "own.csv: row 2, of 2026-06-22T02:00Z, or the run to it: no course yet"},
		{own("2026-06-21T22:00Z,0,104,50°,41°S 179°E\n2026-06-22T02:00Z,20,,,\n"), 1, "own.csv: row 2, of 2026-06-22T02:00Z, or the run to it: a leeway without a wind"},
		{append(own(""), "-hw", "2026-06-21T22:00Z"), 2, "-hw is of a tidal table: give -tidal too"},
		{append(own(""), "-by-vectors"), 2, "-by-vectors is of a tidal table"},
		{append(own(""), "-tidal", "tidal.csv", "-place", "A", "-heights", "4 m, 1 m"), 2, "-hw missing: with your own -tidal give -place, -hw and -heights too"},
		{append(own(""), "-tidal", "tidal.csv", "-place", "A", "-hw", "2026-06-21T22:00Z"), 2, "-heights missing"},
		{[]string{"-place", "Z"}, 1, "places are A, B"}, {[]string{"-hw", "2026-07-01T05:10Z"}, 1, "no stream"}, {[]string{"-mile", bad}, 1, "column"},
	} {
		var stdout, stderr bytes.Buffer
		if status := run(test.args, &stdout, &stderr); status != test.status || !strings.Contains(stderr.String(), test.want) {
			t.Errorf("%v: status %d, %s; want %d, %q", test.args, status, &stderr, test.status, test.want)
		}
	}
}
