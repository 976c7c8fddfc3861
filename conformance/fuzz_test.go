package conformance_test

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"lubberline.example/conformance"
	"lubberline.example/conformance/internal/protocol"
	"lubberline.example/conformance/lubberline"
)

// Every request has one answer, on one line, with one of the four things to say; what is
// given may be anything.
func FuzzServe(f *testing.F) {
	topics, err := conformance.Load()
	if err != nil {
		f.Fatal(err)
	}
	offered := map[string]bool{}
	for _, t := range topics {
		for _, c := range t.Cases {
			if !offered[c.Operation] {
				offered[c.Operation] = true
				f.Add(c.Operation, string(c.Given))
			}
		}
	}
	f.Add("no.such", "{}")
	f.Add("angle.parse", "null")
	subject := lubberline.Subject()
	f.Fuzz(func(t *testing.T, operation, given string) {
		if !json.Valid([]byte(given)) {
			given = "{}"
		}
		line, err := json.Marshal(protocol.Request{Case: "x", Operation: operation, Given: json.RawMessage(given)})
		if err != nil {
			t.Skip(err)
		}
		var out bytes.Buffer
		if err := conformance.Serve(subject, bytes.NewReader(append(line, '\n')), &out); err != nil {
			t.Fatal(err)
		}
		if strings.Count(out.String(), "\n") != 1 {
			t.Fatalf("not one line: %q", out.String())
		}
		var p protocol.Response
		if err := json.Unmarshal(out.Bytes(), &p); err != nil {
			t.Fatal(err)
		}
		said := 0
		for _, is := range []bool{p.Answer != nil, p.Refused != nil, p.Declined != "", p.Broke != ""} {
			if is {
				said++
			}
		}
		if p.Case != "x" || said != 1 {
			t.Fatalf("%s %s: %s", operation, given, out.String())
		}
		if strings.Contains(p.Broke, "panic") {
			t.Fatalf("%s %s: %s", operation, given, p.Broke)
		}
	})
}
