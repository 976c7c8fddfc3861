package slip

import (
	"math"
	"math/rand/v2"
	"os"
	"reflect"
	"slices"
	"sync"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// card is the invented compass of the examples.
func card(t testing.TB) *deviation.Table {
	t.Helper()
	f, err := os.Open("testdata/deviation.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	table, err := deviation.ReadTable(f)
	if err != nil {
		t.Fatal(err)
	}
	return table
}

// in2026 returns a rose and a deviation, to convert with in 2026.
func in2026(rose variation.Rose, source deviation.Source) course.With {
	return course.With{Variation: rose, Deviation: source, On: time.Date(2026, time.July, 2, 9, 0, 0, 0, time.UTC)}
}

// drawn returns exercises of all topics and difficulties: 42 of each if FULL=1, otherwise 2. They
// are drawn once for all tests.
func drawn(t testing.TB) []Problem {
	t.Helper()
	drawOnce.Do(func() {
		n := 2
		if os.Getenv("FULL") == "1" {
			n = 42
		}
		for _, topic := range Topics() {
			for _, difficulty := range []Difficulty{Easy, Medium, Hard} {
				drawnAll = append(drawnAll, angle.Must(Exercises(topic, difficulty, n, 7, card(t)))...)
			}
		}
	})
	return drawnAll
}

var (
	drawOnce sync.Once
	drawnAll []Problem // of drawn
)

// Each slip is made in each exercise, and the answer is rounded as a learner would. The
// diagnosis must list the slip.
func TestEverySlipIsFound(t *testing.T) {
	all, listed, first, alone, wrong := 0, 0, 0, 0, 0
	for _, p := range drawn(t) {
		solved := p.solved()
		for _, c := range p.Slips() {
			e := solved.diagnose(p.rounded(c.Answer))
			if p.rounded(c.Answer) == p.rounded(p.Answer()) {
				continue // it rounds to the right answer
			}
			all++
			has := slices.ContainsFunc(e.Causes, func(o Cause) bool { return slices.Equal(o.Slips, c.Slips) })
			if has {
				listed++
			}
			if len(e.Causes) > 0 && slices.Equal(e.Causes[0].Slips, c.Slips) {
				first++
			}
			if e.Certain() {
				alone++
				if !has {
					wrong++
				}
			}
		}
	}
	t.Logf("of %d slips %.2f %% listed first or tied, %.2f %% printed first, %.2f %% alone", all, 100*share(listed, all), 100*share(first, all), 100*share(alone, all))
	if share(listed, all) < 0.95 || wrong > 0 {
		t.Errorf("%d of %d listed, %d times another was certain", listed, all, wrong)
	}
}

// share returns a part of a whole.
func share(n, of int) float64 { return float64(n) / float64(of) }

// Right answers, rounded or not, are diagnosed as right.
func TestRightAnswersAreNotAccused(t *testing.T) {
	for _, p := range drawn(t) {
		for _, answer := range []float64{p.Answer(), p.rounded(p.Answer())} {
			if e := p.Diagnose(answer); !e.Right || len(e.Causes) > 0 {
				t.Errorf("%s: %v is %v", p.Question, answer, e)
			}
		}
		read, err := p.Read(p.Print(p.Answer()))
		if err != nil || !p.Diagnose(read).Right {
			t.Errorf("%s: %s reads as %v, %v", p.Question, p.Print(p.Answer()), read, err)
		}
	}
}

// A problem that is solved once for several answers gives the same diagnoses as one that is solved
// for each of them.
func TestSolvedProblemKeepsNoAnswer(t *testing.T) {
	for i, p := range drawn(t) {
		if i%7 > 0 { // of all topics
			continue
		}
		solved := p.solved()
		for n, c := range p.Slips() {
			for _, answer := range []float64{c.Answer, p.rounded(c.Answer), p.Answer(), p.Answer() + 7.3*p.Rounding*float64(n)} {
				if got, want := solved.diagnose(answer), p.Diagnose(answer); !reflect.DeepEqual(got, want) {
					t.Fatalf("%s: %v is %+v, want %+v", p.Question, answer, got, want)
				}
			}
		}
	}
}

// Two slips are made at once. The diagnosis must list that pair, or others with the same
// answer.
func TestPairsAreFound(t *testing.T) {
	found, all := 0, 0
	problems := drawn(t)
	step := 1 + len(problems)/1000
	tried := 0
	for i := 0; i < len(problems); i += step { // of all topics
		p := problems[i]
		tried++
		singles := p.Slips()
		c := &calculation{slips: [2]applied{{kind: singles[0].Slips[0]}, {kind: singles[len(singles)-1].Slips[0]}}}
		if c.slips[0].kind == c.slips[1].kind || c.slips[0].kind.ofFigures() && c.slips[1].kind.ofFigures() {
			continue
		}
		answer := p.rounded(p.run(c))
		if math.IsNaN(answer) || p.Diagnose(answer).Right {
			continue
		}
		all++
		if len(p.Diagnose(answer).Causes) > 0 {
			found++
		}
	}
	if all < tried/2 || found != all {
		t.Errorf("%d of %d pairs explained", found, all)
	}
}

// In an exercise of each topic, all pairs of slips are made in all variants. If no single slip
// explains the answer, the diagnosis must list the pair. Two slips in figures are no pair.
func TestEveryPairIsListed(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 4))
	pairs := 0
	for _, topic := range Topics() {
		p := angle.Must(Exercises(topic, Medium, 1, 11, card(t)))[0]
		c := &calculation{}
		right := p.run(c)
		solved := p.solved()
		all := variants(slices.Clone(c.asked))
		for i, a := range all {
			for _, b := range all[:i] {
				if a.kind == b.kind || a.kind.ofFigures() && b.kind.ofFigures() || a.isConvention() || b.isConvention() || os.Getenv("FULL") != "1" && r.IntN(16) > 0 {
					continue
				}
				c.slips = [2]applied{a, b}
				answer := p.run(c)
				if math.IsNaN(answer) || p.off(answer, right) <= p.within() {
					continue
				}
				d := solved.diagnose(answer)
				if d.Right || slices.ContainsFunc(d.Causes, func(o Cause) bool { return len(o.Slips) == 1 }) {
					continue
				}
				pairs++
				if !slices.ContainsFunc(d.Causes, func(o Cause) bool { return slices.Contains(o.Slips, a.kind) && slices.Contains(o.Slips, b.kind) }) {
					t.Errorf("%s: %q and %q give %v: %v", p.Question, a.kind, b.kind, answer, d)
				}
			}
		}
	}
	t.Logf("%d pairs", pairs)
}

