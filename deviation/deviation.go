package deviation

import (
	"errors"
	"strings"

	"lubberline.example/angle"
)

// A Deviation is the angle from magnetic north to compass north on one heading of the vessel, east
// positive, in (−180°, 180°], with its uncertainty. The zero value is 0° with an unknown
// uncertainty; see also [None].
//
// It has the methods of [angle.EastWest]. Magnetic and Compass convert between magnetic and compass
// directions. Values compare with ==.
type Deviation struct{ angle.EastWest }

// East returns an easterly deviation. A negative angle is to the west, and an angle beyond 180° is
// normalized.
func East(a angle.Angle) Deviation { return Deviation{angle.EastWestFrom(a)} }

// West returns a westerly deviation. A negative angle is to the east, and an angle beyond 180° is
// normalized.
func West(a angle.Angle) Deviation { return Deviation{angle.EastWestFrom(-a)} }

// None returns a deviation of exactly 0°, with a stated uncertainty of 0°. It is for a compass that
// is taken to have no deviation.
func None() Deviation {
	return East(0).WithUncertainty(angle.Must(angle.StandardUncertainty(0)))
}

// Parse reads a deviation: 3°30′E, 3.5E, W2, -2 or 2½°W. The word Deviation or Dev. may stand before
// the figures, and a standard uncertainty may follow: 3°E ±0°30′. Without one the uncertainty is
// unknown. A figure with minutes needs its name, E or W. [angle.ParseEastWest] has the rules. For
// other text Parse returns an [*angle.ParseError].
func Parse(text string) (Deviation, error) {
	var d Deviation
	figures := afterName(text, "deviation", "devn", "dev")
	err := d.UnmarshalText([]byte(figures))
	if p, ok := errors.AsType[*angle.ParseError](err); ok {
		p.Input, p.Offset = text, p.Offset+len(text)-len(figures)
	}
	return d, err
}

// afterName returns what follows the name of the quantity, which may be shortened and have a
// full stop. If the text does not begin with a name, afterName returns all of it.
func afterName(text string, names ...string) string {
	begin := strings.TrimLeft(text, " \t\u00a0")
	for _, name := range names {
		if len(begin) <= len(name) || !strings.EqualFold(begin[:len(name)], name) {
			continue
		}
		rest := begin[len(name):]
		if after, dot := strings.CutPrefix(rest, "."); dot && after != "" && (after[0] < '0' || after[0] > '9') {
			rest = after
		}
		figures := strings.TrimLeft(rest, " \t\u00a0:=")
		if len(figures) < len(begin)-len(name) {
			return figures
		}
	}
	return text
}

// MustParse is [Parse] for text written in a program. It panics on an error.
func MustParse(text string) Deviation { return angle.Must(Parse(text)) }

// Between returns the deviation that converts between a magnetic direction and the same direction
// by compass.
func Between(m angle.Magnetic, c angle.Compass) Deviation {
	return East(m.FromNorth() - c.FromNorth())
}

// WithUncertainty returns the same deviation with another uncertainty.
func (d Deviation) WithUncertainty(u angle.Uncertainty) Deviation {
	return Deviation{d.EastWest.WithUncertainty(u)}
}

// Equal reports whether two deviations and their uncertainties are the same, as == does.
func (d Deviation) Equal(e Deviation) bool { return d == e }

// Compass converts a magnetic direction to compass. It subtracts easterly deviation: with westerly
// deviation, compass is greater than magnetic.
func (d Deviation) Compass(m angle.Magnetic) angle.Compass {
	return angle.CompassFrom(m.FromNorth() - d.Angle())
}

// Magnetic converts a compass direction to magnetic. It adds easterly deviation.
func (d Deviation) Magnetic(c angle.Compass) angle.Magnetic {
	return angle.MagneticFrom(c.FromNorth() + d.Angle())
}

// OnCompass makes a known deviation a [Source]: it is the same on every
// heading.
func (d Deviation) OnCompass(angle.Compass) (Deviation, error) { return d, nil }

// OnMagnetic makes a known deviation a [Source]: it is the same on every
// heading.
func (d Deviation) OnMagnetic(angle.Magnetic) (Deviation, error) { return d, nil }
