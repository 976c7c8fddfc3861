package variation

import (
	"fmt"
	"math"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// A Comparison is a rose and a source side by side in one year.
type Comparison struct {
	Date       time.Time   `json:"date"`       // for which both were asked
	Rose       Variation   `json:"rose"`       // by the rose, brought to the date
	Source     Variation   `json:"source"`     // by the source
	Difference angle.Angle `json:"difference"` // the rose less the source, in (−180°, 180°]
	Err        error       `json:"-"`          // why the source has no answer, and then there is no comparison

	// Allowed is how far they may differ: twice the uncertainty of the source, combined
	// with the rounding of the printed value and the day of the year, which a rose does
	// not name. How the rose may have drifted is not in it: an old rose must be seen to
	// be old.
	Allowed angle.Angle `json:"allowed"`
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

	// FirstChange is the source's annual change about the rose's own year: the mean of that
	// year's and that of three years before, since a chart prints a forecast of some years.
	// It is nil if the source has none.
	FirstChange *angle.Angle `json:"firstChange,omitempty"`

	// FitsAt is, for a rose that disagrees in its own year, the nearest place where its
	// figure would fit in that year as printed; nil if there is none within 600 M.
	FitsAt *angle.Position `json:"fitsAt,omitempty"`

	// FitsIn is, for a rose whose year is likely wrong, a year in which it would agree: of
	// those that a misread figure makes of the year printed. It is 0 if there is none.
	FitsIn int `json:"fitsIn,omitzero"`

	// MaxDrift is the most that a sound rose can be out at the date, since the field does
	// not change evenly.
	MaxDrift angle.Angle `json:"maxDrift"`

	changeStated bool
}

// assumedUncertainty is the standard uncertainty of a source that states none: half a
// degree, to which small-craft compass work is done (common practice).
const assumedUncertainty = angle.Degree / 2

// Audit compares the rose, which stands at a position, with a source in the
// rose's own year and at a date. It returns an error only if the rose itself
// can't be brought to the date, a [*YearError], or if the source is nil, a
// [*MissingInputError]; what the source can't answer is in the audit.
func (r Rose) Audit(source Source, position angle.Position, date time.Time) (Audit, error) {
	if isNil(source) {
		return Audit{}, &MissingInputError{"variation"}
	}
	projection, err := r.On(date, WholeYears)
	if err != nil {
		return Audit{}, err
	}
	a := Audit{Rose: r, Position: position}
	printed := r.rounding(0, WholeYears)
	a.Then = compare(source, position, middleOf(r.Year), r.Variation.WithUncertainty(printed))
	a.Now = compare(source, position, date, projection.Variation.WithUncertainty(printed))
	a.RoseChange, a.changeStated = r.Change.PerYear()
	a.SourceChange, a.SourceChangeErr = annualChange(source, position, date)
	a.FirstChange = firstChange(source, position, r.Year)
	a.judge(source)
	return a, nil
}

// judge finds the verdict and what goes with it.
func (a *Audit) judge(source Source) {
	a.MaxDrift = a.Rose.aging(a.Now.Date, a.Position, source)
	a.Verdict = a.verdict()
	switch a.Verdict {
	case LikelyMisplaced, LikelyWrongName:
		if a.Then.far() {
			a.FitsAt = fitsAt(a.Rose.Variation.Angle(), source, a.Position, a.Then.Date)
		}
	case LikelyWrongYear:
		a.FitsIn = a.fitsIn(source)
	}
}

// middleOf is the middle of a year: a legend names no day of it.
func middleOf(year int) time.Time { return time.Date(year, time.July, 2, 0, 0, 0, 0, time.UTC) }

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
	return c
}

// firstChange is the annual change of a source about the year of a rose; see
// [Audit.FirstChange].
func firstChange(source Source, position angle.Position, year int) *angle.Angle {
	c, err := annualChange(source, position, middleOf(year))
	if err != nil {
		return nil
	}
	if before, err := annualChange(source, position, middleOf(year-forecast)); err == nil {
		c = (c + before) / 2
	}
	return &c
}

// forecast is for how many years ahead a chart of its day forecasts, about. A figure chosen
// here, between the release of a field model and the end of its five years.
const forecast = 3

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

// Working returns the comparison step by step.
func (a Audit) Working() working.Sheet {
	s := working.Sheet{Title: "Rose " + a.Rose.Legend() + " at " + a.Position.String()}
	s.Steps = append(s.Steps, a.Then.steps("then", fmt.Sprintf("in %d", a.Rose.Year), "as printed")...)
	s.Steps = append(s.Steps, a.Now.steps("now", a.Now.Date.UTC().Format("on 2 January 2006"), "the rose brought to the year")...)
	if a.changeStated {
		s.Steps = append(s.Steps, working.EastWest("rose change", "Annual change, rose", a.RoseChange, "as printed"))
	}
	if a.FirstChange != nil {
		s.Steps = append(s.Steps, working.EastWest("first change", "Annual change, source", *a.FirstChange, fmt.Sprintf("about %d", a.Rose.Year)))
	}
	if a.SourceChangeErr == nil {
		s.Steps = append(s.Steps, working.EastWest("source change", "Annual change, source", a.SourceChange, "in the year about the date"))
	}
	s.Steps = append(s.Steps, working.Step{Key: "verdict", What: "Verdict", How: a.Verdict.words() + ": " + a.reason()})
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
		working.EastWest(key+" difference", "Rose less source", c.Difference, fmt.Sprintf("%s the %v allowed: twice the uncertainty", judged, c.Allowed)),
	}
}
