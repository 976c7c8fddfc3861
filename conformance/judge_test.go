package conformance_test

import (
	"bytes"
	"errors"
	"math"
	"os"
	"os/exec"
	"regexp"
	"strings"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/conformance"
	"lubberline.example/conformance/lubberline"
)

// with is this module with one operation of its own.
func with(name string, operation conformance.Operation) conformance.Subject {
	return conformance.Subject{Name: "odd", Operations: map[string]conformance.Operation{name: operation}}
}

// check is the first case of an operation that did not pass, worked by another.
func check(t *testing.T, name string, operation conformance.Operation) conformance.Result {
	t.Helper()
	report, err := conformance.Check(with(name, operation), conformance.Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range report.Results {
		if r.Status != conformance.NotOffered && r.Status != conformance.Pass {
			return r
		}
	}
	t.Fatal("nothing is wrong with it")
	return conformance.Result{}
}

func TestEachAnswerHasItsStatus(t *testing.T) {
	for _, c := range []struct {
		name      string
		operation conformance.Operation
		status    conformance.Status
		says      string
	}{
		{"wrong", func([]byte) (conformance.Answer, error) {
			return conformance.Answer{"courseDegrees": 359.0, "speedMadeGoodKnots": 1.0}, nil
		}, conformance.Fail, "off by"},
		{"missing", func([]byte) (conformance.Answer, error) { return nil, nil }, conformance.Fail, "got nothing"},
		{"a text", func([]byte) (conformance.Answer, error) {
			return conformance.Answer{"courseDegrees": "127"}, nil
		}, conformance.Fail, "got 127, a text and not a number"},
		{"an int", func([]byte) (conformance.Answer, error) {
			return conformance.Answer{"courseDegrees": 127}, nil
		}, conformance.Fail, "got 127, of type int and not a number of type float64"},
		{"misspelt", func([]byte) (conformance.Answer, error) {
			return conformance.Answer{"course": 127.0}, nil
		}, conformance.Fail, `the answer has "course", which current.toSteer does not have`},
		{"a trace", func([]byte) (conformance.Answer, error) { return nil, errors.New("torn:\nline 1\nline 2") }, conformance.Broke, "    torn:\n    line 1\n    line 2\n"},
		{"NaN", func([]byte) (conformance.Answer, error) {
			return conformance.Answer{"courseDegrees": math.NaN()}, nil
		}, conformance.Fail, "NaN"},
		{"refused", func([]byte) (conformance.Answer, error) {
			return nil, &conformance.Error{Status: conformance.Refused, Kind: "x"}
		}, conformance.Fail, "a valid input is refused"},
		{"declined", func([]byte) (conformance.Answer, error) {
			return nil, &conformance.Error{Status: conformance.Declined, Reason: "not today"}
		}, conformance.Declined, "not today"},
		{"broke", func([]byte) (conformance.Answer, error) { return nil, errors.New("torn") }, conformance.Broke, "torn"},
		{"panics", func([]byte) (conformance.Answer, error) { panic("overboard") }, conformance.Broke, "overboard"},
		{"given what it does not know", conformance.On(func(struct{ TrackDegrees float64 }) (conformance.Answer, error) { return nil, nil }), conformance.Broke, `does not fit the argument of the operation, struct { TrackDegrees float64 }: json: unknown field "`},
	} {
		r := check(t, "current.toSteer", c.operation)
		if r.Status != c.status || !strings.Contains(r.String(), c.says) || !strings.Contains(r.String(), "source: ") {
			t.Errorf("%s: %v", c.name, r)
		}
	}
}

func TestARefusalIsAnAnswer(t *testing.T) {
	for kind, want := range map[string]conformance.Status{"": conformance.Pass, "never-heard": conformance.Fail} {
		report, err := conformance.Check(with("variation.legend", func([]byte) (conformance.Answer, error) {
			return nil, &conformance.Error{Status: conformance.Refused, Kind: kind}
		}), conformance.Options{Topic: "variation"})
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range report.Results {
			if r.Status != conformance.NotOffered && r.Case.Refused != nil && r.Status != want {
				t.Errorf("refused as %q: %v", kind, r)
			}
		}
	}
}

func TestFailuresNameTheConvention(t *testing.T) {
	wrapping := conformance.On(func(struct{ Text string }) (conformance.Answer, error) {
		return conformance.Answer{"directionDegrees": 40.0}, nil
	})
	report, err := conformance.Check(with("angle.directionFromText", wrapping), conformance.Options{Run: regexp.MustCompile("/400$")})
	if err != nil || len(report.Results) != 1 || !strings.Contains(report.Results[0].String(), "convention: a program may wrap 400°") {
		t.Errorf("%v: %v", err, report.Results)
	}
	r := check(t, "fix.horizon", conformance.On(func(g struct{ HeightFeet float64 }) (conformance.Answer, error) {
		return conformance.Answer{"horizonMiles": 2 * math.Sqrt(g.HeightFeet)}, nil
	}))
	if !strings.Contains(r.String(), "convention: The distance is 1.17 miles") {
		t.Error(r)
	}
}

func TestMisspeltAndStaleNamesAreErrors(t *testing.T) {
	if _, err := conformance.Check(with("sailing.plan", nil), conformance.Options{}); err == nil || !strings.Contains(err.Error(), "sailing.plan") {
		t.Error(err)
	}
	if _, err := conformance.Check(lubberline.Subject(), conformance.Options{Known: map[string]string{"none": "x"}}); err == nil {
		t.Error("a known failure of no case is accepted")
	}
	if _, err := conformance.Check(lubberline.Subject(), conformance.Options{Topic: "weather"}); err == nil {
		t.Error("a topic of no case is accepted")
	}
	const id = "sailings/plane/course-005-188-miles"
	report, err := conformance.Check(lubberline.Subject(), conformance.Options{Run: regexp.MustCompile("^" + id + "$"), Known: map[string]string{id: "once"}})
	if err != nil || len(report.Results) != 1 || report.Results[0].Status != conformance.KnownPasses || report.Good() {
		t.Errorf("%v: %+v", err, report)
	}
}

func TestNothingOfferedIsNoSuccess(t *testing.T) {
	report, err := conformance.Check(conformance.Subject{Name: "idle"}, conformance.Options{})
	if err != nil || report.Good() || !strings.Contains(report.Summary(), "offered 0 of ") {
		t.Errorf("%v: %s", err, report.Summary())
	}
}

// By hand: of two operations one is offered. Passes and failures are counted even where there are
// none, other statuses only where there are some.
func TestSummaryLeavesOutWhatDidNotHappen(t *testing.T) {
	one, other := conformance.Case{Operation: "a.one"}, conformance.Case{Operation: "b.other"}
	r := conformance.Report{Results: []conformance.Result{{Case: one, Status: conformance.Pass}, {Case: one, Status: conformance.Declined}, {Case: other, Status: conformance.NotOffered}}}
	if got, want := r.Summary(), "offered 1 of 2 operations; 1 pass, 0 fail, 1 declined, 1 not-offered"; got != want {
		t.Errorf("%s; want %s", got, want)
	}
}

func TestServeAnswersLineByLine(t *testing.T) {
	in := strings.NewReader(`{"hello":1,"corpus":"2.0"}
{"case":"a","operation":"sailing.plane","given":{"courseDegrees":90,"distanceMiles":10}}
{"case":"b","operation":"sailing.plane","given":{"courseDegrees":90,"distanceKilometres":10}}
{"case":"c","operation":"sailing.teleport","given":{}}
{"case":"d","operation":"variation.legend","given":{"legend":"3°61'W 2014 (9'E)"}}
{"bye":true}
{"case":"e"}
`)
	var out bytes.Buffer
	if err := conformance.Serve(lubberline.Subject(), in, &out); err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(out.String()), "\n")
	for i, want := range []string{`"name":"lubberline"`, `"departureMiles":10`, `"broke":`, `"declined":"no operation`, `"refused":{"kind":"bad-figure"`} {
		if i >= len(lines) || !strings.Contains(lines[i], want) {
			t.Errorf("line %d: want %s in\n%s", i+1, want, out.String())
		}
	}
	if len(lines) != 5 {
		t.Errorf("%d lines", len(lines))
	}
	if err := conformance.Serve(lubberline.Subject(), strings.NewReader("noise\n"), &out); err == nil {
		t.Error("noise is served")
	}
}

