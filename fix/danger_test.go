package fix_test

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
	"lubberline.example/fix/internal/fixtest"
	"lubberline.example/variation"
)

// plWith is an invented variation and deviation.
func plWith() course.With {
	return course.With{Variation: variation.MustParse("5°00′W").WithUncertainty(fixtest.Sigma(0.25)), Deviation: deviation.MustParse("3°E").WithUncertainty(fixtest.Sigma(0.5)), At: new(angle.MustParsePosition("47°N 019°W"))}
}

// dgRefused checks that an error is a DangerError.
func dgRefused(t *testing.T, name string, err error) {
	t.Helper()
	var refused *fix.DangerError
	if !errors.As(err, &refused) || refused.Reason == "" || !strings.HasPrefix(err.Error(), "fix: danger: ") {
		t.Errorf("%s: %v, want a DangerError", name, err)
	}
}

// dgTrue is the azimuth of the geodesic as a direction.
func dgTrue(from, to angle.Position) angle.True { return fixtest.True(fixtest.Azimuth(from, to)) }

// dgPlace draws a place, the date line among them.
func dgPlace(t *rapid.T) angle.Position {
	return fixtest.At(rapid.Float64Range(-70, 70).Draw(t, "latitude"), rapid.SampledFrom([]float64{-19, 0, 179.999, -179.99}).Draw(t, "longitude"))
}

func TestAClearingBearingKeepsTheMargin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		danger := dgPlace(t)
		margin := rapid.Float64Range(100, 1500).Draw(t, "margin")
		mark := fix.Mark{Name: "mark", Position: fixtest.From(danger, rapid.Float64Range(0, 360).Draw(t, "direction"), rapid.Float64Range(margin*1.2, margin*1.2+15_000).Draw(t, "distance"))}
		off := fixtest.Apart(mark.Position, danger)
		side := rapid.SampledFrom([]angle.Side{angle.Port, angle.Starboard}).Draw(t, "side")
		c, err := fix.ClearingBearing(mark, danger, sailing.Distance(margin), side)
		if err != nil {
			t.Fatal(err)
		}
		if want := map[angle.Side]fix.Bound{angle.Starboard: fix.NotLess, angle.Port: fix.NotMore}[side]; c.Bound != want || c.Mark != mark {
			t.Fatalf("%v for a danger to %v, want %v", c.Bound, side, want)
		}
		turn := 1.0 // to the safe side
		if side == angle.Port {
			turn = -1
		}
		// Anywhere from which the mark has a safe bearing, within 90° of the limit.
		p := fixtest.From(mark.Position, c.Limit.Reciprocal().Degrees()+turn*rapid.Float64Range(-5, 88).Draw(t, "bearing"), off*rapid.Float64Range(0.05, 2.5).Draw(t, "off"))
		bearing := dgTrue(p, mark.Position)
		if d := fixtest.Apart(p, danger); c.Clear(bearing) && d < margin*0.99 { // the position line bends
			t.Fatalf("%v is %v: the mark bears %v, the limit is %v; %.0f m off the danger, want %.0f", p, c.Bound, bearing, c.Limit, d, margin)
		}
		// And from where it bears the limit just the margin is touched.
		least, touch := math.Inf(1), math.Sqrt(off*off-margin*margin)
		for i := range 41 {
			way := c.Limit.Reciprocal().Degrees()
			p := fixtest.From(mark.Position, way, touch+margin*float64(i-20)/100)
			p = fixtest.From(mark.Position, way+c.Limit.Sub(dgTrue(p, mark.Position)).Degrees(), touch+margin*float64(i-20)/100)
			least = min(least, fixtest.Apart(p, danger))
		}
		if !fixtest.Near(least, margin, 0.01*margin) { // the place from which the mark bears the limit, found in one step
			t.Fatalf("the line passes at %.1f m, want %.1f", least, margin)
		}
		// On the other side of the danger nothing is clear.
		if c.Clear(c.Limit.Add(-angle.Angle(turn)*angle.Degree)) || !c.Clear(c.Limit) {
			t.Fatal("the limit is not where it says")
		}
	})
}

func TestClearIsSoAcrossNorth(t *testing.T) {
	for _, k := range []struct {
		limit, bearing string
		bound          fix.Bound
		want           bool
	}{
		{"358°T", "002°T", fix.NotLess, true}, {"358°T", "355°T", fix.NotLess, false}, {"002°T", "358°T", fix.NotLess, false},
		{"002°T", "358°T", fix.NotMore, true}, {"358°T", "002°T", fix.NotMore, false}, {"358°T", "358°T", fix.NotMore, true},
	} {
		c := fix.Clearing{Limit: angle.MustParseTrue(k.limit), Bound: k.bound}
		if got := c.Clear(angle.MustParseTrue(k.bearing)); got != k.want {
			t.Errorf("%s, %s %s: %v", k.bearing, k.bound, k.limit, got)
		}
	}
}

