package slip_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"lubberline.example/conformance/slip"
)

// A class set is answers of an invented class. The class works each problem by formulas of its own
// in float64, and makes errors by rules of its own. It uses nothing of the bank of slips, except the
// names by which an error counts as found.

// An oops is an error that a learner of the class makes, with the slips that name it.
type oops struct {
	name  string
	share int // how often it is made
	kinds []slip.Kind
}

// A doer says which errors a learner makes, and how the learner rounds on the way.
type doer map[string]bool

// A task is a problem with the class's own working of it.
type task struct {
	sort    string
	p       slip.Problem
	errors  []oops
	customs []string // other conventions and ways to round on the way, which are not wrong
	work    func(doer) []float64
	steps   []float64   // the usual rounding of each figure
	coarse  [][]float64 // coarser roundings of each figure
	top     []float64   // the range of nonsense, from 0 or from -top
	print   func(x []float64, fine bool) string
}

// few is an error that is made less often.
func few(name string, kinds ...slip.Kind) oops { return oops{name, 1, kinds} }

// many is an error that is made often.
func many(name string, kinds ...slip.Kind) oops { return oops{name, 4, kinds} }

// A score counts what the diagnosis says of the answers of one sort or of all.
type score struct {
	right, accused             int // right answers, and those with another slip for certain
	customs, allowed           int // other conventions, and those said to be right by one or by rounding
	coarse, rounded            int // rounded further than asked, and those said to be so
	single, named, first       int // single slips; first or tied; printed first
	double, pairs              int // double slips; the pair listed or said to be explained equally
	wrong, other               int // wrong answers; another slip for certain
	nonsense, certain, causes  int
	accusedCustoms, accusedFar int
}

// plus adds two scores.
func (s score) plus(o score) score {
	return score{
		s.right + o.right, s.accused + o.accused, s.customs + o.customs, s.allowed + o.allowed, s.coarse + o.coarse, s.rounded + o.rounded,
		s.single + o.single, s.named + o.named, s.first + o.first, s.double + o.double, s.pairs + o.pairs, s.wrong + o.wrong, s.other + o.other,
		s.nonsense + o.nonsense, s.certain + o.certain, s.causes + o.causes, s.accusedCustoms + o.accusedCustoms, s.accusedFar + o.accusedFar,
	}
}

// percent returns a part as a percentage, 100 of nothing.
func percent(n, of int) float64 {
	if of == 0 {
		return 100
	}
	return 100 * float64(n) / float64(of)
}

// String prints the rates.
func (s score) String() string {
	return fmt.Sprintf("right %d accused %d; customs %d allowed %.0f %% accused %d; coarse %d seen %.0f %% accused %d; single %d named %.1f %% (first %.0f %%); double %d pairs %.1f %%; wrong %d other %d; nonsense %d certain %d; %.1f causes",
		s.right, s.accused, s.customs, percent(s.allowed, s.customs), s.accusedCustoms, s.coarse, percent(s.rounded, s.coarse), s.accusedFar,
		s.single, percent(s.named, s.single), percent(s.first, s.single), s.double, percent(s.pairs, s.double), s.wrong, s.other, s.nonsense, s.certain, float64(s.causes)/float64(max(1, s.wrong)))
}

// nearest rounds each figure to its step.
func nearest(x, steps []float64) []float64 {
	out := slices.Clone(x)
	for i := range out {
		if steps[i] > 0 {
			out[i] = math.Round(out[i]/steps[i]) * steps[i]
		}
	}
	return out
}

// differ reports whether two answers print differently.
func (k task) differ(a, b []float64) bool {
	return k.print(nearest(a, k.steps), false) != k.print(nearest(b, k.steps), false)
}

// diagnose reads an answer as written and diagnoses it.
func (k task) diagnose(t *testing.T, text string) (slip.Diagnosis, bool) {
	x, err := k.p.Read(text)
	if err != nil {
		if os.Getenv("CLASS") != "" {
			t.Logf("%s: %q: %v", k.sort, text, err)
		}
		return slip.Diagnosis{}, false
	}
	return k.p.Diagnose(x), true
}

