package fix

import (
	"math"

	"lubberline.example/angle"
	"lubberline.example/fix/internal/earth"
)

// alike is how far apart headings may be whose deviations err alike: less than the step
// of a deviation card.
const alike = 10 * angle.Degree

// maxGroups is how many headings there are round the circle more than alike apart.
const maxGroups = 36

// part is what the normal equations hold of one error that lines share: its column
// times the others, weighed.
type part struct {
	north, east, left float64
	common            float64 // times the column of the error that all have in common
	pivot             float64 // times itself, and what is known of it
}

// shared is that of the errors that lines share. Each is an unknown of its own. Since
// what is left of a line is linear in them they are eliminated at each place, so that
// only the place is sought.
type shared struct {
	variation part
	compass   part            // the free compass error, in the place of the variation's
	groups    [maxGroups]part // the deviation's on headings that are alike

	joint *joint // of all, if runs are shared too; nil otherwise
}

// group tells which lines share an error of the deviation: those by the vessel's
// compass on headings that are alike. It reports what there is to share. With a free
// compass error there is none on a single heading, of which the free error takes all.
func (s *solver) group(known bool) {
	var heads [maxGroups]angle.Compass
	s.stated = known
	single := true
	for i := range s.lines {
		l := &s.lines[i]
		l.group = 0
		ofCommon, ofDeviation := s.scales(l)
		s.sharing = s.sharing || ofCommon != 0 || ofDeviation != 0
		if ofDeviation == 0 {
			single = single && !l.byCompass
			continue
		}
		for l.group < s.groups && l.heading.Sub(heads[l.group]).Abs() > alike {
			l.group++
		}
		if l.group == s.groups {
			heads[s.groups] = l.heading
			s.groups++
		}
	}
	if s.options.CompassError && s.groups == 1 && single {
		s.groups, s.oneHeading = 0, true
	}
	s.shareRuns()
	s.sharing = s.sharing || s.runs > 0
}

// scales returns the effect of the shared errors on a line, each in its own unit: standard
// uncertainties of the error that all have in common and of the deviation's. If the
// compass error is solved for, it is in radians, and takes the place of the variation's.
func (s *solver) scales(l *Line) (ofCommon, ofDeviation float64) {
	free := s.options.CompassError && l.byCompass
	switch {
	case free && (s.oneHeading || !s.stated):
		return 1, 0
	case free:
		return 1, l.ofDeviation
	case !s.stated:
		return 0, 0
	}
	return l.ofVariation, l.ofDeviation
}

// common is the part of the error that a line has in common with all of its kind.
func (h *shared) common(s *solver, l *Line) *part {
	if s.options.CompassError && l.byCompass {
		return &h.compass
	}
	return &h.variation
}

// begin empties the parts. What an error is known to counts as a line; nothing is
// known of the free one.
func (h *shared) begin(s *solver) {
	if s.runs > 0 {
		if h.joint == nil {
			h.joint = new(joint)
		}
		h.joint.begin(s)
		return
	}
	h.variation, h.compass = part{pivot: 1}, part{}
	for i := range s.groups {
		h.groups[i] = part{pivot: 1}
	}
}

// add counts a line in.
func (h *shared) add(s *solver, l *Line, p predicted, w float64) {
	if h.joint != nil {
		h.joint.add(s, l, p, w)
		return
	}
	ofCommon, ofDeviation := s.scales(l)
	// An error to the east makes the converted bearing too small.
	v, d := -w*ofCommon, -w*ofDeviation
	if v != 0 {
		q := h.common(s, l)
		q.north += v * p.north
		q.east += v * p.east
		q.left += v * p.left
		q.pivot -= v * ofCommon
	}
	if d != 0 {
		q := &h.groups[l.group]
		q.north += d * p.north
		q.east += d * p.east
		q.left += d * p.left
		q.pivot -= d * ofDeviation
		q.common -= d * ofCommon
	}
}

// eliminate takes the shared errors out of the normal equations, with what they
// explain of the squares.
func (h *shared) eliminate(s *solver, m *normal) {
	if h.joint != nil {
		h.joint.eliminate(s, m)
		return
	}
	c := &h.variation
	if s.options.CompassError {
		c = &h.compass // of the lines with a deviation
	}
	for i := range s.groups {
		g := &h.groups[i]
		m.take(g)
		r := g.common / g.pivot
		c.north -= g.north * r
		c.east -= g.east * r
		c.left -= g.left * r
		c.pivot -= g.common * r
	}
	if s.options.CompassError {
		if !(h.compass.pivot > 0) { // no line tells it
			m.none = true
			return
		}
		m.take(&h.compass)
	}
	m.take(&h.variation)
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

// turn is what the shared errors turn a line's direction by, in radians, at the place
// of the solution. Of a run that is shared it is in the unit of the line.
func (h *shared) turn(s *solver, l *Line, p predicted) float64 {
	if h.joint != nil {
		return h.joint.turn(s, l, p)
	}
	ofCommon, ofDeviation := s.scales(l)
	if ofCommon == 0 && ofDeviation == 0 {
		return 0
	}
	q := h.common(s, l)
	c := q.left / q.pivot
	turn := ofCommon * c
	if ofDeviation != 0 {
		g := &h.groups[l.group]
		turn += ofDeviation * (g.left - g.common*c) / g.pivot
	}
	return turn
}

// variance is that of a sum of the unknowns: the place's parts by their slopes and the
// shared errors by their effect on the line.
func (h *shared) variance(s *solver, inverse [3]float64, l *Line, p predicted) float64 {
	if h.joint != nil {
		return h.joint.variance(s, inverse, l, p)
	}
	north, east := p.north, p.east
	ofCommon, ofDeviation := s.scales(l)
	of, sum := -ofCommon, 0.0
	if ofDeviation != 0 {
		g := &h.groups[l.group]
		r := -ofDeviation / g.pivot
		sum += -ofDeviation * r
		of -= g.common * r
		north -= g.north * r
		east -= g.east * r
	}
	if of != 0 {
		q := h.common(s, l)
		r := of / q.pivot
		sum += of * r
		north -= q.north * r
		east -= q.east * r
	}
	return sum + north*north*inverse[0] + 2*north*east*inverse[1] + east*east*inverse[2]
}

// compassError is the free error and its variance: its constant part, if the bearings
// were taken on several headings.
func (h *shared) compassError(s *solver, inverse [3]float64) (turn, variance float64) {
	l := Line{byCompass: true}
	turn = h.turn(s, &l, predicted{})
	return math.Remainder(turn, 2*math.Pi), h.variance(s, inverse, &l, predicted{})
}

// turns returns what the compass error that was solved for turns each line by, in radians:
// its constant part, and that of the line's heading. It is nil if none was solved for.
func (f *Fix) turns() []float64 {
	if !f.solver.options.CompassError {
		return nil
	}
	var h shared
	at := earth.FrameAt(f.state.up)
	f.solver.normal(&at, &h)
	out := make([]float64, len(f.lines))
	for i := range f.lines {
		if l := &f.lines[i]; l.byCompass {
			out[i] = h.turn(&f.solver, l, l.expect(&at))
		}
	}
	return out
}
