package wmm_test

import (
	"sync"
	"testing"

	"lubberline.example/wmm"
)

// One model and one evaluator serve any number of goroutines.
func TestManyGoroutines(t *testing.T) {
	m, date := wmm.WMM2025(), onYear(2026.5)
	e := must(m.On(date))(t)
	places := somePlaces(64)
	fields := make([]wmm.Field, len(places))
	for i, p := range places {
		fields[i] = must(e.Field(p, 0))(t)
	}
	g := grid(-90, 90, -180, 360, 10, 10)
	alone := must(e.Isogonics(g, 0))(t)
	var group sync.WaitGroup
	for range 8 {
		group.Go(func() {
			for i, p := range places {
				f, err := e.Field(p, 0)
				h, _, err2 := e.FieldAndRates(p, 0)
				_, err3 := m.VariationAt(p, date)
				_, err4 := wmm.Models().ExplainVariation(p, date)
				own, err5 := m.On(date)
				if f != fields[i] || !nearField(h, f, 1e-9) || err != nil || err2 != nil || err3 != nil || err4 != nil || err5 != nil || own.Year() != e.Year() {
					t.Errorf("%v: %v, want %v", p, f, fields[i])
					return
				}
			}
			if err := e.Rows(g, func(wmm.Row) error { return nil }); err != nil {
				t.Error(err)
			}
			lines, err := e.Isogonics(g, 0)
			if err != nil || len(lines[0].Lines) != len(alone[0].Lines) {
				t.Errorf("%d lines, %v", len(lines[0].Lines), err)
			}
		})
	}
	group.Wait()
}

func TestEvaluatingAllocatesNothing(t *testing.T) {
	m, s, date, p := wmm.WMM2025(), wmm.Models(), onYear(2026.5), at(47, -19)
	e := must(m.On(date))(t)
	there := must(e.Field(p, 0))(t)
	for name, f := range map[string]func(){
		"Field":              func() { keptField, keptErr = e.Field(p, 0) },
		"FieldAndRates":      func() { keptField, keptRates, keptErr = e.FieldAndRates(p, 0) },
		"D":                  func() { keptAngle, keptErr = there.D() },
		"VariationAt":        func() { keptVariation, keptErr = m.VariationAt(p, date) },
		"VariationAt of all": func() { keptVariation, keptErr = s.VariationAt(p, date) },
	} {
		if n := testing.AllocsPerRun(100, f); n != 0 {
			t.Errorf("%s allocates %v times", name, n)
		}
	}
}
