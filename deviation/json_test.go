package deviation_test

import (
	"encoding/json"
	"errors"
	"math"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// roundTrips checks that a value reads back from its JSON as it was, and returns the
// text.
func roundTrips[T any](t fails, v T) string {
	t.Helper()
	data, err := json.Marshal(v)
	if err != nil {
		t.Fatalf("%+v: %v", v, err)
	}
	var back T
	if err := json.Unmarshal(data, &back); err != nil {
		t.Fatalf("%s: %v", data, err)
	}
	if !reflect.DeepEqual(v, back) {
		t.Fatalf("%s reads back as\n%+v\nwas\n%+v", data, back, v)
	}
	return string(data)
}

// drawUncertainty draws an uncertainty, which may be nought or not stated.
func drawUncertainty(t *rapid.T, label string) angle.Uncertainty {
	if !rapid.Bool().Draw(t, label+" stated") {
		return angle.Uncertainty{}
	}
	return Sigma(drawBetween(t, 0, 5*deg, label))
}

func TestATableReadsBackFromItsJSON(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows := drawRows(t, deg, 40*deg)
		if rapid.Bool().Draw(t, "uncertainties") {
			for i := range rows {
				rows[i].Deviation = rows[i].Deviation.WithUncertainty(Sigma(drawBetween(t, 0, 2*deg, "uncertainty")))
			}
		}
		for _, table := range []*deviation.Table{mustTable(t, rows), mustTable(t, asMagnetic(rows))} {
			text := roundTrips(t, table)
			roundTrips(t, struct{ Card deviation.Table }{*table}) // as a value too
			read, err := deviation.ReadTable(strings.NewReader(text))
			if err != nil || !reflect.DeepEqual(read, table) {
				t.Fatalf("%s: ReadTable makes %v of it: %v", text, read, err)
			}
			smooth := roundTrips(t, table.Smooth())
			roundTrips(t, struct{ Card deviation.Table }{*table.Smooth()})
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
	table := mustTable(t, by45(2, 3.5, -1.5, -2.5, 0, -1, 1.5, 1.5)).WithUncertainty(Sigma(30 * minute))
	const first = `[{"compass":"000°C","deviation":"2°00′E","uncertainty":"±0°30′"},{"compass":"045°C","deviation":"3°30′E","uncertainty":"±0°30′"},`
	if text := roundTrips(t, table); !strings.HasPrefix(text, first) {
		t.Errorf("%s", text)
	}
	if text := roundTrips(t, mustTable(t, asMagnetic(by45(2, 3.5, -1.5, -2.5, 0, -1, 1.5, 1.5)))); !strings.HasPrefix(text, `[{"magnetic":"000°M","deviation":"2°00′E"},`) {
		t.Errorf("%s", text)
	}
	// No table is null, both ways.
	if text := roundTrips(t, struct{ A, B *deviation.Table }{nil, nil}) + roundTrips(t, deviation.Table{}); text != `{"A":null,"B":null}null` {
		t.Errorf("%s", text)
	}
	var kept deviation.Table
	for text, kind := range map[string]deviation.TableErrorKind{
		`[{"compass":"000","deviation":"2°E"}]`:                                       deviation.GapTooWide,
		`[{"compass":"000","deviation":"2°E"},{"compass":"000°C","deviation":"2°E"}]`: deviation.DuplicateHeading,
	} {
		err := json.Unmarshal([]byte(text), &kept)
		if e, ok := errors.AsType[*deviation.TableError](err); !ok || e.Kind != kind {
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
	rows, _ := json.Marshal(mustTable(t, by45(2, 3.5, -1.5, -2.5, 0, -1, 1.5, 1.5)))
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
		{`{"rows":1}`, 1, "want a JSON array of rows"},
		{"{\n\"rows\": {\"compass\": \"000\"}}", 2, "want a JSON array of rows"},
		{`{"smooth":true}`, 1, "want a JSON array of rows"},
		{`{"smooth":"yes","rows":[]}`, 1, "want true or false"},
		{"{\"compass\":\n\"000\"}", 1, `unknown key "compass": want a JSON array of rows`},
		{"{\"rows\":[],\n\"rows\":[]}", 2, `"rows" stands twice`},
		{`{"rows":[]`, 1, "ends before the object does"},
		{`{"rows":[]} []`, 1, "nothing after the object"},
		{"{\"smooth\":true,\n\"rows\":[\n{\"compass\":\"000\",\n\"deviation\":\"x\"}]}", 4, "line 4, deviation: "},
	} {
		_, err := deviation.ReadTable(strings.NewReader(c.text))
		if e, ok := errors.AsType[*record.Error](err); !ok || e.Line != c.line || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v", c.text, err)
		}
	}
}

// jsnCurve is a curve of a fit, of any order, by either heading, stated or not.
func jsnCurve(t *rapid.T) *deviation.Fit {
	swing := madeSwing(madeEven(rapid.IntRange(14, 24).Draw(t, "headings"), drawBetween(t, 0, 10*deg, "first")), usual)
	for i := range swing {
		off := drawBetween(t, -2*deg, 2*deg, "error")
		swing[i].Deviation = deviation.East(swing[i].Deviation.Angle() + off)
	}
	fit, err := deviation.NewFit(swing, deviation.FitOptions{
		By: kinds[rapid.IntRange(0, 1).Draw(t, "by")], Order: rapid.IntRange(1, deviation.MaxOrder).Draw(t, "order"), Common: drawUncertainty(t, "common"),
	})
	if err != nil {
		t.Fatal(err)
	}
	return fit
}

func TestACurveReadsBackFromItsJSONToTheSameAnswers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		fit := jsnCurve(t)
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
			z := drawHeading(t, "heading")
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
		var read deviation.Fit
		if err != nil || json.Unmarshal(data, &read) != nil {
			t.Fatalf("%s, %v", data, err)
		}
		if again, err := json.Marshal(read); err != nil || string(again) != string(data) {
			t.Fatalf("%s\n%s, %v", data, again, err)
		}
		if _, known := read.StandardErrors(); known || !reflect.DeepEqual(read.Residuals, fit.Residuals) || read.Coefficients() != fit.Coefficients() {
			t.Fatalf("%s", data)
		}
	})
}

