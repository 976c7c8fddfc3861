package deviation

import (
	"fmt"
	"math"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation/internal/harmonic"
	"lubberline.example/deviation/internal/say"
)

// A Curve is a deviation curve of sines and cosines of the heading, a [Source]
// on every heading. A [lubberline.example/deviation/swing.Fit] finds one, and [Coefficients.Curve] makes one.
//
// It is kept by compass or by magnetic heading and answers for both. For the other kind it finds
// the heading on which both agree, to the last unit of [angle.Angle]. If two headings fit, it
// returns an [*AmbiguousHeadingError].
//
// A Curve does not change after it is made. The zero value and nil are not curves: their order
// and coefficients are zero, and for a heading they return an [*Error].
type Curve struct {
	by       HeadingKind
	sign     float64         // +1 by compass, −1 by magnetic heading; 0 if there is no curve
	function harmonic.Series // in units of Angle
	slope    harmonic.Series
	variance harmonic.Series   // of the curve, in units squared
	stated   bool              // whether the variance is known
	most     float64           // a bound on the deviations
	ordered  bool              // whether the other heading always rises with the heading
	gaps     []harmonic.Sector // that no observation of the fit is in
}

// errNoCurve is the error of a curve that is nil or zero.
func errNoCurve() error {
	return &Error{Kind: NoCurve, Row: -1, Reason: "there is no curve; give that of a fit or of coefficients"}
}

// curveStep is the step in which a curve is searched for its extremes and turns.
const curveStep = angle.Degree / 4

// NewCurve returns a curve of its coefficients, east positive: A, B, C, D, E, then those of the
// sine and the cosine of each further multiple of the heading. For a curve of A to E alone,
// [Coefficients.Curve] is shorter; a fit of package [lubberline.example/deviation/swing] has its
// curve.
//
// The variance of the deviation is a curve too, in square degrees. Its coefficients stand in the
// same order, up to twice the order of a fit. It is nil if unknown. Each pair of unobserved is the
// ends, clockwise, of a sector without observations.
//
// The coefficients must be an odd number, at most 21. The figures of the variance must be an odd
// number, at most 25. Otherwise NewCurve returns an [*Error]. It also does if the kind of heading
// is unknown, or if a figure is not finite. The variance must not be negative on any heading, and
// no deviation may exceed 90°.
func NewCurve(by HeadingKind, coefficients []angle.Angle, variance []float64, unobserved [][2]angle.Angle) (*Curve, error) {
	if n := len(coefficients); n%2 == 0 || n > maxCoefficients {
		return nil, &Error{Kind: NoCurve, By: by, Row: -1, Reason: fmt.Sprintf("it has %d coefficients; give an odd number up to %d", n, maxCoefficients)}
	}
	c, err := newCurve(by, harmonic.FromAngles(coefficients...))
	if err != nil {
		return nil, err
	}
	if variance != nil {
		if n := len(variance); n%2 == 0 || n > maxVariance {
			return nil, &Error{Kind: NoCurve, By: by, Row: -1, Reason: fmt.Sprintf("its variance has %d figures; give an odd number up to %d", n, maxVariance)}
		}
		units := make([]float64, len(variance))
		for i, v := range variance {
			units[i] = v * float64(angle.Degree) * float64(angle.Degree)
			if math.IsNaN(units[i]) || math.IsInf(units[i], 0) {
				return nil, &Error{Kind: NoCurve, By: by, Row: -1, Reason: fmt.Sprintf("its variance has the figure %v; give finite figures", v)}
			}
		}
		if err := c.setVariance(harmonic.From(units)); err != nil {
			return nil, err
		}
	}
	for _, s := range unobserved {
		c.gaps = append(c.gaps, harmonic.Sector{From: s[0].Normalized(), To: s[1].Normalized()})
	}
	return c, nil
}

// setVariance sets the variance of the curve. It returns an [*Error] if the variance is negative on
// a heading by more than the rounding of its figures.
func (c *Curve) setVariance(variance harmonic.Series) error {
	if variance.Constant >= variance.Bound() { // as that of an even swing
		c.variance, c.stated = variance, true
		return nil
	}
	size := math.Abs(variance.Constant)
	for i := range variance.Sin {
		size += math.Abs(variance.Sin[i]) + math.Abs(variance.Cos[i])
	}
	for z := angle.Angle(0); z < angle.Turn; z += angle.Degree {
		if v := variance.At(z.SinCos()); v < -1e-9*size {
			return &Error{Kind: NoCurve, By: c.by, Heading: z, Row: -1, Reason: fmt.Sprintf("on %s the variance is %.2g square degrees; give one that is negative on no heading", say.Heading(c.by, z), v/float64(angle.Degree)/float64(angle.Degree))}
		}
	}
	c.variance, c.stated = variance, true
	return nil
}

