package wmm_test

import (
	"encoding/json"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/wmm"
)

// again is a value written as JSON and read back.
func again[T any](t interface{ Fatal(...any) }, v T) T {
	data, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	var back T
	if err := json.Unmarshal(data, &back); err != nil {
		t.Fatal(string(data), err)
	}
	return back
}

func TestDataGoThroughJSONUnchanged(t *testing.T) {
	e := inYear(t, wmm.WMM2025(), 2026.5)
	rapid.Check(t, func(t *rapid.T) {
		p, height := anyPosition(t), anyHeight(t)
		f, r, err := e.FieldAndRates(p, height)
		if err != nil {
			t.Fatal(err)
		}
		grid := wmm.Grid{
			South: p.Latitude, North: p.Latitude, West: p.Longitude,
			Width: 2 * angle.Degree, LatitudeStep: 1, LongitudeStep: angle.Degree, HeightMetres: height,
		}
		if again(t, f) != f || again(t, r) != r || again(t, grid) != grid || again(t, f.Zone()) != f.Zone() {
			t.Fatalf("%+v, %+v, %+v", f, r, grid)
		}
		if err := e.Rows(grid, func(r wmm.Row) error {
			if back := again(t, r); !reflect.DeepEqual(back, r) {
				t.Fatalf("%+v reads back as %+v", r, back)
			}
			return nil
		}); err != nil {
			t.Fatal(err)
		}
	})
	u := wmm.WMM2025().Uncertainty()
	if again(t, u) != u {
		t.Errorf("%+v", u)
	}
	lines := must(e.Isogonics(world(10*angle.Degree), -4*angle.Degree, 180*angle.Degree))(t)
	if back := again(t, lines); !reflect.DeepEqual(back, lines) {
		t.Errorf("%+v read back as %+v", lines, back)
	}
}

func TestDataInJSONAreReadable(t *testing.T) {
	for want, value := range map[string]any{
		`{"xNanotesla":1.5,"yNanotesla":-2,"zNanotesla":3}`:                   wmm.Field{X: 1.5, Y: -2, Z: 3},
		`{"xNanoteslaPerYear":1,"yNanoteslaPerYear":2,"zNanoteslaPerYear":3}`: wmm.Rates{X: 1, Y: 2, Z: 3},
		`{"declination":"-4°00′","lines":[["47°00′N 019°00′W"]]}`:             wmm.Isogonic{D: -4 * angle.Degree, Lines: [][]angle.Position{{at(47, -19)}}},
		`"caution"`: wmm.CautionZone,
		`{"xNanotesla":1,"yNanotesla":2,"zNanotesla":3,"hNanotesla":4,"fNanotesla":5,"iDegrees":6,"dOffsetDegrees":7,"dSlopeDegreeNanoteslas":8}`: wmm.UncertaintyModel{X: 1, Y: 2, Z: 3, H: 4, F: 5, I: 6, DOffset: 7, DSlope: 8},
		`{"south":"46°00′N","north":"47°00′N","west":"020°00′W","width":"2°00′","latitudeStep":"1°00′","longitudeStep":"0°30′","heightMetres":10}`: wmm.Grid{
			South: at(46, 0).Latitude, North: at(47, 0).Latitude, West: at(0, -20).Longitude, Width: 2 * angle.Degree,
			LatitudeStep: angle.Degree, LongitudeStep: angle.Degree / 2, HeightMetres: 10,
		},
	} {
		if data, err := json.Marshal(value); err != nil || string(data) != want {
			t.Errorf("%s, %v\nwant\n%s", data, err, want)
		}
	}
}
