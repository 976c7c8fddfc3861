package sailing_test

import (
	"testing"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
)

// Results are kept here so that the compiler can't drop the work.
var (
	keptRun      sailing.Run
	keptPosition angle.Position
	keptErr      error
)

func BenchmarkRhumb(b *testing.B) {
	data := rows(b, "rhumb_wgs84.csv")
	pairs := make([][2]angle.Position, len(data))
	for i, r := range data {
		pairs[i] = [2]angle.Position{at(b, r[0], r[1]), at(b, r[2], r[3])}
	}
	e := sailing.WGS84()
	b.ReportAllocs()
	i := 0
	for b.Loop() {
		keptRun = e.Rhumb(pairs[i][0], pairs[i][1])
		if i++; i == len(pairs) {
			i = 0
		}
	}
}

func BenchmarkFollow(b *testing.B) {
	data := rows(b, "rhumb_direct_wgs84.csv")
	type start struct {
		from angle.Position
		run  sailing.Run
	}
	starts := make([]start, len(data))
	for i, r := range data {
		course, err := angle.TrueDegrees(r[2])
		if err != nil {
			b.Fatal(err)
		}
		starts[i] = start{at(b, r[0], r[1]), sailing.Run{Course: course, Distance: sailing.Distance(r[3])}}
	}
	e := sailing.WGS84()
	b.ReportAllocs()
	i := 0
	for b.Loop() {
		keptPosition, keptErr = e.Follow(starts[i].from, starts[i].run)
		if i++; i == len(starts) {
			i = 0
		}
	}
}

func BenchmarkGeodesic(b *testing.B) {
	from, to := angle.MustParsePosition("47°N 010°W"), angle.MustParsePosition("38°N 060°W")
	b.ReportAllocs()
	for b.Loop() {
		_, _ = sailing.WGS84().GreatCircle(from, to)
	}
}

func BenchmarkGeodesicAt(b *testing.B) {
	g := angle.Must(sailing.WGS84().GreatCircle(angle.MustParsePosition("47°N 010°W"), angle.MustParsePosition("38°N 060°W")))
	b.ReportAllocs()
	for b.Loop() {
		_, _ = g.At(500 * sailing.NauticalMile)
	}
}
