package danger_test

import (
	"errors"
	"math"
	"math/cmplx"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/deviation"
	"lubberline.example/fix"
	"lubberline.example/fix/danger"
	"lubberline.example/fix/internal/fixtest"
	"lubberline.example/variation"
)

// The coast of Orlesk, its marks and the figures are invented.
var (
	orlesk = fix.Mark{Name: "Orlesk Head light", Position: angle.MustParsePosition("47°08.4′N 019°00.0′W")}
	minnow = fix.Mark{Name: "Minnow Ledge beacon", Position: angle.MustParsePosition("47°03.6′N 019°11.6′W")}
	here   = angle.MustParsePosition("47°05.0′N 019°05.0′W")
)

const mile = sailing.NauticalMile

// with has an invented variation and deviation.
func with() course.With {
	return course.With{Variation: variation.MustParse("5°00′W").WithUncertainty(fixtest.Sigma(0.25)), Deviation: deviation.MustParse("3°E").WithUncertainty(fixtest.Sigma(0.5)), At: new(angle.MustParsePosition("47°N 019°W"))}
}

// dgTrue returns the azimuth of the geodesic as a direction.
func dgTrue(from, to angle.Position) angle.True { return fixtest.True(fixtest.Azimuth(from, to)) }

// dgPlace draws a place, sometimes near the date line.
func dgPlace(t *rapid.T) angle.Position {
	return fixtest.At(rapid.Float64Range(-70, 70).Draw(t, "latitude"), rapid.SampledFrom([]float64{-19, 0, 179.999, -179.99}).Draw(t, "longitude"))
}

func TestClearingBearingKeepsMargin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rock := dgPlace(t)
		margin := rapid.Float64Range(100, 1500).Draw(t, "margin")
		mark := fix.Mark{Name: "mark", Position: fixtest.From(rock, rapid.Float64Range(0, 360).Draw(t, "direction"), rapid.Float64Range(margin*1.2, margin*1.2+15_000).Draw(t, "distance"))}
		off := fixtest.Apart(mark.Position, rock)
		side := rapid.SampledFrom([]angle.Side{angle.Port, angle.Starboard}).Draw(t, "side")
		c, err := danger.NewClearingBearing(mark, rock, sailing.Distance(margin), side)
		if err != nil {
			t.Fatal(err)
		}
		if want := map[angle.Side]danger.Bound{angle.Starboard: danger.NotLessThan, angle.Port: danger.NotMoreThan}[side]; c.Bound != want || c.Mark != mark {
			t.Fatalf("%v for a danger to %v, want %v", c.Bound, side, want)
		}
		turn := 1.0 // to the safe side
		if side == angle.Port {
			turn = -1
		}
		// Any place from which the mark has a safe bearing, within 90° of the limit.
		p := fixtest.From(mark.Position, c.Limit.Reciprocal().Degrees()+turn*rapid.Float64Range(-5, 88).Draw(t, "bearing"), off*rapid.Float64Range(0.05, 2.5).Draw(t, "off"))
		bearing := dgTrue(p, mark.Position)
		if d := fixtest.Apart(p, rock); c.Clear(bearing) && d < margin*0.99 { // the position line bends
			t.Fatalf("%v is %v: the mark bears %v, the limit is %v; %.0f m off the rock, want %.0f", p, c.Bound, bearing, c.Limit, d, margin)
		}
		// The clearing line touches the circle of the margin.
		least, touch := math.Inf(1), math.Sqrt(off*off-margin*margin)
		for i := range 41 {
			way := c.Limit.Reciprocal().Degrees()
			p := fixtest.From(mark.Position, way, touch+margin*float64(i-20)/100)
			p = fixtest.From(mark.Position, way+c.Limit.Sub(dgTrue(p, mark.Position)).Degrees(), touch+margin*float64(i-20)/100)
			least = min(least, fixtest.Apart(p, rock))
		}
		if !fixtest.Near(least, margin, 0.01*margin) { // the place from which the mark bears the limit, found in one step
			t.Fatalf("the line passes at %.1f m, want %.1f", least, margin)
		}
		// Beyond the limit no bearing is clear.
		if c.Clear(c.Limit.Add(-angle.Angle(turn)*angle.Degree)) || !c.Clear(c.Limit) {
			t.Fatal("the limit is not where it says")
		}
	})
}

