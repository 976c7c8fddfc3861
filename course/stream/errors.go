package stream

import "lubberline.example/angle"

// The kinds of an [Error].
const (
	TooStrong     angle.ErrorKind = "too-strong"     // no course makes good the track: the stream is too strong, or the speed is 0
	NotReached    angle.ErrorKind = "not-reached"    // the crossing takes more than 30 days
	NoStream      angle.ErrorKind = "no-stream"      // the source has no stream for the time
	InvalidLeeway angle.ErrorKind = "invalid-leeway" // the leeway or the side of the wind is invalid
)

// An Error reports a course that cannot be steered, or a run that cannot be worked.
type Error struct {
	Kind   angle.ErrorKind
	Reason string // what was wrong, and what is accepted

	// Nearest is the steering whose course made good is nearest to the track. It is set if
	// Kind is [TooStrong].
	Nearest Steering
}

// Error returns the text of the error: what was wrong, and what is accepted.
func (e *Error) Error() string { return "stream: " + e.Reason }
