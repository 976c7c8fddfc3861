package conformance

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"

	"lubberline.example/conformance/internal/protocol"
)

// Serve answers the protocol of the command for a subject written in Go, until the input ends or
// says bye. A line has at most 1 MiB. For a longer request, or one that is not a JSON object, it
// returns an [*Error] of status [BadRequest]. A longer answer is reported as broke. It also
// returns the errors of the writer, and wraps those of the reader.
func Serve(s Subject, r io.Reader, w io.Writer) error {
	if r == nil || w == nil {
		return errors.New("conformance: no reader or no writer: give both, such as os.Stdin and os.Stdout")
	}
	lines := bufio.NewScanner(r)
	lines.Buffer(nil, protocol.MaxLine)
	at := 0
	for lines.Scan() && lines.Err() == nil { // with an error the line may be cut
		at++
		var q protocol.Request
		if err := json.Unmarshal(lines.Bytes(), &q); err != nil {
			return badRequest(at, err)
		}
		if q.Bye {
			return nil
		}
		data, err := json.Marshal(s.respond(q))
		if err != nil { // NaN, say
			data, err = json.Marshal(protocol.Response{Case: q.Case, Broke: err.Error()})
		}
		if len(data) >= protocol.MaxLine {
			data, err = json.Marshal(protocol.Response{Case: q.Case, Broke: errLongLine.Error()})
		}
		if len(data) >= protocol.MaxLine { // the id alone
			return badRequest(at, errLongLine)
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
		return badRequest(at+1, err)
	}
	return nil
}

var errLongLine = fmt.Errorf("a line of more than %d KiB; write at most that", protocol.MaxLine>>10)

// badRequest returns the error of a line, counted from 1.
func badRequest(line int, err error) error {
	return &Error{Status: BadRequest, Reason: fmt.Sprintf("line %d", line), Err: err}
}

// respond answers one request.
func (s Subject) respond(q protocol.Request) protocol.Response {
	if q.Case == "" {
		p := protocol.Response{Hello: protocol.Version, Name: s.Name, Version: s.Version}
		for name := range s.Operations {
			p.Offers = append(p.Offers, name)
		}
		slices.Sort(p.Offers)
		return p
	}
	p := protocol.Response{Case: q.Case}
	if !s.Offers(q.Operation) {
		p.Declined = "no operation " + q.Operation
		return p
	}
	answer, err := s.Work(Case{ID: q.Case, Operation: q.Operation, Given: q.Given})
	e, ok := errors.AsType[*Error](err)
	switch {
	case ok && e.Status == Refused:
		p.Refused = &protocol.Refused{Kind: e.Kind, Message: e.Reason}
	case ok && e.Status == Declined:
		p.Declined = e.Reason
	case err != nil:
		p.Broke = err.Error()
	default:
		p.Answer = answer
	}
	return p
}
