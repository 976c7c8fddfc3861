package sky

import (
	"fmt"
	"math"

	"lubberline.example/angle"
)

// A Horizon says on which horizon the Sun's centre stands when its bearing is
// taken.
type Horizon string

// The two horizons of amplitudes.
const (
	// CelestialHorizon is the plane through the centre of the Earth: the true altitude of the Sun's
	// centre is zero. Refraction and dip then show the Sun higher. Take the bearing when the lower
	// limb is about two thirds of the Sun's diameter above the visible horizon.
	CelestialHorizon Horizon = "celestial-horizon"

	// VisibleHorizon is the line of sea and sky: the centre is seen on it, half
	// of the disc above.
	VisibleHorizon Horizon = "visible-horizon"
)

// A RisingSetting is the bearing of the Sun as it rises and as it sets.
type RisingSetting struct {
	Horizon  Horizon     `json:"horizon"`
	Altitude angle.Angle `json:"altitude"` // true altitude of the centre at that moment
	Rising   angle.True  `json:"rising"`   // true bearing, from 000° to 180°
	Setting  angle.True  `json:"setting"`  // true bearing, from 180° to 360° (000°)
}

// Amplitude returns the angle of the Sun from true east at rising, which equals the angle from true
// west at setting. North is positive. It is from −90° to 90°.
func (r RisingSetting) Amplitude() angle.Angle { return 90*angle.Degree - r.Rising.FromNorth() }

// AmplitudeRising returns the amplitude at rising as navigators write it, to a tenth
// of a degree: E 22.4° N. Zero is north.
func (r RisingSetting) AmplitudeRising() string { return r.named('E') }

// AmplitudeSetting returns the amplitude at setting as navigators write it, to a
// tenth of a degree: W 22.4° N. Zero is north.
func (r RisingSetting) AmplitudeSetting() string { return r.named('W') }

// named returns the amplitude from the east or the west point, as navigators write it.
func (r RisingSetting) named(from byte) string {
	amplitude, toward := r.Amplitude().Round(angle.Degree/10), byte('N')
	if amplitude < 0 {
		toward = 'S'
	}
	b := fmt.Appendf(nil, "%c %.1f %c", from, amplitude.Abs(), toward)
	return string(b)
}

// Amplitude returns the bearings of the Sun on the celestial horizon at a latitude
// and a declination (north positive). The amplitude A is
//
//	sin A = sin declination / cos latitude
//
// It has the name of the declination, and is counted from east at rising and from west at setting.
// With north declination the Sun rises on 090° − A and sets on 270° + A.
//
// If the Sun does not rise or set, or is on the horizon all day, it returns an [*Error].
// If the Sun only touches the horizon, both bearings are north or both are south. If the
// declination is beyond ±90°, it returns an [*angle.RangeError].
func Amplitude(latitude angle.Latitude, declination angle.Angle) (RisingSetting, error) {
	return crossing(latitude, declination, 0, CelestialHorizon)
}

// AmplitudeOnVisibleHorizon returns the bearings of the Sun when its centre is seen
// on the visible horizon from heightOfEyeMetres, 0 to 1000. The
// true altitude of the centre is then
//
//	−(dip + refraction − parallax)
//
// in a standard atmosphere: −0°34′ at the water's edge, −0°41′ from 9 m, −0°42′ from 12 m.
// (Bowditch's table for the correction of amplitudes observed on the visible horizon takes −0.7°;
// from memory.) The bearings follow from the spherical triangle at that altitude. Tables
// approximate them by a correction. The errors are those of [Amplitude] and [AlmanacDip].
func AmplitudeOnVisibleHorizon(latitude angle.Latitude, declination angle.Angle, heightOfEyeMetres float64) (RisingSetting, error) {
	dip, err := AlmanacDip(heightOfEyeMetres)
	if err != nil {
		return RisingSetting{}, err
	}
	altitude := -(dip + refractionSeen(-dip) - sunParallax)
	return crossing(latitude, declination, altitude, VisibleHorizon)
}

// crossing returns the bearings at which the Sun's centre crosses an altitude.
func crossing(latitude angle.Latitude, declination, altitude angle.Angle, horizon Horizon) (RisingSetting, error) {
	if err := checkDeclination(declination); err != nil {
		return RisingSetting{}, err
	}
	const quarter = 90 * angle.Degree
	north := latitude.Angle()
	none := func(stays ErrorKind) error {
		return &Error{
			What: fmt.Sprintf("rising or setting on the %v at latitude %v with declination %v", words(horizon), latitude, declination),
			Kind: stays,
		}
	}
	// The highest and the lowest of the day, exactly.
	switch highest, lowest := quarter-(north-declination).Abs(), (north+declination).Abs()-quarter; {
	case highest < altitude:
		return RisingSetting{}, none(StaysBelow)
	case lowest > altitude:
		return RisingSetting{}, none(StaysAbove)
	case highest == lowest:
		return RisingSetting{}, &Error{Kind: NoBearing, Altitude: altitude}
	}
	sinLat, cosLat := north.SinCos()
	sinAlt, cosAlt := altitude.SinCos()
	// Rounding may make it slightly larger than 1 if the Sun touches the horizon.
	cos := min(max((declination.Sin()-sinLat*sinAlt)/(cosLat*cosAlt), -1), 1)
	azimuth, _ := angle.Atan2(math.Sqrt((1-cos)*(1+cos)), cos) // a unit vector has a direction
	return RisingSetting{
		Horizon:  horizon,
		Altitude: altitude,
		Rising:   angle.TrueFrom(azimuth),
		Setting:  angle.TrueFrom(-azimuth),
	}, nil
}
