package variation_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/variation"
)

// field is a variation that is linear in latitude and longitude, in degrees.
type field struct{ here, perNorth, perEast float64 }

func (f field) at(north, east float64) float64 { return f.here + f.perNorth*north + f.perEast*east }

// layouts are where roses stand, in degrees north and east of a chart's middle.
var layouts = map[string][][2]float64{
	"three":                 {{0, 0}, {0, 1}, {1, 0.3}},
	"a rectangle":           {{0, 0}, {0, 1}, {1, 1}, {1, 0}},
	"a rectangle, crossed":  {{0, 0}, {1, 1}, {0, 1}, {1, 0}},
	"two by three":          {{0, 0}, {0, 1}, {0, 2}, {1, 0}, {1, 1}, {1, 2}},
	"three by three":        {{0, 0}, {0, 1}, {0, 2}, {1, 0}, {1, 1}, {1, 2}, {2, 0}, {2, 1}, {2, 2}},
	"one within four":       {{0, 0}, {0, 2}, {2, 2}, {2, 0}, {0.9, 1.2}},
	"in no order":           {{0.1, 0.2}, {1.9, 0.4}, {0.8, 1.7}, {1.1, 0.9}, {0.3, 1.1}, {1.7, 1.6}},
	"three in line, and up": {{0, 0}, {0, 1}, {0, 2}, {1.2, 0.7}},
}

// layOut makes a chart of a layout around a middle, each rose of a variation.
func layOut(t *rapid.T, layout [][2]float64, middle angle.Position, east func(i int) angle.Angle) *variation.Chart {
	var roses []variation.ChartRose
	for i, p := range layout {
		roses = append(roses, variation.ChartRose{Position: offset(middle, p[0], p[1]), Rose: rose(east(i))})
	}
	c, err := variation.NewChart("", roses...)
	if err != nil {
		t.Fatal(err)
	}
	c.Method = variation.Blended
	return c
}

// offset is the position some degrees north and east.
func offset(p angle.Position, north, east float64) angle.Position {
	return angle.Position{
		Latitude:  angle.Must(angle.LatitudeFrom(p.Latitude.Angle() + degrees(north))),
		Longitude: p.Longitude.Add(degrees(east)),
	}
}

func drawLayout(t *rapid.T) [][2]float64 {
	names := []string{"three", "a rectangle", "a rectangle, crossed", "two by three", "three by three", "one within four", "in no order", "three in line, and up"}
	return layouts[rapid.SampledFrom(names).Draw(t, "layout")]
}

func drawMiddle(t *rapid.T) angle.Position {
	middle := drawPosition(t, "the chart's middle")
	middle.Latitude = angle.Must(angle.LatitudeFrom(middle.Latitude.Angle() * 9 / 10)) // the roses within 83°
	return middle
}

// At a rose the answer is the rose's, to the last unit.
func TestBlendAtTheRoses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		layout := drawLayout(t)
		if n := rapid.IntRange(1, len(layout)).Draw(t, "roses"); rapid.Bool().Draw(t, "few") {
			layout = layout[:n]
		}
		c := layOut(t, layout, drawMiddle(t), func(int) angle.Angle { return drawAngle(t, 180*deg, "variation") })
		for _, r := range c.Roses() {
			own, err := r.Rose.VariationAt(r.Position, on2020)
			if err != nil {
				t.Fatal(err)
			}
			if r.Position == (angle.Position{}) {
				continue // where a chart knows the place, and a rose by itself does not
			}
			if v, err := c.VariationAt(r.Position, on2020); err != nil || v != own {
				t.Fatalf("at the rose at %v: %v, %v; want %v", r.Position, v, err, own)
			}
		}
	})
}

func TestBlendOfOneRose(t *testing.T) {
	c := mustChart(t, variation.ChartRose{Position: at(47, -19), Rose: rose(5 * deg)})
	c.Method = variation.Blended
	for _, here := range []angle.Position{at(47, -19), at(-47, 161), at(90, 0)} {
		if v, err := c.VariationAt(here, on2020); err != nil || v.Angle() != 5*deg {
			t.Errorf("at %v: %v, %v", here, v, err)
		}
	}
}

