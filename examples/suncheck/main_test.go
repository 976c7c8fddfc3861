package main

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the golden file anew; read it before committing")

// TestInventedCheck holds the whole printed working to a file that was read by a
// person.
func TestInventedCheck(t *testing.T) {
	var stdout, stderr bytes.Buffer
	if status := run(nil, &stdout, &stderr); status != 0 || stderr.Len() > 0 {
		t.Fatalf("status %d: %s", status, &stderr)
	}
	golden := filepath.Join("testdata", "suncheck.golden")
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

// TestAMovedCompassIsFound reads the bearing as a compass would that iron was
// brought near to.
func TestAMovedCompassIsFound(t *testing.T) {
	var stdout, stderr bytes.Buffer
	if status := run([]string{"-bearing", "285°C"}, &stdout, &stderr); status != 0 || !strings.Contains(stdout.String(), "The card: swing again") {
		t.Errorf("status %d: %s%s", status, &stdout, &stderr)
	}
}

// TestFaultsAreNamed gives the program bad flags and files.
func TestFaultsAreNamed(t *testing.T) {
	bad := filepath.Join(t.TempDir(), "card.csv")
	if err := os.WriteFile(bad, []byte("compass,deviation\n000,1\n045,x\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	own := []string{"-time", "2026-07-02T18:20:00Z", "-position", "46°52.8′N 019°24.5′W", "-heading", "226°C", "-bearing", "280.5°C", "-rose", "7°55′W 2012 (9′E)"}
	for _, test := range []struct {
		desc   string
		args   []string
		status int
		want   string
	}{
		{"at night", []string{"-time", "2026-07-02T01:00:00Z"}, 1, "below the horizon"},
		{"no time", []string{"-time", "noon"}, 2, "-time"},
		{"a bad card", append([]string{"-card", bad}, own...), 1, "line 3, deviation"},
		{"no such card", append([]string{"-card", bad + "x"}, own...), 1, "card.csvx"},
		{"a card alone", []string{"-card", bad}, 2, "-time: want it"},
		{"a true bearing", []string{"-bearing", "284.5T"}, 2, "-bearing"},
		{"a stray word", []string{"now"}, 2, "flags"},
	} {
		var stdout, stderr bytes.Buffer
		if status := run(test.args, &stdout, &stderr); status != test.status || !strings.Contains(stderr.String(), test.want) {
			t.Errorf("%s: status %d, %s", test.desc, status, &stderr)
		}
	}
}

// TestAnOldRoseWarns carries the rose far on.
func TestAnOldRoseWarns(t *testing.T) {
	var stdout, stderr bytes.Buffer
	if status := run([]string{"-time", "2060-07-02T18:20:00Z"}, &stdout, &stderr); status != 0 || !strings.Contains(stdout.String(), "Warning: ") {
		t.Errorf("status %d: %s%s", status, &stderr, &stdout)
	}
}
