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

// TestMovedCompassIsFound reads the bearing as a compass would that iron was brought near
// to. One check alone may be a misreading; two that agree are not.
func TestMovedCompassIsFound(t *testing.T) {
	var stdout, stderr bytes.Buffer
	if status := run([]string{"-bearing", "285°C"}, &stdout, &stderr); status != 0 || !strings.Contains(stdout.String(), "The card: in doubt") || !strings.Contains(stdout.String(), "take it again") {
		t.Errorf("status %d: %s%s", status, &stdout, &stderr)
	}
	log := filepath.Join(t.TempDir(), "log.csv")
	more := append(bytes.Clone(inventedLog), "2026-07-02T17:50:00Z,226,3.4°W,0.8°,5°49′W ±0°15′,the Sun\n"...)
	if err := os.WriteFile(log, more, 0o644); err != nil {
		t.Fatal(err)
	}
	stdout.Reset()
	if status := run(append(ownCheck("285°C"), "-log", log), &stdout, &stderr); status != 0 || !strings.Contains(stdout.String(), "The card: swing again") {
		t.Errorf("status %d: %s%s", status, &stdout, &stderr)
	}
}

// ownCheck are the flags of the invented check, with a bearing.
func ownCheck(bearing string) []string {
	return []string{"-time", "2026-07-02T18:20:00Z", "-position", "46°52.8′N 019°24.5′W", "-heading", "226°C", "-bearing", bearing, "-rose", "7°55′W 2012 (9′E)"}
}

