package course

import (
	"fmt"
	"slices"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
)

// mostSteps is the greatest number of steps of a conversion apart from those of its sources.
const mostSteps = 6

// Working returns the steps of the conversion. They are the direction given, the variation
// and the deviation with their own workings, the result, and the total compass error. The
// last step of a course to steer rounds it to a whole degree. Other figures are printed to
// a tenth of a minute and carried in full.
func (h Heading) Working() working.Sheet {
	v, d := h.explanations()
	s := working.Sheet{Caution: working.Caution, Warnings: slices.Concat(v.Warnings, d.Warnings)}
	dev := d.Working
	table, ok := h.with.deviation.(*deviation.Table)
	if ok && table.By() == deviation.ByCompass && h.from != givenCompass && len(dev) > 0 {
		// The card was entered with the compass course in the result.
		dev = slices.Clone(dev) // the source may keep its own
		last := &dev[len(dev)-1]
		*last = last.Because("on-resulting-compass-course", "on the compass course that results")
	}
	magnetic := working.Direction("magnetic course", "Magnetic course", h.m)
	compass := working.Direction("compass course", "Compass course", h.c)
	trueStep := working.Direction("true course", "True course", h.t)
	steps := make(working.Steps, 0, len(v.Working)+len(dev)+mostSteps)
	switch h.from {
	case givenTrue:
		steps = append(append(steps, asGiven(trueStep)), v.Working...)
		steps = append(append(steps, toMagnetic(magnetic, h.v, h.t)), dev...)
		steps = append(steps, toCompass(compass, h.d, h.m))
	case givenMagnetic:
		steps = append(append(steps, asGiven(magnetic)), dev...)
		steps = append(append(steps, toCompass(compass, h.d, h.m)), v.Working...)
		steps = append(steps, toTrue(trueStep, h.v, h.m))
	case givenCompass:
		steps = append(append(steps, asGiven(compass)), dev...)
		steps = append(append(steps, fromCompass(magnetic, h.d, h.c)), v.Working...)
		steps = append(steps, toTrue(trueStep, h.v, h.m))
	}
	steps = append(steps, h.errorStep())
	steps = append(steps, uncertaintySteps(h.Uncertainty(), true, h.readingStated())...)
	if h.from != givenCompass {
		steer := working.Step{
			Key: "course to steer", What: "Steer by compass", Value: h.Steer().String(),
			Number: h.Steer().Degrees(), Unit: working.DegreesFromNorth,
		}
		steps = append(steps, steer.Because("to-whole-degree", "to the nearest whole degree"))
	}
	s.Steps = steps
	return s
}

// Working returns the steps of the conversion of the bearing. The ship's head comes before
// its deviation.
func (b Bearing) Working() working.Sheet {
	h := b.heading
	v, d := h.explanations()
	s := working.Sheet{Caution: working.Caution, Warnings: v.Warnings}
	t := working.Direction("true bearing", "True bearing", b.t)
	m := working.Direction("magnetic bearing", "Magnetic bearing", b.m)
	c := working.Direction("compass bearing", "Compass bearing", b.c)
	head := working.Direction("compass heading", "Ship's head", h.c)
	rule := head.Because("deviation-for-the-heading", "by compass: take the deviation for the heading, not for the bearing")
	if b.from != givenMagnetic {
		s.Warnings = slices.Concat(v.Warnings, d.Warnings)
	}
	switch b.from {
	case givenCompass:
		s.Steps = slices.Concat(working.Steps{asGiven(c), rule}, d.Working,
			working.Steps{fromCompass(m, h.d, b.c)}, v.Working, working.Steps{toTrue(t, h.v, b.m)})
	case givenMagnetic:
		if b.ByHand() {
			m = m.Because("given-by-hand-bearing-compass", "given, by a hand-bearing compass clear of iron: no deviation")
		} else {
			m = asGiven(m)
		}
		s.Steps = slices.Concat(working.Steps{m}, v.Working, working.Steps{toTrue(t, h.v, b.m)})
	case givenTrue:
		s.Steps = slices.Concat(working.Steps{asGiven(t)}, v.Working, working.Steps{toMagnetic(m, h.v, b.t), rule},
			d.Working, working.Steps{toCompass(c, h.d, b.m)})
	case givenRelative:
		relative := working.Step{
			Key: "relative bearing", What: "Relative bearing", Value: b.Relative().String(),
			Number: b.Relative().Degrees(), Unit: "degrees clockwise from the bow",
		}
		onTrue := fromCompassByError(working.Direction("true heading", "Ship's head, true", h.t), h.CompassError(), h.c)
		t = through(t.Because("head-plus-relative-bearing", "ship's head plus relative bearing"), h.t.FromNorth()+b.Relative().FromBow())
		s.Steps = slices.Concat(working.Steps{
			relative.Because("given-on-side", "given, %s", b.Relative().SideString()),
			head.Because("by-compass", "by compass"),
		}, d.Working, v.Working, working.Steps{onTrue, t})
	}
	s.Steps = append(s.Steps, uncertaintySteps(b.Uncertainty(), b.from != givenMagnetic, h.readingStated())...)
	return s
}

// asGiven returns the step with the reason "given".
func asGiven(s working.Step) working.Step { return s.Because("given", "given") }

// errorStep returns the step of the total compass error.
func (h Heading) errorStep() working.Step {
	e := h.CompassError()
	step := working.EastWest("compass error", "Total compass error", e.Angle())
	switch v, d := h.v.Name(), h.d.Name(); {
	case v == "" || d == "":
		return step.Because("sum-of-variation-and-deviation", "the sum of variation and deviation")
	case v == d:
		step = step.Because("same-name-added", "variation and deviation have the same name: added")
		if (h.v.Angle() + h.d.Angle()).Abs() > angle.Turn/2 {
			step = step.Because("over-half-a-turn", "over 180°: subtract it from 360° and change the name")
		}
		return step
	case e.Angle() == 0:
		return step.Because("opposite-names-equal", "variation and deviation are equal, with opposite names: no error")
	}
	return step.Because("opposite-names-difference", "variation and deviation have opposite names: the difference, named as the greater")
}

// readingStated reports whether the uncertainty of the reading is stated.
func (h Heading) readingStated() bool {
	_, stated := h.with.reading.Sigma()
	return stated
}

// uncertaintySteps returns the step of an uncertainty, or none if it is not stated. Variation
// is always a part of it.
func uncertaintySteps(u angle.Uncertainty, ofDeviation, ofReading bool) working.Steps {
	sigma, stated := u.Sigma()
	if !stated {
		return nil
	}
	step := working.Step{
		Key: "uncertainty", What: "Standard uncertainty", Value: uncertaintyText(sigma),
		Number: sigma.Degrees(), Unit: "degrees",
	}
	switch {
	case ofDeviation && ofReading:
		step = step.Because("of-variation-deviation-reading", "of variation, deviation and reading, combined as independent")
	case ofDeviation:
		step = step.Because("of-variation-deviation", "of variation and deviation, combined as independent")
	case ofReading:
		step = step.Because("of-variation-reading", "of variation and reading, combined as independent")
	default:
		step = step.Because("of-variation", "of variation")
	}
	return working.Steps{step}
}

// uncertaintyText prints an uncertainty to the minute, or below one minute to a tenth.
func uncertaintyText(sigma angle.Angle) string {
	decimals := 0
	if sigma < angle.Minute {
		decimals = 1
	}
	return fmt.Sprintf("±%.*v", decimals, sigma)
}
