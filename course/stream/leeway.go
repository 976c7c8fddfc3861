package stream

import (
	"fmt"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// A Leeway is the angle by which the wind sets a vessel to leeward of its heading, and the
// side that the wind is on. The zero value is no leeway. If Angle is not 0, WindSide must be
// a side.
type Leeway struct {
	Angle    angle.Angle `json:"angle"`             // from 0 to 45°
	WindSide angle.Side  `json:"windSide,omitzero"` // the vessel is set to the other side
}

// MaxLeeway is the maximum leeway.
const MaxLeeway = 45 * angle.Degree

// The warnings of [LeewayOn].
const (
	BeforeTheWind  working.WarningKind = "before-the-wind"   // no leeway was applied
	CloseToTheWind working.WarningKind = "close-to-the-wind" // closer than most sailing vessels can sail
	LeewayTiny     working.WarningKind = "leeway-tiny"       // perhaps a number without its unit
)

// closestToTheWind is about the least angle to the true wind at which sailing vessels sail
// (common practice: between 35 and 50°).
const closestToTheWind = 40 * angle.Degree

// LeewayOn returns the leeway of a vessel on a heading, with the side that the wind is on. A
// wind is named by the direction from which it blows.
//
// If the wind is from right astern, or within the leeway of right astern, a small shift
// would change the side. LeewayOn then returns no leeway, and a warning. It also warns of a
// heading within 40° of the wind, and of a leeway below a minute.
//
// If the leeway is not from 0 to [MaxLeeway], or the wind is right ahead, it returns an
// [*Error] of kind [InvalidLeeway].
func LeewayOn(heading angle.True, leeway angle.Angle, windFrom angle.True) (Leeway, []working.Warning, error) {
	if leeway < 0 || leeway > MaxLeeway {
		return Leeway{}, nil, &Error{Kind: InvalidLeeway, Reason: fmt.Sprintf("leeway %v: write 0 to 45°; the side follows from the wind", leeway)}
	}
	off := windFrom.Sub(heading)
	if leeway != 0 && off == 0 {
		return Leeway{}, nil, &Error{Kind: InvalidLeeway, Reason: fmt.Sprintf("leeway %v: the wind is right ahead and sets the vessel to neither side", leeway)}
	}
	l := Leeway{leeway, angle.Starboard}
	if off < 0 {
		l.WindSide = angle.Port
	}
	if leeway == 0 {
		return l, nil, nil
	}
	var warnings []working.Warning
	if leeway < angle.Minute {
		warnings = append(warnings, working.Warn(LeewayTiny, "leeway-tiny", "the leeway is only %v″: a number without its unit? Write 5*angle.Degree", leeway.Seconds()))
	}
	switch astern := angle.Turn/2 - off.Abs(); {
	case astern <= leeway:
		l.Angle = 0
		warnings = append(warnings, working.Warn(BeforeTheWind, "before-the-wind", "the wind is %.0f° from right astern: no leeway is applied; watch which way the wind sets the vessel", astern.Degrees()))
	case off.Abs() < closestToTheWind:
		warnings = append(warnings, working.Warn(CloseToTheWind, "close-to-the-wind", "the wind is %.0f° from the bow: most sailing vessels can sail no closer than about %.0f°; tack, or use the engine", off.Abs().Degrees(), closestToTheWind.Degrees()))
	}
	return l, warnings, nil
}

// valid reports whether the angle is in the range, on a side of the vessel.
func (l Leeway) valid() bool {
	sided := l.WindSide == angle.Starboard || l.WindSide == angle.Port || l == Leeway{}
	return sided && l.Angle >= 0 && l.Angle <= MaxLeeway
}

// Deflection returns the angle from the heading to the course through the water. It is
// positive (clockwise) with the wind on the port side, and negative with the wind on the
// starboard side. Add it to a heading to get the course through the water. Subtract it
// from a course through the water to get the heading.
func (l Leeway) Deflection() angle.Angle {
	if l.WindSide == angle.Port {
		return l.Angle
	}
	return -l.Angle
}

// String returns the leeway as "5°00′, wind on the starboard side", or as "none".
func (l Leeway) String() string {
	if l.Angle == 0 {
		return "none"
	}
	return fmt.Sprintf("%v, wind on the %s side", l.Angle, l.side())
}

// side returns the side that the wind is on.
func (l Leeway) side() angle.Side {
	if l.WindSide == angle.Port {
		return angle.Port
	}
	return angle.Starboard
}
