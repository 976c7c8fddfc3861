package variation_test

import (
	"encoding/json"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/variation"
)

func TestZeroChangeIsUnstated(t *testing.T) {
	var c variation.AnnualChange
	if perYear, stated := c.PerYear(); perYear != 0 || stated {
		t.Errorf("the zero value is %v, %v", perYear, stated)
	}
	if perYear, stated := variation.NoChange().PerYear(); perYear != 0 || !stated {
		t.Errorf("no change is %v, %v", perYear, stated)
	}
	if c.Equal(variation.NoChange()) {
		t.Error("not stated equals no change")
	}
}

func TestEastwardChangeIsPositive(t *testing.T) {
	if perYear, stated := variation.Eastward(8 * angle.Minute).PerYear(); perYear != 8*angle.Minute || !stated {
		t.Errorf("8′ E is %v, %v", perYear, stated)
	}
	if perYear, _ := variation.Westward(8 * angle.Minute).PerYear(); perYear != -8*angle.Minute {
		t.Errorf("8′ W is %v", perYear)
	}
	if !variation.Westward(-8 * angle.Minute).Equal(variation.Eastward(8 * angle.Minute)) {
		t.Error("minus west is not east")
	}
	if variation.Eastward(0) != variation.NoChange() {
		t.Error("a change of zero is not NoChange")
	}
}

func TestChangeKeepsItsUncertainty(t *testing.T) {
	c := variation.Westward(8 * angle.Minute)
	if _, stated := c.Uncertainty().Sigma(); stated {
		t.Error("an uncertainty that nobody gave")
	}
	u := c.WithUncertainty(sigma(angle.Minute))
	if s, stated := u.Uncertainty().Sigma(); s != angle.Minute || !stated {
		t.Errorf("uncertainty %v, %v", s, stated)
	}
	if c.Equal(u) {
		t.Error("a change equals one that is known otherwise")
	}
}

func TestChangePrintsAsChartsDo(t *testing.T) {
	for _, c := range []struct {
		change variation.AnnualChange
		want   string
		exact  string
	}{
		{variation.Eastward(8 * angle.Minute), "8′E", "0°08′E"},
		{variation.Westward(8*angle.Minute + 30*angle.Second), "8.5′W", "0°08.5′W"},
		{variation.Eastward(30 * angle.Second), "0.5′E", "0°00.5′E"},
		{variation.Eastward(8*angle.Minute + angle.Second), "8′E", "0°08′01″E"}, // to a tenth
		{variation.Westward(angle.Degree + 2*angle.Minute), "1°02′W", "1°02′W"},
		{variation.Eastward(59*angle.Minute + 58*angle.Second), "1°00′E", "0°59′58″E"},
		{variation.NoChange(), "no annual change", "no annual change"},
		{variation.AnnualChange{}, "not stated", ""},
		{variation.Eastward(8 * angle.Minute).WithUncertainty(sigma(angle.Minute)), "8′E", "0°08′E ±0°01′"},
		{variation.NoChange().WithUncertainty(sigma(angle.Minute)), "no annual change", "0°00′E ±0°01′"},
	} {
		if got := c.change.String(); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
		text, err := c.change.MarshalText()
		if err != nil || string(text) != c.exact {
			t.Errorf("%q, %v; want %q", text, err, c.exact)
		}
		if appended, err := c.change.AppendText([]byte("change ")); err != nil || string(appended) != "change "+c.exact {
			t.Errorf("appended: %q, %v", appended, err)
		}
		back := variation.Westward(99 * angle.Minute)
		if err := back.UnmarshalText(text); err != nil || back != c.change {
			t.Errorf("%q reads back as %v, %v", text, back, err)
		}
	}
}

func TestChangeIsNotOverwrittenByAnError(t *testing.T) {
	c := variation.Eastward(8 * angle.Minute)
	for _, text := range []string{"x", "8′", "61′E", "no change", "NaN"} {
		if err := c.UnmarshalText([]byte(text)); err == nil {
			t.Errorf("%q was read as %v", text, c)
		}
		if c != variation.Eastward(8*angle.Minute) {
			t.Fatalf("%q left %v", text, c)
		}
	}
}

// drawRose draws any rose at all, not only those that charts print.
func drawRose(t *rapid.T) variation.Rose {
	r := variation.Rose{
		Variation:  variation.East(drawAngle(t, angle.Turn, "variation")),
		Year:       rapid.IntRange(1500, 2500).Draw(t, "year"),
		Step:       drawAngle(t, angle.Degree, "step").Abs(),
		ChangeStep: drawAngle(t, angle.Degree, "step of the change").Abs(),
	}
	if rapid.Bool().Draw(t, "uncertainty stated") {
		r.Variation = r.Variation.WithUncertainty(sigma(drawAngle(t, angle.Degree, "uncertainty").Abs()))
	}
	if rapid.Bool().Draw(t, "change stated") {
		r.Change = variation.Eastward(drawAngle(t, angle.Turn/2, "change"))
		if rapid.Bool().Draw(t, "uncertainty of the change stated") {
			r.Change = r.Change.WithUncertainty(sigma(drawAngle(t, angle.Degree, "uncertainty of the change").Abs()))
		}
	}
	return r
}

func TestARoseGoesThroughJSONUnchanged(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRose(t)
		data, err := json.Marshal(r)
		if err != nil {
			t.Fatal(err)
		}
		back := variation.MustParseLegend("99°W 1999 (9′W)")
		if err := json.Unmarshal(data, &back); err != nil || back != r {
			t.Fatalf("%s reads back as %+v, %v", data, back, err)
		}
	})
}

func TestARoseInJSONIsReadable(t *testing.T) {
	data, err := json.Marshal(variation.MustParseLegend("3°50′W 2014 (9′E)"))
	if err != nil {
		t.Fatal(err)
	}
	const want = `{"variation":"3°50′W","year":2014,"change":"0°09′E","step":"0°01′","changeStep":"0°01′"}`
	if string(data) != want {
		t.Errorf("%s\nwant\n%s", data, want)
	}
}
