package fix

import (
	"fmt"
	"math"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
)

// Options say how a fix is solved. The zero value asks for nothing but the lines.
type Options struct {
	// Near is where the vessel is reckoned to be. It chooses between the places
	// where lines meet twice, and takes no other part. Without it, and without a
	// Prior, the places near the marks are looked through.
	Near *angle.Position

	// Prior is an estimated position that takes part in the solution by its
	// covariance, so that even one line improves it.
	Prior *course.Estimate

	// CompassError solves for a constant error that all [CompassBearing] lines
	// share, over what their conversion allowed for. It takes one line more. With
	// one line more than that to spare it is tested too.
	//
	// Without it, what the conversion of these lines is known to counts as an error
	// that they share, and turns the region as it should.
	CompassError bool
}

// A SolveError reports lines that give no position.
type SolveError struct {
	Reason string
}

// Error says why, and what would do.
func (e *SolveError) Error() string { return "fix: " + e.Reason }

// most is how many lines a fix may have.
const most = 10_000

// Solve returns the most probable position from some lines: where the squares of
// what is left of each, in its standard uncertainties, sum to the least (weighted
// least squares by Gauss–Newton steps on the ellipsoid).
//
// Two lines without a prior meet exactly, and Others holds the other places where
// they do; so it does of more lines that fit two places about as well, where neither
// Near nor a prior chooses. Uncertainties must be stated of all lines or of none; if of none the lines
// are weighed by what such observations are usually good for, see [Fix].Known. A
// stated uncertainty of nought would outweigh all others and is refused.
//
// Errors are [*LineError] and [*SolveError]: too few lines, lines that coincide or
// run parallel, or that meet nowhere.
func Solve(lines []Line, options Options) (Fix, error) {
	known, err := check(lines, options)
	if err != nil {
		return Fix{}, err
	}
	s := solver{lines: lines, options: options, unknowns: 2}
	if options.CompassError {
		s.unknowns = 3
	} else if known {
		s.shareErrors()
	}
	if options.Prior != nil {
		if s.prior, err = newPrior(options.Prior); err != nil {
			return Fix{}, err
		}
	}
	free := len(lines) - s.unknowns
	if s.common > 0 {
		free++ // what the compass's error is known to counts as a line
	}
	if options.Prior != nil {
		free += 2
	}
	if free < 0 {
		return Fix{}, &SolveError{fmt.Sprintf("%d lines for %d unknowns: want more lines, or an estimated position as a prior", len(lines), s.unknowns)}
	}
	if len(lines) == 2 && options.Prior == nil {
		return s.meet(known)
	}
	state, others, err := s.begin()
	if err != nil {
		return Fix{}, err
	}
	f := s.fix(state, free, known)
	f.Others = others
	return f, nil
}

// shareErrors makes the error of the compass's conversion an unknown of its own, known
// to its uncertainty, if two lines or more share it.
func (s *solver) shareErrors() {
	n := 0
	for i := range s.lines {
		if l := &s.lines[i]; l.shared && l.common > 0 {
			n++
			s.common = max(s.common, l.common)
		}
	}
	if n > 0 {
		s.unknowns = 3
	}
}

// check refuses lines that can't be solved with, and says whether all
// uncertainties are known.
func check(lines []Line, options Options) (known bool, err error) {
	if len(lines) > most {
		return false, &SolveError{fmt.Sprintf("%d lines: want at most %d", len(lines), most)}
	}
	stated, shared := 0, 0
	for i := range lines {
		l := &lines[i]
		if l.fault != "" {
			return false, &LineError{l.Name, l.fault}
		}
		if l.Kind == KindOther && l.other == nil || len(l.Marks) == 0 && (l.Kind == KindBearing || l.Kind == KindRange || l.Kind == KindTransit || l.Kind == KindHorizontalAngle) || l.steps == nil {
			return false, &LineError{fmt.Sprintf("line %d", i+1), "it was not made by this package: make it with Bearing, Range and the like"}
		}
		if l.Kind == "" {
			return false, &LineError{fmt.Sprintf("line %d", i+1), "it is empty: make it with Bearing, Range and the like"}
		}
		if l.stated && !(l.sigma > 0) {
			return false, &LineError{l.Name, "its standard uncertainty is nought: want more, or none stated of any line"}
		}
		if l.stated {
			stated++
		}
		if l.shared {
			shared++
		}
	}
	if stated != 0 && stated != len(lines) {
		return false, &SolveError{"an uncertainty is stated of some lines only: want it of all or of none"}
	}
	if options.CompassError && shared == 0 {
		return false, &SolveError{"the compass error is asked for, and no line is a compass bearing"}
	}
	return stated == len(lines), nil
}

