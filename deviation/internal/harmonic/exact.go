package harmonic

import "lubberline.example/angle"

// ExactSteps is how many headings stand for all when one kind of coefficients is turned
// into the other: far more than either has terms.
const ExactSteps = 72

// MaxOrder is the highest harmonic of a curve: that of an exact form. At B 30° and D 10°
// the next is less than a thousandth of a degree.
const MaxOrder = 10

// MaxVarianceOrder is the highest harmonic of a curve's variance: twice the highest order
// of a fit.
const MaxVarianceOrder = 12

// ExactRow is the equation that a deviation δ on a compass heading ζ′ gives of the exact
// coefficients:
//
//	A cos δ + B sin ζ′ + C cos ζ′ + D sin(2ζ′ + δ) + E cos(2ζ′ + δ) = sin δ
func ExactRow(heading, deviation angle.Angle) (row [5]float64, right float64) {
	s, c := heading.SinCos()
	sd, cd := deviation.SinCos()
	st, ct := (2*heading.Normalized() + deviation).SinCos()
	return [5]float64{cd, s, c, st, ct}, sd
}