func TestACurveAsJSON(t *testing.T) {
	k := deviation.Coefficients{A: deg, B: -4 * deg, C: 3 * deg, D: 2 * deg, E: deg / 2}
	curve := angle.Must(k.Curve(deviation.ByMagnetic))
	if text := roundTrips(t, curve); text != `{"by":"magnetic","coefficientsArcseconds":[3600,-14400,10800,7200,1800]}` {
		t.Errorf("%s", text)
	}
	var headings []angle.Angle
	for h := 90 * deg; h <= 350*deg; h += 10 * deg {
		headings = append(headings, h)
	}
	stated := angle.Must(deviation.NewFit(madeSwing(headings, usual), deviation.FitOptions{Order: 1, Common: Sigma(deg)})).Curve
	if text := roundTrips(t, stated); !strings.Contains(text, `"varianceSquareArcseconds":[`) || !strings.HasSuffix(text, `"unobserved":[{"from":"350°00′","to":"90°00′"}]}`) {
		t.Errorf("%s", text)
	}
	if text := roundTrips(t, deviation.Curve{}) + roundTrips(t, (*deviation.Curve)(nil)); text != "nullnull" {
		t.Errorf("%s", text)
	}
	for text, says := range map[string]string{
		`{"coefficientsArcseconds":[1]}`: "nothing says by which heading it is kept",
		`{}`:                             "0 figures of its coefficients: want an odd number up to 21",
		`{"by":"compass","coefficientsArcseconds":[1,2]}`:                                "2 figures of its coefficients",
		`{"by":"compass","coefficientsArcseconds":[324001]}`:                             "at most 90°",
		`{"by":"compass","coefficientsArcseconds":[1e99999999999999999999]}`:             "coefficients of 1e99999999999999999999″",
		`{"by":"compass","coefficientsArcseconds":[1,1e308,-1e308]}`:                     "coefficients of 1e308″",
		`{"by":"compass","coefficientsArcseconds":[1,1e290,-1e290]}`:                     "at most 90°",
		`{"by":"compass","coefficientsArcseconds":[1],"varianceSquareArcseconds":[1,2]}`: "2 figures of its variance: want an odd number up to 25",
		`{"by":"compass","coefficientsArcseconds":[1` + strings.Repeat(",0", 22) + `]}`:  "23 figures",
	} {
		var c deviation.Curve
		err := json.Unmarshal([]byte(text), &c)
		if e, ok := errors.AsType[*deviation.CurveError](err); !ok || !strings.Contains(e.Error(), says) {
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
		for h := angle.Angle(0); h < angle.Turn; h += 30 * deg {
			d, err := c.OnCompass(angle.CompassFrom(h))
			if e, err2 := back.OnCompass(angle.CompassFrom(h)); d != e || (err == nil) != (err2 == nil) {
				t.Fatalf("%s on %v: %v, %v", data, h, d, e)
			}
		}
	})
}

