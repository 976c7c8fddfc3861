package stream

import "lubberline.example/angle"

// An ErrorKind says what an [Error] reports.
type ErrorKind string

// The kinds of errors.
const (
	TooStrong     ErrorKind = "too-strong"     // no course makes good the track in this stream
	NotReached    ErrorKind = "not-reached"    // the crossing takes more than 30 days
	NoStream      ErrorKind = "no-stream"      // the source has no stream for the time
	InvalidLeeway ErrorKind = "invalid-leeway" // the leeway or the side of the wind is invalid
)

// An Error reports a course that cannot be steered, or a run that cannot be worked.
type Error struct {
	Kind   ErrorKind
	Reason string // what was wrong, and what is accepted

	// Nearest is the steering whose course made good is nearest to the track. It is set if
	// Kind is [TooStrong].
	Nearest Steering

	// Off is the angle from the track to the course made good of Nearest, clockwise
	// positive.
	Off angle.Angle
}

// Error returns the text of the error: what was wrong, and what is accepted.
func (e *Error) Error() string { return "stream: " + e.Reason }
