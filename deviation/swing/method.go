package swing

import (
	"fmt"
	"slices"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/ask"
	"lubberline.example/variation"
)

// A Transit compares the compass with two charted marks in line, or with any object of a known,
// constant true direction. It uses the Bearing of each [Reading], taken as the vessel crosses the
// line on each heading.
type Transit struct {
	Direction   angle.True        // true direction of the marks in line, from the chart
	Uncertainty angle.Uncertainty // of the direction; if not stated, [Swing.Common] is unknown

	// Variation is the source of the variation, such as a chart's rose. It is asked once for the
	// whole swing. If it is nil, the swing returns a [*variation.MissingInputError].
	Variation variation.Source

	// At and On are the position and the date for which the variation is asked. A known variation
	// needs neither, and a rose needs no position. If one is missing and the source needs it, the
	// swing returns a [*variation.MissingInputError].
	At *angle.Position
	On time.Time
}

// name implements [Method].
func (t Transit) name() string { return "a transit of known direction" }

// columns implements [Method].
func (t Transit) columns() []string { return []string{"bearing"} }

// reduce implements [Method].
func (t Transit) reduce(readings []reading) (reduction, error) {
	found, err := ask.Variation(t.Variation, t.At, t.On)
	if err != nil {
		return reduction{}, swingError(err)
	}
	v := found.Variation
	should := v.Magnetic(t.Direction)
	r := reduction{common: v.Uncertainty().Combined(t.Uncertainty), warnings: found.Warnings}
	r.steps = append(append(found.Working,
		working.Direction("true", "Transit by true", t.Direction).Because("swing-from-chart", "from the chart")),
		variationStep(v),
		working.Direction("magnetic", "Transit by magnetic", should),
	)
	for _, s := range readings {
		r.observations = append(r.observations, compared(s, "Transit", should, s.Bearing, s.Uncertainty, nil))
	}
	causes := slices.Concat(ofVariation(found), ofDirection(t.Direction, v))
	r.warnings = append(r.warnings, likelyCauses(r.observations, causes)...)
	return r, nil
}

// variationStep is the step from true to magnetic.
func variationStep(v variation.Variation) working.Step {
	step := working.EastWest("variation", "Variation", v.Angle())
	switch {
	case v.Angle() > 0:
		return step.Because("swing-variation-east", "east: magnetic is less than true")
	case v.Angle() < 0:
		return step.Because("swing-variation-west", "west: magnetic is greater than true")
	}
	return step.Because("swing-variation-zero", "nothing to apply")
}

// TrueHeadings compares the compass with another source of the vessel's true heading, such as a
// gyro-compass corrected for its error. It uses the field True of each [Reading].
type TrueHeadings struct {
	Uncertainty angle.Uncertainty // shared by all true headings; if not stated, [Swing.Common] is unknown

	// Variation is the source of the variation, as in [Transit].
	Variation variation.Source

	// At and On are the position and the date for which the variation is asked, as in [Transit].
	At *angle.Position
	On time.Time
}

// name implements [Method].
func (t TrueHeadings) name() string { return "another source of true heading" }

// columns implements [Method].
func (t TrueHeadings) columns() []string { return []string{"true"} }

// reduce implements [Method].
func (t TrueHeadings) reduce(readings []reading) (reduction, error) {
	found, err := ask.Variation(t.Variation, t.At, t.On)
	if err != nil {
		return reduction{}, swingError(err)
	}
	v := found.Variation
	r := reduction{common: v.Uncertainty().Combined(t.Uncertainty), steps: append(found.Working, variationStep(v)), warnings: found.Warnings}
	for _, s := range readings {
		r.observations = append(r.observations, compared(s, "Heading", v.Magnetic(s.True), s.Heading, s.Uncertainty,
			working.Steps{working.Direction("true", "Heading by true", s.True).Because("swing-true-heading", "read from the other source"), variationStep(v)}))
	}
	causes := append(ofVariation(found), cause{working.Warn(LikelyCause, "swing-headings-magnetic", "A would be near zero if the headings given as true are by magnetic"), nil, v.Angle()})
	r.warnings = append(r.warnings, likelyCauses(r.observations, causes)...)
	return r, nil
}

