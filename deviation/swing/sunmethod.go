package swing

import (
	"slices"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation/internal/ask"
	"lubberline.example/deviation/internal/sunsight"
	"lubberline.example/variation"
)

// SunAzimuths compares the compass with the Sun. It uses the fields Bearing and Time of each
// [Reading]. The lower the Sun, the better; see package [lubberline.example/deviation/sky].
type SunAzimuths struct {
	// Position is the vessel's, for the whole swing. If it is nil, the swing returns a
	// [*variation.MissingInputError].
	Position *angle.Position

	// Variation is the source of the variation. It is asked once for the whole swing, at Position
	// and the time of the first reading. If it is nil, the swing returns a
	// [*variation.MissingInputError].
	Variation variation.Source
}

// name implements [Method].
func (m SunAzimuths) name() string { return "azimuths of the Sun" }

// columns implements [Method].
func (m SunAzimuths) columns() []string { return []string{"bearing", "time"} }

// reduce implements [Method].
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

// counted returns the first warning of each kind, with the number of headings if there are more.
func counted(warnings []working.Warning) []working.Warning {
	var out []working.Warning
	number := map[working.WarningKind]int{}
	for _, w := range warnings {
		if number[w.Kind]++; number[w.Kind] == 1 {
			out = append(out, w)
		}
	}
	for i := len(out) - 1; i >= 0; i-- {
		if n := number[out[i].Kind]; n > 1 {
			out = slices.Insert(out, i+1, working.Warn(out[i].Kind, "swing-same-warning", "the warning above holds on %d headings", n))
		}
	}
	return out
}
