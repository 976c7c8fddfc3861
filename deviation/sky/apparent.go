package sky

import (
	"math"

	"lubberline.example/angle"
)

// An Atmosphere is the state of the air that bends the light of a body. The zero value
// is the standard one, 1010 hPa and 10 °C.
type Atmosphere struct {
	density float64 // relative to the standard, less 1
}

// NewAtmosphere returns the atmosphere for a pressure in hectopascals (millibars) and a temperature
// in degrees Celsius, both at the observer. If the pressure is not from 0 to 1200, or the
// temperature is not from −100 to 100, it returns an [*angle.RangeError].
func NewAtmosphere(hectopascals, celsius float64) (Atmosphere, error) {
	if !(hectopascals >= 0 && hectopascals <= 1200) {
		return Atmosphere{}, &angle.RangeError{What: "pressure", Value: hectopascals, Accepted: "0 to 1200 hectopascals"}
	}
	if !(celsius >= -100 && celsius <= 100) {
		return Atmosphere{}, &angle.RangeError{What: "temperature", Value: celsius, Accepted: "−100 to 100 degrees Celsius"}
	}
	return Atmosphere{hectopascals/1010*283/(273+celsius) - 1}, nil
}

// A Limb is the part of the disc of the Sun or the Moon that is observed.
type Limb string

// The parts of the disc.
const (
	Centre    Limb = "centre" // also if a Limb is empty
	LowerLimb Limb = "lower-limb"
	UpperLimb Limb = "upper-limb"
)

// Apparent returns the altitude at which the centre or a limb of the body is seen above the level
// through the observer's eye. It includes parallax, semi-diameter and refraction, but not dip. Add
// the [AlmanacDip] for the altitude above the visible horizon.
//
// Refraction is by Sæmundsson's formula (Meeus, Astronomical Algorithms, chapter 16, from memory).
// It is good to 0.1′ above 15°, and to a few minutes at the horizon, where the air varies. Below
// −1.5°, where nothing is seen, it keeps the value of −1.5°.
//
// Any other limb counts as the centre.
func (s Sight) Apparent(limb Limb, air Atmosphere) angle.Angle {
	parallax := angle.Must(s.Body.HorizontalParallax.Scale(s.Altitude.Cos()))
	altitude := s.Altitude - parallax
	switch limb {
	case LowerLimb:
		altitude -= s.Body.SemiDiameter
	case UpperLimb:
		altitude += s.Body.SemiDiameter
	}
	return altitude + refraction(altitude, air)
}

// refraction returns how much the air raises a body at a true altitude.
func refraction(altitude angle.Angle, air Atmosphere) angle.Angle {
	h := min(max(altitude.Degrees(), -1.5), 90)
	minutes := 1.02 / math.Tan((h+10.3/(h+5.11))*degree)
	// The formula is a little under zero in the zenith.
	return angle.Must(angle.Minutes(max(minutes, 0) * (1 + air.density)))
}

// refractionSeen returns how much the air has raised a body that is seen at an altitude. It uses
// Bennett's formula (Meeus, chapter 16, from memory) for a standard atmosphere.
func refractionSeen(altitude angle.Angle) angle.Angle {
	h := altitude.Degrees()
	return angle.Must(angle.Minutes(1 / math.Tan((h+7.31/(h+4.4))*degree)))
}

// AlmanacDip returns the angle of the visible horizon below the level through the eye. It is 1.76′
// times the square root of heightOfEyeMetres, with ordinary refraction, as in nautical almanacs
// (from memory). Use it for altitudes and amplitudes of the Sun. Package fix has the distance of
// the horizon and the dip for any refraction; its figure for the refraction of the horizon table is
// 1.75′. If the height is not from 0 to 1000 metres, AlmanacDip returns an [*angle.RangeError].
func AlmanacDip(heightOfEyeMetres float64) (angle.Angle, error) {
	if !(heightOfEyeMetres >= 0 && heightOfEyeMetres <= 1000) {
		return 0, &angle.RangeError{What: "height of eye", Value: heightOfEyeMetres, Accepted: "0 to 1000 metres"}
	}
	return angle.Minutes(1.76 * math.Sqrt(heightOfEyeMetres))
}
