package deviation_test

import (
	"errors"
	"os"
	"strings"
	"testing"

	"lubberline.example/deviation/internal/devtest"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/deviation"
)

// toCSV writes a table as a file that ReadTable reads, exactly.
func toCSV(t *testing.T, table *deviation.Table) string {
	var b strings.Builder
	b.WriteString(string(table.By()) + ",deviation\n")
	for _, e := range table.Entries() {
		heading, err := e.Compass.MarshalText()
		if table.By() == deviation.ByMagnetic {
			heading, err = e.Magnetic.MarshalText()
		}
		if err != nil {
			t.Fatal(err)
		}
		d, err := e.Deviation.MarshalText()
		if err != nil {
			t.Fatal(err)
		}
		b.WriteString(string(heading) + "," + string(d) + "\n")
	}
	return b.String()
}

func FuzzReadTable(f *testing.F) {
	for _, text := range sameTable {
		f.Add(text)
	}
	for _, file := range []string{"testdata/quillon.csv", "testdata/quillon.json"} {
		text, err := os.ReadFile(file)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(text))
	}
	f.Add("magnetic,deviation,uncertainty\n000,0,1\n045,55,1\n090,-55,1\n135,0,1\n180,0,1\n225,0,1\n270,0,1\n315,0,1\n360,0,1\n")
	f.Add(`{"smooth":true,"rows":[{"compass":0,"deviation":1},{"compass":45,"deviation":1},{"compass":90,"deviation":1},{"compass":135,"deviation":1},{"compass":180,"deviation":1},{"compass":225,"deviation":1},{"compass":270,"deviation":1},{"compass":315,"deviation":1}]}`)
	f.Add("compass,magnetic,deviation\n000,,2\n,045,2\n")
	f.Fuzz(func(t *testing.T, text string) {
		table, err := deviation.ReadTable(strings.NewReader(text))
		if err != nil {
			e, ok := errors.AsType[*record.Error](err)
			if !ok || e.Line < 0 || e.Line > 1+strings.Count(text, "\n")+strings.Count(text, "\r") || e.Err == nil {
				t.Fatalf("%#v", err)
			}
			if k, ok := errors.AsType[*deviation.Error](err); ok && (k.Row < 0 || k.Kind == "" || k.Kind == deviation.NoRows) {
				t.Fatalf("%#v", k)
			}
			return
		}
		again, err := deviation.ReadTable(strings.NewReader(toCSV(t, table)))
		if err != nil || again.By() != table.By() || len(again.Entries()) != len(table.Entries()) {
			t.Fatalf("%v, read again", err)
		}
		for i, e := range table.Entries() {
			if again.Entries()[i] != e {
				t.Fatalf("%v became %v", e, again.Entries()[i])
			}
			own, err := table.OnCompass(e.Compass)
			if table.By() == deviation.ByMagnetic {
				own, err = table.OnMagnetic(e.Magnetic)
			}
			if err != nil || own != e.Deviation {
				t.Fatalf("on its row %v: %v, %v", e, own, err)
			}
		}
		if len(table.Entries()) > 100 {
			return
		}
		for _, table := range []*deviation.Table{table, table.Smooth()} {
			for h := angle.Angle(0); h < angle.Turn; h += 23 * devtest.Deg {
				_, err1 := table.OnCompass(angle.CompassFrom(h))
				_, err2 := table.OnMagnetic(angle.MagneticFrom(h))
				for _, err := range []error{err1, err2} {
					if e, swings := errors.AsType[*deviation.Error](err); swings && table.IsSmooth() && e.Kind == deviation.DeviationTooLarge {
						continue
					}
					if isAmbiguous(t, err) && table.Ordered() {
						t.Fatalf("ordered, and %v", err)
					}
				}
			}
		}
	})
}
