package fix

import (
	"fmt"
	"math"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
)

// A Refraction is the coefficient k of terrestrial refraction: the curvature of a light ray
// near the surface, divided by the curvature of the earth. It changes with the air from hour
// to hour. By day it is about 0.1 to 0.2, and it varies more if the water is colder or warmer
// than the air. The zero value means straight rays.
type Refraction float64

// HorizonTable is that of Bowditch's horizon table, 1.17 miles times √feet (editions 1995 to
// 2024; from memory). For c miles times √metres, k is 1 − (1.9274/c)²: 0.1413 for the 2.08 of
// Commonwealth books (from memory).
const HorizonTable Refraction = 0.1728

// meanRadius is the radius in metres of a sphere with the volume of the earth (IUGG).
const meanRadius = 6371008.8

// raySpan returns the radius of the sphere over which refracted rays are straight.
func (k Refraction) raySpan() (float64, error) {
	if !(k > -1 && k < 0.9) {
		return 0, &angle.RangeError{What: "refraction coefficient", Value: float64(k), Accepted: "above −1 and below 0.9; usually 0.17"}
	}
	return meanRadius / (1 - float64(k)), nil
}

// checkHeight refuses a height that is not from 0 to 10,000 m.
func checkHeight(what string, height sailing.Distance) error {
	if !(height >= 0 && height <= 10_000) {
		return &angle.RangeError{What: what, Value: height.Metres(), Accepted: "metres from 0 to 10000"}
	}
	return nil
}

// Horizon returns the distance D of the sea horizon from a height of eye h: cos D = R/(R + h). R is
// the radius of the earth enlarged for refraction. For a ship's heights that is √(2Rh). If the
// height is not from 0 to 10,000 m, or the coefficient is invalid, it returns an
// [*angle.RangeError].
func Horizon(heightOfEye sailing.Distance, k Refraction) (sailing.Distance, error) {
	if err := checkHeight("height of eye", heightOfEye); err != nil {
		return 0, err
	}
	r, err := k.raySpan()
	if err != nil {
		return 0, err
	}
	// The arc on the enlarged sphere is as long as that on the earth.
	return sailing.Distance(r * math.Acos(r/(r+heightOfEye.Metres()))), nil
}

// GeographicRange returns the distance at which a light first shows over the horizon: the sum
// of the horizons of the light and of the eye. A weak light is not seen so far, and the
// charted range may be for another height of eye. Errors are those of [Horizon].
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

// DippingLight returns the line of a light that has just dipped or risen, at its geographic
// range. The uncertainty is that of the range, most of it from the refraction: state at least a
// tenth of the range. If it is 0, it is unknown; if it is below 0, DippingLight returns an
// [*Error]. Other errors are those of [GeographicRange].
func DippingLight(mark Mark, heightOfLight, heightOfEye sailing.Distance, k Refraction, uncertainty sailing.Distance) (Line, error) {
	d, err := GeographicRange(heightOfLight, heightOfEye, k)
	if err != nil {
		return Line{}, err
	}
	l, step, err := distanceOff(mark, d, uncertainty)
	if err != nil {
		return Line{}, err
	}
	l.steps = working.Steps{step.Because("dipping-light", "of %v, dipping: the horizons of %.1f and %.1f metres", mark, heightOfLight.Metres(), heightOfEye.Metres())}
	return l, nil
}

// Dip returns the angle of the sea horizon below the horizontal, from a height of eye h. For a
// ship's heights, tan dip = √(2h(1 − k)/R). Errors are those of [Horizon].
//
// Use it with [Horizon] and [DistanceByVerticalAngleBeyond], and the same k. With
// [HorizonTable] it is 1.75′ times the square root of the height in metres. To correct a
// sextant altitude, use the dip of package deviation/sky: that of the almanac, 1.76′ times
// the root.
func Dip(heightOfEye sailing.Distance, k Refraction) (angle.Angle, error) {
	d, err := Horizon(heightOfEye, k)
	if err != nil {
		return 0, err
	}
	// The ray leaves the horizon level and bends by k times the arc.
	return angle.Radians(float64(d) / meanRadius * (1 - float64(k)))
}

// DistanceByVerticalAngle returns the distance off an object by the sextant angle between its
// top and the water line below it, corrected for index error. The height is that of the top
// above the water. The water line must be seen: if the object is beyond the horizon of the
// eye, use [DistanceByVerticalAngleBeyond].
//
//	distance = height / tan angle
//
// The rule of thumb, 1.856 × metres / minutes of arc, gives the same in nautical miles. The
// angle must be above 0 and below 90°, the height above zero, and the distance within the
// horizon. Otherwise it returns an [*angle.RangeError].
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
		return 0, &angle.RangeError{What: "distance of the object in metres", Value: math.Round(float64(d)), Accepted: fmt.Sprintf("at most %v, the distance of the horizon, so that the water line is seen; for an object farther off, measure the angle above the horizon, and allow for the dip", horizon)}
	}
	return d, nil
}

// DistanceByVerticalAngleBeyond returns the distance off an object whose water line is below
// the horizon, by the sextant angle between its top and the sea horizon. The altitude a of
// the top is that angle minus the dip:
//
//	distance = √(R² tan² a + 2R(H − h)) − R tan a
//
// Here H is the height of the top, h the height of eye, and R the radius of the earth enlarged for
// refraction. Bowditch's table of distance by vertical angle has this form (from memory). If the
// angle is not from 0 to 10°, or if no distance beyond the horizon gives it, it returns an
// [*angle.RangeError].
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
		return 0, &angle.RangeError{What: "height of the object", Value: height.Metres(), Accepted: "metres, high enough to show over the horizon"}
	}
	d := sailing.Distance(math.Sqrt(square) - t)
	horizon, err := Horizon(heightOfEye, k)
	if err != nil {
		return 0, err
	}
	if d < horizon {
		return 0, &angle.RangeError{What: "distance of the object in metres", Value: math.Round(float64(d)), Accepted: fmt.Sprintf("at least %v, the distance of the horizon; nearer, the water line is seen: measure the angle above it", horizon)}
	}
	return d, nil
}
