package slip

import (
	"math"
	"slices"
	"strings"
)

// A Cause is one slip, or two together, that explain a wrong answer.
type Cause struct {
	Slips  []Kind  `json:"slips"`  // the likeliest first
	Answer float64 `json:"answer"` // their result, not rounded, in the unit of the problem's [Form]

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
	if made[1].kind != "" && made[1].kind.rank() < made[0].kind.rank() {
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
	// Right is true if the answer is right to within its rounding. Then Causes is empty.
	Right bool `json:"right"`

	// Causes are the slips that explain the answer, the likeliest first: single slips, and
	// likelier ones together with rounding. If no single slip explains the answer, they
	// include pairs.
	Causes []Cause `json:"causes,omitempty"`
}

// Certain reports whether exactly one slip explains the answer. If several do, only the
// learner's working can tell which it was. A pair of slips is never certain: there are so many
// pairs that one may match by chance.
func (d Diagnosis) Certain() bool { return len(d.Causes) == 1 && len(d.Causes[0].Slips) == 1 }

// onlyRounded reports whether the answer is right but for rounding.
func (d Diagnosis) onlyRounded() bool {
	return len(d.Causes) > 0 && !slices.ContainsFunc(d.Causes[0].Slips, func(k Kind) bool { return k != RoundedOnTheWay && k != RoundedTooFar })
}

// String returns the diagnosis in words.
func (d Diagnosis) String() string {
	switch {
	case d.Right:
		return "right"
	case len(d.Causes) == 0:
		return "wrong: no common slip, or pair of slips, explains it"
	}
	words := make([]string, len(d.Causes))
	for i, c := range d.Causes {
		words[i] = c.String()
	}
	says := "wrong: "
	if len(d.Causes[0].Slips) > 1 && !d.Causes[0].rounds() {
		says = "wrong: perhaps two slips, "
	}
	says += strings.Join(words, "; or ")
	if len(words) > 1 {
		says += "; these explain it equally"
	}
	return says
}

// Diagnose says whether an answer, in the unit of the form, is right, and otherwise which
// slips explain it. It tries all single slips and, if none explains the answer, all pairs. NaN
// and infinite answers have no cause.
func (p Problem) Diagnose(answer float64) Diagnosis {
	if math.IsNaN(answer) || math.IsInf(answer, 0) {
		return Diagnosis{}
	}
	c := &calculation{}
	right := p.run(c)
	if p.isRight(answer, right) {
		return Diagnosis{Right: true}
	}
	single := variants(c.asked)
	var d Diagnosis
	asked := slices.Clone(c.asked)
	for _, s := range single {
		c.slips = [2]applied{s}
		d.add(p, c, answer, right)
		for _, a := range c.asked { // a slip may make other slips possible
			if !slices.ContainsFunc(asked, func(b ask) bool { return b.kind == a.kind }) {
				asked = append(asked, a)
			}
		}
	}
	alone := len(d.Causes) > 0
	d.addRounded(p, c, answer, right, single)
	if !alone {
		all := variants(asked)
		for i, s := range all {
			for _, t := range all[:i] {
				if s.kind == t.kind {
					continue
				}
				c.slips = [2]applied{s, t}
				d.add(p, c, answer, right)
			}
		}
	}
	slices.SortStableFunc(d.Causes, func(a, b Cause) int { return likelihood(a) - likelihood(b) })
	return d
}

// addRounded adds slips that explain the answer together with rounding, if they are likelier
// than those that explain it alone.
func (d *Diagnosis) addRounded(p Problem, c *calculation, answer, right float64, single []applied) {
	best := len(kinds)
	for _, cause := range d.Causes {
		best = min(best, likelihood(cause))
	}
	for _, s := range single {
		if s.kind.ofFigures() || s.kind.rank() >= best {
			continue
		}
		if c.slips = [2]applied{s}; p.off(p.run(c), right) < 1e-9 {
			continue // the slip has no effect on the answer
		}
		for _, r := range single {
			// One degree more or less may also be an error in a sum, which makes a pair.
			if r.kind == RoundedTooFar || r.kind == RoundedOnTheWay && r.variant >= 2 {
				c.slips = [2]applied{s, r}
				d.add(p, c, answer, right)
			}
		}
	}
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

// likelihood orders causes: a smaller value is likelier. Rounding is a habit, so it does not
// change the place of the slip that it goes with.
func likelihood(c Cause) int {
	sum := 0
	for _, k := range c.Slips {
		if len(c.Slips) == 1 || k != RoundedOnTheWay && k != RoundedTooFar {
			sum += k.rank()
		}
	}
	return sum
}

// add adds the slips of the calculation if they give the answer and not the right one.
func (d *Diagnosis) add(p Problem, c *calculation, answer, right float64) {
	got := p.run(c)
	if math.IsNaN(got) || p.off(got, answer) > p.within() || p.off(got, right) <= p.within() {
		return
	}
	found := causeOf(c.slips, got)
	if i := slices.IndexFunc(d.Causes, func(other Cause) bool { return slices.Equal(other.Slips, found.Slips) }); i >= 0 {
		d.Causes[i].join(found)
		return
	}
	d.Causes = append(d.Causes, found)
}

// Slips returns the result of each single slip of the problem, the likeliest first: the wrong
// answers that a teacher can expect. A slip with several variants is listed with each
// rounded answer that differs. A slip whose answer prints like the right one is left out.
func (p Problem) Slips() []Cause {
	c := &calculation{}
	right := p.run(c)
	var out []Cause
	for _, s := range variants(slices.Clone(c.asked)) {
		if s.kind == RoundedTooFar {
			continue // it can happen with any answer
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
	slices.SortStableFunc(out, func(a, b Cause) int { return likelihood(a) - likelihood(b) })
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
	for _, c := range p.Slips() {
		kind := c.Slips[0]
		if kind.ofFigures() || slices.Contains(p.minor, kind) {
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
		exempt := a.kind.ofFigures() || a.kind == MinutesAtHundred || slices.Contains(p.minor, a.kind)
		if !exempt && !slices.Contains(kinds, a.kind) {
			return false
		}
	}
	return true
}
