package fix

import (
	"fmt"
	"math"
	"slices"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/fix/internal/earth"
)

// Options say how a fix is solved. The zero value asks for nothing but the lines.
type Options struct {
	// Near is the reckoned position. It only chooses between places where the lines meet.
	// If Near and Prior are nil, the places near the marks are tried.
	Near *angle.Position `json:"near,omitempty"`

	// NearUncertainty is the standard uncertainty of Near, alike in all directions. It
	// decides when a fix is warned of as [FarFromReckoned]. If zero, it is unknown, and
	// fixes are warned of from about 10 M on.
	NearUncertainty sailing.Distance `json:"nearUncertainty,omitzero"`

	// Speed is the vessel's speed over the ground while the lines were observed. It
	// decides when lines are warned of as [TimesDiffer]. If zero, it is unknown, and
	// lines more than 5 minutes apart are warned of.
	Speed sailing.Speed `json:"speed,omitzero"`

	// Prior is an estimated position that takes part in the solution by its covariance, so
	// that even one line improves it. If nil, only the lines count.
	Prior *stream.Estimate `json:"prior,omitempty"`

	// Marks are the charted marks in sight. If the lines do not agree, each line is tried
	// with its mark's neighbours among them, since one mark may have been taken for
	// another. If nil, no other mark is tried.
	Marks []Mark `json:"marks,omitempty"`

	// UsualUncertainties takes usual standard uncertainties for what is not stated: 0.5° for
	// a variation, 1° for a deviation, 2° for a bearing, 0.1° for a transit or a horizontal
	// angle, 5 % and at least 50 m for a distance off, 1 M for a latitude or a longitude. The
	// fix is then warned of as [UncertaintyAssumed]. There are none for [LineFromFunc] and
	// for the run of a transfer.
	UsualUncertainties bool `json:"usualUncertainties,omitempty"`

	// CompassError solves for a constant error of the vessel's compass, over what the
	// conversion of its bearings allowed for. It takes the place of the uncertainty of the
	// variation, and needs one line more. With one more again it is tested too. Bearings by
	// a hand-bearing compass keep the variation's.
	//
	// On one heading the error of the deviation cannot be separated from a constant one, and
	// the constant error takes its place too. On several headings, more than 10° apart,
	// each keeps an error of its own, as large as the deviation's uncertainty.
	//
	// If false, the uncertainty of each conversion counts, see [CompassBearing].
	CompassError bool `json:"compassError,omitempty"`
}

// maxLines is how many lines a fix may have.
const maxLines = 10_000

// checkNumbers refuses options that are no numbers or below zero.
func (o *Options) checkNumbers() error {
	if !(o.NearUncertainty >= 0) || math.IsInf(float64(o.NearUncertainty), 0) {
		return &angle.RangeError{What: "uncertainty of the reckoned position, in metres", Value: float64(o.NearUncertainty), Accepted: "0 or more; 0 is unknown"}
	}
	if !(o.Speed >= 0) || math.IsInf(float64(o.Speed), 0) {
		return &angle.RangeError{What: "speed over the ground, in knots", Value: o.Speed.Knots(), Accepted: "0 or more; 0 is unknown"}
	}
	return nil
}

// Solve returns the most probable position from some lines by weighted least squares: where
// the squared residuals, each divided by its standard uncertainty first, have the least sum.
//
// Two lines without a prior meet exactly. If they meet in two places, [Fix.Alternatives]
// returns the other one. More lines may fit two places about as well, too. Near or a prior
// chooses between such places.
//
// State the uncertainties of all lines or of none. If none is stated, lines are weighed by
// usual uncertainties, and the accuracy is unknown, see [Fix.Covariance]. A stated
// uncertainty of zero is refused, since it would outweigh all others.
//
// It returns an [*Error] for an invalid line, for too few lines, and for lines that
// coincide, run parallel or meet nowhere. It refuses a position that a bearing points away
// from, or that is more than 60 miles from every mark. If Near or the prior is farther off
// than that, the limit is one and a half times their distance. The error names what would make
// the lines agree: a bearing reversed, another of [Options.Marks], or one line left out. If a
// number in the options is out of range, Solve returns an [*angle.RangeError].
func Solve(lines []Line, options Options) (Fix, error) {
	if err := options.checkNumbers(); err != nil {
		return Fix{}, err
	}
	if len(lines) > maxLines {
		return Fix{}, &Error{Kind: InvalidInput, Reason: fmt.Sprintf("%d lines: want at most %d", len(lines), maxLines)}
	}
	// The caller's lines and options may change later; those of the fix do not.
	own := roomFor(lines, options)
	if options.UsualUncertainties {
		for i := range own.lines {
			own.lines[i].assume()
		}
	}
	known, err := check(own.lines, options)
	if err != nil {
		return Fix{}, err
	}
	s := solver{lines: own.lines, residuals: own.residuals, options: own.options}
	s.group(known)
	unknowns := 2
	if options.CompassError {
		unknowns = 3
	}
	free := len(lines) - unknowns // of the shared errors each is known to something, which is as good as a line
	if options.Prior != nil {
		if s.prior, err = newPrior(options.Prior); err != nil {
			return Fix{}, err
		}
		free += 2
	}
	if free < 0 {
		return Fix{}, &Error{Kind: TooFewLines, Reason: fmt.Sprintf("%s for %d unknowns: want more lines, or an estimated position as a prior", counted(len(lines)), unknowns)}
	}
	if len(lines) == 2 && options.Prior == nil {
		return s.meet(known)
	}
	state, others, err := s.begin()
	if err != nil {
		return Fix{}, s.explained(err, state, free)
	}
	f := s.fix(state, free, known)
	f.alternatives = others
	return f, nil
}

