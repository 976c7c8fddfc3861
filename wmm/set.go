package wmm

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"lubberline.example/variation"
)

// A Set is several models, and chooses one for each date. Of the models valid at the date
// it prefers the one released last. Then it prefers the later epoch, the higher degree, and
// the model given first. [Models], and sets made from it by [Set.With], use [IGRF14] if no
// other model is valid. A Set never changes, and is safe for use by several goroutines. The
// methods of a nil or zero Set return an [*Error].
type Set struct {
	models []*Model
	last   *lastResort // or nil
}

// A lastResort is a set to use if no other model is valid. It is made when it is first
// used.
type lastResort struct {
	name        string
	from, until float64 // the years for which it has models, without a gap
	set         func() *Set
}

// NewSet returns a set of models. It returns an [*Error] if there is no model, if one is
// nil or zero, and if two have the same name and epoch.
func NewSet(models ...*Model) (*Set, error) {
	if len(models) == 0 || slices.ContainsFunc(models, (*Model).empty) {
		return nil, missing("a set without models, or with a nil or zero Model", "one model or more, such as WMM2025")
	}
	for i, m := range models {
		if slices.ContainsFunc(models[:i], func(n *Model) bool { return n.name == m.name && n.epoch == m.epoch }) {
			return nil, &Error{Kind: DuplicateModel, Reason: fmt.Sprintf("model %.60q of %s occurs twice in a set; give each model once, and to replace a model make a new set with NewSet", m.name, yearText(m.epoch))}
		}
	}
	s := &Set{models: slices.Clone(models)}
	// The preferred first.
	slices.SortStableFunc(s.models, func(a, b *Model) int {
		return cmp.Or(b.released.Compare(a.released), cmp.Compare(b.epoch, a.epoch), cmp.Compare(b.Degree(), a.Degree()))
	})
	return s, nil
}

// With returns a set of this set's models and others. Its errors are those of [NewSet],
// also for a model that the set already has. The set prefers the others to [IGRF14],
// even if that was released later.
func (s *Set) With(models ...*Model) (*Set, error) {
	if s == nil {
		return NewSet(models...)
	}
	n, err := NewSet(append(slices.Clone(s.models), models...)...)
	if err != nil {
		return nil, err
	}
	n.last = s.last
	return n, nil
}

// Models returns the set's models, the preferred first.
func (s *Set) Models() []*Model {
	if s == nil {
		return nil
	}
	models := slices.Clone(s.models)
	if s.last != nil {
		models = append(models, s.last.set().models...)
	}
	return models
}

// modelIn returns the model for a decimal year. If no model is valid then, it returns an
// [*Error] with the years of the set.
func (s *Set) modelIn(year float64) (*Model, error) {
	if s == nil || len(s.models) == 0 {
		return nil, errNoSet
	}
	for _, m := range s.models {
		if year >= m.from && year <= m.until {
			return m, nil
		}
	}
	if l := s.last; l != nil && year >= l.from && year <= l.until {
		return l.set().modelIn(year)
	}
	return nil, s.outsideYears(year)
}

// maxNames is the maximum number of models that an error names.
const maxNames = 5

// outsideYears returns the error of a year for which the set has no model. It says for
// which years the set has one.
func (s *Set) outsideYears(year float64) error {
	first, last := math.Inf(1), math.Inf(-1)   // the years of the set
	before, after := math.Inf(-1), math.Inf(1) // the end of the models before the year, the beginning of those after it
	var names []string
	add := func(name string, from, until float64) {
		first, last = min(first, from), max(last, until)
		if until < year {
			before = max(before, until)
		}
		if from > year {
			after = min(after, from)
		}
		names = append(names, name)
	}
	for _, m := range s.models {
		add(m.name, m.from, m.until)
	}
	if s.last != nil {
		add(s.last.name, s.last.from, s.last.until)
	}
	if more := len(names) - maxNames; more > 0 {
		names = append(names[:maxNames], fmt.Sprintf("%d more", more))
	}
	e := outside(year, "the set of "+strings.Join(names, ", "), first, last)
	if year > first && year < last {
		e.Reason += fmt.Sprintf(", but not from %s to %s", yearText(before), yearText(after))
	}
	return e
}

// On prepares the model for a date. If no model is valid then, it returns an [*Error] of
// kind [OutsideYears].
func (s *Set) On(date time.Time) (*Evaluator, error) {
	return s.InYear(variation.DecimalYear(date))
}

// InYear is [Set.On] for a date as a decimal year.
func (s *Set) InYear(year float64) (*Evaluator, error) {
	m, err := s.modelIn(year)
	if err != nil {
		return nil, err
	}
	return m.InYear(year)
}
