package fix

import "fmt"

// An Error reports lines that give no position, or an observation that makes no line.
type Error struct {
	Kind   ErrorKind
	Line   string // the line at fault; empty if it is not known
	Entry  int    // of [Replay], the entry at fault, counted from 1; otherwise 0
	Reason string // what is wrong, and what to change

	// Suspicions are the lines that may be wrong, as in [Fix.Suspicions]. Of up to 24 lines,
	// each is left out in turn.
	Suspicions []Suspicion

	search bool  // whether one wrong line may be the cause
	cause  error // of Replay
}

// An ErrorKind says what is wrong.
type ErrorKind string

// The kinds of [Error].
const (
	InvalidLine        ErrorKind = "invalid-line"        // an observation that gives no line
	InvalidInput       ErrorKind = "invalid-input"       // in the options, a track or a pointer
	UncertaintyMissing ErrorKind = "uncertainty-missing" // an uncertainty is needed that was not stated
	TooFewLines        ErrorKind = "too-few-lines"       // more lines are needed, or a reckoned position
	NoPosition         ErrorKind = "no-position"         // the lines meet nowhere, or nowhere possible
	WrongTime          ErrorKind = "wrong-time"          // a line was not observed at the time of the track
)

// Error returns which line is at fault, and the reason.
func (e *Error) Error() string {
	text := e.Reason
	if e.Line != "" {
		text = e.Line + ": " + text
	}
	if e.Entry != 0 {
		text = fmt.Sprintf("entry %d: %s", e.Entry, text)
	}
	return "fix: " + text
}

// Unwrap returns the error of an entry, if it is of another package.
func (e *Error) Unwrap() error { return e.cause }

// invalidLine returns the error of an observation that gives no line.
func invalidLine(line, reason string) *Error {
	return &Error{Kind: InvalidLine, Line: line, Reason: reason}
}