// prior is an estimate ready to take part: its place and the inverse of its
// covariance.
type prior struct {
	frame             frame
	north, east, both float64 // of the inverse
	used              bool
}

func newPrior(e *course.Estimate) (prior, error) {
	c := e.Covariance
	det := c.North*c.East - c.Both*c.Both
	if !(c.North > 0 && c.East > 0 && det > 1e-12*c.North*c.East) || math.IsInf(det, 0) {
		return prior{}, &SolveError{"the prior's covariance has no area: want an estimated position known to some metres each way"}
	}
	return prior{frameAt(upright(e.Position)), c.East / det, c.North / det, -c.Both / det, true}, nil
}

// solver solves one set of lines.
type solver struct {
	lines    []Line
	options  Options
	prior    prior
	unknowns int
	common   float64 // what the compass's error is known to, radians; 0 if it is free or none
	skip     int     // one over the line left out; 0 for none
}

// state is where a solution stands.
type state struct {
	up     vector  // the vertical of the place
	error  float64 // of the compass, radians
	square float64 // the sum of squares
	ok     bool    // whether it has settled

	inverse [6]float64 // of the normal equations: NN, NE, EE, NC, EC, CC
}

// normal is the normal equations at a state.
type normal struct {
	nn, ne, ee, nc, ec, cc float64
	n, e, c                float64
	square                 float64
}

func (s *solver) normal(f *frame, compass float64) normal {
	var m normal
	for i := range s.lines {
		if i+1 == s.skip {
			continue
		}
		l := &s.lines[i]
		p := l.expect(f)
		w := l.weight(p)
		k := 0.0
		if l.shared && s.unknowns == 3 {
			// The error makes the converted bearing too small by itself.
			k = -1
			p.left += compass
		}
		m.nn += w * p.north * p.north
		m.ne += w * p.north * p.east
		m.ee += w * p.east * p.east
		m.nc += w * p.north * k
		m.ec += w * p.east * k
		m.cc += w * k * k
		m.n += w * p.north * p.left
		m.e += w * p.east * p.left
		m.c += w * k * p.left
		m.square += w * p.left * p.left
	}
	if s.common > 0 {
		w := 1 / (s.common * s.common)
		m.cc += w
		m.c -= w * compass
		m.square += w * compass * compass
	}
	if s.prior.used {
		q := &s.prior
		// Where the prior is from here, along the surface: far from it too it has to
		// weigh. It is taken in the prior's own axes, which do not turn as the place
		// moves, with the slopes of the move in them.
		d, n, e := q.frame.surface(f.at)
		n, e = d*n, d*e
		nn, ne := f.north.dot(q.frame.north), f.east.dot(q.frame.north)
		en, ee := f.north.dot(q.frame.east), f.east.dot(q.frame.east)
		wn, we := q.north*n+q.both*e, q.both*n+q.east*e
		m.nn += q.north*nn*nn + 2*q.both*nn*en + q.east*en*en
		m.ne += q.north*nn*ne + q.both*(nn*ee+ne*en) + q.east*en*ee
		m.ee += q.north*ne*ne + 2*q.both*ne*ee + q.east*ee*ee
		m.n += nn*wn + en*we
		m.e += ne*wn + ee*we
		m.square += n*wn + e*we
	}
	return m
}

// step solves the normal equations, a little stiffened, and returns the move. It is
// not ok if they have no solution: where the lines run parallel to a millionth,
// whichever way they run.
func (m *normal) step(unknowns int, stiff float64) (n, e, c float64, inverse [6]float64, ok bool) {
	half := (m.nn + m.ee) / 2
	nn, ee, cc := m.nn+stiff*half, m.ee+stiff*half, m.cc*(1+stiff)
	if unknowns == 2 {
		det := nn*ee - m.ne*m.ne
		if !(det > 1e-12*half*half) {
			return 0, 0, 0, inverse, false
		}
		inverse = [6]float64{ee / det, -m.ne / det, nn / det}
		return inverse[0]*m.n + inverse[1]*m.e, inverse[1]*m.n + inverse[2]*m.e, 0, inverse, true
	}
	// By cofactors: the scales of metres and radians differ, the relations do not.
	a, b, d := ee*cc-m.ec*m.ec, m.nc*m.ec-m.ne*cc, m.ne*m.ec-ee*m.nc
	det := nn*a + m.ne*b + m.nc*d
	if !(det > 1e-12*half*half*cc) {
		return 0, 0, 0, inverse, false
	}
	inverse = [6]float64{a / det, b / det, (nn*cc - m.nc*m.nc) / det, d / det, (m.ne*m.nc - nn*m.ec) / det, (nn*ee - m.ne*m.ne) / det}
	n = inverse[0]*m.n + inverse[1]*m.e + inverse[3]*m.c
	e = inverse[1]*m.n + inverse[2]*m.e + inverse[4]*m.c
	c = inverse[3]*m.n + inverse[4]*m.e + inverse[5]*m.c
	return n, e, c, inverse, true
}

