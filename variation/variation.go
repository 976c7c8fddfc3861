package variation

import (
	"errors"
	"strings"
	"time"

	"lubberline.example/angle"
)

// A Variation is the angle from true north to magnetic north at one place and time, east
// positive, in (−180°, 180°], with its uncertainty. The zero value is 0° with an unknown
// uncertainty.
//
// It has the methods of [angle.EastWest], and two that convert between true and magnetic
// directions. Values compare with ==.
type Variation struct{ angle.EastWest }

// East returns an easterly variation. A negative angle is to the west, and an angle beyond 180° is
// normalized.
func East(a angle.Angle) Variation { return Variation{angle.EastWestFrom(a)} }

// West returns a westerly variation. A negative angle is to the east, and an angle beyond 180° is
// normalized.
func West(a angle.Angle) Variation { return Variation{angle.EastWestFrom(-a)} }

// Parse reads a variation: 4°15′W, 4 15.0 W, W4°15', 2¾°E or -4.25. A standard uncertainty
// may follow: 4°15′W ±0°30′. Without one the uncertainty is unknown, and so is that of every
// result. For a chart's rose of recent years 0°30′ is usual in small-craft work (common
// practice). The word Variation or Var. may stand before the figures: Var. 14½° W. A figure
// with minutes needs its name, E or W. [angle.ParseEastWest] has the rules. For
// other text Parse returns an [*angle.ParseError].
func Parse(text string) (Variation, error) {
	var v Variation
	err := v.UnmarshalText([]byte(text))
	return v, err
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

// UnmarshalText reads a variation as [Parse] does.
func (v *Variation) UnmarshalText(text []byte) error {
	all := string(text)
	figures := afterName(all, "variation", "varn", "var")
	err := v.EastWest.UnmarshalText([]byte(figures))
	if p, ok := errors.AsType[*angle.ParseError](err); ok {
		// Also if the fault is in its uncertainty.
		p.What, p.Input, p.Offset = "variation", all, p.Offset+len(all)-len(figures)
	}
	return err
}

// MustParse is [Parse] for text written in a program. It panics on an error.
func MustParse(text string) Variation { return angle.Must(Parse(text)) }

// Between returns the variation that converts between a true and a magnetic direction.
func Between(t angle.True, m angle.Magnetic) Variation {
	return East(t.FromNorth() - m.FromNorth())
}

// WithUncertainty returns the same variation with another uncertainty.
func (v Variation) WithUncertainty(u angle.Uncertainty) Variation {
	return Variation{v.EastWest.WithUncertainty(u)}
}

// Equal reports whether two variations and their uncertainties are the same, as == does.
func (v Variation) Equal(w Variation) bool { return v == w }

// Magnetic converts a true direction to magnetic. It subtracts easterly variation: with
// westerly variation, magnetic is greater than true.
func (v Variation) Magnetic(t angle.True) angle.Magnetic {
	return angle.MagneticFrom(t.FromNorth() - v.Angle())
}

// True converts a magnetic direction to true. It adds easterly variation.
func (v Variation) True(m angle.Magnetic) angle.True {
	return angle.TrueFrom(m.FromNorth() + v.Angle())
}

// VariationAt makes a known variation a [Source]: it is the same everywhere and always.
func (v Variation) VariationAt(angle.Position, time.Time) (Variation, error) { return v, nil }
