package variation_test

import (
	"encoding/json"
	"errors"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/variation"
)

// again is a value written as JSON and read back.
func again[T any](t interface{ Fatal(...any) }, v T) T {
	data, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	var back T
	if err := json.Unmarshal(data, &back); err != nil {
		t.Fatal(string(data), err)
	}
	return back
}

func drawDate(t *rapid.T) time.Time {
	return time.Unix(rapid.Int64Range(-14e9, 16e9).Draw(t, "seconds since 1970"), rapid.Int64Range(0, 999_999_999).Draw(t, "nanoseconds"))
}

func drawCount(t *rapid.T) variation.YearCount {
	return rapid.SampledFrom([]variation.YearCount{variation.WholeYears, variation.DecimalYears}).Draw(t, "count")
}

func TestProjectionJSON(t *testing.T) {
	p, err := variation.MustParseLegend("3°50′W 2014 (9′E)").On(noon(2026, 7, 2), variation.DecimalYears)
	if err != nil {
		t.Fatal(err)
	}
	data, err := json.Marshal(p)
	if err != nil {
		t.Fatal(err)
	}
	var got struct {
		Rose            variation.Rose
		Count           variation.YearCount
		Date            time.Time
		Years           float64
		Change          angle.Angle
		Variation       variation.Variation
		Rounding, Drift angle.Uncertainty
		Source          angle.Uncertainty
		Working         []struct{ Key string }
	}
	if err := json.Unmarshal(data, &got); err != nil {
		t.Fatal(err)
	}
	if got.Rose != p.Rose || got.Count != "decimal-years" || !got.Date.Equal(noon(2026, 7, 2)) || got.Years != p.Years || got.Change != p.Change ||
		got.Variation != p.Variation || got.Rounding != p.Rounding || got.Drift != p.Drift || got.Source != p.Source || len(got.Working) != len(p.Working()) {
		t.Errorf("%s", data)
	}
	if _, err := json.Marshal(variation.Projection{}); err != nil {
		t.Error(err)
	}
}

func TestUnknownCountIsRefused(t *testing.T) {
	_, err := variation.MustParseLegend("3°50′W 2014 (9′E)").On(noon(2026, 7, 2), "lustra")
	if e, ok := errors.AsType[*angle.ParseError](err); !ok || e.Input != "lustra" || e.What != "count of years" || e.Want != "whole-years or decimal-years" {
		t.Errorf("%v", err)
	}
}

// drawChart draws a chart of any roses, used in any way.
func drawChart(t *rapid.T) *variation.Chart {
	roses := make([]variation.ChartRose, rapid.IntRange(1, 5).Draw(t, "roses"))
	for i := range roses {
		roses[i] = variation.ChartRose{
			Name:     rapid.SampledFrom([]string{"", "Orlesk Head", "Minnow Ledge, “inner”", " spaced "}).Draw(t, "name"),
			Position: angle.Position{Latitude: angle.Must(angle.LatitudeFrom(drawAngle(t, 90*deg, "latitude"))), Longitude: angle.LongitudeFrom(drawAngle(t, 180*deg, "longitude"))},
			Rose:     drawRose(t),
		}
		if rapid.Bool().Draw(t, "printed") {
			roses[i].Rose = variation.MustParseLegend(rapid.SampledFrom([]string{"3°50′W 2014 (9′E)", "14½°W 1914 (5′E)", "2°00′E 2001", "0°30′W 2020 (no annual change)"}).Draw(t, "legend"))
		}
	}
	c, err := variation.NewChart(rapid.SampledFrom([]string{"", "Orlesk approaches"}).Draw(t, "chart"), roses...)
	if err != nil {
		t.Skip(err) // two at one place
	}
	c.Count = drawCount(t)
	c.Method = rapid.SampledFrom([]variation.Method{variation.Nearest, variation.Blended}).Draw(t, "method")
	if rapid.Bool().Draw(t, "limits") {
		c.Limits = variation.Limits{Uncertainty: drawAngle(t, angle.Turn, "uncertainty"), Difference: 1, Distance: drawAngle(t, angle.Degree, "distance")}
	}
	return c
}

func TestAChartGoesThroughJSONUnchanged(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawChart(t)
		back := again(t, c)
		if !reflect.DeepEqual(back, c) {
			t.Fatalf("%+v reads back as %+v", c, back)
		}
		if byValue := again(t, *c); !reflect.DeepEqual(byValue, *c) {
			t.Fatalf("%+v reads back as %+v", c, byValue)
		}
	})
}

