package fix

import (
	"math"

	"lubberline.example/fix/internal/earth"
)

// state is where a solution stands.
type state struct {
	up     earth.Vector // the vertical of the place
	square float64      // the sum of squares
	ok     bool         // whether it has settled

	inverse [3]float64 // of the normal equations: NN, NE, EE
}

// normal is the normal equations at a place, the shared errors eliminated.
type normal struct {
	nn, ne, ee float64
	n, e       float64
	square     float64

	half  float64 // of nn and ee before, which says how large they are
	whole float64 // the squares before
	none  bool    // whether the shared errors can't be told
}

func (s *solver) normal(f *earth.Frame, h *shared) normal {
	var m normal
	if s.sharing {
		h.begin(s)
	}
	for i := range s.lines {
		if i+1 == s.skip {
			continue
		}
		l := &s.lines[i]
		p := l.expect(f)
		w := l.weight(p)
		m.nn += w * p.north * p.north
		m.ne += w * p.north * p.east
		m.ee += w * p.east * p.east
		m.n += w * p.north * p.left
		m.e += w * p.east * p.left
		m.square += w * p.left * p.left
		if s.sharing {
			h.add(s, l, p, w)
		}
	}
	if s.prior.used {
		q := &s.prior
		// Where the prior is from here, along the surface: far from it too it has to
		// weigh. It is taken in the prior's own axes, which do not turn as the place
		// moves, with the slopes of the move in them.
		d, n, e := q.frame.Surface(f.At)
		n, e = d*n, d*e
		nn, ne := f.North.Dot(q.frame.North), f.East.Dot(q.frame.North)
		en, ee := f.North.Dot(q.frame.East), f.East.Dot(q.frame.East)
		wn, we := q.north*n+q.both*e, q.both*n+q.east*e
		m.nn += q.north*nn*nn + 2*q.both*nn*en + q.east*en*en
		m.ne += q.north*nn*ne + q.both*(nn*ee+ne*en) + q.east*en*ee
		m.ee += q.north*ne*ne + 2*q.both*ne*ee + q.east*ee*ee
		m.n += nn*wn + en*we
		m.e += ne*wn + ee*we
		m.square += n*wn + e*we
	}
	m.half, m.whole = (m.nn+m.ee)/2, m.square
	if s.sharing {
		h.eliminate(s, &m)
	}
	return m
}

// step solves the normal equations, a little stiffened, and returns the move. It is
// not ok if they have no solution: where the lines run parallel to a millionth,
// whichever way they run.
func (m *normal) step(stiff float64) (n, e float64, inverse [3]float64, ok bool) {
	nn, ee := m.nn+stiff*m.half, m.ee+stiff*m.half
	det := nn*ee - m.ne*m.ne
	if m.none || !(det > 1e-12*m.half*m.half) {
		return 0, 0, inverse, false
	}
	inverse = [3]float64{ee / det, -m.ne / det, nn / det}
	return inverse[0]*m.n + inverse[1]*m.e, inverse[1]*m.n + inverse[2]*m.e, inverse, true
}

// settle goes from a place to where the squares are least, by Gauss–Newton steps that
// are stiffened (Levenberg) when they do not help.
func (s *solver) settle(up earth.Vector) state {
	st := state{up: up}
	f := earth.FrameAt(up)
	var h shared
	m := s.normal(&f, &h)
	stiff := 0.0
	steps := maxSteps
	if s.steps != 0 {
		steps = s.steps
	}
	for range steps {
		n, e, inverse, ok := m.step(stiff)
		if !ok {
			if stiff > 1 {
				return st
			}
			stiff = max(1e-6, stiff*10)
			continue
		}
		if move := math.Hypot(n, e); move > maxMove {
			n, e = n*maxMove/move, e*maxMove/move
		}
		nextUp := f.Moved(n, e)
		next := earth.FrameAt(nextUp)
		try := s.normal(&next, &h)
		if !(try.square <= m.square*(1+rounding)+lost*m.whole+1e-18) && stiff < 1e6 {
			// A short step, not stiffened, is taken all the same: of so little the squares
			// do not tell, since the slopes leave out how a weight changes with the place.
			plainN, plainE, plain, ok := m.step(0)
			if !ok || math.Hypot(plainN, plainE) > shortMove {
				stiff = max(1e-3, stiff*8)
				continue
			}
			if stiff > 0 {
				stiff, n, e, inverse = 0, plainN, plainE, plain
				nextUp = f.Moved(n, e)
				next = earth.FrameAt(nextUp)
				try = s.normal(&next, &h)
			}
		}
		// What the step brought, of what the slope there promised: 1 if nothing bends.
		gain := math.NaN() // not to be told
		if promised := m.n*n + m.e*e; math.Hypot(n, e) > shortMove && promised > rounding*m.square+lost*m.whole {
			gain = (m.square - try.square) / promised
		}
		st.up, st.square, st.inverse = nextUp, max(0, try.square), inverse
		f, m = next, try
		if math.Hypot(n, e) < settledMove {
			if stiff == 0 {
				// The inverse is that of the last place but one, micrometres away.
				st.ok = true
			}
			// Stiffness may have kept it from going on.
			if st.ok || m.settles(&st) {
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
	// Where the squares hardly curve, since lines and estimate disagree by tens of their
	// uncertainties, steps of less than a millimetre may go on for long.
	if stiff < 1e-6 {
		m.settles(&st)
	}
	return st
}

// settles reports whether the step from here is short, and if so settles the state.
func (m *normal) settles(st *state) bool {
	n, e, inverse, ok := m.step(0)
	if ok && math.Hypot(n, e) < settledLoose {
		st.inverse, st.ok = inverse, true
	}
	return st.ok
}
