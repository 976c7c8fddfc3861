package fix_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"lubberline.example/fix"
	"lubberline.example/fix/internal/fixtest"
)

const hzFoot = 0.3048 // metres

// hzRadius is the radius of a sphere with the volume of the earth.
const hzRadius = 6371008.8

// hzHorizon returns the distance of the horizon. If there is none, the test fails.
func hzHorizon(t interface{ Fatal(...any) }, height float64, k fix.Refraction) sailing.Distance {
	d, err := fix.Horizon(sailing.Distance(height), k)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// hzRefused checks that an error is an *angle.RangeError that says what is accepted.
func hzRefused(t *testing.T, name string, err error) {
	t.Helper()
	var refused *angle.RangeError
	if !errors.As(err, &refused) || !strings.Contains(err.Error(), refused.Accepted) || refused.Accepted == "" {
		t.Errorf("%s: %v, want a HeightError", name, err)
	}
}

// The American Practical Navigator (Bowditch), Pub. No. 9, editions 1995 to 2024, table
// of distance of the horizon: from memory, three of the cells confirmed by a quotation
// elsewhere; all believed because the rule 1.17 times the root of the feet gives them.
func TestHorizonTable(t *testing.T) {
	for _, cell := range [][2]float64{{1, 1.2}, {5, 2.6}, {15, 4.5}, {20, 5.2}, {40, 7.4}, {50, 8.3}, {80, 10.5}, {100, 11.7}, {300, 20.3}, {500, 26.2}, {1000, 37.0}} {
		d := hzHorizon(t, cell[0]*hzFoot, fix.HorizonTable).NauticalMiles()
		if !fixtest.Near(d, cell[1], 0.051) { // half a unit of the last printed figure
			t.Errorf("%v ft: %.3f M, want %v", cell[0], d, cell[1])
		}
	}
}

func TestHorizonRule(t *testing.T) {
	for feet := 1.0; feet <= 1000; feet++ {
		d := hzHorizon(t, feet*hzFoot, fix.HorizonTable).NauticalMiles()
		if rule := 1.17 * math.Sqrt(feet); !fixtest.Near(d, rule, 0.05) { // the table's rounding
			t.Errorf("%v ft: %.3f M, by the rule %.3f", feet, d, rule)
		}
		if rule := 2.12 * math.Sqrt(feet*hzFoot); !fixtest.Near(d, rule, 0.003*rule) { // the constant's rounding, 2.12
			t.Errorf("%v ft: %.3f M, by the metric rule %.3f", feet, d, rule)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		h, k := rapid.Float64Range(0.5, 304.8).Draw(t, "height"), rapid.Float64Range(-0.5, 0.8).Draw(t, "k")
		want := math.Sqrt(2 * hzRadius / (1 - k) * h)
		if d := float64(hzHorizon(t, h, fix.Refraction(k))); !fixtest.Near(d, want, 1e-4*want) { // the root leaves out h/R
			t.Fatalf("%v m, k %v: %v, want %v", h, k, d, want)
		}
	})
}

// The rules of other books (from memory): 2.08 miles times √metres, and 1.15 miles times √feet.
func TestHorizonOfOtherTables(t *testing.T) {
	for _, c := range []float64{2.08, 1.15 / math.Sqrt(hzFoot), 2.03, 1.9274} {
		k := fix.Refraction(1 - math.Pow(1.9274/c, 2))
		for _, height := range []float64{2, 10, 50} {
			if d, want := hzHorizon(t, height, k).NauticalMiles(), c*math.Sqrt(height); math.Abs(d-want) > 2e-4*want {
				t.Errorf("%v m by %.3f √metres: %.4f M, want %.4f M", height, c, d, want)
			}
		}
	}
	if d := hzHorizon(t, 16, 0.1413).NauticalMiles(); math.Abs(d-8.32) > 0.005 {
		t.Errorf("16 m: %.3f M, want 8.32 M", d)
	}
}

func TestRefractionExtendsHorizon(t *testing.T) {
	without := hzHorizon(t, 25, 0)
	for _, k := range []fix.Refraction{-0.2, 0.1, 0.13, fix.HorizonTable, 0.3} {
		want := 1 / math.Sqrt(1-float64(k))
		if got := float64(hzHorizon(t, 25, k) / without); !fixtest.Near(got, want, 1e-5) { // what h/R makes of it
			t.Errorf("k %v: %v times as far, want %v", k, got, want)
		}
	}
	if d := hzHorizon(t, 0, fix.HorizonTable); d != 0 {
		t.Errorf("from the water %v", d)
	}
}

// The rule of the same work's table, 0.97 minutes times the root of the feet: from
// memory.
func TestDipRule(t *testing.T) {
	for feet := 1.0; feet <= 1000; feet += 3 {
		d, err := fix.Dip(sailing.Distance(feet*hzFoot), fix.HorizonTable)
		if want := 0.97 * math.Sqrt(feet); err != nil || !fixtest.Near(d.Minutes(), want, 0.01*want) { // the rule has two figures
			t.Errorf("%v ft: %v (%v), want %.2f′", feet, d, err, want)
		}
	}
}

func TestGeographicRangeIsSumOfHorizons(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		eye, light := rapid.Float64Range(0, 100).Draw(t, "eye"), rapid.Float64Range(0, 300).Draw(t, "light")
		d, err := fix.GeographicRange(sailing.Distance(light), sailing.Distance(eye), fix.HorizonTable)
		if want := hzHorizon(t, eye, fix.HorizonTable) + hzHorizon(t, light, fix.HorizonTable); err != nil || d != want {
			t.Fatalf("%v, want %v", d, want)
		}
		if other, _ := fix.GeographicRange(sailing.Distance(eye), sailing.Distance(light), fix.HorizonTable); other != d {
			t.Fatalf("the other way %v, want %v", other, d)
		}
	})
}

