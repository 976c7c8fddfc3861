package main

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// The test binary plays the programs. The variable PLAY says what it does.
func TestMain(m *testing.M) {
	if mode := os.Getenv("PLAY"); mode != "" {
		play(mode)
		return
	}
	os.Exit(m.Run())
}

// play answers the protocol, well or badly.
func play(mode string) {
	d := json.NewDecoder(os.Stdin)
	say := func(format string, args ...any) { fmt.Printf(format+"\n", args...) }
	for n := 0; ; n++ {
		var q struct {
			Hello int
			Case  string
			Given struct{ CourseDegrees, DistanceMiles float64 }
			Bye   bool
		}
		if err := d.Decode(&q); err != nil || q.Bye {
			return
		}
		switch {
		case q.Hello == 1 && (mode == "mute" || mode == "starts once" && startedBefore()):
			time.Sleep(time.Minute)
		case q.Hello == 1 && mode == "no greeting":
			say(`{"case":"x"}`)
		case q.Hello == 1 && mode == "unknown offer":
			say(`{"hello":1,"name":"x","offers":["sailing.teleport"]}`)
		case q.Hello == 1 && mode == "nothing":
			say(`{"hello":1,"name":"x","offers":[]}`)
		case q.Hello == 1:
			say(`{"hello":1,"name":"player","version":"2","offers":["sailing.plane"]}`)
		case mode == "crash", mode == "starts once":
			fmt.Fprintln(os.Stderr, "out of rum")
			os.Exit(3)
		case mode == "silent end":
			os.Exit(3)
		case mode == "no case":
			say(`{"answer":{}}`)
		case mode == "a list":
			say(`{"case":%q,"answer":[1]}`, q.Case)
		case mode == "a text":
			say(`{"case":%q,"refused":"no"}`, q.Case)
		case mode == "NaN":
			say(`{"case":%q,"answer":{"dLatMinutes":NaN}}`, q.Case)
		case mode == "slow":
			time.Sleep(time.Minute)
		case mode == "other case":
			say(`{"case":"other","answer":{}}`)
		case mode == "two answers":
			say(`{"case":%q,"answer":{},"declined":"no"}`, q.Case)
		case mode == "no JSON":
			say(`nonsense`)
		case mode == "unknown field":
			say(`{"case":%q,"anser":{}}`, q.Case)
		case mode == "declines":
			say(`{"case":%q,"declined":"not today"}`, q.Case)
		case mode == "broke":
			say(`{"case":%q,"broke":"stack trace"}`, q.Case)
		case mode == "refuses":
			say(`{"case":%q,"refused":{"kind":"why","message":"not"}}`, q.Case)
		case mode == "one stray line":
			if !startedBefore() {
				say(`a trace, by mistake`)
			}
			fallthrough
		case mode == "right":
			sin, cos := math.Sincos(q.Given.CourseDegrees * math.Pi / 180)
			say(`{"case":%q,"answer":{"dLatMinutes":%v,"departureMiles":%v}}`, q.Case, q.Given.DistanceMiles*cos, q.Given.DistanceMiles*sin)
		case mode == "wrong":
			say(`{"case":%q,"answer":{"dLatMinutes":0,"departureMiles":"west"}}`, q.Case)
		}
	}
}

// startedBefore reports whether it was called before, by any process of the test.
func startedBefore() bool {
	f, err := os.OpenFile(os.Getenv("PLAY_MARK"), os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return true
	}
	f.Close()
	return false
}

// against runs the command against this binary in a mode.
func against(t *testing.T, mode string, flags ...string) (status int, stdout, stderr string) {
	t.Helper()
	t.Setenv("PLAY", mode)
	t.Setenv("PLAY_MARK", filepath.Join(t.TempDir(), "started"))
	var out, errs bytes.Buffer
	args := append([]string{"-topic", "sailings", "-timeout", "300ms"}, flags...)
	status = run(append(args, "--", os.Args[0]), &out, &errs)
	return status, out.String(), errs.String()
}

func TestBadProgramsAreReported(t *testing.T) {
	for _, c := range []struct {
		mode   string
		status int
		says   string
	}{
		{"crash", 1, "broke sailings/plane/"},
		{"crash", 1, "the program ended; it said: out of rum"},
		{"slow", 1, "timed-out sailings/plane/"},
		{"other case", 1, `the answer is of case "other"`},
		{"two answers", 1, "the line has 2 of answer, refused, declined and broke"},
		{"no JSON", 1, "bad-answer sailings/plane/"},
		{"no JSON", 1, "in nonsense; JSON has no NaN, and other text belongs on standard error"},
		{"NaN", 1, "JSON has no NaN"},
		{"silent end", 1, "the program ended, with exit status 3"},
		{"no case", 1, "the line has no case; repeat the id"},
		{"a list", 1, "answer has the JSON type array, in {"},
		{"a text", 1, "refused has the JSON type string"},
		{"unknown field", 1, "an answer case and one of answer, refused"},
		{"unknown field", 1, `unknown field "anser"`},
		{"declines", 1, "not today"},
		{"declines", 1, "no case passed"},
		{"right", 0, "1 pass, 0 fail"},
		{"broke", 1, "stack trace"},
		{"refuses", 1, "a valid input is refused"},
		{"wrong", 1, "departureMiles: expected -18.7 M ± 0.05, got west"},
		{"wrong", 1, "Lectures in Navigation"},
		{"no greeting", 2, "the answer to the greeting has protocol 0"},
		{"unknown offer", 2, "sailing.teleport"},
		{"nothing", 1, "offers none"},
	} {
		if testing.Short() && c.mode == "slow" {
			continue
		}
		flags := []string{"-run", "^sailings/plane/south"}
		if c.mode == "nothing" {
			flags = nil
		}
		status, stdout, stderr := against(t, c.mode, flags...)
		if status != c.status || !strings.Contains(stdout+stderr, c.says) {
			t.Errorf("%s: status %d, want %d with %q\n%s%s", c.mode, status, c.status, c.says, stdout, stderr)
		}
	}
}

