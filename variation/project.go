package variation

import (
	"cmp"
	"fmt"
	"math"
	"strconv"
	"strings"
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

// target is the year or the date of the projection, as printed.
func (p Projection) target() string {
	if p.Count == DecimalYears {
		return p.date.Format("2 January 2006")
	}
	return strconv.Itoa(p.year())
}

// InYear brings the rose to a year, forward or back, in whole years. It knows no place, so
// its uncertainty holds between 60° S and 60° N, and is too small beyond. For a year outside
// 1500 to 2500 it returns an [*angle.RangeError].
func (r Rose) InYear(year int) (Projection, error) {
	return r.project(year, float64(year-r.Year), WholeYears, time.Time{}, nowhere)
}

// On brings the rose to a date. With [WholeYears] every day of a year gives the same
// variation, that of [Rose.InYear]. With [DecimalYears] the years count from the beginning
// of the rose's year. For an unknown count it returns an [*angle.ParseError].
func (r Rose) On(date time.Time, count YearCount) (Projection, error) {
	return r.on(date, count, nowhere)
}

func (r Rose) on(date time.Time, count YearCount, where intensity) (Projection, error) {
	count, err := count.orDefault()
	if err != nil {
		return Projection{}, err
	}
	date = date.UTC().Round(0) // without a monotonic clock, so that == compares
	year, years := date.Year(), count.years(r.Year, date)
	if count != DecimalYears {
		date = time.Time{}
	}
	return r.project(year, years, count, date, where)
}

func (r Rose) project(year int, years float64, count YearCount, date time.Time, where intensity) (Projection, error) {
	if err := checkYear(r.Year, "rose"); err != nil {
		return Projection{}, err
	}
	if err := checkYear(year, "date"); err != nil {
		return Projection{}, err
	}
	perYear, stated := r.Change.PerYear()
	change, err := perYear.Scale(years)
	if err != nil { // unreachable: half a turn a year for a thousand years is less
		return Projection{}, err
	}
	p := Projection{Rose: r, Count: count, Years: years, Change: change, date: date, where: where}
	if p.Source = r.Variation.Uncertainty(); p.Source == (angle.Uncertainty{}) {
		p.Source = sigma(sourceSigma(where.nanotesla))
	}
	if stated || math.Floor(years) == 0 {
		p.Rounding = r.rounding(years, count)
		p.Drift = sigma(driftSigma(years, where.nanotesla))
	}
	p.Variation = East(r.Variation.Angle() + change).WithUncertainty(p.Rounding.Combined(p.Drift, p.Source))
	return p, nil
}

// sigma makes an uncertainty of a size that is not negative.
func sigma(size angle.Angle) angle.Uncertainty {
	return angle.Must(angle.StandardUncertainty(size))
}

// Warnings returns what weakens the projection.
func (p Projection) Warnings(l Limits) []working.Warning {
	var w []working.Warning
	if p.Years < 0 {
		w = append(w, warn(BeforeRose, "%s is before the rose's year, %d", p.target(), p.Rose.Year))
	}
	if u, stated := p.Variation.Uncertainty().Sigma(); stated && u > l.uncertainty() {
		young, _ := p.Rose.rounding(0, p.Count).Combined(p.Source).Sigma()
		says := fmt.Sprintf("the rose of %d gives %s %s in %s, beyond the limit of ±%v", p.Rose.Year, p.Variation, brief(p.Variation.Uncertainty()), p.target(), l.uncertainty())
		if young <= l.uncertainty() { // because of its age
			w = append(w, warn(OldRose, "%s: use a newer chart or a field model", says))
		} else {
			w = append(w, warn(UncertainRose, "%s: even a new rose would be, since the field is weak there or the printed figures are coarse", says))
		}
	}
	if _, stated := p.Rose.Change.PerYear(); !stated && math.Floor(p.Years) != 0 {
		w = append(w, warn(NoChangeStated, "the rose of %d does not state an annual change: its variation is used unchanged", p.Rose.Year))
	}
	return w
}

// yearsText prints a number of years: 12 years, 1 year, 12.5 years back.
func yearsText(years float64) string {
	text, unit := strconv.FormatFloat(math.Round(math.Abs(years)*100)/100, 'f', -1, 64), " years"
	if text == "1" {
		unit = " year"
	}
	if years < 0 {
		unit += " back"
	}
	return text + unit
}

// Working returns the steps that a navigator writes down.
func (p Projection) Working() working.Steps {
	r := p.Rose
	perYear, stated := r.Change.PerYear()
	how := "printed at the rose, annual change " + r.Change.String()
	if stated && perYear == 0 {
		how = "printed at the rose, no annual change"
	}
	steps := working.Steps{
		working.EastWest("rose variation", fmt.Sprintf("Variation in %d", r.Year), r.Variation.Angle(), how),
		{
			Key: "years", What: fmt.Sprintf("Years, %d to %s", r.Year, p.target()),
			Value: yearsText(p.Years), Number: p.Years, Unit: "years", How: "counted in " + strings.ReplaceAll(string(p.Count), "-", " "),
		},
	}
	if stated {
		how := fmt.Sprintf("%s × %s", yearsText(p.Years), r.Change)
		if perYear == 0 {
			how = "there is no annual change"
		}
		steps = append(steps, working.EastWest("change", "Change", p.Change, how))
	}
	if trust := p.trust(); trust != nil {
		steps = append(steps, trust...)
	}
	return append(steps, working.EastWest("variation", "Variation "+p.preposition()+" "+p.target(), p.Variation.Angle(), p.rule()))
}

// preposition goes before the target: in 2026, on 2 July 2026.
func (p Projection) preposition() string {
	if p.Count == DecimalYears {
		return "on"
	}
	return "in"
}

// rule says in words how the change was applied.
func (p Projection) rule() string {
	was, now := p.Rose.Variation, p.Variation
	change := sideOf(p.Change)
	switch {
	case p.Change == 0:
		return "unchanged"
	case was.Angle() == 0:
		return "from zero it takes the name of the change, " + change
	case sideOf(was.Angle()) == change && now.Name() != was.Name():
		return "change and variation both " + change + ": it increases beyond 180° and becomes " + sideOf(now.Angle())
	case sideOf(was.Angle()) == change:
		return "change and variation both " + change + ": it increases"
	case now.Angle() == 0:
		return "change " + change + ", variation " + sideOf(was.Angle()) + ": it decreases to zero"
	case now.Name() == was.Name():
		return "change " + change + ", variation " + sideOf(was.Angle()) + ": it decreases"
	}
	return "change " + change + ", variation " + sideOf(was.Angle()) + ": it decreases through zero and becomes " + sideOf(now.Angle())
}

func sideOf(east angle.Angle) string {
	if east < 0 {
		return "west"
	}
	return "east"
}

func nameOf(east angle.Angle) string { return angle.EastWestFrom(east).Name() }

// intensity follows from the latitude, unless the position is zero and so unknown.
func (r Rose) intensity(position angle.Position) intensity {
	if position == (angle.Position{}) {
		return nowhere
	}
	return intensityAt(position, nil, time.Time{})
}

// VariationAt makes a rose a [Source]: it brings the rose to the year of the date, in whole
// years. The position affects the uncertainty only. A zero position is unknown.
func (r Rose) VariationAt(position angle.Position, date time.Time) (Variation, error) {
	p, err := r.on(date, WholeYears, r.intensity(position))
	return p.Variation, err
}

// ExplainVariation makes a rose an [Explainer], with the default [Limits].
func (r Rose) ExplainVariation(position angle.Position, date time.Time) (Explanation, error) {
	p, err := r.on(date, WholeYears, r.intensity(position))
	if err != nil {
		return Explanation{}, err
	}
	return p.explanation(Limits{}), nil
}

// explanation returns the variation with its working and warnings.
func (p Projection) explanation(l Limits) Explanation {
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
		e.Warnings = append(e.Warnings, warn(OtherYear, "the variation was brought to %s and is used in %d: bring the rose to that year", p.target(), date.UTC().Year()))
	}
	return e, nil
}

// year is that of the target.
func (p Projection) year() int {
	if p.Count == DecimalYears {
		return p.date.Year()
	}
	return p.Rose.Year + int(p.Years)
}
