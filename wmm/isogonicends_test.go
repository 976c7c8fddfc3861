package wmm_test

import (
	"fmt"
	"strings"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/wmm"
)

// ends returns how the two ends of a line are: "closed", "pole", "dip pole",
// "edge", or "" for an end in the open.
func ends(t *testing.T, e *wmm.Evaluator, g wmm.Grid, line []angle.Position) [2]string {
	t.Helper()
	first, last := line[0], line[len(line)-1]
	if first == last && len(line) > 2 {
		return [2]string{"closed", "closed"}
	}
	var kinds [2]string
	north := g.South.Angle() + (g.North.Angle() - g.South.Angle()).Truncate(g.LatitudeStep)
	for i, p := range [2]angle.Position{first, last} {
		lat, across := p.Latitude.Angle(), (p.Longitude.Angle() - g.West.Angle()).Normalized()
		switch {
		case lat.Abs() == 90*angle.Degree:
			kinds[i] = "pole"
		case must(e.Field(p, g.HeightMetres))(t).H() < 0.01:
			kinds[i] = "dip pole"
		case lat == g.South.Angle() || lat == north,
			g.Width < angle.Turn && (across == 0 || across == g.Width.Truncate(g.LongitudeStep)):
			kinds[i] = "edge"
		}
	}
	return kinds
}

// Over the whole earth each declination, 180° too, leaves each geographic pole
// once and each dip pole once, and all else closes.
func TestIsogonicsEndAtPoles(t *testing.T) {
	e := inYear(t, wmm.WMM2025(), 2026.5)
	levels := wmm.Levels(-180*angle.Degree, 180*angle.Degree, 10*angle.Degree)
	for name, g := range map[string]wmm.Grid{
		"2°":                       grid(-90, 90, -180, 360, 2, 2),
		"from elsewhere":           grid(-90, 90, 47, 360, 2, 2),
		"a step that does not fit": grid(-90, 90, -180, 360, 2, 3.7),
	} {
		t.Run(name, func(t *testing.T) {
			lines := must(e.Isogonics(g, levels...))(t)
			for _, l := range lines {
				checkOnLine(t, e, l, 0)
				count := map[string]int{}
				for _, line := range l.Lines {
					for _, kind := range ends(t, e, g, line) {
						count[kind]++
						if kind == "" || kind == "edge" {
							t.Errorf("%s: ends in the open: %v to %v, %d places", l.Name(), line[0], line[len(line)-1], len(line))
						}
					}
				}
				if count["pole"] != 2 || count["dip pole"] != 2 {
					t.Errorf("%s: %v: want two ends at poles and two at dip poles", l.Name(), count)
				}
			}
			if a, b := fmt.Sprint(lines[0].Lines), fmt.Sprint(lines[len(lines)-1].Lines); a != b || lines[0].D != angle.Turn/2 {
				t.Error("180° west is not 180° east")
			}
		})
	}
}

// A region that stops short of its north and east, by steps that do not fit, has
// its edge at the last parallel and the last meridian.
func TestIsogonicsOfOtherRegions(t *testing.T) {
	e := inYear(t, wmm.WMM2025(), 2026.5)
	for name, g := range map[string]wmm.Grid{
		"off Orlesk":         grid(40, 55, -30, 25, 1, 1),
		"from the date line": grid(-50, 50, 180, 30, 2.5, 2.5),
		"in the far south":   grid(-80, -40, 90, 90, 1, 1),
		"not to the corner":  grid(40.25, 55, -30, 25.5, 1.5, 2),
	} {
		t.Run(name, func(t *testing.T) {
			count := 0
			for _, l := range must(e.Isogonics(g, wmm.Levels(-30*angle.Degree, 30*angle.Degree, angle.Degree)...))(t) {
				checkOnLine(t, e, l, 0)
				for _, line := range l.Lines {
					count++
					if k := ends(t, e, g, line); k[0] == "" || k[1] == "" {
						t.Errorf("%s: from %v (%s) to %v (%s)", l.Name(), line[0], k[0], line[len(line)-1], k[1])
					}
				}
			}
			if count == 0 {
				t.Error("no lines")
			}
		})
	}
}