// TestFaultsAreNamed gives the program bad flags and files.
func TestFaultsAreNamed(t *testing.T) {
	bad := filepath.Join(t.TempDir(), "card.csv")
	if err := os.WriteFile(bad, []byte("compass,deviation\n000,1\n045,x\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	own := ownCheck("280.5°C")
	for _, test := range []struct {
		desc   string
		args   []string
		status int
		want   string
	}{
		{"at night", []string{"-time", "2026-07-02T01:00:00Z"}, 1, "below the horizon"},
		{"no time", []string{"-time", "noon"}, 2, `-time: "noon" is not a time; write it as 2026-05-14T17:03:20Z`},
		{"a time of day ashore", []string{"-time", "2026-07-02 18:20 BST"}, 2, "is not a time; write it as 2026-05-14T17:03:20Z"},
		{"no such log", append([]string{"-log", bad + "x"}, own...), 1, "card.csvx"},
		{"a bad card", append([]string{"-card", bad}, own...), 1, "line 3, deviation"},
		{"no such card", append([]string{"-card", bad + "x"}, own...), 1, "card.csvx"},
		{"a card alone", []string{"-card", bad}, 2, "-time missing"},
		{"a true bearing", []string{"-bearing", "284.5T"}, 2, "-bearing"},
		{"a stray word", []string{"now"}, 2, "flags"},
		{"an unknown method", []string{"-by", "moon"}, 2, "give azimuth, amplitude, body or transit"},
		{"no body", []string{"-by", "body"}, 2, "-body: give a star"},
		{"a planet without figures", []string{"-by", "body", "-body", "Venus"}, 2, "no navigational star"},
		{"half an almanac", []string{"-by", "body", "-body", "Venus", "-gha", "12°"}, 2, "give both -gha and -declination"},
		{"a declination east", []string{"-by", "body", "-body", "Venus", "-gha", "12°", "-declination", "12°34′E"}, 2, "write it as 12°34′S"},
		{"a star by the invented bearing", []string{"-by", "body", "-body", "Vega"}, 2, "-time missing"},
		{"a star without its method", []string{"-body", "Vega"}, 2, "give -by body"},
		{"a flag of another method", []string{"-direction", "062"}, 2, "azimuth does not use -direction: leave it out, or give -by transit"},
		{"a height on the celestial horizon", []string{"-by", "amplitude", "-height", "3"}, 2, "does not use -height"},
		{"a position for a transit", []string{"-by", "transit", "-position", "46°N 19°W"}, 2, "transit does not use -position"},
		{"an amplitude of the invented bearing", []string{"-by", "amplitude", "-event", "set"}, 2, "-time missing"},
		{"no rise or set", []string{"-by", "amplitude"}, 2, "give rise or set"},
		{"a figure counted in years", []string{"-rose", "5°49′W", "-decimal"}, 2, "-decimal counts the years of a rose"},
		{"a Greenwich hour angle of 700°", []string{"-by", "body", "-body", "Venus", "-gha", "700°", "-declination", "12°34′S"}, 2, "-gha: \"700°\" is out of range; give 0° to 360°"},
		{"a visible horizon without a height of eye", []string{"-by", "amplitude", "-event", "set", "-horizon", "visible", "-time", "2026-07-02T20:20:00Z", "-position", "46°N 19°W", "-heading", "226", "-bearing", "308", "-rose", "5°49′W"}, 2, "-height missing"},
		{"an uncertainty of 400°", []string{"-uncertainty", "400°"}, 1, "standard uncertainty of the bearing in degrees 400 is invalid; give 0 to 90"},
		{"neither figure nor legend", []string{"-rose", "north"}, 2, "-rose"},
		{"an endless card", append([]string{"-card", "/dev/zero"}, own...), 1, "card /dev/zero"},
	} {
		var stdout, stderr bytes.Buffer
		if status := run(test.args, &stdout, &stderr); status != test.status || !strings.Contains(stderr.String(), test.want) {
			t.Errorf("%s: status %d, %s", test.desc, status, &stderr)
		}
	}
}

// TestChecksAreAppended begins a log and appends to it, and judges the card by what it holds.
func TestChecksAreAppended(t *testing.T) {
	log := filepath.Join(t.TempDir(), "log.csv")
	args := append(ownCheck("280.5°C"), "-append", "-log", log)
	for _, want := range []string{"1 check differs", "2 checks differ", "3 checks differ"} {
		var stdout, stderr bytes.Buffer
		if status := run(args, &stdout, &stderr); status != 0 || !strings.Contains(stdout.String(), want) {
			t.Errorf("status %d: %s%s", status, &stdout, &stderr)
		}
	}
	if data, err := os.ReadFile(log); err != nil || strings.Count(string(data), ",azimuth,the Sun,280.5°C,") != 3 {
		t.Errorf("%s, %v", data, err)
	}
	var stderr bytes.Buffer
	if status := run([]string{"-append"}, &bytes.Buffer{}, &stderr); status != 2 || !strings.Contains(stderr.String(), "with -log too") {
		t.Errorf("status %d: %s", status, &stderr)
	}
}

// TestACheckThatCannotBeUsedIsLeftOut judges the card by the other checks, and says which is left
// out. The card is not that of the vessel, and the output says so.
func TestACheckThatCannotBeUsedIsLeftOut(t *testing.T) {
	log := filepath.Join(t.TempDir(), "log.csv")
	if err := os.WriteFile(log, []byte("time,heading,deviation,compassError,variation\n,045,2°48′E ±0°48′,2°20′W ±0°45′,5°08′W ±0°15′\n,090,1°E,4°W,5°W\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	var stdout, stderr bytes.Buffer
	status := run(append(ownCheck("280.5°C"), "-log", log), &stdout, &stderr)
	for _, want := range []string{"The deviation card is the invented one: give that of your compass with -card.\n", "  2 checks differ", "  check 2, on 090°C, is not used: its uncertainty is unknown"} {
		if status != 0 || !strings.Contains(stdout.String(), want) {
			t.Errorf("status %d: no %q: %s%s", status, want, &stdout, &stderr)
		}
	}
}

// TestOutputIsReadBackAsLog reads the checks in the output of -format json with -log.
func TestOutputIsReadBackAsLog(t *testing.T) {
	var stdout, stderr bytes.Buffer
	if status := run([]string{"-format", "json"}, &stdout, &stderr); status != 0 || !json.Valid(stdout.Bytes()) {
		t.Fatalf("status %d: %s", status, &stderr)
	}
	log := filepath.Join(t.TempDir(), "out.json")
	if err := os.WriteFile(log, stdout.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
	stdout.Reset()
	if status := run(append(ownCheck("280.5°C"), "-log", log), &stdout, &stderr); status != 0 || !strings.Contains(stdout.String(), "  5 checks differ") {
		t.Errorf("status %d: %s%s", status, &stdout, &stderr)
	}
	if status := run([]string{"-format", "xml"}, &stdout, &stderr); status != 2 || !strings.Contains(stderr.String(), "give text or json") {
		t.Errorf("status %d: %s", status, &stderr)
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
		{"a bearing alone beside invented figures", []string{"-bearing", "281°C"}, "Vessel, coast and figures are invented.\n", "-card"},
		{"an own check beside invented ones", ownCheck("280.5°C"), "The deviation card and the earlier checks are the invented ones: give those of your compass with -card and -log.\n", "Vessel"},
		{"a reciprocal does not condemn the card", []string{"-bearing", "100.5°C"}, "The card: holds\n  3 checks differ", "swing again\n"},
		{"a reciprocal is to be taken again", []string{"-bearing", "100.5°C"}, "on 226°C the reading is doubtful and was left out: take it again", "The card: swing again"},
		{"a reciprocal alone", []string{"-bearing", "100.5°C", "-log", "none"}, "The card: not judged", "checks differ"},
		{"a rose without annual change", []string{"-rose", "5°44'W 2020"}, "The card: not judged\n  the uncertainty of the variation is unknown", "standard uncertainty ±"},
		{"a figure instead of a legend", []string{"-rose", "5°49′W ±0°15′"}, "Variation                      5°49′W", "14 years"},
		{"a time an hour slow", []string{"-time", "2026-07-02T17:20:00Z"}, "the time is 1 hour slow", "The card: swing again"},
		{"an amplitude", []string{"-by", "amplitude", "-time", "2026-07-02T20:20:00Z", "-position", "46°52.8′N 019°24.5′W", "-event", "set", "-heading", "226", "-bearing", "308", "-rose", "5°49′W ±0°15′"}, "Amplitude             W 34.8° N", "on the visible"},
		{"a star", []string{"-by", "body", "-body", "altair", "-time", "2026-07-02T23:20:00Z", "-position", "46°52.8′N 019°24.5′W", "-heading", "226", "-bearing", "123.5", "-rose", "5°49′W ±0°15′"}, "Compass checked against Altair", "The Sun by"},
		{"the Moon by an almanac", []string{"-by", "body", "-body", "the Moon", "-gha", "331°05′", "-declination", "12°34′S", "-time", "2026-07-02T23:20:00Z", "-position", "46°52.8′N 019°24.5′W", "-heading", "226", "-bearing", "136", "-rose", "5°49′W ±0°15′"}, "of the Moon as given", "computed"},
		{"what stands well by night", []string{"-well", "-time", "2026-07-02T23:20:00Z"}, "Altair           bears 118.6°T", "the Sun"},
		{"what stands well by day", []string{"-well"}, "the Sun          bears 275.7°T at an altitude of 26.9°", "Vega"},
		{"what stands well east of Greenwich", []string{"-well", "-time", "2026-06-21T16:00:00Z", "-position", "33°50′S 151°17′E"}, "From 33°50.0′S 151°17.0′E at 2026-06-21T16:00:00Z, the best first:\nRigil Kentaurus  bears 215.1°T at an altitude of 33.5°\nMarkab           bears 049.0°T", "the Sun"},
		{"nothing stands well at noon", []string{"-well", "-time", "2026-07-02T13:20:00Z"}, "Nothing stands well", "bears"},
		{"a transit", []string{"-by", "transit", "-time", "2026-07-02T20:20:00Z", "-direction", "062", "-heading", "045", "-bearing", "065", "-rose", "5°49′W ±0°15′"}, "Deviation             2°49′E", "the Sun"},
		{"no uncertainty of the bearing", []string{"-uncertainty", ""}, "The card: not judged\n  the uncertainty of the bearing is not stated", "no annual change"},
		{"a card carried far", []string{"-swung", "20°S 30°W"}, "Warning: the dip was ", "nowhere"},
		{"a card carried nowhere", []string{"-swung", "46°44.0′N 019°00.3′W"}, "The card: holds", "Warning: the dip was "},
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
