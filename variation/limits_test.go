package variation_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/variation"
)

func kindsOf(warnings []variation.Warning) []variation.WarningKind {
	var kinds []variation.WarningKind
	for _, w := range warnings {
		kinds = append(kinds, w.Kind)
	}
	return kinds
}

// Flags at every limit and beyond it. A limit itself is still good.
func TestWarningsAtAndBeyondTheLimits(t *testing.T) {
	own := variation.Limits{Age: 5, Change: angle.Degree}
	for _, c := range []struct {
		legend string
		year   int
		limits variation.Limits
		want   []variation.WarningKind
	}{
		{"3°50′W 2000 (9′E)", 2020, variation.Limits{}, nil}, // 20 years, 3°
		{"3°50′W 2000 (8′E)", 2021, variation.Limits{}, []variation.WarningKind{variation.OldRose}},
		{"3°50′W 2000 (9.1′E)", 2020, variation.Limits{}, []variation.WarningKind{variation.LargeChange}},
		{"3°50′W 2000 (9.1′W)", 2020, variation.Limits{}, []variation.WarningKind{variation.LargeChange}},
		{"3°50′W 2000 (9′E)", 2021, variation.Limits{}, []variation.WarningKind{variation.OldRose, variation.LargeChange}},
		{"3°50′W 2000 (9′E)", 1999, variation.Limits{}, []variation.WarningKind{variation.BeforeRose}},
		{"3°50′W 2000 (9′E)", 1980, variation.Limits{}, []variation.WarningKind{variation.BeforeRose}},
		{"3°50′W 2000 (8′E)", 1979, variation.Limits{}, []variation.WarningKind{variation.BeforeRose, variation.OldRose}},
		{"3°50′W 2000 (no annual change)", 2020, variation.Limits{}, nil},
		{"3°50′W 2000", 2000, variation.Limits{}, nil},
		{"3°50′W 2000", 2001, variation.Limits{}, []variation.WarningKind{variation.NoChangeStated}},
		{"3°50′W 2000", 1999, variation.Limits{}, []variation.WarningKind{variation.BeforeRose, variation.NoChangeStated}},
		{"3°50′W 2000 (12′E)", 2005, own, nil},
		{"3°50′W 2000 (9′E)", 2006, own, []variation.WarningKind{variation.OldRose}},
		{"3°50′W 2000 (12.1′E)", 2005, own, []variation.WarningKind{variation.LargeChange}},
	} {
		p, err := variation.MustParseLegend(c.legend).InYear(c.year)
		if err != nil {
			t.Fatal(err)
		}
		if got := kindsOf(p.Warnings(c.limits)); !slices.Equal(got, c.want) {
			t.Errorf("%s in %d: %v, want %v", c.legend, c.year, got, c.want)
		}
	}
}

func TestInTheRosesOwnYearADecimalCountMissesNoChange(t *testing.T) {
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
			"the rose of 1985 is 41 years from 2026: over the limit of 20 years",
			"the change since 1985, 6°09′E, is over the limit of 3°00′: the rose is no longer a basis; get a newer chart or ask a field model",
		}},
		{"3°50′W 2014", 2013, []string{
			"2013 is before the rose's year, 2014",
			"the rose of 2014 does not state an annual change: its figure is used as it stands",
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
	if w := p.Warnings(variation.Limits{}); len(w) != 1 || w[0].Message != "2 July 2013 is before the rose's year, 2014" {
		t.Errorf("%v", w)
	}
}
