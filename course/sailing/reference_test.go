package sailing_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
)

// rows reads a file of testdata; see the README there.
func rows(t testing.TB, name string) [][]float64 {
	t.Helper()
	f, err := os.Open("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	records, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out [][]float64
	for _, r := range records[1:] {
		var row []float64
		for _, text := range r[1:] {
			v, err := strconv.ParseFloat(text, 64)
			if err != nil {
				t.Fatal(err)
			}
			row = append(row, v)
		}
		out = append(out, row)
	}
	return out
}

func at(t testing.TB, latitude, longitude float64) angle.Position {
	t.Helper()
	p, err := angle.PositionDegrees(latitude, longitude)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// sideways is how far apart two azimuths end after a distance, in metres.
func sideways(a, b, metres float64) float64 {
	return math.Abs(math.Remainder(a-b, 360)) * math.Pi / 180 * metres
}

func TestRhumbLinesAgreeWithGeographicLib(t *testing.T) {
	var far, side float64
	for _, r := range rows(t, "rhumb_wgs84.csv") {
		got := sailing.WGS84().Rhumb(at(t, r[0], r[1]), at(t, r[2], r[3]))
		far = max(far, math.Abs(got.Distance.Metres()-r[5]))
		side = max(side, sideways(got.Course.Degrees(), r[4], r[5]))
	}
	// The bar is 1 mm. Positions are held to 31 nm; ten metres from a pole that is
	// seven digits of the polar distance, on lines of 20,000 km.
	if far > 2.5e-5 || side > 1.5e-4 {
		t.Errorf("distances within %.2g m, courses within %.2g m sideways", far, side)
	}
}

func TestRunsEndWhereGeographicLibEnds(t *testing.T) {
	var off float64
	for _, r := range rows(t, "rhumb_direct_wgs84.csv") {
		course, err := angle.TrueDegrees(r[2])
		if err != nil {
			t.Fatal(err)
		}
		got, err := sailing.WGS84().Follow(at(t, r[0], r[1]), sailing.Run{Course: course, Distance: sailing.Distance(r[3])})
		if err != nil {
			t.Fatal(r, err)
		}
		lat, lon := got.Degrees()
		north := (lat - r[4]) * math.Pi / 180 * 6.4e6
		east := math.Remainder(lon-r[5], 360) * math.Pi / 180 * 6.4e6 * math.Cos(lat*math.Pi/180)
		off = max(off, math.Hypot(north, east))
	}
	if off > 2e-7 { // the bar is 1 mm
		t.Errorf("within %.2g m", off)
	}
}
