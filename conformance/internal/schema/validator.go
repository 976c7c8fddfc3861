package schema

import (
	"fmt"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"time"
)

// A Validator checks values against JSON Schemas, by the few keywords that the schemas of this
// project use. Root is the file that references lead into.
type Validator struct{ Root map[string]any }

// Check returns what a value has that the schema does not allow, one line each. Values are those of
// encoding/json.
func (v Validator) Check(at string, schema map[string]any, value any) (problems []string) {
	bad := func(format string, args ...any) {
		problems = append(problems, at+": "+fmt.Sprintf(format, args...))
	}
	for keyword, rule := range schema {
		switch keyword {
		case "$schema", "$id", "title", "description", "$defs":
		case "unit", "circle", "spelling", "navigation", "fold": // say how values are compared
		case "$ref":
			problems = append(problems, v.Check(at, v.Definition(rule.(string)), value)...)
		case "type":
			if !ofType(rule, value) {
				bad("is not of type %v", rule)
			}
		case "const":
			if !reflect.DeepEqual(rule, value) {
				bad("is not %v", rule)
			}
		case "enum":
			if !slices.ContainsFunc(rule.([]any), func(x any) bool { return reflect.DeepEqual(x, value) }) {
				bad("%v is not one of those allowed", value)
			}
		case "pattern":
			if s, ok := value.(string); ok && !regexp.MustCompile(rule.(string)).MatchString(s) {
				bad("%q does not match %s", s, rule)
			}
		case "format":
			if s, ok := value.(string); ok && rule == "date-time" {
				if _, err := time.Parse(time.RFC3339, s); err != nil {
					bad("%v", err)
				}
			}
		case "minimum", "maximum", "exclusiveMinimum", "exclusiveMaximum", "minLength", "minItems", "maxItems", "minProperties":
			if problem := beyond(keyword, rule.(float64), value); problem != "" {
				bad("%s", problem)
			}
		case "items":
			list, _ := value.([]any)
			for i, item := range list {
				problems = append(problems, v.Check(fmt.Sprintf("%s[%d]", at, i), rule.(map[string]any), item)...)
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
				if len(v.Check(at, one.(map[string]any), value)) == 0 {
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
			bad("the keyword %s of the schema is not known here", keyword)
		}
	}
	return problems
}

// beyond says that a number, or the size of a value, is beyond a bound, or returns "".
func beyond(keyword string, bound float64, value any) string {
	switch x := value.(type) {
	case float64:
		switch {
		case keyword == "minimum" && x < bound:
			return fmt.Sprintf("%v is below %v", x, bound)
		case keyword == "maximum" && x > bound:
			return fmt.Sprintf("%v is above %v", x, bound)
		case keyword == "exclusiveMinimum" && x <= bound:
			return fmt.Sprintf("%v is not above %v", x, bound)
		case keyword == "exclusiveMaximum" && x >= bound:
			return fmt.Sprintf("%v is not below %v", x, bound)
		}
	case string:
		if keyword == "minLength" && len(x) < int(bound) {
			return "is too short"
		}
	case []any:
		switch {
		case keyword == "minItems" && len(x) < int(bound):
			return "has too few items"
		case keyword == "maxItems" && len(x) > int(bound):
			return "has too many items"
		}
	case map[string]any:
		if keyword == "minProperties" && len(x) < int(bound) {
			return "has too few properties"
		}
	}
	return ""
}

// Definition returns what a reference refers to.
func (v Validator) Definition(ref string) map[string]any {
	return v.Root["$defs"].(map[string]any)[strings.TrimPrefix(ref, "#/$defs/")].(map[string]any)
}

// members checks an object's properties.
func (v Validator) members(at string, schema map[string]any, value any) (problems []string) {
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
		problems = append(problems, v.Check(at+"."+key, rule, member)...)
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
