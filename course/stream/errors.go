package stream

import "lubberline.example/angle"

// An ErrorKind says what an [Error] reports.
type ErrorKind string

// The kinds of errors.
const (
	TooStrong     ErrorKind = "too-strong"     // the stream does not let the vessel make good the track
	NotReached    ErrorKind = "not-reached"    // a crossing takes more than 30 days
	NoStream      ErrorKind = "no-stream"      // no stream is given for the time
	InvalidLeeway ErrorKind = "invalid-leeway" // the leeway, or the side of the wind, cannot be
)

// An Error reports what cannot be steered or reckoned.
type Error struct {
	Kind   ErrorKind
	Reason string // what was wrong, and what is accepted

	// Nearest is set if Kind is [TooStrong]: of all courses through the water, it makes
	// good the course that is nearest to the track.
	Nearest Steering

	// Off is the angle from the track to the course that Nearest makes good, clockwise
	// positive.
	Off angle.Angle
}

// Error says what was wrong, and what is accepted.
func (e *Error) Error() string { return "stream: " + e.Reason }
