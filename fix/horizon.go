package fix

import (
	"fmt"
	"math"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
)

// A Refraction is the coefficient k of terrestrial refraction: the curvature of a ray
// near the surface as a part of the earth's. The air decides it from hour to hour,
// between about 0.1 and 0.2 by day and wider over water colder or warmer than the
// air. The zero value is straight rays, as if there were no air.
type Refraction float64

// Coefficients in use. HorizonTable makes the distance of the horizon in nautical
// miles 1.17 times the square root of the height in feet, as Bowditch's table does
// (The American Practical Navigator, editions 1995 to 2024; the rule and the k behind
// it from memory). Surveying is the value of geodetic levelling, after Gauss (from
// memory).
const (
	HorizonTable Refraction = 0.1728
	Surveying    Refraction = 0.13
)

// meanRadius is that of a sphere of the volume of the earth (IUGG).
const meanRadius = 6371008.8

// raySpan is the radius of the sphere over which rays are straight.
func (k Refraction) raySpan() (float64, error) {
	if !(k > -1 && k < 0.9) {
		return 0, &angle.RangeError{What: "refraction coefficient", Value: float64(k), Accepted: "above −1, below 0.9; near 0.17"}
	}
	return meanRadius / (1 - float64(k)), nil
}

func checkHeight(what string, height sailing.Distance) error {
	if !(height >= 0 && height <= 10_000) {
		return &angle.RangeError{What: what, Value: height.Metres(), Accepted: "metres from 0 to 10000"}
	}
	return nil
}

// Horizon returns the distance of the sea horizon from a height of eye:
// that of the tangent, cos D = R/(R + h) on the sphere that refraction makes of the
// earth, which is √(2Rh) for a ship's heights. Heights below 0 or above 10,000 m and
// invalid coefficients are refused with an [*angle.RangeError].
func Horizon(heightOfEye sailing.Distance, k Refraction) (sailing.Distance, error) {
	if err := checkHeight("height of eye", heightOfEye); err != nil {
		return 0, err
	}
	r, err := k.raySpan()
	if err != nil {
		return 0, err
	}
	// The arc of the ray's sphere belongs to the earth's own surface.
	return sailing.Distance(r * math.Acos(r/(r+heightOfEye.Metres()))), nil
}

// GeographicRange returns the distance at which a light of a height first shows over
// the horizon, from a height of eye: the sum of the two horizons.
// Errors are those of [Horizon]. A light is seen so far only if it is strong enough;
// the charted range may be another.
func GeographicRange(heightOfLight, heightOfEye sailing.Distance, k Refraction) (sailing.Distance, error) {
	eye, err := Horizon(heightOfEye, k)
	if err != nil {
		return 0, err
	}
	if err := checkHeight("height of the light", heightOfLight); err != nil {
		return 0, err
	}
	light, err := Horizon(heightOfLight, k)
	return eye + light, err
}

// DippingLight returns the line of a light that has just dipped or risen, at its
// geographic range, and the standard uncertainty of that, mostly the refraction's: a
// tenth of it at least. 0 is not stated, and below 0 is refused with a [*Error].
func DippingLight(mark Mark, heightOfLight, heightOfEye sailing.Distance, k Refraction, known sailing.Distance) (Line, error) {
	d, err := GeographicRange(heightOfLight, heightOfEye, k)
	if err != nil {
		return Line{}, err
	}
	l, err := Range(mark, d, known)
	if err != nil {
		return Line{}, err
	}
	l.steps[0].How = fmt.Sprintf("of %v, dipping: the horizons of %.1f and %.1f metres", mark, heightOfLight.Metres(), heightOfEye.Metres())
	return l, nil
}

