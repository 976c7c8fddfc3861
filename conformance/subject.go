package conformance

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
)

// An Answer is the result of an operation: numbers (float64), strings and lists of numbers. Its
// keys are those of the schema of operations, which states the range of each. Directions and
// longitudes are compared on the circle. A case ignores keys that it does not ask for.
type Answer = map[string]any

// An Operation answers one kind of case. Its argument is the input of the case, as JSON. For an
// invalid input it returns an [*Error] of status [Refused]. [On] makes an operation from a
// function of a struct.
type Operation func(given []byte) (Answer, error)

// On makes an operation from a function. Its argument has a field for each input of the cases,
// named as in the schema, in capital or small letters. A case with an input that has no field
// fails, since ignoring an input would check nothing. If f is nil, the operation is nil, and
// counts as not offered.
func On[G any](f func(G) (Answer, error)) Operation {
	if f == nil {
		return nil
	}
	return func(given []byte) (Answer, error) {
		var g G
		d := json.NewDecoder(bytes.NewReader(given))
		d.DisallowUnknownFields()
		if err := d.Decode(&g); err != nil {
			return nil, fmt.Errorf("what is given does not fit the argument of the operation, %T: %w", g, err)
		}
		if _, err := d.Token(); err != io.EOF {
			return nil, errors.New("given: one object is needed, and nothing after it")
		}
		return f(g)
	}
}

// A Subject is an implementation under test. A case whose operation it lacks is reported as not
// offered, never as passed.
type Subject struct {
	Name    string // of the implementation
	Version string // of the implementation

	// Operations are named as in the schema, such as "variation.project".
	Operations map[string]Operation
}
