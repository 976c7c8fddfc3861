package slip

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// A Cause is one slip, or two together, that explain a wrong answer.
type Cause struct {
	Slips []Kind `json:"slips"` // the likeliest first

	// Answer is their result, not rounded, in the unit of the problem's [Form]. Of two figures
	// it holds both: see [Problem.Pair].
	Answer float64 `json:"answer"`

	// Printed is Answer as [Problem.Print] prints it, such as 035°, 12.5 M.
	Printed string `json:"printed,omitempty"`

	// Ways describe the variant of each slip, such as "one year too few", in the order of
	// Slips. An entry is empty if a slip has one variant, or if several explain the answer.
	// Ways is nil if all entries are empty.
	Ways []string `json:"ways,omitempty"`
}

// String describes the slips in words.
func (c Cause) String() string {
	words := make([]string, len(c.Slips))
	for i, s := range c.Slips {
		words[i] = s.String()
		if i < len(c.Ways) && c.Ways[i] != "" {
			words[i] += ", " + c.Ways[i]
		}
	}
	return strings.Join(words, ", and ")
}

// rounds reports whether one of the slips is rounding.
func (c Cause) rounds() bool {
	return slices.Contains(c.Slips, RoundedOnTheWay) || slices.Contains(c.Slips, RoundedTooFar)
}

// causeOf returns the cause made of some slips, the likeliest first.
func causeOf(made [2]applied, answer float64) Cause {
	first, second := made[0].kind, made[1].kind
	if second != "" && (first.rounds() && !second.rounds() || first.rounds() == second.rounds() && second.rank() < first.rank()) {
		made[0], made[1] = made[1], made[0]
	}
	c := Cause{Answer: answer}
	said := false
	var in []string
	for _, s := range made {
		if s.kind == "" {
			continue
		}
		way := ""
		if words := ways[s.kind]; s.variant < len(words) {
			way = words[s.variant]
		}
		c.Slips, in, said = append(c.Slips, s.kind), append(in, way), said || way != ""
	}
	if said {
		c.Ways = in
	}
	return c
}

// join combines two causes with the same slips. It removes the ways that differ.
func (c *Cause) join(other Cause) {
	if c.Ways == nil || other.Ways == nil {
		c.Ways = nil
		return
	}
	said := false
	for i := range c.Ways {
		if c.Ways[i] != other.Ways[i] {
			c.Ways[i] = ""
		}
		said = said || c.Ways[i] != ""
	}
	if !said {
		c.Ways = nil
	}
}

// A Diagnosis says whether an answer is right, wrong with a cause, or wrong without one. The
// zero value is wrong without a cause.
type Diagnosis struct {
	// Right is true if the answer is right to within its rounding, or if only another
	// convention explains it. Then Causes is empty.
	Right bool `json:"right"`

	// Convention is another convention that gives the answer, such as the nearest row of a card
	// without interpolation. If Right is false, the causes give it too.
	Convention Kind `json:"convention,omitempty"`

	// Causes are the slips that explain the answer, the likeliest first: single slips, and
	// likelier ones together with rounding. They include pairs if no single slip explains the
	// answer, or if a pair of common slips does.
	Causes []Cause `json:"causes,omitempty"`

	// Chance is the share of all answers that single slips give: how likely a figure written
	// at random is explained by one. It is 0 if the answer is right.
	Chance float64 `json:"chance,omitempty"`
}

// maxChance is the greatest chance of explaining a figure written at random at which a slip is
// certain. Courses to the whole degree are above it: about 50 of 360 are explained.
const maxChance = 0.04

// Certain reports whether exactly one slip explains the answer, and hardly by chance. If several
// do, only the learner's working shows which it was; see [Problem.Mark]. A pair of slips is
// never certain: there are so many pairs that one may match by chance. Nor is a slip in the
// figures alone, such as rounding or a misread figure.
func (d Diagnosis) Certain() bool {
	return !d.Right && d.Convention == "" && d.Chance <= maxChance && len(d.Causes) == 1 && len(d.Causes[0].Slips) == 1 && !d.Causes[0].Slips[0].ofFigures()
}

// onlyRounded reports whether the answer is right but for rounding.
func (d Diagnosis) onlyRounded() bool {
	return len(d.Causes) > 0 && !slices.ContainsFunc(d.Causes[0].Slips, func(k Kind) bool { return !k.rounds() })
}

// mostSaid is the greatest number of causes that are put in words.
const mostSaid = 6

// String returns the diagnosis in words.
func (d Diagnosis) String() string {
	says := ""
	if d.Convention != "" {
		says = "right by another convention: " + d.Convention.String()
	}
	switch {
	case d.Right && says != "":
		return says
	case d.Right:
		return "right"
	case len(d.Causes) == 0:
		return "wrong: no common slip, or pair of slips, explains it"
	case says != "":
		says += "; or "
	}
	words := make([]string, 0, mostSaid+1)
	for i, c := range d.Causes {
		if i == mostSaid {
			words = append(words, fmt.Sprintf("%d others", len(d.Causes)-i))
			break
		}
		words = append(words, c.String())
	}
	says += "wrong; "
	switch two := len(d.Causes[0].Slips) > 1; {
	case two && len(words) == 1:
		says += "these two slips would give it: "
	case two && !d.Causes[0].rounds():
		says += "perhaps two slips; each of these would give it: "
	case len(words) > 1:
		says += "each of these would give it: "
	default:
		says += "this slip would give it: "
	}
	return says + strings.Join(words, "; or ")
}