// A whole turn more is another angle. Only directions and longitudes are on the circle, and
// each has its range.
func TestWholeTurnsAreCaught(t *testing.T) {
	topics, err := conformance.Load()
	if err != nil {
		t.Fatal(err)
	}
	for _, turns := range []float64{360, 720, -360, -720} {
		turned := answers{}
		for _, topic := range topics {
			for _, c := range topic.Cases {
				turned[c.ID] = conformance.Answer{}
				for key, want := range c.Expect {
					turned[c.ID][key] = turn(want.Value, turns)
				}
			}
		}
		report, err := conformance.Hold(turned, "turned", "", conformance.Options{}, nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range report.Results {
			numbers := false
			for _, want := range r.Case.Expect {
				_, text := want.Value.(string)
				numbers = numbers || !text
			}
			if r.Status == conformance.Pass && numbers && !northFor(r.Case, turns) {
				t.Errorf("%g° more passes %s", turns, r.Case.ID)
			}
		}
	}
}

// turn adds degrees to a number or to each of a list.
func turn(v any, degrees float64) any {
	switch v := v.(type) {
	case float64:
		return v + degrees
	case []any:
		turned := make([]any, len(v))
		for i := range v {
			turned[i] = turn(v[i], degrees)
		}
		return turned
	}
	return v
}

// northFor reports whether a case expects north alone, which is both 0° and 360°, or a
// relative direction, which is written both ways.
func northFor(c conformance.Case, turns float64) bool {
	for key, want := range c.Expect {
		v, ok := want.Value.(float64)
		both := key == "relativeDegrees" && v+turns >= -180 && v+turns <= 360
		if ok && v != 0 && v != 360 && !both {
			return false
		}
	}
	return math.Abs(turns) == 360
}

// TestRunReportsEachStatus runs this test's program again, with a subject whose answers are right
// or wrong. A case that passes is not skipped, a wrong answer fails, and it is skipped if listed.
func TestRunReportsEachStatus(t *testing.T) {
	const id = "sailings/plane/course-005-188-miles"
	if way := os.Getenv("CONFORMANCE_INNER"); way != "" {
		subject, options := lubberline.Subject(), conformance.Options{Run: regexp.MustCompile("^" + id + "$")}
		if way != "right" {
			subject = with("sailing.plane", func([]byte) (conformance.Answer, error) { return nil, nil })
		}
		if way == "listed" {
			options.Known = map[string]string{id: "not yet"}
		}
		conformance.Run(t, subject, options)
		return
	}
	for way, want := range map[string]string{"right": "PASS", "wrong": "FAIL", "listed": "SKIP"} {
		command := exec.Command(os.Args[0], "-test.run=^TestRunReportsEachStatus$", "-test.v")
		command.Env = append(os.Environ(), "CONFORMANCE_INNER="+way)
		out, err := command.CombinedOutput()
		if (err != nil) != (way == "wrong") || !strings.Contains(string(out), "--- "+want+": TestRunReportsEachStatus/"+id+" ") {
			t.Errorf("%s: %v\n%.2000s", way, err, out)
		}
	}
}

// A slip is named where the answer is the wrong one that the case lists for it, and not where the
// answer is another or no number.
func TestOnlyTheListedWrongAnswerIsASlip(t *testing.T) {
	cases := 0
	for _, r := range angle.Must(conformance.Check(conformance.Subject{Name: "idle"}, conformance.Options{})).Results {
		if len(r.Case.Slips) > 0 {
			cases++
		}
		if cases > 3 { // each check reads the corpus
			break
		}
		for _, slip := range r.Case.Slips {
			for key, wrong := range slip {
				value, ok := wrong.(float64)
				if !ok {
					continue
				}
				name := strings.ReplaceAll(slip["name"].(string), "-", " ")
				for answer, named := range map[any]bool{value: true, value + 0.37: false, "text": false} {
					got, err := conformance.Check(with(r.Case.Operation, func([]byte) (conformance.Answer, error) {
						return conformance.Answer{key: answer}, nil
					}), conformance.Options{Run: regexp.MustCompile("^" + r.Case.ID + "$")})
					if err != nil || len(got.Results) != 1 {
						t.Fatal(r.Case.ID, err)
					}
					if strings.Contains(strings.Join(got.Results[0].Problems, " "), "("+name+")") != named {
						t.Errorf("%s: %v: %q", r.Case.ID, answer, got.Results[0].Problems)
					}
				}
			}
		}
	}
}
