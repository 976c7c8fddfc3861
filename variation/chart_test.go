package variation_test

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/variation"
)

var on2020 = noon(2020, time.July, 2)

// drawPosition draws a place anywhere, poles and date line included.
func drawPosition(t *rapid.T, label string) angle.Position {
	lat := drawAngle(t, 90*deg, "latitude of "+label)
	lon := drawAngle(t, 180*deg, "longitude of "+label)
	return angle.Position{Latitude: angle.Must(angle.LatitudeFrom(lat)), Longitude: angle.LongitudeFrom(lon)}
}

// drawRoses draws roses anywhere, each of a variation of its own.
func drawRoses(t *rapid.T) []variation.ChartRose {
	roses := make([]variation.ChartRose, rapid.IntRange(1, 12).Draw(t, "roses"))
	for i := range roses {
		roses[i] = variation.ChartRose{Position: drawPosition(t, "rose"), Rose: rose(angle.Angle(i+1) * deg)}
		for _, q := range roses[:i] {
			if q.Position.SamePlace(roses[i].Position) {
				t.Skip("two at the same place")
			}
		}
	}
	return roses
}

// chord is the length of the straight line between two places on the unit
// sphere, which grows with the arc.
func chord(p, q angle.Position) float64 {
	vector := func(p angle.Position) [3]float64 {
		lat, lon := p.Degrees()
		lat, lon = lat*math.Pi/180, lon*math.Pi/180
		return [3]float64{math.Cos(lat) * math.Cos(lon), math.Cos(lat) * math.Sin(lon), math.Sin(lat)}
	}
	a, b := vector(p), vector(q)
	return math.Sqrt((a[0]-b[0])*(a[0]-b[0]) + (a[1]-b[1])*(a[1]-b[1]) + (a[2]-b[2])*(a[2]-b[2]))
}

func TestNearestRoseByChord(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		roses := drawRoses(t)
		here := drawPosition(t, "the ship")
		c, err := variation.NewChart("", roses...)
		if err != nil {
			t.Fatal(err)
		}
		v, err := c.VariationAt(here, on2020)
		if err != nil {
			t.Fatal(err)
		}
		least := math.Inf(1)
		for _, r := range roses {
			least = min(least, chord(here, r.Position))
		}
		taken := roses[int(v.Degrees())-1]
		if got := chord(here, taken.Position); got > least+1e-14 { // what chord is good to
			t.Fatalf("from %v the rose at %v, %v; another is at %v", here, taken.Position, got, least)
		}
	})
}

// Of roses close together, at the same distance or almost opposite, the first with the least arc
// answers.
func TestNearestRoseIsFirstOfTheLeastArc(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		here := drawPosition(t, "the ship")
		moves := []angle.Angle{0, 1, 5, 1000, angle.Second, deg, angle.Turn / 2}
		var roses []variation.ChartRose
		for range rapid.IntRange(2, 6).Draw(t, "roses") {
			r := variation.ChartRose{Position: here, Rose: rose(angle.Angle(len(roses)+1) * deg)}
			move := rapid.SampledFrom(moves).Draw(t, "east")
			if rapid.Bool().Draw(t, "west") {
				move = -move
			}
			r.Position.Longitude = r.Position.Longitude.Add(move)
			north := rapid.SampledFrom(moves).Draw(t, "north")
			if l, err := angle.LatitudeFrom(here.Latitude.Angle() + north); err == nil {
				r.Position.Latitude = l
			} else if l, err := angle.LatitudeFrom(-here.Latitude.Angle()); err == nil {
				r.Position.Latitude = l
			}
			if !slices.ContainsFunc(roses, func(o variation.ChartRose) bool { return o.Position.SamePlace(r.Position) }) {
				roses = append(roses, r)
			}
		}
		c, err := variation.NewChart("", roses...)
		if err != nil {
			t.Fatal(err)
		}
		v, err := c.VariationAt(here, on2020)
		if err != nil {
			t.Fatal(err)
		}
		want, least := 0, angle.Turn
		for i, r := range roses {
			if arc := here.ArcTo(r.Position); arc < least {
				want, least = i, arc
			}
		}
		if got := int(v.Degrees()) - 1; got != want {
			t.Fatalf("rose %d at %v answers; want %d at %v", got, here.ArcTo(roses[got].Position), want, least)
		}
	})
}

func TestTurningTheEarthChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		roses := drawRoses(t)
		here := drawPosition(t, "the ship")
		turn := drawAngle(t, 180*deg, "turn")
		turned := slices.Clone(roses)
		for i := range turned {
			turned[i].Position.Longitude = turned[i].Position.Longitude.Add(turn)
		}
		there := here
		there.Longitude = there.Longitude.Add(turn)
		for _, method := range []variation.Method{variation.Nearest, variation.Blended} {
			c, err := variation.NewChart("", roses...)
			if err != nil {
				t.Fatal(err)
			}
			d, err := variation.NewChart("", turned...)
			if err != nil {
				t.Fatal(err)
			}
			c.Method, d.Method = method, method
			v, errV := c.VariationAt(here, on2020)
			w, errW := d.VariationAt(there, on2020)
			if v != w || (errV == nil) != (errW == nil) {
				t.Fatalf("%v: %v, %v; turned %v: %v, %v", method, v, errV, turn, w, errW)
			}
		}
	})
}

func TestNearestRoseAcrossDateLine(t *testing.T) {
	roses := []variation.ChartRose{
		{Name: "1", Position: at(47, 179), Rose: rose(1 * deg)},
		{Name: "2", Position: at(47, -178), Rose: rose(2 * deg)},
		{Name: "3", Position: at(88, 0), Rose: rose(3 * deg)},
		{Name: "4", Position: at(-90, 55), Rose: rose(4 * deg)},
	}
	c := mustChart(t, roses...)
	for _, k := range []struct {
		lat, lon float64
		want     string
	}{
		{47, -179.6, "1"}, // 1.4° across the date line against 1.6°
		{47, -179.4, "2"},
		{47, 178, "1"},
		{47, 180, "1"},
		{89.5, 180, "3"}, // across the pole, 2.5°
		{90, 100, "3"},
		{-89, -125, "4"},
		{-90, 0, "4"},
		{-22, -90, "4"}, // the middle of nowhere
	} {
		all, err := variation.Candidates(c, at(k.lat, k.lon), on2020)
		if err != nil {
			t.Fatal(err)
		}
		if all[0].Name != k.want {
			t.Errorf("at %v %v: rose %s, want %s", k.lat, k.lon, all[0].Name, k.want)
		}
		if v, err := c.VariationAt(at(k.lat, k.lon), on2020); err != nil || v != all[0].Projection.Variation {
			t.Errorf("at %v %v: %v, %v; the first candidate has %v", k.lat, k.lon, v, err, all[0].Projection.Variation)
		}
	}
}

func TestFirstOfEquallyNearRoses(t *testing.T) {
	for _, k := range []struct {
		here, a, b angle.Position
	}{
		{at(47, 180), at(47, 179), at(47, -179)},
		{at(47, -19), at(47, -20), at(47, -18)},
		{at(0, -19), at(1, -19), at(-1, -19)},
		{at(90, 0), at(80, 10), at(80, -130)},
		{at(-90, 0), at(-80, 10), at(-80, 170)},
	} {
		one := variation.ChartRose{Position: k.a, Rose: rose(1 * deg)}
		two := variation.ChartRose{Position: k.b, Rose: rose(2 * deg)}
		for _, order := range [][]variation.ChartRose{{one, two}, {two, one}} {
			c := mustChart(t, order...)
			if v, err := c.VariationAt(k.here, on2020); err != nil || v != order[0].Rose.Variation.WithUncertainty(v.Uncertainty()) {
				t.Errorf("at %v: %v, %v; the first listed has %v", k.here, v, err, order[0].Rose.Variation)
			}
			if all, err := variation.Candidates(c, k.here, on2020); err != nil || all[0].Position != order[0].Position {
				t.Errorf("at %v: the first candidate is %+v, %v", k.here, all[0], err)
			}
		}
	}
}

