package variation

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// A ChartRose is one of the roses of a chart.
type ChartRose struct {
	Name     string         `json:"name"`     // what to call it in workings; its position does if it is ""
	Position angle.Position `json:"position"` // of its centre
	Rose     Rose           `json:"rose"`     // what it prints
}

// A Chart is a chart's roses together, a [Source] for any position on it. Make
// one with [NewChart], set the fields that say how it is to be used, and leave
// it alone after that; then it is safe for use by several goroutines. The zero
// value has no roses and answers with an error.
//
// With [Nearest] the rose at the least distance on the sphere answers, across
// the date line too. Of roses equally near, the first listed answers.
//
// With [Blended] each rose is brought to the date, and then:
//
//   - One rose answers alone.
//   - Between two, the variation goes linearly along the line that joins them.
//     A position is between them if its foot on that line is, and if it lies no
//     further off the line than they lie apart. The same holds between neighbours
//     if more roses stand on one line, to within 0.4 % of its length.
//   - Among other three or more, it goes linearly over the triangle that the position
//     lies in. The triangles are those of Delaunay, whose circumscribed circles
//     hold no other rose, in latitude and in longitude scaled by the cosine of
//     the middle latitude. Of four or more roses on one circle, as at the corners
//     of a rectangle, the triangles are those that come first as listed. In a very
//     flat triangle, of a height below 0.4 % of its longest side, the variation goes
//     along the two shorter sides, and partly so up to 1.5 %.
//
// The uncertainty of a blend is that of its roses in proportion, as if they
// erred together: they count the years to the same day, and are of one survey.
//
// Anywhere else the answer would be an extrapolation, which is refused with an
// [*OutsideError]. Roses beyond 85° of latitude are not blended, nor are roses
// more than 90° of longitude apart: latitude and longitude make no plane there.
type Chart struct {
	Method Method    // how the roses answer between them; zero is Nearest; others are refused with an [*angle.RangeError]
	Count  YearCount // how years are counted; zero is WholeYears; others are refused likewise
	Limits Limits    // from where on an answer is weak; zero fields are the defaults

	// Model is a field model to set beside the roses, such as those of package
	// [lubberline.example/wmm], or nil. The roses answer all the same. The working then
	// says what the model gives and which is known better. If the model is an
	// [IntensitySource], the uncertainty of a rose is found by the intensity at the rose.
	// JSON leaves it out.
	Model Source

	name      string
	roses     []ChartRose
	plane     plane
	triangles [][3]int
	line      []int // the roses in their order, if they stand on one line
}

// A ChartError reports roses that make no chart.
type ChartError struct {
	Rose   string // the name of the rose at fault, or ""
	Reason string // what is wrong, and what is accepted
	Err    error  // the refusal of a position, of a legend or of a year, if that is the trouble
}

// Error says what is wrong with which rose.
func (e *ChartError) Error() string {
	if e.Rose == "" {
		return "variation: chart: " + e.Reason
	}
	return fmt.Sprintf("variation: chart: rose %q: %s", e.Rose, e.Reason)
}

// Unwrap returns the refusal of a position, a legend or a year, or nil.
func (e *ChartError) Unwrap() error { return e.Err }

// mostRoses keeps the search for triangles short; no chart comes near it.
const mostRoses = 100

// NewChart returns a chart of some roses, which are copied. It refuses, with a
// [*ChartError], no roses or more than 100, two at the same place, and years
// outside 1500 to 2500.
func NewChart(name string, roses ...ChartRose) (*Chart, error) {
	if len(roses) == 0 || len(roses) > mostRoses {
		return nil, &ChartError{Reason: fmt.Sprintf("%d roses: want 1 to %d", len(roses), mostRoses)}
	}
	for i, r := range roses {
		if err := checkYear(r.Rose.Year, "rose"); err != nil {
			return nil, &ChartError{Rose: r.Name, Reason: err.Error(), Err: err}
		}
		for _, q := range roses[:i] {
			if q.Position.SamePlace(r.Position) {
				return nil, &ChartError{Rose: r.Name, Reason: fmt.Sprintf("%s stands at the same place as %q, %s: of two editions keep the newer", r.Rose, q.Name, q.Rose)}
			}
		}
	}
	c := &Chart{name: name, roses: slices.Clone(roses)}
	c.plane = newPlane(c.roses)
	c.triangles, c.line = c.plane.delaunay(), c.plane.line()
	return c, nil
}

// errNoRoses is the answer of the zero Chart.
func errNoRoses() error {
	return &ChartError{Reason: "no roses: make a chart with NewChart or ReadChart"}
}

// Name returns the chart's name; "" of a nil chart.
func (c *Chart) Name() string {
	if c == nil {
		return ""
	}
	return c.name
}

// Roses returns the chart's roses, as listed; none of a nil chart.
func (c *Chart) Roses() []ChartRose {
	if c == nil {
		return nil
	}
	return slices.Clone(c.roses)
}

// A Candidate is a rose as seen from a position.
type Candidate struct {
	ChartRose
	Distance   angle.Angle `json:"distance"`   // arc of the great circle from the position
	Projection Projection  `json:"projection"` // the rose brought to the date

	// Difference is how far this rose's variation lies from the nearest
	// rose's, east positive, in (−180°, 180°]; 0 for the nearest itself.
	Difference angle.Angle `json:"difference"`
}

