package fix

import (
	"lubberline.example/angle"
	"lubberline.example/fix/internal/earth"
)

// alike is the largest difference between headings that share one error of the deviation: no
// more than a step of a deviation card.
const alike = 10 * angle.Degree

// maxGroups is how many headings, each more than alike from the others, fit in the circle.
const maxGroups = 36

// A part holds the normal equations of one shared error: the weighted products of its column
// with the other columns.
type part struct {
	north, east, left float64
	common            float64 // with the column of the error that all bearings share
	pivot             float64 // with itself, plus the weight of its stated uncertainty
}

// shared holds the normal equations of the errors that lines share. Each error is an
// unknown. The residuals are linear in them, so they are eliminated at each place, and the
// solver searches only for the place.
type shared struct {
	variation part
	compass   part            // the compass error that is solved for, instead of the variation's
	groups    [maxGroups]part // errors of the deviation, one for each group of headings

	joint *joint // all shared errors, if runs are shared too; otherwise nil
}

// group finds which lines share an error of the deviation: those by the vessel's compass on
// headings within 10° of each other. It sets s.sharing and s.groups. If the compass error is
// solved for and all bearings are on one heading, it includes the error of the deviation, and
// there is no group.
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

// scales returns how much one unit of each shared error turns a line: of the error that all
// bearings share, and of the deviation's. The unit is the standard uncertainty of the error.
// The compass error that is solved for is in radians, and replaces the variation's.
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

// common returns the part of the error that a line shares with all bearings of its kind.
func (h *shared) common(s *solver, l *Line) *part {
	if s.options.CompassError && l.byCompass {
		return &h.compass
	}
	return &h.variation
}

// begin empties the parts. The stated uncertainty of an error counts as one observation of
// it. The compass error that is solved for has none.
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

// add adds a line with its weight.
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

// eliminate removes the shared errors from the normal equations, and what they explain from
// the sum of squares.
func (h *shared) eliminate(s *solver, m *normal) {
	if h.joint != nil {
		h.joint.eliminate(s, m)
		return
	}
	c := &h.variation
	if s.options.CompassError {
		c = &h.compass // the only one that lines with a deviation share
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
		if !(h.compass.pivot > 0) { // no bearing by the compass is left
			m.none = true
			return
		}
		m.take(&h.compass)
	}
	m.take(&h.variation)
}

// take eliminates one shared error.
func (m *normal) take(q *part) {
	r := 1 / q.pivot
	m.nn -= q.north * q.north * r
	m.ne -= q.north * q.east * r
	m.ee -= q.east * q.east * r
	m.n -= q.north * q.left * r
	m.e -= q.east * q.left * r
	m.square -= q.left * q.left * r
}

// turn returns by how much the shared errors change the observed value of a line, at the
// place of the solution. It is in radians for a bearing, and in the unit of a transferred line.
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

// variance returns the variance of the expected value of a line, from the covariance of the
// place and the shared errors.
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

// compassError returns the compass error that was solved for, and its variance. If the
// bearings were taken on several headings, it is the constant part.
func (h *shared) compassError(s *solver, inverse [3]float64) (turn, variance float64) {
	l := Line{byCompass: true}
	turn = h.turn(s, &l, predicted{})
	return shortWay(turn), h.variance(s, inverse, &l, predicted{})
}

// turns returns by how much the compass error that was solved for turns each line, in
// radians: its constant part and that of the line's heading. If none was solved for, it
// returns nil.
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
