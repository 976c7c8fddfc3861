package course

import (
	"slices"

	"lubberline.example/angle"
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
// answer is right, or if no usual slip explains it. A slip in the variation is
// known by either answer it leads to, that with the deviation of the right
// heading and that with the deviation looked up on the wrong one. Of a magnetic
// heading only the slips in the deviation count. For a heading that was given by
// compass use [Heading.TrueSlips].
func (h Heading) CompassSlips(answer angle.Compass, within angle.Angle) []Slip {
	// A compass direction is the true one less variation and deviation.
	list := h.candidates(h.from != givenMagnetic, true, -1)
	if h.from != givenMagnetic && h.with.Deviation != nil {
		list = append(list, h.onWrongHeading(list)...)
		list = append(list, h.deviationOnTrue()...)
	}
	return find(answer.Sub(h.c), within, list)
}

// TrueSlips returns the slips that, each by itself, make of the compass
// direction the wrong true one, or of the magnetic one where that was given;
// then only the slips in the variation count. See [Heading.CompassSlips].
func (h Heading) TrueSlips(answer angle.True, within angle.Angle) []Slip {
	return find(answer.Sub(h.t), within, h.candidates(true, h.from != givenMagnetic, 1))
}

// TrueSlips returns the slips that, each by itself, make of the compass bearing
// the wrong true one, among them the deviation taken for the bearing. Of a
// bearing that was given magnetic only the slips in the variation count. See
// [Heading.CompassSlips].
func (b Bearing) TrueSlips(answer angle.True, within angle.Angle) []Slip {
	list := b.heading.candidates(true, b.from != givenMagnetic, 1)
	if source := b.heading.with.Deviation; source != nil && b.from != givenMagnetic {
		if d, err := source.OnCompass(b.c); err == nil {
			list = append(list, candidate{DeviationOfBearing, d.Angle() - b.heading.d.Angle()})
		}
	}
	return find(answer.Sub(b.t), within, list)
}

// A candidate is a slip and by how much it puts the answer off.
type candidate struct {
	slip Slip
	off  angle.Angle
}

// candidates lists the slips in what lies between the direction given and the
// answer, the variation, the deviation or both; sign is +1 where they are added,
// −1 where they are taken away.
func (h Heading) candidates(byVariation, byDeviation bool, sign angle.Angle) []candidate {
	var list []candidate
	v, d := h.v.Angle(), h.d.Angle()
	if byVariation {
		list = append(list,
			candidate{VariationWrongWay, -2 * v * sign},
			candidate{VariationLeftOut, -v * sign},
			candidate{VariationTwice, v * sign})
		if change, ok := h.annualChange(); ok {
			list = append(list,
				candidate{AnnualChangeLeft, -change * sign},
				candidate{AnnualChangeWrong, -2 * change * sign})
		}
	}
	if byDeviation {
		list = append(list,
			candidate{DeviationWrongWay, -2 * d * sign},
			candidate{DeviationLeftOut, -d * sign},
			candidate{DeviationTwice, d * sign})
	}
	if byVariation && byDeviation && v != 0 && d != 0 {
		list = append(list,
			candidate{BothWrongWay, -2 * (v + d) * sign},
			candidate{BothLeftOut, -(v + d) * sign})
	}
	return list
}

// onWrongHeading lists the slips in the variation once more, as they come out
// on the way to the compass if the deviation is looked up on the magnetic
// heading to which the slip leads.
func (h Heading) onWrongHeading(list []candidate) []candidate {
	var again []candidate
	for _, c := range list {
		magnetic, way := c.off, angle.Angle(-1)
		switch c.slip {
		case VariationWrongWay, VariationLeftOut, VariationTwice, AnnualChangeLeft, AnnualChangeWrong:
		case BothWrongWay:
			magnetic, way = 2*h.v.Angle(), 1
		default:
			continue
		}
		if d, err := h.with.Deviation.OnMagnetic(h.m.Add(magnetic)); err == nil {
			again = append(again, candidate{c.slip, c.off + way*(d.Angle()-h.d.Angle())})
		}
	}
	return again
}

// find keeps the slips that explain an answer that is off, each once.
func find(off, within angle.Angle, list []candidate) []Slip {
	if off.Abs() <= within {
		return nil
	}
	list = append(list,
		candidate{Reciprocal, angle.Turn / 2},
		candidate{TenDegrees, 10 * angle.Degree},
		candidate{TenDegrees, -10 * angle.Degree})
	var slips []Slip
	for _, c := range list {
		// A slip too small to see explains nothing.
		if c.off.NormalizedSigned().Abs() > within && (off-c.off).NormalizedSigned().Abs() <= within && !slices.Contains(slips, c.slip) {
			slips = append(slips, c.slip)
		}
	}
	return slips
}

// annualChange returns by how much the variation was brought up to date, if
// that is known: of roses blended, each by its share.
func (h Heading) annualChange() (angle.Angle, bool) {
	if h.with.Variation == nil {
		return 0, false
	}
	e, err := variation.Explain(h.with.Variation, h.with.At, h.with.On)
	if err != nil {
		return 0, false
	}
	share, change := 1.0, 0.0
	for _, step := range e.Working {
		switch {
		case step.Key == "rose" && step.Unit == "share":
			share = step.Number
		case step.Key == "change":
			change += share * step.Number
		}
	}
	a, err := angle.Degrees(change)
	return a, err == nil
}

// deviationOnTrue lists the slip of entering the table with the true heading, as
// comes out of a table by compass heading and of one by magnetic heading.
func (h Heading) deviationOnTrue() []candidate {
	var list []candidate
	if d, err := h.with.Deviation.OnCompass(angle.CompassFrom(h.t.FromNorth())); err == nil {
		list = append(list, candidate{DeviationOfTrue, h.d.Angle() - d.Angle()})
	}
	if d, err := h.with.Deviation.OnMagnetic(angle.MagneticFrom(h.t.FromNorth())); err == nil {
		list = append(list, candidate{DeviationOfTrue, h.d.Angle() - d.Angle()})
	}
	return list
}
