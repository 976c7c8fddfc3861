package deviation

import (
	"errors"
	"slices"
	"time"

	"lubberline.example/angle"
	"lubberline.example/variation"
)

// errNoVariation refuses a variation that was forgotten: it is not 0°.
var errNoVariation = errors.New("no source of variation: want the chart's roses, one rose, a field model or a known variation; where it is 0° say so")

// explainVariation asks a source that may be missing. A source that is no
// [variation.Explainer] leaves no working, since the figure says all.
func explainVariation(source variation.Source, at angle.Position, on time.Time) (variation.Explanation, error) {
	if source == nil {
		return variation.Explanation{}, errNoVariation
	}
	e, err := variation.Explain(source, at, on)
	if _, explains := source.(variation.Explainer); !explains {
		e.Working = nil
	}
	// They are added to, and remain the source's.
	e.Working, e.Warnings = slices.Clone(e.Working), slices.Clone(e.Warnings)
	return e, err
}

// errNoSource refuses a source of deviation that is nil.
var errNoSource = &CurveError{Reason: "no source of deviation given: want a table, a curve or a known deviation"}

// errNoCurve refuses a curve that is nil or zero.
var errNoCurve = &CurveError{Reason: "none given: want the curve of a fit or of coefficients"}