// counted is a number of lines in words.
func counted(lines int) string {
	if lines == 1 {
		return "one line"
	}
	return fmt.Sprintf("%d lines", lines)
}

// check refuses lines that can't be solved with, and says whether all
// uncertainties are known.
func check(lines []Line, options Options) (known bool, err error) {
	stated, byCompass := 0, 0
	for i := range lines {
		l := &lines[i]
		if l.fault != "" {
			return false, invalidLine(l.name, l.fault)
		}
		if l.kind == "" || l.steps == nil {
			return false, invalidLine(fmt.Sprintf("line %d", i+1), "it is empty: make it with Bearing, Range and the like")
		}
		if l.stated && !(l.sigma > 0) {
			return false, invalidLine(l.name, "its standard uncertainty is zero: state one above zero, or none of any line")
		}
		if l.stated {
			stated++
		}
		if l.byCompass {
			byCompass++
		}
	}
	if stated != 0 && stated != len(lines) {
		return false, mixed(lines)
	}
	if options.CompassError && byCompass == 0 {
		return false, &Error{Kind: InvalidInput, Reason: "the compass error is asked for, and no line is a bearing by the vessel's compass"}
	}
	return stated == len(lines), nil
}

// prior is an estimate ready to take part: its place and the inverse of its
// covariance.
type prior struct {
	frame             earth.Frame
	north, east, both float64 // of the inverse
	used              bool
}

func newPrior(e *stream.Estimate) (prior, error) {
	c := e.Covariance
	det := c.North*c.East - c.Both*c.Both
	if !(c.North > 0 && c.East > 0 && det > 1e-12*c.North*c.East) || math.IsInf(det, 0) {
		return prior{}, &Error{Kind: InvalidInput, Reason: "the prior's covariance has no area: want an estimated position known to some metres each way"}
	}
	return prior{earth.FrameAt(earth.Upright(e.Position)), c.East / det, c.North / det, -c.Both / det, true}, nil
}

// solver solves one set of lines.
type solver struct {
	lines     []Line
	residuals []Residual // room for them
	options   Options
	prior     prior
	skip      int // one over the line left out; 0 for none
	steps     int // at most, to settle; 0 for mostSteps

	stated  bool // whether the lines' uncertainties are
	sharing bool // whether lines share errors
	groups  int  // how many errors of the deviation
	runs    int  // how many runs lines share

	oneHeading bool // whether the free compass error takes the deviation's too
}

const (
	maxSteps     = 100
	fewSteps     = 30      // where many beginnings are tried
	rounding     = 1e-9    // of the squares, and what the slopes leave out
	maxMove      = 500_000 // metres in a step
	settledMove  = 1e-5    // metres
	shortMove    = 0.1     // metres, of the hundreds or more that lines are good to
	settledLoose = 1e-3    // metres, where a step did not help for the rounding of the squares
	lost         = 1e-14   // of the squares that shared errors explain, for their rounding
)

// room is what a fix keeps: copies of the lines and options, and space for residuals.
type room struct {
	lines     []Line
	residuals []Residual
	options   Options
}

// roomFor copies lines and options, in one piece if the lines are few.
func roomFor(lines []Line, options Options) room {
	type given struct {
		near  angle.Position
		prior stream.Estimate
	}
	const few = 6
	n := len(lines)
	r := room{options: options}
	var own *given
	if n > few {
		r.lines, r.residuals, own = make([]Line, n), make([]Residual, n), new(given)
	} else {
		all := new(struct {
			lines     [few]Line
			residuals [few]Residual
			given     given
		})
		r.lines, r.residuals, own = all.lines[:n:n], all.residuals[:n:n], &all.given
	}
	copy(r.lines, lines)
	if options.Near != nil {
		own.near = *options.Near
		r.options.Near = &own.near
	}
	if options.Prior != nil {
		own.prior = *options.Prior
		r.options.Prior = &own.prior
	}
	r.options.Marks = slices.Clone(options.Marks)
	return r
}

// fix is the answer at a state.
func (s *solver) fix(st state, free int, known bool) Fix {
	f := Fix{
		position: earth.Position(st.up), lines: s.lines, degreesOfFreedom: free, chiSquare: st.square,
		residuals: s.residuals, known: known, solver: *s, state: st,
	}
	if known {
		f.covariance = sailing.Covariance{North: st.inverse[0], East: st.inverse[2], Both: st.inverse[1]}
	}
	at := earth.FrameAt(st.up)
	var h shared
	if s.sharing {
		s.normal(&at, &h)
	}
	if s.options.CompassError {
		turn, variance := h.compassError(s, st.inverse)
		if a, err := angle.Radians(turn); err == nil {
			f.compassError = angle.EastWestFrom(a)
		}
		if known {
			if u, err := angle.Radians(math.Sqrt(max(0, variance))); err == nil {
				f.compassError = f.compassError.WithUncertainty(angle.Must(angle.StandardUncertainty(u.Abs())))
			}
		}
	}
	for i := range s.lines {
		f.residuals[i] = s.residual(&at, &h, i, st)
	}
	return f
}

// residual is what is left of a line at a state.
func (s *solver) residual(f *earth.Frame, h *shared, i int, st state) Residual {
	l := &s.lines[i]
	p := l.expect(f)
	asDrawn := p.left // of the line on the chart
	if s.sharing {
		p.left += h.turn(s, l, p)
	}
	if s.options.CompassError && l.byCompass {
		asDrawn = p.left
	}
	w := l.weight(p)
	leverage := w * h.variance(s, st.inverse, l, p)
	r := Residual{Value: p.left, Ratio: p.left * math.Sqrt(w), leverage: min(1, leverage)}
	r.Offset, r.Toward = p.passes(asDrawn)
	return r
}
