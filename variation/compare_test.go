package variation_test

import (
	"errors"
	"testing"

	"github.com/google/go-cmp/cmp"

	"lubberline.example/variation"
)

// Every exported value compares with package cmp without options: it equals itself and no
// other.
func TestValuesCompareWithoutOptions(t *testing.T) {
	r, s := variation.MustParseLegend("3°50′W 2014 (9′E)"), variation.MustParseLegend("3°50′W 2014 (8′E)")
	p, err := r.On(noon(2026, 7, 2), variation.DecimalYears)
	if err != nil {
		t.Fatal(err)
	}
	q, err := r.On(noon(2026, 7, 3), variation.DecimalYears)
	if err != nil {
		t.Fatal(err)
	}
	c := mustChart(t,
		variation.ChartRose{Name: "Orlesk Head", Position: at(47, -19), Rose: r},
		variation.ChartRose{Name: "Minnow Ledge", Position: at(48, -19), Rose: s},
	)
	c.Method = variation.Blended
	explain := func(lat float64) variation.Explanation {
		e, err := c.ExplainVariation(at(lat, -19), noon(2040, 7, 2))
		if err != nil {
			t.Fatal(err)
		}
		return e
	}
	outside := func(lat float64) *variation.Error {
		_, err := c.VariationAt(at(lat, -19), noon(2026, 7, 2))
		e, ok := errors.AsType[*variation.Error](err)
		if !ok {
			t.Fatal(err)
		}
		return e
	}
	legend := func(text string) *variation.Error {
		_, err := variation.ParseLegend(text)
		e, ok := errors.AsType[*variation.Error](err)
		if !ok {
			t.Fatal(err)
		}
		return e
	}
	for _, pair := range [][2]any{
		{r.Variation, s.Variation.WithUncertainty(sigma(deg))},
		{r.Change, s.Change},
		{r, s},
		{p, q},
		{variation.Limits{Uncertainty: 1}, variation.Limits{Uncertainty: 2}},
		{variation.WholeYears, variation.DecimalYears},
		{variation.Nearest, variation.Blended},
		{c.Roses()[0], c.Roses()[1]},
		{explain(47), explain(47.5)},
		{explain(47.5).Warnings[0], explain(47.5).Warnings[1]},
		{outside(46), outside(49)},
		{legend("4°61′W 2014"), legend("4°61′W 2015")},
		{&variation.Error{Rose: "a"}, &variation.Error{Rose: "b"}},
	} {
		if !cmp.Equal(pair[0], pair[0]) {
			t.Errorf("%T is not equal to itself", pair[0])
		}
		if cmp.Equal(pair[0], pair[1]) {
			t.Errorf("%T: %v equals %v", pair[0], pair[0], pair[1])
		}
	}
}
