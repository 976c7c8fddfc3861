package slip

import (
	"cmp"
	"math"
	"slices"
)

// A solved problem is worked right and with slips. What slips give does not depend on the answer
// of a learner: a solved problem keeps it for the next answer.
type solved struct {
	p          Problem
	c          *calculation
	right, raw float64 // the right answer, and before it is written down

	all   []single  // the slips; nil until they are tried
	again bool      // an answer was diagnosed before
	both  []float64 // what each two of the slips give together; 0 until they are tried, or if they give 0
}

// solved works the problem.
func (p Problem) solved() *solved {
	c := &calculation{}
	right := p.run(c)
	return &solved{p: p, c: c, right: right, raw: c.raw}
}

// A search looks for the slips that give an answer.
type search struct {
	*solved
	answer float64
	within float64 // how far the answer may be from what the slips give
	grain  float64 // of the answer; less than the rounding if it has more figures than asked

	causes     []found
	convention Kind // that gives the answer
}

// A single is a slip with the answer that it gives alone.
type single struct {
	applied
	at      int // its index
	rank    int
	answer  float64
	raw     float64 // before the answer is written down
	writing bool    // the slip is made in writing the answer, not in working it
}

// A found cause.
type found struct {
	Cause
	exact bool // gives the answer in all its figures
	rank  int
}

// grain returns the unit of the last figure in which an answer is given: the rounding, or less
// if the answer has more figures than asked.
func (p *Problem) grain(answer float64) float64 {
	if p.Form.isPair() {
		return p.Rounding
	}
	for _, part := range []float64{1, 2, 10, 60} {
		g := p.Rounding / part
		if off := math.Abs(answer/g - math.Round(answer/g)); off < 1e-6 {
			return g
		}
	}
	return p.Rounding / 60
}

// singles tries each slip alone, once.
func (s *solved) singles() {
	if s.all != nil {
		return
	}
	asked := slices.Clone(s.c.asked)
	for i := 0; i < len(asked); i++ {
		rank := asked[i].kind.rank()
		for v := range asked[i].variants {
			one := single{applied: applied{asked[i].kind, v}, at: len(s.all), rank: rank}
			s.c.slips = [2]applied{one.applied}
			one.answer = s.p.run(s.c)
			one.raw = s.c.raw
			one.writing = one.raw == s.raw && !s.same(one.answer, s.right)
			for _, a := range s.c.asked { // a slip may make other slips possible
				at := slices.IndexFunc(asked, func(b ask) bool { return b.kind == a.kind })
				if at < 0 {
					asked = append(asked, a)
				}
			}
			s.all = append(s.all, one)
		}
	}
	s.c.knows = true
}

// nearMiss adds rounding on the way if the answer is off by a few units of the last figure, or by half
// a hundredth of a distance. Rounded figures add up to that in a working of several steps.
func (s *search) nearMiss() {
	if !s.p.nearly(s.answer, s.right) || slices.ContainsFunc(s.causes, func(f found) bool { return f.Slips[0] == RoundedOnTheWay }) {
		return
	}
	s.causes = append(s.causes, found{Cause: Cause{Slips: []Kind{RoundedOnTheWay}, Answer: s.right}, rank: RoundedOnTheWay.rank()})
}

// nearly reports whether an answer is so near the right one that rounding on the way explains it.
func (p *Problem) nearly(answer, right float64) bool {
	const units, share = 3.5, 0.005
	switch p.Form {
	case Direction, EastWest, Clock:
		return false
	case CourseAndDistance, CourseAndSpeed:
		a1, a2 := p.Pair(answer)
		b1, b2 := p.Pair(right)
		return math.Abs(math.Remainder(a1-b1, 360)) <= 1.5*p.Rounding && math.Abs(a2-b2) <= max(units*0.1, share*b2)
	case Miles, MinutesEastWest:
		return math.Abs(answer-right) <= max(units*p.Rounding, share*math.Abs(right))
	}
	return p.off(answer, right) <= units*p.Rounding
}

// withRounding adds slips that explain the answer together with rounding, if they are likelier
// than those that explain it alone.
func (s *search) withRounding() {
	best := len(kinds)
	for _, cause := range s.causes {
		best = min(best, cause.rank)
	}
	for _, one := range s.all {
		if one.kind.ofFigures() || one.isConvention() || one.rank >= best || s.same(one.answer, s.right) {
			continue
		}
		for _, r := range s.all {
			// One degree more or less may also be an error in a sum, which makes a pair.
			if r.kind == RoundedTooFar && s.p.Form != Direction || r.kind == RoundedOnTheWay && r.variant >= 2 {
				s.try(one, r, one.rank)
			}
		}
	}
}

// pairs tries each pair of slips, or each pair of common slips. Two slips in figures alone are no
// pair: they explain nearly every answer.
func (s *search) pairs(common bool) {
	for i, one := range s.all {
		if common && (!one.common() || s.alone(one)) {
			continue // a second slip is not needed
		}
		for _, other := range s.all[:i] {
			switch {
			case one.kind == other.kind, one.kind.ofFigures() && other.kind.ofFigures(), common && (!other.common() || s.alone(other)):
			default:
				s.try(one, other, len(kinds)+one.rank+other.rank)
			}
		}
	}
}

