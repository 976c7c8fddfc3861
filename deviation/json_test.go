package deviation_test

import (
	"encoding/json"
	"errors"
	"reflect"
	"strings"
	"testing"

	"lubberline.example/deviation/internal/devtest"
	"lubberline.example/deviation/swing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/deviation"
)

func TestATableReadsBackFromItsJSON(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows := devtest.DrawRows(t, devtest.Deg, 40*devtest.Deg)
		if rapid.Bool().Draw(t, "uncertainties") {
			for i := range rows {
				rows[i].Deviation = rows[i].Deviation.WithUncertainty(devtest.Sigma(devtest.DrawBetween(t, 0, 2*devtest.Deg, "uncertainty")))
			}
		}
		for _, table := range []*deviation.Table{devtest.MustTable(t, rows), devtest.MustTable(t, devtest.AsMagnetic(rows))} {
			text := devtest.RoundTrips(t, table)
			devtest.RoundTrips(t, struct{ Card deviation.Table }{*table}) // as a value too
			read, err := deviation.ReadTable(strings.NewReader(text))
			if err != nil || !reflect.DeepEqual(read, table) {
				t.Fatalf("%s: ReadTable makes %v of it: %v", text, read, err)
			}
			smooth := devtest.RoundTrips(t, table.Smooth())
			devtest.RoundTrips(t, struct{ Card deviation.Table }{*table.Smooth()})
			if smooth != `{"smooth":true,"rows":`+text+`}` {
				t.Fatalf("smooth %s", smooth)
			}
			if read, err = deviation.ReadTable(strings.NewReader(smooth)); err != nil || !reflect.DeepEqual(read, table.Smooth()) {
				t.Fatalf("%s: ReadTable makes %v of it: %v", smooth, read, err)
			}
		}
	})
}

func TestATableAsJSON(t *testing.T) {
	table := devtest.MustTable(t, by45(2, 3.5, -1.5, -2.5, 0, -1, 1.5, 1.5)).WithUncertainty(devtest.Sigma(30 * devtest.Minute))
	const first = `[{"compass":"000°C","deviation":"2°00′E","uncertainty":"±0°30′"},{"compass":"045°C","deviation":"3°30′E","uncertainty":"±0°30′"},`
	if text := devtest.RoundTrips(t, table); !strings.HasPrefix(text, first) {
		t.Errorf("%s", text)
	}
	if text := devtest.RoundTrips(t, devtest.MustTable(t, devtest.AsMagnetic(by45(2, 3.5, -1.5, -2.5, 0, -1, 1.5, 1.5)))); !strings.HasPrefix(text, `[{"magnetic":"000°M","deviation":"2°00′E"},`) {
		t.Errorf("%s", text)
	}
	// No table is null, both ways.
	if text := devtest.RoundTrips(t, struct{ A, B *deviation.Table }{nil, nil}) + devtest.RoundTrips(t, deviation.Table{}); text != `{"A":null,"B":null}null` {
		t.Errorf("%s", text)
	}
	var kept deviation.Table
	for text, kind := range map[string]deviation.ErrorKind{
		`[{"compass":"000","deviation":"2°E"}]`:                                       deviation.GapTooWide,
		`[{"compass":"000","deviation":"2°E"},{"compass":"000°C","deviation":"2°E"}]`: deviation.DuplicateHeading,
	} {
		err := json.Unmarshal([]byte(text), &kept)
		if e, ok := errors.AsType[*deviation.Error](err); !ok || e.Kind != kind {
			t.Errorf("%s: %v", text, err)
		}
	}
	for _, text := range []string{`[]`, `{}`, `3`, `"compass"`, `true`, `{"rows":[]}`, `{"smooth":true}`, `{"rows":1}`, `[{"deviation":"2°E"}]`, `[{"compass":"000","deviation":"2°61′E"}]`} {
		if err := json.Unmarshal([]byte(text), &kept); err == nil || len(kept.Entries()) != 0 {
			t.Errorf("%s makes %v", text, kept.Entries())
		} else if _, ok := errors.AsType[*record.Error](err); !ok {
			t.Errorf("%s: %v", text, err)
		}
	}
}

