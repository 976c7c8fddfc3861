package sailing

import (
	"fmt"

	"lubberline.example/angle"
)

// Kinds of an [Error].
const (
	OverPole   angle.ErrorKind = "over-pole"  // the run reaches a pole, where courses end
	SamePlace  angle.ErrorKind = "same-place" // the two positions are one place
	Unsuitable angle.ErrorKind = "unsuitable" // another of the sailings of the books is needed
	NotStated  angle.ErrorKind = "not-stated" // the covariance is unknown
)

// An Error reports a run, a line or a sailing that has no answer.
type Error struct {
	Kind   angle.ErrorKind
	Reason string // in words, and what to do

	// ToPole is the distance along the course to the pole, if Kind is [OverPole]. It is
	// below zero if the run was the other way.
	ToPole Distance
}

// Error returns the reason.
func (e *Error) Error() string { return "sailing: " + e.Reason }

// errorOf returns an [*Error] of a kind with its reason.
func errorOf(kind angle.ErrorKind, format string, args ...any) error {
	return &Error{Kind: kind, Reason: fmt.Sprintf(format, args...)}
}

// poleError is the error of a run that reaches a pole.
func poleError(from angle.Position, course angle.True, to Distance) error {
	return &Error{OverPole, fmt.Sprintf("from %v on %v the pole is %v away: give a shorter distance", from, course, to), to}
}
