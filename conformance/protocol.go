package conformance

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
)

// ProtocolVersion is the version of the protocol between the command and a program that
// it holds to the corpus: one JSON object a line, each answered by one.
const ProtocolVersion = 1

// A Request is a line to the program. It is a greeting, a case, or the end.
type Request struct {
	Hello      int             `json:"hello,omitempty"`      // the protocol's version
	Corpus     string          `json:"corpus,omitempty"`     // its version, with the greeting
	Operations []string        `json:"operations,omitempty"` // those of the corpus
	Case       string          `json:"case,omitempty"`       // the case's id
	Operation  string          `json:"operation,omitempty"`  // of the case
	Given      json.RawMessage `json:"given,omitempty"`      // an object
	Bye        bool            `json:"bye,omitempty"`        // the end; it is not answered
}

// A Response is the program's line: to a greeting its name and what it offers, to a case
// the case's id and one of answer, refused, declined and broke.
type Response struct {
	Hello    int             `json:"hello,omitempty"`    // the protocol's version
	Name     string          `json:"name,omitempty"`     // the program's
	Version  string          `json:"version,omitempty"`  // the program's
	Offers   []string        `json:"offers,omitempty"`   // the operations that it has
	Case     string          `json:"case,omitempty"`     // the id asked
	Answer   map[string]any  `json:"answer,omitempty"`   // see [Answer]
	Refused  *RefusedMessage `json:"refused,omitempty"`  // the input must not be worked
	Declined string          `json:"declined,omitempty"` // why it can't work the case
	Broke    string          `json:"broke,omitempty"`    // its own error
}

// A RefusedMessage says why an input is refused.
type RefusedMessage struct {
	Kind    string `json:"kind"`              // one of those the case lists, or empty
	Message string `json:"message,omitempty"` // for a person
}

// Serve answers the protocol for a subject written in Go, until the end or the bye. No
// line of either side may have more than 1 MiB: a request beyond is an error, and an
// answer beyond is told as broke. Errors are [*ProtocolError], which wraps that of the
// reader, or those of the writer.
func Serve(s Subject, r io.Reader, w io.Writer) error {
	lines := bufio.NewScanner(r)
	lines.Buffer(nil, mostLine)
	at := 0
	for lines.Scan() && lines.Err() == nil { // with an error the line may be cut
		at++
		var q Request
		if err := json.Unmarshal(lines.Bytes(), &q); err != nil {
			return &ProtocolError{at, err}
		}
		if q.Bye {
			return nil
		}
		data, err := json.Marshal(s.respond(q))
		if err != nil { // NaN, say
			data, err = json.Marshal(Response{Case: q.Case, Broke: err.Error()})
		}
		if len(data) >= mostLine {
			data, err = json.Marshal(Response{Case: q.Case, Broke: errLongLine.Error()})
		}
		if len(data) >= mostLine { // the id alone
			return &ProtocolError{at, errLongLine}
		}
		if err != nil {
			return err
		}
		if _, err := w.Write(append(data, '\n')); err != nil {
			return err
		}
	}
	err := lines.Err()
	if errors.Is(err, bufio.ErrTooLong) {
		err = errLongLine
	}
	if err != nil {
		return &ProtocolError{at + 1, err}
	}
	return nil
}

// mostLine is the longest line that either side may write.
const mostLine = 1 << 20

var errLongLine = fmt.Errorf("a line of more than %d KiB: want at most that", mostLine>>10)

// A ProtocolError reports a request that can't be read or answered.
type ProtocolError struct {
	Line int // from 1
	Err  error
}

// Error says on which line what is wrong.
func (e *ProtocolError) Error() string {
	return fmt.Sprintf("conformance: request: line %d: %.300v", e.Line, e.Err)
}

// Unwrap returns what is wrong.
func (e *ProtocolError) Unwrap() error { return e.Err }

// respond answers one request.
func (s Subject) respond(q Request) Response {
	if q.Case == "" {
		p := Response{Hello: ProtocolVersion, Name: s.Name, Version: s.Version}
		for name := range s.Operations {
			p.Offers = append(p.Offers, name)
		}
		slices.Sort(p.Offers)
		return p
	}
	p := Response{Case: q.Case}
	if !s.Offers(q.Operation) {
		p.Declined = "no operation " + q.Operation
		return p
	}
	answer, err := s.Work(Case{ID: q.Case, Operation: q.Operation, Given: q.Given})
	refusal, refused := refusalOf(err)
	decline, declined := errors.AsType[*Decline](err)
	switch {
	case refused:
		p.Refused = &RefusedMessage{refusal.Kind, refusal.Message}
	case declined:
		p.Declined = decline.Reason
	case err != nil:
		p.Broke = err.Error()
	default:
		p.Answer = answer
	}
	return p
}