// newCurve makes a curve of a function of the heading, in units of Angle.
func newCurve(by HeadingKind, h harmonic.Series) (*Curve, error) {
	if by != ByCompass && by != ByMagnetic {
		return nil, &Error{Kind: NoCurve, By: by, Row: -1, Reason: fmt.Sprintf("%q is not a kind of heading; give deviation.ByCompass or deviation.ByMagnetic", by)}
	}
	c := &Curve{by: by, sign: 1, function: h, slope: h.Slope()}
	if by == ByMagnetic {
		c.sign = -1
	}
	c.most = math.Abs(h.Constant) + h.Bound()
	if !(c.most <= float64(MaxDeviation)) {
		c.most = 0
		for z := angle.Angle(0); z < angle.Turn; z += curveStep {
			d := h.At(z.SinCos())
			if !(math.Abs(d) <= float64(MaxDeviation)) {
				return nil, &Error{Kind: CurveTooLarge, By: by, Heading: z, Row: -1, Reason: fmt.Sprintf("on %s the deviation is %.1f°; a compass has at most 90°", say.Heading(by, z), d/float64(angle.Degree))}
			}
			c.most = max(c.most, math.Abs(d))
		}
		c.most += float64(angle.Degree) // between two looks
	}
	// The other heading rises by 1 ± slope for each unit of the heading. The
	// slope is in units to the radian.
	c.ordered = c.slope.Bound() < float64(harmonic.Radian)
	if !c.ordered {
		bend := c.slope.Slope()
		third := bend.Slope()
		margin := third.Bound() / float64(harmonic.Radian) * curveStep.Radians() * curveStep.Radians() / 8
		least := math.Inf(1)
		for z := angle.Angle(0); z < angle.Turn; z += curveStep {
			least = min(least, c.rise(z))
		}
		c.ordered = least > margin
	}
	return c, nil
}

// rise returns the derivative of the other heading with respect to the heading.
func (c *Curve) rise(z angle.Angle) float64 {
	s, k := z.SinCos()
	return 1 + c.sign*c.slope.At(s, k)/harmonic.Radian
}

// isNone reports whether there is no curve.
func (c *Curve) isNone() bool { return c == nil || c.sign == 0 }

// By returns the kind of heading by which the curve is kept.
func (c *Curve) By() HeadingKind {
	if c.isNone() {
		return ByCompass
	}
	return c.by
}

// Ordered reports whether compass and magnetic heading rise together round the whole circle. Then
// OnCompass and OnMagnetic never return an [*AmbiguousHeadingError].
func (c *Curve) Ordered() bool { return c != nil && c.ordered }

// Order returns the highest multiple of the heading in the curve: 2 for the
// coefficients A to E.
func (c *Curve) Order() int {
	if c.isNone() {
		return 0
	}
	return len(c.function.Sin)
}

// Coefficients returns A to E. A curve of higher order has more; see
// [Curve.Harmonic].
func (c *Curve) Coefficients() Coefficients {
	if c.isNone() {
		return Coefficients{}
	}
	h := c.function
	list := []float64{h.Constant}
	for i := range min(2, len(h.Sin)) {
		list = append(list, h.Sin[i], h.Cos[i])
	}
	return fromList(list)
}

// Harmonic returns the coefficients of sin kz and cos kz; for k = 0, zero and
// the constant. Above the curve's order both are zero.
func (c *Curve) Harmonic(k int) (sine, cosine angle.Angle) {
	switch {
	case c.isNone():
		return 0, 0
	case k == 0:
		return 0, harmonic.Round(c.function.Constant)
	case k < 0 || k > len(c.function.Sin):
		return 0, 0
	}
	return harmonic.Round(c.function.Sin[k-1]), harmonic.Round(c.function.Cos[k-1])
}

// OnCompass returns the deviation on a compass heading. A curve by compass always has
// an answer; one by magnetic heading may return an [*AmbiguousHeadingError].
func (c *Curve) OnCompass(heading angle.Compass) (Deviation, error) {
	if c.isNone() {
		return Deviation{}, errNoCurve()
	}
	if c.by == ByCompass {
		return c.at(heading.FromNorth()), nil
	}
	return c.solve(heading.FromNorth())
}

// OnMagnetic returns the deviation on a magnetic heading. A curve by magnetic heading
// always has an answer; one by compass may return an [*AmbiguousHeadingError].
func (c *Curve) OnMagnetic(heading angle.Magnetic) (Deviation, error) {
	if c.isNone() {
		return Deviation{}, errNoCurve()
	}
	if c.by == ByMagnetic {
		return c.at(heading.FromNorth()), nil
	}
	return c.solve(heading.FromNorth())
}

// ExplainDeviation returns the deviation on a compass heading and names the
// curve. Its errors are those of OnCompass.
func (c *Curve) ExplainDeviation(heading angle.Compass) (Explanation, error) {
	d, err := c.OnCompass(heading)
	if err != nil {
		return Explanation{}, err
	}
	z := heading.FromNorth()
	if c.by == ByMagnetic {
		z = d.Magnetic(heading).FromNorth()
	}
	step := working.EastWest("deviation", "Deviation", d.Angle())
	k := c.Coefficients()
	step = step.Because("curve", "deviation curve, on %s: A %s  B %s  C %s  D %s  E %s", say.Heading(c.by, z), say.Signed(k.A), say.Signed(k.B), say.Signed(k.C), say.Signed(k.D), say.Signed(k.E))
	if c.Order() > 2 {
		step = step.Because("curve-harmonics", "and harmonics to %d", c.Order())
	}
	e := Explanation{Deviation: d, Working: working.Steps{step}}
	for _, s := range c.gaps {
		if s.Has(z) {
			e.Warnings = append(e.Warnings, say.NotObserved(NotObserved, say.Heading(c.by, s.From), say.Heading(c.by, s.To)))
		}
	}
	return e, nil
}

// at returns the deviation on a heading of the curve's own kind.
func (c *Curve) at(z angle.Angle) Deviation {
	s, k := z.SinCos()
	d := East(harmonic.Round(c.function.At(s, k)))
	if c.stated {
		d = d.WithUncertainty(harmonic.Sigma(math.Sqrt(max(0, c.variance.At(s, k)))))
	}
	return d
}
