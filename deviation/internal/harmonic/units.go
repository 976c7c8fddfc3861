package harmonic

import (
	"math"

	"lubberline.example/angle"
)

// Round returns the nearest whole number of units.
func Round(x float64) angle.Angle { return angle.Angle(math.Round(x)) }

// Radian is the units of Angle in a radian.
const Radian = float64(180*angle.Degree) / math.Pi

// Sigma is a standard uncertainty, not stated where it is beyond all angles.
func Sigma(units float64) angle.Uncertainty {
	if !(units < math.MaxInt64) {
		return angle.Uncertainty{}
	}
	u, err := angle.StandardUncertainty(Round(units))
	if err != nil {
		return angle.Uncertainty{}
	}
	return u
}
