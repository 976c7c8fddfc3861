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

func TestBlendOutsideRoses(t *testing.T) {
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

func TestBlendAtTheLimits(t *testing.T) {
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
func TestBlendAlongALine(t *testing.T) {
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

// The middle of three roses is moved across the line of the others, by metres. The answer
// beside it must change little in so small a step. It once changed by 30′.
func TestBlendIsSteady(t *testing.T) {
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

// In a flat triangle no share is negative, and the sum of the shares is 1.
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

// The roses of a harbour plan stand a cable apart. In the middle of three the answer is their mean,
// as on a chart of any scale.
func TestBlendOnAHarbourPlan(t *testing.T) {
	for _, apart := range []float64{0.1 / 60, 1, 10} { // degrees
		c := mustChart(t,
			variation.ChartRose{Position: at(0, -19), Rose: rose(-4 * deg)},
			variation.ChartRose{Position: at(apart, -19), Rose: rose(-3 * deg)},
			variation.ChartRose{Position: at(0, -19+apart), Rose: rose(-8 * deg)},
		)
		c.Method = variation.Blended
		if v, err := c.VariationAt(at(apart/3, -19+apart/3), on2020); err != nil || !near(v.Degrees(), -5, 1e-6) {
			t.Errorf("%v° apart: %v, %v", apart, v, err)
		}
	}
}
