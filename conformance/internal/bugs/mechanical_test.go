package bugs

import (
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"

	"lubberline.example/conformance"
	"lubberline.example/conformance/lubberline"
)

// changes are what is done to each figure, list and choice of the questions, and to each figure of
// the answers.
var changes = map[string]func(any) any{
	"negated":          figure(negated),
	"without-sign":     figure(math.Abs),
	"zero":             figure(zero),
	"one":              figure(always(1)),
	"halved":           figure(times(0.5)),
	"one-percent-more": figure(times(1.01)),
	"whole":            figure(whole),
	"cut":              figure(truncated),
	"tenths":           figure(func(x float64) float64 { return math.Round(10*x) / 10 }),
	"not-below-0":      figure(func(x float64) float64 { return max(0, x) }),
	"at-most-90":       figure(func(x float64) float64 { return min(90, x) }),
	"at-most-180":      figure(func(x float64) float64 { return min(180, x) }),
	"modulo-180":       figure(func(x float64) float64 { return math.Mod(x, 180) }),
	"modulo-90":        figure(func(x float64) float64 { return math.Mod(x, 90) }),
	"not": func(v any) any {
		if b, ok := v.(bool); ok {
			return !b
		}
		return v
	},
	"reversed":    inList(func(all []any) []any { slices.Reverse(all); return all }),
	"first-lost":  inList(func(all []any) []any { return all[1:] }),
	"last-lost":   inList(func(all []any) []any { return all[:len(all)-1] }),
	"turned-once": inList(func(all []any) []any { return append(all[1:], all[0]) }),
}

// mechanicalNotFound are the changes that no case finds, with the reason.
var mechanicalNotFound = map[string]string{
	"angle.minutes/given degrees without-sign":                       "the answer has no sign, and no case asks for the text of a negative angle",
	"course.bearing/answer trueBearingDegrees tenths":                "less than a tenth, in whole degrees or points of the books",
	"fix.running/given second.bearingDegrees tenths":                 "less than 0.0001° of position",
	"fix.verticalAngleBeyond/given heightOfEyeFeet tenths":           "less than the tolerance, 0.3 %, allows for the constants of the table",
	"fix.verticalAngleBeyond/given heightOfEyeFeet cut":              "less than the tolerance, 0.3 %, allows for the constants of the table",
	"fix.verticalAngleBeyond/given heightOfEyeFeet one-percent-more": "less than the tolerance, 0.3 %, allows for the constants of the table",
	"sailing.degree/answer latitudeMetres tenths":                    "tables print metres, and the tolerance is 0.05 m",
}

// TestSuiteFindsMechanicalChanges makes each change to each part of the questions and the answers
// of each operation, and leaves each part of the questions out. It keeps those that change an
// answer, about 4,000, and lists what no case finds. It takes half a minute, so it runs with FULL=1.
func TestSuiteFindsMechanicalChanges(t *testing.T) {
	if os.Getenv("FULL") != "1" {
		t.Skip("set FULL=1 to try about 4,000 mechanical changes")
	}
	bank := mechanical(t)
	left := missed(t, missed(t, bank, conformance.TierLibrary), conformance.TierFormat)
	t.Logf("of %d changes the suite does not find %d", len(bank), len(left))
	report(t, "the whole suite", left, mechanicalNotFound)
}

// mechanical returns the changes that change an answer to some question of the suite.
func mechanical(t *testing.T) (bank []Bug) {
	t.Helper()
	questions, keys := asked(t)
	for operation, all := range questions {
		try := func(name string, work mistake) {
			b := Bug{ID: operation + "/" + name, Operation: operation, Says: name, work: work}
			if b.changesSome(all) {
				bank = append(bank, b)
			}
		}
		parts := map[string]bool{}
		for _, g := range all {
			partsOf(g, "", parts)
		}
		for part := range parts {
			for name, change := range changes {
				try("given "+part+" "+name, question(func(g given) {
					visit(g, part, func(in map[string]any, key string) { in[key] = change(in[key]) })
				}))
			}
			try("given "+part+" left-out", question(func(g given) {
				visit(g, part, func(in map[string]any, key string) { delete(in, key) })
			}))
		}
		for key := range keys[operation] {
			for name, change := range changes {
				try("answer "+key+" "+name, reply(func(_ given, a answer) {
					if value, ok := a[key]; ok {
						a[key] = change(value)
					}
				}))
			}
		}
	}
	return bank
}

