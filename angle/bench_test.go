package angle_test

import (
	"testing"

	"lubberline.example/angle"
)

// Results are kept here so that the compiler can't drop the work.
var (
	keptAngle    angle.Angle
	keptTrue     angle.True
	keptPosition angle.Position
	keptFloat    float64
	keptBytes    []byte
	keptError    error
)

func BenchmarkAdd(b *testing.B) {
	b.ReportAllocs()
	d, a := angle.TrueFrom(350*angle.Degree), 17*angle.Degree+12*angle.Minute
	for b.Loop() {
		d = d.Add(a)
	}
	keptTrue = d
}

func BenchmarkSub(b *testing.B) {
	b.ReportAllocs()
	d, e := angle.TrueFrom(10*angle.Degree), angle.TrueFrom(350*angle.Degree)
	for b.Loop() {
		keptAngle = d.Sub(e)
	}
}

func BenchmarkSinCos(b *testing.B) {
	b.ReportAllocs()
	a := 47*angle.Degree + 12*angle.Minute
	for b.Loop() {
		s, c := a.SinCos()
		keptFloat = s + c
		a += angle.Minute
	}
}

func BenchmarkDegreesFloat(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		keptAngle, keptError = angle.Degrees(47.20667)
	}
}

func BenchmarkScale(b *testing.B) {
	b.ReportAllocs()
	a := 47*angle.Degree + 12*angle.Minute
	for b.Loop() {
		keptAngle, keptError = a.Scale(0.3)
	}
}

func BenchmarkParse(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		keptAngle, keptError = angle.Parse("-4°15.5′")
	}
}

func BenchmarkParseEastWest(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		keptAngle, keptError = angle.ParseEastWest("4°15.5′W")
	}
}

func BenchmarkParseTrue(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		keptTrue, keptError = angle.ParseTrue("104.3°T")
	}
}

func BenchmarkParseTruePoints(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		keptTrue, keptError = angle.ParseTrue("NE by E ½ E")
	}
}

func BenchmarkParsePosition(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		keptPosition, keptError = angle.ParsePosition("47°12.4′N 019°33.1′W")
	}
}

func BenchmarkAppendText(b *testing.B) {
	b.ReportAllocs()
	buf := make([]byte, 0, 64)
	p := angle.MustParsePosition("47°12.4′N 019°33.1′W")
	for b.Loop() {
		keptBytes, keptError = p.AppendText(buf[:0])
	}
}

func BenchmarkMean8(b *testing.B) {
	b.ReportAllocs()
	var bearings []angle.True
	for i := range 8 {
		bearings = append(bearings, angle.TrueFrom(angle.Angle(i-4)*angle.Degree))
	}
	for b.Loop() {
		mean, _, err := angle.Mean(bearings...)
		keptTrue, keptError = mean, err
	}
}