const (
	mostSteps    = 100
	rounding     = 1e-9    // of the squares, and what the slopes leave out
	mostMove     = 500_000 // metres in a step
	settledMove  = 1e-5    // metres
	settledLoose = 1e-3    // metres, where a step did not help for the rounding of the squares
	settledTurn  = 1e-12   // radians
)

// settle goes from a place to where the squares are least, by Gauss–Newton steps that
// are stiffened (Levenberg) when they do not help.
func (s *solver) settle(up vector) state {
	st := state{up: up}
	f := frameAt(up)
	m := s.normal(&f, 0)
	stiff := 0.0
	for range mostSteps {
		n, e, c, inverse, ok := m.step(s.unknowns, stiff)
		if !ok {
			if stiff > 1 {
				return st
			}
			stiff = max(1e-6, stiff*10)
			continue
		}
		if move := math.Hypot(n, e); move > mostMove {
			n, e = n*mostMove/move, e*mostMove/move
		}
		nextUp := f.moved(n, e)
		next := frameAt(nextUp)
		try := s.normal(&next, st.error+c)
		if !(try.square <= m.square*(1+rounding)+1e-18) && stiff < 1e6 {
			stiff = max(1e-3, stiff*8)
			continue
		}
		// What the step brought, of what the slope there promised: 1 if nothing bends.
		gain := math.NaN() // not to be told
		if promised := m.n*n + m.e*e + m.c*c; promised > rounding*m.square {
			gain = (m.square - try.square) / promised
		}
		st.up, st.error, st.square, st.inverse = nextUp, st.error+c, try.square, inverse
		f, m = next, try
		if math.Hypot(n, e) < settledMove && math.Abs(c) < settledTurn {
			if stiff == 0 {
				// The inverse is that of the last place but one, micrometres away.
				st.ok = true
				return st
			}
			// Stiffness may have kept it from going on.
			n, e, _, inverse, ok := m.step(s.unknowns, 0)
			if !ok {
				return st
			}
			if math.Hypot(n, e) < settledLoose {
				st.inverse, st.ok = inverse, true
				return st
			}
		}
		switch {
		case gain < 0.5: // it goes too far, and would go to and fro
			stiff = max(1e-3, stiff*4)
		case gain > 0.9 && stiff > 1e-9:
			stiff /= 4
		case gain > 0.9:
			stiff = 0
		}
	}
	return st
}

// begin settles from the places that the options tell of, or from about the marks,
// and takes the best.
func (s *solver) begin() (state, []angle.Position, error) {
	var found []state
	chosen := s.options.Near != nil || s.prior.used
	began := false
	for up := range s.beginnings {
		began = true
		st := s.settle(up)
		if !st.ok || !finite(st.square) {
			continue
		}
		if chosen {
			return st, nil, nil
		}
		found = append(found, st)
	}
	switch {
	case !began:
		return state{}, nil, &SolveError{"there is no mark to begin from: want Options.Near, about where the vessel is"}
	case len(found) == 0:
		return state{}, nil, &SolveError{"the lines give no position: they run parallel, coincide, or meet nowhere near"}
	case len(found) == 1:
		return found[0], nil, nil
	}
	sortBy(found, func(a, b state) bool { return a.square < b.square })
	best := found[0]
	others := []state{best}
	for _, st := range found[1:] {
		if st.square > best.square+asGood || s.isFar(frameAt(st.up).at) {
			continue
		}
		if !anyNear(others, st) {
			others = append(others, st)
		}
	}
	var places []angle.Position
	for _, st := range others[1:] {
		places = append(places, position(st.up))
	}
	return best, places, nil
}

// asGood is how much more the squares of another place may sum to for it to fit about
// as well: two standard uncertainties.
const asGood = 4