func TestAMarkWithinTheMarginIsRefused(t *testing.T) {
	near := fix.Mark{Name: "near", Position: fixtest.From(plHere, 90, 150)}
	_, err := fix.ClearingBearing(near, plHere, 200, angle.Port)
	dgRefused(t, "within", err)
	_, err = fix.ClearingBearing(fix.Mark{Position: plHere}, plHere, 200, angle.Port)
	dgRefused(t, "at the danger", err)
	for _, bad := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		_, err = fix.ClearingBearing(plOrlesk, plHere, sailing.Distance(bad), angle.Port)
		dgRefused(t, "margin", err)
		_, err = fix.HorizontalDangerAngle(plOrlesk, plMinnow, plHere, sailing.Distance(bad), fix.Outside)
		dgRefused(t, "margin of the angle", err)
	}
	_, err = fix.HorizontalDangerAngle(plOrlesk, plOrlesk, plHere, 200, fix.Outside)
	dgRefused(t, "one mark", err)
	_, err = fix.HorizontalDangerAngle(plOrlesk, near, plHere, 200, fix.Outside)
	dgRefused(t, "mark within", err)
	west, east := fix.Mark{Name: "west", Position: fixtest.From(plHere, 270, 2000)}, fix.Mark{Name: "east", Position: fixtest.From(plHere, 90, 2000)}
	_, err = fix.HorizontalDangerAngle(west, east, plHere, 200, fix.Inside)
	dgRefused(t, "between the marks", err)
	_, err = fix.HorizontalDangerAngle(west, east, fixtest.From(plHere, 90, 5000), 200, fix.Outside)
	dgRefused(t, "in line with the marks", err)
	pole := fixtest.At(90, 0)
	if _, err = fix.ClearingBearing(fix.Mark{Name: "camp", Position: pole}, fixtest.At(89.99, 0), 200, angle.Port); err != nil {
		dgRefused(t, "at the pole", err)
	}
}

// A clearing bearing is watched by the compass of the heading: magnetic is true less
// the variation east, compass magnetic less the deviation east.
func TestAClearingBearingByTheCompassOfTheHeading(t *testing.T) {
	c, err := fix.ClearingBearing(plMinnow, fixtest.From(plMinnow.Position, 90, 6000), 500, angle.Starboard)
	if err != nil {
		t.Fatal(err)
	}
	h := angle.Must(course.FromTrue(angle.MustParseTrue("270°T"), plWith()))
	b := c.On(h)
	if !b.True().Equal(c.Limit) || b.Magnetic().FromNorth() != c.Limit.FromNorth()+5*angle.Degree || b.Compass().FromNorth() != c.Limit.FromNorth()+2*angle.Degree {
		t.Errorf("%v, %v, %v", b.True(), b.Magnetic(), b.Compass())
	}
	sheet := c.Working(h)
	// The limit is 276°48.5′ by compass: to the safe side that is more.
	rule, ok := sheet.Steps.Find("rule")
	if !ok || sheet.Caution != working.Caution || rule.Value != "not less than 276.9°C" || sheet.Title != "Clearing bearing of Minnow Ledge beacon: not less than 277°C" || rule.Number != 276.9 || rule.Unit != working.DegreesFromNorth {
		t.Errorf("\n%v", sheet)
	}
}

// How the limit was found stands before it is converted, and adds up.
func TestAClearingBearingTellsHowItWasFound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		side := rapid.SampledFrom([]angle.Side{angle.Port, angle.Starboard}).Draw(t, "side")
		way, margin := rapid.Float64Range(0, 359.9).Draw(t, "way"), rapid.Float64Range(100, 1000).Draw(t, "margin")
		c := angle.Must(fix.ClearingBearing(plMinnow, fixtest.From(plMinnow.Position, way, 5000), sailing.Distance(margin), side))
		sheet := c.Working(angle.Must(course.FromTrue(angle.MustParseTrue("270°T"), plWith())))
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
	// One that was given tells nothing of it.
	if _, ok := (fix.Clearing{Mark: plMinnow, Bound: fix.NotMore}).Working(angle.Must(course.FromTrue(angle.MustParseTrue("270°T"), plWith()))).Steps.Find("margin"); ok {
		t.Error("a margin of nothing")
	}
}

// About north less and more tell nothing, left and right do.
func TestTheSafeHandIsTold(t *testing.T) {
	for bound, want := range map[fix.Bound]string{fix.NotMore: "not more than 000.2°T, that is, to the left of it", fix.NotLess: "not less than 000.3°T, that is, to the right of it"} {
		c := fix.Clearing{Mark: svHead, Limit: fixtest.True(0.25), Bound: bound}
		if got := c.String(); got != "Orlesk Head light bears "+want {
			t.Errorf("%q, want %q", got, want)
		}
		off := angle.Degree
		if bound == fix.NotMore {
			off = -off
		}
		if !c.Clear(c.Limit.Add(off)) || c.Clear(c.Limit.Add(-off)) {
			t.Errorf("%v: the other hand is clear", c)
		}
	}
}

