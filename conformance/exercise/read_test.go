package exercise_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"strings"
	"testing"
	"testing/iotest"

	"lubberline.example/angle"
	"lubberline.example/conformance/exercise"
)

// school is a paper of a school. Its figures are invented.
const school = `{"title": "Our paper (invented)", "passage": ["The vessel Quillon leaves."],
 "tables": [{"caption": "Deviation", "columns": ["Compass", "Dev."], "rows": [["000", "2°W"], ["090"]]}],
 "made": "Our college, version 1",
 "problems": [
  {"topic": "course to steer", "question": "The course is 112°T. What is the course by compass?",
   "form": "direction", "north": "C", "answer": "114",
   "working": [{"what": "Variation", "value": "5°08′W", "how": "rose of 2015"}],
   "slips": [{"slip": "variation-wrong-way", "answer": "103"},
             {"slip": "the card of the other compass was used", "answer": "117"}]},
  {"question": "Where is the vessel?", "form": "position", "answer": "46°58.0′N 019°17.8′W"}
 ]}`

// read reads a paper that is valid.
func read(t testing.TB, text string) exercise.Paper {
	t.Helper()
	p, err := exercise.Read(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// A school's own problems are marked as those of the library, with the slips that it names.
func TestProblemsOfASchool(t *testing.T) {
	p := read(t, "\ufeff"+school)
	q := p.Problems[0]
	for answer, want := range map[string]string{
		"114": "right", "103": "the variation was applied the wrong way", "117C": "the card of the other compass was used", "294": "explains",
	} {
		x, err := q.Read(answer)
		if err != nil || !strings.Contains(q.Diagnose(x).String(), want) {
			t.Errorf("%s: %v, %v", answer, q.Diagnose(x), err)
		}
	}
	if got := p.Key().Markdown(); !strings.Contains(got, "114°C") || !strings.Contains(got, "46°58.0′N") {
		t.Error(got)
	}
	if got := p.Workings().Markdown(); !strings.Contains(got, "rose of 2015") || !strings.Contains(got, "| 117°C | the card of the other compass was used |") {
		t.Error(got)
	}
}

// A paper that is written and read again has the same questions, answers and wrong answers.
func TestPaperIsReadBack(t *testing.T) {
	for seed := range uint64(seeds(2)) {
		for _, level := range levels {
			a := made(t, exercise.Options{Seed: seed, Level: level, Questions: 12})
			text, err := json.Marshal(a)
			if err != nil {
				t.Fatal(err)
			}
			b := read(t, string(text))
			if html(t, a.Questions()) != html(t, b.Questions()) || html(t, a.Key()) != html(t, b.Key()) {
				t.Errorf("seed %d: the questions or the key differ", seed)
			}
			if again, err := json.Marshal(b); err != nil || string(again) != string(text) {
				t.Errorf("seed %d: written again it is %s, want %s: %v", seed, again, text, err)
			}
			for i := range a.Problems {
				for _, c := range a.Problems[i].Slips() {
					printed := a.Problems[i].Print(c.Answer)
					if _, err := a.Problems[i].Read(printed); err != nil {
						continue // a distance below zero, which nobody writes
					}
					x, err := b.Problems[i].Read(printed)
					if err != nil || b.Problems[i].Diagnose(x).Right {
						t.Errorf("seed %d, question %d: %s: %v", seed, i+1, printed, err)
					}
				}
			}
		}
	}
}

// A fault has its place and says what is accepted.
func TestFaultsOfPapersAreNamed(t *testing.T) {
	long := strings.Repeat("x", 4000+1)
	question := func(fields string) string { return `{"title":"a","problems":[{"question":"b?",` + fields + `}]}` }
	for text, want := range map[string]string{
		``:                              "not JSON|not a paper",
		`[]`:                            "line 1",
		`{}`:                            "at least one",
		`{,}`:                           "line 1",
		"{\n\n\"title\": 5}":            "line 3, title: number is given where a text belongs",
		`{"title":"a","problems":{}}`:   "a list belongs",
		`{"title":"a","odd":1}`:         `"odd"`,
		school + "{}":                   "text after the paper",
		`{"title":"` + long + `"}`:      "title: the text has more than",
		`{"title":"a","problems":[{}]}`: "problems[0]",
		question(`"form":"odd"`):        "direction, east-west",
		question(`"form":"miles"`):      "can't be read",
		question(`"form":"direction","answer":"400"`):                                                                  "problems[0]",
		question(`"form":"direction","answer":"100","north":"X"`):                                                      "T, M or C",
		question(`"form":"miles","answer":"1","north":"T"`):                                                            "none for another",
		question(`"form":"miles","answer":"1","rounding":2`):                                                           "leave it out",
		question(`"form":"miles","answer":"1","slips":[{"slip":"a","answer":"1"}]`):                                    "slip 1 gives the right answer",
		question(`"form":"miles","answer":"1","slips":[{"slip":" ","answer":"2"}]`):                                    "slip 1 is empty",
		question(`"form":"miles","answer":"1","slips":[{"slip":"a","answer":"x"}]`):                                    "slip 1 can't be read",
		`{"title":"a","tables":[{"columns":["a"],"rows":[["1","2"]]}],"problems":[{}]}`:                                "tables[0].rows[0]: 2 entries",
		`{"title":"a","problems":[` + strings.TrimSuffix(strings.Repeat(`{},`, 500+1), ",") + `]}`:                     "problems: 501 entries",
		`{"title":"a","problems":[{"question":"b?","form":"miles","answer":"1","working":[{"what":"` + long + `"}]}]}`: "problems[0].working[0]",
	} {
		_, err := exercise.Read(strings.NewReader(text))
		e, ok := errors.AsType[*exercise.Error](err)
		found := false
		for _, w := range strings.Split(want, "|") {
			found = found || err != nil && strings.Contains(err.Error(), w)
		}
		if !ok || !found || len(err.Error()) > 800 {
			t.Errorf("%.80s: %v (%+v), want %q", text, err, e, want)
		}
	}
	if _, err := exercise.Read(nil); err == nil {
		t.Error("a nil reader is read")
	}
	if _, err := exercise.Read(iotest.ErrReader(io.ErrClosedPipe)); err != io.ErrClosedPipe {
		t.Error(err)
	}
	if _, err := exercise.Read(io.MultiReader(strings.NewReader(school), strings.NewReader(strings.Repeat(" ", (4<<20))))); err == nil {
		t.Error("a file of more than 4 MiB is read")
	}
	_, err := exercise.Read(strings.NewReader(question(`"form":"miles","answer":"x"`)))
	if _, ok := errors.AsType[*angle.ParseError](err); !ok {
		t.Errorf("the cause is lost: %v", err)
	}
}

// A paper that is read can be printed and marked, with any texts.
func FuzzRead(f *testing.F) {
	f.Add(school)
	f.Add(`{"title":"a","problems":[{"question":"b?","form":"clock","answer":"1030","slips":[{"slip":"a","answer":"1130"}]}]}`)
	f.Add(`{"title":"a","problems":[{"question":"b?","form":"course-and-distance","answer":"030, 5 M"}]}`)
	f.Add(`{"title":"a","problems":[{"question":"b?","form":"east-west","rounding":0.5,"answer":"179°W","slips":[{"slip":"name-kept-through-zero","answer":"179°E"}]}]}`)
	f.Add(`{"title":"a","problems":[{"question":"b?","form":"north-south","answer":"0°N"},{"question":"c?","form":"angle","answer":"0°32.4′"},{"question":"d?","form":"knots","answer":"5"}]}`)
	for _, text := range []string{``, `{}`, `{"title":5}`, `{"title":"a","problems":[{}]}`} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		p, err := exercise.Read(strings.NewReader(text))
		if err != nil {
			if _, ok := errors.AsType[*exercise.Error](err); !ok || len(err.Error()) > 2000 {
				t.Fatalf("%#v", err)
			}
			return
		}
		html(t, p.Questions())
		html(t, p.Key())
		html(t, p.Workings())
		again, err := json.Marshal(p)
		if err != nil {
			t.Fatal(err)
		}
		q, err := exercise.Read(bytes.NewReader(again))
		if err != nil {
			t.Fatalf("%s: %v", again, err)
		}
		if html(t, p.Key()) != html(t, q.Key()) {
			t.Fatalf("%s: the key differs", again)
		}
	})
}