// An answer that no slip explains has no cause.
func TestUnexplainedAnswers(t *testing.T) {
	p, err := NewRun(6, 90*time.Minute)
	if err != nil {
		t.Fatal(err)
	}
	if e := (Problem{}).Diagnose(1); e.Right || len(e.Causes) > 0 || len((Problem{}).Slips()) > 0 {
		t.Errorf("no problem: %v", e)
	}
	for _, answer := range []float64{1e6, math.NaN(), math.Inf(1)} {
		if e := p.Diagnose(answer); e.Right || len(e.Causes) > 0 || e.Certain() {
			t.Errorf("%v: %v", answer, e)
		}
	}
}

// The answers of conversions are those of package course, and that of a rose is that of
// package variation.
func TestAnswersAgreeWithLibrary(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 3))
	table := card(t)
	for range 300 {
		d := draw{r, 2}
		rose := d.rose()
		projected, err := rose.InYear(2026)
		if err != nil {
			t.Fatal(err)
		}
		with := course.With{Variation: projected.Variation, Deviation: table}
		k := in2026(rose, table)
		track, steered := angle.TrueFrom(d.angle(0, 359)), angle.CompassFrom(d.angle(0, 359))
		h := angle.Must(course.FromTrue(track, with))
		same(t, angle.Must(NewToSteer(track, k)), h.Compass().Degrees())
		g := angle.Must(course.FromCompass(steered, with))
		same(t, angle.Must(NewTrueCourse(steered, k)), g.True().Degrees())
		b := angle.CompassFrom(d.angle(0, 359))
		same(t, angle.Must(NewPositionLine("a light", b, steered, k)), g.BearingFromCompass(b).True().Reciprocal().Degrees())
		same(t, angle.Must(NewRose(rose, 2026)), projected.Variation.Angle().Degrees())
	}
}

