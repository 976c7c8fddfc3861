package variation_test

import (
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/variation"
	"lubberline.example/wmm"
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

func TestOldRoseWithWrongName(t *testing.T) {
	date := time.Date(2026, time.July, 2, 0, 0, 0, 0, time.UTC)
	a, err := variation.MustParseLegend("5°00′E 2000 (no annual change)").Audit(since{2015, variation.MustParse("5°W ±0°20′")}, angle.Position{}, date)
	if err != nil || a.Verdict != variation.LikelyWrongName || !strings.Contains(a.Working().String(), "with the other name, the rose would agree") {
		t.Errorf("%v\n%s", err, a.Working())
	}
	a, err = variation.MustParseLegend("9°00′W 2000 (no annual change)").Audit(since{2015, variation.MustParse("5°W ±0°20′")}, angle.Position{}, date)
	if err != nil || a.Verdict != variation.Stale || strings.Contains(a.Working().String(), "other name") {
		t.Errorf("%v\n%s", err, a.Working())
	}
}

func TestNearADipPoleNothingIsJudged(t *testing.T) {
	date := time.Date(2026, time.July, 2, 0, 0, 0, 0, time.UTC)
	a, err := variation.MustParseLegend("5°00′E 2020 (no annual change)").Audit(since{2015, variation.MustParse("5°W ±40°")}, angle.Position{}, date)
	if err != nil || a.Verdict != variation.CannotBeJudged || !strings.Contains(a.Working().String(), "the source is too uncertain here, ±40°") {
		t.Errorf("%v\n%s", err, a.Working())
	}
}

// A rose of a year after the date: its year is suspect, not its age or its name.
func TestRoseOfAFutureYearIsSuspected(t *testing.T) {
	bay := angle.MustParsePosition("47°06′N 019°02′W")
	day := time.Date(2026, time.July, 2, 0, 0, 0, 0, time.UTC)
	for legend, want := range map[string]struct {
		verdict variation.Verdict
		year    int
	}{
		"7°20′W 2051 (12′E)": {variation.LikelyWrongYear, 2015}, // two figures exchanged
		"7°20′W 2045 (12′E)": {variation.LikelyWrongYear, 2015}, // one figure misread
		"7°20′E 2045 (12′E)": {variation.LikelyWrongYear, 0},
		"3°20′W 2035 (8′E)":  {variation.LikelyWrongYear, 0},
		"7°20′W 2029 (12′E)": {variation.LikelyWrongYear, 0}, // the source answers for 2029, and the rose disagrees
		"4°32′W 2029 (12′E)": {variation.Agrees, 0},          // a date before the rose's year
	} {
		a, err := variation.MustParseLegend(legend).Audit(wmm.Models(), bay, day)
		if err != nil || a.Verdict != want.verdict || a.FitsIn != want.year {
			t.Errorf("%s: %v, %d, %v\n%s", legend, a.Verdict, a.FitsIn, err, a.Working())
		}
	}
}

// The place where a misplaced rose's figure fits is near, and has that variation.
func TestMisplacedRoseFitsElsewhere(t *testing.T) {
	day := time.Date(2026, time.July, 2, 0, 0, 0, 0, time.UTC)
	for _, k := range []struct{ at, legend string }{
		{"46°57′N 019°03′W", "9°35′W 2018 (12′E)"}, {"46°57′S 179°30′E", "25°00′E 2018 (5′E)"}, {"00°00′N 179°59′W", "8°50′E 2018 (0′E)"},
	} {
		a, err := variation.MustParseLegend(k.legend).Audit(wmm.Models(), angle.MustParsePosition(k.at), day)
		if err != nil || a.Verdict != variation.LikelyMisplaced || a.FitsAt == nil {
			t.Errorf("%v\n%s", err, a.Working())
			continue
		}
		v, err := wmm.Models().VariationAt(*a.FitsAt, a.Then.Date)
		if off := (v.Angle() - variation.RoseOf(a).Variation.Angle()).Abs(); err != nil || off > angle.Minute || variation.PositionOf(a).ArcTo(*a.FitsAt) > 10*angle.Degree {
			t.Errorf("%s fits at %v: %v there, %v", k.legend, *a.FitsAt, v, err)
		}
		if !strings.Contains(a.Working().String(), "its variation would agree ") {
			t.Errorf("%s", a.Working())
		}
	}
}

// The annual change with the wrong name is named, also of an old rose that is out by years
// of it.
func TestReversedChangeIsNamed(t *testing.T) {
	day := time.Date(2026, time.July, 2, 0, 0, 0, 0, time.UTC)
	bay := angle.MustParsePosition("47°06′N 019°02′W")
	for legend, want := range map[string]variation.Verdict{
		"7°20′W 2015 (12′W)": variation.ChangeReversed,
		"7°20′W 2015 (12′E)": variation.Agrees,
		"7°20′W 2015 (1′W)":  variation.LikelyMisplaced, // too small to be called reversed; beyond what a rose can drift
		"6°14′W 2020 (12′W)": variation.ChangeReversed,
	} {
		a, err := variation.MustParseLegend(legend).Audit(wmm.Models(), bay, day)
		if err != nil || a.Verdict != want {
			t.Errorf("%s: %v, %v\n%s", legend, a.Verdict, err, a.Working())
		}
	}
}

// parabola is a source whose annual change grows by 1′ a year, from nothing at the beginning of 2000.
type parabola struct{}

func (parabola) VariationAt(_ angle.Position, date time.Time) (variation.Variation, error) {
	years := date.Sub(time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)).Hours() / 24 / 365.25
	return variation.East(angle.Angle(years * years / 2 * float64(angle.Minute))), nil
}

// A chart prints a forecast, made before its year: the audit holds the annual change of the rose
// against the mean of that year and of three years before. By hand: in the middle of 2020 and of
// 2017 it is 20.5′ and 17.5′.
func TestPrintedChangeIsHeldAgainstYearsBefore(t *testing.T) {
	a, err := variation.MustParseLegend("3°20′E 2020 (19′E)").Audit(parabola{}, angle.MustParsePosition("47°N 019°W"), noon(2026, 7, 2))
	if err != nil {
		t.Fatal(err)
	}
	step, ok := a.Working().Steps.Find("first change")
	if !ok || math.Abs(step.Number*60-19) > 0.1 { // years of 365 and 366 days
		t.Errorf("%v: %v′, want 19′", step, step.Number*60)
	}
}
