package variation

import (
	"fmt"
	"math"
	"strconv"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// Limits are the points from which a rose is called weak. The zero value of a
// field stands for the default, so that no limit can be set to nought; a figure
// too small to matter, as one [angle.Second], does that.
type Limits struct {
	// Age is how many years a rose is good for; 20 if zero. A U.S. Army manual
	// calls declination diagrams older than that unreliable (TC 3-25.26, Map
	// Reading and Land Navigation, 2013, chapter 6).
	Age float64 `json:"ageYears,omitzero"`

	// Change is how much the variation may have changed since the rose was
	// printed; 3° if zero, a figure chosen here.
	Change angle.Angle `json:"change,omitzero"`

	// Difference is by how much two roses may differ before that is said; 0.5°
	// if zero, the fineness to which small-craft compass work is done (common
	// practice).
	Difference angle.Angle `json:"difference,omitzero"`

	// Distance is how far the nearest rose may be, as an arc of a great circle;
	// 1°, about 60 nautical miles, if zero, a figure chosen here.
	Distance angle.Angle `json:"distance,omitzero"`
}

func (l Limits) age() float64 {
	if l.Age == 0 {
		return 20
	}
	return l.Age
}

func orDefault(a, otherwise angle.Angle) angle.Angle {
	if a == 0 {
		return otherwise
	}
	return a
}

func (l Limits) change() angle.Angle     { return orDefault(l.Change, 3*angle.Degree) }
func (l Limits) difference() angle.Angle { return orDefault(l.Difference, angle.Degree/2) }
func (l Limits) distance() angle.Angle   { return orDefault(l.Distance, angle.Degree) }

// A Projection is a rose brought to a date. The zero value is that of no rose.
type Projection struct {
	Rose      Rose        // as printed
	Count     YearCount   // how the years were counted
	Years     float64     // from the rose to the date; negative backwards
	Change    angle.Angle // in those years, east positive
	Variation Variation   // at the date, with its uncertainty
	date      time.Time   // where decimal years were counted
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

// InYear brings the rose to a year, counting whole years as the trade does.
// Backwards is as good as forwards. It refuses years outside 1500 to 2500 with
// a [*YearError].
func (r Rose) InYear(year int) (Projection, error) {
	return r.project(year, float64(year-r.Year), WholeYears, time.Time{})
}

// On brings the rose to a date, counting the years as told: with [WholeYears] any
// day of a year gives what [Rose.InYear] gives, and what the rose says as a
// [Source]; with [DecimalYears] they are counted from the beginning of the rose's
// year. See [Rose.InYear] for what is refused; another count is refused with an
// [*angle.RangeError].
func (r Rose) On(date time.Time, count YearCount) (Projection, error) {
	if err := count.check(); err != nil {
		return Projection{}, err
	}
	date = date.UTC().Round(0) // without a monotonic clock, so that == compares
	year, years := date.Year(), count.years(r.Year, date)
	if count != DecimalYears {
		date = time.Time{}
	}
	return r.project(year, years, count, date)
}

func (r Rose) project(year int, years float64, count YearCount, date time.Time) (Projection, error) {
	if err := checkYear(r.Year, "rose"); err != nil {
		return Projection{}, err
	}
	if err := checkYear(year, "date"); err != nil {
		return Projection{}, err
	}
	perYear, _ := r.Change.PerYear()
	change, err := perYear.Scale(years)
	if err != nil { // not reached: half a turn a year for a thousand years is less
		return Projection{}, err
	}
	p := Projection{Rose: r, Count: count, Years: years, Change: change, date: date}
	p.Variation = East(r.Variation.Angle() + change).WithUncertainty(r.uncertainty(years, count))
	return p, nil
}

// uncertainty is the standard uncertainty of the rose after some years:
//
//	u² = u₀² + q²/12 + m² (u′² + q′²/12) + τ² c²
//
// with the symbols of the package comment. A change that is not stated leaves
// it unknown, except in the rose's own year.
func (r Rose) uncertainty(years float64, count YearCount) angle.Uncertainty {
	perYear, stated := r.Change.PerYear()
	if !stated && math.Floor(years) != 0 {
		return angle.Uncertainty{}
	}
	epoch, err := perYear.Scale(count.ageError())
	if err != nil {
		return angle.Uncertainty{}
	}
	m := math.Sqrt(count.meanSquare(years))
	parts := []angle.Uncertainty{
		angle.Rectangular(r.ChangeStep).Scaled(m),
		sigma(epoch.Abs()),
	}
	for _, own := range []angle.Uncertainty{
		r.Variation.Uncertainty(),
		r.Change.Uncertainty().Scaled(m),
	} {
		if _, stated := own.Sigma(); stated {
			parts = append(parts, own)
		}
	}
	return angle.Rectangular(r.Step).Combined(parts...)
}

// sigma makes an uncertainty of a size that is not negative.
func sigma(size angle.Angle) angle.Uncertainty {
	return angle.Must(angle.StandardUncertainty(size))
}

// Warnings says what makes the projection weak by some limits.
func (p Projection) Warnings(l Limits) []Warning {
	var w []Warning
	if p.Years < 0 {
		w = append(w, warn(BeforeRose, "%s is before the rose's year, %d", p.target(), p.Rose.Year))
	}
	if math.Abs(p.Years) > l.age() {
		w = append(w, warn(OldRose, "the rose of %d is %s from %s: over the limit of %s", p.Rose.Year, yearsText(math.Abs(p.Years)), p.target(), yearsText(l.age())))
	}
	if limit := l.change(); p.Change.Abs() > limit {
		w = append(w, warn(LargeChange, "the change since %d, %s, is over the limit of %v: the rose is no longer a basis; get a newer chart or ask a field model", p.Rose.Year, p.Change.EastWest(), limit))
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

// VariationAt makes a rose a [Source], wherever it is asked: the rose brought
// to the year of the date, counting whole years.
func (r Rose) VariationAt(_ angle.Position, date time.Time) (Variation, error) {
	p, err := r.On(date, WholeYears)
	return p.Variation, err
}

// ExplainVariation makes a rose an [Explainer], with the default [Limits].
func (r Rose) ExplainVariation(_ angle.Position, date time.Time) (Explanation, error) {
	p, err := r.On(date, WholeYears)
	if err != nil {
		return Explanation{}, err
	}
	return Explanation{p.Variation, p.Working(), p.Warnings(Limits{})}, nil
}