func TestDangerAnglesTellHowTheyWereFound(t *testing.T) {
	rock := fixtest.From(plMinnow.Position, 100, 3000)
	horizontal := angle.Must(fix.HorizontalDangerAngle(plMinnow, plOrlesk, rock, 500, fix.Outside))
	sheet := horizontal.Round(angle.Degree).Working()
	radius, _ := sheet.Steps.Find("radius")
	base, _ := sheet.Steps.Find("base")
	if want := base.Number / (2 * horizontal.Round(angle.Degree).Limit.Sin()); !fixtest.Near(radius.Number, want, 1e-9) || radius.Unit != "nautical miles" || sheet.Title != "Horizontal danger angle" || len(sheet.Warnings) != 0 {
		t.Errorf("radius %v, want %v\n%v", radius.Number, want, sheet)
	}
	for pass, want := range map[fix.Pass]string{fix.Outside: "says, on the safe side", fix.Inside: "inside is NOT on the safe side"} {
		sheet := angle.Must(fix.VerticalDangerAngle(42, 3*plMile, pass)).Working()
		height, _ := sheet.Steps.Find("height")
		distance, _ := sheet.Steps.Find("distance")
		limit, _ := sheet.Steps.Find("limit")
		if !fixtest.Near(math.Tan(limit.Number*math.Pi/180), height.Number/(distance.Number*1852), 1e-9) || (len(sheet.Warnings) == 0) != (pass == fix.Outside) || !strings.Contains(sheet.String(), want) { // the unit of angle
			t.Errorf("\n%v", sheet)
		}
	}
	if plain := (fix.DangerAngle{Limit: angle.Degree, Bound: fix.NotMore}).Working(); len(plain.Steps) != 2 || plain.Title != "Danger angle" {
		t.Errorf("\n%v", plain)
	}
}

// dgSubtends is the angle between two marks from a place.
func dgSubtends(from, a, b angle.Position) angle.Angle {
	return dgTrue(from, a).Sub(dgTrue(from, b)).Abs()
}

func TestAHorizontalDangerAngleKeepsTheMargin(t *testing.T) {
	clear := 0
	rapid.Check(t, func(t *rapid.T) {
		danger := dgPlace(t)
		margin := rapid.Float64Range(100, 600).Draw(t, "margin")
		way := rapid.Float64Range(0, 360).Draw(t, "way")
		var flat [2]complex128 // the marks on a plane about the danger
		mark := func(name string, side float64) fix.Mark {
			bearing, off := way+side*rapid.Float64Range(20, 70).Draw(t, name), rapid.Float64Range(1500, 6000).Draw(t, "off "+name)
			flat[int(1+side)/2] = cmplx.Rect(off, bearing*math.Pi/180)
			return fix.Mark{Name: name, Position: fixtest.From(danger, bearing, off)}
		}
		left, right := mark("left", -1), mark("right", 1)
		along := flat[1] - flat[0]
		line := math.Abs(imag(cmplx.Conj(along)*flat[0])) / cmplx.Abs(along) // how far off it passes
		pass := rapid.SampledFrom([]fix.Pass{fix.Outside, fix.Inside}).Draw(t, "pass")
		d, err := fix.HorizontalDangerAngle(left, right, danger, sailing.Distance(margin), pass)
		if _, refused := errors.AsType[*fix.DangerError](err); refused && line < margin*1.01 {
			return // as it should be
		}
		if err != nil {
			t.Fatal(err)
		}
		if want := map[fix.Pass]fix.Bound{fix.Outside: fix.NotMore, fix.Inside: fix.NotLess}[pass]; d.Bound != want {
			t.Fatalf("%v", d.Bound)
		}
		p := fixtest.From(danger, rapid.Float64Range(0, 360).Draw(t, "to"), margin*rapid.Float64Range(0, 3).Draw(t, "times"))
		if a := dgSubtends(p, left.Position, right.Position); d.Clear(a) {
			clear++
			if off := fixtest.Apart(p, danger); off < margin*0.99 { // the plane in which the margin is drawn
				t.Fatalf("%v is %v %v, and %.0f m off the danger: want %.0f", a, d.Bound, d.Limit, off, margin)
			}
		}
		// The limit is met on the margin itself.
		best := math.Inf(1)
		for i := range 180 {
			a := dgSubtends(fixtest.From(danger, float64(i)*2, margin), left.Position, right.Position)
			best = min(best, (a - d.Limit).Abs().Degrees())
		}
		if best > 0.3 { // 2° between the samples
			t.Fatalf("the limit %v is met nowhere on the margin, by %v°", d.Limit, best)
		}
	})
	if clear == 0 && !testing.Short() { // of the few that are drawn then
		t.Error("nothing is clear anywhere")
	}
	if d := (fix.DangerAngle{Limit: 40 * angle.Degree, Bound: fix.NotLess}); !d.Clear(40*angle.Degree) || d.Clear(39*angle.Degree) {
		t.Error("the limit is on the wrong side")
	}
}
