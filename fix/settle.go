package fix

import (
	"math"

	"lubberline.example/fix/internal/earth"
)

// A state is a place that the solver has reached, and how well the lines fit there.
type state struct {
	up     earth.Vector // the vertical of the place
	square float64      // the sum of the squared residuals, each in its standard uncertainty
	ok     bool         // whether it is a minimum

	inverse [3]float64 // of the normal matrix: NN, NE, EE
}

// isNear reports whether a place lies within one standard uncertainty of a minimum in any
// direction, so that further steps would lead there.
func (st *state) isNear(up earth.Vector) bool {
	d := up.Minus(st.up)
	a, b, c := st.inverse[0], st.inverse[1], st.inverse[2]
	least := (a+c)/2 - math.Hypot((a-c)/2, b) // the variance across the ellipse
	return d.Dot(d)*earth.EquatorialRadius*earth.EquatorialRadius < least
}

// normal holds the normal equations at a place, after the shared errors are eliminated.
type normal struct {
	nn, ne, ee float64
	n, e       float64
	square     float64

	half  float64 // half of nn + ee before the elimination: the scale of the matrix
	whole float64 // the sum of squares before the elimination
	none  bool    // whether the shared errors cannot be solved for
}

// normal returns the normal equations at a frame. It leaves the shared errors in h.
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
		// The offset from the prior is taken along the surface, so that the prior also
		// counts far away from it. It is in the axes of the prior, which stay the same as
		// the place moves; nn, ne, en and ee turn a move into these axes.
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

// step solves the normal equations, with the damping stiff, and returns the move in metres.
// If the lines are parallel to a millionth, there is no solution, and ok is false.
func (m *normal) step(stiff float64) (n, e float64, inverse [3]float64, ok bool) {
	nn, ee := m.nn+stiff*m.half, m.ee+stiff*m.half
	det := nn*ee - m.ne*m.ne
	if m.none || !(det > 1e-12*m.half*m.half) {
		return 0, 0, inverse, false
	}
	inverse = [3]float64{ee / det, -m.ne / det, nn / det}
	return inverse[0]*m.n + inverse[1]*m.e, inverse[1]*m.n + inverse[2]*m.e, inverse, true
}

// settle goes from a place to the nearest minimum of the sum of squares by Gauss–Newton
// steps. If a step does not reduce the sum, it is damped (Levenberg).
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
		if s.known != nil && s.known.isNear(nextUp) {
			return *s.known
		}
		next := earth.FrameAt(nextUp)
		try := s.normal(&next, &h)
		if !(try.square <= m.square*(1+rounding)+lost*m.whole+1e-18) && stiff < 1e6 {
			// Take a short undamped step anyway. The sum of squares does not show whether so
			// small a step helps, since the slopes ignore how the weights change with the place.
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
		// gain is the actual reduction divided by the predicted one: 1 if the lines are straight.
		gain := math.NaN() // unknown
		promised := m.n*n + m.e*e
		if math.Hypot(n, e) > shortMove && promised > rounding*m.square+lost*m.whole {
			gain = (m.square - try.square) / promised
		}
		st.up, st.square, st.inverse = nextUp, max(0, try.square), inverse
		f, m = next, try
		if s.loose && stiff == 0 && promised <= looseGain*max(1, st.square) {
			st.ok = true
			return st
		}
		if math.Hypot(n, e) < settledMove {
			if stiff == 0 {
				// The inverse is that of the previous place, micrometres away.
				st.ok = true
			}
			// The damping may have made the step short.
			if st.ok || m.settles(&st) {
				return st
			}
		}
		switch {
		case gain < 0.5: // the step is too long, and the next would come back
			stiff = max(1e-3, stiff*4)
		case gain > 0.9 && stiff > 1e-9:
			stiff /= 4
		case gain > 0.9:
			stiff = 0
		}
	}
	// If the lines and the prior disagree by tens of their uncertainties, the sum of squares hardly
	// curves. Steps of less than a millimetre may then continue for long.
	if stiff < 1e-6 {
		m.settles(&st)
	}
	return st
}

// settles reports whether the next step is short. If so, it marks the state as a minimum.
func (m *normal) settles(st *state) bool {
	n, e, inverse, ok := m.step(0)
	if ok && math.Hypot(n, e) < settledLoose {
		st.inverse, st.ok = inverse, true
	}
	return st.ok
}
