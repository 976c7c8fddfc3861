package deviation

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/variation"
)

// A MissingInputError reports a question that came without a source of variation or
// of deviation, or without the position or the date on which its answer may depend.
// It stands alone, or in the [*CheckError] or [*ReadingError] of what was asked.
type MissingInputError = variation.MissingInputError

// explainVariation asks a source for the variation. A source that is not a
// [variation.Explainer] leaves no working, because the figure says all.
func explainVariation(source variation.Source, at *angle.Position, on time.Time) (variation.Explanation, error) {
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

// inner prints an error that stands in another of this package, whose name is said.
func inner(err error) string { return strings.TrimPrefix(fmt.Sprint(err), "deviation: ") }

// isNil reports whether there is no source: nil, or a pointer that is nil.
func isNil(source Source) bool {
	if source == nil {
		return true
	}
	v := reflect.ValueOf(source)
	return v.Kind() == reflect.Pointer && v.IsNil()
}

// errNoSource refuses a source of deviation that is nil.
var errNoSource = &MissingInputError{What: "deviation"}

// errNoCurve refuses a curve that is nil or zero.
var errNoCurve = &CurveError{Reason: "none given: want the curve of a fit or of coefficients"}