func TestAChartInJSONHoldsTheRowsOfAFile(t *testing.T) {
	for form, text := range sameChart {
		c, err := variation.ReadChart("Orlesk approaches", strings.NewReader(text))
		if err != nil {
			t.Fatal(form, err)
		}
		data, err := json.Marshal(c)
		if err != nil {
			t.Fatal(form, err)
		}
		var object struct {
			Name  string
			Roses json.RawMessage
		}
		if err := json.Unmarshal(data, &object); err != nil || object.Name != "Orlesk approaches" {
			t.Errorf("%s: %s, %v", form, data, err)
		}
		read, err := variation.ReadChart(object.Name, strings.NewReader(string(object.Roses)))
		if err != nil || !reflect.DeepEqual(read.Roses(), c.Roses()) {
			t.Errorf("%s: the rows %s read as %+v, %v", form, object.Roses, read, err)
		}
		var bare variation.Chart
		if err := json.Unmarshal(object.Roses, &bare); err != nil || bare.Name() != "" || !reflect.DeepEqual(bare.Roses(), c.Roses()) {
			t.Errorf("%s: the rows alone: %+v, %v", form, bare, err)
		}
	}
	one := mustChart(t, variation.ChartRose{Position: at(47, -19), Rose: variation.MustParseLegend("3°50′W 2014 (9′E)")})
	one.Method = variation.Blended
	data, err := json.Marshal(one)
	const want = `{"name":"Orlesk approaches","method":"blended","roses":[{"position":"47°00′N 019°00′W","legend":"3°50′W 2014 (9′E)"}]}`
	if err != nil || string(data) != want {
		t.Errorf("%s, %v\nwant\n%s", data, err, want)
	}
}

func TestJSONThatIsNoChart(t *testing.T) {
	read := func(text string) error {
		c := *mustChart(t, variation.ChartRose{Name: "old", Position: at(1, 2), Rose: rose(0)})
		err := json.Unmarshal([]byte(text), &c)
		if err == nil || len(c.Roses()) != 1 || c.Roses()[0].Name != "old" {
			t.Errorf("%s: %v, and left %+v", text, err, c)
		}
		return err
	}
	for _, text := range []string{`{}`, `{"roses":[]}`, `{"roses":[{"name":"x","legend":"3°50′W 2014"}]}`,
		`{"roses":[{"position":"47°N 19°W","legend":"3°50′W 2014"},{"position":"47°N 19°W","legend":"3°50′W 2014"}]}`,
		`{"roses":[{"position":"47°N 19°W","rose":{"year":1066}}]}`} {
		if _, ok := errors.AsType[*variation.Error](read(text)); !ok {
			t.Errorf("%s: %v", text, read(text))
		}
	}
	for _, text := range []string{`{"roses":[{"position":"47°N 19°W"}]}`, `{"roses":[{"position":"47°N 19°W","legend":"3°50′ 2014"}]}`, `[{"position":"47°N 19°W","legend":"3°50′ 2014"}]`} {
		if _, ok := errors.AsType[*variation.Error](read(text)); !ok {
			t.Errorf("%s: %v", text, read(text))
		}
	}
	if e, ok := errors.AsType[*record.Error](read("[\n{}]")); !ok || e.Line != 2 {
		t.Errorf("%v", e)
	}
	if _, ok := errors.AsType[*angle.ParseError](read(`{"method":"guessed","roses":[{"position":"47°N 19°W","legend":"3°50′W 2014"}]}`)); !ok {
		t.Error("unknown method was read")
	}
	if _, ok := errors.AsType[*angle.ParseError](read(`{"count":"guessed","roses":[{"position":"47°N 19°W","legend":"3°50′W 2014"}]}`)); !ok {
		t.Error("unknown count was read")
	}
	if _, err := json.Marshal(variation.Chart{}); err == nil {
		t.Error("a chart without roses was written")
	}
	c := mustChart(t, variation.ChartRose{Position: at(1, 2), Rose: rose(0)})
	c.Method = "guessed"
	_, err1 := json.Marshal(c)
	_, err2 := c.VariationAt(at(1, 2), noon(2026, 7, 2))
	_, err3 := c.ExplainVariation(at(1, 2), noon(2026, 7, 2))
	for _, err := range []error{err1, err2, err3} {
		if e, ok := errors.AsType[*angle.ParseError](err); !ok || e.Input != "guessed" {
			t.Errorf("unknown method: %v", err)
		}
	}
}

