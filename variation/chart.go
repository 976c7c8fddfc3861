package variation

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// A ChartRose is one of the roses of a chart.
type ChartRose struct {
	Name     string         `json:"name"`     // for workings; if empty, they give the position
	Position angle.Position `json:"position"` // of its centre
	Rose     Rose           `json:"rose"`     // as printed
}

// A Chart is the roses of a chart, a [Source] for any position on it. Make one with
// [NewChart] or [ReadChart], set its fields, and do not change it after that. Then it is safe
// for use by several goroutines. The zero value has no roses and answers with an error.
//
// With [Nearest] the nearest rose by great circle answers, across the date line too. Of
// roses at the same distance, the first one listed answers.
//
// With [Blended] each rose is brought to the date. Then:
//
//   - One rose answers alone.
//   - Between two roses the variation is linear along the line that joins them. A position
//     is between them if its perpendicular meets the line between the roses. Its distance
//     from the line must be at most the distance between the roses.
//   - If more roses lie on one line, to within 0.4 % of its length, the same holds between
//     neighbours.
//   - Among three or more other roses it is linear over the triangle that holds the position.
//     The triangles are those of Delaunay, whose circumscribed circles hold no other rose.
//     They are made in latitude, and in longitude scaled by the cosine of the middle latitude.
//     If four roses lie on one circle, as at the corners of a rectangle, the triangles
//     depend on the order of the roses.
//   - In a very flat triangle, with a height below 0.4 % of its longest side, the variation is
//     linear along the two shorter sides. From there to 1.5 % both ways are mixed.
//
// The uncertainty of a blend is the weighted mean of those of its roses. Their errors are
// not independent: the roses count years to the same day and come from one survey.
//
// Elsewhere the answer would be an extrapolation, and Chart returns an [*Error] of kind
// [OutsideRoses]. Roses beyond 85° of latitude are not blended, nor are roses more than 90°
// of longitude apart: there latitude and longitude make no plane.
type Chart struct {
	Method Method    // how the roses answer between them; Nearest if empty
	Count  YearCount // how years are counted; WholeYears if empty
	Limits Limits    // when an answer gets a warning; zero fields are the defaults

	// Model is a field model to compare with the roses, such as those of package
	// [lubberline.example/wmm], or nil. The roses still answer. The working shows the
	// variation of the model and says which uncertainty is smaller. If the model gives the
	// horizontal intensity, the uncertainty of a rose follows from the intensity at the rose;
	// see [Source]. JSON leaves out the model.
	Model Source

	name      string
	roses     []ChartRose
	sites     []site // of the roses
	plane     plane
	triangles [][3]int
	line      []int // the roses in order, if they lie on one line
}

// maxRoses keeps the search for triangles short. No chart has so many roses.
const maxRoses = 100

// NewChart returns a chart with a copy of the roses. For no roses, more than 100, two at
// the same place, or a year outside 1500 to 2500, it returns an [*Error] of kind [BadChart].
func NewChart(name string, roses ...ChartRose) (*Chart, error) {
	if len(roses) == 0 || len(roses) > maxRoses {
		return nil, chartError("", nil, "%d roses; give 1 to %d", len(roses), maxRoses)
	}
	for i, r := range roses {
		if err := checkYear(r.Rose.Year, "rose"); err != nil {
			return nil, chartError(r.Name, err, "%v", err)
		}
		for _, q := range roses[:i] {
			if q.Position.SamePlace(r.Position) {
				other := "another rose"
				if q.Name != "" {
					other = strconv.Quote(q.Name)
				}
				return nil, chartError(r.Name, nil, "%s is at the same place as %s, %s; of two editions keep the newer", r.Rose, other, q.Rose)
			}
		}
	}
	c := &Chart{name: name, roses: slices.Clone(roses)}
	for _, r := range c.roses {
		c.sites = append(c.sites, newSite(r.Position))
	}
	c.plane = newPlane(c.roses)
	c.triangles, c.line = c.plane.delaunay(), c.plane.line()
	return c, nil
}

// errNoRoses is the error of the zero Chart.
func errNoRoses() error {
	return chartError("", nil, "no roses; make a chart with NewChart or ReadChart")
}

// Name returns the name of the chart, or "" for a nil chart.
func (c *Chart) Name() string {
	if c == nil {
		return ""
	}
	return c.name
}

// Roses returns the roses in the order given, or none for a nil chart.
func (c *Chart) Roses() []ChartRose {
	if c == nil {
		return nil
	}
	return slices.Clone(c.roses)
}

// A candidate is a rose of a chart that may answer for a position.
type candidate struct {
	ChartRose
	Distance   angle.Angle // arc of the great circle from the position
	Projection Projection  // the rose brought to the date

	// Difference is this rose's variation minus that of the nearest rose, east positive, in
	// (−180°, 180°].
	Difference angle.Angle
}

// candidates returns all roses brought to a date, the nearest to a position first.
func (c *Chart) candidates(position angle.Position, date time.Time) ([]candidate, error) {
	if c == nil || len(c.roses) == 0 {
		return nil, errNoRoses()
	}
	all := make([]candidate, len(c.roses))
	for i, r := range c.roses {
		p, err := c.project(i, date)
		if err != nil {
			return nil, err
		}
		all[i] = candidate{ChartRose: r, Distance: position.ArcTo(r.Position), Projection: p}
	}
	slices.SortStableFunc(all, func(a, b candidate) int { return cmp.Compare(a.Distance, b.Distance) })
	for i := range all {
		all[i].Difference = (all[i].Projection.Variation.Angle() - all[0].Projection.Variation.Angle()).NormalizedSigned()
	}
	return all, nil
}

