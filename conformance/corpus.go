package conformance

import (
	"bytes"
	"embed"
	"encoding/json"
	"fmt"
	"io/fs"
	"path"
)

//go:embed cases/*.json schema/*.json facts.json
var files embed.FS

// Files returns the corpus as files. The cases are cases/*.json, and their JSON Schema is under
// schema. The file facts.json has the definitions, conventions and rules that manuals state without
// an example.
func Files() fs.FS { return files }

// A Topic is one file of cases.
type Topic struct {
	Schema  string            `json:"schema"`  // the schema's name: "cases-1"
	Topic   string            `json:"topic"`   // its name, which begins the ids of its cases
	Sources map[string]Source `json:"sources"` // by id
	Flags   map[string]Flag   `json:"flags"`   // by name
	Cases   []Case            `json:"cases"`   // withdrawn ones among them
}

// A SourceKind is the kind of a source.
type SourceKind string

// The kinds of source.
const (
	Published      SourceKind = "published"       // a book, a manual, a standard, read
	FromMemory     SourceKind = "from-memory"     // the same, its figures not checked against a copy
	CommonPractice SourceKind = "common-practice" // a fact of the trade without a source
	TeachingPage   SourceKind = "teaching-page"   // public teaching material, not a published manual
	Generated      SourceKind = "generated"       // worked by a general-purpose library
)

// A Source is where cases come from.
type Source struct {
	Title   string     `json:"title"`
	Edition string     `json:"edition,omitempty"`
	Year    int        `json:"year,omitempty"` // of the edition; 0 if it has none
	Kind    SourceKind `json:"kind"`           // what it is
	Why     string     `json:"why,omitempty"`  // why it is trusted, if it was not read
}

// A Flag is a property of cases, with the slip that it invites.
type Flag struct {
	Means       string `json:"means"`       // the property, in words
	TypicalSlip string `json:"typicalSlip"` // the usual mistake in such cases
}

// A Standing says how a case relates to its source.
type Standing string

// The standings of a case.
const (
	WorkedExample    Standing = "worked-example"             // the source's own example
	TableCell        Standing = "table"                      // a figure of a table
	Fact             Standing = "fact"                       // a fact or a formula stated
	AnswerRecomputed Standing = "question-answer-recomputed" // the source's question; the answer is ours
	RuleApplied      Standing = "rule-applied"               // the source's rule; the figures are ours
	Computed         Standing = "generated"                  // worked by the source, a library, for figures of ours
)

// A Case is one input with its expected answer.
type Case struct {
	ID            string              `json:"id"`                      // topic/operation/name; never changes
	Since         string              `json:"since"`                   // the corpus's version it came with
	Operation     string              `json:"operation"`               // such as "variation.project"
	Standing      Standing            `json:"standing"`                // its relation to the source
	Given         json.RawMessage     `json:"given"`                   // an object; its keys are those of the schema
	Expect        map[string]Expected `json:"expect,omitempty"`        // by the keys of the answer; empty if Refused
	Refused       []string            `json:"refused,omitempty"`       // kinds of refusal, any of which passes
	WithinBecause string              `json:"withinBecause,omitempty"` // why the tolerances are what they are
	Source        Place               `json:"source"`                  // its place in the source
	Flags         []string            `json:"flags,omitempty"`         // names in the topic's Flags
	Slips         []map[string]any    `json:"slips,omitempty"`         // wrong answers with their names
	Notes         string              `json:"notes,omitempty"`         // for a reader
	Status        string              `json:"status"`                  // "active", or "withdrawn" and never run
}

// A Place is the place of a case in its source.
type Place struct {
	ID string `json:"id"` // in the topic's Sources
	At string `json:"at"` // page, article or table
}

// An Expected is a value of the expected answer.
type Expected struct {
	Value   any     `json:"value"`             // a number, a text, or a list of numbers
	Within  float64 `json:"within"`            // the tolerance of a number
	Printed string  `json:"printed,omitempty"` // as in the source, if that differs
}

// Version is the version of the corpus: the first number changes with the schema, the
// second as cases are added.
const Version = "2.0"

// Load reads the corpus. For an unknown field it returns an error.
func Load() ([]Topic, error) {
	names, err := fs.Glob(files, "cases/*.json")
	if err != nil {
		return nil, err
	}
	var topics []Topic
	for _, name := range names {
		data, err := files.ReadFile(name)
		if err != nil {
			return nil, err
		}
		var t Topic
		d := json.NewDecoder(bytes.NewReader(data))
		d.DisallowUnknownFields()
		if err := d.Decode(&t); err != nil {
			return nil, fmt.Errorf("conformance: %s: %w", path.Base(name), err)
		}
		topics = append(topics, t)
	}
	return topics, nil
}
