package main

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// drawn runs the program and returns the map and the lines.
func drawn(t *testing.T, args ...string) (svg, lines []byte) {
	t.Helper()
	dir := t.TempDir()
	svgPath, linesPath := filepath.Join(dir, "map.svg"), filepath.Join(dir, "lines.geojson")
	var stdout, stderr bytes.Buffer
	args = append(args, "-svg", svgPath, "-geojson", linesPath)
	if status := run(args, &stdout, &stderr); status != 0 {
		t.Fatalf("%v: status %d: %s", args, status, &stderr)
	}
	var err error
	if svg, err = os.ReadFile(svgPath); err != nil {
		t.Fatal(err)
	}
	if lines, err = os.ReadFile(linesPath); err != nil {
		t.Fatal(err)
	}
	return svg, lines
}

func TestMaps(t *testing.T) {
	for _, args := range [][]string{
		{}, // the invented scenario's ocean
		{"-south", "30S", "-north", "30N", "-west", "150E", "-east", "150W"},                 // across the date line
		{"-south", "90S", "-north", "90N", "-west", "180W", "-east", "180E", "-every", "10"}, // the whole earth
		{"-south", "46°50′N", "-north", "47°10′N", "-west", "19°30′W", "-east", "19°00′W", "-every", "0.1"},
	} {
		svg, lines := drawn(t, args...)
		d := xml.NewDecoder(bytes.NewReader(svg))
		for {
			if _, err := d.Token(); err == io.EOF {
				break
			} else if err != nil {
				t.Fatalf("%v: %v", args, err)
			}
		}
		for _, want := range []string{"WMM-2025", "2 July 2026", "agonic line", "Not for navigation", "<path"} {
			if !strings.Contains(string(svg), want) {
				t.Errorf("%v: the map does not say %q", args, want)
			}
		}
		if strings.Contains(string(svg), "NaN") || strings.Contains(string(svg), "Inf") {
			t.Errorf("%v: an invalid number", args)
		}
		var collection struct {
			Type     string
			Features []struct {
				Properties struct{ Name string }
				Geometry   struct{ Coordinates [][][2]float64 }
			}
		}
		if err := json.Unmarshal(lines, &collection); err != nil || collection.Type != "FeatureCollection" || len(collection.Features) == 0 {
			t.Errorf("%v: %v, %d features", args, err, len(collection.Features))
		}
		for _, f := range collection.Features {
			if len(f.Geometry.Coordinates) == 0 || f.Properties.Name == "" {
				t.Errorf("%v: a feature without lines or name: %+v", args, f.Properties)
			}
		}
	}
}

func TestStandardOutputAndNothing(t *testing.T) {
	var stdout, stderr bytes.Buffer
	if status := run([]string{"-svg", "-", "-geojson", ""}, &stdout, &stderr); status != 0 || !strings.HasPrefix(stdout.String(), "<svg") || stderr.Len() > 0 {
		t.Errorf("status %d, %q", status, &stderr)
	}
}

func TestFaults(t *testing.T) {
	for _, test := range []struct {
		args   []string
		status int
	}{
		{[]string{"-south", "61N"}, 2},
		{[]string{"-south", "95N"}, 2},
		{[]string{"-every", "0.01"}, 2},
		{[]string{"-every", "-1"}, 2},
		{[]string{"-title", strings.Repeat("x", 61)}, 2},
		{[]string{"-south", "10S", "-north", "60N", "-west", "20W", "-east", "19W"}, 2}, // too narrow
		{[]string{"-every", "NaN"}, 2},
		{[]string{"-date", "July"}, 2},
		{[]string{"map.svg"}, 2},
		{[]string{"-date", "1880-01-01"}, 1},
		{[]string{"-svg", filepath.Join("missing", "map.svg")}, 1},
	} {
		var stdout, stderr bytes.Buffer
		if status := run(test.args, &stdout, &stderr); status != test.status || stderr.Len() == 0 {
			t.Errorf("%v: status %d, %q; want %d", test.args, status, &stderr, test.status)
		}
	}
}