// project brings a rose to a date, with the uncertainty at its place.
func (c *Chart) project(rose int, date time.Time) (Projection, error) {
	r := &c.roses[rose]
	where, ok := intensityByModel(r.Position, c.Model, date)
	if !ok {
		where = c.sites[rose].where
	}
	return r.Rose.on(date, c.Count, where)
}

// VariationAt returns the variation by the chart's [Method]. If blended roses do not surround the
// position, or the chart has no roses, it returns an [*Error]. For a year outside 1500 to 2500 it
// returns an [*angle.RangeError], and for an unknown Method or Count an [*angle.ParseError].
func (c *Chart) VariationAt(position angle.Position, date time.Time) (Variation, error) {
	if c == nil || len(c.roses) == 0 {
		return Variation{}, errNoRoses()
	}
	method, err := c.Method.orDefault()
	if err != nil {
		return Variation{}, err
	}
	if method == Nearest {
		p, err := c.project(c.nearest(position), date)
		return p.Variation, err
	}
	parts, err := c.blend(position)
	if err != nil {
		return Variation{}, err
	}
	return c.mix(parts, date)
}

// ExplainVariation returns the variation with its working. It warns if roses differ, if one is
// uncertain, and if the nearest is far away. Its errors are those of VariationAt.
func (c *Chart) ExplainVariation(position angle.Position, date time.Time) (Explanation, error) {
	all, err := c.candidates(position, date)
	if err != nil {
		return Explanation{}, err
	}
	method, err := c.Method.orDefault()
	if err != nil {
		return Explanation{}, err
	}
	var e Explanation
	if method == Nearest {
		e = all[0].Projection.explanation(c.Limits)
		e.Working = append(working.Steps{c.chosen(all[0])}, e.Working...)
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
		e.Warnings = append(e.Warnings, working.Warn(FarFromRose, "far-from-the-rose", "the nearest rose, %s, is %.0f M away: use a chart with a nearer rose, or a field model", all[0].label(), all[0].Distance.Minutes()))
	}
	if method == Nearest && len(all) > 1 && all[1].Difference.Abs() >= c.Limits.difference() {
		next := all[1]
		e.Warnings = append(e.Warnings, working.Warn(RosesDiffer, "roses-differ", "the two nearest roses differ by %v (the second, %s, %.0f M away, gives %s): check which applies", next.Difference.Abs(), next.label(), next.Distance.Minutes(), next.Projection.Variation))
	}
	return c.beside(e, position, date), nil
}

// beside adds the variation of the model for comparison.
func (c *Chart) beside(e Explanation, position angle.Position, date time.Time) Explanation {
	if isNil(c.Model) {
		return e
	}
	v, err := c.Model.VariationAt(position, date)
	if err != nil {
		e.Working = append(e.Working, working.Step{Key: "model variation", What: "By the model"}.Because("model-no-answer", "no answer: %v", err))
		return e
	}
	ofModel, modelStated := v.Uncertainty().Sigma()
	ofRose, roseStated := e.Variation.Uncertainty().Sigma()
	step := working.EastWest("model variation", "By the model", v.Angle())
	switch u := brief(v.Uncertainty()); {
	case !modelStated:
		step = step.Because("model-uncertainty-unstated", "for comparison, uncertainty not stated")
	case !roseStated:
		step = step.Because("model-uncertainty", "for comparison, uncertainty %s", u)
	case ofModel < ofRose:
		step = step.Because("model-uncertainty-smaller", "for comparison, uncertainty %s, smaller than that of the rose", u)
	default:
		step = step.Because("model-uncertainty-not-smaller", "for comparison, uncertainty %s, not smaller than that of the rose", u)
	}
	e.Working = append(e.Working, step)
	apart := (e.Variation.Angle() - v.Angle()).NormalizedSigned().Abs()
	if modelStated && roseStated && float64(apart) > 2*math.Hypot(float64(ofModel), float64(ofRose)) {
		e.Warnings = append(e.Warnings, working.Warn(ModelDiffers, "model-differs", "the field model gives %s, which differs by %v from the rose, more than both uncertainties allow: check the name, the figures and the place of the rose", v, apart.Round(angle.Minute)))
	}
	return e
}

// label returns the name of a rose in workings.
func (r ChartRose) label() string {
	if r.Name != "" {
		return r.Name
	}
	return "at " + r.Position.String()
}

// chosen returns the step that says which rose is used.
func (c *Chart) chosen(near candidate) working.Step {
	step := working.Step{Key: "rose", What: "Rose"}
	label, count, miles := near.label(), len(c.roses), near.Distance.Minutes()
	switch {
	case count > 1 && c.name != "":
		return step.Because("nearest-rose-of-chart", "%s: the nearest of %d roses, %.1f M away, on %s", label, count, miles, c.name)
	case count > 1:
		return step.Because("nearest-rose", "%s: the nearest of %d roses, %.1f M away", label, count, miles)
	case c.name != "":
		return step.Because("only-rose-of-chart", "%s: the only rose, on %s", label, c.name)
	}
	return step.Because("only-rose", "%s: the only rose", label)
}