func TestAuditJSON(t *testing.T) {
	never := likeOrlesk()
	never.first = 3000
	for _, c := range []struct {
		legend string
		source variation.Source
		keys   []string // of the annual changes
	}{
		{"3°50′W 2014 (9′E)", likeOrlesk(), []string{"firstChange", "roseChange", "sourceChange"}},
		{"3°50′W 2014", likeOrlesk(), []string{"firstChange", "sourceChange"}},
		{"3°50′W 2014 (9′E)", never, []string{"roseChange"}},
	} {
		a := mustAudit(t, c.legend, c.source)
		data, err := json.Marshal(a)
		if err != nil {
			t.Fatal(err)
		}
		var got map[string]any
		if err := json.Unmarshal(data, &got); err != nil {
			t.Fatal(err)
		}
		var keys []string
		for key := range got {
			if strings.HasSuffix(key, "Change") {
				keys = append(keys, key)
			}
		}
		slices.Sort(keys)
		if !slices.Equal(keys, c.keys) || got["verdict"] != string(a.Verdict) || got["working"] == nil || got["rose"] == nil || got["position"] == nil {
			t.Errorf("%s: %s", c.legend, data)
		}
	}
	data, err := json.Marshal(mustAudit(t, "3°50′W 2014 (9′E)", never).Now)
	const want = `{"date":"2026-07-02T12:00:00Z","rose":"2°02′W ±0°03′41.240192185″","error":"no field for that year"}`
	if err != nil || string(data) != want {
		t.Errorf("%s, %v\nwant\n%s", data, err, want)
	}
}

func TestExplanationJSON(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e, err := drawRose(t).ExplainVariation(angle.Position{}, drawDate(t))
		if err != nil {
			t.Fatal(err)
		}
		if back := again(t, e); !reflect.DeepEqual(back, e) {
			t.Fatalf("%+v reads back as %+v", e, back)
		}
	})
}

// A chart that can be read is written as JSON that reads back to the same chart.
func FuzzJSON(f *testing.F) {
	c := mustChart(f, variation.ChartRose{Name: "Orlesk Head", Position: at(47, -19), Rose: variation.MustParseLegend("3°50′W 2014 (9′E)")},
		variation.ChartRose{Position: at(48, -19), Rose: rose(0)})
	data, err := json.Marshal(c)
	if err != nil {
		f.Fatal(err)
	}
	f.Add(string(data))
	f.Add(`{"roses":[{"position":"47N 19W","rose":{"step":"-1°","changeStep":"2000°","year":2000}}]}`)
	f.Add(`[{"position":"47N 19W","legend":"3°50′W 2014"}]`)
	f.Fuzz(func(t *testing.T, text string) {
		var c variation.Chart
		if json.Unmarshal([]byte(text), &c) == nil {
			if back := again(t, c); !reflect.DeepEqual(back, c) {
				t.Fatalf("%+v reads back as %+v", c, back)
			}
		}
	})
}

// A fault of a chart in JSON names the rose, or its number, and the quantity.
func TestChartJSONErrors(t *testing.T) {
	const good = `{"position":"47°05′N 019°10′W","legend":"3°50′W 2014 (9′E)"}`
	for text, want := range map[string]string{
		`{"roses":[` + good + `,{"name":"Outer rose","position":"47°61′N 019°10′W","legend":"3°50′W 2014"}]}`: `variation: chart: rose "Outer rose": "47°61′N 019°10′W" is not a position: minutes out of range`,
		`{"roses":[` + good + `,{"position":"","legend":"3°50′W 2014"}]}`:                                     `variation: chart: rose "2": "" is not a position; write`,
		`{"roses":[{"name":"Outer rose","position":7,"legend":"3°50′W 2014"}]}`:                               `variation: chart: rose "Outer rose": json: `,
		`{"roses":[{"name":"Outer rose","legend":"3°50′W 2014"}]}`:                                            `variation: chart: rose "Outer rose": no position`,
		`{"roses":[` + good + `,{"position":"47°N 019°W","legend":"3°50′ 2014"}]}`:                            `variation: chart: rose "2": variation: legend "3°50′ 2014": the variation has no name`,
	} {
		var c variation.Chart
		err := json.Unmarshal([]byte(text), &c)
		if e, ok := errors.AsType[*variation.Error](err); !ok || !strings.HasPrefix(e.Error(), want) {
			t.Errorf("%s: %v, want %s", text, err, want)
		}
		if p, ok := errors.AsType[*angle.ParseError](err); ok && p.What != "position" && !strings.Contains(text, "3°50′ 2014") {
			t.Errorf("%s: a %s", text, p.What)
		}
	}
}