func TestDippingLightIsRange(t *testing.T) {
	d, err := fix.GeographicRange(62, 4, fix.HorizonTable)
	if err != nil {
		t.Fatal(err)
	}
	l, err := fix.DippingLight(plOrlesk, 62, 4, fix.HorizonTable, 2*plMile)
	if err != nil {
		t.Fatal(err)
	}
	if step := l.Working()[0]; l.Kind() != fix.KindRange || step.Number != d.NauticalMiles() || step.How != "of Orlesk Head light, dipping: the horizons of 62.0 and 4.0 metres" {
		t.Errorf("%v %+v, want %v", l.Kind(), step, d)
	}
	_, err = fix.DippingLight(plOrlesk, 62, -4, fix.HorizonTable, 0)
	hzRefused(t, "eye below the water", err)
	var line *fix.Error
	if _, err = fix.DippingLight(plOrlesk, 62, 4, fix.HorizonTable, -1); !errors.As(err, &line) {
		t.Errorf("an uncertainty below zero: %v", err)
	}
}

func TestInvalidHeightsAreRefused(t *testing.T) {
	for _, bad := range []sailing.Distance{sailing.Distance(math.NaN()), sailing.Distance(math.Inf(1)), sailing.Distance(math.Inf(-1)), -0.1, 10_001} {
		_, err := fix.Horizon(bad, fix.HorizonTable)
		hzRefused(t, "horizon", err)
		_, err = fix.Dip(bad, fix.HorizonTable)
		hzRefused(t, "dip", err)
		_, err = fix.GeographicRange(bad, 20, fix.HorizonTable)
		hzRefused(t, "range of the light", err)
		_, err = fix.GeographicRange(20, bad, fix.HorizonTable)
		hzRefused(t, "range from an eye", err)
		_, err = fix.DistanceByVerticalAngle(bad, angle.Degree, 3)
		hzRefused(t, "object", err)
		_, err = fix.DistanceByVerticalAngle(50, angle.Degree, bad)
		hzRefused(t, "eye", err)
		_, err = fix.DistanceByVerticalAngleBeyond(bad, angle.Degree/10, 3, fix.HorizonTable)
		hzRefused(t, "object beyond", err)
		_, err = fix.DistanceByVerticalAngleBeyond(50, angle.Degree/10, bad, fix.HorizonTable)
		hzRefused(t, "eye, object beyond", err)
	}
	for _, bad := range []fix.Refraction{-1, 0.9, fix.Refraction(math.NaN()), fix.Refraction(math.Inf(1))} {
		_, err := fix.Horizon(5, bad)
		hzRefused(t, "k", err)
		_, err = fix.DistanceByVerticalAngleBeyond(50, angle.Degree/10, 3, bad)
		hzRefused(t, "k beyond", err)
	}
}
