package variation

import (
	"cmp"
	"fmt"
	"math"
	"strconv"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// Limits say when an answer gets a warning. If a field is zero, its default applies. To
// warn of everything set a tiny limit, such as one [angle.Second].
type Limits struct {
	// Uncertainty is the maximum standard uncertainty of the variation. The default is
	// 0.5°, the precision of small-craft compass work (common practice).
	Uncertainty angle.Angle `json:"uncertainty,omitzero"`

	// Difference is the difference from which two roses get a warning. The default is
	// 0.5°.
	Difference angle.Angle `json:"difference,omitzero"`

	// Distance is the maximum distance of the nearest rose, as an arc of a great circle.
	// The default is 1°, about 60 nautical miles, a figure chosen here.
	Distance angle.Angle `json:"distance,omitzero"`
}

// uncertainty, difference and distance return the limits, or their defaults.
func (l Limits) uncertainty() angle.Angle { return cmp.Or(l.Uncertainty, angle.Degree/2) }
func (l Limits) difference() angle.Angle  { return cmp.Or(l.Difference, angle.Degree/2) }
func (l Limits) distance() angle.Angle    { return cmp.Or(l.Distance, angle.Degree) }

// A Projection is a rose brought to a year or a date. Make one with [Rose.InYear] or
// [Rose.On]. It is a [Source] that gives this variation everywhere and always, and warns if
// it is used in another year.
//
// The uncertainty of its Variation combines Rounding, Drift and Source, which are
// independent; see the package comment. A local anomaly is in none of them.
type Projection struct {
	Rose      Rose        // as printed
	Count     YearCount   // how the years were counted; not empty
	Years     float64     // from the rose to the date; negative backwards
	Change    angle.Angle // in those years, east positive
	Variation Variation   // at the date, with its uncertainty

	// Rounding comes from the printed figures and from the date, since a legend names no
	// day. If the rose does not state an annual change, Rounding and Drift are unknown,
	// except in the rose's own year.
	Rounding angle.Uncertainty

	// Drift comes from the annual change itself, which is not steady.
	Drift angle.Uncertainty

	// Source comes from the forecast that the chart prints. If the uncertainty of
	// Rose.Variation is stated, Source is that.
	Source angle.Uncertainty

	date  time.Time // if decimal years are counted
	where intensity // from which Drift and Source follow
}

// Equal reports whether two projections are the same, as == does.
func (p Projection) Equal(q Projection) bool { return p == q }

// target returns the year or the date of the projection, as printed.
func (p *Projection) target() string {
	if p.Count == DecimalYears {
		return p.date.Format("2 January 2006")
	}
	return strconv.Itoa(p.year())
}

// InYear brings the rose to a year, forward or back, in whole years. It knows no place, so
// its uncertainty holds between 60° S and 60° N, and is too small beyond. For a year outside
// 1500 to 2500 it returns an [*angle.RangeError].
func (r Rose) InYear(year int) (Projection, error) {
	p := Projection{Rose: r, Count: WholeYears, Years: float64(year - r.Year), where: nowhere}
	if err := p.bring(year); err != nil {
		return Projection{}, err
	}
	return p, nil
}

// On brings the rose to a date. With [WholeYears] every day of a year gives the same
// variation, that of [Rose.InYear]. With [DecimalYears] the years count from the beginning
// of the rose's year. For an unknown count it returns an [*angle.ParseError].
func (r Rose) On(date time.Time, count YearCount) (Projection, error) {
	return r.on(date, count, nowhere)
}

// on is [Rose.On] with the intensity of the field at the rose.
func (r *Rose) on(date time.Time, count YearCount, where intensity) (p Projection, err error) {
	if count, err = count.orDefault(); err != nil {
		return Projection{}, err
	}
	date = date.UTC().Round(0) // without a monotonic clock, so that == compares
	year := date.Year()
	p.Rose, p.Count, p.where = *r, count, where
	p.Years = float64(year - r.Year)
	if count == DecimalYears {
		p.Years, p.date = DecimalYear(date)-float64(r.Year), date
	}
	if err := p.bring(year); err != nil {
		return Projection{}, err
	}
	return p, nil
}

// bring fills in what follows from the rose and the years from it to a year.
func (p *Projection) bring(year int) error {
	r := &p.Rose
	if err := checkYear(r.Year, "rose"); err != nil {
		return err
	}
	if err := checkYear(year, "date"); err != nil {
		return err
	}
	perYear, stated := r.Change.PerYear()
	var err error
	if p.Change, err = perYear.Scale(p.Years); err != nil { // unreachable: half a turn a year for a thousand years is less
		return err
	}
	if p.Source = r.Variation.Uncertainty(); p.Source == (angle.Uncertainty{}) {
		p.Source = p.where.source
	}
	if stated || math.Floor(p.Years) == 0 {
		p.Rounding = r.rounding(p.Years, p.Count)
		p.Drift = sigma(driftSigma(p.Years, p.where.nanotesla))
	}
	p.Variation = East(r.Variation.Angle() + p.Change).WithUncertainty(p.Rounding.Combined(p.Drift, p.Source))
	return nil
}

// sigma returns a stated uncertainty. The size is not negative.
func sigma(size angle.Angle) angle.Uncertainty {
	return angle.Must(angle.StandardUncertainty(size))
}

// Warnings returns what weakens the projection.
func (p Projection) Warnings(l Limits) []working.Warning {
	var w []working.Warning
	if p.Years < 0 {
		w = append(w, working.Warn(BeforeRose, "before-rose", "%s is before the rose's year, %d: use a rose of that time, or a field model", p.target(), p.Rose.Year))
	}
	if u, stated := p.Variation.Uncertainty().Sigma(); stated && u > l.uncertainty() {
		figures := []any{p.Rose.Year, p.Variation, brief(p.Variation.Uncertainty()), p.target(), l.uncertainty()}
		young, _ := p.Rose.rounding(0, p.Count).Combined(p.Source).Sigma()
		switch {
		case young <= l.uncertainty() && p.Years < 0:
			w = append(w, working.Warn(OldRose, "late-rose", "the rose of %d gives %s %s for %s, beyond the limit of ±%v", figures...))
		case young <= l.uncertainty(): // because of its age
			w = append(w, working.Warn(OldRose, "old-rose", "the rose of %d gives %s %s for %s, beyond the limit of ±%v: use a newer chart or a field model", figures...))
		default:
			w = append(w, working.Warn(UncertainRose, "uncertain-rose", "the rose of %d gives %s %s for %s, beyond the limit of ±%v: the field is weak there, or the printed figures are coarse; a new rose is no better", figures...))
		}
	}
	if _, stated := p.Rose.Change.PerYear(); !stated && math.Floor(p.Years) != 0 {
		w = append(w, working.Warn(NoChangeStated, "no-change-stated", "the rose of %d does not state an annual change: its variation is used unchanged", p.Rose.Year))
	}
	return w
}

// yearsText prints a number of years: 12 years, 1 year, 12.5 years back.
func yearsText(years float64) string {
	text, unit := yearsFigure(years), " years"
	if text == "1" {
		unit = " year"
	}
	if years < 0 {
		unit += " back"
	}
	return text + unit
}

// mostSteps is the greatest number of steps of a projection.
const mostSteps = 7

// Working returns the steps that a navigator writes down.
func (p Projection) Working() working.Steps {
	steps := append(make(working.Steps, 0, mostSteps), p.printed(), p.counted())
	if _, stated := p.Rose.Change.PerYear(); stated {
		steps = append(steps, p.changed())
	}
	steps = p.appendTrust(steps)
	return append(steps, p.rule(working.EastWest("variation", "Variation "+p.preposition()+" "+p.target(), p.Variation.Angle())))
}

// printed returns the step of the variation that is printed at the rose.
func (p *Projection) printed() working.Step {
	r := p.Rose
	step := working.EastWest("rose variation", fmt.Sprintf("Variation in %d", r.Year), r.Variation.Angle())
	switch perYear, stated := r.Change.PerYear(); {
	case !stated:
		return step.Because("rose-change-unstated", "printed at the rose, annual change not stated")
	case perYear == 0:
		return step.Because("rose-no-change", "printed at the rose, no annual change")
	}
	return step.Because("rose-change", "printed at the rose, annual change %s", r.Change)
}

// counted returns the step of the years from the rose to the date.
func (p *Projection) counted() working.Step {
	step := working.Step{Key: "years", What: fmt.Sprintf("Years, %d to %s", p.Rose.Year, p.target()), Value: yearsText(p.Years), Number: p.Years, Unit: "years"}
	if p.Count == DecimalYears {
		return step.Because("decimal-years", "counted in decimal years")
	}
	return step.Because("whole-years", "counted in whole years")
}

// changed returns the step of the change in the years.
func (p *Projection) changed() working.Step {
	step := working.EastWest("change", "Change", p.Change)
	count := yearsFigure(p.Years)
	switch perYear, _ := p.Rose.Change.PerYear(); {
	case perYear == 0:
		return step.Because("no-annual-change", "there is no annual change")
	case count == "1" && p.Years < 0:
		return step.Because("change-one-year-back", "1 year back × %s", p.Rose.Change)
	case count == "1":
		return step.Because("change-one-year", "1 year × %s", p.Rose.Change)
	case p.Years < 0:
		return step.Because("change-years-back", "%s years back × %s", count, p.Rose.Change)
	}
	return step.Because("change-years", "%s years × %s", count, p.Rose.Change)
}

// yearsFigure prints a number of years without its sign, with at most two decimals.
func yearsFigure(years float64) string {
	return strconv.FormatFloat(math.Round(math.Abs(years)*100)/100, 'f', -1, 64)
}

// preposition goes before the target: in 2026, on 2 July 2026.
func (p *Projection) preposition() string {
	if p.Count == DecimalYears {
		return "on"
	}
	return "in"
}

// rule adds to a step how the change was applied.
func (p *Projection) rule(step working.Step) working.Step {
	was, now := p.Rose.Variation, p.Variation
	west := p.Change < 0
	same := was.Angle() < 0 == west
	zero, through := now.Angle() == 0, now.Name() != was.Name() // the variation becomes zero, or gets the other name
	switch {
	case p.Change == 0:
		return step.Because("variation-unchanged", "unchanged")
	case was.Angle() == 0 && west:
		return step.Because("variation-from-zero-west", "from zero it takes the name of the change, west")
	case was.Angle() == 0:
		return step.Because("variation-from-zero-east", "from zero it takes the name of the change, east")
	case same && through && west:
		return step.Because("variation-west-beyond-180", "change and variation both west: it increases beyond 180° and becomes east")
	case same && through:
		return step.Because("variation-east-beyond-180", "change and variation both east: it increases beyond 180° and becomes west")
	case same && west:
		return step.Because("variation-west-increases", "change and variation both west: it increases")
	case same:
		return step.Because("variation-east-increases", "change and variation both east: it increases")
	case zero && west:
		return step.Because("variation-east-to-zero", "change west, variation east: it decreases to zero")
	case zero:
		return step.Because("variation-west-to-zero", "change east, variation west: it decreases to zero")
	case through && west:
		return step.Because("variation-east-through-zero", "change west, variation east: it decreases through zero and becomes west")
	case through:
		return step.Because("variation-west-through-zero", "change east, variation west: it decreases through zero and becomes east")
	case west:
		return step.Because("variation-east-decreases", "change west, variation east: it decreases")
	}
	return step.Because("variation-west-decreases", "change east, variation west: it decreases")
}

// nameOf returns E, W or nothing, for an angle that is positive to the east.
func nameOf(east angle.Angle) string { return angle.EastWestFrom(east).Name() }

// intensity returns the intensity at the latitude of a position. A zero position is unknown.
func (r Rose) intensity(position angle.Position) intensity {
	if position == (angle.Position{}) {
		return nowhere
	}
	return intensityAt(position, nil, time.Time{})
}

// VariationAt makes a rose a [Source]: it brings the rose to the year of the date, in whole years.
// The position affects the uncertainty only. A zero position is unknown. For a year outside 1500 to
// 2500 it returns an [*angle.RangeError].
func (r Rose) VariationAt(position angle.Position, date time.Time) (Variation, error) {
	p, err := r.on(date, WholeYears, r.intensity(position))
	return p.Variation, err
}

// ExplainVariation makes a rose an [Explainer], with the default [Limits]. Its errors are those of
// VariationAt.
func (r Rose) ExplainVariation(position angle.Position, date time.Time) (Explanation, error) {
	p, err := r.on(date, WholeYears, r.intensity(position))
	if err != nil {
		return Explanation{}, err
	}
	return p.explanation(Limits{}), nil
}

// explanation returns the variation with its working and warnings.
func (p *Projection) explanation(l Limits) Explanation {
	return Explanation{Variation: p.Variation, Change: p.Change, Working: p.Working(), Warnings: p.Warnings(l)}
}

// VariationAt makes a projection a [Source]: its variation, everywhere and always. For the
// zero Projection it returns an [*angle.RangeError], since it has no rose.
func (p Projection) VariationAt(angle.Position, time.Time) (Variation, error) {
	return p.Variation, checkYear(p.Rose.Year, "rose")
}

// ExplainVariation makes a projection an [Explainer], with the default [Limits]. It warns
// of a date in another year. A zero date is left out.
func (p Projection) ExplainVariation(_ angle.Position, date time.Time) (Explanation, error) {
	if err := checkYear(p.Rose.Year, "rose"); err != nil {
		return Explanation{}, err
	}
	e := p.explanation(Limits{})
	if !date.IsZero() && date.UTC().Year() != p.year() {
		e.Warnings = append(e.Warnings, working.Warn(OtherYear, "other-year", "the variation was brought to %s and is used in %d: bring the rose to that year", p.target(), date.UTC().Year()))
	}
	return e, nil
}

// year returns the year of the target.
func (p *Projection) year() int {
	if p.Count == DecimalYears {
		return p.date.Year()
	}
	return p.Rose.Year + int(p.Years)
}