// Candidates returns all roses brought to a date, the nearest to a position
// first, so that it can be seen whether the choice matters.
func (c *Chart) Candidates(position angle.Position, date time.Time) ([]Candidate, error) {
	if c == nil || len(c.roses) == 0 {
		return nil, errNoRoses()
	}
	all := make([]Candidate, len(c.roses))
	for i, r := range c.roses {
		p, err := c.project(i, date)
		if err != nil {
			return nil, err
		}
		all[i] = Candidate{ChartRose: r, Distance: position.ArcTo(r.Position), Projection: p}
	}
	slices.SortStableFunc(all, func(a, b Candidate) int { return cmp.Compare(a.Distance, b.Distance) })
	for i := range all {
		all[i].Difference = (all[i].Projection.Variation.Angle() - all[0].Projection.Variation.Angle()).NormalizedSigned()
	}
	return all, nil
}

// project brings a rose to a date, with the uncertainty of the place where it stands.
func (c *Chart) project(rose int, date time.Time) (Projection, error) {
	r := c.roses[rose]
	return r.Rose.on(date, c.Count, intensityAt(r.Position, c.Model, date))
}

// nearest returns the index of the nearest rose and its distance.
func (c *Chart) nearest(position angle.Position) (index int, distance angle.Angle) {
	distance = angle.Turn
	for i, r := range c.roses {
		if d := position.ArcTo(r.Position); d < distance {
			index, distance = i, d
		}
	}
	return index, distance
}

// VariationAt returns the variation by the chart's [Method].
func (c *Chart) VariationAt(position angle.Position, date time.Time) (Variation, error) {
	if c == nil || len(c.roses) == 0 {
		return Variation{}, errNoRoses()
	}
	if err := c.Method.check(); err != nil {
		return Variation{}, err
	}
	if c.Method == Nearest {
		i, _ := c.nearest(position)
		p, err := c.project(i, date)
		return p.Variation, err
	}
	parts, err := c.blend(position)
	if err != nil {
		return Variation{}, err
	}
	return c.mix(parts, date)
}

// ExplainVariation returns the variation with its working, and warns if roses
// differ, if one is old, and if the nearest is far away.
func (c *Chart) ExplainVariation(position angle.Position, date time.Time) (Explanation, error) {
	all, err := c.Candidates(position, date)
	if err != nil {
		return Explanation{}, err
	}
	if err := c.Method.check(); err != nil {
		return Explanation{}, err
	}
	var e Explanation
	if c.Method == Nearest {
		near := all[0]
		e.Variation = near.Projection.Variation
		e.Working = append(working.Steps{c.chosen(near)}, near.Projection.Working()...)
		e.Warnings = near.Projection.Warnings(c.Limits)
	} else {
		parts, err := c.blend(position)
		if err != nil {
			return Explanation{}, err
		}
		if e.Variation, err = c.mix(parts, date); err != nil {
			return Explanation{}, err
		}
		if e, err = c.explainBlend(e, parts, date); err != nil {
			return Explanation{}, err
		}
	}
	if limit := c.Limits.distance(); all[0].Distance > limit {
		e.Warnings = append(e.Warnings, warn(FarFromRose, "the nearest rose, %s, is %.0f nautical miles away", all[0].label(), all[0].Distance.Minutes()))
	}
	if c.Method == Nearest && len(all) > 1 && all[1].Difference.Abs() >= c.Limits.difference() {
		next := all[1]
		e.Warnings = append(e.Warnings, warn(RosesDiffer, "the two nearest roses differ by %v (the next, %s, %.0f nautical miles away, gives %s): check which applies", next.Difference.Abs(), next.label(), next.Distance.Minutes(), next.Projection.Variation))
	}
	return c.beside(e, position, date), nil
}

// beside sets what the model gives beside the roses' answer.
func (c *Chart) beside(e Explanation, position angle.Position, date time.Time) Explanation {
	if isNil(c.Model) {
		return e
	}
	v, err := c.Model.VariationAt(position, date)
	if err != nil {
		e.Working = append(e.Working, working.Step{Key: "model variation", What: "By the model", How: "no answer: " + err.Error()})
		return e
	}
	ofModel, modelStated := v.Uncertainty().Sigma()
	ofRose, roseStated := e.Variation.Uncertainty().Sigma()
	how := "for comparison, uncertainty " + brief(v.Uncertainty())
	switch {
	case !modelStated || !roseStated:
	case ofModel < ofRose:
		how += ": known better than the rose"
	default:
		how += ": the rose is known better"
	}
	e.Working = append(e.Working, working.EastWest("model variation", "By the model", v.Angle(), how))
	apart := (e.Variation.Angle() - v.Angle()).NormalizedSigned().Abs()
	if modelStated && roseStated && float64(apart) > 2*math.Hypot(float64(ofModel), float64(ofRose)) {
		e.Warnings = append(e.Warnings, warn(ModelDiffers, "the field model gives %s, %v from the rose: more than both uncertainties allow; check the rose's name, figures and place", v, apart.Round(angle.Minute)))
	}
	return e
}

// label is what to call a rose.
func (r ChartRose) label() string {
	if r.Name != "" {
		return r.Name
	}
	return "at " + r.Position.String()
}

// chosen is the step that says which rose was taken.
func (c *Chart) chosen(near Candidate) working.Step {
	how := "the only rose"
	if len(c.roses) > 1 {
		how = fmt.Sprintf("the nearest of %d roses, %.1f nautical miles away", len(c.roses), near.Distance.Minutes())
	}
	if c.name != "" {
		how += ", on " + c.name
	}
	return working.Step{Key: "rose", What: "Rose", How: near.label() + ": " + how}
}
