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
	Hello      int             `json:"hello,omitempty"` // the protocol's version
	Corpus     string          `json:"corpus,omitempty"`
	Operations []string        `json:"operations,omitempty"` // those of the corpus
	Case       string          `json:"case,omitempty"`       // the case's id
	Operation  string          `json:"operation,omitempty"`
	Given      json.RawMessage `json:"given,omitempty"`
	Bye        bool            `json:"bye,omitempty"`
}

// A Response is the program's line: to a greeting its name and what it offers, to a case
// the case's id and one of answer, refused, declined and broke.
type Response struct {
	Hello    int             `json:"hello,omitempty"`
	Name     string          `json:"name,omitempty"`
	Version  string          `json:"version,omitempty"`
	Offers   []string        `json:"offers,omitempty"`
	Case     string          `json:"case,omitempty"`
	Answer   map[string]any  `json:"answer,omitempty"`
	Refused  *RefusedMessage `json:"refused,omitempty"`
	Declined string          `json:"declined,omitempty"`
	Broke    string          `json:"broke,omitempty"`
}

// A RefusedMessage says why an input is refused.
type RefusedMessage struct {
	Kind    string `json:"kind"`
	Message string `json:"message,omitempty"`
}

// Serve answers the protocol for a subject written in Go, until the end or the bye.
func Serve(s Subject, r io.Reader, w io.Writer) error {
	lines := bufio.NewScanner(r)
	lines.Buffer(nil, mostLine)
	for lines.Scan() {
		var q Request
		if err := json.Unmarshal(lines.Bytes(), &q); err != nil {
			return fmt.Errorf("conformance: request: %w", err)
		}
		if q.Bye {
			return nil
		}
		data, err := json.Marshal(s.respond(q))
		if err != nil { // NaN, say
			data, err = json.Marshal(Response{Case: q.Case, Broke: err.Error()})
		}
		if err != nil {
			return err
		}
		if _, err := w.Write(append(data, '\n')); err != nil {
			return err
		}
	}
	return lines.Err()
}

// mostLine is the longest line that either side may write.
const mostLine = 1 << 20

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
