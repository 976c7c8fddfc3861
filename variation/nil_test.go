package variation_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/variation"
)

func TestAChartThatIsNilAnswersWithAnError(t *testing.T) {
	var c *variation.Chart
	_, err1 := c.VariationAt(angle.Position{}, time.Time{})
	_, err2 := c.ExplainVariation(angle.Position{}, time.Time{})
	_, err3 := c.Candidates(angle.Position{}, time.Time{})
	for _, err := range []error{err1, err2, err3} {
		if _, ok := errors.AsType[*variation.ChartError](err); !ok {
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
		if _, ok := errors.AsType[*variation.MissingSourceError](err); !ok || !strings.Contains(err.Error(), "want a rose") {
			t.Errorf("got %v", err)
		}
	}
}
