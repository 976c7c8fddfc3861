package conformance

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"sync"

	"lubberline.example/conformance/internal/schema"
)

// A quantity is what a value of an answer measures: its unit, its range, and whether it is
// compared on the circle. The schema of operations states the quantity of each key.
type quantity schema.Value

// operations reads the schema of operations once.
var operations = sync.OnceValues(func() (schema.Schema, error) {
	data, err := files.ReadFile(schema.File)
	if err != nil {
		return schema.Schema{}, err
	}
	return schema.Parse(data)
})

// quantityOf returns the quantity of a key of an operation's answer. It reports false if the
// schema states none.
func quantityOf(operation, key string) (quantity, bool) {
	s, err := operations()
	if err != nil {
		return quantity{}, false
	}
	v, ok := s.Answered(operation, key)
	return quantity(v), ok
}

// conventionFlag is the flag of a case that follows a convention of its own, which its notes
// state.
const conventionFlag = "convention"

// conventionsOf returns the conventions of a case: those of its operation, and its own.
func conventionsOf(c Case) []string {
	s, err := operations()
	if err != nil {
		return nil
	}
	list := slices.Clone(s.Operations[c.Operation].Conventions)
	if slices.Contains(c.Flags, conventionFlag) {
		list = append(list, c.Notes)
	}
	return list
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
		return fmt.Sprintf("%v%s, which is below %v%s", x, q.Unit, low, q.Unit)
	}
	return fmt.Sprintf("%v%s, which is outside %v%s to %v%s", x, q.Unit, low, q.Unit, high, q.Unit)
}

// difference returns got less want, on the circle the shorter way round.
func (q quantity) difference(got, want float64) float64 {
	if q.Circle {
		return math.Remainder(got-want, 360)
	}
	return got - want
}

// same reports whether two texts are the same, letter by letter or as names of directions. NbE is
// the same as N by E, and N 45° E as N45E.
func (q quantity) same(got, want string) bool {
	return got == want || q.Fold && folded(got) == folded(want)
}

// folded is a name of a direction without what spellings differ in.
func folded(name string) string {
	return strings.NewReplacer(" ", "", "°", "", "by", "b").Replace(name)
}
