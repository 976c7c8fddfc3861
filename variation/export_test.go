package variation

import (
	"time"

	"lubberline.example/angle"
)

// What the tests of trust need of the inside.
var (
	DriftSigma  = driftSigma
	SourceSigma = sourceSigma
)

// ProjectAt brings a rose that stands at a position to a date, in whole years.
func ProjectAt(r Rose, position angle.Position, model Source, date time.Time) (Projection, error) {
	return r.on(date, WholeYears, intensityAt(position, model, date))
}
