package schema

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"
)

// A Row describes one key of an object. The keys of an object in an object stand in rows of
// their own, with a point between: from.latitudeDegrees.
type Row struct {
	Key      string
	Optional bool   // a case may leave it out
	Kind     string // "number, °, from 0 to 360"
	Circle   bool   // an answer is compared on the circle
	About    string
}

// Rows describe the keys of an object: the required ones first, each group in order.
func (s Schema) Rows(object Value) []Row {
	var rows []Row
	for _, optional := range []bool{false, true} {
		for _, key := range slices.Sorted(maps.Keys(object.Properties)) {
			if slices.Contains(object.Required, key) != optional {
				rows = append(rows, s.rows(key, optional, object.Properties[key])...)
			}
		}
	}
	return rows
}

// rows describe one key, and the keys below it.
func (s Schema) rows(key string, optional bool, v Value) []Row {
	v = s.Resolve(v)
	below := v
	if v.Items != nil {
		below = s.Resolve(*v.Items)
	}
	rows := []Row{{key, optional, s.kind(v), below.Circle, cmp.Or(v.Description, below.Description)}}
	if v.Items != nil {
		key += "[]"
	}
	for _, name := range slices.Sorted(maps.Keys(below.Properties)) {
		rows = append(rows, s.rows(key+"."+name, !slices.Contains(below.Required, name), below.Properties[name])...)
	}
	return rows
}

// kind says what a value may be, without its meaning.
func (s Schema) kind(v Value) string {
	if v.Items != nil {
		list := "list of " + s.kind(s.Resolve(*v.Items))
		if v.MinItems > 0 {
			list += fmt.Sprintf("; at least %d", v.MinItems)
		}
		return list
	}
	parts := []string{v.Type}
	if unit := strings.TrimSpace(v.Unit); unit != "" {
		parts = append(parts, unit)
	}
	switch {
	case v.Enum != nil:
		words := make([]string, len(v.Enum))
		for i, w := range v.Enum {
			words[i] = fmt.Sprint(w)
		}
		parts = append(parts, strings.Join(words, " or "))
	case v.Minimum != nil && v.Maximum != nil:
		parts = append(parts, fmt.Sprintf("from %v to %v", *v.Minimum, *v.Maximum))
	case v.Minimum != nil:
		parts = append(parts, fmt.Sprintf("at least %v", *v.Minimum))
	case v.ExclusiveMinimum != nil:
		parts = append(parts, fmt.Sprintf("above %v", *v.ExclusiveMinimum))
	}
	switch {
	case v.ExclusiveMaximum != nil:
		parts = append(parts, fmt.Sprintf("below %v", *v.ExclusiveMaximum))
	case v.ExclusiveMinimum != nil && v.Maximum != nil:
		parts = append(parts, fmt.Sprintf("at most %v", *v.Maximum))
	}
	return strings.Join(parts, ", ")
}
