package deviation

import (
	"fmt"

	"lubberline.example/angle"
)

// An AmbiguousHeadingError reports a heading without a single answer. A magnetic heading belongs to
// more than one compass heading, or a compass heading to more than one magnetic heading. This
// happens with large deviations that change faster than the heading. The compass cannot be used on
// these headings.
type AmbiguousHeadingError struct {
	// One of the two has the heading that was asked for, alone. The other has all headings that
	// belong to it.
	Compass  []angle.Compass
	Magnetic []angle.Magnetic
}

// Error names the headings.
func (e *AmbiguousHeadingError) Error() string {
	if len(e.Magnetic) == 0 || len(e.Compass) == 0 { // made by hand
		return "deviation: the heading is ambiguous: the deviations change too fast for the compass to be used there"
	}
	if len(e.Magnetic) == 1 {
		return fmt.Sprintf("deviation: magnetic heading %v belongs to %d compass headings, %v: the deviations change too fast there; steer by another compass, or have this one adjusted", e.Magnetic[0], len(e.Compass), e.Compass)
	}
	return fmt.Sprintf("deviation: compass heading %v belongs to %d magnetic headings, %v: the deviations change too fast there; steer by another compass, or have this one adjusted", e.Compass[0], len(e.Magnetic), e.Magnetic)
}

// ambiguous reports the headings, of a kind, that have an other heading.
func ambiguous(by HeadingKind, found []angle.Angle, other angle.Angle) error {
	e := &AmbiguousHeadingError{}
	if by == ByCompass {
		e.Magnetic = []angle.Magnetic{angle.MagneticFrom(other)}
		for _, h := range found {
			e.Compass = append(e.Compass, angle.CompassFrom(h))
		}
		return e
	}
	e.Compass = []angle.Compass{angle.CompassFrom(other)}
	for _, h := range found {
		e.Magnetic = append(e.Magnetic, angle.MagneticFrom(h))
	}
	return e
}
