package diagram

import (
	"fmt"
	"math"
	"slices"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/ask"
	"lubberline.example/deviation/swing"
)

// A Plot is what is drawn of a compass: its curve, and the observations from which the curve was
// found.
//
// Its drawings fit on an upright sheet of A4, in black and grey. Texts
// that are too long for their place are shortened.
type Plot struct {
	deviation.Details                     // empty fields are not drawn
	Source            deviation.Source    // the curve; not nil. [Curve] draws its uncertainty as a band, if it is stated
	Observations      []swing.Observation // drawn as circles; may be empty

	// LeftOut are the observations that do not count in the curve, such as those of
	// [lubberline.example/deviation/swing.Fit.LeftOut]; may be empty. They are drawn as crosses, and
	// count neither in the root mean square nor in a scale. Those beyond the curve's scale are drawn
	// at its edge with their figure. Of those beyond Napier's diagram, the number is printed.
	LeftOut []swing.Observation
}

// An Error reports what cannot be drawn.
type Error struct {
	Heading     angle.Compass // where the curve or the observation is at fault
	Observation int           // index of the observation at fault, or on whose heading the curve is; else −1
	Reason      string        // what is wrong; empty if Err says it
	Err         error         // what the source returned, a [*variation.MissingInputError] if there is none, or nil
}

// Error says what is wrong, and on which heading.
func (e *Error) Error() string {
	text := e.Reason
	if e.Reason == "" && e.Err != nil {
		text = fmt.Sprintf("on %v: %v", e.Heading, e.Err)
	}
	if e.Observation >= 0 {
		return fmt.Sprintf("deviation: diagram: observation %d: %s", e.Observation, text)
	}
	return "deviation: diagram: " + text
}

// Unwrap returns the source's error, or that there is no source.
func (e *Error) Unwrap() error { return e.Err }

// A plotPoint is a deviation on its heading, in degrees.
type plotPoint struct {
	heading, east float64
	sigma         float64 // zero where it is not stated
	stated        bool
}

// newPlotPoint returns a point of a drawing, in degrees.
func newPlotPoint(heading float64, d deviation.Deviation) plotPoint {
	s, stated := d.Uncertainty().Sigma()
	return plotPoint{heading, d.Angle().Degrees(), s.Degrees(), stated}
}

// plotData is a diagram in degrees: all that a drawing needs of its source, so
// that drawing itself cannot fail.
type plotData struct {
	curve     []plotPoint // on 000°, 001° … 359°
	observed  []plotPoint
	residuals []plotPoint // observation − curve, with the observation's uncertainty

	rejected          []plotPoint
	rejectedResiduals []plotPoint
}

// plot asks the source for every degree and for the observations' headings.
func (d Plot) plot() (*plotData, error) {
	if ask.IsNil(d.Source) {
		return nil, &Error{Observation: -1, Reason: "there is no source; give a table, a curve or a deviation", Err: ask.ErrNoSource}
	}
	p := &plotData{}
	for h := range 360 {
		found, err := d.onCompass(angle.CompassFrom(angle.Angle(h)*angle.Degree), -1)
		if err != nil {
			return nil, err
		}
		p.curve = append(p.curve, newPlotPoint(float64(h), found))
	}
	for i, o := range d.Observations {
		if err := drawable(o.Heading, o.Deviation, i); err != nil {
			return nil, err
		}
		found, err := d.onCompass(o.Heading, i)
		if err != nil {
			return nil, err
		}
		point := newPlotPoint(o.Heading.Degrees(), o.Deviation)
		p.observed = append(p.observed, point)
		point.east = (o.Deviation.Angle() - found.Angle()).Degrees()
		p.residuals = append(p.residuals, point)
	}
	for _, o := range d.LeftOut {
		found, err := d.onCompass(o.Heading, -1)
		if err != nil {
			return nil, err
		}
		point := newPlotPoint(o.Heading.Degrees(), o.Deviation)
		p.rejected = append(p.rejected, point)
		point.east = (o.Deviation.Angle() - found.Angle()).NormalizedSigned().Degrees()
		p.rejectedResiduals = append(p.rejectedResiduals, point)
	}
	return p, nil
}

// onCompass returns the deviation on a compass heading, if it can be drawn.
func (d Plot) onCompass(c angle.Compass, observation int) (deviation.Deviation, error) {
	found, err := d.Source.OnCompass(c)
	if err != nil {
		return deviation.Deviation{}, &Error{Heading: c, Observation: observation, Err: err}
	}
	return found, drawable(c, found, observation)
}

// drawable refuses a deviation for which no drawing has room.
func drawable(c angle.Compass, d deviation.Deviation, observation int) error {
	if d.Angle().Abs() <= deviation.MaxDeviation {
		return nil
	}
	return &Error{Heading: c, Observation: observation, Reason: fmt.Sprintf("on %v the deviation is %v; give at most 90°", c, d)}
}

// at is the curve on a whole degree, which may lie beyond the circle's ends.
func (p *plotData) at(heading int) plotPoint {
	point := p.curve[((heading%360)+360)%360]
	point.heading = float64(heading)
	return point
}

// within are the points that a scale has room for.
func within(points []plotPoint, limit float64) []plotPoint {
	return slices.DeleteFunc(slices.Clone(points), func(p plotPoint) bool { return math.Abs(p.east) > limit })
}

// rejectedText says in a legend what the crosses are.
const rejectedText = "left out of the curve"

// rejectedWithin says so, and how many are not drawn.
func (p *plotData) rejectedWithin(limit float64) string {
	if beyond := len(p.rejected) - len(within(p.rejected, limit)); beyond > 0 {
		return fmt.Sprintf("%s; beyond this scale, and not drawn: %d", rejectedText, beyond)
	}
	return rejectedText
}

// describe counts the observations in a drawing's description.
func (p *plotData) describe() string {
	text := fmt.Sprintf("observations: %d", len(p.observed))
	if len(p.rejected) > 0 {
		text += fmt.Sprintf("; left out: %d", len(p.rejected))
	}
	return text + "."
}

// cross draws the mark of an observation that was left out.
func (s svgSheet) cross(at drawing.Spot) {
	const arm = 0.9
	x, y := at.X, at.Y
	s.Put(`<path class="rejected" d="M%.2f %.2fL%.2f %.2fM%.2f %.2fL%.2f %.2f" fill="none" stroke="black" stroke-width="0.3"/>`, x-arm, y-arm, x+arm, y+arm, x-arm, y+arm, x+arm, y-arm)
}

// mostEast returns the largest deviation of some points, east or west.
func mostEast(points ...[]plotPoint) float64 {
	most := 0.0
	for _, list := range points {
		for _, p := range list {
			most = max(most, math.Abs(p.east))
		}
	}
	return most
}

// reach is how far a scale must go for some points and their uncertainties. A
// large uncertainty widens it to no more than twice, so that the curve stays
// readable; the rest of the band is cut off.
func reach(points ...[]plotPoint) float64 {
	most := mostEast(points...)
	far := most
	for _, list := range points {
		for _, p := range list {
			far = max(far, math.Abs(p.east)+min(p.sigma, max(most, 0.5)))
		}
	}
	return far
}
