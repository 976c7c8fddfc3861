package course

import (
	"lubberline.example/angle"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// A Slip is a mistake of the hand or the eye that leads to a wrong answer.
type Slip string

// The usual slips of conversion.
const (
	VariationWrongWay  Slip = "variation applied the wrong way"
	DeviationWrongWay  Slip = "deviation applied the wrong way"
	BothWrongWay       Slip = "variation and deviation both applied the wrong way"
	VariationLeftOut   Slip = "variation left out"
	DeviationLeftOut   Slip = "deviation left out"
	BothLeftOut        Slip = "variation and deviation left out"
	VariationTwice     Slip = "variation applied twice"
	DeviationTwice     Slip = "deviation applied twice"
	AnnualChangeLeft   Slip = "annual change left out"
	AnnualChangeWrong  Slip = "annual change applied the wrong way"
	DeviationOfBearing Slip = "deviation taken for the bearing in place of the ship's head"
	DeviationOfTrue    Slip = "deviation taken on the true heading"
	Reciprocal         Slip = "reciprocal: the other end of the compass card"
	TenDegrees         Slip = "ten degrees off: a figure misread or miscopied"
)

// CompassSlips returns the slips that, each by itself, make of the direction
// given the wrong compass course or heading, to within a tolerance; none if the
// answer is right, or if no usual slip explains it. For a heading that was given
// by compass use [Heading.TrueSlips].
func (h Heading) CompassSlips(answer angle.Compass, within angle.Angle) []Slip {
	off := answer.Sub(h.c)
	// A compass direction is the true one less variation and deviation.
	return find(off, within, h.candidates(h.d.Angle(), -1))
}

// TrueSlips returns the slips that, each by itself, make of the compass
// direction the wrong true one; see [Heading.CompassSlips].
func (h Heading) TrueSlips(answer angle.True, within angle.Angle) []Slip {
	return find(answer.Sub(h.t), within, h.candidates(h.d.Angle(), 1))
}

// TrueSlips returns the slips that, each by itself, make of the compass bearing
// the wrong true one, among them the deviation taken for the bearing; see
// [Heading.CompassSlips].
func (b Bearing) TrueSlips(answer angle.True, within angle.Angle) []Slip {
	c := b.heading.candidates(b.heading.d.Angle(), 1)
	if source := b.heading.with.Deviation; source != nil {
		if d, err := source.OnCompass(b.c); err == nil {
			c = append(c, candidate{DeviationOfBearing, d.Angle() - b.heading.d.Angle()})
		}
	}
	return find(answer.Sub(b.t), within, c)
}

// A candidate is a slip and by how much it puts the answer off.
type candidate struct {
	slip Slip
	off  angle.Angle
}

// candidates lists the slips; sign is +1 where variation and deviation are
// added, −1 where they are taken away.
func (h Heading) candidates(d, sign angle.Angle) []candidate {
	v := h.v.Angle()
	list := []candidate{
		{VariationWrongWay, -2 * v * sign},
		{DeviationWrongWay, -2 * d * sign},
		{BothWrongWay, -2 * (v + d) * sign},
		{VariationLeftOut, -v * sign},
		{DeviationLeftOut, -d * sign},
		{BothLeftOut, -(v + d) * sign},
		{VariationTwice, v * sign},
		{DeviationTwice, d * sign},
		{Reciprocal, angle.Turn / 2},
		{TenDegrees, 10 * angle.Degree},
		{TenDegrees, -10 * angle.Degree},
	}
	if change, ok := h.annualChange(); ok {
		list = append(list,
			candidate{AnnualChangeLeft, -change * sign},
			candidate{AnnualChangeWrong, -2 * change * sign})
	}
	if d2, ok := h.deviationOnTrue(); ok && sign < 0 {
		list = append(list, candidate{DeviationOfTrue, (d2 - d) * sign})
	}
	return list
}

// find keeps the slips that explain an answer that is off.
func find(off, within angle.Angle, list []candidate) []Slip {
	if off.Abs() <= within {
		return nil
	}
	var slips []Slip
	for _, c := range list {
		// A slip too small to see explains nothing.
		if c.off.Abs() > within && (off-c.off).NormalizedSigned().Abs() <= within {
			slips = append(slips, c.slip)
		}
	}
	return slips
}

// annualChange returns by how much the variation was brought up to date, if
// that is known.
func (h Heading) annualChange() (angle.Angle, bool) {
	if h.with.Variation == nil {
		return 0, false
	}
	e, err := variation.Explain(h.with.Variation, h.with.At, h.with.On)
	if err != nil {
		return 0, false
	}
	rose, ok := e.Working.Find("rose variation")
	if !ok {
		return 0, false
	}
	was, err := angle.Degrees(rose.Number)
	return (h.v.Angle() - was).NormalizedSigned(), err == nil
}

// deviationOnTrue returns the deviation that entering the source with the true
// heading gives.
func (h Heading) deviationOnTrue() (angle.Angle, bool) {
	var source deviation.Source = h.with.Deviation
	if source == nil {
		return 0, false
	}
	d, err := source.OnCompass(angle.CompassFrom(h.t.FromNorth()))
	return d.Angle(), err == nil
}
