package variation_test

import (
	"slices"
	"strings"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/variation"
)

func TestChartWarnings(t *testing.T) {
	one := func(east angle.Angle, lat, lon float64) variation.ChartRose {
		return variation.ChartRose{Position: at(lat, lon), Rose: rose(east)}
	}
	for _, c := range []struct {
		name   string
		roses  []variation.ChartRose
		method variation.Method
		limits variation.Limits
		lat    float64
		year   int
		want   []working.WarningKind
	}{
		{"alone", []variation.ChartRose{one(deg, 47, -19)}, variation.Nearest, variation.Limits{}, 47, 2020, nil},
		{"just 1° away", []variation.ChartRose{one(deg, 47, -19)}, variation.Nearest, variation.Limits{}, 48, 2020, nil},
		{"more than 1° away", []variation.ChartRose{one(deg, 47, -19)}, variation.Nearest, variation.Limits{}, 48.001, 2020, []working.WarningKind{variation.FarFromRose}},
		{"its own limit", []variation.ChartRose{one(deg, 47, -19)}, variation.Nearest, variation.Limits{Distance: 2 * deg}, 48.001, 2020, nil},
		{"alone, blended, far", []variation.ChartRose{one(deg, 47, -19)}, variation.Blended, variation.Limits{}, 48.001, 2020, []working.WarningKind{variation.FarFromRose}},
		{"old", []variation.ChartRose{one(deg, 47, -19)}, variation.Nearest, variation.Limits{}, 47, 2041, []working.WarningKind{variation.OldRose}},
		{"old, blended", []variation.ChartRose{one(deg, 47, -19)}, variation.Blended, variation.Limits{}, 47, 2041, []working.WarningKind{variation.OldRose}},
		{"old and far", []variation.ChartRose{one(deg, 47, -19)}, variation.Nearest, variation.Limits{}, 49, 2041, []working.WarningKind{variation.OldRose, variation.FarFromRose}},
		{"29′ apart", []variation.ChartRose{one(0, 47, -19), one(29*minute, 48, -19)}, variation.Nearest, variation.Limits{}, 47, 2020, nil},
		{"30′ apart", []variation.ChartRose{one(0, 47, -19), one(30*minute, 48, -19)}, variation.Nearest, variation.Limits{}, 47, 2020, []working.WarningKind{variation.RosesDiffer}},
		{"30′ apart the other way", []variation.ChartRose{one(0, 47, -19), one(-30*minute, 48, -19)}, variation.Nearest, variation.Limits{}, 47, 2020, []working.WarningKind{variation.RosesDiffer}},
		{"30′ apart by its own limit", []variation.ChartRose{one(0, 47, -19), one(30*minute, 48, -19)}, variation.Nearest, variation.Limits{Difference: deg}, 47, 2020, nil},
		{"29′ apart, blended", []variation.ChartRose{one(0, 47, -19), one(29*minute, 48, -19)}, variation.Blended, variation.Limits{}, 47.5, 2020, nil},
		{"30′ apart, blended", []variation.ChartRose{one(0, 47, -19), one(30*minute, 48, -19)}, variation.Blended, variation.Limits{}, 47.5, 2020, []working.WarningKind{variation.RosesDiffer}},
		{"2′ apart across 180°, blended", []variation.ChartRose{one(180*deg-minute, 47, -19), one(-180*deg+minute, 48, -19)}, variation.Blended, variation.Limits{}, 47.5, 2020, nil},
	} {
		chart := mustChart(t, c.roses...)
		chart.Method, chart.Limits = c.method, c.limits
		e, err := chart.ExplainVariation(at(c.lat, -19), noon(c.year, 7, 2))
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if got := kindsOf(e.Warnings); !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", c.name, e.Warnings, c.want)
		}
		if v, err := chart.VariationAt(at(c.lat, -19), noon(c.year, 7, 2)); err != nil || v != e.Variation {
			t.Errorf("%s: explained as %v, but %v, %v", c.name, e.Variation, v, err)
		}
	}
}

func TestWorkingOfTheNearestRose(t *testing.T) {
	r := variation.MustParseLegend("3°50′W 2014 (9′E)")
	other := variation.MustParseLegend("5°00′W 2014 (9′E)")
	c := mustChart(t,
		variation.ChartRose{Name: "Orlesk Head", Position: at(47, -19), Rose: r},
		variation.ChartRose{Position: at(48, -19), Rose: other},
	)
	e, err := c.ExplainVariation(at(47.25, -19), noon(2026, 7, 2))
	if err != nil {
		t.Fatal(err)
	}
	const want = `
Rose                           Orlesk Head: the nearest of 2 roses, 15.0 M away, on Orlesk approaches
Variation in 2014      3°50′W  printed at the rose, annual change 9′E
Years, 2014 to 2026  12 years  counted in whole years
Change                 1°48′E  12 years × 9′E
Change error           ±0°33′  the annual change is not steady over 12 years, at this latitude
Source                 ±0°25′  the error of the forecast on the chart, at this latitude; local anomalies are not included
Uncertainty            ±0°42′  standard: change error, source and rounding (±0°05′) together
Variation in 2026      2°02′W  change east, variation west: it decreases
`
	if got := e.Working.String(); fold(got) != fold(want) {
		t.Errorf("%s\nwant%s", got, want)
	}
	const differ = "the two nearest roses differ by 1°10′ (the second, at 48°00.0′N 019°00.0′W, 45 M away, gives 3°12′W): check which applies"
	if len(e.Warnings) != 2 || e.Warnings[0].Kind != variation.OldRose || e.Warnings[1].Message != differ {
		t.Errorf("%v", e.Warnings)
	}

	alone, err := variation.NewChart("", variation.ChartRose{Position: at(47, -19), Rose: r})
	if err != nil {
		t.Fatal(err)
	}
	e, err = alone.ExplainVariation(at(48.5, -19), noon(2026, 7, 2))
	if err != nil {
		t.Fatal(err)
	}
	if s := e.Working[0]; s.How != "at 47°00.0′N 019°00.0′W: the only rose" {
		t.Errorf("%+v", s)
	}
	if len(e.Warnings) != 2 || e.Warnings[1].Message != "the nearest rose, at 47°00.0′N 019°00.0′W, is 90 M away: use a chart with a nearer rose, or a field model" {
		t.Errorf("%v", e.Warnings)
	}
}

