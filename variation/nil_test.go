package variation_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/variation"
)

func TestNilChart(t *testing.T) {
	var c *variation.Chart
	_, err1 := c.VariationAt(angle.Position{}, time.Time{})
	_, err2 := c.ExplainVariation(angle.Position{}, time.Time{})
	_, err3 := variation.Candidates(c, angle.Position{}, time.Time{})
	for _, err := range []error{err1, err2, err3} {
		if _, ok := errors.AsType[*variation.Error](err); !ok {
			t.Errorf("got %v", err)
		}
	}
	if c.Name() != "" || len(c.Roses()) != 0 {
		t.Errorf("%q, %v", c.Name(), c.Roses())
	}
}

func TestNoSourceIsAnError(t *testing.T) {
	_, err1 := variation.Explain(nil, angle.Position{}, noon(2026, 7, 2))
	_, err2 := variation.MustParseLegend("3°50′W 2014 (9′E)").Audit(nil, angle.Position{}, noon(2026, 7, 2))
	for _, err := range []error{err1, err2} {
		if _, ok := errors.AsType[*variation.MissingInputError](err); !ok || !strings.Contains(err.Error(), "give a rose") {
			t.Errorf("got %v", err)
		}
	}
}

// A nil pointer of any type in an interface is not a source.
func TestNilPointersAreNoSources(t *testing.T) {
	rose := variation.MustParseLegend("3°50′W 2014 (9′E)")
	for name, source := range map[string]variation.Source{
		"rose": (*variation.Rose)(nil), "variation": (*variation.Variation)(nil), "chart": (*variation.Chart)(nil),
	} {
		_, err1 := variation.Explain(source, at(47, -19), noon(2026, 7, 2))
		_, err2 := rose.Audit(source, at(47, -19), noon(2026, 7, 2))
		here := at(47, -19)
		err3 := variation.Missing(source, &here, noon(2026, 7, 2))
		for _, err := range []error{err1, err2, err3} {
			if e, ok := errors.AsType[*variation.MissingInputError](err); !ok || e.What != "variation" {
				t.Errorf("nil %s: %v", name, err)
			}
		}
		chart := mustChart(t, variation.ChartRose{Position: at(47, -19), Rose: rose})
		chart.Model = source
		if _, err := chart.ExplainVariation(at(47, -19), noon(2026, 7, 2)); err != nil {
			t.Errorf("a nil %s as the model: %v", name, err)
		}
	}
}
