package fix

import "lubberline.example/fix/internal/earth"

// SpreadLeftOut returns the standard uncertainty of the residual of a line that the others
// predict, with the slopes at the fix of all of them.
func SpreadLeftOut(f Fix, line int) (spread float64, ok bool) {
	s := f.solver
	s.skip = line + 1
	at := earth.FrameAt(f.state.up)
	var h shared
	m := s.normal(&at, &h)
	st := f.state
	_, _, st.inverse, ok = m.step(0)
	_, spread = s.leftOut(line, st)
	return spread, ok
}
