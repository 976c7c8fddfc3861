package plot_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/course/sailing"
	"lubberline.example/course/signs"
	"lubberline.example/fix"
	"lubberline.example/fix/danger"
	"lubberline.example/fix/internal/fixtest"
	"lubberline.example/fix/plot"
)

// dgScale returns the metres to a millimetre by the scale above the chart.
func dgScale(t *testing.T, all []pcElement) float64 {
	t.Helper()
	for i, e := range all {
		if e.class != "scale" {
			continue
		}
		for _, text := range all[i:] {
			if text.name == "text" {
				var n float64
				if _, err := fmt.Sscanf(text.text, "%g M", &n); err != nil {
					t.Fatal(err)
				}
				return 1852 * n / (e.number("x2") - e.number("x1"))
			}
		}
	}
	t.Fatal("no scale")
	return 0
}

// dgPath returns the points of a limit and the ends of its hatch.
func dgPath(all []pcElement, class string) (path []drawing.Spot, hatch [][2]drawing.Spot) {
	for i, e := range all {
		if e.name != "g" || e.class != class {
			continue
		}
		for _, e := range all[i+1:] {
			if e.name != "polyline" && e.name != "line" { // the limit and its hatch stand first
				break
			}
			switch {
			case e.class == "clearing-line":
				path = append(path, pcPoints(e)...)
			case e.name == "line":
				hatch = append(hatch, [2]drawing.Spot{drawing.At(e.number("x1"), e.number("y1")), drawing.At(e.number("x2"), e.number("y2"))})
			}
		}
	}
	return path, hatch
}

// dgOff returns the distance of a spot from a path.
func dgOff(path []drawing.Spot, s drawing.Spot) float64 {
	least := math.Inf(1)
	for i := 1; i < len(path); i++ {
		a, b := path[i-1], path[i]
		x, y := b.X-a.X, b.Y-a.Y
		k := 0.0
		if l := x*x + y*y; l > 0 {
			k = min(max(((s.X-a.X)*x+(s.Y-a.Y)*y)/l, 0), 1)
		}
		least = min(least, math.Hypot(s.X-a.X-k*x, s.Y-a.Y-k*y))
	}
	return least
}

// dgDanger returns where the danger is drawn, and the radius of its margin.
func dgDanger(t *testing.T, all []pcElement) (drawing.Spot, float64) {
	t.Helper()
	margin := pcClass(all, "margin")
	if len(margin) != 1 {
		t.Fatalf("%d margins", len(margin))
	}
	return drawing.At(margin[0].number("cx"), margin[0].number("cy")), margin[0].number("r")
}

// dgHatchedToward reports whether the hatch near a spot is on its side of the path.
func dgHatchedToward(path []drawing.Spot, hatch [][2]drawing.Spot, s drawing.Spot) bool {
	best, toward := math.Inf(1), false
	for _, h := range hatch {
		d := math.Hypot(h[0].X-s.X, h[0].Y-s.Y)
		if d >= best {
			continue
		}
		best = d
		least := math.Inf(1)
		for i := 1; i < len(path); i++ {
			a, b := path[i-1], path[i]
			if off := dgOff(path[i-1:i+1], h[0]); off < least {
				least = off
				side := func(q drawing.Spot) bool { return (b.X-a.X)*(q.Y-a.Y)-(b.Y-a.Y)*(q.X-a.X) > 0 }
				toward = side(s) == side(h[1])
			}
		}
	}
	return toward
}

// A limit touches the margin of its danger, to 0.2 mm, and is hatched on its side, anywhere.
func TestLimitsTouchTheMargin(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 26))
	count := 24
	if os.Getenv("FULL") == "1" {
		count = 240
	}
	for i := range count {
		rock := fixtest.At([]float64{47, -36, 78, 0.1, -16.8, 70}[i%6], []float64{-19, 175, 15, 180, 179.99, -179.95}[i%6])
		margin := sailing.Distance(700 + 600*r.Float64())
		toward := 360 * r.Float64()
		mark := fix.Mark{Name: "標識 beacon", Position: fixtest.From(rock, toward, 3000+9000*r.Float64())}
		plan := plot.DangerPlan{Dangers: []plot.Danger{{Name: "Hob Rock", Position: rock, Margin: margin}}, Signs: []signs.Usage{signs.Commonwealth, signs.UnitedStates}[i%2]}
		class, towardDanger := "bearing-1", true
		switch i % 4 {
		case 0, 1:
			side := []angle.Side{angle.Port, angle.Starboard}[i/4%2]
			plan.Bearings = append(plan.Bearings, angle.Must(danger.NewClearingBearing(mark, rock, margin, side)))
		case 2:
			class = "horizontal-1"
			pass := []danger.Pass{danger.Outside, danger.Inside}[i/4%2]
			// The marks stand on both sides of the way to the rock, the left one to the left.
			a := fix.Mark{Name: "left", Position: fixtest.From(rock, toward-35, 6000)}
			b := fix.Mark{Name: "right", Position: fixtest.From(rock, toward+40, 7000)}
			limit, err := danger.HorizontalAngle(a, b, rock, margin, pass)
			if err != nil {
				t.Fatal(err)
			}
			plan.Horizontal = append(plan.Horizontal, plot.HorizontalLimit{Left: a, Right: b, Angle: limit})
		case 3:
			class = "vertical-1"
			off := fixtest.Apart(mark.Position, rock) + float64(margin)
			limit := angle.Must(danger.VerticalAngle(40, sailing.Distance(off), danger.Outside))
			plan.Vertical = append(plan.Vertical, plot.VerticalLimit{Mark: mark, Height: 40, Angle: limit})
		}
		sheet, err := plot.Dangers(plan)
		if err != nil {
			t.Fatal(err)
		}
		all := pcElements(t, sheet)
		plOverlaps(t, fmt.Sprint(i, " ", class), all)
		at, radius := dgDanger(t, all)
		scale := dgScale(t, all)
		if off := math.Abs(radius - float64(margin)/scale); off > 0.2 {
			t.Errorf("%d: the margin is %.2f mm wrong", i, off)
		}
		path, hatch := dgPath(all, class)
		if len(path) < 2 || len(hatch) < 5 {
			t.Fatalf("%d: %s has %d points and %d strokes of hatch", i, class, len(path), len(hatch))
		}
		if off := math.Abs(dgOff(path, at) - radius); off > 0.2 {
			t.Errorf("%d: %s passes %.2f mm from the margin", i, class, off)
		}
		if dgHatchedToward(path, hatch, at) != towardDanger {
			t.Errorf("%d: %s is hatched on the wrong side", i, class)
		}
	}
}

