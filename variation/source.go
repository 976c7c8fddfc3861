package variation

import (
	"cmp"
	"fmt"
	"reflect"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// A Source returns the variation at a position on a date. A [Rose], a [Chart] of
// several, a field model and a known [Variation] are sources.
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
type Source interface {
	VariationAt(position angle.Position, date time.Time) (Variation, error)
}

// VariationNeeds reports that a known variation needs neither position nor date.
func (v Variation) VariationNeeds() (position, date bool) { return false, false }

// VariationNeeds reports that a rose needs a date but no position.
func (r Rose) VariationNeeds() (position, date bool) { return false, true }

// needs returns what a source needs that is not a nil pointer.
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

// An Explanation is a variation with how it was reached and what weakens it.
type Explanation struct {
	Variation Variation         `json:"variation"`          // at the place and the date
	Working   working.Steps     `json:"working"`            // how it was reached
	Warnings  []working.Warning `json:"warnings,omitempty"` // none if nothing weakens it
}

// A MissingInputError reports a question that came without a source of variation or of
// deviation, without the position or the date on which such a source may depend, or with a
// nil pointer for streams. It is the error of every package of this module for what was
// left out.
type MissingInputError struct {
	What string // "variation", "deviation", "position", "date", "heading", "bearing" or "streams"
}

// Error says what is missing, and what would do.
func (e *MissingInputError) Error() string {
	switch e.What {
	case "variation":
		return "no source of variation: want a rose, a chart, a field model or a known variation; variation.East(0) where there is none"
	case "deviation":
		return "no source of deviation: want a table, a curve or a known deviation; deviation.None() for a compass that has none"
	case "position":
		return "no position: the variation depends on it; give the vessel's position"
	case "date":
		return "no date: the variation depends on it; give the day of the passage"
	case "heading":
		return "no heading: give the vessel's heading by compass, 000° for north"
	case "bearing":
		return "no bearing: give the object's bearing by compass, 000° for north"
	case "streams":
		return "no streams: a nil pointer; give some, or nil for slack water"
	}
	return "no " + cmp.Or(e.What, "source")
}

// Missing returns a [*MissingInputError] if a question to a source lacks something: the
// source itself, or a position or a date that the source needs. A nil position and a zero
// date are left out, and a source that is a nil pointer is no source.
func Missing(source Source, at *angle.Position, on time.Time) error {
	if isNil(source) {
		return &MissingInputError{"variation"}
	}
	position, date := needs(source)
	if position && at == nil {
		return &MissingInputError{"position"}
	}
	if date && on.IsZero() {
		return &MissingInputError{"date"}
	}
	return nil
}

// Explain returns what a source says with its working. A source that is no
// [Explainer] is named in the one step as "as given". Errors are the source's; of
// a nil source, or one that is a nil pointer, a [*MissingInputError].
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
		Working:   working.Steps{working.EastWest("variation", "Variation", v.Angle(), "as given")},
	}, nil
}

// The kinds of [working.Warning] of this package: what weakens an answer.
const (
	OldRose        working.WarningKind = "old-rose"          // uncertain beyond [Limits.Uncertainty], by its age
	UncertainRose  working.WarningKind = "uncertain-rose"    // the same, by a weak field or a coarse print
	ModelDiffers   working.WarningKind = "model-differs"     // rose and field model differ beyond their uncertainties
	BeforeRose     working.WarningKind = "before-rose"       // the date lies before the rose's year
	NoChangeStated working.WarningKind = "no-change-stated"  // the rose does not say how it changes
	RosesDiffer    working.WarningKind = "roses-differ"      // another rose says something else
	FarFromRose    working.WarningKind = "far-from-the-rose" // the nearest rose is far away
)

func warn(kind working.WarningKind, format string, args ...any) working.Warning {
	return working.Warning{Kind: kind, Message: fmt.Sprintf(format, args...)}
}