// A table as an object says whether it is smooth; what is wrong in it, and where.
func TestATableAsAnObject(t *testing.T) {
	rows, _ := json.Marshal(devtest.MustTable(t, by45(2, 3.5, -1.5, -2.5, 0, -1, 1.5, 1.5)))
	for text, smooth := range map[string]bool{
		`{"smooth":true,"rows":` + string(rows) + `}`:                     true,
		"\ufeff\n{\"rows\":\r\n" + string(rows) + ", \"Smooth\": true}\n": true,
		`{"smooth":false,"rows":` + string(rows) + `}`:                    false,
		`{"rows":` + string(rows) + `}`:                                   false,
	} {
		table, err := deviation.ReadTable(strings.NewReader(text))
		if err != nil || table.IsSmooth() != smooth || len(table.Entries()) != 8 {
			t.Errorf("%s: %v, %v", text, table, err)
		}
	}
	for _, c := range []struct {
		text string
		line int
		says string
	}{
		{`{"rows":1}`, 1, "give a JSON array of rows"},
		{"{\n\"rows\": {\"compass\": \"000\"}}", 2, "give a JSON array of rows"},
		{`{"smooth":true}`, 1, "give a JSON array of rows"},
		{`{"smooth":"yes","rows":[]}`, 1, "give true or false"},
		{"{\"compass\":\n\"000\"}", 1, `unknown key "compass": give a JSON array of rows`},
		{"{\"rows\":[],\n\"rows\":[]}", 2, `the key "rows" is given twice`},
		{`{"rows":[]`, 1, "ends before the object does"},
		{`{"rows":[]} []`, 1, "there is text after the object"},
		{"{\"smooth\":true,\n\"rows\":[\n{\"compass\":\"000\",\n\"deviation\":\"x\"}]}", 4, "line 4, deviation: "},
	} {
		_, err := deviation.ReadTable(strings.NewReader(c.text))
		if e, ok := errors.AsType[*record.Error](err); !ok || e.Line != c.line || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v", c.text, err)
		}
	}
}

func TestCurveJSONRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		fit := devtest.DrawFit(t)
		curve := fit.Curve
		text, err := json.Marshal(curve)
		if err != nil {
			t.Fatal(err)
		}
		var back deviation.Curve
		if err := json.Unmarshal(text, &back); err != nil {
			t.Fatalf("%s: %v", text, err)
		}
		if again, err := json.Marshal(back); err != nil || string(again) != string(text) {
			t.Fatalf("%s\n%s, %v", text, again, err)
		}
		if back.By() != curve.By() || back.Order() != curve.Order() || back.Ordered() != curve.Ordered() {
			t.Fatalf("%s", text)
		}
		for range 20 {
			z := devtest.DrawHeading(t, "heading")
			a, err1 := curve.OnCompass(angle.CompassFrom(z))
			b, err2 := back.OnCompass(angle.CompassFrom(z))
			c, err3 := curve.OnMagnetic(angle.MagneticFrom(z))
			d, err4 := back.OnMagnetic(angle.MagneticFrom(z))
			if a != b || c != d || !reflect.DeepEqual(err1, err2) || !reflect.DeepEqual(err3, err4) {
				t.Fatalf("on %v: %v %v, %v %v from %s", z, a, b, c, d, text)
			}
			e1, _ := curve.ExplainDeviation(angle.CompassFrom(z))
			e2, _ := back.ExplainDeviation(angle.CompassFrom(z))
			if !reflect.DeepEqual(e1, e2) {
				t.Fatalf("%+v\n%+v", e1, e2)
			}
		}
		// A fit gives its fields, and reads them back but for what it says.
		data, err := json.Marshal(fit)
		var read swing.Fit
		if err != nil || json.Unmarshal(data, &read) != nil {
			t.Fatalf("%s, %v", data, err)
		}
		if again, err := json.Marshal(read); err != nil || string(again) != string(data) {
			t.Fatalf("%s\n%s, %v", data, again, err)
		}
		if _, known := read.StandardErrors(); known || !reflect.DeepEqual(read.Residuals, fit.Residuals) || read.Curve.Coefficients() != fit.Curve.Coefficients() {
			t.Fatalf("%s", data)
		}
	})
}

