package course

import (
	"fmt"
	"slices"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// Working returns the steps of the conversion: the direction given, the variation and the
// deviation with their own workings, the result and the total compass error. The last step
// of a course to steer rounds it to a whole degree. Other figures are printed to a tenth of
// a minute and carried in full.
func (h Heading) Working() working.Sheet {
	s := working.Sheet{Caution: working.Caution}
	explained := h.explainVariation(&s)
	dev := h.explainDeviation(&s)
	table, ok := h.with.deviation.(*deviation.Table)
	if ok && table.By() == deviation.ByCompass && h.from != givenCompass {
		// The card was entered with the compass course in the result.
		dev = slices.Clone(dev) // the source may keep its own
		last := &dev[len(dev)-1]
		last.How = "on the compass course that results: " + last.How
	}
	toMagnetic := working.Direction("magnetic course", "Magnetic course", h.m, "")
	toMagnetic.How = toMagneticRule(h.v, h.t)
	compass := working.Direction("compass course", "Compass course", h.c, toCompassRule(h.d, h.m))
	trueStep := working.Direction("true course", "True course", h.t, "")
	switch h.from {
	case givenTrue:
		trueStep.How = "given"
		s.Steps = append(s.Steps, trueStep)
		s.Steps = append(s.Steps, explained...)
		s.Steps = append(append(s.Steps, toMagnetic), dev...)
		s.Steps = append(s.Steps, compass)
	case givenMagnetic:
		toMagnetic.How = "given"
		s.Steps = append(append(s.Steps, toMagnetic), dev...)
		s.Steps = append(append(s.Steps, compass), explained...)
		trueStep.How = toTrueRule(h.v, h.m)
		s.Steps = append(s.Steps, trueStep)
	case givenCompass:
		compass.How = "given"
		toMagnetic.How = fromCompassRule(h.d, h.c)
		trueStep.How = toTrueRule(h.v, h.m)
		s.Steps = append(append(s.Steps, compass), dev...)
		s.Steps = append(append(s.Steps, toMagnetic), explained...)
		s.Steps = append(s.Steps, trueStep)
	}
	s.Steps = append(s.Steps, h.errorStep())
	s.Steps = append(s.Steps, uncertaintySteps(h.Uncertainty(), h.uncertaintyParts())...)
	if h.from != givenCompass {
		s.Steps = append(s.Steps, working.Step{
			Key: "course to steer", What: "Steer by compass", Value: h.Steer().String(),
			Number: h.Steer().Degrees(), Unit: working.DegreesFromNorth,
			How: "to the nearest whole degree",
		})
	}
	return s
}

// Working returns the steps of the conversion of the bearing. The ship's head comes before
// its deviation.
func (b Bearing) Working() working.Sheet {
	s := working.Sheet{Caution: working.Caution}
	h := b.heading
	explained := h.explainVariation(&s)
	t := working.Direction("true bearing", "True bearing", b.t, "")
	m := working.Direction("magnetic bearing", "Magnetic bearing", b.m, "")
	c := working.Direction("compass bearing", "Compass bearing", b.c, "")
	relative := working.Step{
		Key: "relative bearing", What: "Relative bearing", Value: b.Relative().String(),
		Number: b.Relative().Degrees(), Unit: "degrees clockwise from the bow",
	}
	head := working.Direction("compass heading", "Ship's head", h.c, "by compass: take the deviation for the heading, not for the bearing")
	dev := working.Steps{head}
	dev = append(dev, h.explainDeviation(&s)...)
	switch b.from {
	case givenCompass:
		c.How, m.How, t.How = "given", fromCompassRule(h.d, b.c), toTrueRule(h.v, b.m)
		s.Steps = append(append(working.Steps{c}, dev...), m)
		s.Steps = append(append(s.Steps, explained...), t)
	case givenMagnetic:
		m.How, t.How = "given", toTrueRule(h.v, b.m)
		if b.byHand() {
			m.How = "given, by a hand-bearing compass clear of iron: no deviation"
		}
		s.Steps = append(append(working.Steps{m}, explained...), t)
	case givenTrue:
		t.How, m.How, c.How = "given", toMagneticRule(h.v, b.t), toCompassRule(h.d, b.m)
		s.Steps = append(append(working.Steps{t}, explained...), m)
		s.Steps = append(append(s.Steps, dev...), c)
	case givenRelative:
		relative.How = "given, " + b.Relative().SideString()
		dev[0].How = "by compass"
		head := working.Direction("true heading", "Ship's head, true", h.t, fromCompassErrorRule(h.CompassError(), h.c))
		t.How = "ship's head plus relative bearing" + through(h.t.FromNorth()+b.Relative().FromBow())
		s.Steps = append(working.Steps{relative}, dev...)
		s.Steps = append(append(s.Steps, explained...), head, t)
	}
	u, parts := b.Uncertainty(), h.uncertaintyParts()
	if b.from == givenMagnetic {
		parts = []string{"variation", "reading"}
		if _, stated := h.with.reading.Sigma(); !stated {
			parts = parts[:1]
		}
	}
	s.Steps = append(s.Steps, uncertaintySteps(u, parts)...)
	return s
}

// explainVariation returns the variation's own steps, and puts its warnings on
// the sheet.
func (h Heading) explainVariation(s *working.Sheet) working.Steps {
	last := working.EastWest("variation", "Variation", h.v.Angle(), "")
	if h.with.variation == nil { // the zero Heading
		return working.Steps{last}
	}
	e, err := variation.Explain(h.with.variation, h.with.at, h.with.on)
	if err == nil && e.Variation != h.v {
		err = fmt.Errorf("it now gives %s", e.Variation)
	}
	if err != nil {
		last.How = "the source no longer explains it: " + err.Error()
		return working.Steps{last}
	}
	s.Warnings = append(s.Warnings, e.Warnings...)
	return e.Working
}

// explainDeviation returns the deviation's own steps.
func (h Heading) explainDeviation(s *working.Sheet) working.Steps {
	last := working.EastWest("deviation", "Deviation", h.d.Angle(), "")
	if h.with.deviation == nil {
		return working.Steps{last}
	}
	e, err := deviation.Explain(h.with.deviation, h.c)
	if err != nil { // the card has changed since
		last.How = "the source no longer explains it: " + err.Error()
		return working.Steps{last}
	}
	s.Warnings = append(s.Warnings, e.Warnings...)
	return e.Working
}

// The rules in words. Each also says whether the sum passed through north.

func toMagneticRule(v variation.Variation, t angle.True) string {
	return rule("variation", v.Angle(), "magnetic", "true", false) + through(t.FromNorth()-v.Angle())
}

func toCompassRule(d deviation.Deviation, m angle.Magnetic) string {
	return rule("deviation", d.Angle(), "compass", "magnetic", false) + through(m.FromNorth()-d.Angle())
}

func toTrueRule(v variation.Variation, m angle.Magnetic) string {
	return rule("variation", v.Angle(), "true", "magnetic", true) + through(m.FromNorth()+v.Angle())
}

func fromCompassRule(d deviation.Deviation, c angle.Compass) string {
	return rule("deviation", d.Angle(), "magnetic", "compass", true) + through(c.FromNorth()+d.Angle())
}

func fromCompassErrorRule(e angle.EastWest, c angle.Compass) string {
	return rule("total compass error", e.Angle(), "true", "compass", true) + through(c.FromNorth()+e.Angle())
}

// rule says which way an angle is applied. If addEast is set, east is added.
func rule(quantity string, east angle.Angle, result, given string, addEast bool) string {
	if east == 0 {
		return "no " + quantity + ": " + result + " is the same as " + given
	}
	side, sign := "east", addEast
	if east < 0 {
		side, sign = "west", !addEast
	}
	if sign {
		return fmt.Sprintf("%s is %s: %s is greater than %s", quantity, side, result, given)
	}
	return fmt.Sprintf("%s is %s: %s is less than %s", quantity, side, result, given)
}

// through says whether a direction passed through north.
func through(sum angle.Angle) string {
	switch {
	case sum >= angle.Turn:
		return "; through north, less 360°"
	case sum < 0:
		return "; through north, plus 360°"
	}
	return ""
}

func (h Heading) errorStep() working.Step {
	e := h.CompassError()
	v, d := h.v.Name(), h.d.Name()
	var how string
	switch {
	case v == "" || d == "":
		how = "the sum of variation and deviation"
	case v == d:
		how = "variation and deviation have the same name: added"
		if (h.v.Angle() + h.d.Angle()).Abs() > angle.Turn/2 {
			how += "; over 180°: subtract it from 360° and change the name"
		}
	case e.Angle() == 0:
		how = "variation and deviation are equal, with opposite names: no error"
	default:
		how = "variation and deviation have opposite names: the difference, named as the greater"
	}
	return working.EastWest("compass error", "Total compass error", e.Angle(), how)
}

func (h Heading) uncertaintyParts() []string {
	parts := []string{"variation", "deviation"}
	if _, stated := h.with.reading.Sigma(); stated {
		parts = append(parts, "reading")
	}
	return parts
}

func uncertaintySteps(u angle.Uncertainty, parts []string) working.Steps {
	sigma, stated := u.Sigma()
	if !stated {
		return nil
	}
	how := "of " + strings.Join(parts, ", ")
	if len(parts) > 1 {
		how += ", combined as independent"
	}
	return working.Steps{{
		Key: "uncertainty", What: "Standard uncertainty", Value: uncertaintyText(sigma),
		Number: sigma.Degrees(), Unit: "degrees", How: how,
	}}
}

// uncertaintyText prints an uncertainty to the minute, or below one minute to a tenth.
func uncertaintyText(sigma angle.Angle) string {
	decimals := 0
	if sigma < angle.Minute {
		decimals = 1
	}
	return fmt.Sprintf("±%.*v", decimals, sigma)
}
