package fix

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/fix/internal/earth"
)

// A Suspicion is a line that may be wrong.
type Suspicion struct {
	Line int `json:"line"` // its index in Fix.Lines

	// Ratio is Value divided by its standard uncertainty.
	Ratio float64 `json:"ratio"`

	// Value is the observed value minus the one expected at the fix without the line, in the
	// units of [Residual].
	Value float64 `json:"value"`

	// Slip is the probable mistake. If no known mistake fits, it is empty. Only bearings have
	// one, and lines of another mark.
	Slip ReadingSlip `json:"slip,omitempty"`

	// Mark is the mark that may have been observed, if Slip is [NeighbourTaken].
	Mark *Mark `json:"mark,omitempty"`

	// Position and Probability are those of the fix by the other lines. If the other lines
	// have no degree of freedom, they are those of the fix with the line corrected for Slip.
	Position    angle.Position `json:"position"`
	Probability float64        `json:"probability"`

	corrected bool
}

// suspicionLevel is the probability of a fix below which its lines are suspected. If without a
// line it is above, the other lines are taken to be sound.
const suspicionLevel = 0.01

// Suspicions returns the lines each of which alone may explain why the lines disagree. If
// the lines agree, it returns nil. The order is:
//
//  1. bearings that agree with the others when they are reversed;
//  2. lines that agree with the others when they are taken to be of another mark, one of
//     [Options.Marks];
//  3. lines without which the others agree. They need two degrees of freedom.
//
// In each group the likeliest line is first. If no uncertainties are stated, the third group
// is empty, and a bearing is taken to be good to 3°. Of more than 24 lines, only the 24 with
// the largest residuals are examined, and of thousands of lines only 5.
func (f Fix) Suspicions() []Suspicion {
	s := f.solver
	if f.degreesOfFreedom < 1 || s.chance(f.chiSquare, f.degreesOfFreedom) >= suspicionLevel {
		return nil
	}
	var room [maxTried]state
	without := room[:min(maxTried, len(f.lines))]
	if len(f.lines) > maxTried {
		without = nil
	}
	out := s.corrections(f.degreesOfFreedom, f.state, without)
	if f.degreesOfFreedom < 2 || !f.known {
		return out
	}
	corrected := len(out)
	for _, i := range f.worst() {
		r := f.residuals[i]
		if named(out[:corrected], i) {
			continue
		}
		s.skip = i + 1
		var st state
		if i < len(without) {
			st = without[i]
		}
		if !st.ok {
			st = s.settle(f.state.up)
		}
		if !st.ok {
			continue
		}
		p := s.chance(st.square, f.degreesOfFreedom-1)
		if p < suspicionLevel {
			continue
		}
		left, spread := s.leftOut(i, st)
		out = append(out, Suspicion{
			Line: i, Ratio: r.Ratio / math.Sqrt(max(1e-9, 1-r.leverage)), Position: earth.Position(st.up), Probability: p,
			Value: left, Slip: slipOf(f.lines[i].kind, left, spread),
		})
	}
	slices.SortStableFunc(out[corrected:], likelier)
	return out
}

// likelier compares suspicions: the one without which the others agree best comes first.
func likelier(a, b Suspicion) int { return cmp.Compare(b.Probability, a.Probability) }

// worst returns the lines to leave out in turn: all, if they are few. Of many it returns those
// whose residuals are the largest multiples of their own standard uncertainties, and without
// which the others might agree.
func (f Fix) worst() []int {
	out := make([]int, len(f.residuals))
	ratios := make([]float64, len(out))
	for i, r := range f.residuals {
		out[i], ratios[i] = i, math.Abs(r.Ratio)/math.Sqrt(max(1e-9, 1-r.leverage))
	}
	if len(out) <= maxTried {
		return out
	}
	slices.SortStableFunc(out, func(a, b int) int { return cmp.Compare(ratios[b], ratios[a]) })
	out = out[:tried(len(out))]
	const hopeless = suspicionLevel / 1e4 // one of many lines hardly moves the fix, so that the rest of the sum can be foreseen
	return slices.DeleteFunc(out, func(i int) bool {
		return f.solver.chance(max(0, f.chiSquare-ratios[i]*ratios[i]), f.degreesOfFreedom-1) < hopeless
	})
}

// tried returns how many lines are examined in turn: fewer if there are many, so that the
// search stays short.
func tried(lines int) int { return min(maxTried, max(5, maxWork/max(1, lines))) }

// named reports whether a line is among some suspicions.
func named(suspicions []Suspicion, line int) bool {
	return slices.ContainsFunc(suspicions, func(s Suspicion) bool { return s.Line == line })
}

