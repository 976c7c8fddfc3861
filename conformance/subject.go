package conformance

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
)

// An Answer is what an operation comes to: numbers (float64), texts and lists of
// numbers, by the keys of the schema of operations. The schema states the range of each.
// Directions and longitudes are compared on the circle. Keys that a case does not ask for do
// no harm.
type Answer = map[string]any

// An Operation works one kind of case: from what is given, as JSON, to the answer. For
// an input that is to be refused it returns a [*Refusal]. Make one from a function of a
// struct with [On].
type Operation func(given []byte) (Answer, error)

// On makes an operation of a function whose argument has a field for each thing that
// cases of it give, named as in the schema (Go's matching of JSON names is without
// regard to case). A case that gives what the struct has no field for is not worked,
// and so fails: a new field passed over would be a case that checks nothing.
func On[G any](f func(G) (Answer, error)) Operation {
	return func(given []byte) (Answer, error) {
		var g G
		d := json.NewDecoder(bytes.NewReader(given))
		d.DisallowUnknownFields()
		if err := d.Decode(&g); err != nil {
			return nil, fmt.Errorf("given: %w", err)
		}
		if _, err := d.Token(); err != io.EOF {
			return nil, errors.New("given: want one object, and nothing after it")
		}
		return f(g)
	}
}

// A Subject is an implementation that is held to the corpus. What it has no operation
// for is reported as not offered, never as passed.
type Subject struct {
	Name    string // for the report
	Version string // of the implementation, for the report

	// Operations by the names of the schema, such as "variation.project".
	Operations map[string]Operation
}

// A Refusal is an operation's answer to an input that must not be worked, such as a
// legend with 61 minutes. Its Kind is one of those that the case lists, or empty if the
// subject does not say why.
type Refusal struct {
	Kind    string // as "minutes-out-of-range", or empty
	Message string // for a person
}

// Error says why the input is refused.
func (r *Refusal) Error() string {
	return fmt.Sprintf("refused (%s): %s", r.Kind, r.Message)
}

// A Decline is an operation's answer where it can't work a case that it offers the
// operation for, and says why. It is shown, and does not pass.
type Decline struct {
	Reason string // for the report
}

// Error says why.
func (d *Decline) Error() string { return "declined: " + d.Reason }

// refusalOf returns a refusal, if an error is one.
func refusalOf(err error) (*Refusal, bool) { return errors.AsType[*Refusal](err) }
