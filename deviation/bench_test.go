package deviation_test

import (
	"os"
	"strings"
	"testing"

	"lubberline.example/deviation/internal/devtest"
	"lubberline.example/deviation/swing"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

// Results are kept here so that the compiler can't drop the work.
var (
	keptDeviation deviation.Deviation
	keptTable     *deviation.Table
	keptErr       error
)

func benchmarkOnCompass(b *testing.B, table deviation.Source) {
	b.ReportAllocs()
	c := angle.Compass{}
	for b.Loop() {
		keptDeviation, keptErr = table.OnCompass(c)
		c = c.Add(7*devtest.Deg + devtest.Minute)
	}
}

func benchmarkOnMagnetic(b *testing.B, table deviation.Source) {
	b.ReportAllocs()
	m := angle.Magnetic{}
	for b.Loop() {
		keptDeviation, keptErr = table.OnMagnetic(m)
		m = m.Add(7*devtest.Deg + devtest.Minute)
	}
}

func BenchmarkOnCompass(b *testing.B) {
	benchmarkOnCompass(b, devtest.MustTable(b, devtest.Every15(devtest.Usual)))
}
func BenchmarkOnMagnetic(b *testing.B) {
	benchmarkOnMagnetic(b, devtest.MustTable(b, devtest.Every15(devtest.Usual)))
}

func BenchmarkSmoothOnCompass(b *testing.B) {
	benchmarkOnCompass(b, devtest.MustTable(b, devtest.Every15(devtest.Usual)).Smooth())
}

func BenchmarkSmoothOnMagnetic(b *testing.B) {
	benchmarkOnMagnetic(b, devtest.MustTable(b, devtest.Every15(devtest.Usual)).Smooth())
}

// A table that is not ordered looks through all its rows.
func BenchmarkOnMagneticAmbiguous(b *testing.B) { benchmarkOnMagnetic(b, devtest.MustTable(b, steep)) }

func BenchmarkSmooth(b *testing.B) {
	b.ReportAllocs()
	table := devtest.MustTable(b, devtest.Every15(devtest.Usual))
	for b.Loop() {
		keptTable = table.Smooth()
	}
}

func BenchmarkReadTable(b *testing.B) {
	b.ReportAllocs()
	text, err := os.ReadFile("testdata/quillon.csv")
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		keptTable, keptErr = deviation.ReadTable(strings.NewReader(string(text)))
	}
}

func BenchmarkCurveOnCompass(b *testing.B) {
	benchmarkOnCompass(b, angle.Must(swing.NewFit(devtest.Swing36(), swing.FitOptions{})).Curve)
}

func BenchmarkCurveOnMagnetic(b *testing.B) {
	benchmarkOnMagnetic(b, angle.Must(swing.NewFit(devtest.Swing36(), swing.FitOptions{})).Curve)
}
