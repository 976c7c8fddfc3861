package conformance

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"sync"
)

// A quantity is what a value of an answer measures: its unit, its range, and whether it is
// compared on the circle. The schema of operations states the quantity of each key.
type quantity struct {
	Unit    string   `json:"unit"`    // shown after the figure
	Minimum *float64 `json:"minimum"` // nil if there is none
	Maximum *float64 `json:"maximum"` // nil if there is none
	Circle  bool     `json:"circle"`  // 359° and 1° are 2° apart
	Format  bool     `json:"format"`  // a spelling, which navigators need not agree on
	// Navigation is the tolerance that the trade needs.
	Navigation float64 `json:"navigation"`

	Fold bool `json:"fold"` // blanks and degree marks do not count, and "by" is b
}

// operationsSchema is the part of schema/operations-1.json that the judge needs.
type operationsSchema struct {
	Defs       map[string]quantity `json:"$defs"`
	Operations map[string]struct {
		Answer struct {
			Properties map[string]struct {
				Ref   string `json:"$ref"`
				Items struct {
					Ref string `json:"$ref"`
				} `json:"items"` // of a list
			} `json:"properties"`
		} `json:"answer"`
	} `json:"operations"`
}

// quantities reads the schema of operations once.
var quantities = sync.OnceValues(func() (operationsSchema, error) {
	var s operationsSchema
	data, err := files.ReadFile("schema/operations-1.json")
	if err != nil {
		return s, err
	}
	if err := json.Unmarshal(data, &s); err != nil {
		return s, fmt.Errorf("conformance: operations-1.json: %w", err)
	}
	return s, nil
})

// quantityOf returns the quantity of a key of an operation's answer. It reports false if the
// schema states none.
func quantityOf(operation, key string) (quantity, bool) {
	s, err := quantities()
	if err != nil {
		return quantity{}, false
	}
	p := s.Operations[operation].Answer.Properties[key]
	ref := p.Ref
	if ref == "" {
		ref = p.Items.Ref
	}
	q, ok := s.Defs[strings.TrimPrefix(ref, "#/$defs/")]
	return q, ok
}

// rangeSlack is by how much a figure may lie beyond the range, for floating point.
const rangeSlack = 1e-9

// outside says that a figure is out of range, or returns "".
func (q quantity) outside(x float64) string {
	low, high := math.Inf(-1), math.Inf(1)
	if q.Minimum != nil {
		low = *q.Minimum
	}
	if q.Maximum != nil {
		high = *q.Maximum
	}
	switch {
	case x >= low-rangeSlack && x <= high+rangeSlack:
		return ""
	case math.IsInf(high, 1):
		return fmt.Sprintf("%v%s is below %v%s", x, q.Unit, low, q.Unit)
	}
	return fmt.Sprintf("%v%s is outside %v%s to %v%s", x, q.Unit, low, q.Unit, high, q.Unit)
}

// difference returns got less want, on the circle the shorter way round.
func (q quantity) difference(got, want float64) float64 {
	if q.Circle {
		return math.Remainder(got-want, 360)
	}
	return got - want
}

// same reports whether two texts are the same: letter by letter, or as names of directions,
// where NbE is N by E, and N 45° E is N45E.
func (q quantity) same(got, want string) bool {
	return got == want || q.Fold && folded(got) == folded(want)
}

// folded is a name of a direction without what spellings differ in.
func folded(name string) string {
	return strings.NewReplacer(" ", "", "°", "", "by", "b").Replace(name)
}
