package variation

import (
	"cmp"
	"fmt"
	"strconv"
	"strings"
	"time"

	"lubberline.example/angle"
)

// The kinds of [Error]. The first seven refuse a legend, as
// does [angle.UnknownWord], for a word that legends do not use.
const (
	NoYear            angle.ErrorKind = "no-year"
	TwoYears          angle.ErrorKind = "two-years"
	BadFigure         angle.ErrorKind = "bad-figure"          // Err is then an [*angle.ParseError], if a figure cannot be read
	NoName            angle.ErrorKind = "no-name"             // 4°15′ without E or W
	ChangeWithoutSide angle.ErrorKind = "change-without-side" // (8′): which way?
	ChangeWithoutUnit angle.ErrorKind = "change-without-unit" // (8E): minutes or degrees?
	Contradiction     angle.ErrorKind = "contradiction"       // decreasing 8′W for a westerly variation
	BadChart          angle.ErrorKind = "bad-chart"           // roses that make no chart
	OutsideRoses      angle.ErrorKind = "outside-the-roses"   // a position that the roses to be blended do not surround
)

// An Error reports a legend that cannot be read, roses that make no chart, or a position
// outside the roses of a chart.
type Error struct {
	Kind   angle.ErrorKind
	Input  string // the legend, if one was refused
	Offset int    // where in Input the fault is, in bytes
	Rose   string // the rose at fault; if outside the roses, the nearest, which may be used instead
	Reason string // what is wrong, and what is accepted
	Err    error  // the error of a figure, a position, a legend or a year, or nil
}

// Error says what is wrong and what is accepted. It shows the first 200 bytes of a longer
// legend.
func (e *Error) Error() string {
	switch {
	case e.Input != "" || e.Kind != BadChart && e.Kind != OutsideRoses:
		legend, more := e.Input, ""
		if len(legend) > maxQuoted {
			legend, more = strings.ToValidUTF8(legend[:maxQuoted], ""), "…" // no character in two
		}
		return "variation: legend " + strconv.Quote(legend) + more + ": " + e.Reason
	case e.Kind == BadChart && e.Rose != "":
		return fmt.Sprintf("variation: chart: rose %q: %s", e.Rose, e.Reason)
	case e.Kind == BadChart:
		return "variation: chart: " + e.Reason
	}
	return "variation: " + e.Reason
}

// maxQuoted is the maximum number of bytes of a legend that an error shows. No printed legend
// is so long.
const maxQuoted = 200

// Unwrap returns Err.
func (e *Error) Unwrap() error { return e.Err }

// chartError returns an error of a chart; the name of the rose may be empty.
func chartError(rose string, err error, format string, args ...any) error {
	return &Error{Kind: BadChart, Rose: rose, Reason: fmt.Sprintf(format, args...), Err: err}
}

// A MissingInputError reports an input that the caller left out, such as a source of
// variation or deviation, or a position or date that a source needs. A nil pointer for
// streams counts as left out. Every package of this module returns it.
type MissingInputError struct {
	What string // "variation", "deviation", "position", "date", "heading", "bearing" or "streams"
}

// Error says what is missing and what to give.
func (e *MissingInputError) Error() string {
	switch e.What {
	case "variation":
		return "no source of variation: give a rose, a chart, a field model or a known variation; variation.East(0) if it is zero"
	case "deviation":
		return "no source of deviation: give a table, a curve or a known deviation; deviation.None() for a compass without deviation"
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

// Missing returns a [*MissingInputError] if a question to a source lacks the source itself,
// or a position or a date that the source needs. A nil position and a zero date are
// missing. A source that is a nil pointer is missing too.
func Missing(source Source, at *angle.Position, on time.Time) error {
	if isNil(source) {
		return &MissingInputError{"variation"}
	}
	if at != nil && !on.IsZero() {
		return nil // all that a source may need
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

// checkYear returns an [*angle.RangeError] for a year in which no rose can be printed, or to
// which none can be brought.
func checkYear(year int, what string) error {
	if year < firstYear || year > lastYear {
		return &angle.RangeError{What: "year of the " + what, Value: float64(year), Accepted: fmt.Sprintf("%d to %d", firstYear, lastYear)}
	}
	return nil
}
