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
	// Near is the dead reckoning (DR) position. It only chooses between places where the
	// lines meet. If Near and Prior are nil, places near the marks are tried.
	Near *angle.Position `json:"near,omitempty"`

	// NearUncertainty is the standard uncertainty of Near, the same in all directions. It
	// decides when a fix has the warning [FarFromReckoned]. If zero, it is unknown, and a fix
	// has the warning from about 10 M on.
	NearUncertainty sailing.Distance `json:"nearUncertainty,omitzero"`

	// Speed is the vessel's speed over the ground while the lines were observed. It
	// decides when a fix has the warning [TimesDiffer]. If zero, it is unknown, and the fix
	// has the warning if lines are more than 5 minutes apart.
	Speed sailing.Speed `json:"speed,omitzero"`

	// Prior is an estimated position that takes part in the solution by its covariance, so
	// that even one line improves it. If nil, only the lines count.
	Prior *stream.Estimate `json:"prior,omitempty"`

	// Marks are the charted marks in sight. If the lines do not agree, each line is tried
	// with its mark's neighbours among them, since one mark may have been taken for
	// another. If nil, no other mark is tried.
	Marks []Mark `json:"marks,omitempty"`

	// UsualUncertainties takes usual standard uncertainties for what is not stated:
	//
	//   - 0.5° for a variation, 1° for a deviation, 2° for a bearing;
	//   - 0.1° for a transit or a horizontal angle;
	//   - 5 %, and at least 50 m, for a distance off;
	//   - 1 M for a latitude or a longitude.
	//
	// The fix then has the warning [UncertaintyAssumed]. There are no usual values for
	// [LineFromFunc] and for the run of a transfer.
	UsualUncertainties bool `json:"usualUncertainties,omitempty"`

	// CompassError solves for a constant error of the vessel's compass, in addition to the
	// variation and deviation of its bearings. It replaces the uncertainty of the variation,
	// and needs one more line. A second additional line tests it. Bearings by a hand-bearing
	// compass keep the uncertainty of the variation.
	//
	// If all bearings were taken on one heading, the error includes that of the deviation.
	// On several headings, more than 10° apart, each heading keeps an error of its own, as
	// large as the uncertainty of the deviation.
	//
	// If false, the uncertainty of each conversion counts, see [CompassBearing].
	CompassError bool `json:"compassError,omitempty"`
}

// maxLines is the maximum number of lines of a fix.
const maxLines = 10_000

// checkNumbers returns an error for options that are not finite or below zero.
func (o *Options) checkNumbers() error {
	if !(o.NearUncertainty >= 0) || math.IsInf(float64(o.NearUncertainty), 0) {
		return &angle.RangeError{What: "uncertainty of the reckoned position, in metres", Value: float64(o.NearUncertainty), Accepted: "0 or more, where 0 means unknown"}
	}
	if !(o.Speed >= 0) || math.IsInf(float64(o.Speed), 0) {
		return &angle.RangeError{What: "speed over the ground, in knots", Value: o.Speed.Knots(), Accepted: "0 or more, where 0 means unknown"}
	}
	return nil
}

