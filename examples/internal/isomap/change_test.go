package isomap

import (
	"math"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/wmm"
)

// Each place of a line has the line's annual change, by the model itself. The lines are straight
// between the sides of small cells, which the second difference of the change bounds.
func TestPlacesOfLinesHaveTheirChange(t *testing.T) {
	e := angle.Must(wmm.Models().On(time.Date(2026, 7, 2, 0, 0, 0, 0, time.UTC)))
	for name, test := range map[string]struct {
		south, north, west, east string
		within                   float64 // minutes a year
	}{
		"the scenario's ocean": {"38N", "56N", "40W", "0E", 0.005},
		"date line":            {"30S", "30N", "150E", "150W", 0.005},
		"the north":            {"70N", "85N", "60W", "60E", 0.02},
		"the whole earth":      {"90S", "90N", "180W", "180E", 5}, // near the dip poles, over cells of 5°: measured 3.1′
	} {
		a := Area{
			South: angle.Must(angle.ParseLatitude(test.south)), North: angle.Must(angle.ParseLatitude(test.north)),
			West: angle.Must(angle.ParseLongitude(test.west)), East: angle.Must(angle.ParseLongitude(test.east)),
		}
		s, err := a.look(e)
		if err != nil {
			t.Fatal(err)
		}
		all, err := a.changeLines(e, s)
		if err != nil || len(all) == 0 {
			t.Fatalf("%s: %d lines, %v", name, len(all), err)
		}
		worst := 0.0
		for _, c := range all {
			for _, line := range c.lines {
				for _, p := range line {
					f, rates, err := e.FieldAndRates(p, 0)
					if err != nil {
						t.Fatal(err)
					}
					if math.Abs(c.change) <= 20 { // beyond, the change differs much within a cell
						worst = max(worst, math.Abs(60*rates.D(f)-c.change))
					}
				}
			}
		}
		t.Logf("%s: worst %.3f′", name, worst)
		if worst > test.within {
			t.Errorf("%s: off by %.3f′, want within %v", name, worst, test.within)
		}
	}
}
