// Package schema reads the schema of the operations, schema/operations-1.json: what each
// operation does, what a case gives, and what is answered.
package schema

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"
)

// File is the name of the schema in the corpus.
const File = "schema/operations-1.json"

// A Schema has the operations by name, and the definitions that they refer to.
type Schema struct {
	Definitions map[string]Value     `json:"$defs"`
	Operations  map[string]Operation `json:"operations"`
}

// An Operation is one kind of case.
type Operation struct {
	About       string   `json:"about"`       // what it does, a paragraph
	Conventions []string `json:"conventions"` // what others may hold otherwise
	Given       Value    `json:"given"`       // an object
	Answer      Value    `json:"answer"`      // an object
	Refused     []string `json:"refused"`     // the kinds of refusal that cases list
}

// A Value is a JSON Schema, with the keywords of this project that say how figures and texts
// are compared.
type Value struct {
	Ref         string `json:"$ref"` // of a definition; the other keywords add to it
	Description string `json:"description"`
	Type        string `json:"type"`

	Minimum          *float64 `json:"minimum"` // nil if there is none
	Maximum          *float64 `json:"maximum"`
	ExclusiveMinimum *float64 `json:"exclusiveMinimum"`
	ExclusiveMaximum *float64 `json:"exclusiveMaximum"`
	Enum             []any    `json:"enum"`

	Items      *Value           `json:"items"`    // of a list
	MinItems   int              `json:"minItems"` // 0 if any number will do
	Properties map[string]Value `json:"properties"`
	Required   []string         `json:"required"`

	Unit       string  `json:"unit"`       // shown after a figure
	Circle     bool    `json:"circle"`     // 359° and 1° are 2° apart
	Spelling   bool    `json:"spelling"`   // compared at the tier format only
	Navigation float64 `json:"navigation"` // the tolerance that the trade needs
	Fold       bool    `json:"fold"`       // spaces and degree marks do not count, and "by" is b
}

// Parse reads the schema of the operations.
func Parse(data []byte) (Schema, error) {
	var s Schema
	if err := json.Unmarshal(data, &s); err != nil {
		return s, fmt.Errorf("conformance: %s: %w", File, err)
	}
	return s, nil
}

// Resolve returns a value with what it refers to. Its own description and enumeration stand
// before those of the definition.
func (s Schema) Resolve(v Value) Value {
	if v.Ref == "" {
		return v
	}
	d := s.Definitions[strings.TrimPrefix(v.Ref, "#/$defs/")]
	if v.Description != "" {
		d.Description = v.Description
	}
	if v.Enum != nil {
		d.Enum = v.Enum
	}
	return d
}

// Answered returns what a key of an operation's answer holds, for a list its items. It
// reports false if the schema has no such key.
func (s Schema) Answered(operation, key string) (Value, bool) {
	v, ok := s.Operations[operation].Answer.Properties[key]
	if v.Items != nil {
		v = *v.Items
	}
	return s.Resolve(v), ok
}

// Names returns the names of the operations in order.
func (s Schema) Names() []string { return slices.Sorted(maps.Keys(s.Operations)) }
