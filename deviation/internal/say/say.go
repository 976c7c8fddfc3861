// Package say prints what the packages of deviations print alike.
package say

import (
	"fmt"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// Inner prints an error that stands in another of this package, whose name is said.
func Inner(err error) string { return strings.TrimPrefix(fmt.Sprint(err), "deviation: ") }

// Signed prints an angle in degrees to a hundredth with its sign, zero with a
// plus.
func Signed(a angle.Angle) string {
	hundredths := int64(a.Round(angle.Degree/100) / (angle.Degree / 100))
	sign := "+"
	if hundredths < 0 {
		sign, hundredths = "−", -hundredths
	}
	return fmt.Sprintf("%s%d.%02d°", sign, hundredths/100, hundredths%100)
}

// Tenths prints a deviation to a tenth of a degree, with its uncertainty if that
// is stated and not zero when rounded.
func Tenths(d angle.EastWest) string {
	n := int(d.Angle().Round(angle.Degree/10) / (angle.Degree / 10))
	name := "E"
	switch {
	case n < 0:
		name, n = "W", -n
	case n == 0:
		name = " "
	}
	text := fmt.Sprintf("%d.%d°%s", n/10, n%10, name)
	if s, stated := d.Uncertainty().Sigma(); stated && s >= angle.Degree/20 {
		u := int(s.Round(angle.Degree/10) / (angle.Degree / 10))
		text += fmt.Sprintf(" ±%d.%d°", u/10, u%10)
	}
	return text
}

// Minutes prints an uncertainty to a minute.
func Minutes(a angle.Angle) string { return fmt.Sprintf("%.0v", a.Round(angle.Minute)) }

// Percent prints a probability in per cent.
func Percent(p float64) string {
	switch {
	case p < 0.001:
		return "<0.1 %"
	case p < 0.095:
		return fmt.Sprintf("%.1f %%", 100*p)
	}
	return fmt.Sprintf("%.0f %%", 100*p)
}

// Heading prints a heading with the letter of its kind, "compass" or "magnetic".
func Heading[K ~string](kind K, heading angle.Angle) string {
	if kind == "magnetic" {
		return angle.MagneticFrom(heading).String()
	}
	return angle.CompassFrom(heading).String()
}

// NotObserved warns of a sector without an observation, given by its ends.
func NotObserved(kind working.WarningKind, from, to string) working.Warning {
	return working.Warn(kind, "sector-not-observed", "there is no observation from %s to %s: the curve there follows from the other headings alone", from, to)
}
