package wmm_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/wmm"
)

func TestNames(t *testing.T) {
	const deg = angle.Degree
	for d, want := range map[angle.Angle]string{
		-4 * deg: "4°W", 0: "0°", 180 * deg: "180°", deg / 2: "0°30′E", -deg / 2: "0°30′W", 12 * deg: "12°E", -179 * deg: "179°W", -4*deg - deg/4: "4°15′W", deg / 600: "0°00.1′E",
	} {
		i := wmm.Isogonic{D: d}
		if i.Name() != want {
			t.Errorf("%v: %s, want %s", d, i.Name(), want)
		}
	}
}

// A collection is what RFC 7946 says that a feature collection is.
type collection struct {
	Type     string
	Features []struct {
		Type     string
		Geometry struct {
			Type        string
			Coordinates [][][2]float64
		}
		Properties struct {
			Declination float64
			Name        string
		}
	}
}

func geoJSON(t *testing.T, isogonics []wmm.Isogonic) (collection, string) {
	t.Helper()
	var b bytes.Buffer
	if err := wmm.WriteGeoJSON(&b, isogonics); err != nil {
		t.Fatal(err)
	}
	var c collection
	d := json.NewDecoder(bytes.NewReader(b.Bytes()))
	d.DisallowUnknownFields()
	if err := d.Decode(&c); err != nil || c.Type != "FeatureCollection" || c.Features == nil || len(c.Features) != len(isogonics) {
		t.Fatalf("%v, %s of %d", err, c.Type, len(c.Features))
	}
	return c, b.String()
}

func TestGeoJSONOfTheWorld(t *testing.T) {
	e := inYear(t, wmm.WMM2025(), 2026.5)
	lines := must(e.Isogonics(grid(-90, 90, -180, 360, 5, 5), wmm.Levels(-170*angle.Degree, 180*angle.Degree, 10*angle.Degree)...))(t)
	c, _ := geoJSON(t, lines)
	cuts := 0
	for i, f := range c.Features {
		if f.Type != "Feature" || f.Geometry.Type != "MultiLineString" || f.Properties.Name != lines[i].Name() || f.Properties.Declination != lines[i].D.Degrees() {
			t.Errorf("%+v: want %s", f, lines[i].Name())
		}
		for _, line := range f.Geometry.Coordinates {
			if len(line) < 2 {
				t.Errorf("%s: a line of %d places", f.Properties.Name, len(line))
			}
			for j, p := range line {
				if math.Abs(p[0]) > 180 || math.Abs(p[1]) > 90 {
					t.Errorf("%s: at %v", f.Properties.Name, p)
				}
				if j > 0 && math.Abs(p[0]-line[j-1][0]) > 180 {
					t.Errorf("%s: %v to %v goes round the earth", f.Properties.Name, line[j-1], p)
				}
			}
			if math.Abs(line[0][0]) == 180 || math.Abs(line[len(line)-1][0]) == 180 {
				cuts++
			}
		}
	}
	if cuts < 10 {
		t.Errorf("%d lines from the date line: it is crossed by more", cuts)
	}
}

func TestGeoJSONIsCutAtTheDateLine(t *testing.T) {
	type line = []angle.Position
	for _, tt := range []struct {
		name string
		line line
		want string
	}{
		{"nowhere near", line{at(1, 2), at(3, -4)}, "[[[2,1],[-4,3]]]"},
		{"eastward", line{at(0, 178), at(4, -178)}, "[[[178,0],[180,2]],[[-180,2],[-178,4]]]"},
		{"westward", line{at(0, -179), at(4, 177)}, "[[[-179,0],[-180,1]],[[180,1],[177,4]]]"},
		{"to the line from the east", line{at(0, -179), at(4, 180)}, "[[[-179,0],[-180,4]]]"},
		{"to the line from the west", line{at(0, 179), at(4, 180)}, "[[[179,0],[180,4]]]"},
		{"from the line eastward", line{at(0, 180), at(4, -179)}, "[[[-180,0],[-179,4]]]"},
		{"from the line westward", line{at(0, 180), at(4, 179)}, "[[[180,0],[179,4]]]"},
		{"over a place on it, eastward", line{at(0, 179), at(2, 180), at(4, -179)}, "[[[179,0],[180,2]],[[-180,2],[-179,4]]]"},
		{"over a place on it, westward", line{at(0, -179), at(2, 180), at(4, 179)}, "[[[-179,0],[-180,2]],[[180,2],[179,4]]]"},
		{"touching it from the east", line{at(0, -179), at(2, 180), at(4, -179)}, "[[[-179,0],[-180,2]],[[-180,2],[-179,4]]]"},
		{"along it", line{at(0, 180), at(4, 180)}, "[[[180,0],[180,4]]]"},
		{"to and fro", line{at(0, 179), at(2, -179), at(4, 179)}, "[[[179,0],[180,1]],[[-180,1],[-179,2],[-180,3]],[[180,3],[179,4]]]"},
		{"one place", line{at(0, 1)}, "[]"},
		{"none", nil, "[]"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			_, text := geoJSON(t, []wmm.Isogonic{{D: -angle.Degree / 2, Lines: []line{tt.line}}})
			want := `{"type":"FeatureCollection","features":[{"type":"Feature","geometry":{"type":"MultiLineString","coordinates":` + tt.want +
				`},"properties":{"declination":-0.5,"name":"0°30′W"}}]}`
			if strings.TrimSpace(text) != want {
				t.Errorf("\n%s\n%s", text, want)
			}
		})
	}
	if _, text := geoJSON(t, nil); strings.TrimSpace(text) != `{"type":"FeatureCollection","features":[]}` {
		t.Error(text)
	}
	broken := errors.New("the disk is wet")
	if err := wmm.WriteGeoJSON(failing{broken}, nil); !errors.Is(err, broken) {
		t.Error(err)
	}
}

type failing struct{ err error }

func (f failing) Write([]byte) (int, error) { return 0, f.err }
