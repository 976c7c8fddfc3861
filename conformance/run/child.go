package main

import (
	"bufio"
	"bytes"
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os/exec"
	"reflect"
	"slices"
	"strings"
	"sync"
	"time"

	"lubberline.example/conformance"
	"lubberline.example/conformance/internal/protocol"
)

// A child is the program under test. After a crash or a time-out, which fails the current case, it
// is started again.
type child struct {
	command    []string
	operations []string
	timeout    time.Duration

	name, version string
	offers        []string
	lost          error // why the program did not start again

	process *exec.Cmd
	state   string // how the last process ended
	in      io.WriteCloser
	lines   chan []byte
	ended   *error // why there are no more lines; set before they close
	errors  *tail
}

// startTimeout is how long a program may take to answer the greeting. Tests shorten it.
var startTimeout = 30 * time.Second

// start starts the program and sends the greeting.
func (c *child) start() error {
	c.process = exec.Command(c.command[0], c.command[1:]...)
	c.errors = &tail{}
	c.process.Stderr = c.errors
	ownGroup(c.process)
	c.process.WaitDelay = time.Second // what it started may hold its outputs open
	in, err := c.process.StdinPipe()
	if err != nil {
		return err
	}
	out, err := c.process.StdoutPipe()
	if err != nil {
		return err
	}
	if err := c.process.Start(); err != nil {
		return err
	}
	c.in = in
	lines := make(chan []byte)
	ended := new(error) // of this start, and not of the next
	c.lines, c.ended = lines, ended
	go func() {
		defer close(lines)
		scanner := bufio.NewScanner(out)
		scanner.Buffer(nil, protocol.MaxLine)
		for scanner.Scan() {
			lines <- bytes.Clone(scanner.Bytes())
		}
		*ended = errEnded
		if errors.Is(scanner.Err(), bufio.ErrTooLong) {
			*ended = errLongLine
		}
	}()
	answer, err := c.ask(protocol.Request{Hello: protocol.Version, Corpus: conformance.Version, Operations: c.operations}, startTimeout)
	if err == nil && answer.Hello != protocol.Version {
		err = fmt.Errorf("the answer to the greeting has protocol %d; answer {\"hello\":%d, …}", answer.Hello, protocol.Version)
	}
	if err != nil {
		c.stop()
		return fmt.Errorf("%s: %w%s", c.command[0], err, c.lastWords(err))
	}
	for _, o := range answer.Offers {
		if !slices.Contains(c.operations, o) {
			c.stop()
			return fmt.Errorf("%s: the corpus has no operation %.60q, which the program offers; -operations lists them", c.command[0], o)
		}
	}
	c.name, c.version, c.offers = answer.Name, answer.Version, answer.Offers
	return nil
}

// stop ends the program and all that it started. It closes the program's input, and waits at most a
// second for the program to end.
func (c *child) stop() {
	if c.process == nil {
		return
	}
	c.in.Close()
	process, lines := c.process.Process, c.lines
	go func() {
		for range lines { // drop further lines
		}
	}()
	// A program that has closed its output may go on: wait for its end, not for the end of its lines.
	kill := time.AfterFunc(time.Second, func() { endGroup(process) })
	c.process.Wait() // its answers have said how it ended
	c.state = c.process.ProcessState.String()
	kill.Stop()
	endGroup(process) // what it started may outlive it
	c.process = nil
}

// lastWords returns what a stopped program wrote to its standard error, for the end of a message.
// Of a program that ended without a word it returns how it ended.
func (c *child) lastWords(err error) string {
	if text := c.errors.said(); text != "" || !errors.Is(err, errEnded) {
		return text
	}
	return ", with " + c.state
}

var (
	errTimedOut = errors.New("no answer in time")
	errEnded    = errors.New("the program ended")
	errLongLine = fmt.Errorf("a line of more than %d KiB", protocol.MaxLine>>10)
)

// ask sends a line and waits for the answer.
func (c *child) ask(q protocol.Request, timeout time.Duration) (protocol.Response, error) {
	data, err := json.Marshal(q)
	if err != nil {
		return protocol.Response{}, err
	}
	timer := time.NewTimer(timeout)
	defer timer.Stop()
	written := make(chan error, 1)
	go func(in io.Writer) {
		_, err := in.Write(append(data, '\n'))
		written <- err
	}(c.in)
	select {
	case line, ok := <-c.lines:
		if !ok {
			return protocol.Response{}, *c.ended
		}
		var p protocol.Response
		d := json.NewDecoder(bytes.NewReader(line))
		d.DisallowUnknownFields()
		if err := d.Decode(&p); err != nil {
			return p, &conformance.Error{Status: conformance.BadAnswer, Err: whyNot(err, short(line))}
		}
		if _, err := d.Token(); err != io.EOF {
			return p, &conformance.Error{Status: conformance.BadAnswer, Err: fmt.Errorf("more than one object, in %s", short(line))}
		}
		return p, nil
	case <-timer.C:
		return protocol.Response{}, errTimedOut
	}
}

