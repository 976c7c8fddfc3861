package wmm

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// A FileErrorKind says, in a word that programs can compare, why a file of
// coefficients was refused.
type FileErrorKind string

// The reasons for refusing a file of coefficients.
const (
	BadHeader    FileErrorKind = "bad-header"    // no epoch, no name, or no column names
	BadNumber    FileErrorKind = "bad-number"    // not a finite number, or not the right count of them
	MissingRow   FileErrorKind = "missing-row"   // a degree and order left out
	WrongOrder   FileErrorKind = "wrong-order"   // rows out of order
	DuplicateRow FileErrorKind = "duplicate-row" // a row twice
	Truncated    FileErrorKind = "truncated"     // the file ends before the model does
	WrongRadius  FileErrorKind = "wrong-radius"  // a reference radius other than 6371.2 km
	TooLarge     FileErrorKind = "too-large"     // a degree beyond [MaxDegree], or a file beyond what is read
)

// A FileError reports a file of coefficients that was refused.
type FileError struct {
	Line   int           // from 1; the last line read if the file ended too soon
	Kind   FileErrorKind // for programs
	Reason string        // with the figures
}

// Error says on which line what is wrong.
func (e *FileError) Error() string {
	return fmt.Sprintf("wmm: line %d: %s: %s", e.Line, e.Kind, e.Reason)
}

// A MissingModelError reports a nil or zero [Model], [Set] or [Evaluator], which
// knows no field, or a set made of none or of a nil or zero one.
type MissingModelError struct {
	Asked string // what was asked, or was to be made: "a nil or zero Evaluator"
	Want  string // what would do, in words
}

// Error says what was asked and what would do.
func (e *MissingModelError) Error() string {
	return "wmm: " + e.Asked + ": want " + e.Want
}

// A DuplicateModelError reports models of one name and one epoch for a [Set], which
// could not tell which of them to ask.
type DuplicateModelError struct {
	Name  string  // of both
	Epoch float64 // of both
}

// Error says which model is there twice.
func (e *DuplicateModelError) Error() string {
	return fmt.Sprintf("wmm: model %.60q of %s twice in a set: want each once; make a new set with NewSet to put one in the other's place", e.Name, yearText(e.Epoch))
}

// The answers of what holds no model.
var (
	errNoModel     = &MissingModelError{"a nil or zero Model", "one that comes with the package, as WMM2025, or that ReadCOF or ReadIGRF read"}
	errNoSet       = &MissingModelError{"a nil or zero Set", "Models, or one that NewSet or ReadIGRF made"}
	errNoEvaluator = &MissingModelError{"a nil or zero Evaluator", "one that On or InYear of a model or a set made"}
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