// Solve returns the most probable position from position lines by weighted least squares. It
// divides each residual by its standard uncertainty, and minimises the sum of their squares.
//
// Two lines without a prior meet exactly. If they meet at two places, [Fix.Alternatives]
// returns the other one. Three or more lines may also fit two places. Near or a prior chooses
// between them.
//
// State the uncertainties of all lines or of none. If none is stated, lines are weighted by
// nominal uncertainties, and the accuracy is unknown: see [Fix.Covariance]. An uncertainty of
// zero is an error, since it would outweigh all others.
//
// It returns an [*Error] for an invalid line, for too few lines, and for lines that
// coincide, are parallel or do not meet. A position that a bearing points away from is an
// error too, and so is one more than 60 miles from every mark. If Near or the prior is farther
// off, that limit is one and a half times their distance. The error names a change that makes
// the lines agree: a bearing reversed, another of [Options.Marks], or one line left out. If a
// number in the options is out of range, Solve returns an [*angle.RangeError].
func Solve(lines []Line, options Options) (Fix, error) {
	if err := options.checkNumbers(); err != nil {
		return Fix{}, err
	}
	if len(lines) > maxLines {
		return Fix{}, &Error{Kind: InvalidInput, Reason: fmt.Sprintf("%d lines are too many: give at most %d", len(lines), maxLines)}
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
	free := len(lines) - unknowns // a shared error is an unknown, but its uncertainty counts as an observation
	if options.Prior != nil {
		if s.prior, err = newPrior(options.Prior); err != nil {
			return Fix{}, err
		}
		free += 2
	}
	if free < 0 {
		return Fix{}, &Error{Kind: TooFewLines, Reason: fmt.Sprintf("%s cannot determine %d unknowns: observe more lines, or give an estimated position as Options.Prior", counted(len(lines)), unknowns)}
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

// counted returns a number of lines in words.
func counted(lines int) string {
	if lines == 1 {
		return "one line"
	}
	return fmt.Sprintf("%d lines", lines)
}

// check returns an error for invalid lines, and reports whether all uncertainties are known.
func check(lines []Line, options Options) (known bool, err error) {
	stated, byCompass := 0, 0
	for i := range lines {
		l := &lines[i]
		if l.fault != "" {
			return false, invalidLine(l.name, l.fault)
		}
		if l.kind == "" || l.steps == nil {
			return false, invalidLine(fmt.Sprintf("line %d", i+1), "it is empty: make it with a function such as Bearing or Range")
		}
		if l.stated && !(l.sigma > 0) {
			return false, invalidLine(l.name, "its standard uncertainty is zero: state one above zero, such as 1° for a bearing, or state none for any line")
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
		return false, &Error{Kind: InvalidInput, Reason: "Options.CompassError needs a bearing by the vessel's compass, and no line is one: make it with CompassBearing"}
	}
	return stated == len(lines), nil
}

// A prior is an estimate that takes part in the solution: its place and the inverse of its
// covariance.
type prior struct {
	frame             earth.Frame
	north, east, both float64 // the inverse of the covariance
	used              bool
}

// newPrior returns the prior of an estimate.
func newPrior(e *stream.Estimate) (prior, error) {
	c := e.Covariance
	if !c.Stated() {
		return prior{}, &Error{Kind: UncertaintyMissing, Reason: "the estimated position has no stated uncertainty: give its covariance, such as sailing.Circular(500)"}
	}
	det := c.North*c.East - c.Both*c.Both
	if !(c.North > 0 && c.East > 0 && det > 1e-12*c.North*c.East) || math.IsInf(det, 0) {
		return prior{}, &Error{Kind: InvalidInput, Reason: "the covariance of the prior is zero in a direction: state an uncertainty in all directions, such as sailing.Circular(500)"}
	}
	return prior{earth.FrameAt(earth.Upright(e.Position)), c.East / det, c.North / det, -c.Both / det, true}, nil
}

// A solver solves one set of lines.
type solver struct {
	lines     []Line
	residuals []Residual // space for the results
	options   Options
	prior     prior
	skip      int    // the index of the line left out, plus one; 0 for none
	steps     int    // the maximum to settle; 0 for maxSteps
	known     *state // a minimum found before: settle stops when it comes near it
	loose     bool   // whether to stop as soon as further steps hardly matter

	stated  bool // whether the uncertainties of the lines are stated
	sharing bool // whether lines share errors
	groups  int  // number of errors of the deviation
	runs    int  // number of runs that lines share

	oneHeading bool // whether the compass error that is solved for includes the deviation's
}

const (
	maxSteps     = 100
	fewSteps     = 30      // if many beginnings are tried
	rounding     = 1e-9    // relative, of the sum of squares
	maxMove      = 500_000 // metres, of one step
	settledMove  = 1e-5    // metres, of the last step
	shortMove    = 0.1     // metres, far below the accuracy of any line
	looseGain    = 1e-2    // of the sum of squares, which the last step promised, relative or absolute
	settledLoose = 1e-3    // metres, if rounding hides whether a step helps
	lost         = 1e-14   // relative, the rounding of what shared errors explain
)

// A room holds what a fix keeps: copies of the lines and options, and space for residuals.
type room struct {
	lines     []Line
	residuals []Residual
	options   Options
}

// roomFor copies lines and options, with one allocation if the lines are few.
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

// fix returns the fix at a state.
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

// residual returns the residual of a line at a state.
func (s *solver) residual(f *earth.Frame, h *shared, i int, st state) Residual {
	l := &s.lines[i]
	p := l.expect(f)
	asDrawn := p.left // the residual of the line as drawn on the chart
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
