package variation

import (
	"math"
	"time"

	"lubberline.example/angle"
)

// agingSigmas is the maximum drift of a sound rose, in standard uncertainties of the drift.
const agingSigmas = 4

// aging returns the maximum error of a sound rose on a date, since the annual change of the field
// is not steady.
func (r Rose) aging(date time.Time, position angle.Position, source Source) angle.Angle {
	years := math.Abs(DecimalYear(date) - float64(r.Year) - 0.5)
	drift := float64(driftSigma(years, intensityAt(position, source, date).nanotesla)) * agingSigmas
	if _, stated := r.Change.PerYear(); !stated {
		drift += float64(unstatedChange) * years
	}
	return angle.Angle(math.Round(min(drift, float64(angle.Turn/2))))
}

// unstatedChange is the maximum annual change where a compass is usable, for a rose that
// does not state its change. It is a figure chosen here.
const unstatedChange = 20 * angle.Minute
