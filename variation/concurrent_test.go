package variation_test

import (
	"fmt"
	"sync"
	"testing"

	"lubberline.example/variation"
)

// A chart that is left alone is safe for use by several goroutines.
func TestManyGoroutinesOnOneChart(t *testing.T) {
	var roses []variation.ChartRose
	for i := range 6 {
		roses = append(roses, variation.ChartRose{Position: at(47+float64(i/3), -19+float64(i%3)), Rose: rose(deg * 3)})
	}
	for _, method := range []variation.Method{variation.Nearest, variation.Blended} {
		c := mustChart(t, roses...)
		c.Method = method
		errs := make(chan error, 32)
		var group sync.WaitGroup
		for g := range cap(errs) {
			group.Go(func() {
				for i := range 200 {
					here := at(47+float64(i%100)/101, -19+2*float64((i+g)%100)/101)
					v, err := c.VariationAt(here, on2020)
					e, err2 := c.ExplainVariation(here, on2020)
					if err != nil || err2 != nil || v != e.Variation || v.Angle() != 3*deg {
						errs <- fmt.Errorf("at %v: %v, %v, %v", here, v, err, err2)
						return
					}
					c.Roses()[0].Name = "no one else's"
				}
			})
		}
		group.Wait()
		close(errs)
		for err := range errs {
			t.Error(err)
		}
	}
}

func TestLookingUpAllocatesNothing(t *testing.T) {
	r := variation.MustParseLegend("3°50′W 2014 (9′E)")
	var roses []variation.ChartRose
	for i := range 6 {
		roses = append(roses, variation.ChartRose{Position: at(47+float64(i/3), -19+float64(i%3)), Rose: r})
	}
	c := mustChart(t, roses...)
	here, date := at(47.4, -18.2), noon(2026, 7, 2)
	for name, f := range map[string]func() error{
		"Rose.VariationAt":  func() error { _, err := r.VariationAt(here, date); return err },
		"Rose.InYear":       func() error { _, err := r.InYear(2026); return err },
		"Rose.On":           func() error { _, err := r.On(date, variation.DecimalYears); return err },
		"Chart.VariationAt": func() error { _, err := c.VariationAt(here, date); return err },
	} {
		if n := testing.AllocsPerRun(100, func() {
			if err := f(); err != nil {
				t.Fatal(err)
			}
		}); n != 0 {
			t.Errorf("%s: %v allocations", name, n)
		}
	}
}
