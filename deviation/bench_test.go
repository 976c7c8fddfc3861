package deviation_test

import (
	"math/rand/v2"
	"os"
	"strings"
	"testing"

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
		c = c.Add(7*deg + minute)
	}
}

func benchmarkOnMagnetic(b *testing.B, table deviation.Source) {
	b.ReportAllocs()
	m := angle.Magnetic{}
	for b.Loop() {
		keptDeviation, keptErr = table.OnMagnetic(m)
		m = m.Add(7*deg + minute)
	}
}

func BenchmarkOnCompass(b *testing.B)  { benchmarkOnCompass(b, mustTable(b, every15(usual))) }
func BenchmarkOnMagnetic(b *testing.B) { benchmarkOnMagnetic(b, mustTable(b, every15(usual))) }

func BenchmarkSmoothOnCompass(b *testing.B) {
	benchmarkOnCompass(b, mustTable(b, every15(usual)).Smooth())
}

func BenchmarkSmoothOnMagnetic(b *testing.B) {
	benchmarkOnMagnetic(b, mustTable(b, every15(usual)).Smooth())
}

// A table that is not ordered looks through all its rows.
func BenchmarkOnMagneticAmbiguous(b *testing.B) { benchmarkOnMagnetic(b, mustTable(b, steep)) }

func BenchmarkSmooth(b *testing.B) {
	b.ReportAllocs()
	table := mustTable(b, every15(usual))
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

// swing36 is a swing on 36 headings of the usual compass, read to half a degree.
func swing36() []deviation.Observation {
	var swing []deviation.Observation
	for h := angle.Angle(0); h < angle.Turn; h += 10 * deg {
		d := degrees(usual(h)).Round(deg / 2)
		swing = append(swing, deviation.Observation{Heading: angle.CompassFrom(h), Deviation: deviation.East(d)})
	}
	return swing
}

var keptFit *deviation.Fit

func BenchmarkFit(b *testing.B) {
	swing := swing36()
	b.ReportAllocs()
	for b.Loop() {
		keptFit = angle.Must(deviation.NewFit(swing, deviation.FitOptions{}))
	}
}

func BenchmarkFitChoosingTheOrder(b *testing.B) {
	swing := swing36()
	b.ReportAllocs()
	for b.Loop() {
		keptFit = angle.Must(deviation.NewFit(swing, deviation.FitOptions{Order: 0}))
	}
}

func BenchmarkSuspicions(b *testing.B) {
	swing := swing36()
	b.ReportAllocs()
	for b.Loop() {
		deviation.Suspicions(swing)
	}
}

func BenchmarkCurveOnCompass(b *testing.B) {
	benchmarkOnCompass(b, angle.Must(deviation.NewFit(swing36(), deviation.FitOptions{})).Curve)
}

func BenchmarkCurveOnMagnetic(b *testing.B) {
	benchmarkOnMagnetic(b, angle.Must(deviation.NewFit(swing36(), deviation.FitOptions{})).Curve)
}

// A log of 3,600 checks, with a blunder in every hundredth: at most 100 ms.
func BenchmarkReviewChecks(b *testing.B) {
	random := rand.New(rand.NewPCG(1, 2))
	card, checks := simLog{n: 3600, own: 1, shared: 0.25, card: 0.3, compass: func(_ angle.Angle, i int) float64 {
		if i%100 == 7 {
			return 12
		}
		return 0
	}}.draw(b, random, 0)
	for b.Loop() {
		if _, err := deviation.ReviewChecks(card, checks); err != nil {
			b.Fatal(err)
		}
	}
}