// Many limits on one chart: no text overlaps another.
func TestTextsOfDangersDoNotOverlap(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 26))
	count := 12
	if os.Getenv("FULL") == "1" {
		count = 200
	}
	for i := range count {
		var plan plot.DangerPlan
		rock := fixtest.At(-60+120*r.Float64(), 360*r.Float64()-180)
		for k := range 1 + r.IntN(4) {
			d := plot.Danger{Name: []string{"Hob Rock", "岩", "", "A rock of a very long name indeed"}[k], Position: fixtest.From(rock, 360*r.Float64(), 4000*r.Float64()), Margin: 300}
			plan.Dangers = append(plan.Dangers, d)
			mark := fix.Mark{Name: []string{"Маяк", "St Osk church", "Braddle Point tower", "W"}[k], Position: fixtest.From(d.Position, 360*r.Float64(), 2000+8000*r.Float64())}
			plan.Bearings = append(plan.Bearings, angle.Must(danger.NewClearingBearing(mark, d.Position, d.Margin, angle.Port)))
			if k == 1 {
				plan.Vertical = append(plan.Vertical, plot.VerticalLimit{Mark: mark, Height: 40, Angle: angle.Must(danger.VerticalAngle(40, 3000, danger.Outside))})
			}
		}
		sheet, err := plot.Dangers(plan)
		if err != nil {
			t.Fatal(err)
		}
		plOverlaps(t, fmt.Sprint("plan ", i), pcElements(t, sheet))
	}
}

func TestLimitsAreLabelled(t *testing.T) {
	rock := angle.MustParsePosition("46°49.3′N 019°02.4′W")
	tower := fix.Mark{Name: "Braddle Point tower", Position: angle.MustParsePosition("46°47.5′N 019°01.0′W")}
	church := fix.Mark{Name: "St Osk church", Position: angle.MustParsePosition("46°57.0′N 019°03.0′W")}
	margin := sailing.NauticalMile / 2
	sheet, err := plot.Dangers(plot.DangerPlan{
		Dangers: []plot.Danger{{Name: "Hob Rock", Position: rock, Margin: margin}},
		Bearings: []danger.ClearingBearing{
			angle.Must(danger.NewClearingBearing(tower, rock, margin, angle.Port)), angle.Must(danger.NewClearingBearing(church, rock, margin, angle.Starboard)),
		},
		Vertical: []plot.VerticalLimit{{Mark: tower, Height: 42, Angle: angle.Must(danger.VerticalAngle(42, 2.54*sailing.NauticalMile, danger.Outside))}},
	})
	if err != nil {
		t.Fatal(err)
	}
	var texts []string
	for _, e := range pcElements(t, sheet) {
		texts = append(texts, e.text)
	}
	joined := strings.Join(texts, "\n")
	// The limits of package danger: not more than 137.7°T, not less than 000.7°T.
	for _, want := range []string{"NMT 137.7°T", "NLT 000.7°T", "NMT 0°30.6′", "Braddle Point tower bears not more than 137.7°T", "St Osk church bears not less than 000.7°T", "clearing line, hatched on the side of the danger", "Hob Rock"} {
		if !strings.Contains(joined, want) {
			t.Errorf("no %q in %s", want, joined)
		}
	}
	if !strings.Contains(sheet.Description(), "margin 0.5 M") {
		t.Error(sheet.Description())
	}
}

func TestPlansThatCannotBeDrawnAreRefused(t *testing.T) {
	mark := fix.Mark{Name: "a", Position: fixtest.At(47, -19)}
	for name, plan := range map[string]plot.DangerPlan{
		"nothing":         {},
		"no bound":        {Bearings: []danger.ClearingBearing{{Mark: mark}}},
		"one place":       {Horizontal: []plot.HorizontalLimit{{Left: mark, Right: mark, Angle: danger.Angle{Limit: angle.Degree, Bound: danger.NotMoreThan}}}},
		"no angle":        {Vertical: []plot.VerticalLimit{{Mark: mark, Height: 40, Angle: danger.Angle{Bound: danger.NotMoreThan}}}},
		"no height":       {Vertical: []plot.VerticalLimit{{Mark: mark, Angle: danger.Angle{Limit: angle.Degree, Bound: danger.NotMoreThan}}}},
		"negative margin": {Dangers: []plot.Danger{{Margin: -1}}, Bearings: []danger.ClearingBearing{{Mark: mark, Bound: danger.NotLessThan}}},
	} {
		if _, err := plot.Dangers(plan); !errors.As(err, new(*fix.Error)) {
			t.Errorf("%s: %v", name, err)
		}
	}
}
