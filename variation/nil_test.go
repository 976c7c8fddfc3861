package variation_test

import (
	"errors"
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
}
