package swing

import (
	"fmt"
	"slices"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/ask"
	"lubberline.example/deviation/internal/say"
	"lubberline.example/variation"
)

// A Transit compares the compass with two charted marks in line, or with any
// object whose true direction is known and does not change: it uses Bearing of
// each [Reading], taken as the vessel crosses the line on each heading.
type Transit struct {
	Direction   angle.True        // of the marks in line, from the chart; left out it is 000°
	Uncertainty angle.Uncertainty // of the direction; left out it is not stated, nor is [Swing.Common] then

	// Variation tells the variation, once for the whole swing; see
	// [lubberline.example/deviation/check.Reading.Variation]. Nil, it is missing, which is refused with a
	// [*variation.MissingInputError].
	Variation variation.Source

	// At and On are the position and the date for the variation. A known variation
	// needs neither, a rose no position; see [variation.Source]. If At is nil or On
	// zero, a source that needs it is refused with a [*variation.MissingInputError].
	At *angle.Position
	On time.Time
}

func (t Transit) name() string      { return "a transit of known direction" }
func (t Transit) columns() []string { return []string{"bearing"} }

func (t Transit) reduce(readings []reading) (reduction, error) {
	found, err := ask.Variation(t.Variation, t.At, t.On)
	if err != nil {
		return reduction{}, swingError(err)
	}
	v := found.Variation
	should := v.Magnetic(t.Direction)
	r := reduction{common: v.Uncertainty().Combined(t.Uncertainty), warnings: found.Warnings}
	r.steps = append(append(found.Working,
		working.Direction("true", "Transit by true", t.Direction, "from the chart")),
		variationStep(v),
		working.Direction("magnetic", "Transit by magnetic", should, ""),
	)
	for _, s := range readings {
		r.observations = append(r.observations, compared(s, "Transit", should, s.Bearing, s.Uncertainty, nil))
	}
	causes := slices.Concat(ofVariation(found), ofDirection(t.Direction, v))
	r.warnings = append(r.warnings, likelyCauses(r.observations, causes)...)
	return r, nil
}

// variationStep is the step that leads from true to magnetic.
func variationStep(v variation.Variation) working.Step {
	how := "nothing to apply"
	switch {
	case v.Angle() > 0:
		how = "east: magnetic is less than true"
	case v.Angle() < 0:
		how = "west: magnetic is greater than true"
	}
	return working.EastWest("variation", "Variation", v.Angle(), how)
}

// TrueHeadings compares the compass with another source of the vessel's true
// heading, such as a gyro-compass whose error has been applied: it uses True of
// each [Reading].
type TrueHeadings struct {
	Uncertainty angle.Uncertainty // that all the true headings share; left out it is not stated, nor is [Swing.Common] then

	// Variation tells the variation, once for the whole swing; see
	// [lubberline.example/deviation/check.Reading.Variation]. Nil, it is missing, which is refused with a
	// [*variation.MissingInputError].
	Variation variation.Source

	// At and On are the position and the date for the variation. A known variation
	// needs neither, a rose no position; see [variation.Source]. If At is nil or On
	// zero, a source that needs it is refused with a [*variation.MissingInputError].
	At *angle.Position
	On time.Time
}

func (t TrueHeadings) name() string      { return "another source of true heading" }
func (t TrueHeadings) columns() []string { return []string{"true"} }

func (t TrueHeadings) reduce(readings []reading) (reduction, error) {
	found, err := ask.Variation(t.Variation, t.At, t.On)
	if err != nil {
		return reduction{}, swingError(err)
	}
	v := found.Variation
	r := reduction{common: v.Uncertainty().Combined(t.Uncertainty), steps: append(found.Working, variationStep(v)), warnings: found.Warnings}
	for _, s := range readings {
		r.observations = append(r.observations, compared(s, "Heading", v.Magnetic(s.True), s.Heading, s.Uncertainty,
			working.Steps{working.Direction("true", "Heading by true", s.True, "given"), variationStep(v)}))
	}
	causes := append(ofVariation(found), cause{what: "true headings that are by magnetic", by: v.Angle()})
	r.warnings = append(r.warnings, likelyCauses(r.observations, causes)...)
	return r, nil
}

