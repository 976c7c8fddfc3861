package slip_test

import (
	"encoding/json"
	"errors"
	"math"
	"reflect"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/conformance/slip"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/variation"
)

// TestUnknownDifficultyIsRefused also looks at unknown topics and numbers.
func TestUnknownDifficultyIsRefused(t *testing.T) {
	for _, difficulty := range []slip.Difficulty{"", "odd"} {
		_, err := slip.Exercises("variation", difficulty, 1, 1, nil)
		if e, ok := errors.AsType[*angle.ParseError](err); !ok || e.Input != string(difficulty) {
			t.Errorf("%q: %v", difficulty, err)
		}
	}
	_, err := slip.Exercises("knots", slip.Easy, 1, 1, nil)
	if e, ok := errors.AsType[*angle.ParseError](err); !ok || e.What != "topic" || e.Input != "knots" {
		t.Error(err)
	}
	for _, n := range []int{-1, 0, slip.MaxExercises + 1} {
		_, err := slip.Exercises("variation", slip.Easy, n, 1, nil)
		if e, ok := errors.AsType[*angle.RangeError](err); !ok || e.Value != float64(n) {
			t.Errorf("%d: %v", n, err)
		}
	}
}

// A diagnosis reads back from JSON unchanged. A problem reads back without its working.
func TestDiagnosisJSON(t *testing.T) {
	kinds := rapid.SliceOfN(rapid.SampledFrom(slip.Kinds()), 1, 2)
	causes := rapid.Custom(func(t *rapid.T) slip.Cause {
		c := slip.Cause{Slips: kinds.Draw(t, "slips"), Answer: rapid.Float64().Draw(t, "answer")}
		if rapid.Bool().Draw(t, "ways are said") {
			c.Ways = make([]string, len(c.Slips))
			c.Ways[0] = "one year too few"
		}
		return c
	})
	rapid.Check(t, func(t *rapid.T) {
		d := slip.Diagnosis{Right: rapid.Bool().Draw(t, "right")}
		if n := rapid.IntRange(0, 3).Draw(t, "causes"); n > 0 {
			d.Causes = rapid.SliceOfN(causes, n, n).Draw(t, "cause")
		}
		data, err := json.Marshal(d)
		var back slip.Diagnosis
		if err != nil || json.Unmarshal(data, &back) != nil || !reflect.DeepEqual(d, back) {
			t.Fatalf("%s: %v, back %v", data, err, back)
		}
	})
	p := angle.Must(slip.NewToSteer(angle.MustParseTrue("112"), in2026(t, "3°50′W 2014 (9′E)")))
	for _, test := range []struct {
		value any
		want  string
	}{
		{p, `{"topic":"course to steer","question":"The course is 112°T; the rose says 3°50′W 2014 (9′E); the year is 2026; the deviation is 9°00′E. What is the course to steer by compass, to the degree?","form":"direction","rounding":1}`},
		{slip.Diagnosis{Causes: []slip.Cause{{Slips: []slip.Kind{slip.VariationTwice}, Answer: 113.5}}}, `{"right":false,"causes":[{"slips":["variation-twice"],"answer":113.5}]}`},
	} {
		if data, err := json.Marshal(test.value); err != nil || string(data) != test.want {
			t.Errorf("%s, %v", data, err)
		}
	}
	var back slip.Problem
	data := angle.Must(json.Marshal(p))
	if err := json.Unmarshal(data, &back); err != nil || back.Question != p.Question || back.Form != p.Form || back.Answer() == back.Answer() {
		t.Errorf("%v, %+v", err, back)
	}
}

func TestKindsAndDescriptionsDiffer(t *testing.T) {
	words, sentences := map[slip.Kind]bool{}, map[string]bool{}
	for _, k := range slip.Kinds() {
		if words[k] || sentences[k.String()] || k.String() == string(k) {
			t.Errorf("%q: %s", string(k), k)
		}
		words[k], sentences[k.String()] = true, true
	}
	if got := slip.Kind("new").String(); got != "new" {
		t.Errorf("an unknown kind is %q", got)
	}
}

// In JSON a pair is readable: as it is printed beside its number.
func TestPairsAreReadableInJSON(t *testing.T) {
	p := angle.Must(slip.NewMadeGood(stream.ReckonedRun{Heading: angle.MustParseTrue("090"), Speed: 5 * sailing.Knot, Stream: stream.Stream{Rate: 2 * sailing.Knot}}))
	d := p.Diagnose(angle.Must(p.Read("112, 5.4")))
	if len(d.Causes) == 0 || d.Causes[0].Printed != "112°, 5.4 kn" {
		t.Fatalf("%+v", d)
	}
	if data := angle.Must(json.Marshal(d)); !strings.Contains(string(data), `{"slips":["stream-from"],"answer":15005676213513,"printed":"112°, 5.4 kn"}`) {
		t.Errorf("%s", data)
	}
	for _, c := range p.Slips() {
		if c.Printed != p.Print(c.Answer) {
			t.Errorf("%+v", c)
		}
	}
	marks := angle.Must(p.Mark([]slip.Entry{{Key: "answer", Text: "112, 5.4"}}))
	data := angle.Must(json.Marshal(marks))
	for _, want := range []string{`"text":"112, 5.4","verdict":"wrong"`, `"rightPrinted":"068°, 5.4 kn"`, `"ownPrinted":"068°, 5.4 kn"`} {
		if !strings.Contains(string(data), want) {
			t.Errorf("no %s in %s", want, data)
		}
	}
	// A figure that leads to no answer has no number in JSON, and does not spoil the rest.
	data, err := json.Marshal(slip.Mark{Text: "5", Right: math.NaN(), Own: math.NaN()})
	if err != nil || strings.Contains(string(data), `Printed`) || strings.Contains(string(data), `"own"`) {
		t.Errorf("%s, %v", data, err)
	}
}

// An answer that cannot be read is refused for what is wrong with it.
func TestRefusalsOfAnswersSayWhy(t *testing.T) {
	rose := angle.Must(slip.NewRose(angle.Must(variation.ParseLegend("3°50′W 2014 (9′E)")), 2026))
	steer := angle.Must(slip.NewToSteer(angle.MustParseTrue("112"), in2026(t, "3°50′W 2014 (9′E)")))
	miles := angle.Must(slip.NewRun(5*sailing.Knot, time.Hour))
	for _, test := range []struct {
		slip.Problem
		text string
		kind angle.ErrorKind
	}{
		{rose, "5°08′", angle.MissingName}, {rose, "181°W", angle.OutOfRange}, {rose, "", angle.Empty},
		{steer, "112T", angle.WrongNorth}, {steer, "400", angle.OutOfRange},
		{miles, "far", angle.NoNumber}, {miles, " ", angle.Empty},
	} {
		_, err := test.Read(test.text)
		if e, ok := errors.AsType[*angle.ParseError](err); !ok || e.Kind != test.kind || e.Input != test.text {
			t.Errorf("%q: %v", test.text, err)
		}
	}
}
