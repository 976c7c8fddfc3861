package slip

import (
	"math"
	"os"
	"slices"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

// newTopics are the topics beyond the conversions and sums of the first ones.
func newTopics() []string { return Topics()[8:] }

// In 1,002 exercises of each topic (6 by default) each slip is made, and its answer rounded as a
// learner would. In at least 95 % the diagnosis lists the slip, as the first or as one that explains
// the answer equally. Another slip is never certain, and a right answer is never accused.
func TestSlipsOfEachTopicAreRanked(t *testing.T) {
	n := 2
	if os.Getenv("FULL") == "1" {
		n = 334
	}
	compass := card(t)
	for _, topic := range newTopics() {
		t.Run(topic, func(t *testing.T) {
			t.Parallel()
			rank(t, topic, n, compass)
		})
	}
}

// rank makes each slip in exercises of a topic, n of each difficulty.
func rank(t *testing.T, topic string, n int, compass *deviation.Table) {
	all, listed, first, alone := 0, 0, 0, 0
	for _, difficulty := range []Difficulty{Easy, Medium, Hard} {
		for _, p := range angle.Must(Exercises(topic, difficulty, n, 29, compass)) {
			right, solved := p.rounded(p.Answer()), p.solved()
			if d := solved.diagnose(right); !d.Right {
				t.Errorf("%s: %s is %v", p.Question, p.Print(right), d)
			}
			for _, c := range p.Slips() {
				answer := p.rounded(c.Answer)
				if math.IsNaN(answer) || p.off(answer, right) < p.Rounding/2 {
					continue
				}
				d := solved.diagnose(answer)
				if d.Right { // within the tolerances of chart work
					continue
				}
				all++
				has := slices.ContainsFunc(d.Causes, func(o Cause) bool { return slices.Equal(o.Slips, c.Slips) })
				if has {
					listed++
				}
				if len(d.Causes) > 0 && slices.Equal(d.Causes[0].Slips, c.Slips) {
					first++
				}
				if d.Certain() {
					alone++
					if !has {
						t.Errorf("%s: %v is certainly %v", p.Question, c, d)
					}
				}
			}
		}
	}
	t.Logf("of %d slips %.1f %% first or tied, %.1f %% printed first, %.1f %% alone", all, 100*share(listed, all), 100*share(first, all), 100*share(alone, all))
	if share(listed, all) < 0.95 {
		t.Errorf("%d of %d slips are listed", listed, all)
	}
}

// The working of each exercise ends in its answer.
func TestWorkingsEndInAnswers(t *testing.T) {
	for _, topic := range newTopics() {
		for _, difficulty := range []Difficulty{Easy, Medium, Hard} {
			for _, p := range angle.Must(Exercises(topic, difficulty, 4, 31, card(t))) {
				steps := p.Working()
				if len(steps) == 0 {
					t.Errorf("%s: %s", p.Question, steps)
					continue
				}
				last := steps[len(steps)-1]
				if p.Form == Position && last.Value != p.Print(p.Answer()) {
					t.Errorf("%s: the working ends in %s, the answer is %s", p.Question, last.Value, p.Print(p.Answer()))
				}
				if !p.Form.isPair() && p.off(last.Number, p.Answer()) > p.Rounding/20 {
					t.Errorf("%s: the working ends in %v, the answer is %v", p.Question, last.Number, p.Answer())
				}
			}
		}
	}
}