// explained adds the lines that may be wrong to the error of lines that give no position, as
// [Fix.Suspicions] does. A reversed bearing often gives no position, since its residual is
// least at the mark itself.
func (s *solver) explained(err error, from state, free int) error {
	e, ok := errors.AsType[*Error](err)
	if !ok || !e.search {
		return err
	}
	e.Suspicions = s.corrections(free, from, nil)
	corrected := len(e.Suspicions)
	if s.stated && free >= 2 && len(s.lines) <= maxTried {
		for i := range s.lines {
			if named(e.Suspicions[:corrected], i) {
				continue
			}
			rest := *s
			rest.skip = i + 1
			st, _, err := rest.begin()
			if err != nil {
				continue
			}
			p := s.chance(st.square, free-1)
			if p < suspicionLevel {
				continue
			}
			left, spread := rest.leftOut(i, st)
			e.Suspicions = append(e.Suspicions, Suspicion{
				Line: i, Ratio: left / spread, Position: earth.Position(st.up), Probability: p,
				Value: left, Slip: slipOf(s.lines[i].kind, left, spread),
			})
		}
		slices.SortStableFunc(e.Suspicions[corrected:], likelier)
	}
	names := namesOf(s.lines)
	for _, suspicion := range e.Suspicions {
		e.Reason += "; " + suspicion.warning(names).Message
	}
	return e
}

// A ReadingSlip is a mistake in reading or writing down a bearing. Package
// [lubberline.example/deviation/swing] uses the same words.
type ReadingSlip string

// The slips that [Fix.Suspicions] recognises.
const (
	// ReciprocalTaken: the bearing is 180° off.
	ReciprocalTaken ReadingSlip = "reciprocal-taken"

	// TensMisread: the bearing is wrong by 10°, 20°, 30°, 40° or 50°, since a wrong figure was
	// read or written down.
	TensMisread ReadingSlip = "tens-misread"

	// NeighbourTaken: another mark was observed, one of [Options.Marks].
	NeighbourTaken ReadingSlip = "neighbour-taken"
)

// leftOut returns the residual of a line at the fix without it, and the standard uncertainty
// of that residual.
func (s *solver) leftOut(i int, st state) (left, spread float64) {
	at := earth.FrameAt(st.up)
	var h shared
	if s.sharing {
		s.normal(&at, &h)
	}
	l := &s.lines[i]
	p := l.expect(&at)
	if s.sharing {
		p.left += h.turn(s, l, p)
	}
	if l.kind == KindBearing {
		p.left = shortWay(p.left)
	}
	return p.left, math.Sqrt(1/l.weight(p) + max(0, h.variance(s, st.inverse, l, p)))
}

// slipOf returns the slip that explains the residual of a bearing to within three standard
// uncertainties, or 1.5° if that is more. For tens of degrees the limit is at most 3°, since
// every bearing lies within 5° of a multiple of ten.
func slipOf(kind Kind, left, spread float64) ReadingSlip {
	const degrees = 180 / math.Pi
	if kind != KindBearing {
		return ""
	}
	off, near := math.Abs(left)*degrees, max(3*spread*degrees, 1.5)
	if off >= 180-min(near, 45) {
		return ReciprocalTaken
	}
	if tens := 10 * math.Round(off/10); tens >= 10 && tens <= 50 && math.Abs(off-tens) <= min(near, 3) {
		return TensMisread
	}
	return ""
}

// warning returns the warning of a line that may be wrong: what makes the lines agree, and the
// probable mistake.
func (s Suspicion) warning(names names) working.Warning {
	name := names.of(s.Line)
	switch {
	case s.Mark != nil:
		return working.Warn(LineSuspected, "line-suspected-mark", "look again at %s: if it is of %v, it agrees with the others, at %v", name, s.Mark, s.Position)
	case s.corrected:
		return working.Warn(LineSuspected, "line-suspected-reversed", "look again at %s: reversed, it agrees with the others, at %v (the bearing may be the reciprocal, 180° off)", name, s.Position)
	case s.Slip == ReciprocalTaken:
		return working.Warn(LineSuspected, "line-suspected-reciprocal", "look again at %s: without it the others agree, at %v (the bearing may be the reciprocal, 180° off)", name, s.Position)
	case s.Slip == TensMisread:
		tens := 10 * math.Round(math.Abs(s.Value)*18/math.Pi)
		return working.Warn(LineSuspected, "line-suspected-tens", "look again at %s: without it the others agree, at %v (the bearing may be misread by %.0f°)", name, s.Position, tens)
	}
	return working.Warn(LineSuspected, "line-suspected", "look again at %s: without it the others agree, at %v", name, s.Position)
}
