package wmm

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// An ErrorKind says why a file, a model, a set, a date or a grid was refused. Programs can
// compare it.
type ErrorKind string

// The reasons for an [Error]. All but the last four are about a file of coefficients.
const (
	BadHeader    ErrorKind = "bad-header"    // no valid epoch, name or column names, or a reference radius other than 6371.2 km
	BadNumber    ErrorKind = "bad-number"    // not a finite number, or not the right count of them
	MissingRow   ErrorKind = "missing-row"   // a degree and order is missing
	WrongOrder   ErrorKind = "wrong-order"   // rows out of order
	DuplicateRow ErrorKind = "duplicate-row" // a row occurs twice
	Truncated    ErrorKind = "truncated"     // the file ends before the model does
	TooLarge     ErrorKind = "too-large"     // a degree beyond [MaxDegree], or a file beyond the limits

	MissingModel   ErrorKind = "missing-model"   // a nil or zero [Model], [Set] or [Evaluator], or a set without models
	DuplicateModel ErrorKind = "duplicate-model" // two models with the same name and epoch in a set
	OutsideYears   ErrorKind = "outside-years"   // a date at which the model, or every model of the set, is not valid
	BadGrid        ErrorKind = "bad-grid"        // an invalid grid, one with too many places, or a nil function
)

// An Error reports a file of coefficients, a model, a set, a date or a grid that was
// refused.
type Error struct {
	Kind   ErrorKind // for programs
	Line   int       // of a file, from 1; the last line if the file ended too soon
	Reason string    // what is wrong, and what is accepted
}

// Error returns the reason, and for a file the line.
func (e *Error) Error() string {
	if e.Line > 0 {
		return fmt.Sprintf("wmm: line %d: %s", e.Line, e.Reason)
	}
	return "wmm: " + e.Reason
}

// missing returns the error of a model that is missing, with what to use.
func missing(what, use string) *Error {
	return &Error{Kind: MissingModel, Reason: what + "; use " + use}
}

// badGrid returns the error of a grid. It formats the reason as fmt.Sprintf does.
func badGrid(format string, arguments ...any) *Error {
	return &Error{Kind: BadGrid, Reason: fmt.Sprintf(format, arguments...)}
}

// The errors of a missing model.
var (
	errNoModel     = missing("the Model is nil or zero", "a model of the package, such as WMM2025, or one from ReadCOF or ReadIGRF")
	errNoSet       = missing("the Set is nil or zero", "Models, or a set from NewSet or ReadIGRF")
	errNoEvaluator = missing("the Evaluator is nil or zero", "one from On or InYear of a model or a set")
)

// outside returns the error of a year at which a model is not valid.
func outside(year float64, name string, from, until float64) *Error {
	return &Error{Kind: OutsideYears, Reason: fmt.Sprintf("%s is not valid in %s; give a date from %s to %s", name, yearText(year), yearText(from), yearText(until))}
}

// yearText prints a year with one decimal, or as many as four if it needs them.
func yearText(year float64) string {
	text := strconv.FormatFloat(math.Round(year*1e4)/1e4, 'f', -1, 64)
	if !strings.Contains(text, ".") && finite(year) {
		text += ".0"
	}
	return text
}