// The steps of a working are those of packages course and variation.
func TestStepsAgreeWithLibrary(t *testing.T) {
	rose := variation.MustParseLegend("7°20′W 2015 (12′E)")
	table := card(t)
	k := in2026(rose, table)
	toSteer := angle.Must(course.FromTrue(angle.MustParseTrue("112"), k))
	made := angle.Must(course.FromCompass(angle.MustParseCompass("226"), k))
	for name, c := range map[string]struct {
		got  working.Steps
		want working.Steps
		more int // steps of the problem's own
	}{
		"rose":          {angle.Must(NewRose(rose, 2026)).Working(), angle.Must(rose.InYear(2026)).Working(), 0},
		"to steer":      {angle.Must(NewToSteer(angle.MustParseTrue("112"), k)).Working(), toSteer.Working().Steps, 0},
		"true course":   {angle.Must(NewTrueCourse(angle.MustParseCompass("226"), k)).Working(), made.Working().Steps, 0},
		"position line": {angle.Must(NewPositionLine("a light", angle.MustParseCompass("054"), angle.MustParseCompass("226"), k)).Working(), made.BearingFromCompass(angle.MustParseCompass("054")).Working().Steps, 1},
	} {
		n := len(c.got) - c.more
		if n < 4 || n > len(c.want) || !reflect.DeepEqual(c.got[:n], c.want[:n]) {
			t.Errorf("%s: got\n%swant\n%s", name, c.got, c.want)
		}
	}
}

// same checks an answer, and that the working ends with it.
func same(t *testing.T, p Problem, want float64) {
	t.Helper()
	if got := p.Answer(); p.off(got, want) > 1e-6 {
		t.Errorf("%s: got %v, want %v", p.Question, got, want)
	}
	if last := p.Working()[len(p.Working())-1]; p.off(last.Number, p.Answer()) > 1e-6 {
		t.Errorf("%s: the working ends in %v, the answer is %v", p.Question, last.Number, p.Answer())
	}
}

// A set drawn again with the same seed is the same, and a longer set begins with it.
func TestExercisesAreReproducible(t *testing.T) {
	for _, topic := range Topics() {
		a := angle.Must(Exercises(topic, Medium, 5, 1, card(t)))
		b := angle.Must(Exercises(topic, Medium, 8, 1, card(t)))
		for i := range a {
			if a[i].Question != b[i].Question || a[i].Answer() != b[i].Answer() {
				t.Errorf("%s, %d: %s and %s", topic, i+1, a[i].Question, b[i].Question)
			}
		}
	}
}

// Invalid figures, answers and topics are refused.
func TestInvalidProblems(t *testing.T) {
	rose := variation.MustParseLegend("3°50′W 2014 (9′E)")
	for name, make := range map[string]func() (Problem, error){
		"no deviation":   func() (Problem, error) { return NewToSteer(angle.True{}, in2026(rose, nil)) },
		"no change":      func() (Problem, error) { return NewRose(variation.MustParseLegend("3°50′W 2014"), 2026) },
		"speed below 0":  func() (Problem, error) { return NewRun(-1, time.Hour) },
		"infinite speed": func() (Problem, error) { return NewRun(sailing.Speed(math.Inf(1)), time.Hour) },
		"time below 0":   func() (Problem, error) { return NewRun(1, -time.Hour) },
		"a strong stream": func() (Problem, error) {
			return NewToSteerThroughStream(angle.True{}, 1, stream.Stream{Set: angle.MustParseTrue("180"), Rate: 3}, stream.Leeway{})
		},
		"at the pole": func() (Problem, error) { return NewDLong(angle.Must(angle.LatitudeDegrees(90)), 1000) },
	} {
		if p, err := make(); err == nil {
			t.Errorf("%s: %s", name, p.Question)
		}
	}
	for _, text := range []string{"", "x", "3 Q", "NaN", "E"} {
		p := angle.Must(NewRun(3, time.Hour))
		if x, err := p.Read(text); err == nil {
			t.Errorf("%q reads as %v", text, x)
		}
	}
	if _, err := Exercises("knots", Easy, 1, 1, card(t)); err == nil {
		t.Error("an unknown topic is accepted")
	}
}

func BenchmarkDiagnoseTwo(b *testing.B) {
	rose := variation.MustParseLegend("7°20′W 2015 (12′E)")
	p := angle.Must(NewPositionLine("a light", angle.MustParseCompass("054"), angle.MustParseCompass("226"), in2026(rose, card(b))))
	b.ReportAllocs()
	for b.Loop() {
		if e := p.Diagnose(140); e.Right {
			b.Fatal("right")
		}
	}
}
