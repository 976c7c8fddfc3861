package fix

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"lubberline.example/angle"
)

// A Suspicion is a line that may be wrong.
type Suspicion struct {
	Line int `json:"line"` // its index in Fix.Lines

	// Ratio is the line's residual in the standard uncertainties that a residual of
	// it has, when it is left out of the fix.
	Ratio float64 `json:"ratio"`

	// Value is what was observed less what is expected at the fix without it, in the
	// units of [Residual].
	Value float64 `json:"value"`

	// Slip is what may have happened, in a word that programs can compare; empty if
	// nothing known fits, as of all lines but bearings.
	Slip ReadingSlip `json:"slip,omitempty"`

	// Position is that of the fix without it, and Probability that of the others.
	Position    angle.Position `json:"position"`
	Probability float64        `json:"probability"`
}

// suspicionLevel is the probability of the fix under which lines are suspected, and
// without the line over which the others are believed.
const suspicionLevel = 0.01

// Suspicions returns the lines, the likeliest first, that alone explain why the lines
// disagree: without it the others agree. There are none if the lines agree, or if
// fewer than two lines are to spare: then no one line can be told.
func (f Fix) Suspicions() []Suspicion {
	if f.degreesOfFreedom < 2 || !f.disagrees() {
		return nil
	}
	var out []Suspicion
	for i, r := range f.residuals {
		s := f.solver
		s.skip = i + 1
		st := s.settle(f.state.up)
		if !st.ok {
			continue
		}
		p := distuv.ChiSquared{K: float64(f.degreesOfFreedom - 1)}.Survival(st.square)
		if p < suspicionLevel {
			continue
		}
		left, spread := s.leftOut(i, st)
		out = append(out, Suspicion{
			Line: i, Ratio: r.Ratio / math.Sqrt(max(1e-9, 1-r.leverage)), Position: position(st.up), Probability: p,
			Value: left, Slip: slipOf(f.lines[i].kind, left, spread),
		})
	}
	sortBy(out, func(a, b Suspicion) bool { return a.Probability > b.Probability })
	return out
}

// mostExplained is how many lines may give no position for the wrong one to be sought:
// each is left out in turn.
const mostExplained = 24

// explained adds to the error of lines that give no position the lines that may be to
// blame. A reciprocal leads nowhere: what is left of it is least at the mark itself.
func (s *solver) explained(err error, free int, known bool) error {
	e, ok := errors.AsType[*SolveError](err)
	if !ok || e.Reason != noPosition || !known || free < 2 || len(s.lines) > mostExplained {
		return err
	}
	names := namesOf(s.lines)
	for i := range s.lines {
		rest := *s
		rest.skip = i + 1
		st, _, err := rest.begin()
		if err != nil {
			continue
		}
		p := distuv.ChiSquared{K: float64(free - 1)}.Survival(st.square)
		if p < suspicionLevel {
			continue
		}
		left, spread := rest.leftOut(i, st)
		e.Suspicions = append(e.Suspicions, Suspicion{
			Line: i, Ratio: left / spread, Position: position(st.up), Probability: p,
			Value: left, Slip: slipOf(s.lines[i].kind, left, spread),
		})
	}
	sortBy(e.Suspicions, func(a, b Suspicion) bool { return a.Probability > b.Probability })
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
)

// leftOut is what is left of a line at the fix without it, and the standard uncertainty
// of that.
func (s *solver) leftOut(i int, st state) (left, spread float64) {
	at := frameAt(st.up)
	var h shared
	if s.sharing {
		s.normal(&at, &h)
	}
	l := &s.lines[i]
	p := l.expect(&at)
	if s.sharing {
		p.left += h.errs(s, l)
	}
	if l.kind == KindBearing {
		p.left = math.Remainder(p.left, 2*math.Pi)
	}
	return p.left, math.Sqrt(1/l.weight(p) + max(0, h.variance(s, st.inverse, l, p.north, p.east)))
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

// without says what there is without the line, and what may have happened to it.
func (s Suspicion) without() string {
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
