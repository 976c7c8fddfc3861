// Package ask asks sources that may be missing.
package ask

import (
	"reflect"
	"slices"
	"time"

	"lubberline.example/angle"
	"lubberline.example/variation"
)

// Variation asks a source for the variation. A source that is not a
// [variation.Explainer] leaves no working, because the figure says all.
func Variation(source variation.Source, at *angle.Position, on time.Time) (variation.Explanation, error) {
	if err := variation.Missing(source, at, on); err != nil {
		return variation.Explanation{}, err
	}
	var position angle.Position
	if at != nil {
		position = *at
	}
	e, err := variation.Explain(source, position, on)
	if _, explains := source.(variation.Explainer); !explains {
		e.Working = nil
	}
	// They are added to, and remain the source's.
	e.Working, e.Warnings = slices.Clone(e.Working), slices.Clone(e.Warnings)
	return e, err
}

// IsNil reports whether there is no source: nil, or a pointer that is nil.
func IsNil(source any) bool {
	if source == nil {
		return true
	}
	v := reflect.ValueOf(source)
	return v.Kind() == reflect.Pointer && v.IsNil()
}

// ErrNoSource refuses a source of deviation that is nil.
var ErrNoSource = &variation.MissingInputError{What: "deviation"}
