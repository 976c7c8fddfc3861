package plot_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/course/plot"
	"lubberline.example/variation"
)

var orleskBay = variation.MustParseLegend("7°20′W 2015 (12′E)") // invented

func compassRose(t fails, r plot.Rose) []element {
	t.Helper()
	s, err := plot.CompassRose(r)
	if err != nil {
		t.Fatal(err)
	}
	return elements(t, s)
}

func TestRoseHasLegendOfItsYear(t *testing.T) {
	for legend, want := range map[string]string{
		"7°20′W 2015 (12′E)":             "5°08′W 2026 (12′E)",
		"7°20′W 2015":                    "7°20′W 2026",
		"3°50′W 2014 (no annual change)": "3°50′W 2026 (no annual change)",
		"1°00′W 2021 (12′E)":             "0°00′E 2026 (12′E)",
		"176°00′E 2016 (30′E)":           "179°00′W 2026 (30′E)",
		"4°15.5′W 2009 (8.2′E)":          "1°56′W 2026 (8.2′E)",
	} {
		var got []string
		for _, e := range ofClass(compassRose(t, plot.Rose{Legend: variation.MustParseLegend(legend), Year: 2026}), "legend") {
			got = append(got, e.text)
		}
		if s := strings.Join(got, " "); s != want {
			t.Errorf("%s: %q, want %q", legend, s, want)
		}
	}
}

// turns returns the true directions of the figure 000 on the rings, from the centre.
func turns(t fails, all []element) (directions []float64, centre drawing.Spot) {
	t.Helper()
	ring := ofClass(all, "true")[0]
	centre = drawing.At(ring.number(t, "cx"), ring.number(t, "cy"))
	for _, e := range all {
		if e.text == "000" {
			directions = append(directions, math.Atan2(e.number(t, "x")-centre.X, centre.Y-e.number(t, "y"))*180/math.Pi)
		}
	}
	return directions, centre
}

func TestInnerRingIsTurnedByVariation(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		east := angle.Must(angle.Degrees(rapid.Float64Range(-179, 180).Draw(t, "east")))
		r := plot.Rose{Legend: variation.Rose{Variation: variation.East(east), Year: 2026}, Diameter: rapid.Float64Range(40, 300).Draw(t, "diameter")}
		s, err := plot.CompassRose(r)
		if err != nil {
			t.Fatal(err)
		}
		all := elements(t, s)
		north, _ := turns(t, all)
		// Figures to 0.01 mm, at least 8 mm from the centre.
		if len(north) != 2 || math.Abs(north[0]) > 0.1 || math.Abs(math.Remainder(north[1]-east.Degrees(), 360)) > 0.1 {
			t.Fatalf("norths at %v, want 0 and %v", north, east.Degrees())
		}
		tip := ofClass(all, "magnetic-north")[0].points(t)[0]
		_, centre := turns(t, all)
		// The star of true north stands outside the ring, above it.
		for _, c := range ofClass(all, "north")[0].points(t) {
			if off := math.Hypot(c.X-centre.X, c.Y-centre.Y) - r.Diameter/2; off < 0 || c.Y > centre.Y {
				t.Fatalf("the mark of north has a corner %.2f mm off the ring", off)
			}
		}
		if d := math.Atan2(tip.X-centre.X, centre.Y-tip.Y) * 180 / math.Pi; math.Abs(math.Remainder(d-east.Degrees(), 360)) > 0.1 {
			t.Fatalf("arrow to %v, want %v", d, east.Degrees())
		}
	})
}

func TestDirectionAcrossRose(t *testing.T) {
	for degrees := 0; degrees < 360; degrees += 7 {
		to := angle.TrueFrom(angle.Angle(degrees) * angle.Degree)
		all := compassRose(t, plot.Rose{Legend: orleskBay, Year: 2026, Direction: &to})
		name := fmt.Sprint(to)
		_, centre := turns(t, all)
		var text strings.Builder
		for _, e := range all {
			text.WriteString(e.text + "\n")
		}
		for _, want := range []string{name, fmt.Sprint(to.Reciprocal()), fmt.Sprintf("%.1f", variation.MustParse("5°08′W").Magnetic(to))} {
			if !strings.Contains(text.String(), "\n"+want+"\n") {
				t.Errorf("%s: no %s", name, want)
			}
		}
		for _, e := range ofClass(all, "direction") {
			for _, end := range []string{"1", "2"} {
				x, y := e.number(t, "x"+end)-centre.X, centre.Y-e.number(t, "y"+end)
				if off := x*math.Cos(float64(degrees)*math.Pi/180) - y*math.Sin(float64(degrees)*math.Pi/180); math.Abs(off) > 0.01 {
					t.Errorf("%s: an end of the ruler is %.3f mm off the direction", name, off)
				}
			}
		}
		if len(ofClass(all, "legend")) == 0 {
			t.Errorf("%s: no legend", name)
		}
		// Neither the direction nor the arrow crosses the legend.
		lines := [][2]drawing.Spot{{centre, ofClass(all, "magnetic-north")[0].points(t)[0]}}
		lines[0][0].X, lines[0][0].Y = lines[0][0].X+0.3*(lines[0][1].X-centre.X), lines[0][0].Y+0.3*(lines[0][1].Y-centre.Y) // where it begins
		for _, e := range ofClass(all, "direction") {
			lines = append(lines, [2]drawing.Spot{{X: e.number(t, "x1"), Y: e.number(t, "y1")}, {X: e.number(t, "x2"), Y: e.number(t, "y2")}})
		}
		for _, e := range ofClass(all, "legend") {
			size := e.number(t, "font-size")
			box := drawing.Around(drawing.At(e.number(t, "x"), e.number(t, "y")-0.36*size), size*drawing.TextWidth(e.text)/2, 0.36*size)
			for _, l := range lines {
				for part := 0.0; part <= 1; part += 0.01 {
					if at := drawing.At(l[0].X+part*(l[1].X-l[0].X), l[0].Y+part*(l[1].Y-l[0].Y)); box.Holds(at) {
						t.Fatalf("%s: a line crosses the legend at %.2f", name, at)
					}
				}
			}
		}
		textsApart(t, name, all)
	}
}

func TestRosesOfAnyDiameter(t *testing.T) {
	for _, d := range []float64{40, 60, 90, 150, 500} {
		all := compassRose(t, plot.Rose{Legend: orleskBay, Year: 2026, Diameter: d})
		if r := ofClass(all, "true")[0].number(t, "r"); r != d/2 {
			t.Errorf("%v mm: the radius is %v", d, r)
		}
		if len(ofClass(all, "legend")) == 0 {
			t.Errorf("%v mm: no legend", d)
		}
		if all := compassRose(t, plot.Rose{Diameter: d}); len(ofClass(all, "magnetic"))+len(ofClass(all, "legend")) != 0 {
			t.Errorf("%v mm: a true rose has a magnetic ring", d)
		}
	}
}

func TestRosesOutOfRange(t *testing.T) {
	for _, r := range []plot.Rose{{Diameter: 39}, {Diameter: 501}, {Diameter: math.NaN()}, {Diameter: math.Inf(1)}, {Legend: orleskBay, Year: 3000}, {Legend: orleskBay, Year: -1}} {
		if _, err := plot.CompassRose(r); err == nil {
			t.Errorf("%+v: drawn", r)
		} else if _, ok := errors.AsType[*angle.RangeError](err); !ok {
			t.Errorf("%+v: %T", r, err)
		}
	}
}
