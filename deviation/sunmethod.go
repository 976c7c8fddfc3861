package deviation

import (
	"errors"
	"fmt"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation/sun"
	"lubberline.example/variation"
)

// SunAzimuths compares the compass with the Sun: it uses Bearing and Time of each
// [Reading]. The lower the Sun, the better; see package [sun].
type SunAzimuths struct {
	// Position is the vessel's, for the whole swing. If nil, it is refused with a
	// [*MissingInputError].
	Position *angle.Position

	// Variation tells the variation; see [CheckReading.Variation]. It is asked once for
	// the whole swing, at Position and the time of the first reading. Nil, it is
	// missing, which is refused with a [*MissingInputError].
	Variation variation.Source
}

func (m SunAzimuths) name() string      { return "azimuths of the Sun" }
func (m SunAzimuths) columns() []string { return []string{"bearing", "time"} }

// errSunDown refuses a bearing of a Sun that can't have been seen.
var errSunDown = errors.New("the Sun was below the horizon: check date, time (UTC) and position")

// errSunOverhead refuses a bearing of a Sun in the zenith.
var errSunOverhead = errors.New("the Sun was overhead and has no bearing")

const (
	sunDown = -angle.Degree - 30*angle.Minute // refraction, semi-diameter and some dip raise the upper limb by less
	sunHigh = 45 * angle.Degree               // above it a tilt of the card by 1° is an error of 1° or more
)

// sunBearing is the Sun's true bearing with what warns of it.
func sunBearing(t time.Time, p angle.Position) (sun.Sight, []working.Warning, error) {
	s, err := sun.At(t)
	if err != nil {
		return sun.Sight{}, nil, err
	}
	sight := s.From(p)
	switch {
	case sight.Altitude < sunDown:
		return sun.Sight{}, nil, fmt.Errorf("%w; it stood %.1f° below", errSunDown, -sight.Altitude.Degrees())
	case !sight.Defined():
		return sun.Sight{}, nil, errSunOverhead
	case sight.Altitude > sunHigh:
		return sight, []working.Warning{warn(HighSun, "the Sun was %.0f° high: a tilt of the card or the sight spoils the bearing; observe it low", sight.Altitude.Degrees())}, nil
	}
	return sight, nil, nil
}

func (m SunAzimuths) reduce(readings []reading) (reduction, error) {
	if m.Position == nil {
		return reduction{}, &ReadingError{Index: -1, Err: &MissingInputError{What: "position"}}
	}
	var r reduction
	var v variation.Variation
	for i, s := range readings {
		sight, warnings, err := sunBearing(s.Time, *m.Position)
		if err != nil {
			return reduction{}, &ReadingError{i, s.Heading, err}
		}
		if i == 0 { // a time that is none was refused as such
			found, err := explainVariation(m.Variation, m.Position, s.Time)
			if err != nil {
				return reduction{}, &ReadingError{Index: -1, Err: err}
			}
			v = found.Variation
			r.common, r.warnings = v.Uncertainty(), found.Warnings
			r.steps = append(found.Working, variationStep(v))
		}
		r.warnings = append(r.warnings, warnings...)
		steps := append(sight.Working(), variationStep(v))
		r.observations = append(r.observations, compared(s, "Sun", v.Magnetic(sight.Azimuth), s.Bearing, s.Uncertainty, steps))
	}
	r.warnings = append(counted(r.warnings), likelyCauses(r.observations, m.causes(readings, r.observations, v))...)
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
			out[i] = warn(w.Kind, "%s (so on %d headings)", w.Message, n)
		}
	}
	return out
}
