package fix

import (
	"fmt"
	"math"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
)

// miles prints distances that stand together: all in nautical miles with the same decimals.
type miles int

// milesFor returns the form of distances that are printed together. They have two decimals of
// a mile, three if all are below a cable, or one if the largest is 10 miles or more.
func milesFor(distances ...sailing.Distance) miles {
	var largest sailing.Distance
	for _, d := range distances {
		if d := sailing.Distance(math.Abs(float64(d))); d > largest {
			largest = d
		}
	}
	switch {
	case largest >= 9.995*sailing.NauticalMile:
		return 1
	case largest >= 0.0995*sailing.NauticalMile:
		return 2
	}
	return 3
}

// of returns a distance in that form.
func (m miles) of(d sailing.Distance) string {
	return fmt.Sprintf("%.*f M", int(m), math.Abs(d.NauticalMiles()))
}

// small reports whether a distance would print as zero.
func (m miles) small(d sailing.Distance) bool {
	return math.Abs(d.NauticalMiles()) < math.Pow10(-int(m))/2
}

// miles returns the form of the distances of a fix: how far the lines pass, their
// uncertainties, the ellipse and the cocked hat.
func (f Fix) miles() miles {
	var all []sailing.Distance
	for i := range f.lines {
		if off := f.residuals[i].Offset; off > -60*sailing.NauticalMile && off < 60*sailing.NauticalMile {
			all = append(all, off)
		}
		if l := &f.lines[i]; l.stated && !l.isAngle() && l.kind != KindOther {
			all = append(all, sailing.Distance(l.sigma))
		}
	}
	if e, err := f.Ellipse(0.95); err == nil {
		all = append(all, e.SemiMajor)
	}
	return milesFor(all...)
}

// isAngle reports whether an angle was observed.
func (l *Line) isAngle() bool {
	return l.kind == KindBearing || l.kind == KindTransit || l.kind == KindHorizontalAngle
}

// positionText returns the position with as many decimals of a minute as its 95 % ellipse allows.
// There is no decimal if both semi-axes are at least 2 M, and there are two if both are at most
// half a cable. Otherwise there is one.
func (f Fix) positionText() string {
	decimals := 1
	if e, err := f.Ellipse(0.95); err == nil && !f.disagrees() {
		switch {
		case e.SemiMinor >= 2*sailing.NauticalMile:
			decimals = 0
		case e.SemiMajor <= sailing.Cable/2:
			decimals = 2
		}
	}
	return fmt.Sprintf("%.*v", decimals, f.position)
}

// uncertaintyText returns a standard uncertainty of an angle as text: in degrees, or below a
// quarter of a degree in minutes, as on a sextant.
func uncertaintyText(radians float64) string {
	switch minutes := radians * 180 * 60 / math.Pi; {
	case minutes >= 10*60: // %.2g would write 120° as 1.2e+02°
		return fmt.Sprintf("±%.0f°", minutes/60)
	case minutes >= 15:
		return fmt.Sprintf("±%.2g°", minutes/60)
	case minutes >= 9.95:
		return fmt.Sprintf("±%.0f′", minutes)
	default:
		return fmt.Sprintf("±%.1f′", minutes)
	}
}

// bearingText returns a direction to the whole degree.
func bearingText(t angle.True) string { return fmt.Sprintf("%.0f", t) }
