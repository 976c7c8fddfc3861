package deviation_test

import (
	"encoding/json"
	"errors"
	"reflect"
	"testing"

	"lubberline.example/deviation/internal/devtest"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

// A table and a known deviation are sources; the first explains.
var (
	_ deviation.Explainer = (*deviation.Table)(nil)
	_ deviation.Source    = deviation.Deviation{}
)

func TestTableExplainsItself(t *testing.T) {
	rows := by45(2, 3.5, -1.5, -2.5, 0, -1, 1.5, 1.5)
	compass, magnetic := devtest.MustTable(t, rows), devtest.MustTable(t, devtest.AsMagnetic(rows))
	for _, c := range []struct {
		table       *deviation.Table
		heading     string
		value, want string
	}{
		{compass, "090°C", "1°30′W", "table, on 090°C"},
		{compass, "000°C", "2°00′E", "table, on 000°C"},
		{compass.Smooth(), "090°C", "1°30′W", "table, on 090°C"},
		{compass, "054°C", "2°30′E", "table, linearly between 3°30′E on 045°C and 1°30′W on 090°C"},
		{compass, "342°C", "1°48′E", "table, linearly between 1°30′E on 315°C and 2°00′E on 000°C"},
		{compass.Smooth(), "054°C", "2°51.9′E", "table, by a smooth curve between 3°30′E on 045°C and 1°30′W on 090°C"},
		// 90° magnetic is 91.5° by this compass.
		{magnetic, "091.5°C", "1°30′W", "table, on 090°M"},
		{magnetic, "090°C", "1°21′W", "table, linearly between 3°30′E on 045°M and 1°30′W on 090°M"},
	} {
		e, err := c.table.ExplainDeviation(angle.MustParseCompass(c.heading))
		if err != nil || len(e.Working) != 1 {
			t.Errorf("on %s: %+v, %v", c.heading, e, err)
			continue
		}
		s := e.Working[0]
		if s.Key != "deviation" || s.Value != c.value || s.How != c.want || s.Number != e.Deviation.Degrees() {
			t.Errorf("on %s: %+v, want %s: %s", c.heading, s, c.value, c.want)
		}
		if d, err := c.table.OnCompass(angle.MustParseCompass(c.heading)); err != nil || d != e.Deviation {
			t.Errorf("on %s: explained as %v, but %v, %v", c.heading, e.Deviation, d, err)
		}
		if same, err := deviation.Explain(c.table, angle.MustParseCompass(c.heading)); err != nil || !reflect.DeepEqual(same, e) {
			t.Errorf("on %s: %+v, %v; itself %+v", c.heading, same, err, e)
		}
	}
}

// fitted is a curve of another package's.
type fitted struct{ err error }

func (f fitted) OnCompass(angle.Compass) (deviation.Deviation, error) {
	return deviation.East(3 * devtest.Deg), f.err
}

func (f fitted) OnMagnetic(angle.Magnetic) (deviation.Deviation, error) {
	return deviation.East(3 * devtest.Deg), f.err
}

func TestSourceWithoutWorking(t *testing.T) {
	for _, source := range []deviation.Source{fitted{}, deviation.East(3 * devtest.Deg)} {
		e, err := deviation.Explain(source, angle.MustParseCompass("010°C"))
		if err != nil || e.Deviation != deviation.East(3*devtest.Deg) || len(e.Working) != 1 {
			t.Fatalf("%+v, %v", e, err)
		}
		if s := e.Working[0]; s.Key != "deviation" || s.Value != "3°00′E" || s.How != "as given" {
			t.Errorf("%+v", s)
		}
	}
	broken := errors.New("no curve")
	if e, err := deviation.Explain(fitted{broken}, angle.Compass{}); !errors.Is(err, broken) || e.Deviation != (deviation.Deviation{}) {
		t.Errorf("%+v, %v", e, err)
	}
}

func TestAnExplanationAsData(t *testing.T) {
	e, err := devtest.MustTable(t, by45(2, 3.5, -1.5, -2.5, 0, -1, 1.5, 1.5)).ExplainDeviation(angle.MustParseCompass("090°C"))
	if err != nil {
		t.Fatal(err)
	}
	data, err := json.Marshal(e)
	const want = `{"deviation":"1°30′W","working":[{"key":"deviation","what":"Deviation","value":"1°30′W","number":-1.5,"unit":"degrees, east positive","how":"table, on 090°C","reasons":[{"key":"table-row","arguments":["090°C"]}]}]}`
	if err != nil || string(data) != want {
		t.Errorf("%s, %v\nwant %s", data, err, want)
	}
}