// Zero fields are left out.
func TestLimitsInJSONLeaveTheDefaultsOut(t *testing.T) {
	for want, l := range map[string]variation.Limits{
		`{}`:                      {},
		`{"uncertainty":"1°00′"}`: {Uncertainty: angle.Degree},
		`{"distance":"2°00′"}`:    {Distance: 2 * angle.Degree},
	} {
		data, err := json.Marshal(l)
		if back := again(t, l); err != nil || string(data) != want || back != l {
			t.Errorf("%s, %v, back %v, want %s", data, err, back, want)
		}
	}
}

// The error names the quantity.
func TestARefusedVariationIsNamed(t *testing.T) {
	var d struct{ Variation variation.Variation }
	for _, text := range []string{"4°61′W", "", "4°15′W ±x"} {
		err := json.Unmarshal([]byte(`{"variation":"`+text+`"}`), &d)
		if p, ok := errors.AsType[*angle.ParseError](err); !ok || p.What != "variation" || d.Variation != (variation.Variation{}) {
			t.Errorf("%q: %v", text, err)
		}
	}
}

func TestAMissingSourceSaysOfWhat(t *testing.T) {
	for what, want := range map[string]string{
		"": "no source", "variation": "no source of variation: give a rose", "deviation": "no source of deviation: give a table",
		"position": "no position", "date": "no date", "streams": "no streams: a nil pointer",
	} {
		if got := (&variation.MissingInputError{What: what}).Error(); !strings.HasPrefix(got, want) {
			t.Errorf("%q: %s", what, got)
		}
	}
	_, err := variation.Explain(nil, angle.Position{}, time.Time{})
	if e, ok := errors.AsType[*variation.MissingInputError](err); !ok || e.What != "variation" {
		t.Error(err)
	}
}

func TestWhatAQuestionLacks(t *testing.T) {
	place, day := at(47, -19), noon(2026, time.July, 2)
	known, legend := variation.West(5*deg), variation.MustParseLegend("7°20′W 2015 (12′E)")
	chart := mustChart(t, variation.ChartRose{Rose: legend})
	for _, c := range []struct {
		name   string
		source variation.Source
		at     *angle.Position
		on     time.Time
		what   string
	}{
		{"nothing", nil, &place, day, "variation"},
		{"known", known, nil, time.Time{}, ""},
		{"a pointer to a known one", &known, nil, time.Time{}, ""},
		{"a nil pointer to a known one", (*variation.Variation)(nil), &place, day, "variation"},
		{"a rose", legend, nil, day, ""},
		{"a pointer to a rose, no date", &legend, &place, time.Time{}, "date"},
		{"a nil pointer to a rose", (*variation.Rose)(nil), &place, day, "variation"},
		{"a chart, no position", chart, nil, day, "position"},
		{"a chart, at the origin", chart, new(angle.Position), day, ""},
		{"a chart, no date", chart, &place, time.Time{}, "date"},
		{"a chart", chart, &place, day, ""},
		{"a nil pointer to a chart", (*variation.Chart)(nil), &place, day, "variation"},
		{"a constant of the caller's", constant{}, nil, time.Time{}, ""},
		{"a pointer to it", new(constant), nil, time.Time{}, ""},
		{"a model of the caller's", model{}, nil, day, "position"},
	} {
		err := variation.Missing(c.source, c.at, c.on)
		e, missing := errors.AsType[*variation.MissingInputError](err)
		if missing != (c.what != "") || missing && e.What != c.what || !missing && err != nil {
			t.Errorf("%s: %v, want %q", c.name, err, c.what)
		}
	}
}

// TestChartInAnotherLanguageIsRead reads a rose whose legend is in French, in the object and in an
// array of the rows. The legend is written in English.
func TestChartInAnotherLanguageIsRead(t *testing.T) {
	const rows = `[{"name":"Orlesk","position":"47°06′N 019°02′W","legend":"7°20′ O 2015 (12′ E)","language":"fr"}]`
	for _, text := range []string{rows, `{"name":"Orlesk","roses":` + rows + `}`} {
		var c variation.Chart
		if err := json.Unmarshal([]byte(text), &c); err != nil {
			t.Fatal(err)
		}
		data, err := json.Marshal(c)
		if err != nil || !strings.Contains(string(data), `"7°20′W 2015 (12′E)"`) || strings.Contains(string(data), "language") {
			t.Errorf("%s, %v", data, err)
		}
	}
	var c variation.Chart
	for text, want := range map[string]string{strings.ReplaceAll(rows, `"fr"`, `"xx"`): "unknown language", strings.ReplaceAll(rows, `,"language":"fr"`, ""): "name the language"} {
		if err := json.Unmarshal([]byte(`{"roses":`+text+`}`), &c); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %s", err, want)
		}
	}
}
