package deviation

import (
	"errors"
	"strings"

	"lubberline.example/angle"
)

// A Deviation is the angle between magnetic north and the north of the compass on one heading of
// the vessel, with its uncertainty. East is positive; it is in (−180°, 180°]. The zero value is 0°
// with an unknown uncertainty; see also [None].
//
// It has the methods of [angle.EastWest]. Magnetic and Compass convert between magnetic and compass
// directions. Values compare with ==.
type Deviation struct{ angle.EastWest }

// East returns an easterly deviation. A negative angle makes it westerly, and an angle beyond 180°
// continues round the circle.
func East(a angle.Angle) Deviation { return Deviation{angle.EastWestFrom(a)} }

// West returns a westerly deviation. A negative angle makes it easterly, and one
// beyond 180° goes on round the circle.
func West(a angle.Angle) Deviation { return Deviation{angle.EastWestFrom(-a)} }

// None returns the deviation of a compass that is taken to have none, for
// certain: a stated 0° ± 0°.
func None() Deviation {
	return East(0).WithUncertainty(angle.Must(angle.StandardUncertainty(0)))
}

// Parse reads a deviation: 3°30′E, 3.5E, W2, -2, 2½°W, with or without a
// standard uncertainty after it, 3°E ±0°30′. The word Deviation or Dev. may
// stand before the figures. A figure with minutes needs its name, E or W; see
// [angle.ParseEastWest] for what is read and refused.
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

// MustParse is [Parse] for texts written in a program; it panics on an error.
func MustParse(text string) Deviation { return angle.Must(Parse(text)) }

// Between returns the deviation from a magnetic direction and the same direction by compass.
func Between(m angle.Magnetic, c angle.Compass) Deviation {
	return East(m.FromNorth() - c.FromNorth())
}

// WithUncertainty returns the same deviation, known as well as given.
func (d Deviation) WithUncertainty(u angle.Uncertainty) Deviation {
	return Deviation{d.EastWest.WithUncertainty(u)}
}

// Equal reports whether two deviations and their uncertainties are the same; it
// is the same as ==.
func (d Deviation) Equal(e Deviation) bool { return d == e }

// Compass returns the compass direction of a magnetic direction. East is subtracted: with westerly
// deviation compass is greater than magnetic.
func (d Deviation) Compass(m angle.Magnetic) angle.Compass {
	return angle.CompassFrom(m.FromNorth() - d.Angle())
}

// Magnetic returns the magnetic direction of a compass direction. East is added.
func (d Deviation) Magnetic(c angle.Compass) angle.Magnetic {
	return angle.MagneticFrom(c.FromNorth() + d.Angle())
}

// OnCompass makes a known deviation a [Source]: it is the same on every
// heading.
func (d Deviation) OnCompass(angle.Compass) (Deviation, error) { return d, nil }

// OnMagnetic makes a known deviation a [Source]: it is the same on every
// heading.
func (d Deviation) OnMagnetic(angle.Magnetic) (Deviation, error) { return d, nil }
