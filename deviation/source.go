package deviation

import (
	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation/internal/ask"
)

// A Source gives the deviation on a heading of the vessel. A [Table], a [Curve],
// [ExactCoefficients] and a known [Deviation] are sources; you may write your own. Functions refuse
// a source that is nil, or a nil pointer, with a [*lubberline.example/variation.MissingInputError].
//
// Both methods are about the same compass: if OnMagnetic(m) holds on the compass heading c,
// OnCompass(c) is the same deviation. If more than one heading fits, the source returns an
// [*AmbiguousHeadingError]. A source must be safe for use by several goroutines.
type Source interface {
	// OnCompass returns the deviation when the vessel heads c by compass.
	OnCompass(c angle.Compass) (Deviation, error)

	// OnMagnetic returns the deviation when the vessel's magnetic heading is m.
	OnMagnetic(m angle.Magnetic) (Deviation, error)
}

// An Explainer is a [Source] that can also show how it reached its answer on a
// compass heading.
type Explainer interface {
	Source
	ExplainDeviation(c angle.Compass) (Explanation, error)
}

// An Explanation is a deviation with how it was reached and what weakens it.
type Explanation struct {
	Deviation Deviation         `json:"deviation"`          // on the heading
	Working   working.Steps     `json:"working"`            // how it was reached
	Warnings  []working.Warning `json:"warnings,omitempty"` // none if nothing weakens it
}

// Explain returns the deviation that a source gives on a compass heading, with its working.
// A source that is not an [Explainer] has one step, "as given". The errors are those of the
// source's OnCompass; if the source is nil, a [*lubberline.example/variation.MissingInputError].
func Explain(source Source, c angle.Compass) (Explanation, error) {
	if ask.IsNil(source) {
		return Explanation{}, ask.ErrNoSource
	}
	if e, ok := source.(Explainer); ok {
		return e.ExplainDeviation(c)
	}
	d, err := source.OnCompass(c)
	if err != nil {
		return Explanation{}, err
	}
	return Explanation{Deviation: d, Working: working.Steps{working.EastWest("deviation", "Deviation", d.Angle()).Because("deviation-as-given", "as given")}}, nil
}
