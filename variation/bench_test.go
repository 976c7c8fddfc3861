package variation_test

import (
	"testing"

	"lubberline.example/variation"
)

// Results are kept here so that the compiler can't drop the work.
var (
	keptRose       variation.Rose
	keptProjection variation.Projection
	keptVariation  variation.Variation
	keptString     string
	keptErr        error
)

func BenchmarkParseLegend(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		keptRose, keptErr = variation.ParseLegend("3°50′W 2014 (9′E)")
	}
}

func BenchmarkParseLegendInWords(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		keptRose, keptErr = variation.ParseLegend("Magnetic Variation 3°50′W (2014) decreasing about 9′ annually")
	}
}

func BenchmarkLegend(b *testing.B) {
	b.ReportAllocs()
	r := variation.MustParseLegend("3°50′W 2014 (9′E)")
	for b.Loop() {
		keptString = r.String()
	}
}

func BenchmarkRoseInYear(b *testing.B) {
	b.ReportAllocs()
	r := variation.MustParseLegend("3°50′W 2014 (9′E)")
	for b.Loop() {
		keptProjection, keptErr = r.InYear(2026)
	}
}

func BenchmarkRoseOn(b *testing.B) {
	b.ReportAllocs()
	r := variation.MustParseLegend("3°50′W 2014 (9′E)")
	date := noon(2026, 7, 2)
	for b.Loop() {
		keptProjection, keptErr = r.On(date, variation.DecimalYears)
	}
}

func benchmarkChart(b *testing.B, method variation.Method) {
	b.ReportAllocs()
	r := variation.MustParseLegend("3°50′W 2014 (9′E)")
	var roses []variation.ChartRose
	for i := range 6 {
		roses = append(roses, variation.ChartRose{Position: at(47+float64(i/3), -19+float64(i%3)), Rose: r})
	}
	c := mustChart(b, roses...)
	c.Method = method
	here, date := at(47.4, -18.2), noon(2026, 7, 2)
	for b.Loop() {
		keptVariation, keptErr = c.VariationAt(here, date)
	}
}

func BenchmarkChartNearest(b *testing.B) { benchmarkChart(b, variation.Nearest) }
func BenchmarkChartBlended(b *testing.B) { benchmarkChart(b, variation.Blended) }