// A crash fails its case, and the program starts again for the next.
func TestARunGoesOnAfterACrash(t *testing.T) {
	_, stdout, _ := against(t, "crash")
	if n := strings.Count(stdout, "broke sailings/plane/"); n < 5 {
		t.Errorf("%d cases were tried:\n%s", n, stdout)
	}
}

func TestDecliningEverythingIsNotPassing(t *testing.T) {
	status, stdout, stderr := against(t, "declines")
	if status != 1 || !strings.Contains(stdout, "0 pass") || !strings.Contains(stderr, "no case passed") {
		t.Errorf("status %d: %s%s", status, stdout, stderr)
	}
}

func TestStrayLineCostsOneCase(t *testing.T) {
	status, stdout, stderr := against(t, "one stray line", "-run", "^sailings/plane/")
	if status != 1 || strings.Count(stdout, "bad-answer sailings/") != 1 || !strings.Contains(stdout, "1 bad-answer") || !strings.Contains(stdout, " 0 fail") {
		t.Errorf("status %d: %s%s", status, stdout, stderr)
	}
}

func TestProgramThatDoesNotStartAgainStopsTheRun(t *testing.T) {
	defer func(d time.Duration) { startTimeout = d }(startTimeout)
	startTimeout = 300 * time.Millisecond
	begun := time.Now()
	status, stdout, stderr := against(t, "starts once")
	if status != 2 || strings.Count(stdout, "broke sailings/") != 2 || !strings.Contains(stderr, "did not start again") {
		t.Errorf("status %d: %s%s", status, stdout, stderr)
	}
	if took := time.Since(begun); took > 10*time.Second {
		t.Errorf("ended after %v", took)
	}
}

func TestReportForms(t *testing.T) {
	_, stdout, _ := against(t, "wrong", "-report", "json")
	var report struct {
		Subject                    string
		Counts                     map[string]int
		Corpus                     string
		Tier                       string
		Topics, Tiers, Provenances []struct {
			Name          string
			Asked, Passed int
		}
		Results []struct {
			ID, Status, Standing string
			Expected             struct {
				Answer map[string]struct{ Value, Within any }
			}
			Got struct{ Answer map[string]any }
		}
	}
	if err := json.Unmarshal([]byte(stdout), &report); err != nil || report.Subject != "player" || report.Counts["fail"] < 5 || len(report.Results) < 20 {
		t.Errorf("%v: %+v", err, report)
	}
	for _, r := range report.Results {
		if r.Status == "fail" && (r.Expected.Answer["dLatMinutes"].Value == nil || r.Got.Answer["departureMiles"] != "west") {
			t.Errorf("expected and got are not data: %+v", r)
		}
	}
	if report.Corpus == "" || report.Tier != "library" || len(report.Topics) != 1 || len(report.Tiers) != 3 || report.Tiers[0].Asked < 5 || report.Tiers[0].Passed != 0 || len(report.Provenances) == 0 {
		t.Errorf("counts: %+v", report)
	}
	_, stdout, _ = against(t, "crash", "-report", "junit")
	var suite struct {
		Tests      int `xml:"tests,attr"`
		Errors     int `xml:"errors,attr"`
		Properties []struct {
			Name  string `xml:"name,attr"`
			Value string `xml:"value,attr"`
		} `xml:"properties>property"`
		Cases []struct {
			Name  string    `xml:"name,attr"`
			Error *struct{} `xml:"error"`
		} `xml:"testcase"`
	}
	if err := xml.Unmarshal([]byte(stdout), &suite); err != nil || suite.Errors < 5 || suite.Tests != len(suite.Cases) || suite.Properties[1].Name != "corpus" || suite.Properties[1].Value == "" {
		t.Errorf("%v: %+v", err, suite)
	}
	_, stdout, _ = against(t, "declines", "-report", "junit")
	if !strings.Contains(stdout, `<failure message="declined"`) {
		t.Error(stdout)
	}
	status, stdout, _ := against(t, "wrong", "-list")
	if status != 0 || strings.Count(stdout, "sailings/") < 20 || !strings.Contains(stdout, "sailings/plane/south-south-west-50-miles  sailing.plane  ") {
		t.Errorf("status %d: %s", status, stdout)
	}
}

