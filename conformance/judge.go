package conformance

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
)

// judge compares an answer with the expected one.
func judge(c Case, expect map[string]Expected, answer Answer, err error) (Status, []string) {
	refusal, refused := errors.AsType[*Error](err)
	switch {
	case refused && refusal.Status == Declined:
		return Declined, []string{refusal.Reason}
	case refused && refusal.Status != Refused:
		return refusal.Status, []string{refusal.text()}
	}
	if c.Refused != nil {
		switch {
		case refused && (refusal.Kind == "" || slices.Contains(c.Refused, refusal.Kind)):
			return Pass, nil
		case refused:
			return Fail, []string{fmt.Sprintf("expected a refusal as %s, got a refusal as %q", strings.Join(c.Refused, " or "), refusal.Kind)}
		case err != nil:
			return Broke, []string{fmt.Sprintf("expected a refusal as %s, got an error that is no refusal: %v", strings.Join(c.Refused, " or "), err)}
		}
		return Fail, []string{fmt.Sprintf("expected a refusal as %s, got the answer %v", strings.Join(c.Refused, " or "), text(answer))}
	}
	switch {
	case refused:
		return Fail, []string{"a valid input is refused: " + err.Error()}
	case err != nil:
		return Broke, []string{err.Error()}
	}
	var problems []string
	missing := false
	keys := make([]string, 0, len(expect))
	for key := range expect {
		keys = append(keys, key)
	}
	slices.Sort(keys)
	for _, key := range keys {
		q, ok := quantityOf(c.Operation, key)
		if !ok {
			problems = append(problems, key+": the schema states no quantity for it")
			continue
		}
		if problem := compare(q, answer[key], expect[key]); problem != "" {
			problems = append(problems, key+": "+problem+slipOf(q, c, key, answer[key]))
			missing = missing || answer[key] == nil
		}
	}
	if missing {
		problems = append(problems, strangers(c.Operation, answer)...)
	}
	if problems != nil {
		return Fail, problems
	}
	return Pass, nil
}

// text shows an answer as JSON.
func text(answer Answer) string {
	data, err := json.Marshal(answer)
	if err != nil {
		return fmt.Sprint(answer)
	}
	return string(data)
}

// compare says what is wrong with a value. If nothing is, it returns "". A number must be in the
// range of its quantity. Only directions and longitudes are compared on the circle.
func compare(q quantity, got any, want Expected) string {
	switch w := want.Value.(type) {
	case float64:
		g, ok := number(got)
		printed := ""
		if want.Printed != "" {
			printed = " (printed " + want.Printed + ")"
		}
		if !ok {
			return fmt.Sprintf("expected %v%s ± %v%s, got %v", w, q.Unit, want.Within, printed, noNumber(got))
		}
		if problem := q.outside(g); problem != "" {
			return fmt.Sprintf("expected %v%s ± %v%s, got %v", w, q.Unit, want.Within, printed, problem)
		}
		off := q.difference(g, w)
		if math.Abs(off) <= want.Within+1e-12 {
			return ""
		}
		return fmt.Sprintf("expected %v%s ± %v%s, got %v: off by %+.6g%s", w, q.Unit, want.Within, printed, g, off, q.Unit)
	case string:
		if g, ok := got.(string); !ok || !q.same(g, w) {
			return fmt.Sprintf("expected %q, got %v", w, show(got))
		}
	case []any:
		list, ok := numbers(got)
		if !ok || len(list) != len(w) {
			return fmt.Sprintf("expected %v, got %v", w, show(got))
		}
		for i := range w {
			if problem := compare(q, list[i], Expected{Value: w[i], Within: want.Within}); problem != "" {
				return fmt.Sprintf("[%d]: %s", i, problem)
			}
		}
	default:
		return fmt.Sprintf("a case can't expect a %T", w)
	}
	return ""
}

// number is a finite number of an answer.
func number(v any) (float64, bool) {
	f, ok := v.(float64)
	return f, ok && !math.IsNaN(f) && !math.IsInf(f, 0)
}

// numbers is a list of numbers, as Go or JSON gives it.
func numbers(v any) ([]any, bool) {
	switch list := v.(type) {
	case []any:
		return list, true
	case []float64:
		out := make([]any, len(list))
		for i, f := range list {
			out[i] = f
		}
		return out, true
	}
	return nil, false
}

func show(v any) string {
	if v == nil {
		return "nothing"
	}
	return fmt.Sprintf("%v", v)
}

// noNumber shows a value that stands where a number belongs.
func noNumber(v any) string {
	switch v.(type) {
	case nil, float64:
		return show(v)
	case string:
		return show(v) + ", a text and not a number"
	}
	return fmt.Sprintf("%v, of type %T and not a number of type float64", v, v)
}

// strangers names the keys of an answer that its operation does not have, such as misspelt ones.
func strangers(operation string, answer Answer) []string {
	var keys []string
	for key := range answer {
		if _, ok := quantityOf(operation, key); !ok {
			keys = append(keys, fmt.Sprintf("%.60q", key))
		}
	}
	if keys == nil {
		return nil
	}
	slices.Sort(keys)
	return []string{fmt.Sprintf("the answer has %s, which %s does not have", strings.Join(keys[:min(len(keys), 5)], ", "), operation)}
}

// slipOf names the slip that a wrong answer contains, if the case lists it.
func slipOf(q quantity, c Case, key string, got any) string {
	g, isNumber := number(got)
	for _, slip := range c.Slips {
		wrong, ok := slip[key].(float64)
		name, named := slip["name"].(string)
		if ok && named && isNumber && math.Abs(q.difference(g, wrong)) <= c.Expect[key].Within {
			return fmt.Sprintf(" (%s)", strings.ReplaceAll(name, "-", " "))
		}
	}
	return ""
}