func TestWorkingOfABlend(t *testing.T) {
	c := mustChart(t,
		variation.ChartRose{Name: "Orlesk Head", Position: at(47, -19), Rose: variation.MustParseLegend("3°00′W 2025 (8′E)")},
		variation.ChartRose{Name: "Minnow Ledge", Position: at(48, -19), Rose: variation.MustParseLegend("4°00′W 2025 (8′E)")},
	)
	c.Method = variation.Blended
	e, err := c.ExplainVariation(at(47.25, -19), noon(2026, 7, 2))
	if err != nil {
		t.Fatal(err)
	}
	const want = `
Rose                    0.750  Orlesk Head: its weight
Variation in 2025      3°00′W  printed at the rose, annual change 8′E
Years, 2025 to 2026    1 year  counted in whole years
Change                 0°08′E  1 year × 8′E
Change error         ±0°01.3′  the annual change is not steady over 1 year, at this latitude
Source                 ±0°25′  the error of the forecast on the chart, at this latitude; local anomalies are not included
Uncertainty            ±0°26′  standard: change error, source and rounding (±0°05′) together
Variation in 2026      2°52′W  change east, variation west: it decreases
Rose                    0.250  Minnow Ledge: its weight
Variation in 2025      4°00′W  printed at the rose, annual change 8′E
Years, 2025 to 2026    1 year  counted in whole years
Change                 0°08′E  1 year × 8′E
Change error         ±0°01.3′  the annual change is not steady over 1 year, at this latitude
Source                 ±0°26′  the error of the forecast on the chart, at this latitude; local anomalies are not included
Uncertainty            ±0°26′  standard: change error, source and rounding (±0°05′) together
Variation in 2026      3°52′W  change east, variation west: it decreases
Variation here         3°07′W  weighted mean of the roses, linear in latitude and longitude
`
	if got := e.Working.String(); fold(got) != fold(want) {
		t.Errorf("%s\nwant%s", got, want)
	}
	if len(e.Warnings) != 1 || !strings.Contains(e.Warnings[0].Message, "the blended roses differ by 1°00′") {
		t.Errorf("%v", e.Warnings)
	}
}

// A field model beside the chart's roses does not change what they give. The working
// shows its value beside theirs and says which uncertainty is smaller.
func TestModelBesideAnOldRose(t *testing.T) {
	for _, c := range []struct {
		legend, model, how string
		warned             bool
	}{
		{"3°50′W 1984 (9′E)", "3°00′E ±0°25′", "for comparison, uncertainty ±0°25′, smaller than that of the rose", false},
		{"3°50′W 2026 (9′E)", "3°00′W ±0°45′", "for comparison, uncertainty ±0°45′, not smaller than that of the rose", false},
		{"3°50′E 2025 (9′E)", "3°50′W ±0°25′", "for comparison, uncertainty ±0°25′, smaller than that of the rose", true},
		{"3°50′W 2026 (9′E)", "3°00′W", "for comparison, uncertainty not stated", false},
	} {
		chart := mustChart(t, variation.ChartRose{Position: at(47, -19), Rose: variation.MustParseLegend(c.legend)})
		without, err := chart.ExplainVariation(at(47, -19), noon(2026, 7, 2))
		if err != nil {
			t.Fatal(err)
		}
		chart.Model = variation.MustParse(c.model)
		e, err := chart.ExplainVariation(at(47, -19), noon(2026, 7, 2))
		if err != nil || e.Variation != without.Variation {
			t.Errorf("%s: %v, %v; without the model %v", c.legend, e.Variation, err, without.Variation)
		}
		step, ok := e.Working.Find("model variation")
		if !ok || step.How != c.how || step.What != "By the model" {
			t.Errorf("%s: %+v", c.legend, step)
		}
		if got := slices.Contains(kindsOf(e.Warnings), variation.ModelDiffers); got != c.warned {
			t.Errorf("%s: %v", c.legend, e.Warnings)
		}
	}
	chart := mustChart(t, variation.ChartRose{Position: at(47, -19), Rose: variation.MustParseLegend("3°50′W 2026 (9′E)")})
	chart.Model = &variation.Chart{} // has no roses
	e, err := chart.ExplainVariation(at(47, -19), noon(2026, 7, 2))
	if step, ok := e.Working.Find("model variation"); err != nil || !ok || !strings.HasPrefix(step.How, "no answer: ") {
		t.Errorf("%+v, %v", step, err)
	}
	chart.Model = (*variation.Chart)(nil)
	if e, err = chart.ExplainVariation(at(47, -19), noon(2026, 7, 2)); err != nil || len(e.Working) == 0 {
		t.Errorf("%v", err)
	}
	if _, ok := e.Working.Find("model variation"); ok {
		t.Error("a nil model has a step")
	}
}