func TestCandidatesEquallyNear(t *testing.T) {
	var roses []variation.ChartRose
	for i := range 40 {
		roses = append(roses, variation.ChartRose{Position: at(80-10*float64(i%2), float64(i*9-180)), Rose: rose(deg)})
	}
	all, err := variation.Candidates(mustChart(t, roses...), at(90, 0), on2020)
	if err != nil {
		t.Fatal(err)
	}
	for i, k := range all { // the even ones, then the odd ones
		want := roses[(2*i)%40+i/20]
		if k.Distance != angle.Angle(1+i/20)*10*deg || k.Position != want.Position {
			t.Errorf("%d: %v away, at %v, want %v", i, k.Distance, k.Position, want.Position)
		}
	}
}

func TestCandidates(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		roses := drawRoses(t)
		for i := range roses {
			roses[i].Rose = drawRose(t)
		}
		c, err := variation.NewChart("", roses...)
		if err != nil {
			t.Fatal(err)
		}
		here := drawPosition(t, "the ship")
		all, err := variation.Candidates(c, here, on2020)
		if err != nil || len(all) != len(roses) {
			t.Fatalf("%d candidates of %d roses, %v", len(all), len(roses), err)
		}
		nearest := all[0].Projection.Variation.Angle()
		for i, k := range all {
			if i > 0 && k.Distance < all[i-1].Distance {
				t.Fatalf("%v after %v", k.Distance, all[i-1].Distance)
			}
			if k.Distance != here.ArcTo(k.Position) {
				t.Fatalf("distance %v, the arc is %v", k.Distance, here.ArcTo(k.Position))
			}
			if own, err := variation.ProjectAt(k.Rose, k.Position, nil, on2020); err != nil || k.Projection != own {
				t.Fatalf("%+v, %v; want %+v", k.Projection, err, own)
			}
			if k.Difference != (k.Projection.Variation.Angle() - nearest).NormalizedSigned() {
				t.Fatalf("difference %v of %v from %v", k.Difference, k.Projection.Variation, nearest)
			}
		}
	})
}

func TestDifferenceOfRosesIsShort(t *testing.T) {
	c := mustChart(t,
		variation.ChartRose{Position: at(47, -19), Rose: rose(179 * deg)},
		variation.ChartRose{Position: at(48, -19), Rose: rose(-179 * deg)},
	)
	all, err := variation.Candidates(c, at(47, -19), on2020)
	if err != nil || all[0].Difference != 0 || all[1].Difference != 2*deg {
		t.Errorf("%+v, %v", all, err)
	}
}

func TestAChartCountsYearsAsItIsTold(t *testing.T) {
	r := variation.MustParseLegend("3°50′W 2014 (8′E)")
	for _, method := range []variation.Method{variation.Nearest, variation.Blended} {
		c := mustChart(t, variation.ChartRose{Position: at(47, -19), Rose: r})
		c.Method = method
		for count, want := range map[variation.YearCount]string{variation.WholeYears: "2°14′W", variation.DecimalYears: "2°10′W"} {
			c.Count = count
			if v, err := c.VariationAt(at(47, -19), noon(2026, time.July, 2)); err != nil || v.Angle() != variation.MustParse(want).Angle() {
				t.Errorf("%v, %v: %v, %v; want %s", method, count, v, err, want)
			}
		}
	}
}

