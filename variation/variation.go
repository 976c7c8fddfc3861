package variation

import (
	"errors"
	"time"

	"lubberline.example/angle"
)

// A Variation is the angle by which magnetic north lies east (positive) or west
// of true north at one place and time, in (−180°, 180°], and how well it is
// known. The zero value is nought, its uncertainty not stated.
//
// Its methods are those of [angle.EastWest], and the two ways between true and
// magnetic directions. Values compare with ==.
type Variation struct{ angle.EastWest }

// East returns an easterly variation.
func East(a angle.Angle) Variation { return Variation{angle.EastWestFrom(a)} }

// West returns a westerly variation.
func West(a angle.Angle) Variation { return Variation{angle.EastWestFrom(-a)} }

// Parse reads a variation: 4°15′W, 4 15.0 W, W4°15', 2¾°E, -4.25, with or
// without a standard uncertainty after it, 4°15′W ±0°30′. Without one the uncertainty is
// not stated, and so is that of all that follows from it: 0°30′ is usual for a chart's rose
// of recent years in small-craft work (common practice). A figure with minutes
// needs its name; see [angle.ParseEastWest] for what is read and refused.
func Parse(text string) (Variation, error) {
	var v Variation
	err := v.UnmarshalText([]byte(text))
	return v, err
}

// UnmarshalText reads what [Parse] reads, and refuses what it refuses, with a
// [*angle.ParseError].
func (v *Variation) UnmarshalText(text []byte) error {
	err := v.EastWest.UnmarshalText(text)
	if p, ok := errors.AsType[*angle.ParseError](err); ok {
		p.What = "variation" // a fault of its uncertainty, too
	}
	return err
}

// MustParse is [Parse] for texts written in a program; it panics on an error.
func MustParse(text string) Variation { return angle.Must(Parse(text)) }

// Between returns the variation that makes one direction read as the other.
func Between(t angle.True, m angle.Magnetic) Variation {
	return East(t.FromNorth() - m.FromNorth())
}

// WithUncertainty returns the same variation, known as well as given.
func (v Variation) WithUncertainty(u angle.Uncertainty) Variation {
	return Variation{v.EastWest.WithUncertainty(u)}
}

// Equal reports whether two variations and their uncertainties are the same; it
// is the same as ==.
func (v Variation) Equal(w Variation) bool { return v == w }

// Magnetic returns the magnetic direction of a true one. East is subtracted:
// with westerly variation magnetic is greater than true.
func (v Variation) Magnetic(t angle.True) angle.Magnetic {
	return angle.MagneticFrom(t.FromNorth() - v.Angle())
}

// True returns the true direction of a magnetic one. East is added.
func (v Variation) True(m angle.Magnetic) angle.True {
	return angle.TrueFrom(m.FromNorth() + v.Angle())
}

// VariationAt makes a known variation a [Source]: it is the same everywhere and
// always.
func (v Variation) VariationAt(angle.Position, time.Time) (Variation, error) { return v, nil }
