package conformance

// An Error is the error of an operation or of a [Worker], with the status that it gives a case.
//
// To refuse an invalid input, such as a legend with 61 minutes, return one with the status
// [Refused]. A refusal is an answer: it passes if the case expects it. To decline a case that
// the implementation cannot answer, return one with the status [Declined], which does not pass.
type Error struct {
	Status Status
	Kind   string // of a refusal, such as "minutes-out-of-range"; empty if the subject gives none
	Reason string // for a person
	Err    error  // the cause, or nil
}

// Error returns the status or the kind of a refusal, the reason and the cause.
func (e *Error) Error() string {
	text := string(e.Status)
	if e.Kind != "" {
		text += " (" + e.Kind + ")"
	}
	if e.Reason != "" {
		text += ": " + e.Reason
	}
	if e.Err != nil {
		cause := e.Err.Error()
		text += ": " + cause[:min(len(cause), 400)]
	}
	return text
}

// text returns the reason and the cause, without the status.
func (e *Error) text() string {
	switch {
	case e.Err == nil:
		return e.Reason
	case e.Reason == "":
		return e.Err.Error()
	}
	return e.Reason + ": " + e.Err.Error()
}

// Unwrap returns the cause.
func (e *Error) Unwrap() error { return e.Err }
