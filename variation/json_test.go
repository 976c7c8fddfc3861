package variation_test

import (
	"encoding"
	"encoding/json"
	"errors"
	"reflect"
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

func TestAProjectionGoesThroughJSONUnchanged(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, err := drawRose(t).On(drawDate(t), drawCount(t))
		if err != nil {
			t.Fatal(err)
		}
		back := again(t, p)
		if back != p || back.Working().String() != p.Working().String() {
			t.Fatalf("%+v reads back as %+v", p, back)
		}
	})
	if back := again(t, variation.Projection{}); back != (variation.Projection{}) {
		t.Errorf("the zero value reads back as %+v", back)
	}
	// A clock's reading does not hinder ==.
	p, err := variation.MustParseLegend("3°50′W 2014 (9′E)").On(time.Now(), variation.DecimalYears)
	if err != nil || again(t, p) != p {
		t.Errorf("%+v, %v", p, err)
	}
}

func TestAProjectionOfAnUnknownCountIsRefused(t *testing.T) {
	_, err := variation.MustParseLegend("3°50′W 2014 (9′E)").On(noon(2026, 7, 2), 7)
	if e, ok := errors.AsType[*angle.RangeError](err); !ok || e.Value != 7 || !strings.Contains(err.Error(), "count of years 7") {
		t.Errorf("%v", err)
	}
	if _, err := json.Marshal(variation.Projection{Count: 7}); err == nil {
		t.Error("written as JSON")
	}
	p := variation.Projection{Years: 1}
	if err := json.Unmarshal([]byte(`{"count": "lustra"}`), &p); err == nil || p.Years != 1 {
		t.Errorf("%+v, %v", p, err)
	}
	err = json.Unmarshal([]byte(`{"date": "0000-01-01T00:00:00+01:00"}`), &p)
	if e, ok := errors.AsType[*variation.YearError](err); !ok || e.Year != -1 || p.Years != 1 {
		t.Errorf("%+v, %v", p, err)
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
		all, err := c.Candidates(at(47, -19), drawDate(t))
		if err != nil {
			t.Fatal(err)
		}
		if back := again(t, all); !reflect.DeepEqual(back, all) {
			t.Fatalf("%+v read back as %+v", all, back)
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
		if _, ok := errors.AsType[*variation.ChartError](read(text)); !ok {
			t.Errorf("%s: %v", text, read(text))
		}
	}
	for _, text := range []string{`{"roses":[{"position":"47°N 19°W"}]}`, `{"roses":[{"position":"47°N 19°W","legend":"3°50′ 2014"}]}`, `[{"position":"47°N 19°W","legend":"3°50′ 2014"}]`} {
		if _, ok := errors.AsType[*variation.LegendError](read(text)); !ok {
			t.Errorf("%s: %v", text, read(text))
		}
	}
	if e, ok := errors.AsType[*record.Error](read("[\n{}]")); !ok || e.Line != 2 {
		t.Errorf("%v", e)
	}
	if _, ok := errors.AsType[*angle.ParseError](read(`{"method":"guessed"}`)); !ok {
		t.Error("a method that there is not")
	}
	if _, err := json.Marshal(variation.Chart{}); err == nil {
		t.Error("a chart without roses was written")
	}
	c := mustChart(t, variation.ChartRose{Position: at(1, 2), Rose: rose(0)})
	c.Method = 7
	_, err1 := json.Marshal(c)
	_, err2 := c.VariationAt(at(1, 2), noon(2026, 7, 2))
	_, err3 := c.ExplainVariation(at(1, 2), noon(2026, 7, 2))
	for _, err := range []error{err1, err2, err3} {
		if e, ok := errors.AsType[*angle.RangeError](err); !ok || e.Value != 7 {
			t.Errorf("method 7: %v", err)
		}
	}
}

func TestAnAuditGoesThroughJSON(t *testing.T) {
	unknown := likeOrlesk()
	unknown.known = sigma(20 * deg)
	never := likeOrlesk()
	never.first = 3000
	since := likeOrlesk()
	since.first = 2020
	for name, source := range map[string]variation.Source{"agrees": likeOrlesk(), "too uncertain": unknown, "no answer": never, "none in its own year": since} {
		for _, legend := range []string{"3°50′W 2014 (9′E)", "3°50′W 2014", "3°50′W 2014 (no annual change)", "3°50′E 2014 (9′E)"} {
			a := mustAudit(t, legend, source)
			back := again(t, a)
			if back.Working().String() != a.Working().String() || back.Then.Agrees() != a.Then.Agrees() || back.Now.Agrees() != a.Now.Agrees() {
				t.Errorf("%s, %s:\n%sreads back as\n%s", name, legend, a.Working(), back.Working())
			}
			// All but the types of errors.
			for _, x := range []*variation.Audit{&a, &back} {
				for _, err := range []*error{&x.Then.Err, &x.Now.Err, &x.SourceChangeErr} {
					if *err != nil {
						*err = errors.New((*err).Error())
					}
				}
			}
			if !reflect.DeepEqual(back, a) {
				t.Errorf("%s, %s: %+v reads back as %+v", name, legend, a, back)
			}
		}
	}
	data, err := json.Marshal(mustAudit(t, "3°50′W 2014 (9′E)", never).Now)
	const want = `{"date":"2026-07-02T12:00:00Z","rose":"2°02′W ±0°03′41.240192185″","error":"no field for that year"}`
	if err != nil || string(data) != want {
		t.Errorf("%s, %v\nwant\n%s", data, err, want)
	}
}

func TestAnExplanationGoesThroughJSONUnchanged(t *testing.T) {
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

func TestMethodsAndCountsAsText(t *testing.T) {
	for word, value := range map[string]encoding.TextMarshaler{
		"whole years": variation.WholeYears, "decimal years": variation.DecimalYears, "nearest": variation.Nearest, "blended": variation.Blended,
	} {
		text, err := value.MarshalText()
		back := reflect.New(reflect.TypeOf(value))
		if err != nil || string(text) != word || back.Interface().(encoding.TextUnmarshaler).UnmarshalText(text) != nil || back.Elem().Interface() != value {
			t.Errorf("%v: %q, %v, back %v", value, text, err, back.Elem())
		}
	}
	for text, value := range map[string]encoding.TextMarshaler{"YearCount(7)": variation.YearCount(7), "Method(-1)": variation.Method(-1)} {
		_, err := value.MarshalText()
		if _, ok := errors.AsType[*angle.RangeError](err); !ok || value.(interface{ String() string }).String() != text {
			t.Errorf("%v: %v", value, err)
		}
	}
	for text, kind := range map[string]angle.ErrorKind{"": angle.Empty, "guessed": angle.UnknownWord} {
		count, method := variation.DecimalYears, variation.Blended
		for _, err := range []error{count.UnmarshalText([]byte(text)), method.UnmarshalText([]byte(text))} {
			if e, ok := errors.AsType[*angle.ParseError](err); !ok || e.Kind != kind || e.Input != text || count != variation.DecimalYears || method != variation.Blended {
				t.Errorf("%q: %v, %v, %v", text, count, method, err)
			}
		}
	}
}

// Whatever reads as data works without a panic, and is written as what reads back to
// the same.
func FuzzJSON(f *testing.F) {
	c := mustChart(f, variation.ChartRose{Name: "Orlesk Head", Position: at(47, -19), Rose: variation.MustParseLegend("3°50′W 2014 (9′E)")},
		variation.ChartRose{Position: at(48, -19), Rose: rose(0)})
	p, err := variation.MustParseLegend("14½°W 1914 (5′E)").On(noon(2026, 7, 2), variation.DecimalYears)
	if err != nil {
		f.Fatal(err)
	}
	never := likeOrlesk()
	never.first = 3000
	for _, v := range []any{c, p, mustAudit(f, "3°50′W 2014", likeOrlesk()), mustAudit(f, "3°50′W 2014", never)} {
		data, err := json.Marshal(v)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(data))
	}
	f.Add(`{"years":-1e300,"change":"-9000°","rose":{"step":"-1°","changeStep":"2000°"},"verdict":"stale","then":{"error":"x"}}`)
	f.Add(`[{"position":"47N 19W","legend":"3°50′W 2014"}]`)
	f.Fuzz(func(t *testing.T, text string) {
		var c variation.Chart
		if json.Unmarshal([]byte(text), &c) == nil {
			if back := again(t, c); !reflect.DeepEqual(back, c) {
				t.Fatalf("%+v reads back as %+v", c, back)
			}
		}
		var p variation.Projection
		if json.Unmarshal([]byte(text), &p) == nil && p.Working() != nil {
			if back := again(t, p); back != p {
				t.Fatalf("%+v reads back as %+v", p, back)
			}
		}
		var a variation.Audit
		if json.Unmarshal([]byte(text), &a) == nil {
			if back := again(t, a); back.Working().String() != a.Working().String() {
				t.Fatalf("%+v reads back as %+v", a, back)
			}
		}
	})
}

// A fault of a chart in JSON names the rose, or its number, and the quantity.
func TestFaultsOfAChartInJSONNameTheRose(t *testing.T) {
	const good = `{"position":"47°05′N 019°10′W","legend":"3°50′W 2014 (9′E)"}`
	for text, want := range map[string]string{
		`{"roses":[` + good + `,{"name":"Outer rose","position":"47°61′N 019°10′W","legend":"3°50′W 2014"}]}`: `variation: chart: rose "Outer rose": position "47°61′N 019°10′W": minutes-out-of-range`,
		`{"roses":[` + good + `,{"position":"","legend":"3°50′W 2014"}]}`:                                     `variation: chart: rose "2": position "": empty`,
		`{"roses":[{"name":"Outer rose","position":7,"legend":"3°50′W 2014"}]}`:                               `variation: chart: rose "Outer rose": json: `,
		`{"roses":[{"name":"Outer rose","legend":"3°50′W 2014"}]}`:                                            `variation: chart: rose "Outer rose": no position`,
		`{"roses":[` + good + `,{"position":"47°N 019°W","legend":"3°50′ 2014"}]}`:                            `variation: chart: rose "2": variation: legend "3°50′ 2014": no-name`,
	} {
		var c variation.Chart
		err := json.Unmarshal([]byte(text), &c)
		if e, ok := errors.AsType[*variation.ChartError](err); !ok || !strings.HasPrefix(e.Error(), want) {
			t.Errorf("%s: %v, want %s", text, err, want)
		}
		if p, ok := errors.AsType[*angle.ParseError](err); ok && p.What != "position" && !strings.Contains(text, "3°50′ 2014") {
			t.Errorf("%s: a %s", text, p.What)
		}
	}
}

// What is left to the default is left out.
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

// A variation in data says what it was to be.
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
		"": "no source", "variation": "no source of variation: want a rose", "deviation": "no source of deviation: want a table",
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
