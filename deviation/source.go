package deviation

import (
	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation/internal/ask"
)

// A Source tells the deviation on a heading of the vessel. A [Table], a [Curve],
// [ExactCoefficients] and a known [Deviation] are sources, and so may be one of the
// caller's own. A function that is given nil, or a pointer that is nil, refuses it with a
// [*variation.MissingInputError].
//
// Both methods answer for the same compass: if c is the compass heading on
// which OnMagnetic(m) holds, OnCompass(c) is the same deviation. Where more than
// one compass heading has the magnetic heading m, or the other way about, the
// source returns an [*AmbiguousHeadingError]. A source must be safe for use by
// several goroutines.
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

// Explain returns what a source says on a compass heading, with its working. A
// source that is no [Explainer] is named in the one step as "as given". It errs as
// the source's OnCompass does, and where there is no source, with a [*variation.MissingInputError].
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
	return Explanation{Deviation: d, Working: working.Steps{working.EastWest("deviation", "Deviation", d.Angle(), "as given")}}, nil
}
