package fix

import (
	"fmt"
	"math"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
)

// titled is what a line is and what it is of.
func (l *Line) titled() string {
	switch l.kind {
	case KindLatitude, KindLongitude, KindOther:
		return l.name
	case KindTransit, KindHorizontalAngle:
		return string(l.kind) + ", " + l.name
	}
	if l.kind == KindRange {
		return "distance off " + l.name
	}
	return string(l.kind) + " of " + l.name
}

// observed is what was observed, as text and as a number in a unit. It is empty of a
// latitude and a longitude, which stand in the name.
func (l *Line) observed() (text string, number float64, unit string) {
	degrees, _ := angle.Radians(l.want)
	switch l.kind {
	case KindBearing:
		t := angle.TrueFrom(degrees)
		return fmt.Sprintf("%.1f", t), t.Degrees(), working.DegreesFromNorth
	case KindHorizontalAngle:
		return string(degrees.AppendMinutes(nil, 1)), degrees.Degrees(), "degrees"
	case KindRange:
		d := sailing.Distance(l.want)
		return d.String(), d.NauticalMiles(), "nautical miles"
	case KindOther:
		return strings.TrimSpace(fmt.Sprintf("%g %s", l.want, l.unit)), l.want, l.unit
	case KindTransit:
		return "in line", 0, ""
	case KindLatitude:
		return "", degrees.Degrees(), "degrees, north positive"
	case KindLongitude:
		return "", degrees.Degrees(), "degrees, east positive"
	}
	return "", 0, ""
}

// known is how well a line is known altogether, what it shares included and the
// transfer not, or empty.
func (l *Line) known() string {
	if !l.stated {
		return ""
	}
	sigma := math.Hypot(l.sigma, math.Hypot(l.ofVariation, l.ofDeviation))
	switch l.kind {
	case KindBearing, KindTransit, KindHorizontalAngle:
		return fmt.Sprintf("±%.2g°", sigma*180/math.Pi)
	case KindOther:
		return strings.TrimSpace(fmt.Sprintf("±%g %s", sigma, l.unit))
	}
	return "±" + metres(sailing.Distance(sigma))
}

// passes is how far from the fix a line passes, and on which side.
func (r Residual) passes() string {
	off, toward := r.Offset, r.Toward
	if off < 0 {
		off, toward = -off, toward.Reciprocal()
	}
	if off < 1 {
		return "through the fix"
	}
	return fmt.Sprintf("%s off toward %s", metres(off), toward.AppendDegrees(nil, 0))
}

// metres is a short distance in metres, a longer one in miles.
func metres(d sailing.Distance) string {
	if d < 1852/2 {
		return fmt.Sprintf("%.0f m", d.Metres())
	}
	return d.String()
}
