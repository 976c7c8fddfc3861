package variation_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/variation"
)

// since answers from a year on, invented.
type since struct {
	year int
	v    variation.Variation
}

func (s since) VariationAt(_ angle.Position, date time.Time) (variation.Variation, error) {
	if date.Year() < s.year {
		return variation.Variation{}, errors.New("too early")
	}
	return s.v, nil
}

func TestAnOldRoseWithTheWrongNameIsHintedAt(t *testing.T) {
	date := time.Date(2026, time.July, 2, 0, 0, 0, 0, time.UTC)
	a, err := variation.MustParseLegend("5°00′E 2000 (no annual change)").Audit(since{2015, variation.MustParse("5°W ±0°20′")}, angle.Position{}, date)
	if err != nil || a.Verdict != variation.Stale || !strings.Contains(a.Working().String(), "with its name changed it would agree") {
		t.Errorf("%v\n%s", err, a.Working())
	}
	a, err = variation.MustParseLegend("9°00′W 2000 (no annual change)").Audit(since{2015, variation.MustParse("5°W ±0°20′")}, angle.Position{}, date)
	if err != nil || a.Verdict != variation.Stale || strings.Contains(a.Working().String(), "name changed") {
		t.Errorf("%v\n%s", err, a.Working())
	}
}

func TestNearADipPoleNothingIsJudged(t *testing.T) {
	date := time.Date(2026, time.July, 2, 0, 0, 0, 0, time.UTC)
	a, err := variation.MustParseLegend("5°00′E 2020 (no annual change)").Audit(since{2015, variation.MustParse("5°W ±40°")}, angle.Position{}, date)
	e, ok := errors.AsType[*variation.TooUncertainError](a.Now.Err)
	if err != nil || a.Verdict != variation.NotChecked || !ok || e.Allowed < 79*angle.Degree || a.Now.Agrees() || !strings.Contains(a.Working().String(), "too little is known") {
		t.Errorf("%v, %v\n%s", err, a.Now.Err, a.Working())
	}
}
