package variation_test

import (
	"errors"
	"os"
	"strings"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/variation"
)

// finest is the step that any print holds; below it figures are printed
// exactly, but how finely they were written is lost.
const finest = angle.Second / 10_000_000

// sameRose reports whether a print read back as the rose it was of.
func sameRose(back, r variation.Rose) bool {
	if r.Step < finest {
		back.Step = r.Step
	}
	if r.ChangeStep < finest {
		back.ChangeStep = r.ChangeStep
	}
	return back == r
}

func FuzzParseLegend(f *testing.F) {
	for _, c := range legalLegends {
		f.Add(c.text)
	}
	for _, c := range illegalLegends {
		f.Add(strings.Replace(c.text, "|", "", 1))
	}
	f.Fuzz(func(t *testing.T, text string) {
		r, err := variation.ParseLegend(text)
		if err != nil {
			e, ok := errors.AsType[*variation.Error](err)
			if !ok || e.Input != text || e.Offset < 0 || e.Offset > len(text) || e.Kind == "" || e.Reason == "" {
				t.Fatalf("%#v", err)
			}
			if p, ok := errors.AsType[*angle.ParseError](err); ok && (p.Offset < 0 || p.Offset > len(p.Input) || !strings.Contains(text, p.Input)) {
				t.Fatalf("%#v", p)
			}
			if r != (variation.Rose{}) {
				t.Fatalf("%+v with %v", r, err)
			}
			return
		}
		if r.Year < 1500 || r.Year > 2500 || r.Step < 0 || r.ChangeStep < 0 {
			t.Fatalf("%+v", r)
		}
		for _, print := range []string{r.String(), r.LegendInWords()} {
			if back, err := variation.ParseLegend(print); err != nil || !sameRose(back, r) {
				t.Fatalf("%q prints as %q, which reads as %+v, %v; was %+v", text, print, back, err, r)
			}
		}
	})
}

func FuzzReadChart(f *testing.F) {
	for _, text := range sameChart {
		f.Add(text)
	}
	for _, file := range []string{"testdata/orlesk.csv", "testdata/orlesk.json"} {
		text, err := os.ReadFile(file)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(text))
	}
	f.Add("position,legend\n47N 19W,3°50′W 2014\n47N 19W,3°50′W 2015\n")
	f.Add("[{\"position\": \"47N 19W\", \"legend\": 3.5}]")
	f.Fuzz(func(t *testing.T, text string) {
		c, err := variation.ReadChart("fuzz", strings.NewReader(text))
		if err != nil {
			if e, ok := errors.AsType[*record.Error](err); ok {
				if e.Line < 0 || e.Line > 1+strings.Count(text, "\n")+strings.Count(text, "\r") || e.Err == nil {
					t.Fatalf("%#v", e)
				}
			} else if _, ok := errors.AsType[*variation.Error](err); !ok {
				t.Fatalf("%#v", err)
			}
			return
		}
		for _, method := range []variation.Method{variation.Nearest, variation.Blended} {
			c.Method = method
			for _, r := range c.Roses() {
				own, errOwn := r.Rose.VariationAt(r.Position, on2020)
				v, err := c.VariationAt(r.Position, on2020)
				if r.Position == (angle.Position{}) { // unknown to the rose, known to the chart
					v, own = v.WithUncertainty(angle.Uncertainty{}), own.WithUncertainty(angle.Uncertainty{})
				}
				if err != nil || errOwn != nil || v != own {
					t.Fatalf("%v at its rose %+v: %v, %v", method, r, v, err)
				}
			}
		}
	})
}
