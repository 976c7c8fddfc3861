package variation_test

import (
	"errors"
	"fmt"
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
func TestABlendIsExactAtTheRoses(t *testing.T) {
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

func TestOneRoseAnswersAlone(t *testing.T) {
	c := mustChart(t, variation.ChartRose{Position: at(47, -19), Rose: rose(5 * deg)})
	c.Method = variation.Blended
	for _, here := range []angle.Position{at(47, -19), at(-47, 161), at(90, 0)} {
		if v, err := c.VariationAt(here, on2020); err != nil || v.Angle() != 5*deg {
			t.Errorf("at %v: %v, %v", here, v, err)
		}
	}
}

func TestBetweenTwoRosesABlendIsLinear(t *testing.T) {
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
func TestBesideTwoRosesTheFootDecides(t *testing.T) {
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

// A field that is linear comes out as it is, whatever the triangles.
func TestABlendReproducesALinearField(t *testing.T) {
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
func TestOnTheOuterEdgeABlendAnswers(t *testing.T) {
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
func TestABlendDoesNotJump(t *testing.T) {
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
func TestInARectangleTheFirstTrianglesStay(t *testing.T) {
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

func TestABlendAcrossTheMeridianOf180(t *testing.T) {
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

func TestOutsideTheRosesABlendIsRefused(t *testing.T) {
	three := [][2]float64{{47, -19}, {47, -18}, {48, -19}}
	for _, c := range []struct {
		name   string
		roses  [][2]float64
		lat    float64
		lon    float64
		reason string
		rose   int
	}{
		{"just outside", three, 46.9999, -18.5, "outside the triangles of the roses", 0},
		{"beyond the long side", three, 47.6, -18.5, "outside the triangles of the roses", 2},
		{"on the other side of the earth", three, -47, 161, "outside the triangles of the roses", 2},
		{"beyond the end of a line", [][2]float64{{47, -19}, {48, -19}, {49, -19}}, 46.9, -19, "beyond the ends of the line of the roses", 0},
		{"beside a line", [][2]float64{{47, -19}, {48, -19}, {49, -19}}, 47.4, -17, "too far to one side of the line", 0},
		{"beyond 85° N", [][2]float64{{85.1, -19}, {84, -18}, {84, -20}}, 84.5, -19, "beyond 85° of latitude", 1},
		{"beyond 85° S", [][2]float64{{-84, -18}, {-85.1, -19}, {-84, -20}}, -84.5, -19, "beyond 85° of latitude", 0},
		{"more than 90° apart", [][2]float64{{47, 100}, {47, -169}, {48, 140}}, 47.1, 140, "more than 90° of longitude", 2},
		{"two beyond 85°", [][2]float64{{86, -18}, {84, -19}}, 85, -18.5, "beyond 85° of latitude", 0},
	} {
		var roses []variation.ChartRose
		for _, p := range c.roses {
			roses = append(roses, variation.ChartRose{Position: at(p[0], p[1]), Rose: rose(deg)})
		}
		chart := mustChart(t, roses...)
		chart.Method = variation.Blended
		here := at(c.lat, c.lon)
		v, err := chart.VariationAt(here, on2020)
		e, ok := errors.AsType[*variation.Error](err)
		if !ok || e.Kind != variation.OutsideRoses || v != (variation.Variation{}) {
			t.Errorf("%s: %v, %v", c.name, v, err)
			continue
		}
		if !strings.HasPrefix(e.Reason, here.String()+": ") || !strings.Contains(e.Reason, c.reason) {
			t.Errorf("%s: %q at %v", c.name, e.Reason, here)
		}
		nearest := chart.Roses()[c.rose].Position
		if want := fmt.Sprintf("the nearest rose is at %v, %.1f M away", nearest, here.ArcTo(nearest).Minutes()); !strings.HasSuffix(e.Reason, want) {
			t.Errorf("%s: %q, want %q", c.name, e.Reason, want)
		}
		if _, err := chart.ExplainVariation(here, on2020); err == nil || err.Error() != e.Error() {
			t.Errorf("%s: explained with %v", c.name, err)
		}
	}
}

func TestAtTheLimitsOfLatitudeAndLongitudeRosesAreBlended(t *testing.T) {
	for _, roses := range [][3][2]float64{
		{{85, -19}, {84, -18}, {84, -20}},
		{{-85, -19}, {-84, -18}, {-84, -20}},
		{{47, 100}, {47, -170}, {48, 140}}, // 90° apart, across the date line
	} {
		var list []variation.ChartRose
		for _, p := range roses {
			list = append(list, variation.ChartRose{Position: at(p[0], p[1]), Rose: rose(deg)})
		}
		c := mustChart(t, list...)
		c.Method = variation.Blended
		// Between the third and the middle of the others.
		a, b := list[0].Position, list[1].Position
		middle := angle.Position{
			Latitude:  angle.Must(angle.LatitudeFrom((a.Latitude.Angle() + b.Latitude.Angle()) / 2)),
			Longitude: a.Longitude.Add(b.Longitude.Sub(a.Longitude) / 2),
		}
		if v, err := c.VariationAt(middle, on2020); err != nil || v.Angle() != deg {
			t.Errorf("%v: %v, %v", roses, v, err)
		}
	}
}

func TestErrorOutsideRosesNamesNearest(t *testing.T) {
	c := mustChart(t,
		variation.ChartRose{Name: "Orlesk Head", Position: at(47, -19), Rose: rose(deg)},
		variation.ChartRose{Name: "Minnow Ledge", Position: at(48, -19), Rose: rose(deg)},
	)
	c.Method = variation.Blended
	_, err := c.VariationAt(at(46.5, -19), on2020)
	const want = "variation: 46°30.0′N 019°00.0′W: beyond the two roses; the nearest rose is Orlesk Head, 30.0 M away"
	if err == nil || err.Error() != want {
		t.Errorf("%v\nwant %s", err, want)
	}
}

func TestSharesSumToOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		layout, middle := drawLayout(t), drawMiddle(t)
		c := layOut(t, layout, middle, func(int) angle.Angle { return drawAngle(t, 5*deg, "variation") })
		e, err := c.ExplainVariation(offset(middle, rapid.Float64Range(0, 2).Draw(t, "north"), rapid.Float64Range(0, 2).Draw(t, "east")), on2020)
		if err != nil {
			t.Skip("outside")
		}
		sum, shares := 0.0, 0
		for _, s := range e.Working {
			if s.Key == "rose" && s.Unit == "weight" {
				if s.Number < -1e-12 || s.Number > 1+1e-12 { // the rounding of an edge
					t.Fatalf("a share of %v", s.Number)
				}
				sum += s.Number
				shares++
			}
		}
		if shares != 1 && shares != 3 || !near(sum, 1, 1e-12) {
			t.Fatalf("%d shares sum to %v", shares, sum)
		}
	})
}

// The uncertainty of a blend is that of its roses in proportion.
func TestUncertaintyOfABlend(t *testing.T) {
	known := func(u angle.Angle) variation.Rose {
		r := rose(deg)
		r.Variation = r.Variation.WithUncertainty(sigma(u))
		return r
	}
	c := mustChart(t,
		variation.ChartRose{Position: at(47, -19), Rose: known(10 * minute)},
		variation.ChartRose{Position: at(48, -19), Rose: known(30 * minute)},
	)
	c.Method = variation.Blended
	v, err := c.VariationAt(at(47.25, -19), on2020)
	if s, stated := v.Uncertainty().Sigma(); err != nil || s != 15*minute || !stated {
		t.Errorf("%v, %v, %v", s, stated, err)
	}
	// If one is not known, neither is the blend.
	unstated := rose(deg)
	unstated.Change = variation.AnnualChange{}
	c = mustChart(t,
		variation.ChartRose{Position: at(47, -19), Rose: known(10 * minute)},
		variation.ChartRose{Position: at(48, -19), Rose: unstated},
	)
	c.Method = variation.Blended
	v, err = c.VariationAt(at(47.25, -19), noon(2026, 7, 2))
	if _, stated := v.Uncertainty().Sigma(); err != nil || stated {
		t.Errorf("%v, %v", v.Uncertainty(), err)
	}
}

// Three roses on one parallel: between two neighbours those two answer.
func TestThreeRosesOnOneLineAreBlended(t *testing.T) {
	a, m, b := rose(-4*deg), rose(-3*deg), rose(-5*deg)
	line := mustChart(t,
		variation.ChartRose{Name: "middle", Position: at(47, -18.6), Rose: m},
		variation.ChartRose{Name: "west", Position: at(47, -19), Rose: a},
		variation.ChartRose{Name: "east", Position: at(47, -18), Rose: b},
	)
	pair := mustChart(t, variation.ChartRose{Position: at(47, -19), Rose: a}, variation.ChartRose{Position: at(47, -18.6), Rose: m})
	line.Method, pair.Method = variation.Blended, variation.Blended
	for _, lon := range []float64{-19, -18.9, -18.7, -18.6} {
		for _, lat := range []float64{46.9, 47, 47.1} {
			got, err1 := line.VariationAt(at(lat, lon), on2020)
			want, err2 := pair.VariationAt(at(lat, lon), on2020)
			if err1 != nil || err2 != nil || !near(got.Degrees(), want.Degrees(), 1e-6) {
				t.Errorf("%v %v: %v, %v; the two alone %v, %v", lat, lon, got, err1, want, err2)
			}
		}
	}
	e, err := line.ExplainVariation(at(47, -18.3), on2020)
	if err != nil || !strings.Contains(e.Working.String(), "middle") || !strings.Contains(e.Working.String(), "east") || strings.Contains(e.Working.String(), "west: its") {
		t.Errorf("%v, %v", e.Working, err)
	}
}

// The middle of three roses is moved across the line of the others, by metres: the answer
// beside it moves by no more than it should in so small a step, 30′ before the mending.
func TestMovingARoseByMetresMovesTheBlendALittle(t *testing.T) {
	for _, span := range []float64{0.5, 1, 3} {
		last := math.NaN()
		for metres := -3_000 * span; metres <= 3_000*span; metres += 18 {
			c := mustChart(t,
				variation.ChartRose{Name: "west", Position: at(47, -19), Rose: rose(-4 * deg)},
				variation.ChartRose{Name: "middle", Position: at(47+metres/111_120, -19+0.45*span), Rose: rose(-3 * deg)},
				variation.ChartRose{Name: "east", Position: at(47, -19+span), Rose: rose(-4 * deg)},
			)
			c.Method = variation.Blended
			v, err := c.VariationAt(at(47, -19+0.4*span), on2020)
			if err != nil {
				t.Fatalf("%v m: %v", metres, err)
			}
			if step := math.Abs(v.Degrees() - last); step > 0.04/span {
				t.Fatalf("%v wide, at %.0f m the answer jumps by %.1f′", span, metres, step*60)
			}
			last = v.Degrees()
		}
	}
}

// In a flat triangle the shares are those of a partition: none negative, all together one.
func TestFlatTrianglesShareWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		height := rapid.Float64Range(0, 0.03).Draw(t, "height")
		foot := rapid.Float64Range(0.01, 0.99).Draw(t, "foot")
		c := mustBlend(t, [][2]float64{{0, 0}, {height, foot}, {0, 1}})
		along := rapid.Float64Range(0, 1).Draw(t, "along")
		up := rapid.Float64Range(0.01, 0.99).Draw(t, "up") * height * min(along/foot, (1-along)/(1-foot))
		e, err := c.ExplainVariation(offset(at(0, 0), up, along), on2020)
		if err != nil {
			if up < 1e-6 || height < 1e-6 {
				t.Skip("on the edge")
			}
			t.Fatal(err)
		}
		sum := 0.0
		for _, s := range e.Working {
			if s.Key == "rose" {
				if s.Number < -1e-9 || s.Number > 1+1e-9 {
					t.Fatalf("a share of %v", s.Number)
				}
				sum += s.Number
			}
		}
		if !near(sum, 1, 1e-9) {
			t.Fatalf("the shares sum to %v", sum)
		}
	})
}

// mustBlend makes a blended chart of roses at offsets from 0° N 0° E.
func mustBlend(t *rapid.T, layout [][2]float64) *variation.Chart {
	return layOut(t, layout, at(0, 0), func(int) angle.Angle { return deg })
}
