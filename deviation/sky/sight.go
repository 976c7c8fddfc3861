package sky

import (
	"math"

	"lubberline.example/angle"
)

// A Sight is a body as it is seen from one position at one instant. [Body.From] makes it. It
// compares with ==.
type Sight struct {
	Body     Body           `json:"body"`
	Position angle.Position `json:"position"`

	// LocalHourAngle is the angle westward from the observer's meridian to the body's, in [0°,
	// 360°): the Greenwich hour angle plus the east longitude. It is over 180° if the body is east
	// of the meridian, as the Sun in the morning.
	LocalHourAngle angle.Angle `json:"localHourAngle"`

	// Altitude is the angle of the body's centre above the celestial horizon, negative below it. It
	// is from the centre of the Earth, without refraction, parallax or dip. See [Sight.Apparent].
	Altitude angle.Angle `json:"altitude"`

	// Azimuth is the true bearing of the body. It is north if the body has no bearing; see
	// [Sight.Defined].
	Azimuth angle.True `json:"azimuth"`
}

// From returns the body as it is seen from a position.
//
// At a pole, bearings are counted from the meridian of the position's longitude. At the north pole,
// a body over longitude λ bears 180° from an observer whose longitude is given as λ. The latitude
// is taken as the astronomical one; a deflection of the vertical is a few seconds of arc.
//
// From does not check the declination. No body has one beyond ±90°; [Azimuth] returns an error
// for it.
func (b Body) From(p angle.Position) Sight {
	hourAngle := (b.GreenwichHourAngle.Normalized() + p.Longitude.Angle()).Normalized()
	azimuth, altitude, _ := solve(p.Latitude, b.Declination, hourAngle)
	return Sight{Body: b, Position: p, LocalHourAngle: hourAngle, Altitude: altitude, Azimuth: azimuth}
}

// Defined reports whether the body has a bearing. It has none within a millionth of
// a second of arc of the zenith and the nadir.
func (s Sight) Defined() bool { return isDefined(s.Altitude) }

// isDefined reports whether an altitude is that of a body that has a bearing.
func isDefined(altitude angle.Angle) bool {
	return altitude.Abs() < 90*angle.Degree-angle.Second/1_000_000
}

// Azimuth returns the true bearing and the altitude of a body's centre, without refraction and
// parallax. The declination is positive north. The local hour angle is positive westward, with any
// number of turns; east of the meridian it is negative or over 180°.
//
// If the declination is beyond ±90°, it returns an [*angle.RangeError]. If the body is in the
// zenith or the nadir, it returns the altitude and an [*Error]; see [Sight.Defined].
func Azimuth(latitude angle.Latitude, declination, localHourAngle angle.Angle) (azimuth angle.True, altitude angle.Angle, err error) {
	if err := checkDeclination(declination); err != nil {
		return angle.True{}, 0, err
	}
	azimuth, altitude, defined := solve(latitude, declination, localHourAngle)
	if !defined {
		return angle.True{}, altitude, &Error{Kind: NoBearing, Altitude: altitude}
	}
	return azimuth, altitude, nil
}

// solve solves the triangle of pole, zenith and body, and reports whether the body has a bearing.
// It uses the body's components up, east and north, which are accurate everywhere.
func solve(latitude angle.Latitude, declination, hourAngle angle.Angle) (angle.True, angle.Angle, bool) {
	sinLat, cosLat := latitude.Angle().SinCos()
	sinDec, cosDec := declination.SinCos()
	sinHour, cosHour := hourAngle.SinCos()
	up := sinLat*sinDec + cosLat*cosDec*cosHour
	east := -cosDec * sinHour
	// The conversions forbid fused multiplication, by which equal products would
	// not cancel.
	north := float64(cosLat*sinDec) - float64(sinLat*cosDec*cosHour)
	// Of three components of a unit vector, not all are zero: no error here.
	altitude, _ := angle.Atan2(up, math.Hypot(east, north))
	if !isDefined(altitude) {
		return angle.True{}, altitude, false
	}
	fromNorth, _ := angle.Atan2(east, north)
	return angle.TrueFrom(fromNorth), altitude, true
}
