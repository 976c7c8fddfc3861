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

// TestInventedDanger compares the whole printed working with a golden file.
func TestInventedDanger(t *testing.T) {
	var stdout, stderr bytes.Buffer
	if status := run(nil, &stdout, &stderr); status != 0 || stderr.Len() > 0 {
		t.Fatalf("status %d: %s", status, &stderr)
	}
	golden := filepath.Join("testdata", "clearing.golden")
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

// TestDangerToStarboard leaves the danger to starboard, on a given heading.
func TestDangerToStarboard(t *testing.T) {
	var stdout, stderr bytes.Buffer
	if status := run([]string{"-leave", "starboard", "-head", "150°T", "-second", "", "-height", "0"}, &stdout, &stderr); status != 0 || !strings.Contains(stdout.String(), "not less than") || strings.Contains(stdout.String(), "danger angle") {
		t.Errorf("status %d: %s%s", status, &stdout, &stderr)
	}
}

// TestAwayFromTheMark names the side as it is on the heading.
func TestAwayFromTheMark(t *testing.T) {
	var stdout, stderr bytes.Buffer
	if status := run([]string{"-head", "310°T"}, &stdout, &stderr); status != 0 || !strings.Contains(stdout.String(), "heads away from the mark leaves the danger at 46°49.3′N 019°02.4′W to starboard") {
		t.Errorf("status %d: %s%s", status, &stdout, &stderr)
	}
}

// TestCourseAcrossTheLine says that the bearing is of no use on it.
func TestCourseAcrossTheLine(t *testing.T) {
	for head, want := range map[string]string{
		"040°T": "the mark is 98° on the starboard bow: this clearing bearing serves only courses within 45°",
		"200°T": "the mark is 62° on the port bow: this clearing bearing serves only courses within 45°",
		"100°T": "A vessel that heads for the mark", "310°T": "A vessel that heads away from the mark",
	} {
		var stdout, stderr bytes.Buffer
		if status := run([]string{"-head", head}, &stdout, &stderr); status != 0 || !strings.Contains(stdout.String(), want) {
			t.Errorf("%s: status %d: %s%s", head, status, &stdout, &stderr)
		}
	}
}

// TestWaterLineIsSeen warns of a height of eye that is too low for it.
func TestWaterLineIsSeen(t *testing.T) {
	for eye, want := range map[string]bool{"1": true, "5": false} {
		var stdout, stderr bytes.Buffer
		if status := run([]string{"-eye", eye}, &stdout, &stderr); status != 0 || strings.Contains(stdout.String(), "an eye at "+eye+" metres sees no water line beyond") != want {
			t.Errorf("%s m: status %d: %s%s", eye, status, &stdout, &stderr)
		}
	}
}

// TestFaultsAreNamed gives the program bad flags.
func TestFaultsAreNamed(t *testing.T) {
	for _, test := range []struct {
		args   []string
		status int
		want   string
	}{
		{[]string{"-leave", "left"}, 2, "-leave"},
		{[]string{"-margin", "9"}, 1, "clearing: the mark lies 2.0 M from the danger, within the margin of 9.0 M"},
		{[]string{"-margin", "0"}, 1, "margin"},
		{[]string{"-mark", "here"}, 2, "clearing: -mark: \"here\" is invalid; give a position such as 46°47.5′N 019°01.0′W\n"},
		{[]string{"-head", "150°C"}, 2, "-head"},
		{[]string{"-card", "/nonexistent"}, 2, "-card"},
		{[]string{"-height", "NaN"}, 2, "-height"},
		{[]string{"-eye", "-1"}, 2, "-eye"},
		{[]string{"-date", "02/07/2026"}, 2, "-date: \"02/07/2026\" is invalid; give a date such as 2026-07-02\n"},
		{[]string{"rock"}, 2, "flags"},
	} {
		var stdout, stderr bytes.Buffer
		if status := run(test.args, &stdout, &stderr); status != test.status || !strings.Contains(stderr.String(), test.want) || stdout.Len() > 0 {
			t.Errorf("%v: status %d: %s", test.args, status, &stderr)
		}
	}
}

// TestOwnMark takes nothing of the invented coast for a mark of the user's own, at a date in the
// rose's year, south of the equator and east of Greenwich. The limit is worked by hand beside it.
func TestOwnMark(t *testing.T) {
	card := filepath.Join(t.TempDir(), "card.csv")
	if err := os.WriteFile(card, []byte("compass,deviation,uncertainty\n000,3W,1\n045,5W,1\n090,6W,1\n135,4W,1\n180,1E,1\n225,5E,1\n270,6E,1\n315,2E,1\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	own := []string{"-mark", "41°20.0′S 174°30′E", "-danger", "41°23′S 174°26′E", "-leave", "starboard", "-margin", "0.4", "-rose", "22°27′E ±0°15′", "-card", card}
	var stdout, stderr bytes.Buffer
	status := run(own, &stdout, &stderr)
	// The danger bears 225.13° from the mark, 4.25 M off; the angle is asin(0.4/4.25) = 5.40°, and
	// half the convergency of 4′ of longitude 0.02°: 050.55°T, 028.10°M, deviation 4.45°W: 032.55°C.
	for _, want := range []string{"050°33.3′T", "028°06.3′M", "not less than 033°C"} {
		if status != 0 || !strings.Contains(stdout.String(), want) {
			t.Errorf("status %d: no %q: %s%s", status, want, &stdout, &stderr)
		}
	}
	for _, not := range []string{"nvented", "danger angle", "2012", "2015"} {
		if strings.Contains(stdout.String(), not) {
			t.Errorf("%q in %s", not, &stdout)
		}
	}
	for _, c := range []struct {
		args []string
		want string
	}{
		{own[:2], "clearing: -danger missing"},
		{own[2:4], "clearing: -mark missing"},
		{append(own[:4:4], "-card", card), "clearing: -rose missing"},
		{own[:10], "clearing: -card missing"},
		{append(own[:2:2], "-danger", "41°23′N 174°26′E", "-rose", "22°27′E", "-card", card), "too far to be seen: check both positions, also N or S and E or W"},
		{append(own[:12:12], "-second", "41°20.0′S 174°30′W"), "clearing: the second mark is"},
		{append(own[:12:12], "-height", "0.1"), "clearing: an object of 0.1 m at 4.7 M subtends less than 0.1′"},
		{append(own[:10:10], "-card", filepath.Dir(card)), "is a directory"},
		{[]string{"-card", "main.go"}, "clearing: main.go: line 1"},
	} {
		var stdout, stderr bytes.Buffer
		if status := run(c.args, &stdout, &stderr); status == 0 || !strings.Contains(stderr.String(), c.want) || stdout.Len() > 0 {
			t.Errorf("%v: status %d: %s", c.args, status, &stderr)
		}
	}
}