// In 70°N a rock bears 090°T from a mark, 10 km off, with a margin of 8 km: a triangle of 3, 4 and 5.
// The clearing line runs 143°08′ from the mark, and touches the margin 6 km along it, 3.6 km to the
// east. By common practice the mark bears more northerly from there than the reciprocal, by half the
// convergency: half of d.long × sine of the middle latitude, 2.7′.
func TestLimitHasHalfTheConvergency(t *testing.T) {
	const lat, earth = 70.0, 6_371_000.0 // degrees, metres
	middle := (lat - 2400/earth*180/math.Pi) * math.Pi / 180
	half := 3600 / earth / math.Cos(middle) * math.Sin(middle) / 2 * 180 / math.Pi
	mark := fix.Mark{Name: "mark", Position: fixtest.At(lat, -19)}
	rock := angle.Must(sailing.WGS84().Follow(mark.Position, sailing.Run{Course: fixtest.True(90), Distance: 10_000}))
	for side, want := range map[angle.Side]float64{
		angle.Starboard: 270 + math.Acos(0.6)*180/math.Pi + half,
		angle.Port:      270 - math.Acos(0.6)*180/math.Pi + half,
	} {
		c, err := danger.NewClearingBearing(mark, rock, 8000, side)
		if err != nil || !fixtest.Near(c.Limit.Degrees(), want, 0.2/60) { // the Earth is no sphere
			t.Errorf("%s: %.4f, want %.4f, %v", side, c.Limit.Degrees(), want, err)
		}
	}
}

func TestClearAcrossNorth(t *testing.T) {
	for _, k := range []struct {
		limit, bearing string
		bound          danger.Bound
		want           bool
	}{
		{"358°T", "002°T", danger.NotLessThan, true}, {"358°T", "355°T", danger.NotLessThan, false}, {"002°T", "358°T", danger.NotLessThan, false},
		{"002°T", "358°T", danger.NotMoreThan, true}, {"358°T", "002°T", danger.NotMoreThan, false}, {"358°T", "358°T", danger.NotMoreThan, true},
	} {
		c := danger.ClearingBearing{Limit: angle.MustParseTrue(k.limit), Bound: k.bound}
		if got := c.Clear(angle.MustParseTrue(k.bearing)); got != k.want {
			t.Errorf("%s, %s %s: %v", k.bearing, k.bound, k.limit, got)
		}
	}
}

func TestMarkWithinMarginIsRefused(t *testing.T) {
	near := fix.Mark{Name: "near", Position: fixtest.From(here, 90, 150)}
	_, err := danger.NewClearingBearing(near, here, 200, angle.Port)
	fixtest.Refused[*danger.Error](t, "within", err)
	_, err = danger.NewClearingBearing(fix.Mark{Position: here}, here, 200, angle.Port)
	fixtest.Refused[*danger.Error](t, "at the danger", err)
	for _, bad := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		_, err = danger.NewClearingBearing(orlesk, here, sailing.Distance(bad), angle.Port)
		fixtest.Refused[*angle.RangeError](t, "margin", err)
		_, err = danger.HorizontalAngle(orlesk, minnow, here, sailing.Distance(bad), danger.Outside)
		fixtest.Refused[*angle.RangeError](t, "margin of the angle", err)
	}
	_, err = danger.HorizontalAngle(orlesk, orlesk, here, 200, danger.Outside)
	fixtest.Refused[*danger.Error](t, "one mark", err)
	_, err = danger.HorizontalAngle(orlesk, near, here, 200, danger.Outside)
	fixtest.Refused[*danger.Error](t, "mark within", err)
	west, east := fix.Mark{Name: "west", Position: fixtest.From(here, 270, 2000)}, fix.Mark{Name: "east", Position: fixtest.From(here, 90, 2000)}
	_, err = danger.HorizontalAngle(west, east, here, 200, danger.Inside)
	fixtest.Refused[*danger.Error](t, "between the marks", err)
	_, err = danger.HorizontalAngle(west, east, fixtest.From(here, 90, 5000), 200, danger.Outside)
	fixtest.Refused[*danger.Error](t, "in line with the marks", err)
	pole := fixtest.At(90, 0)
	if _, err = danger.NewClearingBearing(fix.Mark{Name: "camp", Position: pole}, fixtest.At(89.99, 0), 200, angle.Port); err != nil {
		fixtest.Refused[*danger.Error](t, "at the pole", err)
	}
}

