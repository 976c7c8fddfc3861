package variation_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"lubberline.example/angle/working"
	"lubberline.example/variation"
)

func kindsOf(warnings []working.Warning) []working.WarningKind {
	var kinds []working.WarningKind
	for _, w := range warnings {
		kinds = append(kinds, w.Kind)
	}
	return kinds
}

// The limit is on the uncertainty, not on the years. A rose at the limit gets no warning,
// and a rose beyond it gets one.
func TestWarningsFollowFromTheUncertainty(t *testing.T) {
	for _, c := range []struct {
		legend string
		year   int
		limits variation.Limits
		want   []working.WarningKind
	}{
		{"3°50′W 2000 (9′E)", 2008, variation.Limits{}, nil},
		{"3°50′W 2000 (9′E)", 2010, variation.Limits{}, []working.WarningKind{variation.OldRose}},
		{"3°50′W 2000 (9′E)", 2010, variation.Limits{Uncertainty: deg}, nil},
		{"3°50′W 2000 (9′E)", 2030, variation.Limits{Uncertainty: deg}, []working.WarningKind{variation.OldRose}},
		{"3°50′W 2000 (9′E)", 1999, variation.Limits{}, []working.WarningKind{variation.BeforeRose}},
		{"3°50′W 2000 (8′E)", 1979, variation.Limits{}, []working.WarningKind{variation.BeforeRose, variation.OldRose}},
		{"3°50′W 2000", 2000, variation.Limits{}, nil},
		{"3°50′W 2000", 2001, variation.Limits{}, []working.WarningKind{variation.NoChangeStated}},
		{"3°50′W 2000", 1999, variation.Limits{}, []working.WarningKind{variation.BeforeRose, variation.NoChangeStated}},
		{"3°50′W 2000 (9′E)", 2000, variation.Limits{Uncertainty: 20 * minute}, []working.WarningKind{variation.UncertainRose}},
		{"4°W 2000 (9′E)", 2000, variation.Limits{Uncertainty: 20 * minute}, []working.WarningKind{variation.UncertainRose}},
	} {
		p, err := variation.MustParseLegend(c.legend).InYear(c.year)
		if err != nil {
			t.Fatal(err)
		}
		if got := kindsOf(p.Warnings(c.limits)); !slices.Equal(got, c.want) {
			t.Errorf("%s in %d: %v, want %v; %v", c.legend, c.year, got, c.want, p.Variation.Uncertainty())
		}
		if s, stated := p.Variation.Uncertainty().Sigma(); stated {
			if w := kindsOf(p.Warnings(variation.Limits{Uncertainty: s})); slices.Contains(w, variation.OldRose) || slices.Contains(w, variation.UncertainRose) {
				t.Errorf("%s in %d: warned at the limit itself", c.legend, c.year)
			}
		}
	}
	// In a weak field even a new rose is uncertain, and not old.
	e, err := variation.MustParseLegend("3°50′W 2026 (9′E)").ExplainVariation(at(72, -100), noon(2026, time.July, 2))
	if got := kindsOf(e.Warnings); err != nil || !slices.Equal(got, []working.WarningKind{variation.UncertainRose}) {
		t.Errorf("a new rose at 72° N: %v, %v", e.Warnings, err)
	}
}

func TestDecimalCountInOwnYear(t *testing.T) {
	r := variation.MustParseLegend("3°50′W 2014")
	for date, want := range map[time.Time]int{
		noon(2014, time.July, 2):    0,
		noon(2015, time.January, 1): 1,
		noon(2013, time.July, 2):    2, // it is before the rose, too
	} {
		p, err := r.On(date, variation.DecimalYears)
		if err != nil {
			t.Fatal(err)
		}
		if w := p.Warnings(variation.Limits{}); len(w) != want {
			t.Errorf("on %v: %v", date, w)
		}
		if _, stated := p.Variation.Uncertainty().Sigma(); stated != (want == 0) {
			t.Errorf("on %v the uncertainty is %v", date, p.Variation.Uncertainty())
		}
	}
}

func TestWarningsSayTheFigures(t *testing.T) {
	for _, c := range []struct {
		legend string
		year   int
		want   []string
	}{
		{"3°50′W 1985 (9′E)", 2026, []string{
			"the rose of 1985 gives 2°19′E ±2°17′ for 2026, beyond the limit of ±0°30′: use a newer chart or a field model",
		}},
		{"3°50′W 2014", 2013, []string{
			"2013 is before the rose's year, 2014: use a rose of that time, or a field model",
			"the rose of 2014 does not state an annual change: its variation is used unchanged",
		}},
	} {
		p, err := variation.MustParseLegend(c.legend).InYear(c.year)
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, w := range p.Warnings(variation.Limits{}) {
			got = append(got, w.String())
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s in %d:\n%s\nwant\n%s", c.legend, c.year, strings.Join(got, "\n"), strings.Join(c.want, "\n"))
		}
	}
	p, err := variation.MustParseLegend("3°50′W 2014 (9′E)").On(noon(2013, time.July, 2), variation.DecimalYears)
	if err != nil {
		t.Fatal(err)
	}
	if w := p.Warnings(variation.Limits{}); len(w) != 1 || w[0].Message != "2 July 2013 is before the rose's year, 2014: use a rose of that time, or a field model" {
		t.Errorf("%v", w)
	}
}
