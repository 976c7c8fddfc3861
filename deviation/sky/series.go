package sky

import (
	"math"
	"time"
)

// Units and epochs.
const (
	degree = math.Pi / 180 // radians

	// j2000 is 2000-01-01 12:00 as Unix time.
	j2000 = 946_728_000

	// terrestrialTime is TT − UTC in seconds: 32.184 s and the 37 leap seconds
	// of 2017 onwards.
	terrestrialTime = 69.184
)

// A term is a periodic term of VSOP87 for the Earth's longitude: amplitude·cos(phase + rate·t). The
// amplitude is in 1e-8 radians, the phase in radians, and the rate in radians in a Julian
// millennium. The time t is from J2000.0 (TT).
type term struct{ amplitude, phase, rate float64 }

// perturbations are the largest terms that are not of the Earth's own elliptic
// motion. With five of them the largest difference of hour angle from the
// reference is 0.0040°, with ten 0.0017°, with these fifteen 0.0009°. The five of
// Meeus's earlier book (Astronomical Formulae for Calculators, chapter 18) leave
// 0.0042°.
var perturbations = [...]term{
	{3497, 2.7441, 5753.3849},
	{3418, 2.8289, 3.5231},
	{3136, 3.6277, 77713.7715}, // the Moon: the Earth about their common centre
	{2676, 4.4181, 7860.4194},
	{2343, 6.1352, 3930.2097},
	{1324, 0.7425, 11506.7698},
	{1273, 2.0371, 529.6910},
	{1199, 1.1096, 1577.3435},
	{990, 5.233, 5884.927},
	{902, 2.045, 26.298},
	{857, 3.508, 398.149},
	{780, 1.179, 5223.694},
	{753, 2.533, 5507.553},
	{492, 4.205, 775.523},
	{357, 2.920, 0.067},
}

// perturbation returns the sum of the terms, in degrees, at a number of Julian
// centuries from J2000.0.
func perturbation(centuries float64) float64 {
	t := centuries / 10
	// The longest period has a part that grows with time.
	sum := 425 * t * math.Cos(1.590+3.523*t)
	for i := range perturbations {
		p := &perturbations[i]
		sum += p.amplitude * math.Cos(p.phase+p.rate*t)
	}
	return sum * 1e-8 / degree
}

// An epoch is an instant as the formulas take it, with the attitude of the Earth at that instant.
type epoch struct {
	centuries       float64 // Julian, of TT, from J2000.0
	siderealTime    float64 // mean, of Greenwich, degrees
	nutation        float64 // in longitude, seconds of arc
	sinObliquity    float64 // of the true obliquity of the ecliptic
	cosObliquity    float64
	nutationOblique float64 // in obliquity, seconds of arc
}

// epochOf returns the epoch of an instant.
func epochOf(t time.Time) epoch {
	seconds := t.Unix() - j2000
	fraction := float64(t.Nanosecond()) * 1e-9
	days := (float64(seconds) + fraction) / 86400 // of UT, from J2000.0
	T := days / 36525
	timeOfDay := (float64(((seconds%86400)+86400)%86400) + fraction) / 86400 // from noon, in days
	e := epoch{siderealTime: 280.46061837 + 360*timeOfDay + 0.98564736629*days + T*T*(0.000387933-T/38710000)}

	T += terrestrialTime / (86400 * 36525)
	e.centuries = T
	// Nutation, in seconds of arc: of the Moon's node, and of the mean longitudes
	// of Sun and Moon.
	sinNode, cosNode := math.Sincos((125.04452 - T*1934.136261) * degree)
	sin2Sun, cos2Sun := math.Sincos(2 * (280.4665 + T*36000.7698) * degree)
	sin2Moon, cos2Moon := math.Sincos(2 * (218.3165 + T*481267.8813) * degree)
	e.nutation = -17.20*sinNode - 1.32*sin2Sun - 0.23*sin2Moon + 0.21*2*sinNode*cosNode
	e.nutationOblique = 9.20*cosNode + 0.57*cos2Sun + 0.10*cos2Moon - 0.09*(2*cosNode*cosNode-1)
	e.sinObliquity, e.cosObliquity = math.Sincos((meanObliquity(T) + e.nutationOblique) / 3600 * degree)
	return e
}

// meanObliquity returns the mean obliquity of the ecliptic, in seconds of arc.
func meanObliquity(T float64) float64 { return 84381.448 - T*(46.8150+T*(0.00059-T*0.001813)) }

// hourAngle returns the Greenwich hour angle of a true right ascension, in degrees, in
// [0, 360).
func (e *epoch) hourAngle(rightAscension float64) float64 {
	hourAngle := e.siderealTime + e.nutation*e.cosObliquity/3600 - rightAscension
	// Exact, and faster than math.Mod; the quotient may round up to a whole number.
	hourAngle -= 360 * math.Floor(hourAngle/360)
	if hourAngle < 0 {
		hourAngle += 360
	}
	return hourAngle
}

// sunLongitude returns the Sun's geometric longitude from the mean equinox of date, in degrees,
// without perturbations. It also returns the eccentricity of the Earth's orbit, and the Sun's
// distance in astronomical units.
func sunLongitude(T float64) (longitude, eccentricity, distance float64) {
	meanLongitude := 280.46646 + T*(36000.76983+T*0.0003032)
	meanAnomaly := (357.52911 + T*(35999.05029-T*0.0001537)) * degree
	eccentricity = 0.016708634 - T*(0.000042037+T*0.0000001267)

	// The equation of the centre; the multiples of the anomaly by the addition
	// theorems.
	sin, cos := math.Sincos(meanAnomaly)
	centre := (1.914602-T*(0.004817+T*0.000014))*sin +
		(0.019993-T*0.000101)*2*sin*cos +
		0.000289*sin*(3-4*sin*sin)
	distance = 1.000001018 * (1 - eccentricity*eccentricity) /
		(1 + eccentricity*math.Cos(meanAnomaly+centre*degree))
	return meanLongitude + centre, eccentricity, distance
}

// place returns the Sun's apparent declination and Greenwich hour angle, in
// degrees, the latter in [0, 360), and its distance in astronomical units.
func place(t time.Time) (declination, hourAngle, distance float64) {
	e := epochOf(t)
	longitude, _, distance := sunLongitude(e.centuries)
	const aberration = 20.4898 // seconds of arc at one astronomical unit
	longitude += perturbation(e.centuries) + (e.nutation-aberration/distance)/3600
	sinLongitude, cosLongitude := math.Sincos(longitude * degree)
	declination = math.Asin(e.sinObliquity*sinLongitude) / degree
	rightAscension := math.Atan2(e.cosObliquity*sinLongitude, cosLongitude) / degree
	return declination, e.hourAngle(rightAscension), distance
}
