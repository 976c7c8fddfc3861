package conformance_test

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/conformance"
	"lubberline.example/variation"
)

// TestLubberline holds the packages of this module to every case. Subtests are
// named by id: go test -run 'TestLubberline/variation/project'.
func TestLubberline(t *testing.T) {
	ran := map[string]bool{}
	for _, topic := range load(t) {
		for _, c := range topic.Cases {
			if c.Status != "active" {
				continue
			}
			t.Run(c.ID, func(t *testing.T) {
				operation, ok := operations[c.Operation]
				if !ok {
					t.Fatalf("operation %s is not offered", c.Operation)
				}
				ran[c.Operation] = true
				got, err := operation(c.Given)
				source := topic.Sources[c.Source.ID]
				where := fmt.Sprintf("\ngiven %s\nsource: %s, %s, %s", c.Given, source.Title, source.Edition, c.Source.At)
				if c.Refused != nil {
					if kind := refusal(err); !slices.Contains(c.Refused, kind) {
						t.Errorf("want refused as %v, got %v (error: %v)%s", c.Refused, got, err, where)
					}
					return
				}
				if err != nil {
					t.Fatalf("refused: %v%s", err, where)
				}
				for key, want := range c.Expect {
					if problem := compare(key, got[key], want); problem != "" {
						t.Errorf("%s: %s%s%s", key, problem, slipOf(c, key, got[key]), where)
					}
				}
			})
		}
	}
	for name := range operations {
		if !ran[name] {
			t.Errorf("no case of %s", name)
		}
	}
}

// refusal is the kind of a typed error.
func refusal(err error) string {
	if e, ok := errors.AsType[*variation.LegendError](err); ok {
		return string(e.Kind)
	}
	if e, ok := errors.AsType[*angle.ParseError](err); ok {
		return string(e.Kind)
	}
	return ""
}

// compare says what is wrong with a value, or "". Degrees are compared on the
// circle.
func compare(key string, got any, want conformance.Expected) string {
	switch w := want.Value.(type) {
	case float64:
		g, ok := got.(float64)
		off := g - w
		if strings.HasSuffix(strings.ToLower(key), "degrees") {
			off = onCircle(off)
		}
		if !ok || !(math.Abs(off) <= want.Within+1e-12) {
			return fmt.Sprintf("want %v ± %v %s, got %v", w, want.Within, want.Printed, got)
		}
	case string:
		if got != w {
			return fmt.Sprintf("want %q, got %q", w, got)
		}
	case []any:
		list, ok := got.([]float64)
		if !ok || len(list) != len(w) {
			return fmt.Sprintf("want %v, got %v", w, got)
		}
		for i := range w {
			if problem := compare(key, list[i], conformance.Expected{Value: w[i], Within: want.Within}); problem != "" {
				return fmt.Sprintf("[%d]: %s", i, problem)
			}
		}
	default:
		return fmt.Sprintf("a case can't expect a %T", w)
	}
	return ""
}

// slipOf names the slip that a wrong answer contains, if the case lists it.
func slipOf(c conformance.Case, key string, got any) string {
	for _, slip := range c.Slips {
		wrong, ok := slip[key].(float64)
		g, isNumber := got.(float64)
		if ok && isNumber && math.Abs(onCircle(g-wrong)) <= c.Expect[key].Within {
			return fmt.Sprintf(" (%s)", strings.ReplaceAll(slip["name"].(string), "-", " "))
		}
	}
	return ""
}

// onCircle is a difference of degrees the shorter way round.
func onCircle(degrees float64) float64 { return math.Remainder(degrees, 360) }
