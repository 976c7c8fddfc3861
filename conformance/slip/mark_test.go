package slip

import (
	"errors"
	"fmt"
	"slices"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// handedIn returns entries in pairs of key and text.
func handedIn(pairs ...string) []Entry {
	var out []Entry
	for i := 0; i+1 < len(pairs); i += 2 {
		out = append(out, Entry{pairs[i], pairs[i+1]})
	}
	return out
}

// The rose 7°20′W 2015 (12′E) is 5°08′W in 2026, the deviation 3°E: 230°T is 235°M, 232°C. Each
// slip is charged once, and what follows from it is carried on.
func TestSlipIsChargedOnce(t *testing.T) {
	p := angle.Must(NewToSteer(angle.MustParseTrue("230"), in2026(variation.MustParseLegend("7°20′W 2015 (12′E)"), deviation.East(3*angle.Degree))))
	for _, test := range []struct {
		entries  []Entry
		verdicts []Verdict
		slips    []Kind
	}{
		{handedIn("variation", "5°08′W", "magnetic", "235", "deviation", "3°E", "answer", "232"), []Verdict{RightFigure, RightFigure, RightFigure, RightFigure}, nil},
		{handedIn("variation", "7°20′W", "magnetic", "237", "deviation", "3°E", "answer", "234"), []Verdict{WrongFigure, CarriedOn, RightFigure, CarriedOn}, []Kind{ChangeLeftOut}},
		{handedIn("variation", "5°08′W", "magnetic", "225", "deviation", "3°E", "answer", "222"), []Verdict{RightFigure, WrongFigure, RightFigure, CarriedOn}, []Kind{VariationWrongWay}},
		{handedIn("variation", "9°32′W", "magnetic", "240", "deviation", "3°E", "answer", "243"), []Verdict{WrongFigure, CarriedOn, RightFigure, WrongFigure}, []Kind{ChangeWrongWay, DeviationWrongWay}},
		{handedIn("variation", "7°20′W", "answer", "234"), []Verdict{WrongFigure, CarriedOn}, []Kind{ChangeLeftOut}},
		{handedIn("variation", "5°W", "magnetic", "235", "answer", "232"), []Verdict{RoundedFigure, RightFigure, RightFigure}, nil},
		{handedIn("variation", "x", "magnetic", "235", "answer", ""), []Verdict{NotRead, RightFigure}, nil},
		{handedIn("answer", "232", "variation", "5°08′E"), []Verdict{WrongFigure, RightFigure}, []Kind{EastForWest}},
	} {
		marks, err := p.Mark(test.entries)
		var verdicts []Verdict
		var slips []Kind
		for _, m := range marks {
			verdicts = append(verdicts, m.Verdict)
			if m.Verdict == WrongFigure {
				slips = append(slips, firstSlips(m.Diagnosis)...)
			}
			if m.String() == "" {
				t.Error("nothing is said")
			}
		}
		if err != nil || !slices.Equal(verdicts, test.verdicts) || !slices.Equal(slips, test.slips) {
			t.Errorf("%v: %v, %v, %v: %v", test.entries, verdicts, slips, err, marks)
		}
	}
}

// Entries for figures that a problem does not have are refused, and second entries for one.
func TestEntriesThatDoNotFit(t *testing.T) {
	p := angle.Must(NewRose(variation.MustParseLegend("7°20′W 2015 (12′E)"), 2026))
	for _, entries := range [][]Entry{handedIn("compass", "1"), handedIn("answer", "1°E", "answer", "2°E")} {
		if _, err := p.Mark(entries); err == nil {
			t.Errorf("%v is marked", entries)
		} else if _, is := errors.AsType[*Error](err); !is {
			t.Error(err)
		}
	}
	if marks, err := (Problem{}).Mark(nil); len(marks) > 0 || err != nil || len((Problem{}).Figures()) > 0 {
		t.Errorf("no problem: %v, %v", marks, err)
	}
}

// Handed in as printed, all figures of the right working are right in every exercise.
func TestRightWorkingIsMarkedRight(t *testing.T) {
	for _, p := range drawn(t) {
		var entries []Entry
		for _, w := range p.figuresWith(nil) {
			entries = append(entries, Entry{w.Key, w.Print(w.value)})
		}
		marks, err := p.Mark(entries)
		if err != nil || len(marks) != len(entries) {
			t.Fatalf("%s: %v", p.Question, err)
		}
		for _, m := range marks {
			if m.Verdict != RightFigure {
				t.Errorf("%s: %s %s: %v", p.Question, m.Figure.Key, m.Text, m)
			}
		}
	}
}

// A learner hands in four figures. The variation was not brought up to date, and the rest
// follows from it.
func ExampleProblem_Mark() {
	p := angle.Must(NewToSteer(angle.MustParseTrue("230"), in2026(variation.MustParseLegend("7°20′W 2015 (12′E)"), deviation.East(3*angle.Degree))))
	marks, err := p.Mark([]Entry{{"variation", "7°20′W"}, {"magnetic", "237"}, {"deviation", "3°E"}, {"answer", "234"}})
	if err != nil {
		fmt.Println(err)
	}
	for _, m := range marks {
		fmt.Println(m.Figure.What+":", m)
	}
	// Output:
	// Variation: wrong; this slip would give it: the variation was not brought up to date
	// Magnetic: carried on correctly from the figures before it; right would be 235°M
	// Deviation: right
	// Answer: carried on correctly from the figures before it; right would be 232°C
}

// Within the tolerances a figure read from a chart is right, beyond them it is not.
func TestPublishedTolerances(t *testing.T) {
	p := Problem{Form: CourseAndDistance, Rounding: 1, north: 'T', plotted: onChart, work: func(c *calculation) float64 {
		return CourseAndDistance.pair(34.8, 12.34)
	}}
	check := func(p Problem, text string) bool { return p.Diagnose(angle.Must(p.Read(text))).Right }
	for text, right := range map[string]bool{"035 12.3": true, "036 12.4": true, "034 12.2": true, "037 12.3": false, "035 12.5": false} {
		if check(p, text) != right {
			t.Errorf("%s is right: %v", text, !right)
		}
	}
	if !check(p.MarkedBy(Scheme{Course: 3, Distance: 0.3}), "038 12.6") {
		t.Error("the caller's tolerances do not hold")
	}
	if check(p.MarkedBy(Scheme{}), "036 12.3") {
		t.Error("without tolerances a degree more is right")
	}
	if s := p.Scheme(); s != ChartWork() || s.Source == "" {
		t.Error(s)
	}
}
