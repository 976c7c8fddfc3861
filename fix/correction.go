package fix

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"lubberline.example/fix/internal/earth"
)

// A correction is a change to one line after which all lines agree.
type correction struct {
	suspicion Suspicion
	up        earth.Vector // the vertical of the place
	score     float64      // the lower, the likelier
}

const (
	maxTried      = 24     // lines corrected in turn
	maxWork       = 20_000 // lines times lines examined in turn
	maxSpreads    = 10     // standard uncertainties by which a corrected line may miss the others
	minSpread     = math.Pi / 90
	maxPairs      = 6      // of bearings, whose crossings are tried
	maxNeighbours = 8      // tried instead of a mark
	unstatedScale = 3      // times the nominal uncertainties, to judge lines of unstated uncertainty
	nearScale     = 9260.0 // metres; the uncertainty of Near in the choice between corrections, 5 miles
)

// chance returns how often sound lines disagree as much. If uncertainties are not stated, it
// uses three times the nominal ones.
func (s *solver) chance(square float64, free int) float64 {
	if free <= 0 {
		if square > exact {
			return 0
		}
		return 1
	}
	if !s.stated {
		square /= unstatedScale * unstatedScale
	}
	return distuv.ChiSquared{K: float64(free)}.Survival(square)
}

// corrections tries each bearing reversed, and each line with a neighbour of its mark. It
// returns the changes after which all lines agree: reversed bearings, then other marks, the
// likeliest of each first. Of many lines it tries only bearings that point away from a state.
//
// In without it keeps the states that it reached without each line, for the caller.
func (s *solver) corrections(free int, from state, without []state) []Suspicion {
	trial := *s
	trial.lines, trial.skip, trial.steps = slices.Clone(s.lines), 0, fewSteps
	var reversed, exchanged []correction
	for _, i := range s.suspects(from) {
		l := s.lines[i]
		if l.kind != KindBearing && (l.kind != KindRange || len(s.options.Marks) == 0) {
			continue
		}
		seeds := s.seeds(i, from, free, without)
		try := func(changed Line, to *[]correction, as Suspicion) {
			trial.lines[i] = changed
			if c, ok := trial.agrees(seeds, free, i); ok {
				as.Line, as.Position, as.Probability, as.corrected = i, c.suspicion.Position, c.suspicion.Probability, true
				at := earth.FrameAt(c.up)
				p := l.expect(&at)
				as.Value, as.Ratio = p.left, p.left*math.Sqrt(l.weight(p))
				rest := *s
				rest.skip = i + 1
				if free >= 2 {
					if st := rest.settle(c.up); st.ok {
						as.Position, as.Probability = earth.Position(st.up), s.chance(st.square, free-1)
						as.Value, _ = rest.leftOut(i, st)
					}
				}
				c.suspicion = as
				*to = append(*to, c)
			}
			trial.lines[i] = l
		}
		if l.kind == KindBearing {
			changed := l
			changed.want += math.Pi
			try(changed, &reversed, Suspicion{Slip: ReciprocalTaken})
		}
		for _, m := range neighbours(s.options.Marks, l.marks[0]) {
			changed := l
			changed.a = place(m)
			changed.marks = []Mark{m}
			try(changed, &exchanged, Suspicion{Slip: NeighbourTaken, Mark: &m})
		}
	}
	var out []Suspicion
	for _, list := range [][]correction{reversed, exchanged} {
		slices.SortStableFunc(list, func(a, b correction) int { return cmp.Compare(a.score, b.score) })
		for _, c := range list {
			out = append(out, c.suspicion)
		}
	}
	return out
}

// suspects returns the lines to correct in turn: all, if they are few. Of many it returns the
// bearings that point away from the place of a state.
func (s *solver) suspects(from state) []int {
	var out []int
	at := earth.FrameAt(from.up)
	for i := range s.lines {
		l := &s.lines[i]
		if len(s.lines) > maxTried {
			if !from.ok || l.kind != KindBearing || math.Abs(l.expect(&at).left) <= math.Pi/2 || len(out) == tried(len(s.lines)) {
				continue
			}
		}
		out = append(out, i)
	}
	return out
}

// A seed is a place to settle from.
type seed struct {
	up     earth.Vector
	others state // of the other lines there; not ok if unknown
}