// anyNear reports whether a place is one of some.
func anyNear(places []state, st state) bool {
	at := frameAt(st.up).at
	for _, other := range places {
		if d := frameAt(other.up).at.minus(at); d.dot(d) < samePlace*samePlace {
			return true
		}
	}
	return false
}

// beginnings yields the places to begin from: where the vessel is reckoned to be,
// then rings about the middle of the marks.
func (s *solver) beginnings(yield func(vector) bool) {
	if s.options.Near != nil && !yield(upright(*s.options.Near)) {
		return
	}
	if s.prior.used && !yield(s.prior.frame.up) {
		return
	}
	middle, ok := s.middle()
	if !ok {
		return
	}
	f := frameAt(middle)
	if !yield(middle) {
		return
	}
	for _, radius := range []float64{2_000, 10_000, 40_000} {
		for i := range 8 {
			sin, cos := math.Sincos(float64(i) * math.Pi / 4)
			if !yield(f.moved(radius*cos, radius*sin)) {
				return
			}
		}
	}
}

// middle is the vertical amid the marks, or where a latitude and a longitude meet.
func (s *solver) middle() (vector, bool) {
	var sum vector
	latitude, longitude := math.NaN(), math.NaN()
	for i := range s.lines {
		l := &s.lines[i]
		for _, m := range l.Marks {
			sum = sum.plus(upright(m.Position))
		}
		switch l.Kind {
		case KindLatitude:
			latitude = l.want
		case KindLongitude:
			longitude = l.want
		}
	}
	if length := math.Sqrt(sum.dot(sum)); length > 1e-9 {
		return sum.times(1 / length), true
	}
	if !math.IsNaN(latitude) && !math.IsNaN(longitude) {
		s, c := math.Sincos(latitude)
		sl, cl := math.Sincos(longitude)
		return vector{c * cl, c * sl, s}, true
	}
	return vector{}, false
}

// room is space for lines and what is left of them, in one piece if they are few.
func room(n int) ([]Line, []Residual) {
	const few = 6
	if n > few {
		return make([]Line, n), make([]Residual, n)
	}
	r := new(struct {
		lines     [few]Line
		residuals [few]Residual
	})
	return r.lines[:n:n], r.residuals[:n:n]
}

// fix is the answer at a state.
func (s *solver) fix(st state, free int, known bool) Fix {
	// The caller's lines may change later; those of the fix do not.
	lines, residuals := room(len(s.lines))
	copy(lines, s.lines)
	s.lines = lines
	f := Fix{
		Position: position(st.up), Lines: lines, Known: known, DegreesOfFreedom: free, ChiSquare: st.square,
		Residuals: residuals, solver: *s, state: st,
	}
	if known {
		f.Covariance = sailing.Covariance{North: st.inverse[0], East: st.inverse[2], Both: st.inverse[1]}
	}
	if s.options.CompassError {
		if a, err := angle.Radians(st.error); err == nil {
			f.CompassError = angle.EastWestFrom(a)
		}
		if known {
			if u, err := angle.Radians(math.Sqrt(max(0, st.inverse[5]))); err == nil {
				f.CompassError = f.CompassError.WithUncertainty(angle.Must(angle.StandardUncertainty(u.Abs())))
			}
		}
	}
	at := frameAt(st.up)
	for i := range s.lines {
		f.Residuals[i] = s.residual(&at, i, st)
	}
	return f
}

// residual is what is left of a line at a state.
func (s *solver) residual(f *frame, i int, st state) Residual {
	l := &s.lines[i]
	p := l.expect(f)
	asDrawn := p.left // of the line on the chart
	k := 0.0
	if l.shared && s.unknowns == 3 {
		p.left += st.error
		k = -1
	}
	if s.options.CompassError {
		asDrawn = p.left
	}
	w := l.weight(p)
	v := &st.inverse
	leverage := w * (p.north*p.north*v[0] + 2*p.north*p.east*v[1] + p.east*p.east*v[2] + 2*k*(p.north*v[3]+p.east*v[4]) + k*k*v[5])
	r := Residual{Left: p.left, Ratio: p.left * math.Sqrt(w), leverage: min(1, leverage)}
	if slope := math.Hypot(p.north, p.east); slope > 0 {
		r.Offset = sailing.Distance(asDrawn / slope)
		if toward, err := angle.Atan2(p.east, p.north); err == nil {
			r.Toward = angle.TrueFrom(toward)
		}
	}
	return r
}
