package variation

import (
	"errors"
	"fmt"
	"math"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// A Verdict says what an audit found of a rose.
type Verdict string

// The verdicts on a rose, the gravest first.
const (
	// LikelyWrongName: the variation disagrees in the rose's own year, and would
	// agree with E for W, or W for E, which takes away half of the difference or
	// more: near nought another name makes little of one.
	LikelyWrongName Verdict = "likely wrong name"

	// LikelyMisplaced: it disagrees in the rose's own year, and another name
	// does not mend it. The rose belongs elsewhere, or a figure is misread, or
	// there is a local anomaly.
	LikelyMisplaced Verdict = "likely misplaced or misread"

	// Stale: brought to the date, the rose disagrees.
	Stale Verdict = "stale"

	// ChangeNoLongerHolds: the rose still agrees, but its annual change is not
	// that of the date.
	ChangeNoLongerHolds Verdict = "annual change no longer holds"

	// Agrees: value and annual change agree within what is known of them.
	Agrees Verdict = "agrees"

	// NotChecked: the source could not be asked for the date, or knows too little
	// there to judge by.
	NotChecked Verdict = "not checked"
)

// A Comparison is a rose and a source side by side in one year.
type Comparison struct {
	Date       time.Time   `json:"date"`       // for which both were asked
	Rose       Variation   `json:"rose"`       // by the rose, brought to the date
	Source     Variation   `json:"source"`     // by the source
	Difference angle.Angle `json:"difference"` // the rose less the source, in (−180°, 180°]
	Allowed    angle.Angle `json:"allowed"`    // how far they may differ: twice the combined uncertainty
	Err        error       `json:"-"`          // why the source has no answer, and then there is no comparison
}

// Agrees reports whether rose and source differ by no more than is allowed.
func (c Comparison) Agrees() bool { return c.Err == nil && c.Difference.Abs() <= c.Allowed }

// An Audit compares a rose with a source of variation, such as a field model, in
// the rose's own year and at a date.
type Audit struct {
	Rose     Rose           `json:"rose"`     // the rose compared
	Position angle.Position `json:"position"` // where it stands
	Verdict  Verdict        `json:"verdict"`  // what was found, the gravest

	// Then compares them in the middle of the rose's own year, since the legend
	// names no day of it; Now at the date, the rose brought there by whole years.
	Then Comparison `json:"then"`
	Now  Comparison `json:"now"`

	// The annual changes, east positive: the rose's, 0 if it states none, and
	// the source's in the year about the date. SourceChangeErr says why the
	// source has none.
	RoseChange      angle.Angle `json:"roseChange"`
	SourceChange    angle.Angle `json:"sourceChange"`
	SourceChangeErr error       `json:"-"`
	changeStated    bool
}

// Limits of an audit.
const (
	// assumedUncertainty is the standard uncertainty of a source that states
	// none: half a degree, to which small-craft compass work is done (common
	// practice).
	assumedUncertainty = angle.Degree / 2

	// allowedChange is how far the annual changes may differ: 3′ a year is half
	// a degree in ten years. A figure chosen here.
	allowedChange = 3 * angle.Minute

	// mostAllowed is how far apart rose and source may be for a comparison to
	// say anything: near the dip poles a model's own uncertainty lets all pass.
	// A figure chosen here.
	mostAllowed = 10 * angle.Degree
)

// A TooUncertainError reports a comparison that is worth nothing, since rose and
// source are known too badly to differ.
type TooUncertainError struct {
	Allowed angle.Angle // how far they might differ and still agree
}

// Error says how far they might differ.
func (e *TooUncertainError) Error() string {
	return fmt.Sprintf("variation: rose and source might differ by %v and still agree: too much to judge by", e.Allowed)
}

// Audit compares the rose, which stands at a position, with a source in the
// rose's own year and at a date. It returns an error only if the rose itself
// can't be brought to the date, a [*YearError], or if the source is nil, a
// [*MissingSourceError]; what the source can't answer is in the audit.
func (r Rose) Audit(source Source, position angle.Position, date time.Time) (Audit, error) {
	if source == nil {
		return Audit{}, &MissingSourceError{"variation"}
	}
	projection, err := r.On(date, WholeYears)
	if err != nil {
		return Audit{}, err
	}
	a := Audit{Rose: r, Position: position}
	printed := r.Variation.WithUncertainty(r.uncertainty(0, WholeYears))
	brought := projection.Variation
	if _, stated := brought.Uncertainty().Sigma(); !stated { // no change is stated: it is at least as uncertain as it was
		brought = brought.WithUncertainty(printed.Uncertainty())
	}
	middle := time.Date(r.Year, time.July, 2, 0, 0, 0, 0, time.UTC)
	a.Then = compare(source, position, middle, printed)
	a.Now = compare(source, position, date, brought)
	a.RoseChange, a.changeStated = r.Change.PerYear()
	a.SourceChange, a.SourceChangeErr = annualChange(source, position, date)
	a.Verdict = a.verdict()
	return a, nil
}

func compare(source Source, position angle.Position, date time.Time, rose Variation) Comparison {
	c := Comparison{Date: date, Rose: rose}
	if c.Source, c.Err = source.VariationAt(position, date); c.Err != nil {
		return c
	}
	c.Difference = (rose.Angle() - c.Source.Angle()).NormalizedSigned()
	ofRose, _ := rose.Uncertainty().Sigma()
	ofSource, stated := c.Source.Uncertainty().Sigma()
	if !stated {
		ofSource = assumedUncertainty
	}
	c.Allowed = angle.Angle(math.Round(2 * math.Hypot(float64(ofRose), float64(ofSource))))
	if c.Allowed > mostAllowed {
		c.Err = &TooUncertainError{Allowed: c.Allowed}
	}
	return c
}

// annualChange is how much the source changes in the year about a date, or in
// the year before or after it where the source reaches no further.
//
// Where a set of models goes from one to the next its variation jumps, by more
// than it changes in a year. Of the year about the date and those before and
// after that, one at most holds the jump, so that the middle figure of the
// three is free of it; of a change that is steady it is the year's own.
func annualChange(source Source, position angle.Position, date time.Time) (angle.Angle, error) {
	change := func(from, to int) (angle.Angle, error) {
		was, err := source.VariationAt(position, date.AddDate(0, from, 0))
		if err != nil {
			return 0, err
		}
		is, err := source.VariationAt(position, date.AddDate(0, to, 0))
		if err != nil {
			return 0, err
		}
		return (is.Angle() - was.Angle()).NormalizedSigned(), nil
	}
	about, err := change(-6, 6)
	if err != nil {
		if about, err = change(-12, 0); err != nil {
			about, err = change(0, 12)
		}
		return about, err
	}
	before, errBefore := change(-18, -6)
	after, errAfter := change(6, 18)
	if errBefore == nil && errAfter == nil {
		about = max(min(before, after), min(max(before, after), about))
	}
	return about, nil
}

func (a Audit) verdict() Verdict {
	if a.Then.Err == nil && !a.Then.Agrees() {
		renamed := (-a.Rose.Variation.Angle() - a.Then.Source.Angle()).NormalizedSigned()
		if renamed.Abs() <= a.Then.Allowed && 2*renamed.Abs() <= a.Then.Difference.Abs() {
			return LikelyWrongName
		}
		return LikelyMisplaced
	}
	switch {
	case a.Now.Err != nil:
		return NotChecked
	case !a.Now.Agrees():
		return Stale
	case a.changeStated && a.SourceChangeErr == nil && (a.RoseChange-a.SourceChange).Abs() > allowedChange:
		return ChangeNoLongerHolds
	}
	return Agrees
}

// Working returns the comparison step by step.
func (a Audit) Working() working.Sheet {
	s := working.Sheet{Title: "Rose " + a.Rose.Legend() + " at " + a.Position.String()}
	s.Steps = append(s.Steps, a.Then.steps("then", fmt.Sprintf("in %d", a.Rose.Year), "as printed")...)
	s.Steps = append(s.Steps, a.Now.steps("now", a.Now.Date.UTC().Format("on 2 January 2006"), "the rose brought to the year")...)
	if a.changeStated {
		s.Steps = append(s.Steps, working.EastWest("rose change", "Annual change, rose", a.RoseChange, "as printed"))
	}
	if a.SourceChangeErr == nil {
		s.Steps = append(s.Steps, working.EastWest("source change", "Annual change, source", a.SourceChange, "in the year about the date"))
	}
	s.Steps = append(s.Steps, working.Step{Key: "verdict", What: "Verdict", How: string(a.Verdict) + a.reason()})
	return s
}

// steps lays one comparison out.
func (c Comparison) steps(key, when, how string) working.Steps {
	rose := working.EastWest(key+" rose", "Rose "+when, c.Rose.Angle(), how)
	if c.Err != nil {
		return working.Steps{rose, {Key: key + " source", What: "Source " + when, How: "no answer: " + c.Err.Error()}}
	}
	judged := "within"
	if !c.Agrees() {
		judged = "more than"
	}
	uncertainty := c.Source.Uncertainty().String()
	if _, stated := c.Source.Uncertainty().Sigma(); !stated {
		uncertainty += fmt.Sprintf(", taken as ±%v", assumedUncertainty)
	}
	return working.Steps{
		rose,
		working.EastWest(key+" source", "Source "+when, c.Source.Angle(), "standard uncertainty "+uncertainty),
		working.EastWest(key+" difference", "Rose less source", c.Difference, fmt.Sprintf("%s the %v allowed: twice the uncertainty of both", judged, c.Allowed)),
	}
}

// reason says in words what led to the verdict.
func (a Audit) reason() string {
	switch a.Verdict {
	case LikelyWrongName:
		return ": in its own year it would agree with its name changed"
	case LikelyMisplaced:
		return ": it disagrees in its own year; check its place and its figures, and look for a local anomaly"
	case Stale:
		if a.Then.Err != nil {
			reason := ": it disagrees now, and could not be checked in its own year"
			renamed := (a.Now.Difference - 2*a.Rose.Variation.Angle()).NormalizedSigned().Abs()
			if renamed <= a.Now.Allowed && 2*renamed <= a.Now.Difference.Abs() {
				reason += "; with its name changed it would agree"
			}
			return reason
		}
		return ": it agreed in its own year, and does not now; use a newer chart"
	case ChangeNoLongerHolds:
		return fmt.Sprintf(": it agrees, but the annual changes differ by %v", (a.RoseChange - a.SourceChange).Abs())
	case NotChecked:
		if _, ok := errors.AsType[*TooUncertainError](a.Now.Err); ok {
			return ": too little is known there to judge by"
		}
		return ": the source has no answer for the date"
	}
	if a.Then.Err != nil {
		return ": it agrees now; it could not be checked in its own year"
	}
	return ": it agrees in its own year and now"
}