func TestBlendOfTwoRoses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		middle := drawMiddle(t)
		values := [2]angle.Angle{drawAngle(t, 180*deg, "a"), 0}
		step := drawAngle(t, 10*deg, "difference")
		values[1] = values[0] + step
		north, east := rapid.Float64Range(-2, 2).Draw(t, "north"), rapid.Float64Range(0.1, 2).Draw(t, "east")
		c := layOut(t, [][2]float64{{0, 0}, {north, east}}, middle, func(i int) angle.Angle { return values[i] })
		s := rapid.Float64Range(0, 1).Draw(t, "along")
		v, err := c.VariationAt(offset(middle, s*north, s*east), on2020)
		if err != nil {
			t.Fatal(err)
		}
		want := values[0] + angle.Must(step.Scale(s))
		// Half a unit of position in 0.1° moves 10° by 50 units; 100 with room.
		if off := (v.Angle() - want).NormalizedSigned(); off.Abs() > 100 {
			t.Fatalf("%v, want %v, off by %d units", v, variation.East(want), int64(off))
		}
	})
}

// To one side of the line of two roses their answer is that of its foot.
func TestBlendBesideTwoRoses(t *testing.T) {
	c := mustChart(t,
		variation.ChartRose{Name: "south", Position: at(47, -19), Rose: rose(0)},
		variation.ChartRose{Name: "north", Position: at(49, -19), Rose: rose(2 * deg)},
	)
	c.Method = variation.Blended
	scale := math.Cos(48 * math.Pi / 180)
	for _, k := range []struct {
		lat, off float64 // degrees of latitude
		want     angle.Angle
		outside  string
	}{
		{47, 1.9999, 0, ""},
		{47.25, 1.9999, 15 * minute, ""},
		{47.25, -1.9999, 15 * minute, ""},
		{47.25, 2.0001, 0, "too far to one side of the two roses"},
		{47.25, -2.0001, 0, "too far to one side of the two roses"},
		{46.9999, 0, 0, "beyond the two roses"},
		{49.0001, 0, 0, "beyond the two roses"},
		{49.0001, 0.5, 0, "beyond the two roses"},
	} {
		v, err := c.VariationAt(at(k.lat, -19+k.off/scale), on2020)
		if k.outside != "" {
			if e, ok := errors.AsType[*variation.Error](err); !ok || e.Kind != variation.OutsideRoses || !strings.Contains(e.Reason, ": "+k.outside+";") {
				t.Errorf("%+v: %v, %v", k, v, err)
			}
			continue
		}
		if err != nil || (v.Angle()-k.want).Abs() > 100 { // units; the foot is good to some
			t.Errorf("%+v: %v, %v", k, v, err)
		}
	}
}

// A linear field is reproduced exactly, with any triangles.
func TestBlendOfLinearField(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		layout, middle := drawLayout(t), drawMiddle(t)
		f := field{
			rapid.Float64Range(-180, 180).Draw(t, "variation"),
			rapid.Float64Range(-3, 3).Draw(t, "per degree north"),
			rapid.Float64Range(-3, 3).Draw(t, "per degree east"),
		}
		c := layOut(t, layout, middle, func(i int) angle.Angle { return degrees(f.at(layout[i][0], layout[i][1])) })
		// A place among any of the roses is among some three.
		var north, east, whole float64
		for i := range layout {
			w := rapid.Float64Range(0.01, 1).Draw(t, "weight")
			north, east, whole = north+w*layout[i][0], east+w*layout[i][1], whole+w
		}
		north, east = north/whole, east/whole
		v, err := c.VariationAt(offset(middle, north, east), on2020)
		if err != nil {
			t.Fatal(err)
		}
		off := (v.Angle() - degrees(f.at(north, east))).NormalizedSigned()
		// The position rounds by half a unit, times 6; each rose by half a unit.
		if off.Abs() > 10 {
			t.Fatalf("%v, want %v°, off by %d units", v, f.at(north, east), int64(off))
		}
	})
}