// rulesOut reports whether a line is impossible at a state of the other lines: it misses the
// place by more than the uncertainties of both allow. If the state is not ok, no line is.
func (st *state) rulesOut(l *Line) bool {
	if !st.ok {
		return false
	}
	at := earth.FrameAt(st.up)
	p := l.expect(&at)
	place := p.north*p.north*st.inverse[0] + 2*p.north*p.east*st.inverse[1] + p.east*p.east*st.inverse[2]
	spread := math.Sqrt(1/l.weight(p) + l.ofVariation*l.ofVariation + l.ofDeviation*l.ofDeviation + place)
	if l.kind == KindBearing {
		spread = max(spread, minSpread)
	}
	return math.Abs(p.left) > maxSpreads*spread
}

// seeds returns the places to settle from with line i corrected: the positions by the other
// lines. If those give none, it returns all beginnings. It keeps the state that it reaches from
// the fix without the line, if there is room.
func (s *solver) seeds(i int, from state, free int, without []state) []seed {
	rest := *s
	rest.skip, rest.loose = i+1, true
	if from.ok {
		st := rest.settle(from.up)
		p := s.chance(st.square, free-1)
		if st.ok && p >= suspicionLevel/100 {
			rest.loose = false
			st = rest.settle(st.up)
			p = s.chance(st.square, free-1)
		}
		if i < len(without) {
			without[i] = st
		}
		if st.ok && p >= suspicionLevel && !rest.isAstray(st) {
			return []seed{{st.up, st}}
		}
		if len(s.lines) > maxTried {
			return []seed{{up: from.up}}
		}
		if st.ok {
			rest.known = &st
		}
	}
	rest.steps, rest.loose = fewSteps, true
	var found []state
	none := true
	for up := range rest.starts {
		st := rest.settle(up)
		if !st.ok || !finite(st.square) {
			continue
		}
		none = false
		if !rest.isAstray(st) && !anyNear(found, st) {
			found = append(found, st)
			if len(found) == 1 && s.chosen() {
				break
			}
		}
	}
	var out []seed
	for _, st := range found {
		out = append(out, seed{st.up, st})
	}
	if none {
		for up := range s.beginnings {
			out = append(out, seed{up: up})
		}
	}
	return out
}

// starts yields a few good places to begin from: the reckoned positions, and the places
// where two bearings cross. If there are none, it yields all beginnings.
func (s *solver) starts(yield func(earth.Vector) bool) {
	any := false
	if near := s.options.Near; near != nil {
		if any = true; !yield(earth.Upright(*near)) {
			return
		}
	}
	if s.prior.used {
		if any = true; !yield(s.prior.frame.Up) {
			return
		}
	}
	pairs := 0
	for j := range s.lines {
		for i := range j {
			if i+1 == s.skip || j+1 == s.skip || pairs == maxPairs {
				continue
			}
			if up, ok := crossing(&s.lines[i], &s.lines[j]); ok {
				pairs++
				if any = true; !yield(up) {
					return
				}
			}
		}
	}
	if !any {
		s.beginnings(yield)
	}
}

// agrees settles from each seed, and returns the likeliest place at which the lines agree.
func (s *solver) agrees(seeds []seed, free, changed int) (best correction, found bool) {
	best.score = math.Inf(1)
	if len(s.lines) == 2 && !s.prior.used {
		if up, ok := crossing(&s.lines[0], &s.lines[1]); ok {
			seeds = []seed{{up: up}}
		}
	}
	for _, seed := range seeds {
		if seed.others.rulesOut(&s.lines[changed]) {
			continue
		}
		st := s.settle(seed.up)
		if !st.ok || s.isAstray(st) {
			continue
		}
		p := s.chance(st.square, free)
		if p < suspicionLevel {
			continue
		}
		score := st.square
		if !s.stated {
			score /= unstatedScale * unstatedScale
		}
		if near := s.options.Near; near != nil {
			d := earth.FrameAt(earth.Upright(*near)).At.Minus(earth.FrameAt(st.up).At)
			score += d.Dot(d) / (nearScale * nearScale)
		}
		if score < best.score {
			best, found = correction{Suspicion{Position: earth.Position(st.up), Probability: p}, st.up, score}, true
		}
	}
	return best, found
}

// neighbours returns the marks nearest to a mark, without the mark itself.
func neighbours(marks []Mark, of Mark) []Mark {
	if len(marks) == 0 {
		return nil
	}
	at := place(of)
	var out []Mark
	for _, m := range marks {
		if !m.Position.SamePlace(of.Position) {
			out = append(out, m)
		}
	}
	off := func(m Mark) float64 {
		d := place(m).Minus(at)
		return d.Dot(d)
	}
	slices.SortStableFunc(out, func(a, b Mark) int { return cmp.Compare(off(a), off(b)) })
	return out[:min(len(out), maxNeighbours)]
}
