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

// Candidates is [Chart.candidates].
func Candidates(c *Chart, position angle.Position, date time.Time) ([]candidate, error) {
	return c.candidates(position, date)
}

// InAgreement is [Comparison.agrees].
func InAgreement(c Comparison) bool { return c.agrees() }

// RoseOf and PositionOf return what an audit was made of.
func RoseOf(a Audit) Rose               { return a.rose }
func PositionOf(a Audit) angle.Position { return a.position }

// ProjectAt brings a rose that stands at a position to a date, in whole years.
func ProjectAt(r Rose, position angle.Position, model Source, date time.Time) (Projection, error) {
	return r.on(date, WholeYears, intensityAt(position, model, date))
}
