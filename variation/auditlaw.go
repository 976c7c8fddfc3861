package variation

import (
	"math"
	"time"

	"lubberline.example/angle"
)

// agingSigmas is how many standard uncertainties of the drift a sound rose can age by.
const agingSigmas = 4

// aging is the most that a sound rose can be out on a date because the field did not
// change evenly.
func (r Rose) aging(date time.Time, position angle.Position, source Source) angle.Angle {
	years := math.Abs(DecimalYear(date) - float64(r.Year) - 0.5)
	drift := float64(driftSigma(years, intensityAt(position, source, date).nanotesla)) * agingSigmas
	if _, stated := r.Change.PerYear(); !stated {
		drift += float64(unstatedChange) * years
	}
	return angle.Angle(math.Round(min(drift, float64(angle.Turn/2))))
}

// unstatedChange is the most that the variation changes in a year where the compass is of
// use, for a rose that does not state its change. A figure chosen here.
const unstatedChange = 20 * angle.Minute