// Dip returns the angle by which the sea horizon lies below the level, from a height
// of eye: tan dip = √(2h(1 − k)/R) for a ship's heights. Errors are those of [Horizon].
//
// It is the dip that belongs to [Horizon] and [DistanceByVerticalAngleBeyond] with the
// same k, for heights to 10,000 m: with [HorizonTable] 1.75′ times the root of the
// metres. That of package deviation/sky is the almanac's, 1.76′ times the root, for
// heights to 1000 m, as altitudes by sextant are corrected with; they differ by one part
// in 200.
func Dip(heightOfEye sailing.Distance, k Refraction) (angle.Angle, error) {
	d, err := Horizon(heightOfEye, k)
	if err != nil {
		return 0, err
	}
	// The ray leaves the horizon level and turns by k of the arc on the way.
	return angle.Radians(float64(d) / meanRadius * (1 - float64(k)))
}

// DistanceByVerticalAngle returns the distance off an object by the angle between its top and
// the water line below it, as by sextant, corrected for index error. Its height is
// that above the water. The base must be seen: the distance may not be beyond the
// horizon of the eye; otherwise use [DistanceByVerticalAngleBeyond].
//
//	distance = height / tan angle
//
// The rule in use, 1.856 times the metres over the minutes of arc, is the same. Angles
// must be above 0 and below 90°: otherwise an [*angle.RangeError].
func DistanceByVerticalAngle(height sailing.Distance, a angle.Angle, heightOfEye sailing.Distance) (sailing.Distance, error) {
	if err := checkHeight("height of the object", height); err != nil {
		return 0, err
	}
	if height == 0 {
		return 0, &angle.RangeError{What: "height of the object", Value: 0, Accepted: "metres above 0"}
	}
	if a <= 0 || a >= 90*angle.Degree {
		return 0, &angle.RangeError{What: "vertical angle", Value: a.Degrees(), Accepted: "degrees above 0, below 90"}
	}
	d := height / sailing.Distance(a.Tan())
	horizon, err := Horizon(heightOfEye, HorizonTable)
	if err != nil {
		return 0, err
	}
	if d > horizon && heightOfEye > 0 {
		return 0, &angle.RangeError{What: "distance of the object in metres", Value: math.Round(float64(d)), Accepted: fmt.Sprintf("one within the horizon of the eye, %v, where its base is seen; beyond it use DistanceByVerticalAngleBeyond", horizon)}
	}
	return d, nil
}

// DistanceByVerticalAngleBeyond returns the distance off an object whose base is below the
// horizon, by the angle between its top and the sea horizon. With the altitude a of the top above the level, which is the
// angle less the dip, on the sphere that refraction makes of the earth,
//
//	distance = √(R² tan² a + 2R(H − h)) − R tan a
//
// (the form of Bowditch's table of distance by vertical angle, where R stands for the
// constants; cited from memory). Angles above 10°, and those that no distance beyond
// the horizon has, are refused with an [*angle.RangeError].
func DistanceByVerticalAngleBeyond(height sailing.Distance, a angle.Angle, heightOfEye sailing.Distance, k Refraction) (sailing.Distance, error) {
	if err := checkHeight("height of the object", height); err != nil {
		return 0, err
	}
	dip, err := Dip(heightOfEye, k)
	if err != nil {
		return 0, err
	}
	r, err := k.raySpan()
	if err != nil {
		return 0, err
	}
	if a < 0 || a > 10*angle.Degree {
		return 0, &angle.RangeError{What: "vertical angle above the horizon", Value: a.Degrees(), Accepted: "degrees from 0 to 10"}
	}
	t := r * (a - dip).Tan()
	square := t*t + 2*r*(height-heightOfEye).Metres()
	if square < 0 {
		return 0, &angle.RangeError{What: "height of the object", Value: height.Metres(), Accepted: "metres that show over the horizon from that height of eye"}
	}
	d := sailing.Distance(math.Sqrt(square) - t)
	horizon, err := Horizon(heightOfEye, k)
	if err != nil {
		return 0, err
	}
	if d < horizon {
		return 0, &angle.RangeError{What: "distance of the object in metres", Value: math.Round(float64(d)), Accepted: fmt.Sprintf("one beyond the horizon of the eye, %v; nearer its base is seen, use DistanceByVerticalAngle", horizon)}
	}
	return d, nil
}
