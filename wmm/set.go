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

// A lastResort is a set that is asked where no model of another holds. It is made only
// then.
type lastResort struct {
	name        string
	from, until float64 // the years for which it has models, without a gap
	set         func() *Set
}

// NewSet returns a set of models. It returns an [*Error] if there is no model, if one is
// nil or zero, and if two have the same name and epoch.
func NewSet(models ...*Model) (*Set, error) {
	if len(models) == 0 || slices.ContainsFunc(models, (*Model).empty) {
		return nil, missing("a set without models, or with a nil or zero Model", "at least one model, and no nil or zero Model")
	}
	for i, m := range models {
		if slices.ContainsFunc(models[:i], func(n *Model) bool { return n.name == m.name && n.epoch == m.epoch }) {
			return nil, &Error{Kind: DuplicateModel, Reason: fmt.Sprintf("model %.60q of %s twice in a set: want each once; to replace a model, make a new set with NewSet", m.name, yearText(m.epoch))}
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
// whatever their release.
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

// ModelInYear returns the model for a decimal year. If no model is valid then, it returns a
// [*DateError] with the years of the set.
func (s *Set) ModelInYear(year float64) (*Model, error) {
	if s == nil || len(s.models) == 0 {
		return nil, errNoSet
	}
	for _, m := range s.models {
		if year >= m.from && year <= m.until {
			return m, nil
		}
	}
	if l := s.last; l != nil && year >= l.from && year <= l.until {
		return l.set().ModelInYear(year)
	}
	return nil, s.dateError(year)
}

// mostNames is how many models of a set an error names.
const mostNames = 5

// dateError says for which years the set has a model, of a year for which it has
// none.
func (s *Set) dateError(year float64) error {
	first := s.models[0]
	e := &DateError{Year: year, From: first.from, Until: first.until}
	before, after := math.Inf(-1), math.Inf(1) // the end of the models before the year, the beginning of those after
	var names []string
	holds := func(name string, from, until float64) {
		e.From, e.Until = min(e.From, from), max(e.Until, until)
		if until < year {
			before = max(before, until)
		}
		if from > year {
			after = min(after, from)
		}
		names = append(names, name)
	}
	for _, m := range s.models {
		holds(m.name, m.from, m.until)
	}
	if s.last != nil {
		holds(s.last.name, s.last.from, s.last.until)
	}
	if year > e.From && year < e.Until {
		e.GapFrom, e.GapUntil = before, after
	}
	if more := len(names) - mostNames; more > 0 {
		names = append(names[:mostNames], fmt.Sprintf("%d more", more))
	}
	e.Model = strings.Join(names, ", ")
	return e
}

// On prepares the model for a date. If no model is valid then, it returns a [*DateError]. If
// the set is nil or empty, it returns an [*Error].
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
