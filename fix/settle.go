package fix

import (
	"math"
)

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