// A margin may be smaller than a metre, as in a dock.
func TestSmallMarginIsKept(t *testing.T) {
	near := fix.Mark{Name: "bollard", Position: fixtest.From(here, 90, 10)}
	c, err := danger.NewClearingBearing(near, here, 0.5, angle.Port)
	if err != nil {
		t.Fatal(err)
	}
	// The line to the mark passes half a metre from the danger: arcsin 0.5/10.
	if off := c.Limit.Sub(angle.MustParseTrue("090°")).Abs().Degrees(); !fixtest.Near(off, 2.866, 0.01) {
		t.Errorf("the limit %v is %v° off the bearing of the danger, want 2.866°", c.Limit, off)
	}
	east := fix.Mark{Name: "post", Position: fixtest.From(here, 40, 12)}
	d, err := danger.HorizontalAngle(east, near, here, 0.5, danger.Outside)
	if err != nil {
		t.Fatal(err)
	}
	if d.Limit <= 0 || d.Clear(angle.Turn/4) {
		t.Errorf("limit %v", d.Limit)
	}
}

// A clearing bearing is watched by the compass of the heading: magnetic is true less
// the variation east, compass magnetic less the deviation east.
func TestClearingBearingByCompass(t *testing.T) {
	c, err := danger.NewClearingBearing(minnow, fixtest.From(minnow.Position, 90, 6000), 500, angle.Starboard)
	if err != nil {
		t.Fatal(err)
	}
	h := angle.Must(course.FromTrue(angle.MustParseTrue("270°T"), with()))
	b := h.BearingFromTrue(c.Limit)
	if !b.True().Equal(c.Limit) || b.Magnetic().FromNorth() != c.Limit.FromNorth()+5*angle.Degree || b.Compass().FromNorth() != c.Limit.FromNorth()+2*angle.Degree {
		t.Errorf("%v, %v, %v", b.True(), b.Magnetic(), b.Compass())
	}
	sheet := c.Working(h)
	// The limit is 276°48.5′ by compass: the safe side is more.
	rule, ok := sheet.Steps.Find("rule")
	if !ok || sheet.Caution != working.Caution || rule.Value != "not less than 276.9°C" || sheet.Title != "Clearing bearing of Minnow Ledge beacon: not less than 277°C" || rule.Number != 276.9 || rule.Unit != working.DegreesFromNorth {
		t.Errorf("\n%v", sheet)
	}
}

// The steps by which the limit was found come first and add up.
func TestClearingBearingWorking(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		side := rapid.SampledFrom([]angle.Side{angle.Port, angle.Starboard}).Draw(t, "side")
		way, margin := rapid.Float64Range(0, 359.9).Draw(t, "way"), rapid.Float64Range(100, 1000).Draw(t, "margin")
		c := angle.Must(danger.NewClearingBearing(minnow, fixtest.From(minnow.Position, way, 5000), sailing.Distance(margin), side))
		sheet := c.Working(angle.Must(course.FromTrue(angle.MustParseTrue("270°T"), with())))
		number := func(key string) float64 {
			step, ok := sheet.Steps.Find(key)
			if !ok || step.Unit == "" {
				t.Fatalf("%s: %+v", key, step)
			}
			return step.Number
		}
		if sheet.Steps[0].Key != "danger bears" || !fixtest.Near(number("danger off"), 5000/1852., 1e-6) || !fixtest.Near(number("margin"), margin/1852, 1e-9) { // nanometres, and the micrometre of a rhumb line
			t.Fatalf("\n%v", sheet)
		}
		turn := number("margin angle")
		if side == angle.Port {
			turn = -turn
		}
		if off := math.Remainder(number("danger bears")+turn+180-number("true bearing"), 360); math.Abs(off) > 0.05 { // half the convergency in 5 km, and the minutes
			t.Fatalf("%v° off\n%v", off, sheet)
		}
		whole, compass := number("whole degree"), number("compass bearing")
		if off := math.Remainder(whole-compass, 360); whole != math.Round(whole) || side == angle.Port && (off > 0 || off <= -1) || side == angle.Starboard && (off < 0 || off >= 1) {
			t.Fatalf("%v°, of %v°", whole, compass)
		}
	})
	// A limit that was not found by NewClearingBearing has no such steps.
	if _, ok := (danger.ClearingBearing{Mark: minnow, Bound: danger.NotMoreThan}).Working(angle.Must(course.FromTrue(angle.MustParseTrue("270°T"), with()))).Steps.Find("margin"); ok {
		t.Error("a margin of nothing")
	}
}

