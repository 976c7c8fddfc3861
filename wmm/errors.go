package wmm

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// An ErrorKind says why a file, a set or a grid was refused, in a word that programs can
// compare.
type ErrorKind string

// The reasons for an [Error]. All but the last three are about a file of coefficients.
const (
	BadHeader    ErrorKind = "bad-header"    // no epoch, no name, or no column names
	BadNumber    ErrorKind = "bad-number"    // not a finite number, or not the right count of them
	MissingRow   ErrorKind = "missing-row"   // a degree and order left out
	WrongOrder   ErrorKind = "wrong-order"   // rows out of order
	DuplicateRow ErrorKind = "duplicate-row" // a row twice
	Truncated    ErrorKind = "truncated"     // the file ends before the model does
	WrongRadius  ErrorKind = "wrong-radius"  // a reference radius other than 6371.2 km
	TooLarge     ErrorKind = "too-large"     // a degree beyond [MaxDegree], or a file beyond what is read

	MissingModel   ErrorKind = "missing-model"   // a nil or zero [Model], [Set] or [Evaluator], or a set of none
	DuplicateModel ErrorKind = "duplicate-model" // two models of one name and epoch in a set
	BadGrid        ErrorKind = "bad-grid"        // a grid without places or with too many, or no function for its rows
)

// An Error reports a file of coefficients, a model, a set or a grid that was refused.
type Error struct {
	Kind   ErrorKind // for programs
	Line   int       // of a file, from 1; the last line read if the file ended too soon
	Reason string    // with the figures, and what would do
}

// Error says on which line of a file what is wrong, or what is wrong elsewhere.
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

// The answers of what holds no model.
var (
	errNoModel     = missing("a nil or zero Model", "one that comes with the package, as WMM2025, or that ReadCOF or ReadIGRF read")
	errNoSet       = missing("a nil or zero Set", "Models, or one that NewSet or ReadIGRF made")
	errNoEvaluator = missing("a nil or zero Evaluator", "one that On or InYear of a model or a set made")
)

// A DateError reports a date at which a model, or every model of a set, has
// nothing to say.
type DateError struct {
	Model string  // its name, or the names of the set's, five at most
	Year  float64 // the date
	From  float64 // the model, or the first of the set, holds from this year,
	Until float64 // and it, or the last of the set, until this one

	// Where the date lies between From and Until, in years that no model of the set
	// holds for, those years; otherwise 0.
	GapFrom, GapUntil float64
}

// Error says for which years there are answers.
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
