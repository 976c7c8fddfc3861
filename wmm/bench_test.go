package wmm_test

import (
	"bytes"
	"os"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/variation"
	"lubberline.example/wmm"
)

func BenchmarkField(b *testing.B) {
	e, p, i := inYear(b, wmm.WMM2025(), 2026), somePlaces(1024), 0
	b.ReportAllocs()
	for b.Loop() {
		keptField, keptErr = e.Field(p[i%1024], 0)
		i++
	}
}

func BenchmarkFieldAndRates(b *testing.B) {
	e, p, i := inYear(b, wmm.WMM2025(), 2026), somePlaces(1024), 0
	b.ReportAllocs()
	for b.Loop() {
		keptField, keptRates, keptErr = e.FieldAndRates(p[i%1024], 0)
		i++
	}
}

func BenchmarkVariationAt(b *testing.B) {
	m, p, i := wmm.WMM2025(), somePlaces(1024), 0
	date := time.Date(2026, time.July, 2, 0, 0, 0, 0, time.UTC)
	b.ReportAllocs()
	for b.Loop() {
		keptVariation, keptErr = m.VariationAt(p[i%1024], date)
		i++
	}
}

// BenchmarkRows evaluates a grid of the world at 1°.
func BenchmarkRows(b *testing.B) {
	e, n := inYear(b, wmm.WMM2025(), 2026), 0
	b.ReportAllocs()
	for b.Loop() {
		n = 0
		_ = e.Rows(world(angle.Degree), func(r wmm.Row) error { n += len(r.Fields); return nil })
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(n), "ns/place")
}

func BenchmarkIsogonics(b *testing.B) {
	e, levels := inYear(b, wmm.WMM2025(), 2026), wmm.Levels(-20*angle.Degree, 20*angle.Degree, 5*angle.Degree)
	b.ReportAllocs()
	for b.Loop() {
		_, _ = e.Isogonics(world(2*angle.Degree), levels...)
	}
}

func BenchmarkReadCOF(b *testing.B) {
	data := must(os.ReadFile("coefficients/WMM2025.COF"))(b)
	b.ReportAllocs()
	for b.Loop() {
		_, _ = wmm.ReadCOF(bytes.NewReader(data))
	}
}

// What is measured is kept, so that it is not left out.
var (
	keptField     wmm.Field
	keptRates     wmm.Rates
	keptAngle     angle.Angle
	keptVariation variation.Variation
	keptErr       error
)
