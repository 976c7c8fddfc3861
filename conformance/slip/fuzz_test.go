package slip

import (
	"errors"
	"math"
	"testing"

	"lubberline.example/angle"
)

// An answer that is read is a finite figure, and its diagnosis does not crash. A refused
// answer has an error that says what is accepted.
func FuzzReadAnswer(f *testing.F) {
	compass := card(f)
	var problems []Problem
	for _, topic := range Topics() {
		p, err := Exercises(topic, Easy, 1, 1, compass)
		if err != nil {
			f.Fatal(err)
		}
		problems = append(problems, p...)
	}
	for i, p := range problems {
		f.Add(uint(i), p.Print(p.Answer()))
		for _, text := range []string{"", "045°T", "045 M", "7°20′W", "47°06.5′N", "12.5 M", "12.5′W", "0x1p3 M", "1e308", "-0", "NaN", "inf miles", "1_0 M", "TT"} {
			f.Add(uint(i), text)
		}
	}
	f.Fuzz(func(t *testing.T, which uint, text string) {
		p := problems[which%uint(len(problems))]
		x, err := p.Read(text)
		if err != nil {
			_, parse := errors.AsType[*angle.ParseError](err)
			if !parse || x != 0 {
				t.Fatalf("%q: %v, %#v", text, x, err)
			}
			return
		}
		if math.IsNaN(x) || math.IsInf(x, 0) {
			t.Fatalf("%q was read as %v", text, x)
		}
		if e := p.Diagnose(x); e.String() == "" {
			t.Fatalf("%q: nothing is said of %v", text, x)
		}
	})
}