// A program that does not greet stops the run. It costs the time of a start, and not that time
// for each case.
func TestMuteProgramStopsTheRun(t *testing.T) {
	defer func(d time.Duration) { startTimeout = d }(startTimeout)
	startTimeout = 300 * time.Millisecond
	begun := time.Now()
	status, stdout, stderr := against(t, "mute")
	if status != 2 || stdout != "" || !strings.Contains(stderr, "no answer in time") || time.Since(begun) > 10*time.Second {
		t.Errorf("status %d after %v: %s%s", status, time.Since(begun), stdout, stderr)
	}
}

func TestFailFastStopsAtTheFirstFailure(t *testing.T) {
	status, stdout, stderr := against(t, "wrong", "-fail-fast")
	if status != 1 || strings.Count(stdout, "\nfail ")+strings.Count(stdout[:5], "fail ") != 1 || !strings.Contains(stdout, "1 fail") || !strings.Contains(stderr, "stopped at the first failure") {
		t.Errorf("status %d: %s%s", status, stdout, stderr)
	}
}

func TestPatternsChooseCases(t *testing.T) {
	for _, c := range []struct {
		flags []string
		want  string
	}{
		{[]string{"-run", "south-south-west"}, "1 pass, 0 fail"},
		{[]string{"-run", `^sailing\.plane$`, "-skip", "miles$"}, " pass, 0 fail"},
		{[]string{"-run", "south-south-west", "-tier", "navigation"}, "tier navigation: offered 1 of 1"},
	} {
		if status, stdout, stderr := against(t, "right", c.flags...); status != 0 || !strings.Contains(stdout, c.want) || strings.Contains(stdout, "not-offered") {
			t.Errorf("%v: status %d: %s%s", c.flags, status, stdout, stderr)
		}
	}
	if status, _, stderr := against(t, "right", "-run", "["); status != 2 || !strings.Contains(stderr, "-run") {
		t.Errorf("status %d: %s", status, stderr)
	}
}

func TestKnownFailuresNeedAReason(t *testing.T) {
	path := filepath.Join(t.TempDir(), "known")
	write := func(text string) {
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	const id = "sailings/plane/south-south-west-50-miles"
	write("# comment\n\n" + id + " we are wrong and know it\n")
	for _, mode := range []string{"wrong", "declines"} {
		// Nothing passed, so the run has shown nothing.
		if status, stdout, stderr := against(t, mode, "-known", path, "-run", id); status != 1 || !strings.Contains(stdout, "1 known") || !strings.Contains(stderr, "no case passed") {
			t.Errorf("status %d: %s%s", status, stdout, stderr)
		}
	}
	if status, stdout, stderr := against(t, "right", "-known", path, "-run", id); status != 1 || !strings.Contains(stdout, "remove it from the list") {
		t.Errorf("status %d: %s%s", status, stdout, stderr)
	}
	write("sailings/plane/none of this name\n")
	if status, _, stderr := against(t, "wrong", "-known", path, "-run", id); status != 2 || !strings.Contains(stderr, "are not cases") {
		t.Errorf("status %d: %s", status, stderr)
	}
	write(id + "\n")
	if status, _, stderr := against(t, "wrong", "-known", path); status != 2 || !strings.Contains(stderr, "line 1") {
		t.Errorf("status %d: %s", status, stderr)
	}
}

func TestUsageErrors(t *testing.T) {
	for _, args := range [][]string{{}, {"-report", "pdf", "--", "x"}, {"-topic", "none", "--", os.Args[0]}, {"-list", "-topic", "none"}, {"-operations", "-skip", "."}, {"-nonsense"}, {"--", "/nonexistent/program"}, {"-known", "/nonexistent", "--", "x"}, {"-timeout", "0", "--", "x"}, {"-timeout", "-1s", "--", "x"}} {
		t.Setenv("PLAY", "declines")
		var out, errs bytes.Buffer
		if status := run(args, &out, &errs); status != 2 || errs.Len() == 0 {
			t.Errorf("%v: status %d, %q", args, status, &errs)
		}
	}
	var out, errs bytes.Buffer
	if status := run([]string{"-h"}, &out, &errs); status != 0 || !strings.Contains(errs.String(), "README") {
		t.Errorf("status %d: %s", status, &errs)
	}
}

// TestFaultsOfUsageAreOneLine names what is wrong, and does not print the whole help.
func TestFaultsOfUsageAreOneLine(t *testing.T) {
	for want, args := range map[string][]string{
		"run: no program: write it after the flags":                             nil,
		"run: -topic \"tides\" is not a topic; use one of angle, compass-chain": {"-topic", "tides", "-list"},
		"run: flag provided but not defined: -x; -h explains the flags":         {"-x"},
	} {
		var out, errs strings.Builder
		if status := run(args, &out, &errs); status != 2 || !strings.HasPrefix(errs.String(), want) || strings.Count(errs.String(), "\n") != 1 || out.Len() > 0 {
			t.Errorf("%q: status %d: %s%s", args, status, &out, &errs)
		}
	}
}
