package slip

import (
	"math"
	"slices"
	"strings"
)

// A Cause is one slip, or two together, that explain a wrong answer.
type Cause struct {
	Slips  []Kind  `json:"slips"`  // the likelier first
	Answer float64 `json:"answer"` // what they give, not rounded, in the unit of the problem's [Form]

	// Ways say in words in which way each slip was made, "one year too few", in the
	// order of Slips; "" where a slip has but one way, or more than one explains the
	// answer. None if there is nothing to say of any.
	Ways []string `json:"ways,omitempty"`
}

// String says the slips in words.
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

// rounds reports whether one of two slips is mere rounding.
func (c Cause) rounds() bool {
	return slices.Contains(c.Slips, RoundedOnTheWay) || slices.Contains(c.Slips, RoundedTooFar)
}

// causeOf is the cause of some slips that were made, the likelier first.
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

// join makes of two causes with the same slips one that says nothing of ways in which
// they differ.
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

// A Diagnosis says what an answer is: right, wrong by some slip, or wrong and
// unexplained, which is the zero value.
type Diagnosis struct {
	// Right is whether it is right, to within its rounding. Then there are no causes.
	Right bool `json:"right"`

	// Causes are the slips that explain it, the likelier first. They are single slips, and
	// likelier ones that explain it together with rounding. If no single slip does, pairs follow. If
	// Causes is empty the answer is unexplained.
	Causes []Cause `json:"causes,omitempty"`
}

// Certain reports whether one slip alone explains the answer. Where several do they
// explain it equally, and only the working can tell which it was; and two slips at once
// are never certain: there are many pairs, and chance meets one easily.
func (d Diagnosis) Certain() bool { return len(d.Causes) == 1 && len(d.Causes[0].Slips) == 1 }

// String says it in words.
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

// Diagnose says whether an answer, in the unit of the form, is right, and if it is not,
// which slips explain it. An answer that is not a number, or infinite, is unexplained.
// The search is exhaustive for one slip and, if none explains the answer, for two.
func (p Problem) Diagnose(answer float64) Diagnosis {
	if math.IsNaN(answer) || math.IsInf(answer, 0) {
		return Diagnosis{}
	}
	c := &calculation{}
	right := p.run(c)
	if p.off(answer, right) <= p.within() || p.off(answer, p.Rounded()) <= p.within()/2 {
		return Diagnosis{Right: true}
	}
	single := variants(c.asked)
	var d Diagnosis
	asked := slices.Clone(c.asked)
	for _, s := range single {
		c.slips = [2]applied{s}
		d.add(p, c, answer, right)
		for _, a := range c.asked { // a slip may lead to where others can be made
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

// addRounded adds slips that give the answer together with rounding, where each is
// likelier than the slips that give it alone.
func (d *Diagnosis) addRounded(p Problem, c *calculation, answer, right float64, single []applied) {
	best := len(kinds)
	for _, cause := range d.Causes {
		best = min(best, likelihood(cause))
	}
	for _, s := range single {
		if s.kind.ofFigures() || s.kind.rank() >= best {
			continue
		}
		for _, r := range single {
			// One degree more or less is a sum one out as well: that makes a pair.
			if r.kind == RoundedTooFar || r.kind == RoundedOnTheWay && r.variant >= 2 {
				c.slips = [2]applied{s, r}
				d.add(p, c, answer, right)
			}
		}
	}
}

// variants are the slips asked for, in each of their ways.
func variants(asked []ask) []applied {
	var out []applied
	for _, a := range asked {
		for v := range a.variants {
			out = append(out, applied{a.kind, v})
		}
	}
	return out
}

// likelihood orders causes: less is likelier. Rounding is no more than a habit, and
// leaves the place of the slip that it goes with.
func likelihood(c Cause) int {
	sum := 0
	for _, k := range c.Slips {
		if len(c.Slips) == 1 || k != RoundedOnTheWay && k != RoundedTooFar {
			sum += k.rank()
		}
	}
	return sum
}

// add adds the calculation's slips if they give this answer, and not the right one.
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

// Slips returns the answer that each single slip of the problem gives, the likelier first:
// what a teacher may expect. A slip that can be made in several ways is listed
// with each answer that differs when it is rounded. One whose answer prints as the right
// one is left out: nobody could be told of it.
func (p Problem) Slips() []Cause {
	c := &calculation{}
	right := p.run(c)
	var out []Cause
	for _, s := range variants(slices.Clone(c.asked)) {
		if s.kind == RoundedTooFar {
			continue // of any answer, by anyone
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

// IsClear reports whether the problem's slips can be told from the right answer and from
// each other when they are rounded: such problems teach. Slips of mere figures do not
// count. Nor do, in a conversion to the whole degree, a year miscounted, minutes carried at
// a hundred, and a good card entered with the heading by another north, which come to less
// than is seen; and a variation or deviation applied twice, which is rare.
func (p Problem) IsClear() bool {
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

// showsAll reports whether every kind of slip that can be made shows in the answer; those
// that do not show give the right one.
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