func TestRosesThatMakeNoChart(t *testing.T) {
	good := variation.ChartRose{Name: "Orlesk Head", Position: at(47, -19), Rose: rose(deg)}
	old := good
	old.Rose.Year = 1499
	atPole := func(name string, lon float64) variation.ChartRose {
		return variation.ChartRose{Name: name, Position: at(90, lon), Rose: rose(deg)}
	}
	for _, c := range []struct {
		roses []variation.ChartRose
		rose  string
		want  string
	}{
		{nil, "", "0 roses; give 1 to 100"},
		{slices.Repeat([]variation.ChartRose{good}, 101), "", "101 roses; give 1 to 100"},
		{[]variation.ChartRose{good, good}, "Orlesk Head", `at the same place as "Orlesk Head"`},
		{[]variation.ChartRose{atPole("a", 10), atPole("b", 20)}, "b", `at the same place as "a"`},
		{[]variation.ChartRose{{Position: good.Position, Rose: good.Rose}, {Position: good.Position, Rose: variation.MustParseLegend("2°00′E 2025 (8′E)")}}, "", `2°00′E 2025 (8′E) is at the same place as another rose, 1°00′E 2020 (no annual change); of two editions keep the newer`},
		{[]variation.ChartRose{good, {Name: "new edition", Position: good.Position, Rose: variation.MustParseLegend("2°00′E 2025 (8′E)")}}, "new edition", `2°00′E 2025 (8′E) is at the same place as "Orlesk Head", 1°00′E 2020 (no annual change); of two editions keep the newer`},
		{[]variation.ChartRose{old}, "Orlesk Head", "1500 to 2500"},
		{[]variation.ChartRose{{Name: "blank"}}, "blank", "year of the rose 0"},
	} {
		_, err := variation.NewChart("", c.roses...)
		e, ok := errors.AsType[*variation.Error](err)
		if !ok || e.Rose != c.rose || !strings.Contains(err.Error(), c.want) || !strings.Contains(err.Error(), c.rose) {
			t.Errorf("%v; want %q of %q", err, c.want, c.rose)
		}
	}
	var most []variation.ChartRose
	for i := range 100 {
		most = append(most, variation.ChartRose{Position: at(40+float64(i)/10, -19), Rose: rose(deg)})
	}
	if _, err := variation.NewChart("", most...); err != nil {
		t.Errorf("100 roses: %v", err)
	}
}

func TestAChartKeepsCopiesOfItsRoses(t *testing.T) {
	given := []variation.ChartRose{
		{Name: "Orlesk Head", Position: at(47, -19), Rose: rose(1 * deg)},
		{Name: "Minnow Ledge", Position: at(48, -19), Rose: rose(2 * deg)},
	}
	c := mustChart(t, given...)
	if c.Name() != "Orlesk approaches" || !slices.Equal(c.Roses(), given) {
		t.Errorf("%s %v", c.Name(), c.Roses())
	}
	given[0].Rose = rose(9 * deg)
	c.Roses()[0].Rose = rose(9 * deg)
	if v, err := c.VariationAt(at(47, -19), on2020); err != nil || v.Angle() != deg {
		t.Errorf("someone else's change is in the chart: %v, %v", v, err)
	}
}

func TestTheZeroChartAnswersWithAnError(t *testing.T) {
	for _, method := range []variation.Method{variation.Nearest, variation.Blended} {
		c := variation.Chart{Method: method}
		_, err1 := c.VariationAt(at(47, -19), on2020)
		_, err2 := c.ExplainVariation(at(47, -19), on2020)
		_, err3 := variation.Candidates(&c, at(47, -19), on2020)
		for _, err := range []error{err1, err2, err3} {
			if e, ok := errors.AsType[*variation.Error](err); !ok || !strings.Contains(e.Reason, "NewChart") {
				t.Errorf("%v: %v", method, err)
			}
		}
	}
}

func TestDatesThatAChartRefuses(t *testing.T) {
	for _, method := range []variation.Method{variation.Nearest, variation.Blended} {
		c := mustChart(t, variation.ChartRose{Position: at(47, -19), Rose: rose(deg)})
		c.Method = method
		_, err1 := c.VariationAt(at(47, -19), noon(2501, 1, 1))
		_, err2 := c.ExplainVariation(at(47, -19), noon(2501, 1, 1))
		for _, err := range []error{err1, err2} {
			if _, ok := errors.AsType[*angle.RangeError](err); !ok {
				t.Errorf("%v: %v", method, err)
			}
		}
	}
}
