package conformance_test

import (
	"encoding/json"
	"io/fs"
	"maps"
	"slices"
	"strings"
	"testing"

	"lubberline.example/conformance"
	"lubberline.example/conformance/internal/schema"
)

// TestFilesFollowTheSchema holds each file to the JSON Schema, by the few keywords that
// the schema uses.
func TestFilesFollowTheSchema(t *testing.T) {
	var rules map[string]any
	data, err := fs.ReadFile(conformance.Files(), "schema/cases-1.json")
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(data, &rules); err != nil {
		t.Fatal(err)
	}
	names, err := fs.Glob(conformance.Files(), "cases/*.json")
	if err != nil || len(names) == 0 {
		t.Fatal(names, err)
	}
	v := schema.Validator{Root: rules}
	for _, name := range names {
		data, err := fs.ReadFile(conformance.Files(), name)
		if err != nil {
			t.Fatal(err)
		}
		var file any
		if err := json.Unmarshal(data, &file); err != nil {
			t.Fatal(name, err)
		}
		for _, problem := range v.Check(name, rules, file) {
			t.Error(problem)
		}
	}
	// It finds what is wrong.
	bad := map[string]any{"schema": "cases-2", "topic": "X", "sources": map[string]any{}, "flags": map[string]any{}, "cases": []any{}, "more": 1.0}
	if n := len(v.Check("bad", rules, bad)); n != 4 {
		t.Errorf("%d problems of 4 found", n)
	}
}

// TestCasesFollowTheirOperations holds what each case gives and expects to the schema of its
// operation. Each key and each word of an enumeration must occur in a case, a key is required
// if every case has it, and the kinds of refusal are those of the cases.
func TestCasesFollowTheirOperations(t *testing.T) {
	var root map[string]any
	data, err := fs.ReadFile(conformance.Files(), "schema/operations-1.json")
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(data, &root); err != nil {
		t.Fatal(err)
	}
	operations := root["operations"].(map[string]any)
	uses := map[string]*usage{}
	for name, operation := range operations {
		o := operation.(map[string]any)
		about, _ := o["about"].(string)
		if len(about) < 20 || about[len(about)-1] != '.' {
			t.Errorf("%s: needs a paragraph", name)
		}
		uses[name] = &usage{validator: schema.Validator{Root: root}, schema: o, refused: map[string]bool{}}
	}
	for _, topic := range load(t) {
		for _, c := range topic.Cases {
			if c.Status != "active" {
				continue
			}
			u := uses[c.Operation]
			if u == nil {
				t.Errorf("%s: the schema has no operation %s", c.ID, c.Operation)
				continue
			}
			for _, problem := range u.add(c) {
				t.Error(problem)
			}
		}
	}
	for name, u := range uses {
		for _, problem := range u.unused() {
			t.Errorf("operations-1.json: %s: %s", name, problem)
		}
	}
}

// A usage gathers what the cases of an operation use of its schema.
type usage struct {
	validator      schema.Validator
	schema         map[string]any
	given, answers []map[string]any
	refused        map[string]bool
}

// add checks one case.
func (u *usage) add(c conformance.Case) (problems []string) {
	var given map[string]any
	if err := json.Unmarshal(c.Given, &given); err != nil {
		return []string{c.ID + ": " + err.Error()}
	}
	u.given = append(u.given, given)
	problems = u.validator.Check(c.ID+": given", u.schema["given"].(map[string]any), any(given))
	for _, kind := range c.Refused {
		u.refused[kind] = true
	}
	if c.Refused != nil {
		return problems
	}
	answer := map[string]any{}
	for key, want := range c.Expect {
		answer[key] = want.Value
		if u.schema["answer"].(map[string]any)["properties"].(map[string]any)[key] == nil {
			problems = append(problems, c.ID+": the schema of the answer has no "+key)
		}
	}
	u.answers = append(u.answers, answer)
	return append(problems, u.validator.Check(c.ID+": expect", u.schema["answer"].(map[string]any), any(answer))...)
}

// unused says what the schema has that the cases do not use.
func (u *usage) unused() (problems []string) {
	for side, objects := range map[string][]map[string]any{"given": u.given, "answer": u.answers} {
		object := u.schema[side].(map[string]any)
		required, _ := object["required"].([]any)
		for key, rule := range object["properties"].(map[string]any) {
			count, values := 0, map[any]bool{}
			for _, o := range objects {
				if v, ok := o[key]; ok {
					count++
					if text, ok := v.(string); ok {
						values[text] = true
					}
				}
			}
			if count == 0 {
				problems = append(problems, side+": no case has "+key)
			}
			if slices.Contains(required, any(key)) != (count == len(objects)) {
				problems = append(problems, side+": list "+key+" under required if and only if every case has it")
			}
			r := rule.(map[string]any)
			if ref, ok := r["$ref"].(string); ok && r["enum"] == nil {
				r = u.validator.Definition(ref)
			}
			words, _ := r["enum"].([]any)
			for _, word := range words {
				if _, text := word.(string); text && !values[word] {
					problems = append(problems, side+": no case has "+key+" "+word.(string))
				}
			}
		}
	}
	var kinds []string
	listed, _ := u.schema["refused"].([]any)
	for _, kind := range listed {
		kinds = append(kinds, kind.(string))
	}
	if used := slices.Sorted(maps.Keys(u.refused)); !slices.Equal(used, kinds) {
		problems = append(problems, "refused: list the kinds of the cases in order: "+strings.Join(used, ", "))
	}
	return problems
}