func TestDataReadBackFromTheirJSON(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		swing := madeSwing(madeEven(16, drawBetween(t, 0, 20*deg, "first")), usual)
		for i := range swing {
			swing[i].Deviation = swing[i].Deviation.WithUncertainty(drawUncertainty(t, "uncertainty"))
		}
		swing[rapid.IntRange(0, 15).Draw(t, "blunder")].Deviation = deviation.East(drawBetween(t, 20*deg, 40*deg, "off"))
		roundTrips(t, swing)
		roundTrips(t, deviation.Suspicions(swing))

		v := variation.East(drawBetween(t, -60*deg, 60*deg, "variation")).WithUncertainty(Sigma(12 * minute))
		compass := angle.CompassFrom(drawHeading(t, "compass"))
		reading := deviation.Reading{
			Heading: new(angle.CompassFrom(drawHeading(t, "heading"))), Bearing: &compass, Time: missNoon, True: new(angle.TrueFrom(drawHeading(t, "true"))),
			Shore: new(angle.MagneticFrom(drawHeading(t, "shore"))), Other: &compass, Deviation: &swing[0].Deviation, Uncertainty: drawUncertainty(t, "own"),
		}
		roundTrips(t, reading)
		roundTrips(t, deviation.Reading{})
		for _, m := range []deviation.Method{deviation.Transit{Direction: *reading.True, Variation: v}, deviation.TrueHeadings{Variation: v}} {
			roundTrips(t, angle.Must(deviation.Reduce([]deviation.Reading{reading}, m)))
		}
		one := against(t, deviation.CheckReading{Time: missNoon, Heading: reading.Heading, Bearing: new(compass), Uncertainty: Sigma(30 * minute), Variation: v}, "the beacons", *reading.True, Sigma(0))
		roundTrips(t, one)
		roundTrips(t, angle.Must(deviation.CombineChecks(one, one)))
		roundTrips(t, angle.Must(deviation.ReviewChecks(deviation.None(), []deviation.Check{one, one})))

		fit := jsnCurve(t)
		roundTrips(t, fit.Residuals)
		roundTrips(t, fit.Coefficients())
		roundTrips(t, deviation.Analyse(fit.Coefficients()))
		hand := angle.Must(deviation.Eight(fit.Curve))
		roundTrips(t, hand)
		roundTrips(t, hand.Analyse())
		roundTrips(t, deviation.CardinalHeadings{N: hand.N, E: hand.E, S: hand.S, W: hand.W})
		roundTrips(t, deviation.IntercardinalHeadings{NE: hand.NE, SE: hand.SE, SW: hand.SW, NW: hand.NW})
		exact := angle.Must(fit.Coefficients().Exact())
		roundTrips(t, exact)
		roundTrips(t, angle.Must(deviation.AllPermanent(exact, swxField{20_000, 60 * deg})))
		roundTrips(t, deviation.FlagStateLimit())
		roundTrips(t, angle.Must(deviation.NewCard(fit.Curve, 45*deg, deviation.Details{Vessel: "Quillon", Date: missNoon})))
		roundTrips(t, deviation.FitOptions{By: fit.Curve.By(), Order: 3, Robust: true, Common: drawUncertainty(t, "common")})
		roundTrips(t, deviation.Row[angle.Magnetic]{Heading: *reading.Shore, Deviation: *reading.Deviation})
		roundTrips(t, deviation.Entry{Heading: hand.N, Deviation: *reading.Deviation})
		roundTrips(t, deviation.Candidate{Order: 2, AICc: rapid.Float64Range(-1e3, 1e3).Draw(t, "aicc"), Weight: 1 / math.Pi})
	})
}

// A check as data, in the style of the module.
func TestACheckAsJSON(t *testing.T) {
	c := against(t, deviation.CheckReading{Time: missNoon, Heading: new(angle.MustParseCompass("090")), Bearing: new(angle.MustParseCompass("250")), Variation: variation.MustParse("5°W ±0°15′")}, "a transit", angle.MustParseTrue("062"), Sigma(0))
	c.Steps = nil
	const want = `{"time":"2026-05-03T18:00:00Z","heading":"090°C","against":"a transit","bearing":"250°C","compassError":"172°00′E","variation":"5°00′W ±0°15′","deviation":"177°00′E",` +
		`"warnings":[{"kind":"not-a-deviation","message":"177°00′E cannot be a deviation; perhaps the reciprocal was read, 180° off"}]}`
	if text := roundTrips(t, c); text != want {
		t.Errorf("%s\nwant %s", text, want)
	}
}
