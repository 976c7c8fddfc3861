package deviation

import (
	"lubberline.example/variation"
)

// A MissingInputError reports a question that came without a source of variation or
// of deviation, or without the position or the date on which its answer may depend.
// It stands alone, or in the [*CheckError] or [*ReadingError] of what was asked.
type MissingInputError = variation.MissingInputError

// errNoCurve refuses a curve that is nil or zero.
var errNoCurve = &CurveError{Reason: "none given: want the curve of a fit or of coefficients"}
