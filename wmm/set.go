package wmm

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"lubberline.example/variation"
)

// A Set is several models, of which each date is answered by the right one: of
// those that hold at the date the one released last, and of those released
// together the one with the later epoch. It does not change, and is safe for use
// by several goroutines. A nil or zero Set answers with a [*MissingModelError].
type Set struct {
	models []*Model
}

// NewSet returns a set of models. It refuses none at all, and nil or zero ones,
// with a [*MissingModelError].
func NewSet(models ...*Model) (*Set, error) {
	if len(models) == 0 || slices.ContainsFunc(models, (*Model).empty) {
		return nil, &MissingModelError{"set", "at least one model, and none that is nil or zero"}
	}
	s := &Set{models: slices.Clone(models)}
	// The preferred first.
	slices.SortStableFunc(s.models, func(a, b *Model) int {
		return cmp.Or(b.released.Compare(a.released), cmp.Compare(b.epoch, a.epoch))
	})
	return s, nil
}

// With returns a set of this set's models and others. It refuses nil and zero
// models with a [*MissingModelError].
func (s *Set) With(models ...*Model) (*Set, error) {
	return NewSet(append(s.Models(), models...)...)
}

// Models returns the set's models, the preferred first.
func (s *Set) Models() []*Model {
	if s == nil {
		return nil
	}
	return slices.Clone(s.models)
}

// ModelInYear returns the model that answers for a date as a decimal year. If none
// holds then it returns a [*DateError] with the years that the set covers.
func (s *Set) ModelInYear(year float64) (*Model, error) {
	if s == nil || len(s.models) == 0 {
		return nil, errNoSet
	}
	for _, m := range s.models {
		if year >= m.from && year <= m.until {
			return m, nil
		}
	}
	first := s.models[0]
	e := &DateError{Year: year, From: first.from, Until: first.until}
	var names []string
	for _, m := range s.models {
		e.From, e.Until = min(e.From, m.from), max(e.Until, m.until)
		names = append(names, m.name)
	}
	e.Model = strings.Join(names, ", ")
	return nil, e
}

// On prepares the model that answers for a date.
func (s *Set) On(date time.Time) (*Evaluator, error) {
	return s.InYear(variation.DecimalYear(date))
}

// InYear is [Set.On] for a date as a decimal year.
func (s *Set) InYear(year float64) (*Evaluator, error) {
	m, err := s.ModelInYear(year)
	if err != nil {
		return nil, err
	}
	return m.InYear(year)
}
