package variation

import (
	"fmt"
	"math"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// A Comparison compares a rose with a source on one date.
type Comparison struct {
	Date       time.Time   `json:"date"`       // of both answers
	Rose       Variation   `json:"rose"`       // by the rose, brought to the date
	Source     Variation   `json:"source"`     // by the source
	Difference angle.Angle `json:"difference"` // rose minus source, in (−180°, 180°]
	Err        error       `json:"-"`          // why the source has no answer; if not nil, the comparison is empty

	// Allowed is the largest difference that the uncertainty explains. It is twice the
	// uncertainty of the source, combined with the rounding of the printed value and the
	// unknown day of the rose's year. It leaves out the drift of the rose, so that an
	// old rose is found.
	Allowed angle.Angle `json:"allowed"`
}

// agrees reports whether rose and source differ by at most Allowed.
func (c Comparison) agrees() bool { return c.Err == nil && c.Difference.Abs() <= c.Allowed }

// An Audit compares a rose with a source of variation, such as a field model, in the rose's
// own year and at a date.
type Audit struct {
	Verdict Verdict // the most serious finding

	// Then compares them in the middle of the rose's own year, since the legend names no
	// day. Now compares them at the date. The rose is brought to it in whole years.
	Then Comparison
	Now  Comparison

	// SourceChange is the annual change of the source around the date, east positive. It is
	// nil if the source has no answer.
	SourceChange *angle.Angle

	// FitsAt is the nearest place where the printed figure would agree in the rose's own
	// year, if the rose disagrees then. It is nil if there is no such place within 600 M.
	FitsAt *angle.Position

	// FitsIn is a year in which the rose would agree, if its year is likely wrong. It
	// differs from the printed year by one misread figure. It is 0 if there is none.
	FitsIn int

	rose     Rose
	position angle.Position // of the rose

	// firstChange is the annual change of the source around the rose's own year, east
	// positive. It is the mean of that year and of three years before, since a chart prints a
	// forecast. It is nil if the source has no answer.
	firstChange *angle.Angle

	// maxDrift is the maximum error of a sound rose at the date, since the annual change of
	// the field is not steady.
	maxDrift angle.Angle
}

// change returns the annual change of the rose, and whether it is stated.
func (a Audit) change() (angle.Angle, bool) { return a.rose.Change.PerYear() }

// assumedUncertainty is the standard uncertainty of a source that states none: half a
// degree, the precision of small-craft compass work (common practice).
const assumedUncertainty = angle.Degree / 2

// Audit compares the rose at a position with a source, in the rose's own year and at a
// date. If the rose cannot be brought to the date, it returns an [*angle.RangeError]. If the
// source is nil, it returns a [*MissingInputError]. Errors of the source are in the audit.
func (r Rose) Audit(source Source, position angle.Position, date time.Time) (Audit, error) {
	if isNil(source) {
		return Audit{}, &MissingInputError{"variation"}
	}
	projection, err := r.On(date, WholeYears)
	if err != nil {
		return Audit{}, err
	}
	a := Audit{rose: r, position: position}
	printed := r.rounding(0, WholeYears)
	a.Then = compare(source, position, middleOf(r.Year), r.Variation.WithUncertainty(printed))
	a.Now = compare(source, position, date, projection.Variation.WithUncertainty(printed))
	if c, err := annualChange(source, position, date); err == nil {
		a.SourceChange = &c
	}
	a.firstChange = firstChange(source, position, r.Year)
	a.judge(source)
	return a, nil
}

// judge sets the verdict and the fields that depend on it.
func (a *Audit) judge(source Source) {
	a.maxDrift = a.rose.aging(a.Now.Date, a.position, source)
	a.Verdict = a.verdict()
	switch a.Verdict {
	case LikelyMisplaced, LikelyWrongName:
		if a.Then.far() {
			a.FitsAt = fitsAt(a.rose.Variation.Angle(), source, a.position, a.Then.Date)
		}
	case LikelyWrongYear:
		a.FitsIn = a.fitsIn(source)
	}
}

// middleOf returns the middle of a year.
func middleOf(year int) time.Time { return time.Date(year, time.July, 2, 0, 0, 0, 0, time.UTC) }

// compare compares a rose, brought to a date, with a source.
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

// firstChange returns the annual change of a source around the year of a rose, as an [Audit]
// holds it.
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

// forecast is about the number of years that a chart forecasts. It is a figure chosen here,
// between the release of a field model and the end of its five years.
const forecast = 3

// annualChange returns the change of the source in the year around a date. If the source has no
// answer for it, annualChange takes the year before or after.
//
// From one model of a set to the next the variation jumps, by more than it changes in a year.
// At most one of the year around the date, the year before and the year after holds such a
// jump. So the middle figure of the three is free of it. If the change is steady, that is
// the figure of the year itself.
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

// Working returns the steps of the comparison.
func (a Audit) Working() working.Sheet {
	s := working.Sheet{Title: "Rose " + a.rose.String() + " at " + a.position.String()}
	then, now := fmt.Sprintf("in %d", a.rose.Year), a.Now.Date.UTC().Format("on 2 January 2006")
	s.Steps = append(s.Steps, working.EastWest("then rose", "Rose "+then, a.Then.Rose.Angle()).Because("as-printed", "as printed"))
	s.Steps = append(s.Steps, a.Then.steps("then", then)...)
	s.Steps = append(s.Steps, working.EastWest("now rose", "Rose "+now, a.Now.Rose.Angle()).Because("brought-to-year", "the rose brought up to that year"))
	s.Steps = append(s.Steps, a.Now.steps("now", now)...)
	if change, stated := a.change(); stated {
		s.Steps = append(s.Steps, working.EastWest("rose change", "Annual change, rose", change).Because("as-printed", "as printed"))
	}
	if a.firstChange != nil {
		s.Steps = append(s.Steps, working.EastWest("first change", "Annual change, source", *a.firstChange).Because("around-year", "around %d", a.rose.Year))
	}
	if a.SourceChange != nil {
		s.Steps = append(s.Steps, working.EastWest("source change", "Annual change, source", *a.SourceChange).Because("around-date", "in the year around the date"))
	}
	s.Steps = append(s.Steps, a.because(working.Step{Key: "verdict", What: "Verdict"}))
	return s
}

// steps returns the steps of one comparison after that of the rose.
func (c Comparison) steps(key, when string) working.Steps {
	if c.Err != nil {
		return working.Steps{working.Step{Key: key + " source", What: "Source " + when}.Because("source-no-answer", "no answer: %v", c.Err)}
	}
	source := working.EastWest(key+" source", "Source "+when, c.Source.Angle())
	if _, stated := c.Source.Uncertainty().Sigma(); stated {
		source = source.Because("source-uncertainty", "standard uncertainty %s", c.Source.Uncertainty())
	} else {
		source = source.Because("source-uncertainty-assumed", "standard uncertainty not stated, taken as ±%v", assumedUncertainty)
	}
	difference := working.EastWest(key+" difference", "Rose minus source", c.Difference)
	if c.agrees() {
		difference = difference.Because("within-allowed", "within the allowed ±%v, twice the uncertainty", c.Allowed)
	} else {
		difference = difference.Because("beyond-allowed", "beyond the allowed ±%v, twice the uncertainty", c.Allowed)
	}
	return working.Steps{source, difference}
}
