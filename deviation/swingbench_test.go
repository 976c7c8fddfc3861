package deviation_test

import (
	"testing"

	"lubberline.example/deviation/internal/devtest"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

var keptFit *deviation.Fit

func BenchmarkFit(b *testing.B) {
	swung := devtest.Swing36()
	b.ReportAllocs()
	for b.Loop() {
		keptFit = angle.Must(deviation.NewFit(swung, deviation.FitOptions{}))
	}
}

func BenchmarkFitChoosingTheOrder(b *testing.B) {
	swung := devtest.Swing36()
	b.ReportAllocs()
	for b.Loop() {
		keptFit = angle.Must(deviation.NewFit(swung, deviation.FitOptions{Order: 0}))
	}
}

func BenchmarkSuspicions(b *testing.B) {
	swung := devtest.Swing36()
	b.ReportAllocs()
	for b.Loop() {
		deviation.Suspicions(swung)
	}
}