// A ShoreCompass compares the compass with one ashore, clear of iron. Each takes a bearing of the
// other at the same moment. It uses the fields Bearing, of the shore compass from the vessel, and
// Shore, of the vessel from the shore compass.
type ShoreCompass struct {
	// Uncertainty is what all bearings from ashore share, such as the error of that compass. If not
	// stated, [Swing.Common] is unknown.
	Uncertainty angle.Uncertainty
}

// name implements [Method].
func (c ShoreCompass) name() string { return "reciprocal bearings with a compass ashore" }

// columns implements [Method].
func (c ShoreCompass) columns() []string { return []string{"bearing", "shore"} }

// reduce implements [Method].
func (c ShoreCompass) reduce(readings []reading) (reduction, error) {
	r := reduction{common: c.Uncertainty}
	for _, s := range readings {
		r.observations = append(r.observations, compared(s, "Shore compass", s.Shore.Reciprocal(), s.Bearing, s.Uncertainty,
			working.Steps{working.Direction("shore", "Vessel from ashore", s.Shore).Because("swing-from-ashore", "its reciprocal is the bearing to compare")}))
	}
	return r, nil
}

// A SecondCompass compares the compass with another on board whose deviation is known. It uses the
// field Other of each [Reading], the heading by that compass.
type SecondCompass struct {
	Deviation deviation.Source // of the second compass; if nil, the swing returns a [*variation.MissingInputError]
}

// name implements [Method].
func (c SecondCompass) name() string { return "a second compass of known deviation" }

// columns implements [Method].
func (c SecondCompass) columns() []string { return []string{"other"} }

// reduce implements [Method].
func (c SecondCompass) reduce(readings []reading) (reduction, error) {
	if c.Deviation == nil {
		return reduction{}, swingError(fmt.Errorf("the second compass: %w", ask.ErrNoSource))
	}
	var r reduction
	// The deviation of the second compass differs from heading to heading. So its uncertainty
	// counts as part of each reading.
	r.common = angle.Must(angle.StandardUncertainty(0))
	for i, s := range readings {
		e, err := deviation.Explain(c.Deviation, s.Other)
		if err != nil {
			return reduction{}, readingError(i, s.Heading, err)
		}
		steps := append(working.Steps{working.Direction("other", "Heading by second compass", s.Other).Because("swing-second-compass-read", "read")}, e.Working...)
		for j := range steps[1:] {
			steps[j+1].Key, steps[j+1].What = "other "+steps[j+1].Key, "Its "+lowerFirst(steps[j+1].What)
		}
		for _, w := range e.Warnings {
			r.warnings = append(r.warnings, w, working.Warn(w.Kind, "swing-second-compass-warning", "the warning above is about the second compass, on heading %v", s.Heading))
		}
		u := s.Uncertainty.Combined(e.Deviation.Uncertainty())
		r.observations = append(r.observations, compared(s, "Heading", e.Deviation.Magnetic(s.Other), s.Heading, u, steps))
	}
	return r, nil
}

// lowerFirst returns a text with a small first letter.
func lowerFirst(s string) string {
	if s != "" && s[0] >= 'A' && s[0] <= 'Z' {
		return string(s[0]+'a'-'A') + s[1:]
	}
	return s
}

// StatedDeviations takes a record of deviations that were found before. It uses the field
// Deviation of each [Reading].
type StatedDeviations struct{}

// name implements [Method].
func (StatedDeviations) name() string { return "a record of deviations" }

// columns implements [Method].
func (StatedDeviations) columns() []string { return []string{"deviation"} }

// reduce implements [Method].
func (StatedDeviations) reduce(readings []reading) (reduction, error) {
	r := reduction{common: angle.Must(angle.StandardUncertainty(0))}
	for _, s := range readings {
		d := s.Deviation
		if _, stated := s.Uncertainty.Sigma(); stated {
			d = d.WithUncertainty(s.Uncertainty)
		}
		r.observations = append(r.observations, Observation{Heading: s.Heading, Deviation: d,
			Working: working.Steps{working.EastWest("deviation", "Deviation", d.Angle()).Because("swing-as-recorded", "as recorded on heading %v", s.Heading)}})
	}
	return r, nil
}
