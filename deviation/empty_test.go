package deviation_test

import (
	"errors"
	"strings"
	"testing"

	"lubberline.example/deviation/adjust"
	"lubberline.example/deviation/check"
	"lubberline.example/deviation/diagram"
	"lubberline.example/deviation/internal/devtest"
	"lubberline.example/deviation/swing"
	"lubberline.example/variation"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

// What was forgotten is nil or a zero value: it answers with an error, or is empty.
func TestWhatIsNilOrZeroErrs(t *testing.T) {
	heading, magnetic := angle.MustParseCompass("090"), angle.MustParseMagnetic("090")
	var noTable *deviation.Table
	var noCurve *deviation.Curve
	var noSwing *swing.Swing
	var noCard *deviation.Card
	on := func(s deviation.Source) []error {
		_, a := s.OnCompass(heading)
		_, b := s.OnMagnetic(magnetic)
		_, c := deviation.Explain(s, heading)
		_, d := deviation.OnEightHeadings(s)
		return []error{a, b, c, d}
	}
	var curves, tables, fields, sources []error
	// Asked for themselves they say what they are; a function takes a nil pointer for no
	// source.
	curves, sources = append(curves, on(noCurve)[:2]...), append(sources, on(noCurve)[2:]...)
	curves = append(curves, on(new(deviation.Curve))...)
	_, err := deviation.Explain(nil, heading)
	sources = append(sources, err)
	_, err = deviation.OnEightHeadings(nil)
	sources = append(sources, err)
	_, err = deviation.NewCard(nil, 15*devtest.Deg, deviation.Details{})
	sources = append(sources, err)
	_, err = check.ReviewCard(nil, nil)
	sources = append(sources, err)
	_, err = swing.Reduce([]swing.Reading{{Heading: new(angle.Compass{}), Other: new(angle.Compass{})}}, swing.SecondCompass{})
	sources = append(sources, err)
	_, err = deviation.Coefficients{}.Curve("true")
	curves = append(curves, err)
	for _, s := range []*deviation.Table{noTable, new(deviation.Table), noTable.Smooth(), new(deviation.Table).Smooth(), noTable.WithUncertainty(devtest.Sigma(devtest.Deg))} {
		answers := on(s)
		tables = append(tables, answers[:2]...)
		if s == nil {
			sources = append(sources, answers[2:]...)
		} else {
			tables = append(tables, answers[2:]...)
		}
		_, err := s.NearestEntry(0)
		tables = append(tables, err)
	}
	for _, s := range []*swing.Swing{noSwing, {}} {
		_, err := s.Table()
		tables = append(tables, err)
	}
	for _, c := range []*deviation.Card{noCard, {}} {
		var b strings.Builder
		tables = append(tables, c.WriteCSV(&b))
		if b.Len() > 0 || !strings.HasPrefix(c.String(), "Deviation card\n") {
			t.Errorf("%q, %q", b.String(), c)
		}
	}
	var k deviation.ExactCoefficients
	field := devtest.Earth{Horizontal: 20_000, Dip: 60 * devtest.Deg}
	_, err = adjust.AllPermanent(k, nil)
	fields = append(fields, err)
	_, err = adjust.AllInduced(k, nil)
	fields = append(fields, err)
	_, err = adjust.Forces{}.At(nil)
	fields = append(fields, err)
	_, err = adjust.Separate(k, nil, k, field)
	fields = append(fields, err)
	_, err = adjust.Separate(k, field, k, nil)
	fields = append(fields, err)

	for i, err := range curves {
		if e, ok := errors.AsType[*deviation.Error](err); !ok || e.Kind != deviation.NoCurve || e.Row != -1 {
			t.Errorf("curve %d: %v", i, err)
		}
	}
	for i, err := range sources {
		if e, ok := errors.AsType[*variation.MissingInputError](err); !ok || e.What != "deviation" || !strings.Contains(err.Error(), "no source of deviation: give ") {
			t.Errorf("source %d: %v", i, err)
		}
	}
	for i, err := range tables {
		if e, ok := errors.AsType[*deviation.Error](err); !ok || e.Kind != deviation.NoRows || e.Row != -1 {
			t.Errorf("table %d: %v", i, err)
		}
	}
	for i, err := range fields {
		if _, ok := errors.AsType[*adjust.FieldError](err); !ok {
			t.Errorf("field %d: %v", i, err)
		}
	}
}

func TestWhatIsNilOrZeroIsEmpty(t *testing.T) {
	var noTable *deviation.Table
	for _, s := range []*deviation.Table{noTable, {}} {
		if len(s.Entries()) != 0 || s.By() != deviation.ByCompass || s.IsSmooth() || s.Ordered() {
			t.Errorf("table %v", s)
		}
	}
	for _, c := range []*deviation.Curve{nil, {}} {
		sine, cosine := c.Harmonic(1)
		if c.By() != deviation.ByCompass || c.Ordered() || c.Order() != 0 || c.Coefficients() != (deviation.Coefficients{}) || sine != 0 || cosine != 0 {
			t.Errorf("curve %v", c)
		}
	}
	for _, f := range []*swing.Fit{nil, {}} {
		_, known := f.StandardErrors()
		_, covariance := f.Covariance(0, 0)
		_, within := f.Within(0, 0.95)
		if known || covariance || within || f.LeftOut() != nil {
			t.Errorf("fit %v", f)
		}
	}
	for _, s := range []*swing.Swing{nil, {}} {
		_, err := s.Fit(swing.FitOptions{})
		if e, ok := errors.AsType[*swing.Error](err); !ok || e.Kind != swing.TooFewHeadings || s.Suspicions() != nil {
			t.Errorf("swing %v: %v", s, err)
		}
	}
	for _, err := range []error{
		&deviation.AmbiguousHeadingError{}, &swing.Error{}, &swing.Error{Index: -1}, &check.Error{}, &deviation.Error{},
		&diagram.Error{}, &adjust.FieldError{}, &swing.Error{}, &deviation.Error{Kind: deviation.NoCurve},
	} {
		if !strings.HasPrefix(err.Error(), "deviation: ") {
			t.Errorf("%T: %q", err, err)
		}
	}
}
