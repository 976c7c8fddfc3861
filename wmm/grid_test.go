package wmm_test

import (
	"errors"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/wmm"
)

func TestRowsEqualField(t *testing.T) {
	e := inYear(t, wmm.WMM2025(), 2026.5)
	rapid.Check(t, func(t *rapid.T) {
		south := rapid.IntRange(-90, 89).Draw(t, "south")
		north := rapid.IntRange(south, 90).Draw(t, "north")
		g := wmm.Grid{
			South: at(float64(south), 0).Latitude, North: at(float64(north), 0).Latitude,
			West:          angle.LongitudeFrom(degrees(rapid.Float64Range(-180, 180).Draw(t, "west"))),
			Width:         degrees(rapid.Float64Range(0, 360).Draw(t, "width")),
			LatitudeStep:  degrees(rapid.Float64Range(5, 60).Draw(t, "step of latitude")),
			LongitudeStep: degrees(rapid.Float64Range(5, 90).Draw(t, "step of longitude")),
			HeightMetres:  anyHeight(t),
		}
		next := 0
		err := e.Rows(g, func(r wmm.Row) error {
			if r.Latitude.Angle() != g.South.Angle()+angle.Angle(next)*g.LatitudeStep {
				t.Fatalf("row %d at %v", next, r.Latitude)
			}
			next++
			for i, f := range r.Fields {
				want, err := e.Field(angle.Position{Latitude: r.Latitude, Longitude: r.Longitudes[i]}, g.HeightMetres)
				if err != nil || !nearField(f, want, 1e-8) {
					t.Fatalf("%v %v: %+v, want %+v (%v)", r.Latitude, r.Longitudes[i], f, want, err)
				}
				if r.Longitudes[i] != g.West.Add(angle.Angle(i)*g.LongitudeStep) {
					t.Fatalf("meridian %d is %v", i, r.Longitudes[i])
				}
			}
			return nil
		})
		if want := int((g.North.Angle()-g.South.Angle())/g.LatitudeStep) + 1; err != nil || next != want {
			t.Fatalf("%d rows: want %d (%v)", next, want, err)
		}
	})
}

// world returns a grid over the whole earth.
func world(step angle.Angle) wmm.Grid {
	return wmm.Grid{
		South: at(-90, 0).Latitude, North: at(90, 0).Latitude,
		West: at(0, -180).Longitude, Width: angle.Turn, LatitudeStep: step, LongitudeStep: step,
	}
}

var errEnough = errors.New("enough")

func TestRowsStopAtAnError(t *testing.T) {
	e := inYear(t, wmm.WMM2025(), 2026)
	count := 0
	if err := e.Rows(world(degrees(2)), func(wmm.Row) error { count++; return errEnough }); err != errEnough || count != 1 {
		t.Errorf("%v after %d rows", err, count)
	}
	bad := world(degrees(2))
	bad.HeightMetres = 1e9
	if err := e.Rows(bad, func(wmm.Row) error { return nil }); err == nil {
		t.Error("an invalid height")
	}
}

func TestInvalidGrids(t *testing.T) {
	e := inYear(t, wmm.WMM2025(), 2026)
	for name, change := range map[string]func(*wmm.Grid){
		"north before south":    func(g *wmm.Grid) { g.South, g.North = at(1, 0).Latitude, at(0, 0).Latitude },
		"width less than 0":     func(g *wmm.Grid) { g.Width = -1 },
		"more than a turn":      func(g *wmm.Grid) { g.Width = angle.Turn + 1 },
		"no step of latitude":   func(g *wmm.Grid) { g.LatitudeStep = 0 },
		"no step of longitude":  func(g *wmm.Grid) { g.LongitudeStep = -1 },
		"a million meridians":   func(g *wmm.Grid) { g.LongitudeStep = angle.Second },
		"a grid without a step": func(g *wmm.Grid) { *g = wmm.Grid{} },
	} {
		g := world(degrees(10))
		change(&g)
		none := func(wmm.Row) error { return nil }
		_, err3 := e.Isogonics(g, 0)
		for _, err := range []error{e.Rows(g, none), err3} {
			var ge *wmm.Error
			if !errors.As(err, &ge) || ge.Kind != wmm.BadGrid {
				t.Errorf("%s: %v", name, err)
			}
		}
	}
	// One parallel is a grid of rows, but has no lines. A grid for lines has a maximum size.
	for _, g := range []wmm.Grid{
		{South: at(1, 0).Latitude, North: at(1, 0).Latitude, Width: degrees(9), LatitudeStep: degrees(1), LongitudeStep: degrees(1)},
		world(degrees(0.05)),
	} {
		var ge *wmm.Error
		if _, err := e.Isogonics(g, 0); !errors.As(err, &ge) || ge.Kind != wmm.BadGrid {
			t.Errorf("%+v: %v", g, err)
		}
	}
}

// grid returns a grid in whole degrees.
func grid(south, north, west, width, latitudeStep, longitudeStep float64) wmm.Grid {
	return wmm.Grid{
		South: at(south, 0).Latitude, North: at(north, 0).Latitude, West: at(0, west).Longitude, Width: degrees(width),
		LatitudeStep: degrees(latitudeStep), LongitudeStep: degrees(longitudeStep),
	}
}
