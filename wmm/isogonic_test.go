package wmm_test

import (
	"math"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/wmm"
)

// checkOnLine checks that each place of a line has its declination.
func checkOnLine(t *testing.T, e *wmm.Evaluator, i wmm.Isogonic, height float64) {
	t.Helper()
	for _, line := range i.Lines {
		if len(line) < 2 {
			t.Errorf("%s: a line of %d places", i.Name(), len(line))
		}
		for _, p := range line {
			f := must(e.Field(p, height))(t)
			if f.H() < 1 {
				continue // a dip pole: checked as an end
			}
			d := must(f.D())(t)
			// A tenth of a millionth of a degree where H is 20,000 nT; where it is
			// weak, D turns faster.
			if off := (d - i.D).NormalizedSigned().Degrees() * f.H() / 20000; math.Abs(off) > 1e-7 {
				t.Errorf("%s: %v at %v, off by %g", i.Name(), d, p, off)
			}
		}
	}
}

func TestIsogonicsOfTheWorld(t *testing.T) {
	e := inYear(t, wmm.WMM2025(), 2026)
	levels := wmm.Levels(-170*angle.Degree, 180*angle.Degree, 10*angle.Degree)
	all := must(e.Isogonics(world(degrees(2)), levels...))(t)
	if len(all) != 36 {
		t.Fatalf("%d levels", len(all))
	}
	dip := map[angle.Position]int{}
	for k, i := range all {
		if i.D != levels[k] {
			t.Errorf("level %d is %v", k, i.D)
		}
		if len(i.Lines) < 2 {
			t.Errorf("%s: %d lines: want one at each dip pole at least", i.Name(), len(i.Lines))
		}
		checkOnLine(t, e, i, 0)
		for _, line := range i.Lines {
			if line[0] == line[len(line)-1] {
				continue // closed
			}
			for _, end := range []angle.Position{line[0], line[len(line)-1]} {
				f := must(e.Field(end, 0))(t)
				switch {
				case end.Latitude.Angle().Abs() == 90*angle.Degree:
				case f.H() < 0.01:
					dip[end]++
				default:
					t.Errorf("%s ends at %v, H %.1f nT", i.Name(), end, f.H())
				}
			}
		}
	}
	// The dip poles of the model in 2026, each found again by every line.
	north, south := 0, 0
	for p := range dip {
		if p.Latitude.Angle() > 0 {
			north++
			if lat, lon := p.Degrees(); math.Abs(lat-85.56) > 0.2 || math.Abs(lon-136) > 3 {
				t.Errorf("north dip pole at %v", p)
			}
		} else {
			south++
			if lat, lon := p.Degrees(); math.Abs(lat+63.8) > 0.2 || math.Abs(lon-135) > 1 {
				t.Errorf("south dip pole at %v", p)
			}
		}
	}
	if north == 0 || south == 0 {
		t.Errorf("%d north and %d south dip poles", north, south)
	}
}

func TestIsogonicsOfARegionEndOnItsEdge(t *testing.T) {
	e := inYear(t, wmm.WMM2025(), 2026)
	// Across the date line, on whole steps.
	g := wmm.Grid{
		South: at(-30, 0).Latitude, North: at(30, 0).Latitude, West: at(0, 150).Longitude, Width: degrees(60),
		LatitudeStep: degrees(1), LongitudeStep: degrees(1), HeightMetres: 1000,
	}
	crossed := false
	for _, i := range must(e.Isogonics(g, wmm.Levels(-5*angle.Degree, 20*angle.Degree, angle.Degree)...))(t) {
		checkOnLine(t, e, i, 1000)
		for _, line := range i.Lines {
			for k := 1; k < len(line); k++ {
				crossed = crossed || line[k].Longitude.Angle()*line[k-1].Longitude.Angle() < 0
			}
			if line[0] == line[len(line)-1] {
				continue
			}
			for _, end := range []angle.Position{line[0], line[len(line)-1]} {
				onEdge := end.Latitude == g.South || end.Latitude == g.North ||
					end.Longitude == g.West || end.Longitude == g.West.Add(g.Width)
				if !onEdge {
					t.Errorf("%s ends at %v, inside", i.Name(), end)
				}
			}
		}
	}
	if !crossed {
		t.Error("no line across the date line")
	}
}

// A grid 360° wide need not fit its step.
func TestAStepThatDoesNotDivideTheEarth(t *testing.T) {
	e := inYear(t, wmm.WMM2025(), 2026)
	g := world(degrees(7))
	g.South, g.North = at(-60, 0).Latitude, at(60, 0).Latitude
	for _, i := range must(e.Isogonics(g, 0, 10*angle.Degree, -20*angle.Degree))(t) {
		checkOnLine(t, e, i, 0)
		for _, line := range i.Lines {
			for k := 1; k < len(line); k++ {
				if arc := line[k].ArcTo(line[k-1]); arc > degrees(14) {
					t.Errorf("%s: %v between neighbours", i.Name(), arc)
				}
			}
		}
	}
}

func TestLevelsAndNames(t *testing.T) {
	if got := wmm.Levels(-angle.Degree, angle.Degree, angle.Degree/2); len(got) != 5 || got[0] != -angle.Degree || got[4] != angle.Degree {
		t.Errorf("%v", got)
	}
	if got := wmm.Levels(1, 1, math.MaxInt64); len(got) != 1 || got[0] != 1 {
		t.Errorf("one level, a step beyond all: %v", got)
	}
	if got := wmm.Levels(0, 9999, 1); len(got) != 10_000 || got[9999] != 9999 {
		t.Errorf("ten thousand levels: %d", len(got))
	}
	for _, got := range [][]angle.Angle{wmm.Levels(0, 10_000, 1), wmm.Levels(-angle.Turn, angle.Turn, 1), wmm.Levels(1, 0, 1)} {
		if got != nil {
			t.Errorf("%d levels, want none", len(got))
		}
	}
	if got := wmm.Levels(0, math.MaxInt64, angle.Degree); got != nil {
		t.Errorf("%d levels beyond a turn", len(got))
	}
	for _, step := range []angle.Angle{0, -1} {
		if got := wmm.Levels(0, angle.Degree, step); got != nil {
			t.Errorf("step %v: %v", step, got)
		}
	}
	for d, want := range map[angle.Angle]string{
		-4 * angle.Degree: "4°W", 0: "0°", angle.Turn / 2: "180°", angle.Degree / 2: "0°30′E", 12 * angle.Degree: "12°E",
	} {
		if got := (wmm.Isogonic{D: d}).Name(); got != want {
			t.Errorf("%v: %s, want %s", d, got, want)
		}
	}
}