// alone reports whether a slip explains the answer alone. The ways in which the variation is
// applied differ in the heading of the deviation only, and count as one.
func (s *search) alone(one single) bool {
	switch one.kind {
	case VariationWrongWay, VariationLeftOut, VariationTwice:
		return slices.ContainsFunc(s.all, func(o single) bool { return o.kind == one.kind && s.explains(o.answer) })
	}
	return s.explains(one.answer)
}

// common reports whether a slip is so common that it is listed in a pair beside a single slip that
// gives the same answer.
func (a applied) common() bool {
	switch a.kind {
	case VariationTwice, DeviationTwice, AdjacentRow, MadeGoodForSteered:
		return false
	case YearsMiscounted:
		return a.variant <= 3
	}
	return !a.kind.ofFigures() && !a.isConvention()
}

// try makes two slips. It adds them if they give the answer and neither gives it alone.
func (s *search) try(one, other single, rank int) {
	got := s.together(one, other)
	if s.explains(got) && !s.same(got, one.answer) && !s.same(got, other.answer) {
		s.add([2]applied{one.applied, other.applied}, got, rank)
	}
}

// together returns what two slips give. From the second answer of a learner on it keeps that.
func (s *solved) together(one, other single) float64 {
	if !s.again {
		return s.made(one, other)
	}
	if s.both == nil {
		s.both = make([]float64, len(s.all)*(len(s.all)-1)/2)
	}
	last := max(one.at, other.at)
	got := &s.both[last*(last-1)/2+min(one.at, other.at)]
	if *got == 0 {
		*got = s.made(one, other)
	}
	return *got
}

// made works the problem with two slips.
func (s *solved) made(one, other single) float64 {
	s.c.slips = [2]applied{one.applied, other.applied}
	switch {
	case one.writing:
		return s.p.written(s.c, other.raw)
	case other.writing:
		return s.p.written(s.c, one.raw)
	}
	return s.p.run(s.c)
}

// same reports whether two answers are equal.
func (s *solved) same(a, b float64) bool { return s.p.off(a, b) < 1e-9 }

// explains reports whether an answer that slips give explains the answer, and is not the right
// one.
func (s *search) explains(got float64) bool {
	return !math.IsNaN(got) && s.p.off(got, s.answer) <= s.within && !s.same(got, s.right)
}

// add adds slips if they explain the answer.
func (s *search) add(made [2]applied, got float64, rank int) {
	if !s.explains(got) {
		return
	}
	if made[1].kind == "" && made[0].isConvention() {
		if s.convention == "" {
			s.convention = made[0].kind
		}
		return
	}
	f := found{Cause: causeOf(made, got), rank: rank}
	f.exact = s.grain < s.p.Rounding && s.p.off(got, s.answer) <= s.grain/2+1e-9
	for i := range s.causes {
		if slices.Equal(s.causes[i].Slips, f.Slips) {
			s.causes[i].exact = s.causes[i].exact || f.exact
			s.causes[i].join(f.Cause)
			return
		}
	}
	if s.p.Form == Direction && f.Slips[0] == RoundedTooFar {
		f.rank = len(kinds) // one answer in five is a multiple of 5°
	}
	s.causes = append(s.causes, f)
}

// byConvention reports whether a convention gives the answer, and no single slip of the working.
func (s *search) byConvention() bool {
	return s.convention != "" && !slices.ContainsFunc(s.causes, func(f found) bool { return len(f.Slips) == 1 && !f.Slips[0].ofFigures() })
}

// diagnosis returns what was found, the likeliest first.
func (s *search) diagnosis() Diagnosis {
	slices.SortStableFunc(s.causes, func(a, b found) int {
		switch {
		case a.exact != b.exact && a.exact:
			return -1
		case a.exact != b.exact:
			return 1
		}
		return cmp.Compare(a.rank, b.rank)
	})
	d := Diagnosis{Convention: s.convention, Chance: s.chance()}
	for _, f := range s.causes {
		f.Printed = s.p.Print(f.Answer)
		d.Causes = append(d.Causes, f.Cause)
	}
	return d
}

// chance returns the share of all answers that single slips give.
func (s *search) chance() float64 {
	if s.p.Form.isPair() {
		return 0 // of so many answers
	}
	answers := make([]int64, 0, len(s.all))
	for _, one := range s.all {
		if !math.IsNaN(one.answer) && !s.same(one.answer, s.right) {
			answers = append(answers, int64(math.Round(one.answer/s.p.Rounding)))
		}
	}
	slices.Sort(answers)
	n := float64(len(slices.Compact(answers)))
	return n * s.p.Rounding / s.p.span(s.right)
}

// span returns the length of the range in which answers to a problem lie, in the unit of its form.
func (p *Problem) span(right float64) float64 {
	switch p.Form {
	case Direction:
		return 360
	case Clock:
		return 24 * 60
	case NorthSouth:
		return 180
	case EastWest:
		return max(20, 2*math.Abs(right))
	case Angle:
		return max(1, 2*math.Abs(right))
	}
	return max(20, 2*math.Abs(right))
}

// variants returns the slips asked for, with each variant.
func variants(asked []ask) []applied {
	var out []applied
	for _, a := range asked {
		for v := range a.variants {
			out = append(out, applied{a.kind, v})
		}
	}
	return out
}