// whyNot says why a line is not an answer, and what to write.
func whyNot(err error, line string) error {
	if wrong, is := errors.AsType[*json.UnmarshalTypeError](err); is {
		want := map[reflect.Kind]string{reflect.String: "a text", reflect.Int: "a whole number", reflect.Slice: "an array"}[wrong.Type.Kind()]
		return fmt.Errorf("%s has the JSON type %s, in %s; write %s", cmp.Or(wrong.Field, "the line"), wrong.Value, line, cmp.Or(want, "an object"))
	}
	if unknown, is := strings.CutPrefix(err.Error(), "json: unknown field"); is {
		return fmt.Errorf("unknown field%.200s, in %s; a greeting has hello, name, version and offers, an answer case and one of answer, refused, declined and broke", unknown, line)
	}
	return fmt.Errorf("the line is not JSON (%.200v), in %s; JSON has no NaN, and other text belongs on standard error", err, line)
}

// short returns the beginning of a line, for a report.
func short(line []byte) string {
	if len(line) > 200 {
		return strings.ToValidUTF8(string(line[:200]), "") + "…"
	}
	return string(line)
}

// Offers reports whether the program offers an operation.
func (c *child) Offers(operation string) bool { return slices.Contains(c.offers, operation) }

// Work sends a case to the program and returns its answer.
func (c *child) Work(k conformance.Case) (conformance.Answer, error) {
	if c.process == nil {
		if err := c.start(); err != nil {
			c.lost = fmt.Errorf("the program did not start again: %w", err)
			return nil, &conformance.Error{Status: conformance.Broke, Err: c.lost}
		}
	}
	p, err := c.ask(protocol.Request{Case: k.ID, Operation: k.Operation, Given: k.Given}, c.timeout)
	switch {
	case errors.Is(err, errTimedOut):
		said := c.errors.said()
		endGroup(c.process.Process) // it does not answer
		c.stop()
		return nil, &conformance.Error{Status: conformance.TimedOut, Err: fmt.Errorf("no answer in %v%s", c.timeout, said)}
	case err != nil:
		if _, is := errors.AsType[*conformance.Error](err); is {
			c.stop() // its answer may follow the stray line, and would be taken for that of the next case
			return nil, err
		}
		c.stop()
		return nil, &conformance.Error{Status: conformance.Broke, Err: fmt.Errorf("%w%s", err, c.lastWords(err))}
	}
	bad := func(format string, args ...any) (conformance.Answer, error) {
		return nil, &conformance.Error{Status: conformance.BadAnswer, Err: fmt.Errorf(format, args...)}
	}
	if p.Case != k.ID {
		c.stop() // its next lines belong to other cases
		if p.Case == "" {
			return bad("the line has no case; repeat the id of the case asked")
		}
		return bad("the answer is of case %.200q", p.Case)
	}
	kinds := 0
	for _, has := range []bool{p.Answer != nil, p.Refused != nil, p.Declined != "", p.Broke != ""} {
		if has {
			kinds++
		}
	}
	switch {
	case kinds != 1:
		return bad("the line has %d of answer, refused, declined and broke; write exactly one", kinds)
	case p.Refused != nil:
		return nil, &conformance.Error{Status: conformance.Refused, Kind: p.Refused.Kind, Reason: p.Refused.Message}
	case p.Declined != "":
		return nil, &conformance.Error{Status: conformance.Declined, Reason: p.Declined}
	case p.Broke != "":
		return nil, errors.New(p.Broke)
	}
	return p.Answer, nil
}

// tail keeps the end of what a program writes to its standard error.
type tail struct {
	mu   sync.Mutex
	text []byte
}

// Write keeps the end of what is written.
func (t *tail) Write(p []byte) (int, error) {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.text = append(t.text, p...)
	if n := len(t.text); n > 2000 {
		t.text = t.text[n-2000:]
	}
	return len(p), nil
}

// said returns what was written, for the end of a message.
func (t *tail) said() string {
	t.mu.Lock()
	defer t.mu.Unlock()
	text := strings.TrimSpace(string(t.text))
	if text == "" {
		return ""
	}
	return "; it said: " + text
}
