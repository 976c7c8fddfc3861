package variation

import (
	"reflect"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// A Source returns the variation at a position on a date. A [Rose], a [Projection], a
// [Chart], a field model and a known [Variation] are sources.
//
// VariationAt returns an error if the source has no sound answer; it never guesses.
// It must be safe for use by several goroutines.
//
// A source may also have the method
//
//	VariationNeeds() (position, date bool)
//
// which reports whether its answer depends on the position and on the date. A question
// may leave out what the source does not need. A source without the method needs both.
//
// The field models of package [lubberline.example/wmm] have the method
//
//	HorizontalIntensity(position angle.Position, date time.Time) (nanotesla float64, err error)
//
// The uncertainty of a rose depends on the horizontal intensity; see [Projection]. A [Chart]
// asks its Model for it.
type Source interface {
	VariationAt(position angle.Position, date time.Time) (Variation, error)
}

// VariationNeeds reports that a known variation needs neither position nor date.
func (v Variation) VariationNeeds() (position, date bool) { return false, false }

// VariationNeeds reports that a rose needs a date but no position.
func (r Rose) VariationNeeds() (position, date bool) { return false, true }

// VariationNeeds reports that a projection needs neither position nor date.
func (p Projection) VariationNeeds() (position, date bool) { return false, false }

// needs returns what a source needs. The source is not a nil pointer.
func needs(source Source) (position, date bool) {
	if s, ok := source.(interface {
		VariationNeeds() (position, date bool)
	}); ok {
		return s.VariationNeeds()
	}
	return true, true
}

// isNil reports whether a source is nil, or an interface that holds a nil pointer.
func isNil(source Source) bool {
	if source == nil {
		return true
	}
	v := reflect.ValueOf(source)
	return v.Kind() == reflect.Pointer && v.IsNil()
}

// An Explainer is a [Source] that can also show how it reached its answer.
type Explainer interface {
	Source
	ExplainVariation(position angle.Position, date time.Time) (Explanation, error)
}

// An Explanation is a variation with its working and with warnings.
type Explanation struct {
	Variation Variation         `json:"variation"`          // at the place and the date
	Change    angle.Angle       `json:"change,omitzero"`    // part of it: the annual change since the roses were printed, east positive
	Working   working.Steps     `json:"working"`            // how it was reached
	Warnings  []working.Warning `json:"warnings,omitempty"` // what weakens it
}

// Explain returns the answer of a source with its working. If the source is not an
// [Explainer], the working is one step, "as given". The error is that of the source. For a
// nil source, or one that is a nil pointer, it is a [*MissingInputError].
func Explain(source Source, position angle.Position, date time.Time) (Explanation, error) {
	if isNil(source) {
		return Explanation{}, &MissingInputError{"variation"}
	}
	if e, ok := source.(Explainer); ok {
		return e.ExplainVariation(position, date)
	}
	v, err := source.VariationAt(position, date)
	if err != nil {
		return Explanation{}, err
	}
	return Explanation{
		Variation: v,
		Working:   working.Steps{working.EastWest("variation", "Variation", v.Angle()).Because("variation-as-given", "as given")},
	}, nil
}

// The kinds of [working.Warning] of this package: what weakens an answer.
const (
	OldRose        working.WarningKind = "old-rose"          // uncertain beyond [Limits.Uncertainty], because of its age
	UncertainRose  working.WarningKind = "uncertain-rose"    // the same, because of a weak field or coarse figures
	ModelDiffers   working.WarningKind = "model-differs"     // rose and field model differ beyond their uncertainties
	BeforeRose     working.WarningKind = "before-rose"       // the date is before the rose's year
	OtherYear      working.WarningKind = "other-year"        // a [Projection] is used in a year that it was not made for
	NoChangeStated working.WarningKind = "no-change-stated"  // the rose does not state an annual change
	RosesDiffer    working.WarningKind = "roses-differ"      // another rose gives another variation
	FarFromRose    working.WarningKind = "far-from-the-rose" // the nearest rose is far away
)