// Near north, left and right are clear where less and more are not.
func TestSafeHandIsPrinted(t *testing.T) {
	for bound, want := range map[danger.Bound]string{danger.NotMoreThan: "not more than 000.2°T, that is, to the left of it", danger.NotLessThan: "not less than 000.3°T, that is, to the right of it"} {
		c := danger.ClearingBearing{Mark: orlesk, Limit: fixtest.True(0.25), Bound: bound}
		if got := c.String(); got != "Orlesk Head light bears "+want {
			t.Errorf("%q, want %q", got, want)
		}
		off := angle.Degree
		if bound == danger.NotMoreThan {
			off = -off
		}
		if !c.Clear(c.Limit.Add(off)) || c.Clear(c.Limit.Add(-off)) {
			t.Errorf("%v: the other hand is clear", c)
		}
	}
}

func TestDangerAngleWorking(t *testing.T) {
	rock := fixtest.From(minnow.Position, 100, 3000)
	horizontal := angle.Must(danger.HorizontalAngle(minnow, orlesk, rock, 500, danger.Outside))
	sheet := horizontal.Round(angle.Degree).Working()
	radius, _ := sheet.Steps.Find("radius")
	base, _ := sheet.Steps.Find("base")
	if want := base.Number / (2 * horizontal.Round(angle.Degree).Limit.Sin()); !fixtest.Near(radius.Number, want, 1e-9) || radius.Unit != "nautical miles" || sheet.Title != "Horizontal danger angle" || len(sheet.Warnings) != 0 {
		t.Errorf("radius %v, want %v\n%v", radius.Number, want, sheet)
	}
	for pass, want := range map[danger.Pass]string{danger.Outside: "says, on the safe side", danger.Inside: "inside is NOT on the safe side"} {
		sheet := angle.Must(danger.VerticalAngle(42, 3*mile, pass)).Working()
		height, _ := sheet.Steps.Find("height")
		distance, _ := sheet.Steps.Find("distance")
		limit, _ := sheet.Steps.Find("limit")
		if !fixtest.Near(math.Tan(limit.Number*math.Pi/180), height.Number/(distance.Number*1852), 1e-9) || (len(sheet.Warnings) == 0) != (pass == danger.Outside) || !strings.Contains(sheet.String(), want) { // the unit of angle
			t.Errorf("\n%v", sheet)
		}
	}
	if plain := (danger.Angle{Limit: angle.Degree, Bound: danger.NotMoreThan}).Working(); len(plain.Steps) != 2 || plain.Title != "Danger angle" {
		t.Errorf("\n%v", plain)
	}
}

// dgSubtends returns the angle between two marks from a place.
func dgSubtends(from, a, b angle.Position) angle.Angle {
	return dgTrue(from, a).Sub(dgTrue(from, b)).Abs()
}

func TestHorizontalAngleKeepsMargin(t *testing.T) {
	clear := 0
	rapid.Check(t, func(t *rapid.T) {
		rock := dgPlace(t)
		margin := rapid.Float64Range(100, 600).Draw(t, "margin")
		way := rapid.Float64Range(0, 360).Draw(t, "way")
		var flat [2]complex128 // the marks on a plane about the danger
		mark := func(name string, side float64) fix.Mark {
			bearing, off := way+side*rapid.Float64Range(20, 70).Draw(t, name), rapid.Float64Range(1500, 6000).Draw(t, "off "+name)
			flat[int(1+side)/2] = cmplx.Rect(off, bearing*math.Pi/180)
			return fix.Mark{Name: name, Position: fixtest.From(rock, bearing, off)}
		}
		left, right := mark("left", -1), mark("right", 1)
		along := flat[1] - flat[0]
		line := math.Abs(imag(cmplx.Conj(along)*flat[0])) / cmplx.Abs(along) // how far off it passes
		pass := rapid.SampledFrom([]danger.Pass{danger.Outside, danger.Inside}).Draw(t, "pass")
		d, err := danger.HorizontalAngle(left, right, rock, sailing.Distance(margin), pass)
		if _, refused := errors.AsType[*danger.Error](err); refused && line < margin*1.01 {
			return // as it should be
		}
		if err != nil {
			t.Fatal(err)
		}
		if want := map[danger.Pass]danger.Bound{danger.Outside: danger.NotMoreThan, danger.Inside: danger.NotLessThan}[pass]; d.Bound != want {
			t.Fatalf("%v", d.Bound)
		}
		p := fixtest.From(rock, rapid.Float64Range(0, 360).Draw(t, "to"), margin*rapid.Float64Range(0, 3).Draw(t, "times"))
		if a := dgSubtends(p, left.Position, right.Position); d.Clear(a) {
			clear++
			if off := fixtest.Apart(p, rock); off < margin*0.99 { // the plane in which the margin is drawn
				t.Fatalf("%v is %v %v, and %.0f m off the danger: want %.0f", a, d.Bound, d.Limit, off, margin)
			}
		}
		// The limit is reached on the circle of the margin.
		best := math.Inf(1)
		for i := range 180 {
			a := dgSubtends(fixtest.From(rock, float64(i)*2, margin), left.Position, right.Position)
			best = min(best, (a - d.Limit).Abs().Degrees())
		}
		if best > 0.3 { // 2° between the samples
			t.Fatalf("the limit %v is met nowhere on the margin, by %v°", d.Limit, best)
		}
	})
	if clear == 0 && !testing.Short() { // of the few that are drawn then
		t.Error("nothing is clear anywhere")
	}
	if d := (danger.Angle{Limit: 40 * angle.Degree, Bound: danger.NotLessThan}); !d.Clear(40*angle.Degree) || d.Clear(39*angle.Degree) {
		t.Error("the limit is on the wrong side")
	}
}