// pick draws one of the errors by their shares.
func pick(r *rand.Rand, errors []oops) oops {
	sum := 0
	for _, e := range errors {
		sum += e.share
	}
	n := r.IntN(sum)
	for _, e := range errors {
		if n -= e.share; n < 0 {
			return e
		}
	}
	return errors[0]
}

// sit lets one learner answer a task.
func sit(t *testing.T, r *rand.Rand, k task) (s score) {
	right := k.work(doer{})
	switch n := r.IntN(100); {
	case n < 15:
		s.right++
		steps := k.steps
		if r.IntN(3) == 0 {
			steps = nil
		}
		x := right
		if steps != nil {
			x = nearest(right, steps)
		}
		d, ok := k.diagnose(t, k.print(x, steps == nil))
		if !ok || !d.Right {
			t.Errorf("%s: %s is right, told %v", k.p.Question, k.print(x, steps == nil), d)
		}
		if d.Certain() {
			s.accused++
		}
	case n < 23 && len(k.customs) > 0:
		custom := k.customs[r.IntN(len(k.customs))]
		x := nearest(k.work(doer{custom: true}), k.steps)
		d, ok := k.diagnose(t, k.print(x, false))
		if !ok || d.Right && d.Convention == "" {
			return
		}
		s.customs++
		if d.Right || d.Convention != "" || len(d.Causes) > 0 && slices.ContainsFunc(d.Causes, onlyRounds) {
			s.allowed++
		} else {
			k.miss(t, custom, x, d)
		}
		if d.Certain() {
			s.accusedCustoms++
			t.Errorf("%s: %s by %s is accused: %v", k.p.Question, k.print(x, false), custom, d)
		}
	case n < 30:
		steps := slices.Clone(k.steps)
		for i := range steps {
			steps[i] = k.coarse[i][r.IntN(len(k.coarse[i]))]
		}
		x := nearest(right, steps)
		d, ok := k.diagnose(t, k.print(x, false))
		if !ok || d.Right {
			return
		}
		s.coarse++
		if slices.ContainsFunc(d.Causes, onlyRounds) {
			s.rounded++
		} else {
			k.miss(t, "coarse", x, d)
		}
		if d.Certain() {
			s.accusedFar++
			t.Errorf("%s: %s, rounded from %v, is accused: %v", k.p.Question, k.print(x, false), right, d)
		}
	case n < 72:
		return k.one(t, r, right)
	case n < 92:
		return k.two(t, r, right)
	default:
		return k.none(t, r, right)
	}
	return s
}

// onlyRounds reports whether a cause is rounding and nothing else.
func onlyRounds(c slip.Cause) bool {
	return !slices.ContainsFunc(c.Slips, func(k slip.Kind) bool { return k != slip.RoundedOnTheWay && k != slip.RoundedTooFar })
}

// one lets a learner make one error.
func (k task) one(t *testing.T, r *rand.Rand, right []float64) (s score) {
	e := pick(r, k.errors)
	x := k.work(doer{e.name: true})
	if !finite(x) || !k.differ(x, right) {
		return
	}
	x = nearest(x, k.steps)
	d, ok := k.diagnose(t, k.print(x, false))
	if !ok || d.Right && d.Convention == "" {
		return
	}
	s.single, s.wrong, s.causes = 1, 1, len(d.Causes)
	names := func(c slip.Cause) bool { return len(c.Slips) == 1 && slices.Contains(e.kinds, c.Slips[0]) }
	if slices.ContainsFunc(d.Causes, names) {
		s.named = 1
		if names(d.Causes[0]) {
			s.first = 1
		}
	} else {
		k.miss(t, e.name, x, d)
		if d.Certain() {
			s.other = 1
		}
	}
	return
}