func TestACurveAsJSON(t *testing.T) {
	k := deviation.Coefficients{A: devtest.Deg, B: -4 * devtest.Deg, C: 3 * devtest.Deg, D: 2 * devtest.Deg, E: devtest.Deg / 2}
	curve := angle.Must(k.Curve(deviation.ByMagnetic))
	if text := devtest.RoundTrips(t, curve); text != `{"by":"magnetic","coefficientsArcseconds":[3600,-14400,10800,7200,1800]}` {
		t.Errorf("%s", text)
	}
	var headings []angle.Angle
	for h := 90 * devtest.Deg; h <= 350*devtest.Deg; h += 10 * devtest.Deg {
		headings = append(headings, h)
	}
	stated := angle.Must(swing.NewFit(devtest.Swing(headings, devtest.Usual), swing.FitOptions{Order: 1, Common: devtest.Sigma(devtest.Deg)})).Curve
	if text := devtest.RoundTrips(t, stated); !strings.Contains(text, `"varianceSquareArcseconds":[`) || !strings.HasSuffix(text, `"unobserved":[{"from":"350°00′","to":"90°00′"}]}`) {
		t.Errorf("%s", text)
	}
	if text := devtest.RoundTrips(t, deviation.Curve{}) + devtest.RoundTrips(t, (*deviation.Curve)(nil)); text != "nullnull" {
		t.Errorf("%s", text)
	}
	for text, says := range map[string]string{
		`{"coefficientsArcseconds":[1]}`: "by is missing; give compass or magnetic",
		`{}`:                             "0 figures of its coefficients; give an odd number up to 21",
		`{"by":"compass","coefficientsArcseconds":[1,2]}`:                                "2 figures of its coefficients",
		`{"by":"compass","coefficientsArcseconds":[324001]}`:                             "at most 90°",
		`{"by":"compass","coefficientsArcseconds":[1e99999999999999999999]}`:             "1e99999999999999999999″ is too large for its coefficients",
		`{"by":"compass","coefficientsArcseconds":[1,1e308,-1e308]}`:                     "1e308″ is too large for its coefficients",
		`{"by":"compass","coefficientsArcseconds":[1,1e290,-1e290]}`:                     "at most 90°",
		`{"by":"compass","coefficientsArcseconds":[1],"varianceSquareArcseconds":[1,2]}`: "2 figures of its variance; give an odd number up to 25",
		`{"by":"compass","coefficientsArcseconds":[1` + strings.Repeat(",0", 22) + `]}`:  "23 figures",
	} {
		var c deviation.Curve
		err := json.Unmarshal([]byte(text), &c)
		if e, ok := errors.AsType[*deviation.Error](err); !ok || !strings.Contains(e.Error(), says) {
			t.Errorf("%s: %v", text, err)
		}
		if _, err := c.OnCompass(angle.Compass{}); err == nil {
			t.Errorf("%s is a curve all the same", text)
		}
	}
	for _, text := range []string{`3`, `{"by":"true","coefficientsArcseconds":[1]}`, `{"by":"compass","coefficientsArcseconds":["a"]}`, `{"by":"compass","coefficientsArcseconds":[1],"unobserved":[{"from":"north"}]}`} {
		if err := json.Unmarshal([]byte(text), new(deviation.Curve)); err == nil {
			t.Errorf("%s is accepted", text)
		}
	}
	// An uncertainty beyond all angles is as good as none.
	var c deviation.Curve
	if err := json.Unmarshal([]byte(`{"by":"compass","coefficientsArcseconds":[1],"varianceSquareArcseconds":[1e280]}`), &c); err != nil {
		t.Fatal(err)
	}
	if d, err := c.OnCompass(angle.Compass{}); err != nil || d != deviation.East(angle.Second) {
		t.Errorf("%v %v, %v", d, d.Uncertainty(), err)
	}
}

func FuzzCurveJSON(f *testing.F) {
	f.Add(`{"by":"magnetic","coefficientsArcseconds":[3600,-14400,10800,7200,1800]}`)
	f.Add(`{"by":"compass","coefficientsArcseconds":[1.5e3,2E-7,0.1],"varianceSquareArcseconds":[9,1,-1,-0,3],"unobserved":[{"from":"350°","to":"−90°"}]}`)
	f.Add(`{"by":"compass","coefficientsArcseconds":[1e-320,1e308,5e-324]}`)
	f.Fuzz(func(t *testing.T, text string) {
		var c deviation.Curve
		if err := json.Unmarshal([]byte(text), &c); err != nil {
			return
		}
		data, err := json.Marshal(c)
		var back deviation.Curve
		if err != nil || json.Unmarshal(data, &back) != nil {
			t.Fatalf("%q: %s, %v", text, data, err)
		}
		if again, err := json.Marshal(back); err != nil || string(again) != string(data) {
			t.Fatalf("%s becomes %s, %v", data, again, err)
		}
		for h := angle.Angle(0); h < angle.Turn; h += 30 * devtest.Deg {
			d, err := c.OnCompass(angle.CompassFrom(h))
			if e, err2 := back.OnCompass(angle.CompassFrom(h)); d != e || (err == nil) != (err2 == nil) {
				t.Fatalf("%s on %v: %v, %v", data, h, d, e)
			}
		}
	})
}