func TestLimitsRoundToSafeSide(t *testing.T) {
	for _, c := range []struct {
		bound danger.Bound
		want  angle.Angle
	}{{danger.NotMoreThan, 25 * angle.Minute}, {danger.NotLessThan, 26 * angle.Minute}} {
		d := danger.Angle{Limit: 25*angle.Minute + 40*angle.Second, Bound: c.bound}
		if got := d.Round(angle.Minute); got.Limit != c.want || !d.Clear(got.Limit) {
			t.Errorf("%s %v: %v", c.bound, d.Limit, got.Limit)
		}
		exact := danger.Angle{Limit: 25 * angle.Minute, Bound: c.bound}
		if exact.Round(angle.Minute) != exact {
			t.Errorf("%s: a round limit is changed", c.bound)
		}
	}
}

func TestVerticalAngle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := rapid.Float64Range(5, 300).Draw(t, "height")
		d := sailing.Distance(rapid.Float64Range(500, 6000).Draw(t, "distance"))
		pass := rapid.SampledFrom([]danger.Pass{danger.Outside, danger.Inside}).Draw(t, "pass")
		limit, err := danger.VerticalAngle(sailing.Distance(h), d, pass)
		if err != nil {
			t.Fatal(err)
		}
		at := angle.Must(angle.Atan2(h, float64(d)*rapid.SampledFrom([]float64{0.5, 0.99, 1.01, 2}).Draw(t, "times")))
		farther := at < limit.Limit
		if limit.Clear(at) != (farther == (pass == danger.Outside)) || !limit.Clear(limit.Limit) {
			t.Fatalf("%v with the limit %v", at, limit)
		}
	})
	for _, bad := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		_, err := danger.VerticalAngle(50, sailing.Distance(bad), danger.Outside)
		fixtest.Refused[*angle.RangeError](t, "distance", err)
	}
	_, err := danger.VerticalAngle(0, mile, danger.Outside)
	fixtest.Refused[*angle.RangeError](t, "no height", err)
}

func TestTextOfLimits(t *testing.T) {
	w := angle.Must(danger.NewAnchorWatch(here, danger.SwingingCircle{Cable: 50, Height: 14, Length: 12, Margin: 10}))
	if got := w.String(); got != "within 70 m of 47°05.0′N 019°05.0′W" {
		t.Errorf("%q", got)
	}
	sheet := w.Working()
	for key, want := range map[string]float64{"cable": 50, "height": 14, "reach": 48, "length": 12, "margin": 10, "radius": 70} {
		if step, ok := sheet.Steps.Find(key); !ok || step.Number != want || step.Unit != "metres" {
			t.Errorf("%s: %v, want %v", key, step, want)
		}
	}
	if plain := (danger.AnchorWatch{Anchor: here, Radius: 100}).Working(); len(plain.Steps) != 2 || plain.Caution != working.Caution || sheet.Caution != working.Caution {
		t.Errorf("%v", plain)
	}
	d := danger.Angle{Limit: 32*angle.Minute + 29*angle.Second, Bound: danger.NotMoreThan}
	if got := d.String(); got != "not more than 0°32.4′" {
		t.Errorf("%q", got)
	}
	if step, ok := d.Working().Steps.Find("rule"); !ok || step.Value != d.String() || d.Working().Caution != working.Caution {
		t.Errorf("%v", d.Working())
	}
	c := danger.ClearingBearing{Mark: orlesk, Limit: fixtest.True(45.26), Bound: danger.NotLessThan}
	if got := c.String(); got != "Orlesk Head light bears not less than 045.3°T, that is, to the right of it" {
		t.Errorf("%q", got)
	}
}
