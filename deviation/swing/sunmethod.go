package swing

import (
	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation/internal/ask"
	"lubberline.example/deviation/internal/say"
	"lubberline.example/deviation/internal/sunsight"
	"lubberline.example/variation"
)

// SunAzimuths compares the compass with the Sun: it uses Bearing and Time of each
// [Reading]. The lower the Sun, the better; see package [sky].
type SunAzimuths struct {
	// Position is the vessel's, for the whole swing. If nil, it is refused with a
	// [*variation.MissingInputError].
	Position *angle.Position

	// Variation tells the variation; see [lubberline.example/deviation/check.Reading.Variation]. It is asked once for
	// the whole swing, at Position and the time of the first reading. Nil, it is
	// missing, which is refused with a [*variation.MissingInputError].
	Variation variation.Source
}

func (m SunAzimuths) name() string      { return "azimuths of the Sun" }
func (m SunAzimuths) columns() []string { return []string{"bearing", "time"} }

func (m SunAzimuths) reduce(readings []reading) (reduction, error) {
	if m.Position == nil {
		return reduction{}, swingError(&variation.MissingInputError{What: "position"})
	}
	var r reduction
	var found variation.Explanation
	for i, s := range readings {
		sight, warnings, err := sunsight.At(s.Time, *m.Position)
		if err != nil {
			return reduction{}, readingError(i, s.Heading, err)
		}
		if i == 0 { // an invalid time was refused already
			if found, err = ask.Variation(m.Variation, m.Position, s.Time); err != nil {
				return reduction{}, swingError(err)
			}
			r.common, r.warnings = found.Variation.Uncertainty(), found.Warnings
			r.steps = append(found.Working, variationStep(found.Variation))
		}
		v := found.Variation
		r.warnings = append(r.warnings, warnings...)
		steps := append(sight.Working(), variationStep(v))
		r.observations = append(r.observations, compared(s, "Sun", v.Magnetic(sight.Azimuth), s.Bearing, s.Uncertainty, steps))
	}
	r.warnings = append(counted(r.warnings), likelyCauses(r.observations, m.causes(readings, r.observations, found))...)
	return r, nil
}

// counted are the warnings, those of one kind that differ in figures only as one with their
// number.
func counted(warnings []working.Warning) []working.Warning {
	var out []working.Warning
	number := map[working.WarningKind]int{}
	for _, w := range warnings {
		if number[w.Kind]++; number[w.Kind] == 1 {
			out = append(out, w)
		}
	}
	for i, w := range out {
		if n := number[w.Kind]; n > 1 {
			out[i] = say.Warn(w.Kind, "%s (so on %d headings)", w.Message, n)
		}
	}
	return out
}
