package conformance_test

import (
	"errors"
	"io"
	"strings"
	"testing"
	"testing/iotest"

	"lubberline.example/conformance"
)

// endless gives a text over and over, for ever.
type endless struct {
	text string
	read int
}

func (r *endless) Read(p []byte) (int, error) {
	for n := range p {
		p[n] = r.text[(r.read+n)%len(r.text)]
	}
	r.read += len(p)
	return len(p), nil
}

// echo answers with what it is given.
var echo = conformance.Subject{Name: "echo", Operations: map[string]conformance.Operation{
	"echo": conformance.On(func(g struct {
		X float64
		S string
	}) (conformance.Answer, error) {
		return conformance.Answer{"x": g.X, "s": g.S}, nil
	}),
}}

// A request of any length that can't be read is refused with its line.
func TestHostileRequests(t *testing.T) {
	wet := errors.New("wet")
	for name, r := range map[string]io.Reader{
		"one NUL":          strings.NewReader("\x00"),
		"UTF-16":           strings.NewReader("\xff\xfe{\x00}\x00"),
		"a mark":           strings.NewReader("\ufeff{}"),
		"deep":             strings.NewReader(`{"case":"a","given":` + strings.Repeat("[", 1_000_000)),
		"no end of a line": &endless{text: "x"},
		"an endless text":  io.MultiReader(strings.NewReader(`{"case":"`), &endless{text: "x"}),
		"a long id":        strings.NewReader(`{"case":"` + strings.Repeat("<", 500_000) + `"}`),
		"two objects":      strings.NewReader(`{"hello":1}{"hello":1}`),
		"at once":          iotest.ErrReader(wet),
		"midway":           io.MultiReader(strings.NewReader("{\"hello\":1}\n{"), iotest.ErrReader(wet)),
		"a time-out":       iotest.TimeoutReader(iotest.OneByteReader(strings.NewReader(`{"hello":1}`))),
	} {
		err := conformance.Serve(echo, r, io.Discard)
		e, ok := errors.AsType[*conformance.Error](err)
		if !ok || e.Status != conformance.BadRequest || len(err.Error()) > 500 {
			t.Errorf("%s: %.300v", name, err)
		}
		if e, ok := r.(*endless); ok && e.read > 3<<20 {
			t.Errorf("%s: %d bytes read", name, e.read)
		}
		if (name == "at once" || name == "midway") && !errors.Is(err, wet) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if err := conformance.Serve(echo, iotest.DataErrReader(iotest.OneByteReader(strings.NewReader(`{"hello":1}`))), io.Discard); err != nil {
		t.Error(err)
	}
}

// What is nil is refused, or counts as not offered.
func TestNilSubjects(t *testing.T) {
	if conformance.On[struct{}](nil) != nil {
		t.Error("an operation of no function")
	}
	if _, err := conformance.Hold(nil, "", "", conformance.Options{}, nil); err == nil {
		t.Error("no worker is accepted")
	}
	if conformance.Serve(echo, nil, io.Discard) == nil || conformance.Serve(echo, strings.NewReader(""), nil) == nil {
		t.Error("no reader or no writer is accepted")
	}
	_, err := (conformance.Subject{}).Work(conformance.Case{Operation: "fix.horizon"})
	if e, ok := errors.AsType[*conformance.Error](err); !ok || e.Status != conformance.NotOffered {
		t.Error(err)
	}
}

// What is given must be what the operation takes, and nothing more; an answer too long
// for a line is reported as broke.
func TestHostileGiven(t *testing.T) {
	for _, given := range []string{"", "\x00", "{", `{"x":1e400}`, `{"x":NaN}`, `{"x":0x1p3}`, `{"x":1_000}`, `{"x":"1"}`, `{"y":1}`, `{"x":1}{}`, `{"x":1} x`, strings.Repeat("[", 1_000_000)} {
		if a, err := echo.Operations["echo"]([]byte(given)); err == nil {
			t.Errorf("%.30q: %v", given, a)
		}
	}
	if a, err := echo.Operations["echo"]([]byte(`{"x":-1e308} ` + "\n")); err != nil || a["x"] != -1e308 {
		t.Errorf("%v, %v", a, err)
	}
	var out strings.Builder
	err := conformance.Serve(echo, strings.NewReader(`{"case":"a","operation":"echo","given":{"s":"`+strings.Repeat("<", 500_000)+`"}}`), &out)
	if err != nil || !strings.HasPrefix(out.String(), `{"case":"a","broke":"a line of more than 1024 KiB`) {
		t.Errorf("%.200s, %v", out.String(), err)
	}
}