// Diagnose says whether an answer, in the unit of the form, is right, and otherwise which slips
// explain it. It tries all single slips. If none explains the answer, it tries all pairs;
// otherwise only pairs of common slips. NaN and infinite answers have no cause.
//
// An answer with more figures than asked is compared in its own figures first.
func (p Problem) Diagnose(answer float64) Diagnosis { return p.solved().diagnose(answer) }

// diagnose is [Problem.Diagnose].
func (s *solved) diagnose(answer float64) Diagnosis {
	d, f := s.rightness(answer)
	if f == nil {
		return d
	}
	alone := len(f.causes) > 0
	f.withRounding()
	f.pairs(alone)
	f.nearMiss()
	s.again = true
	return f.diagnosis()
}

// rightness says whether an answer is right. If it is a wrong number, rightness returns the search
// for slips, with the single ones that explain it.
func (s *solved) rightness(answer float64) (Diagnosis, *search) {
	switch {
	case math.IsNaN(answer) || math.IsInf(answer, 0):
		return Diagnosis{}, nil
	case s.p.isRight(answer, s.right):
		return Diagnosis{Right: true}, nil
	}
	f := &search{solved: s, answer: answer, within: s.p.within(), grain: s.p.grain(answer)}
	if s.p.plotted != byFigures {
		f.within = 1.5 * s.p.Rounding // a wrong answer is plotted as coarsely as a right one
	}
	s.singles()
	for _, one := range s.all {
		f.add([2]applied{one.applied}, one.answer, one.rank)
	}
	if f.byConvention() {
		return Diagnosis{Right: true, Convention: f.convention}, nil
	}
	return Diagnosis{}, f
}

// Slips returns the result of each single slip of the problem, the likeliest first: the wrong
// answers that a teacher can expect. A slip with several variants is listed with each
// rounded answer that differs. A slip whose answer prints like the right one is left out.
func (p Problem) Slips() []Cause {
	out := p.slipsBut(applied.hidden)
	for i := range out {
		out[i].Printed = p.Print(out[i].Answer)
	}
	return out
}

// hidden reports whether a slip is left out of the list of slips. It can happen with any answer or
// with each of the figures given, or it is another convention.
func (a applied) hidden() bool {
	return a.kind == RoundedTooFar || a.kind == RoundedOnTheWay && a.variant < 2 || a.kind == SumOff || a.kind == PointMisplaced || a.isConvention() ||
		a.kind == NamesIgnored && a.variant > 2
}

// rare reports whether a slip need not show for a problem to be clear.
func (a applied) rare() bool {
	switch a.kind {
	case AdjacentRow, PartLeftOut, MadeGoodForSteered:
		return true
	case MinutesAsDecimals, MinutesAtHundred, SineForCosine:
		return a.variant > 0
	case YearsMiscounted:
		return a.variant > 3
	}
	return a.hidden() || a.kind.ofFigures()
}

// slipsBut returns the result of each single slip but those left out, the likeliest first.
func (p Problem) slipsBut(leftOut func(applied) bool) []Cause {
	c := &calculation{}
	right := p.run(c)
	var out []Cause
	for _, s := range variants(slices.Clone(c.asked)) {
		if leftOut(s) {
			continue
		}
		c.slips = [2]applied{s}
		got := p.run(c)
		if math.IsNaN(got) || p.off(got, right) <= p.within() || p.Print(got) == p.Print(right) {
			continue
		}
		same := func(o Cause) bool { return o.Slips[0] == s.kind && p.rounded(o.Answer) == p.rounded(got) }
		if !slices.ContainsFunc(out, same) {
			out = append(out, causeOf(c.slips, got))
		}
	}
	slices.SortStableFunc(out, func(a, b Cause) int { return a.Slips[0].rank() - b.Slips[0].rank() })
	return out
}

// isClear reports whether the slips of the problem give rounded answers that differ from the right
// one and from each other. Such problems teach best. Slips in figures do not count. In a conversion
// to the whole degree, some slips do not count, since they are rare or change the answer too
// little. These are a miscounted year, minutes carried at 100, a card entered with the wrong
// heading, and a variation or deviation applied twice.
func (p Problem) isClear() bool {
	if p.work == nil {
		return false
	}
	apart := []float64{p.Answer()}
	var kinds []Kind
	for _, c := range p.slipsBut(applied.rare) {
		kind := c.Slips[0]
		if slices.Contains(p.minor, kind) {
			continue
		}
		for i, other := range apart {
			if (i == 0 || kinds[i-1] != kind) && p.off(c.Answer, other) <= 1.001*p.Rounding {
				return false
			}
		}
		apart, kinds = append(apart, c.Answer), append(kinds, kind)
	}
	return p.showsAll(kinds)
}

// showsAll reports whether every possible slip changes the answer.
func (p Problem) showsAll(kinds []Kind) bool {
	c := &calculation{}
	p.run(c)
	for _, a := range c.asked {
		exempt := (applied{kind: a.kind}).rare() || a.kind == MinutesAtHundred || slices.Contains(p.minor, a.kind)
		if !exempt && !slices.Contains(kinds, a.kind) {
			return false
		}
	}
	return true
}
