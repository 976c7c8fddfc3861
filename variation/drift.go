package variation

import (
	"math"
	"time"

	"lubberline.example/angle"
)

// An intensitySource is a [Source] that also gives the horizontal intensity of the earth's
// field.
type intensitySource interface {
	HorizontalIntensity(position angle.Position, date time.Time) (nanotesla float64, err error)
}

// An intensity is the horizontal intensity of the field at a rose, and its origin.
type intensity struct {
	nanotesla float64
	by        string            // "model", "latitude", or "" if the place is unknown
	source    angle.Uncertainty // of a forecast that a chart prints there
}

// intensityOf returns an intensity with the uncertainty of a forecast.
func intensityOf(nanotesla float64, by string) intensity {
	return intensity{nanotesla, by, sigma(sourceSigma(nanotesla))}
}

const (
	// nominalIntensity, in nT, is used for an unknown place. It is chosen so that the law
	// of the drift holds for all places between 60° S and 60° N together.
	nominalIntensity = 20_800

	// equatorIntensity × the cosine of the latitude, in nT, is used if only the latitude is
	// known. Many places have a stronger field and less drift.
	equatorIntensity = 25_000
)

// nowhere is the intensity at an unknown place.
var nowhere = intensityOf(nominalIntensity, "")

// intensityAt returns the intensity at a position, from the model if it has an answer for
// the date, otherwise from the latitude.
func intensityAt(position angle.Position, model Source, date time.Time) intensity {
	if i, ok := intensityByModel(position, model, date); ok {
		return i
	}
	return intensityByLatitude(position)
}

// intensityByModel returns the intensity by a model. It reports false if the model has no
// answer.
func intensityByModel(position angle.Position, model Source, date time.Time) (intensity, bool) {
	if m, ok := model.(intensitySource); ok && !isNil(model) {
		if h, err := m.HorizontalIntensity(position, date); err == nil && h > 0 {
			return intensityOf(h, "model"), true
		}
	}
	return intensity{}, false
}

// intensityByLatitude returns the intensity if only the latitude is known.
func intensityByLatitude(position angle.Position) intensity {
	return intensityOf(equatorIntensity*position.Latitude.Angle().Cos(), "latitude")
}

// The law of the drift. See TestDriftLawOfFieldHistory, which derives it.
const (
	driftFactor  = 375    // degrees × nT after one year
	driftPower   = 1.3    // of the years
	maxIntensity = 31_000 // nT: in a stronger field the drift is not smaller
)

// driftSigma returns the standard uncertainty of a variation after some years with a fixed
// annual change, where the horizontal intensity is h, in nT. Twice the result holds 95 % of
// the departures of the field between 1900 and 2030.
func driftSigma(years, h float64) angle.Angle {
	return sigmaOfDegrees(driftFactor * growth(math.Abs(years)) / min(h, maxIntensity))
}

// growth returns the power of some years with which the drift grows.
func growth(years float64) float64 {
	if whole := int(years); whole < len(growths) && float64(whole) == years {
		return growths[whole]
	}
	return math.Pow(years, driftPower)
}

// growths are the powers of whole years, which roses are brought to most often.
var growths = func() (powers [64]float64) {
	for years := range powers {
		powers[years] = math.Pow(float64(years), driftPower)
	}
	return powers
}()

// The error model of the World Magnetic Model 2020-2025 for the declination, the largest of
// those of the models of 2015, 2020 and 2025: √(0.26² + (5625/H)²) degrees, with H in nT
// (The US/UK World Magnetic Model for 2020-2025, Technical Report, section 3.4).
const (
	sourceOffset = 0.26
	sourceSlope  = 5625
)

// sourceSigma returns the standard uncertainty of a variation printed on a chart. It is a
// forecast by a model, which leaves out the field of the crust and disturbances.
func sourceSigma(h float64) angle.Angle {
	return sigmaOfDegrees(math.Sqrt(sourceOffset*sourceOffset + float64((sourceSlope/h)*(sourceSlope/h))))
}

// sigmaOfDegrees returns an angle of degrees that are not negative, at most 180°.
func sigmaOfDegrees(degrees float64) angle.Angle {
	a, err := angle.Degrees(min(degrees, 180))
	if err != nil { // NaN: zero years where there is no horizontal field
		return angle.Turn / 2
	}
	return a
}
