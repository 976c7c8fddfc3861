package slip

import "math"

// A Scheme is a set of marking tolerances: how far from the right figure an answer may be and
// still be right. A tolerance that is not above zero and finite is the rounding of the
// question.
type Scheme struct {
	Name   string `json:"name"`
	Source string `json:"source"` // of the tolerances

	Course     float64 `json:"course"`     // degrees, of a course or bearing read from a chart
	Conversion float64 `json:"conversion"` // degrees, of a direction converted by variation and deviation
	DRToFix    float64 `json:"drToFix"`    // degrees, of the bearing of a fix from the DR position
	Distance   float64 `json:"distance"`   // nautical miles
	Position   float64 `json:"position"`   // minutes of arc, of a latitude or a longitude
	Speed      float64 `json:"speed"`      // knots
	Time       float64 `json:"time"`       // minutes
}

// ChartWork returns the tolerances of the official exercises in navigation, printed beside each
// answer (public solution sheet, about 2013). They are: course 1°, distance 0.1 M, position 0.1′,
// time 1 minute, bearing of a fix from the DR position 10°, conversions exact.
func ChartWork() Scheme {
	return Scheme{
		Name:   "chart work",
		Source: "Solutions to the official navigation exercises, public solution sheet, about 2013: tolerances printed beside each answer",
		Course: 1, DRToFix: 10, Distance: 0.1, Position: 0.1, Time: 1,
	}
}

// plotted says whether an answer is read from a chart.
type plotted string

// How an answer is found.
const (
	byFigures plotted = ""       // worked out
	onChart   plotted = "chart"  // plotted and read from a chart
	drToFix   plotted = "dr-fix" // the bearing of a fix from the DR position, read from a chart
)

// MarkedBy returns the problem with the tolerances of a scheme. For a problem without a scheme,
// those of [ChartWork] hold if the answer is read from a chart. Any other answer must then be
// right to its rounding.
func (p Problem) MarkedBy(s Scheme) Problem {
	p.scheme = &s
	return p
}

// Scheme returns the tolerances that the problem is marked by. The zero Scheme marks to the
// rounding.
func (p Problem) Scheme() Scheme {
	switch {
	case p.scheme != nil:
		return *p.scheme
	case p.plotted != byFigures:
		return ChartWork()
	}
	return Scheme{}
}

// directions returns the tolerance of a direction in degrees.
func (p *Problem) directions(s Scheme) float64 {
	switch p.plotted {
	case byFigures:
		return s.Conversion
	case drToFix:
		return s.DRToFix
	}
	return s.Course
}

// tolerances returns the tolerances of the first and the second figure of an answer, in their
// units.
func (p *Problem) tolerances() (first, second float64) {
	s := p.Scheme()
	switch p.Form {
	case Direction:
		return p.directions(s), 0
	case CourseAndDistance:
		return p.directions(s), s.Distance
	case CourseAndSpeed:
		return p.directions(s), s.Speed
	case Position:
		return s.Position / 60, s.Position / 60
	case NorthSouth:
		return s.Position / 60, 0
	case MinutesEastWest:
		return s.Position, 0
	case Miles:
		return s.Distance, 0
	case Knots:
		return s.Speed, 0
	case Clock:
		return s.Time, 0
	}
	return 0, 0
}

// usable returns a tolerance, or 0 if it is not above zero and finite.
func usable(tolerance float64) float64 {
	if !(tolerance > 0) || math.IsInf(tolerance, 0) {
		return 0
	}
	return tolerance
}

// isRight reports whether an answer is right: to its rounding, or within the tolerances of the
// rounded answer.
func (p *Problem) isRight(answer, right float64) bool {
	if p.off(answer, right) <= p.within() || p.off(answer, p.rounded(right)) <= p.within()/2 {
		return true
	}
	const hair = 1e-6
	a, b := p.tolerances()
	a, b = usable(a), usable(b)
	if !p.Form.isPair() {
		return a > 0 && p.off(answer, p.rounded(right)) <= a+hair
	}
	r1, r2 := p.roundings()
	a1, a2 := p.Pair(answer)
	b1, b2 := p.Pair(p.rounded(right))
	return math.Abs(math.Remainder(a1-b1, 360)) <= max(a, r1/2)+hair && math.Abs(math.Remainder(a2-b2, 360)) <= max(b, r2/2)+hair
}