// A line crosses each parallel at the place that bisection on the parallel finds.
func TestIsogonicsByBisection(t *testing.T) {
	e := inYear(t, wmm.WMM2025(), 2026.5)
	level := -3*angle.Degree - angle.Degree/7
	lines := must(e.Isogonics(grid(40, 55, -30, 25, 1, 1), level))(t)[0].Lines
	if len(lines) != 1 {
		t.Fatalf("%d lines", len(lines))
	}
	for lat := 40.0; lat <= 55; lat++ {
		low, high := -30.0, -5.0 // D grows eastward here
		for range 60 {
			middle := (low + high) / 2
			if d := must(must(e.Field(at(lat, middle), 0))(t).D())(t); d < level {
				low = middle
			} else {
				high = middle
			}
		}
		found := false
		for _, p := range lines[0] {
			pLat, pLon := p.Degrees()
			found = found || pLat == lat && near(pLon, low, 1e-7)
		}
		if !found {
			t.Errorf("the line does not cross %v° N at %v°", lat, low)
		}
	}
}

// On coarse grids lines of saddles cross all four sides of a cell: the middle
// tells which two belong together. Its places stay on the line, and no line
// breaks off: what enters a cell leaves it, or ends at a pole.
func TestIsogonicsAtSaddles(t *testing.T) {
	e := inYear(t, wmm.WMM2025(), 2026.5)
	for _, step := range []float64{10, 20, 30} {
		for _, lonStep := range []float64{step, 1.3 * step} {
			g := grid(-60, 60, -180, 360, step, lonStep)
			for _, l := range must(e.Isogonics(g, wmm.Levels(-60*angle.Degree, 60*angle.Degree, angle.Degree)...))(t) {
				checkOnLine(t, e, l, 0)
				for _, line := range l.Lines {
					if k := ends(t, e, g, line); k[0] == "" || k[1] == "" {
						t.Errorf("step %v: %s: from %v (%s) to %v (%s)", step, l.Name(), line[0], k[0], line[len(line)-1], k[1])
					}
				}
			}
		}
	}
}

// A model without a field has no lines. The agonic line of a tilted dipole is the
// meridian of its axis.
func TestIsogonicsOfSimpleFields(t *testing.T) {
	none := must(wmm.ReadCOF(strings.NewReader("2025.0 NONE\n1 0 0 0 0 0\n1 1 0 0 0 0\n" + nines)))(t)
	for _, i := range must(inYear(t, none, 2025).Isogonics(grid(-90, 90, -180, 360, 10, 10), 0, angle.Degree))(t) {
		if len(i.Lines) != 0 {
			t.Errorf("%s: %d lines", i.Name(), len(i.Lines))
		}
	}
	tilted := gauss{1, map[[2]int][4]float64{{1, 0}: {-29000}, {1, 1}: {-3000}}}.on(t, 2025)
	agonic := must(tilted.Isogonics(grid(-80, 80, -100, 360, 5, 7.5), 0))(t)[0]
	if len(agonic.Lines) == 0 {
		t.Error("no agonic line")
	}
	for _, line := range agonic.Lines {
		for _, p := range line {
			if lon := p.Longitude.Angle().Abs(); min(lon, angle.Turn/2-lon) > angle.Degree/10_000_000 {
				t.Errorf("the agonic line at %v", p)
			}
		}
	}
}

func TestRowsLetPanicsThrough(t *testing.T) {
	defer func() {
		if r := recover(); r != "man overboard" {
			t.Errorf("%v: the panic is lost", r)
		}
	}()
	e := inYear(t, wmm.WMM2025(), 2026.5)
	_ = e.Rows(grid(-90, 90, 0, 360, 1, 30), func(wmm.Row) error { panic("man overboard") })
}
