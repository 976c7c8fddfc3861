package danger_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"lubberline.example/fix"
	"lubberline.example/fix/danger"
	"lubberline.example/fix/internal/fixtest"
)

func TestAnchorWatchRadius(t *testing.T) {
	w, err := danger.NewAnchorWatch(here, danger.SwingingCircle{Cable: 50, Height: 14, Length: 12, Margin: 10})
	if err != nil || w.Radius != 48+12+10 || w.Anchor != here { // 14, 48, 50 is a right-angled triangle
		t.Errorf("%v (%v), want 70 m", w.Radius.Metres(), err)
	}
	nan, inf := sailing.Distance(math.NaN()), sailing.Distance(math.Inf(1))
	for name, s := range map[string]danger.SwingingCircle{
		"cable as long as the height": {Cable: 14, Height: 14}, "short cable": {Cable: 10, Height: 14}, "nothing": {}, "height below 0": {Cable: 50, Height: -1},
		"length below 0": {Cable: 50, Length: -1}, "margin below 0": {Cable: 50, Margin: -1}, "cable NaN": {Cable: nan}, "height NaN": {Cable: 50, Height: nan},
		"length NaN": {Cable: 50, Length: nan}, "margin NaN": {Cable: 50, Margin: nan}, "cable without end": {Cable: inf}, "margin without end": {Cable: 50, Margin: inf},
	} {
		_, err := danger.NewAnchorWatch(here, s)
		fixtest.Refused[*angle.RangeError](t, name, err)
	}
}

func TestInsideIsWithinRadius(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := danger.AnchorWatch{Anchor: dgPlace(t), Radius: sailing.Distance(rapid.Float64Range(30, 400).Draw(t, "radius"))}
		off := float64(w.Radius) * rapid.SampledFrom([]float64{0, 0.5, 0.999, 1.001, 3}).Draw(t, "times")
		p := fixtest.From(w.Anchor, rapid.Float64Range(0, 360).Draw(t, "way"), off)
		inside, got := w.Inside(p)
		if inside != (off <= float64(w.Radius)) || !fixtest.Near(float64(got), fixtest.Apart(w.Anchor, p), 0.01) { // to a centimetre, as promised
			t.Fatalf("%v at %v of %v m, put at %v", inside, got.Metres(), w.Radius.Metres(), off)
		}
	})
}

func TestAnchorBearingsHoldCircle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := danger.AnchorWatch{Anchor: dgPlace(t), Radius: sailing.Distance(rapid.Float64Range(30, 400).Draw(t, "radius"))}
		m := fix.Mark{Position: fixtest.From(w.Anchor, rapid.Float64Range(0, 360).Draw(t, "mark"), float64(w.Radius)*rapid.Float64Range(1.2, 30).Draw(t, "off"))}
		least, greatest, err := w.Bearings(m)
		if err != nil {
			t.Fatal(err)
		}
		const slack = 0.02 // degrees: the meridians' convergency within the circle, at 70°
		width := greatest.Sub(least).Degrees()
		most := 0.0
		for i := range 72 {
			p := fixtest.From(w.Anchor, float64(i)*5, float64(w.Radius))
			from := dgTrue(p, m.Position).Sub(least).Degrees()
			if from < -slack || from > width+slack {
				t.Fatalf("%v is not between %v and %v", dgTrue(p, m.Position), least, greatest)
			}
			most = max(most, from)
		}
		if most < 0.9*width { // not wider than needed; 5° between the samples
			t.Fatalf("%v of %v is used", most, width)
		}
	})
	w := danger.AnchorWatch{Anchor: here, Radius: 100}
	for _, off := range []float64{0, 50, 99.9} {
		_, _, err := w.Bearings(fix.Mark{Name: "buoy", Position: fixtest.From(here, 45, off)})
		fixtest.Refused[*danger.Error](t, "mark within", err)
	}
	_, _, err := danger.AnchorWatch{Anchor: here, Radius: sailing.Distance(math.NaN())}.Bearings(orlesk)
	fixtest.Refused[*danger.Error](t, "no radius", err)
}

func TestRadiusOutOfRangeHasNoBearings(t *testing.T) {
	for _, bad := range []float64{-1, math.NaN(), math.Inf(1)} {
		_, _, err := danger.AnchorWatch{Anchor: here, Radius: sailing.Distance(bad)}.Bearings(orlesk)
		fixtest.Refused[*danger.Error](t, "radius", err)
	}
}
