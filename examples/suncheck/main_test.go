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
		{"no time", []string{"-time", "noon"}, 2, `-time: "noon": want a time such as 2026-05-14T17:03:20Z`},
		{"a time of day ashore", []string{"-time", "2026-07-02 18:20 BST"}, 2, "want a time such as 2026-05-14T17:03:20Z"},
		{"no such log", append([]string{"-log", bad + "x"}, own...), 1, "card.csvx"},
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

// TestWhatIsPrinted looks for what a check says beside its working.
func TestWhatIsPrinted(t *testing.T) {
	for _, test := range []struct {
		desc      string
		args      []string
		says, not string
	}{
		{"a reciprocal does not condemn the card", []string{"-bearing", "100.5°C"}, "The card: holds\n  3 checks differ", "swing again\n"},
		{"a reciprocal is to be taken again", []string{"-bearing", "100.5°C"}, "on 226°C the reading is doubtful: take it again; the card is not judged by it", "The card: swing again"},
		{"a reciprocal alone", []string{"-bearing", "100.5°C", "-log", "none"}, "The card: not judged", "checks differ"},
		{"a rose without annual change", []string{"-rose", "5°44'W 2020"}, "The card: not judged\n  the rose states no annual change", "±"},
		{"no uncertainty of the bearing", []string{"-uncertainty", ""}, "The card: not judged\n  the uncertainty of the bearing is not stated", "no annual change"},
		{"no log", []string{"-log", "none"}, "  1 check differs", "4 checks"},
		{"whole years", nil, "14 years", "14.5 years"},
		{"decimal years", []string{"-decimal"}, "14.5 years", "14 years"},
	} {
		var stdout, stderr bytes.Buffer
		if status := run(test.args, &stdout, &stderr); status != 0 || !strings.Contains(stdout.String(), test.says) || strings.Contains(stdout.String(), test.not) {
			t.Errorf("%s: status %d, %s%s", test.desc, status, &stderr, &stdout)
		}
	}
}
