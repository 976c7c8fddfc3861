package main

import (
	"encoding/json"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"slices"
	"strings"

	"lubberline.example/conformance"
	"lubberline.example/conformance/internal/schema"
)

// describeOperations describes the operations of the chosen cases: what each does, what a case
// gives, what is answered, and the kinds of refusal. A key in brackets is not in every case.
func describeOperations(w io.Writer, topics []conformance.Topic, o conformance.Options, asJSON bool) error {
	counts := map[string]int{}
	for _, t := range topics {
		for _, c := range t.Cases {
			if c.Status == "active" && o.Match(t.Topic, c) {
				counts[c.Operation]++
			}
		}
	}
	if len(counts) == 0 {
		return errNoCase
	}
	data, err := fs.ReadFile(conformance.Files(), schema.File)
	if err != nil {
		return err
	}
	if asJSON {
		return writeOperations(w, data, counts)
	}
	s, err := schema.Parse(data)
	if err != nil {
		return err
	}
	for _, name := range slices.Sorted(maps.Keys(counts)) {
		describe(w, s, name, counts[name])
	}
	return nil
}

// describe writes one operation as text.
func describe(w io.Writer, s schema.Schema, name string, cases int) {
	o := s.Operations[name]
	noun := "cases"
	if cases == 1 {
		noun = "case"
	}
	fmt.Fprintf(w, "%s  %d %s\n%s", name, cases, noun, wrapped(o.About, "  "))
	for _, convention := range o.Conventions {
		fmt.Fprint(w, wrapped("Convention: "+convention, "  "))
	}
	for _, side := range []struct {
		name   string
		object schema.Value
	}{{"given", o.Given}, {"answer", o.Answer}} {
		fmt.Fprintf(w, "  %s\n", side.name)
		for _, row := range s.Rows(side.object) {
			key := row.Key
			if row.Optional {
				key = "[" + key + "]"
			}
			if row.Circle && side.name == "answer" {
				row.Kind += ", on the circle"
			}
			fmt.Fprintf(w, "    %s: %s\n", key, row.Kind)
			if row.About != "" {
				fmt.Fprint(w, wrapped(row.About, "        "))
			}
		}
	}
	if len(o.Refused) > 0 {
		fmt.Fprintf(w, "  refused\n%s", wrapped(strings.Join(o.Refused, ", "), "    "))
	}
	fmt.Fprintln(w)
}

// wrapped breaks a text into lines with an indent.
func wrapped(text, indent string) string {
	const width = 96
	var b strings.Builder
	line := indent
	for word := range strings.FieldsSeq(text) {
		if len(line)+1+len(word) > width && line != indent {
			b.WriteString(line + "\n")
			line = indent
		}
		if line != indent {
			line += " "
		}
		line += word
	}
	return b.String() + line + "\n"
}

// writeOperations writes the schema of the chosen operations, with their numbers of cases.
func writeOperations(w io.Writer, data []byte, counts map[string]int) error {
	var all map[string]json.RawMessage
	if err := json.Unmarshal(data, &all); err != nil {
		return err
	}
	var operations map[string]map[string]any
	if err := json.Unmarshal(all["operations"], &operations); err != nil {
		return err
	}
	for name, operation := range operations {
		if counts[name] == 0 {
			delete(operations, name)
			continue
		}
		operation["cases"] = counts[name]
	}
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(struct {
		Corpus      string          `json:"corpus"`
		About       json.RawMessage `json:"description"`
		Operations  any             `json:"operations"`
		Definitions json.RawMessage `json:"$defs"`
	}{conformance.Version, all["description"], operations, all["$defs"]})
}