// Rounding does not push a place off the outer edge of the triangles.
func TestBlendOnOuterEdge(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		layout, middle := layouts["three by three"], drawMiddle(t)
		c := layOut(t, layout, middle, func(i int) angle.Angle { return angle.Angle(i) * deg })
		s := rapid.Float64Range(0, 2).Draw(t, "along")
		for _, k := range [][3]float64{{0, s, s}, {2, s, 6 + s}, {s, 0, 3 * s}, {s, 2, 2 + 3*s}} {
			v, err := c.VariationAt(offset(middle, k[0], k[1]), on2020)
			if err != nil || !near(v.Degrees(), k[2], 1e-11) {
				t.Fatalf("%v north, %v east: %v, %v; want %v°", k[0], k[1], v, err, k[2])
			}
		}
		// A slanting edge is met to half a unit of position only.
		slant := layouts["three"]
		c = layOut(t, slant, middle, func(i int) angle.Angle { return angle.Angle(i) * deg })
		for i, a := range slant {
			b := slant[(i+1)%3]
			s := rapid.Float64Range(0, 1).Draw(t, "along the slant")
			if _, err := c.VariationAt(offset(middle, a[0]+s*(b[0]-a[0]), a[1]+s*(b[1]-a[1])), on2020); err != nil {
				t.Fatalf("%v of the way from %v to %v: %v", s, a, b, err)
			}
		}
	})
}

// On a line across all triangles the answer does not jump, at their edges
// neither.
func TestBlendIsContinuous(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		layout, middle := drawLayout(t), drawMiddle(t)
		c := layOut(t, layout, middle, func(int) angle.Angle { return drawAngle(t, 5*deg, "variation") + 177*deg })
		n0, e0 := rapid.Float64Range(-0.5, 2.5).Draw(t, "north"), rapid.Float64Range(-0.5, 2.5).Draw(t, "east")
		n1, e1 := rapid.Float64Range(-0.5, 2.5).Draw(t, "to north"), rapid.Float64Range(-0.5, 2.5).Draw(t, "to east")
		const steps = 500
		var last angle.Angle
		had := false
		for i := range steps + 1 {
			s := float64(i) / steps
			v, err := c.VariationAt(offset(middle, n0+s*(n1-n0), e0+s*(e1-e0)), on2020)
			if err != nil {
				had = false
				continue
			}
			// The variations differ by up to 10° over triangles at least 0.3° high:
			// 34° a degree, and a step is under 0.01°.
			if had && (v.Angle()-last).NormalizedSigned().Abs() > 34*deg/100 {
				t.Fatalf("a jump from %v to %v at %.4f", variation.East(last), v, s)
			}
			last, had = v.Angle(), true
		}
	})
}

// In a rectangle of roses the triangles are those that come first as listed.
func TestTrianglesOfARectangle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := layOut(t, layouts["a rectangle"], at(47, -19), func(i int) angle.Angle {
			return [4]angle.Angle{0, 0, 0, 4 * deg}[i]
		})
		// The diagonal joins the first and the third; the fourth counts above it.
		north, east := rapid.Float64Range(0, 1).Draw(t, "north"), rapid.Float64Range(0, 1).Draw(t, "east")
		v, err := c.VariationAt(offset(at(47, -19), north, east), on2020)
		want := 4 * max(0, north-east)
		if err != nil || !near(v.Degrees(), want, 1e-9) {
			t.Fatalf("%v, %v; want %v°", v, err, want)
		}
	})
}

func TestBlendAcrossDateLine(t *testing.T) {
	c := mustChart(t,
		variation.ChartRose{Position: at(60, 179), Rose: rose(179 * deg)},
		variation.ChartRose{Position: at(60, -179), Rose: rose(-179 * deg)},
		variation.ChartRose{Position: at(62, 180), Rose: rose(-179 * deg)},
	)
	c.Method = variation.Blended
	for _, k := range []struct {
		lat, lon float64
		want     angle.Angle
	}{
		{60, 180, 180 * deg},
		{60, 179.5, 179*deg + 30*minute},
		{60, -179.5, -(179*deg + 30*minute)},
		{61, 180, -(179*deg + 30*minute)},
		{62, 180, -179 * deg},
	} {
		v, err := c.VariationAt(at(k.lat, k.lon), on2020)
		if err != nil || (v.Angle()-k.want).NormalizedSigned().Abs() > 10 { // units
			t.Errorf("at %v %v: %v, %v; want %v", k.lat, k.lon, v, err, variation.East(k.want))
		}
	}
}

// mustBlend makes a blended chart of roses at offsets from 0° N 0° E.
func mustBlend(t *rapid.T, layout [][2]float64) *variation.Chart {
	return layOut(t, layout, at(0, 0), func(int) angle.Angle { return deg })
}
