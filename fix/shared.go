package fix

import (
	"math"

	"lubberline.example/angle"
)

// alike is how far apart headings may be whose deviations err alike: less than the step
// of a deviation card.
const alike = 10 * angle.Degree

// mostGroups is how many headings there are round the circle more than alike apart.
const mostGroups = 36

// part is what the normal equations hold of one error that lines share: its column
// times the others, weighed.
type part struct {
	north, east, left float64
	variation         float64 // times the column of the variation's
	pivot             float64 // times itself, and what it is known to
}

// shared is that of the errors that lines share. Each is an unknown of its own. Since
// what is left of a line is linear in them they are eliminated at each place, so that
// only the place is sought.
type shared struct {
	variation part
	groups    [mostGroups]part // the deviation's on headings that are alike, or the free compass error
}

// group tells which lines share an error of the deviation: those by the vessel's
// compass on headings that are alike. It reports what there is to share.
func (s *solver) group(known bool) {
	var heads [mostGroups]angle.Compass
	s.stated = known
	for i := range s.lines {
		l := &s.lines[i]
		l.group = 0
		ofVariation, ofDeviation := s.scales(l)
		s.sharing = s.sharing || ofVariation != 0 || ofDeviation != 0
		if ofDeviation == 0 {
			continue
		}
		if !s.options.CompassError {
			for l.group < s.groups && l.heading.Sub(heads[l.group]).Abs() > alike {
				l.group++
			}
		}
		if l.group == s.groups {
			heads[s.groups] = l.heading
			s.groups++
		}
	}
}

// scales are how much a line errs by the shared errors, each in its own unit: standard
// uncertainties, or radians of the compass error if that is solved for. It takes the
// place of the variation's there too.
func (s *solver) scales(l *Line) (ofVariation, ofDeviation float64) {
	switch {
	case s.options.CompassError && l.byCompass:
		return 0, 1
	case !s.stated:
		return 0, 0
	}
	return l.ofVariation, l.ofDeviation
}

// begin empties the parts. What an error is known to counts as a line; nothing is
// known of the free one.
func (h *shared) begin(s *solver) {
	h.variation = part{pivot: 1}
	known := 1.0
	if s.options.CompassError {
		known = 0
	}
	for i := range s.groups {
		h.groups[i] = part{pivot: known}
	}
}

// add counts a line in.
func (h *shared) add(s *solver, l *Line, p predicted, w float64) {
	ofVariation, ofDeviation := s.scales(l)
	// An error to the east makes the converted bearing too small.
	v, d := -w*ofVariation, -w*ofDeviation
	if v != 0 {
		q := &h.variation
		q.north += v * p.north
		q.east += v * p.east
		q.left += v * p.left
		q.pivot -= v * ofVariation
	}
	if d != 0 {
		q := &h.groups[l.group]
		q.north += d * p.north
		q.east += d * p.east
		q.left += d * p.left
		q.pivot -= d * ofDeviation
		q.variation -= d * ofVariation
	}
}

// eliminate takes the shared errors out of the normal equations, with what they
// explain of the squares.
func (h *shared) eliminate(s *solver, m *normal) {
	v := &h.variation
	for i := range s.groups {
		g := &h.groups[i]
		if !(g.pivot > 0) { // the free error without a line
			m.none = true
			return
		}
		m.take(g)
		r := g.variation / g.pivot
		v.north -= g.north * r
		v.east -= g.east * r
		v.left -= g.left * r
		v.pivot -= g.variation * r
	}
	m.take(v)
}

// take eliminates one error.
func (m *normal) take(q *part) {
	r := 1 / q.pivot
	m.nn -= q.north * q.north * r
	m.ne -= q.north * q.east * r
	m.ee -= q.east * q.east * r
	m.n -= q.north * q.left * r
	m.e -= q.east * q.left * r
	m.square -= q.left * q.left * r
}

// errs is what the shared errors turn a line's direction by, in radians, at the place
// of the solution.
func (h *shared) errs(s *solver, l *Line) float64 {
	ofVariation, ofDeviation := s.scales(l)
	v := h.variation.left / h.variation.pivot
	turn := ofVariation * v
	if ofDeviation != 0 {
		g := &h.groups[l.group]
		turn += ofDeviation * (g.left - g.variation*v) / g.pivot
	}
	return turn
}

// variance is that of a sum of the unknowns: the place's parts by their slopes and the
// shared errors by what one line errs by them.
func (h *shared) variance(s *solver, inverse [3]float64, l *Line, north, east float64) float64 {
	ofVariation, ofDeviation := s.scales(l)
	of, sum := -ofVariation, 0.0
	if ofDeviation != 0 {
		g := &h.groups[l.group]
		r := -ofDeviation / g.pivot
		sum += -ofDeviation * r
		of -= g.variation * r
		north -= g.north * r
		east -= g.east * r
	}
	if s.sharing {
		r := of / h.variation.pivot
		sum += of * r
		north -= h.variation.north * r
		east -= h.variation.east * r
	}
	return sum + north*north*inverse[0] + 2*north*east*inverse[1] + east*east*inverse[2]
}

// compassError is the free error and its variance.
func (h *shared) compassError(s *solver, inverse [3]float64) (turn, variance float64) {
	l := Line{byCompass: true}
	turn = h.errs(s, &l)
	return math.Remainder(turn, 2*math.Pi), h.variance(s, inverse, &l, 0, 0)
}
