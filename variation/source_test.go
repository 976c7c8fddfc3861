package variation_test

import (
	"encoding/json"
	"errors"
	"reflect"
	"slices"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/variation"
)

// The sources of this package.
var (
	_ variation.Source    = variation.Variation{}
	_ variation.Explainer = variation.Rose{}
	_ variation.Explainer = (*variation.Chart)(nil)
	_ variation.Explainer = variation.Projection{}
)

// model is a field model of another package's.
type model struct{ err error }

func (m model) VariationAt(p angle.Position, _ time.Time) (variation.Variation, error) {
	return variation.East(p.Latitude.Angle()), m.err
}

// constant is a caller's own source, the same everywhere and always.
type constant struct{}

func (constant) VariationAt(angle.Position, time.Time) (variation.Variation, error) {
	return variation.West(4 * deg), nil
}
func (constant) VariationNeeds() (position, date bool) { return false, false }

func TestNilPointerIsNoSource(t *testing.T) {
	for _, source := range []variation.Source{(*variation.Rose)(nil), (*variation.Variation)(nil), (*variation.Chart)(nil), (*constant)(nil)} {
		_, err := variation.Explain(source, at(47, -19), on2020)
		if e, ok := errors.AsType[*variation.MissingInputError](err); !ok || e.What != "variation" {
			t.Errorf("%T: %v", source, err)
		}
	}
}

func TestSourceWithoutWorking(t *testing.T) {
	for _, source := range []variation.Source{model{}, variation.East(47 * deg)} {
		e, err := variation.Explain(source, at(47, -19), on2020)
		if err != nil || e.Variation != variation.East(47*deg) || len(e.Working) != 1 || len(e.Warnings) != 0 {
			t.Fatalf("%+v, %v", e, err)
		}
		if s := e.Working[0]; s.Key != "variation" || s.Value != "47°00′E" || s.How != "as given" || s.Number != 47 {
			t.Errorf("%+v", s)
		}
	}
	broken := errors.New("no field")
	if e, err := variation.Explain(model{broken}, at(47, -19), on2020); !errors.Is(err, broken) || e.Variation != (variation.Variation{}) {
		t.Errorf("%+v, %v", e, err)
	}
}

func TestASourceThatExplainsDoes(t *testing.T) {
	r := variation.MustParseLegend("3°50′W 2014 (9′E)")
	c := mustChart(t, variation.ChartRose{Position: at(47, -19), Rose: r})
	for _, source := range []variation.Explainer{r, c} {
		got, err1 := variation.Explain(source, at(47, -19), noon(2040, 7, 2))
		want, err2 := source.ExplainVariation(at(47, -19), noon(2040, 7, 2))
		if err1 != nil || err2 != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("%+v, %v; want %+v, %v", got, err1, want, err2)
		}
		v, err := source.VariationAt(at(47, -19), noon(2040, 7, 2))
		if err != nil || v != got.Variation || v.Angle() != 4*minute {
			t.Errorf("%v, %v; explained as %v", v, err, got.Variation)
		}
	}
}

// A rose counts whole years, and warns by the default limits.
func TestARoseExplainsItself(t *testing.T) {
	r := variation.MustParseLegend("3°50′W 2014 (9′E)")
	e, err := r.ExplainVariation(angle.Position{}, noon(2035, 7, 2))
	if err != nil {
		t.Fatal(err)
	}
	p, err := r.InYear(2035)
	if err != nil || e.Variation != p.Variation || e.Working.String() != p.Working().String() {
		t.Errorf("%+v, %v; want %+v", e, err, p)
	}
	if got := kindsOf(e.Warnings); !reflect.DeepEqual(got, []working.WarningKind{variation.OldRose}) {
		t.Errorf("%v", got)
	}
}

func TestAnExplanationAsData(t *testing.T) {
	e, err := variation.MustParseLegend("3°50′W 2014").ExplainVariation(angle.Position{}, noon(2015, 7, 2))
	if err != nil {
		t.Fatal(err)
	}
	data, err := json.Marshal(e)
	if err != nil {
		t.Fatal(err)
	}
	var got struct {
		Variation string
		Working   []struct{ Key string }
		Warnings  []struct{ Kind, Message string }
	}
	if err := json.Unmarshal(data, &got); err != nil {
		t.Fatal(err)
	}
	if got.Variation != "3°50′W" || len(got.Working) != 3 || len(got.Warnings) != 1 || got.Warnings[0].Kind != "no-change-stated" {
		t.Errorf("%s", data)
	}
}

func TestProjectionIsASource(t *testing.T) {
	for _, count := range []variation.YearCount{variation.WholeYears, variation.DecimalYears} {
		p, err := variation.MustParseLegend("3°50′W 2014 (9′E)").On(noon(2020, time.July, 2), count)
		if err != nil {
			t.Fatal(err)
		}
		if err := variation.Missing(p, nil, time.Time{}); err != nil {
			t.Error(err)
		}
		for date, warned := range map[time.Time]bool{{}: false, noon(2020, time.March, 3): false, noon(2021, time.January, 1): true, noon(2019, time.December, 31): true} {
			v, err := p.VariationAt(at(47, -19), date)
			e, err2 := variation.Explain(p, at(47, -19), date)
			if err != nil || err2 != nil || v != p.Variation || e.Variation != v || e.Change != p.Change || e.Working.String() != p.Working().String() {
				t.Errorf("%s on %v: %v, %v; %+v, %v", count, date, v, err, e, err2)
			}
			if slices.Contains(kindsOf(e.Warnings), variation.OtherYear) != warned {
				t.Errorf("%s on %v: %v", count, date, e.Warnings)
			}
		}
	}
	_, err1 := variation.Projection{}.VariationAt(at(47, -19), noon(2020, time.July, 2))
	_, err2 := variation.Explain(variation.Projection{}, at(47, -19), noon(2020, time.July, 2))
	for _, err := range []error{err1, err2} {
		if _, ok := errors.AsType[*angle.RangeError](err); !ok {
			t.Errorf("zero projection: %v", err)
		}
	}
}

func TestExplanationHasTheChange(t *testing.T) {
	south := variation.ChartRose{Position: at(47, -19), Rose: variation.MustParseLegend("3°50′W 2014 (9′E)")}
	north := variation.ChartRose{Position: at(48, -19), Rose: variation.MustParseLegend("3°50′W 2016 (6′E)")}
	blended := mustChart(t, south, north)
	blended.Method = variation.Blended
	for _, c := range []struct {
		source variation.Source
		want   angle.Angle
	}{
		{variation.West(4 * deg), 0}, {south.Rose, 108 * minute}, {mustChart(t, south, north), 108 * minute}, {blended, 96 * minute},
		{variation.MustParseLegend("3°50′W 2014"), 0},
	} {
		// Blended: 1/4 of the way from 12 × 9′ to 10 × 6′.
		e, err := variation.Explain(c.source, at(47.25, -19), noon(2026, time.July, 2))
		if err != nil || (e.Change-c.want).Abs() > angle.Second/1000 {
			t.Errorf("%v: %v, %v", c.source, e.Change, err)
		}
	}
}
