package swing_test

import (
	"testing"

	"lubberline.example/deviation/internal/devtest"
	"lubberline.example/deviation/swing"

	"lubberline.example/angle"
)

var keptFit *swing.Fit

func BenchmarkFit(b *testing.B) {
	swung := devtest.Swing36()
	b.ReportAllocs()
	for b.Loop() {
		keptFit = angle.Must(swing.NewFit(swung, swing.FitOptions{Order: 2}))
	}
}

func BenchmarkFitChoosingTheOrder(b *testing.B) {
	swung := devtest.Swing36()
	b.ReportAllocs()
	for b.Loop() {
		keptFit = angle.Must(swing.NewFit(swung, swing.FitOptions{Order: 0}))
	}
}

func BenchmarkSuspicions(b *testing.B) {
	swung := devtest.Swing36()
	b.ReportAllocs()
	for b.Loop() {
		swing.Suspicions(swung)
	}
}
