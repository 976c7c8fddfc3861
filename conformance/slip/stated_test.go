package slip

import (
	"errors"
	"math"
	"reflect"
	"slices"
	"testing"

	"lubberline.example/angle"
)

// Each sort of problem can be stated: the problem that is read back has the same answer, names the
// slip of each wrong answer, and is stated again in the same way.
func TestProblemsCanBeStated(t *testing.T) {
	for _, topic := range Topics() {
		for _, difficulty := range []Difficulty{Easy, Hard} {
			for _, p := range angle.Must(Exercises(topic, difficulty, 3, 5, card(t))) {
				s, err := State(p)
				if err != nil {
					t.Fatal(err)
				}
				q, err := s.Problem()
				if err != nil {
					t.Fatalf("%s: %v: %+v", topic, err, s)
				}
				if q.Print(q.Answer()) != p.Print(p.Answer()) || len(q.Working()) != len(p.Working()) {
					t.Errorf("%s: the answer is %s, want %s", topic, q.Print(q.Answer()), p.Print(p.Answer()))
				}
				solved := q.solved()
				for _, w := range s.Slips {
					x, err := q.Read(w.Answer)
					d := solved.diagnose(x)
					if err != nil || !slices.ContainsFunc(d.Causes, func(c Cause) bool { return slices.Equal(c.Slips, []Kind{w.Slip}) }) {
						t.Errorf("%s: %s, stated as %q, is %v: %v", topic, w.Answer, w.Slip, d, err)
					}
				}
				if again, err := State(q); err != nil || !reflect.DeepEqual(again, s) {
					t.Errorf("%s: stated again as %+v, want %+v: %v", topic, again, s, err)
				}
			}
		}
	}
	if _, err := State(Problem{}); err == nil {
		t.Error("a problem without an answer is stated")
	}
}

// A slip in a sentence of its own is found by its answers, each of them.
func TestOwnSlip(t *testing.T) {
	s := Stated{Question: "What is the distance?", Form: Miles, Answer: "12.5 M", Slips: []StatedSlip{{"the wrong log was read", "14.2"}, {"the wrong log was read", "17"}}}
	p := angle.Must(s.Problem())
	for _, answer := range []float64{14.2, 17} {
		if d := p.Diagnose(answer); len(d.Causes) == 0 || d.Causes[0].Slips[0] != "the wrong log was read" {
			t.Errorf("%v: %v", answer, d)
		}
	}
	if !p.Diagnose(12.5).Right || p.Diagnose(math.NaN()).Right {
		t.Error("the right answer")
	}
	s.Answer = "x"
	_, err := s.Problem()
	if _, ok := errors.AsType[*angle.ParseError](err); !ok {
		t.Error(err)
	}
}
