// Package protocol has the lines between the command that runs the conformance suite and the
// program under test. Each line is one JSON object, and each request has one response.
package protocol

import "encoding/json"

// Version is the version of the protocol.
const Version = 1

// MaxLine is the maximum length of a line of either side, in bytes.
const MaxLine = 1 << 20

// A Request is a line to the program: a greeting, a case, or the end.
type Request struct {
	Hello      int             `json:"hello,omitempty"`      // the protocol's version
	Corpus     string          `json:"corpus,omitempty"`     // its version, with the greeting
	Operations []string        `json:"operations,omitempty"` // those of the corpus
	Case       string          `json:"case,omitempty"`       // the case's id
	Operation  string          `json:"operation,omitempty"`  // of the case
	Given      json.RawMessage `json:"given,omitempty"`      // an object
	Bye        bool            `json:"bye,omitempty"`        // the end; it is not answered
}

// A Response is a line from the program. It answers a greeting with a name and the operations
// offered. It answers a case with the id of the case and one of answer, refused, declined and
// broke.
type Response struct {
	Hello    int            `json:"hello,omitempty"`    // the protocol's version
	Name     string         `json:"name,omitempty"`     // the program's
	Version  string         `json:"version,omitempty"`  // the program's
	Offers   []string       `json:"offers,omitempty"`   // the operations that it has
	Case     string         `json:"case,omitempty"`     // the id asked
	Answer   map[string]any `json:"answer,omitempty"`   // as conformance.Answer
	Refused  *Refused       `json:"refused,omitempty"`  // the input is invalid
	Declined string         `json:"declined,omitempty"` // why it can't work the case
	Broke    string         `json:"broke,omitempty"`    // its own error
}

// A Refused says why an input is refused.
type Refused struct {
	Kind    string `json:"kind"`              // one of those the case lists, or empty
	Message string `json:"message,omitempty"` // for a person
}
