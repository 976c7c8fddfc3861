package wmm

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// An ErrorKind says why a file, a model, a set or a grid was refused. Programs can compare
// it.
type ErrorKind string

// The reasons for an [Error]. All but the last three are about a file of coefficients.
const (
	BadHeader    ErrorKind = "bad-header"    // no valid epoch, name or column names
	BadNumber    ErrorKind = "bad-number"    // not a finite number, or not the right count of them
	MissingRow   ErrorKind = "missing-row"   // a degree and order is missing
	WrongOrder   ErrorKind = "wrong-order"   // rows out of order
	DuplicateRow ErrorKind = "duplicate-row" // a row occurs twice
	Truncated    ErrorKind = "truncated"     // the file ends before the model does
	WrongRadius  ErrorKind = "wrong-radius"  // a reference radius other than 6371.2 km
	TooLarge     ErrorKind = "too-large"     // a degree beyond [MaxDegree], or a file beyond the limits

	MissingModel   ErrorKind = "missing-model"   // a nil or zero [Model], [Set] or [Evaluator], or a set without models
	DuplicateModel ErrorKind = "duplicate-model" // two models with the same name and epoch in a set
	BadGrid        ErrorKind = "bad-grid"        // an invalid grid, one with too many places, or a nil function
)

// An Error reports a file of coefficients, a model, a set or a grid that was refused.
type Error struct {
	Kind   ErrorKind // for programs
	Line   int       // of a file, from 1; the last line if the file ended too soon
	Reason string    // what is wrong, and what is accepted
}

// Error returns the reason, for a file with the line and the kind.
func (e *Error) Error() string {
	switch e.Kind {
	case MissingModel, DuplicateModel, BadGrid:
		return "wmm: " + e.Reason
	}
	return fmt.Sprintf("wmm: line %d: %s: %s", e.Line, e.Kind, e.Reason)
}

func missing(asked, want string) *Error {
	return &Error{Kind: MissingModel, Reason: asked + ": want " + want}
}

// The errors of a missing model.
var (
	errNoModel     = missing("a nil or zero Model", "one of the package, such as WMM2025, or one from ReadCOF or ReadIGRF")
	errNoSet       = missing("a nil or zero Set", "Models, or one from NewSet or ReadIGRF")
	errNoEvaluator = missing("a nil or zero Evaluator", "one from On or InYear of a model or a set")
)

// A DateError reports a date for which a model, or every model of a set, is not valid.
type DateError struct {
	Model string  // the name of the model, or at most five names of the set
	Year  float64 // the date
	From  float64 // the first year of the model or the set
	Until float64 // the last year of the model or the set

	// The years between From and Until for which the set has no model, if Year is among
	// them; otherwise 0.
	GapFrom, GapUntil float64
}

// Error returns the year and the valid years.
func (e *DateError) Error() string {
	text := fmt.Sprintf("wmm: the year %s is outside those of %s: %s to %s", yearText(e.Year), e.Model, yearText(e.From), yearText(e.Until))
	if e.GapUntil > e.GapFrom {
		text += fmt.Sprintf(", without %s to %s", yearText(e.GapFrom), yearText(e.GapUntil))
	}
	return text
}

// yearText prints a year with one decimal, or as many as four if it needs them.
func yearText(year float64) string {
	text := strconv.FormatFloat(math.Round(year*1e4)/1e4, 'f', -1, 64)
	if !strings.Contains(text, ".") && finite(year) {
		text += ".0"
	}
	return text
}
