package conformance_test

import (
	"encoding/json"
	"fmt"
	"io/fs"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"lubberline.example/conformance"
)

// TestFilesFollowTheSchema holds each file to the JSON Schema, by the few keywords that
// the schema uses.
func TestFilesFollowTheSchema(t *testing.T) {
	var schema map[string]any
	data, err := fs.ReadFile(conformance.Files(), "schema/cases-1.json")
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(data, &schema); err != nil {
		t.Fatal(err)
	}
	names, err := fs.Glob(conformance.Files(), "cases/*.json")
	if err != nil || len(names) == 0 {
		t.Fatal(names, err)
	}
	v := validator{root: schema}
	for _, name := range names {
		data, err := fs.ReadFile(conformance.Files(), name)
		if err != nil {
			t.Fatal(err)
		}
		var file any
		if err := json.Unmarshal(data, &file); err != nil {
			t.Fatal(name, err)
		}
		for _, problem := range v.check(name, schema, file) {
			t.Error(problem)
		}
	}
	// It finds what is wrong.
	bad := map[string]any{"schema": "cases-2", "topic": "X", "sources": map[string]any{}, "flags": map[string]any{}, "cases": []any{}, "more": 1.0}
	if n := len(v.check("bad", schema, bad)); n != 4 {
		t.Errorf("%d problems of 4 found", n)
	}
}

type validator struct{ root map[string]any }

// check returns what a value has that the schema does not allow.
func (v validator) check(at string, schema map[string]any, value any) (problems []string) {
	bad := func(format string, args ...any) {
		problems = append(problems, at+": "+fmt.Sprintf(format, args...))
	}
	for keyword, rule := range schema {
		switch keyword {
		case "$schema", "$id", "title", "description", "$defs":
		case "$ref":
			name := strings.TrimPrefix(rule.(string), "#/$defs/")
			problems = append(problems, v.check(at, v.root["$defs"].(map[string]any)[name].(map[string]any), value)...)
		case "type":
			if !ofType(rule, value) {
				bad("want %v", rule)
			}
		case "const":
			if !reflect.DeepEqual(rule, value) {
				bad("want %v", rule)
			}
		case "enum":
			if !slices.ContainsFunc(rule.([]any), func(x any) bool { return reflect.DeepEqual(x, value) }) {
				bad("%v is not one of those allowed", value)
			}
		case "pattern":
			if s, ok := value.(string); ok && !regexp.MustCompile(rule.(string)).MatchString(s) {
				bad("%q does not match %s", s, rule)
			}
		case "minLength":
			if s, ok := value.(string); ok && len(s) < int(rule.(float64)) {
				bad("is too short")
			}
		case "minimum":
			if n, ok := value.(float64); ok && n < rule.(float64) {
				bad("is below %v", rule)
			}
		case "minItems":
			if list, ok := value.([]any); ok && len(list) < int(rule.(float64)) {
				bad("has too few items")
			}
		case "minProperties":
			if object, ok := value.(map[string]any); ok && len(object) < int(rule.(float64)) {
				bad("has too few properties")
			}
		case "items":
			list, _ := value.([]any)
			for i, item := range list {
				problems = append(problems, v.check(fmt.Sprintf("%s[%d]", at, i), rule.(map[string]any), item)...)
			}
		case "required":
			object, _ := value.(map[string]any)
			for _, key := range rule.([]any) {
				if _, ok := object[key.(string)]; !ok {
					bad("no %s", key)
				}
			}
		case "oneOf":
			fits := 0
			for _, one := range rule.([]any) {
				if len(v.check(at, one.(map[string]any), value)) == 0 {
					fits++
				}
			}
			if fits != 1 {
				bad("fits %d of the alternatives", fits)
			}
		case "properties", "additionalProperties":
			if keyword == "properties" || schema["properties"] == nil {
				problems = append(problems, v.members(at, schema, value)...)
			}
		default:
			bad("the test does not know the keyword %s", keyword)
		}
	}
	return problems
}

// members checks an object's properties.
func (v validator) members(at string, schema map[string]any, value any) (problems []string) {
	object, _ := value.(map[string]any)
	known, _ := schema["properties"].(map[string]any)
	for key, member := range object {
		rule, ok := known[key].(map[string]any)
		if !ok {
			switch more := schema["additionalProperties"].(type) {
			case map[string]any:
				rule = more
			case bool:
				if !more {
					problems = append(problems, at+": has no place for "+key)
				}
				continue
			default:
				continue
			}
		}
		problems = append(problems, v.check(at+"."+key, rule, member)...)
	}
	return problems
}

// ofType reports whether a value is of a type, or of one of several.
func ofType(rule, value any) bool {
	if list, ok := rule.([]any); ok {
		return slices.ContainsFunc(list, func(one any) bool { return ofType(one, value) })
	}
	switch value := value.(type) {
	case map[string]any:
		return rule == "object"
	case []any:
		return rule == "array"
	case string:
		return rule == "string"
	case float64:
		return rule == "number" || rule == "integer" && value == float64(int(value))
	case bool:
		return rule == "boolean"
	}
	return false
}