// A ShoreCompass compares the compass with one ashore, clear of iron, by bearings
// of each other at the same moment: it uses Bearing, of the shore compass from
// the vessel, and Shore, of the vessel from the shore compass.
type ShoreCompass struct {
	Uncertainty angle.Uncertainty // that all bearings from ashore share, such as the error of that compass; left out it is not stated, nor is [Swing.Common] then
}

func (c ShoreCompass) name() string      { return "reciprocal bearings with a compass ashore" }
func (c ShoreCompass) columns() []string { return []string{"bearing", "shore"} }

func (c ShoreCompass) reduce(readings []reading) (reduction, error) {
	r := reduction{common: c.Uncertainty}
	for _, s := range readings {
		r.observations = append(r.observations, compared(s, "Shore compass", s.Shore.Reciprocal(), s.Bearing, s.Uncertainty,
			working.Steps{working.Direction("shore", "Vessel from ashore", s.Shore, "its reciprocal is the bearing to compare")}))
	}
	return r, nil
}

// A SecondCompass compares the compass with another on board whose deviation is
// known: it uses Other of each [Reading], the heading by that compass.
type SecondCompass struct {
	Deviation deviation.Source // of the second compass; nil, it is missing, which is refused with a [*variation.MissingInputError]
}

func (c SecondCompass) name() string      { return "a second compass of known deviation" }
func (c SecondCompass) columns() []string { return []string{"other"} }

func (c SecondCompass) reduce(readings []reading) (reduction, error) {
	if c.Deviation == nil {
		return reduction{}, swingError(fmt.Errorf("the second compass: %w", ask.ErrNoSource))
	}
	var r reduction
	// The second compass has another error on each heading, so what is known of its
	// deviation is taken to belong to the readings.
	r.common = angle.Must(angle.StandardUncertainty(0))
	for i, s := range readings {
		e, err := deviation.Explain(c.Deviation, s.Other)
		if err != nil {
			return reduction{}, readingError(i, s.Heading, err)
		}
		steps := append(working.Steps{working.Direction("other", "Heading by second compass", s.Other, "read")}, e.Working...)
		for j := range steps[1:] {
			steps[j+1].Key, steps[j+1].What = "other "+steps[j+1].Key, "Its "+lowerFirst(steps[j+1].What)
		}
		for _, w := range e.Warnings {
			r.warnings = append(r.warnings, say.Warn(w.Kind, "the second compass, on %v: %s", s.Heading, w.Message))
		}
		u := s.Uncertainty.Combined(e.Deviation.Uncertainty())
		r.observations = append(r.observations, compared(s, "Heading", e.Deviation.Magnetic(s.Other), s.Heading, u, steps))
	}
	return r, nil
}

func lowerFirst(s string) string {
	if s != "" && s[0] >= 'A' && s[0] <= 'Z' {
		return string(s[0]+'a'-'A') + s[1:]
	}
	return s
}

// StatedDeviations takes a record that was reduced already: it uses Deviation of
// each [Reading].
type StatedDeviations struct{}

func (StatedDeviations) name() string      { return "a record of deviations" }
func (StatedDeviations) columns() []string { return []string{"deviation"} }

func (StatedDeviations) reduce(readings []reading) (reduction, error) {
	r := reduction{common: angle.Must(angle.StandardUncertainty(0))}
	for _, s := range readings {
		d := s.Deviation
		if _, stated := s.Uncertainty.Sigma(); stated {
			d = d.WithUncertainty(s.Uncertainty)
		}
		r.observations = append(r.observations, Observation{Heading: s.Heading, Deviation: d,
			Working: working.Steps{working.EastWest("deviation", "Deviation", d.Angle(), "as recorded on heading "+s.Heading.String())}})
	}
	return r, nil
}
