package deviation_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"lubberline.example/deviation/internal/devtest"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

// crdQuillon is the table of testdata/quillon.csv.
func crdQuillon(t devtest.Fails) *deviation.Table {
	t.Helper()
	file, err := os.ReadFile(filepath.Join("testdata", "quillon.csv"))
	if err != nil {
		t.Fatal(err)
	}
	table, err := deviation.ReadTable(bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	return table
}

// crdDetails are invented, as the vessel is.
var crdDetails = deviation.Details{
	Vessel: "Quillon (invented)", Compass: "steering compass", Place: "off Orlesk Head, 47°08.4′N 019°00.0′W",
	Date: time.Date(2026, 5, 3, 0, 0, 0, 0, time.UTC), Adjuster: "nobody: an invented card", Remarks: "engine running",
}

func TestACardHasItsRowsAtEqualSteps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		table := devtest.MustTable(t, devtest.DrawOrdered(t, 15*devtest.Deg, 20*devtest.Deg))
		step := rapid.SampledFrom([]angle.Angle{devtest.Deg, 10 * devtest.Deg, angle.Point, 15 * devtest.Deg, 45 * devtest.Deg}).Draw(t, "step")
		card, err := deviation.NewCard(table, step, crdDetails)
		if err != nil {
			t.Fatal(err)
		}
		n := int(angle.Turn / step)
		if card.Step != step || card.Details != crdDetails || len(card.ByCompass) != n || len(card.ByMagnetic) != n {
			t.Fatalf("%v, %d and %d rows", card.Step, len(card.ByCompass), len(card.ByMagnetic))
		}
		for i := range n {
			c, m := card.ByCompass[i], card.ByMagnetic[i]
			if at := step * angle.Angle(i); c.Compass.FromNorth() != at || m.Magnetic.FromNorth() != at {
				t.Fatalf("row %d: %v and %v", i, c, m)
			}
			for _, r := range []deviation.Entry{c, m} {
				if r.Deviation.Magnetic(r.Compass) != r.Magnetic {
					t.Fatalf("row %d: %v does not add up", i, r)
				}
			}
			if d, err := table.OnCompass(c.Compass); err != nil || d != c.Deviation {
				t.Fatalf("by compass %v: %v, %v", c, d, err)
			}
			// The row by magnetic heading is of the same compass.
			d, err := table.OnCompass(m.Compass)
			if off := d.Angle() - m.Deviation.Angle(); err != nil || off.Abs() > angle.Second/1000 { // solved for to a few units of Angle
				t.Fatalf("by magnetic %v: %v, %v", m, d, err)
			}
		}
	})
}

func TestUnevenStepsAreRefused(t *testing.T) {
	for _, step := range []angle.Angle{7 * devtest.Deg, 0, 90 * devtest.Deg, -15 * devtest.Deg, devtest.Deg / 2, devtest.Deg - 1, 46 * devtest.Deg, 360 * devtest.Deg} {
		_, err := deviation.NewCard(deviation.East(devtest.Deg), step, deviation.Details{})
		if e, ok := errors.AsType[*angle.RangeError](err); !ok || e.Value != step.Degrees() || !strings.Contains(err.Error(), "give 1° to 45°") {
			t.Errorf("%v: %v", step, err)
		}
	}
}

func TestCardOfSourceWithoutAnswer(t *testing.T) {
	if _, err := deviation.NewCard(devtest.Torn{On: angle.MustParseCompass("045")}, 45*devtest.Deg, deviation.Details{}); !errors.Is(err, devtest.ErrTorn) {
		t.Errorf("%v", err)
	}
	// One that answers by compass alone: two compass headings have a magnetic one.
	rows := devtest.Every15(devtest.Usual)
	rows[6].Deviation = deviation.East(80 * devtest.Deg)
	_, err := deviation.NewCard(devtest.MustTable(t, rows), devtest.Deg, deviation.Details{})
	if _, ok := errors.AsType[*deviation.AmbiguousHeadingError](err); !ok {
		t.Errorf("%v", err)
	}
}

func TestACardGoesThroughJSONUnchanged(t *testing.T) {
	for _, details := range []deviation.Details{crdDetails, {}} {
		for _, source := range []deviation.Source{crdQuillon(t), crdQuillon(t).WithUncertainty(devtest.Sigma(devtest.Deg / 2)).Smooth()} {
			card, err := deviation.NewCard(source, angle.Point, details)
			if err != nil {
				t.Fatal(err)
			}
			text, err := json.Marshal(card)
			if err != nil {
				t.Fatal(err)
			}
			var again deviation.Card
			if err := json.Unmarshal(text, &again); err != nil {
				t.Fatal(err)
			}
			if !reflect.DeepEqual(*card, again) {
				t.Errorf("%+v became %+v", *card, again)
			}
			if strings.Contains(string(text), `"date"`) != !details.Date.IsZero() {
				t.Errorf("%s", text[:200])
			}
		}
	}
}
