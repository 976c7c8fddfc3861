package sky_test

import (
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/deviation/sky"
)

// Results are kept here so that the compiler can't drop the work.
var (
	keptSight   sky.Sight
	keptBearing sky.RisingSetting
	keptTime    time.Time
	keptErr     error
)

var (
	benchmarkTime     = time.Date(2026, 5, 14, 8, 30, 0, 0, time.UTC)
	benchmarkPosition = angle.MustParsePosition("47°00′N 019°10′W")
)

func BenchmarkAtFrom(b *testing.B) {
	b.ReportAllocs()
	t := benchmarkTime
	for b.Loop() {
		s, err := sky.Sun(t)
		keptSight, keptErr = s.From(benchmarkPosition), err
		t = t.Add(time.Second)
	}
}

func BenchmarkAmplitude(b *testing.B) {
	b.ReportAllocs()
	declination := -20 * deg
	for b.Loop() {
		keptBearing, keptErr = sky.Amplitude(benchmarkPosition.Latitude, declination)
	}
}

func BenchmarkNextRise(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		keptTime, keptErr = sky.Next(sky.Rise, benchmarkPosition, benchmarkTime)
	}
}

func BenchmarkNextMeridianPassage(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		keptTime, keptErr = sky.Next(sky.MeridianPassage, benchmarkPosition, benchmarkTime)
	}
}

func TestNothingIsAllocated(t *testing.T) {
	if n := testing.AllocsPerRun(100, func() {
		s, err := sky.Sun(benchmarkTime)
		keptSight, keptErr = s.From(benchmarkPosition), err
	}); n != 0 {
		t.Errorf("%v allocations", n)
	}
}

var keptSights []sky.Sight

func BenchmarkStarFrom(b *testing.B) {
	b.ReportAllocs()
	t := benchmarkTime
	for b.Loop() {
		s, err := sky.Star("Vega", t)
		keptSight, keptErr = s.From(benchmarkPosition), err
		t = t.Add(time.Second)
	}
}

func BenchmarkWellPlaced(b *testing.B) {
	b.ReportAllocs()
	t := benchmarkTime.Add(-7 * time.Hour)
	for b.Loop() {
		keptSights, keptErr = sky.WellPlaced(benchmarkPosition, t)
	}
}
