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

// Limits are the points from which an answer is called weak. If a field is zero, its
// default applies. To warn of everything set a tiny limit, such as one [angle.Second].
type Limits struct {
	// Uncertainty is the standard uncertainty of the variation above which a rose is
	// weak. The default is 0.5°, the fineness of small-craft compass work (common
	// practice).
	Uncertainty angle.Angle `json:"uncertainty,omitzero"`

	// Difference is by how much two roses may differ. The default is 0.5°.
	Difference angle.Angle `json:"difference,omitzero"`

	// Distance is how far the nearest rose may be, as an arc of a great circle. The
	// default is 1°, about 60 nautical miles, a figure chosen here.
	Distance angle.Angle `json:"distance,omitzero"`
}

func (l Limits) uncertainty() angle.Angle { return cmp.Or(l.Uncertainty, angle.Degree/2) }
func (l Limits) difference() angle.Angle  { return cmp.Or(l.Difference, angle.Degree/2) }
func (l Limits) distance() angle.Angle    { return cmp.Or(l.Distance, angle.Degree) }

// A Projection is a rose brought to a date. The zero value is that of no rose.
//
// The uncertainty of its Variation is Rounding, Drift and Source combined, as of
// independent parts. The package comment tells what each holds. A local anomaly is in none
// of them.
type Projection struct {
	Rose      Rose        // as printed
	Count     YearCount   // how the years were counted
	Years     float64     // from the rose to the date; negative backwards
	Change    angle.Angle // in those years, east positive
	Variation Variation   // at the date, with its uncertainty

	// Rounding is from the print: of the variation, of the annual change, and of the
	// date, since a legend names no day. It is not stated if the annual change is not,
	// except in the rose's own year. Nor is Drift.
	Rounding angle.Uncertainty

	// Drift is from the annual change itself, which is not steady.
	Drift angle.Uncertainty

	// Source is from the forecast that the chart printed. If the uncertainty of
	// Rose.Variation is stated, it is that.
	Source angle.Uncertainty

	date  time.Time // where decimal years were counted
	where intensity // by which Drift and Source were found
}

// Equal reports whether two projections are the same; it is the same as ==.
func (p Projection) Equal(q Projection) bool { return p == q }

// target is the year or the date of the projection, for print.
func (p Projection) target() string {
	if p.Count == DecimalYears {
		return p.date.Format("2 January 2006")
	}
	return strconv.Itoa(p.Rose.Year + int(p.Years))
}

// A YearError reports a year for which a rose can't be had, or can't be
// projected to.
type YearError struct {
	Year int    // accepted are 1500 to 2500
	What string // whose year it is: "rose" or "date"
}

// Error says which years are accepted.
func (e *YearError) Error() string {
	return fmt.Sprintf("variation: year %d of the %s: want %d to %d", e.Year, e.What, firstYear, lastYear)
}

func checkYear(year int, what string) error {
	if year < firstYear || year > lastYear {
		return &YearError{Year: year, What: what}
	}
	return nil
}

// InYear brings the rose to a year, forward or back, counting whole years as the trade
// does. Since it knows no place, the uncertainty is that of a place between 60° S and
// 60° N; beyond, it is more. It refuses years outside 1500 to 2500 with a [*YearError].
func (r Rose) InYear(year int) (Projection, error) {
	return r.project(year, float64(year-r.Year), WholeYears, time.Time{}, nowhere)
}

// On brings the rose to a date, as [Rose.InYear] does to a year. With [WholeYears] any day
// of a year gives the same; with [DecimalYears] years are counted from the beginning of the
// rose's year. Another count is refused with an [*angle.RangeError].
func (r Rose) On(date time.Time, count YearCount) (Projection, error) {
	return r.on(date, count, nowhere)
}

func (r Rose) on(date time.Time, count YearCount, where intensity) (Projection, error) {
	if err := count.check(); err != nil {
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
	if err != nil { // not reached: half a turn a year for a thousand years is less
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

// Warnings says what makes the projection weak by some limits.
func (p Projection) Warnings(l Limits) []working.Warning {
	var w []working.Warning
	if p.Years < 0 {
		w = append(w, warn(BeforeRose, "%s is before the rose's year, %d", p.target(), p.Rose.Year))
	}
	if u, stated := p.Variation.Uncertainty().Sigma(); stated && u > l.uncertainty() {
		young, _ := p.Rose.rounding(0, p.Count).Combined(p.Source).Sigma()
		says := fmt.Sprintf("the rose of %d gives %s %s in %s, beyond the limit of ±%v", p.Rose.Year, p.Variation, brief(p.Variation.Uncertainty()), p.target(), l.uncertainty())
		if young <= l.uncertainty() { // its age makes it so
			w = append(w, warn(OldRose, "%s: get a newer chart, or ask a field model", says))
		} else {
			w = append(w, warn(UncertainRose, "%s: it would be so even when new, since the field is weak there or the print coarse", says))
		}
	}
	if _, stated := p.Rose.Change.PerYear(); !stated && math.Floor(p.Years) != 0 {
		w = append(w, warn(NoChangeStated, "the rose of %d does not state an annual change: its figure is used as it stands", p.Rose.Year))
	}
	return w
}

// yearsText prints a count of years: 12 years, 1 year, 12.5 years back.
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

// Working returns the steps a navigator writes down.
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
			Value: yearsText(p.Years), Number: p.Years, Unit: "years", How: "counted in " + p.Count.String(),
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

// rule says in words which way the change went.
func (p Projection) rule() string {
	was, now := p.Rose.Variation, p.Variation
	change := sideOf(p.Change)
	switch {
	case p.Change == 0:
		return "unchanged"
	case was.Angle() == 0:
		return "from nought it takes the name of the change, " + change
	case sideOf(was.Angle()) == change && now.Name() != was.Name():
		return "change and variation both " + change + ": it increases beyond 180° and becomes " + sideOf(now.Angle())
	case sideOf(was.Angle()) == change:
		return "change and variation both " + change + ": it increases"
	case now.Angle() == 0:
		return "change " + change + ", variation " + sideOf(was.Angle()) + ": it decreases to nought"
	case now.Name() == was.Name():
		return "change " + change + ", variation " + sideOf(was.Angle()) + ": it decreases"
	}
	return "change " + change + ", variation " + sideOf(was.Angle()) + ": it decreases through nought and becomes " + sideOf(now.Angle())
}

func sideOf(east angle.Angle) string {
	if east < 0 {
		return "west"
	}
	return "east"
}

func nameOf(east angle.Angle) string { return angle.EastWestFrom(east).Name() }

// intensity is by the latitude, unless the position is zero and so not known.
func (r Rose) intensity(position angle.Position) intensity {
	if position == (angle.Position{}) {
		return nowhere
	}
	return intensityAt(position, nil, time.Time{})
}

// VariationAt makes a rose a [Source], wherever it is asked: the rose brought to the year
// of the date, counting whole years. The position only says how uncertain it is. A zero
// position counts as not known.
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
	return Explanation{p.Variation, p.Working(), p.Warnings(Limits{})}, nil
}
