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

// TestInventedRoses holds the printed audit to a file that was read by a person.
func TestInventedRoses(t *testing.T) {
	var stdout, stderr bytes.Buffer
	if status := run(nil, &stdout, &stderr); status != 0 || stderr.Len() > 0 {
		t.Fatalf("status %d: %s", status, &stderr)
	}
	golden := filepath.Join("testdata", "roses.golden")
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
		t.Errorf("the audit has changed; got\n%s", &stdout)
	}
}

// TestVerdictsAsData reads the verdicts from JSON: each rose was made for its own.
func TestVerdictsAsData(t *testing.T) {
	var stdout, stderr bytes.Buffer
	if status := run([]string{"-format", "json"}, &stdout, &stderr); status != 0 {
		t.Fatalf("status %d: %s", status, &stderr)
	}
	var findings []struct{ Name, Verdict string }
	if err := json.Unmarshal(stdout.Bytes(), &findings); err != nil {
		t.Fatal(err)
	}
	got := map[string]string{}
	for _, f := range findings {
		got[f.Name] = f.Verdict
	}
	for name, want := range map[string]string{
		"Orlesk Bay rose":    "agrees",
		"Braddle Point rose": "likely-wrong-name",
		"St Osk inset rose":  "likely-misplaced-or-misread",
		"Outer passage rose": "annual-change-reversed",
		"Landfall rose":      "annual-change-no-longer-holds",
	} {
		if got[name] != want {
			t.Errorf("%s: %q, want %q", name, got[name], want)
		}
	}
}

func TestFaults(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return path
	}
	for _, test := range []struct {
		args   []string
		status int
		want   string
	}{
		{[]string{"-roses", write("bad.csv", "position,legend\n47°N 19°W,7°20′W (12′E)\n")}, 1, "line 2, legend"},
		{[]string{"-roses", filepath.Join(dir, "missing")}, 1, "missing"},
		{[]string{"-date", "July"}, 2, "-date"},
		{[]string{"-format", "xml"}, 2, "-format"},
		{[]string{"file.csv"}, 2, "no other words"},
		{[]string{"-nonsense"}, 2, "nonsense"},
	} {
		var stdout, stderr bytes.Buffer
		if status := run(test.args, &stdout, &stderr); status != test.status || !strings.Contains(stderr.String(), test.want) {
			t.Errorf("%v: status %d, %q; want %d and %q", test.args, status, &stderr, test.status, test.want)
		}
	}
	// A date that no model covers is said of each rose; it is no fault.
	var stdout, stderr bytes.Buffer
	if status := run([]string{"-date", "2040-01-01"}, &stdout, &stderr); status != 0 || !strings.Contains(stdout.String(), "cannot be judged") {
		t.Errorf("status %d\n%s%s", status, &stdout, &stderr)
	}
}
