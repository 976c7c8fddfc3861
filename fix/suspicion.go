package fix

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"lubberline.example/angle"
	"lubberline.example/fix/internal/earth"
)

// A Suspicion is a line that may be wrong.
type Suspicion struct {
	Line int `json:"line"` // its index in Fix.Lines

	// Ratio is the line's residual in the standard uncertainties that a residual of
	// it has, if it is left out of the fix.
	Ratio float64 `json:"ratio"`

	// Value is what was observed less what is expected at the fix without it, in the
	// units of [Residual].
	Value float64 `json:"value"`

	// Slip is what may have happened, in a word that programs can compare; empty if
	// nothing known fits, as of all lines but bearings.
	Slip ReadingSlip `json:"slip,omitempty"`

	// Mark is the mark that the line may really be of, if Slip is [NeighbourTaken].
	Mark *Mark `json:"mark,omitempty"`

	// Position and Probability are those of the fix by the other lines. If those have no
	// degree of freedom, they are those of the fix with the line corrected as Slip says.
	Position    angle.Position `json:"position"`
	Probability float64        `json:"probability"`

	corrected bool
}

// suspicionLevel is the probability of the fix under which lines are suspected, and
// without the line over which the others are believed.
const suspicionLevel = 0.01

// Suspicions returns the lines, the likeliest first, that alone explain why the lines
// disagree. First come bearings that agree with the others once they are reversed, then
// lines that do as of another of [Options.Marks], then lines without which the others
// agree. The last need two degrees of freedom; with one, no such line can be named. If the
// lines agree, the result is nil. Where no uncertainties are stated, only bearings
// reversed and other marks are looked for, and a bearing is taken to be good to 3°.
//
// Of more than 24 lines, the 24 that fit worst are examined, and of thousands the worst 5.
func (f Fix) Suspicions() []Suspicion {
	s := f.solver
	if f.degreesOfFreedom < 1 || s.chance(f.chiSquare, f.degreesOfFreedom) >= suspicionLevel {
		return nil
	}
	out := s.corrections(f.degreesOfFreedom, f.state)
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
		st := s.settle(f.state.up)
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
	sortBy(out[corrected:], func(a, b Suspicion) bool { return a.Probability > b.Probability })
	return out
}

// worst returns all lines if they are few. Of many it returns those with the largest
// residuals, each in the standard uncertainty that its residual has, if without the line
// the others might agree.
func (f Fix) worst() []int {
	out := make([]int, len(f.residuals))
	ratios := make([]float64, len(out))
	for i, r := range f.residuals {
		out[i], ratios[i] = i, math.Abs(r.Ratio)/math.Sqrt(max(1e-9, 1-r.leverage))
	}
	if len(out) <= maxTried {
		return out
	}
	sortBy(out, func(a, b int) bool { return ratios[a] > ratios[b] })
	out = out[:tried(len(out))]
	const hopeless = suspicionLevel / 1e4 // of many lines one hardly moves the fix, and what is left is foreseen
	return slices.DeleteFunc(out, func(i int) bool {
		return f.solver.chance(max(0, f.chiSquare-ratios[i]*ratios[i]), f.degreesOfFreedom-1) < hopeless
	})
}

// tried returns how many of some lines are examined in turn: fewer of many, so that it
// takes no longer.
func tried(lines int) int { return min(maxTried, max(5, maxWork/max(1, lines))) }

// named reports whether a line is among some suspicions.
func named(suspicions []Suspicion, line int) bool {
	return slices.ContainsFunc(suspicions, func(s Suspicion) bool { return s.Line == line })
}

// explained adds to the error of lines that give no position the lines that may be to
// blame, as [Fix.Suspicions] does. A reversed bearing leads to no position: what is left
// of it is least at the mark itself.
func (s *solver) explained(err error, from state, free int) error {
	e, ok := errors.AsType[*Error](err)
	if !ok || !e.search {
		return err
	}
	e.Suspicions = s.corrections(free, from)
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
		sortBy(e.Suspicions[corrected:], func(a, b Suspicion) bool { return a.Probability > b.Probability })
	}
	names := namesOf(s.lines)
	for _, suspicion := range e.Suspicions {
		e.Reason += "; look again at " + names.of(suspicion.Line) + suspicion.without()
	}
	return e
}

// A ReadingSlip is a mistake in reading or writing down a bearing, in a word that programs
// can compare: the same as that of package [lubberline.example/deviation].
type ReadingSlip string

// The slips that are recognised.
const (
	// ReciprocalTaken: the bearing is 180° off.
	ReciprocalTaken ReadingSlip = "reciprocal-taken"

	// TensMisread: the bearing is 10° off, or 20°, up to 50°: the wrong figure of the
	// card was read, or the wrong one written down.
	TensMisread ReadingSlip = "tens-misread"

	// NeighbourTaken: the line is of another mark than the one it is said to be of. It
	// is looked for among [Options.Marks].
	NeighbourTaken ReadingSlip = "neighbour-taken"
)

// leftOut is what is left of a line at the fix without it, and the standard uncertainty
// of that.
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
		p.left = math.Remainder(p.left, 2*math.Pi)
	}
	return p.left, math.Sqrt(1/l.weight(p) + max(0, h.variance(s, st.inverse, l, p)))
}

// slipOf is the slip that brings a bearing to within three standard uncertainties, but at
// least a degree and a half, of what is expected; of tens within 3°, as every bearing lies
// within 5° of some ten.
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

// without says what makes the lines agree, and what may have happened to the line.
func (s Suspicion) without() string {
	switch {
	case s.Mark != nil:
		return fmt.Sprintf(": as of %v it agrees with the others, at %v", s.Mark, s.Position)
	case s.corrected:
		return fmt.Sprintf(": reversed, it agrees with the others, at %v%s", s.Position, s.slip())
	}
	return fmt.Sprintf(": without it the others agree, at %v%s", s.Position, s.slip())
}

// slip says what may have happened to the line, or nothing.
func (s Suspicion) slip() string {
	switch s.Slip {
	case ReciprocalTaken:
		return " (the bearing may be the reciprocal, 180° off)"
	case TensMisread:
		return fmt.Sprintf(" (the bearing may be misread by %.0f°)", 10*math.Round(math.Abs(s.Value)*18/math.Pi))
	}
	return ""
}