// asked returns the questions of each operation, and the keys of the answers that cases ask for.
func asked(t *testing.T) (questions map[string][]given, keys map[string]map[string]bool) {
	t.Helper()
	topics, err := conformance.Load()
	if err != nil {
		t.Fatal(err)
	}
	questions, keys = map[string][]given{}, map[string]map[string]bool{}
	for _, topic := range topics {
		for _, c := range topic.Cases {
			var g given
			if err := json.Unmarshal(c.Given, &g); err != nil {
				t.Fatal(err)
			}
			if c.Status != "active" {
				continue
			}
			questions[c.Operation] = append(questions[c.Operation], g)
			if keys[c.Operation] == nil {
				keys[c.Operation] = map[string]bool{}
			}
			for key := range c.Expect {
				keys[c.Operation][key] = true
			}
		}
	}
	return questions, keys
}

// changesSome reports whether the bug changes the answer to a question, by more than a whole turn
// and the noise of floating point.
func (b Bug) changesSome(questions []given) bool {
	correct := lubberline.Subject().Operations
	wrong := b.apply(correct)
	return slices.ContainsFunc(questions, func(g given) bool {
		data, err := json.Marshal(g)
		if err != nil {
			return false
		}
		right, err := correct[b.Operation](data)
		other, otherErr := wrong(data)
		if err != nil || otherErr != nil {
			return (err == nil) != (otherErr == nil)
		}
		return !maps.EqualFunc(right, other, same)
	})
}

// same compares two values of an answer.
func same(a, b any) bool {
	x, numberA := a.(float64)
	y, numberB := b.(float64)
	if numberA && numberB {
		return math.Abs(math.Remainder(x-y, 360)) < 1e-7
	}
	if all, other := list(answer{"": a}, ""), list(answer{"": b}, ""); all != nil && other != nil {
		return slices.EqualFunc(all, other, func(x, y float64) bool { return same(x, y) })
	}
	return reflect.DeepEqual(a, b)
}

// figure changes numbers and lists of numbers.
func figure(change func(float64) float64) func(any) any {
	return func(v any) any { return changed(v, change) }
}

// inList changes a list.
func inList(change func([]any) []any) func(any) any {
	return func(v any) any {
		switch all := v.(type) {
		case []any:
			if len(all) > 0 {
				return change(slices.Clone(all))
			}
		case []float64:
			boxed := make([]any, len(all))
			for i, x := range all {
				boxed[i] = x
			}
			return list(answer{"": change(boxed)}, "")
		}
		return v
	}
}

// partsOf gathers the paths of a question.
func partsOf(v any, path string, parts map[string]bool) {
	switch v := v.(type) {
	case given:
		for key, inner := range v {
			if path != "" {
				key = fmt.Sprintf("%s.%s", path, key)
			}
			partsOf(inner, key, parts)
		}
		return
	case []any:
		for _, inner := range v {
			if _, nested := inner.(given); nested {
				partsOf(inner, path, parts)
			}
		}
	}
	parts[path] = true
}

// visit goes to the object, or the objects, that hold the end of a path.
func visit(g map[string]any, path string, f func(in map[string]any, key string)) {
	key, rest, nested := strings.Cut(path, ".")
	value, ok := g[key]
	switch {
	case ok && nested:
		within(value, func(inner given) { visit(inner, rest, f) })
	case ok:
		f(g, key)
	}
}
