package deviation

import (
	"fmt"

	"lubberline.example/angle"
	"lubberline.example/deviation/internal/say"
)

// An ErrorKind says why a table or a curve was refused.
type ErrorKind string

// The kinds of errors of tables.
const (
	NoRows             ErrorKind = "no-rows"
	DuplicateHeading   ErrorKind = "duplicate-heading"
	GapTooWide         ErrorKind = "gap-too-wide"
	DeviationTooLarge  ErrorKind = "deviation-too-large"
	UncertaintyPartial ErrorKind = "uncertainty-partial" // stated on some rows only
)

// WrongHeadings is the kind of error of [AnalyseByHand].
const WrongHeadings ErrorKind = "wrong-headings"

// The kinds of errors of curves.
const (
	NoCurve         ErrorKind = "no-curve"          // nil, zero, or data that do not describe a curve
	CurveTooLarge   ErrorKind = "curve-too-large"   // the curve has a deviation of more than 90°
	NoSteadyHeading ErrorKind = "no-steady-heading" // exact coefficients leave the compass no direction
)

// An Error reports rows that are not a table, headings that no hand rule uses, or data that are
// not a curve.
type Error struct {
	Kind    ErrorKind
	By      HeadingKind // the kind of Heading
	Heading angle.Angle // of the row at fault, where the gap begins, or where the curve is too large
	Row     int         // the index of the row at fault in the rows given; −1 if there is none
	Reason  string      // what is wrong, with the figures, and what is accepted
}

// Error says what is wrong, on which heading, and what is accepted.
func (e *Error) Error() string {
	switch e.Kind {
	case WrongHeadings:
		return "deviation: by hand: " + e.Reason
	case NoCurve, CurveTooLarge, NoSteadyHeading:
		return "deviation: curve: " + e.Reason
	case NoRows:
		return "deviation: table: " + e.Reason
	}
	return fmt.Sprintf("deviation: table: on %s: %s", say.Heading(e.By, e.Heading), e.Reason)
}