// two lets a learner make two errors.
func (k task) two(t *testing.T, r *rand.Rand, right []float64) (s score) {
	a, b := pick(r, k.errors), pick(r, k.errors)
	x, xa, xb := k.work(doer{a.name: true, b.name: true}), k.work(doer{a.name: true}), k.work(doer{b.name: true})
	if a.name == b.name || !finite(x) || !finite(xa) || !finite(xb) || !k.differ(x, right) || !k.differ(x, xa) || !k.differ(x, xb) {
		return
	}
	x = nearest(x, k.steps)
	d, ok := k.diagnose(t, k.print(x, false))
	if !ok || d.Right && d.Convention == "" {
		return
	}
	s.double, s.wrong, s.causes = 1, 1, len(d.Causes)
	both := func(c slip.Cause) bool {
		return slices.ContainsFunc(c.Slips, func(k slip.Kind) bool { return slices.Contains(a.kinds, k) }) &&
			slices.ContainsFunc(c.Slips, func(k slip.Kind) bool { return slices.Contains(b.kinds, k) })
	}
	if slices.ContainsFunc(d.Causes, both) {
		s.pairs = 1
	} else {
		k.miss(t, a.name+" and "+b.name, x, d)
		if d.Certain() && !slices.Contains(slices.Concat(a.kinds, b.kinds), d.Causes[0].Slips[0]) {
			s.other = 1
		}
	}
	return
}

// none lets a learner write a figure that no error of the class gives.
func (k task) none(t *testing.T, r *rand.Rand, right []float64) (s score) {
	x := slices.Clone(right)
	for i := range x {
		x[i] = k.top[i] * r.Float64()
		if right[i] < 0 {
			x[i] = -x[i]
		}
	}
	x = nearest(x, k.steps)
	if !k.differ(x, right) {
		return
	}
	for _, e := range k.errors {
		if y := k.work(doer{e.name: true}); finite(y) && !k.differ(x, y) {
			return
		}
	}
	d, ok := k.diagnose(t, k.print(x, false))
	if !ok {
		return
	}
	s.nonsense = 1
	if d.Certain() {
		s.certain = 1
		k.miss(t, "nonsense", x, d)
	}
	return
}

// finite reports whether all figures are numbers.
func finite(x []float64) bool {
	return !slices.ContainsFunc(x, func(v float64) bool { return math.IsNaN(v) || math.IsInf(v, 0) })
}

// miss logs what was not found, with CLASS=the sort.
func (k task) miss(t *testing.T, name string, x []float64, d slip.Diagnosis) {
	if os.Getenv("CLASS") == k.sort || os.Getenv("CLASS") == "all" {
		t.Logf("MISS %s | %s | right %s | %s | %s | %.220s", k.sort, name, k.print(nearest(k.work(doer{}), k.steps), false), k.print(x, false), k.p.Question, d)
	}
}

// A class set of 1,500 answers, or of 40,000 if FULL=1, of 31 sorts of problem. Right answers, also by
// another convention or rounded further than asked, are never accused for certain. A single slip is
// listed, as the first or as one of several that give the answer, in at least 95 %, in a whole run also of
// each sort, and a double slip in 85 %. Another slip is certain in at most 1 % of the wrong answers, and
// none for figures that no slip gives.
//
// Measured on 40,000: accused 0 of 9,892; single 99.5 % of 15,067 (first 84 %), and at least 95.5 % of
// each sort; double 90.7 % of 4,613; another certain 3 of 19,680; nonsense certain 0 of 3,077.
func TestClassSet(t *testing.T) {
	n := 1500
	if os.Getenv("FULL") == "1" {
		n = 40_000
	}
	r := rand.New(rand.NewPCG(21, 600))
	scores := map[string]score{}
	var all score
	for i := range n {
		k := lessons[i%len(lessons)](r)
		s := sit(t, r, k)
		scores[k.sort] = scores[k.sort].plus(s)
		all = all.plus(s)
	}
	for sort, s := range scores {
		t.Logf("%-14s %v", sort, s)
		if n > 1500 && percent(s.named, s.single) < 95 {
			t.Errorf("%s: too few are found: %v", sort, s)
		}
	}
	t.Log("all:", all)
	if all.accused+all.accusedCustoms+all.accusedFar > 0 {
		t.Errorf("right answers are accused for certain: %v", all)
	}
	if percent(all.named, all.single) < 95 || percent(all.pairs, all.double) < 85 || percent(all.other, all.wrong) > 1 || all.certain > 0 {
		t.Errorf("too few are found: %v", all)
	}
}
