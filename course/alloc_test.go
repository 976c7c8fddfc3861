package course_test

import (
	"testing"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/variation"
)

// Results are kept here so that the compiler can't drop the work.
var (
	keptHeading course.Heading
	keptBearing course.Bearing
	keptText    string
	keptError   error
)

// onBoard is what the Quillon converts with: its card of 24 rows, and a
// variation known or from a rose.
func onBoard() (known, byRose course.With) {
	card := quillon()
	known = course.With{Variation: variation.MustParse("2°02′W ±0°15′"), Deviation: card, At: &offOrlesk, On: day}
	byRose = course.With{Variation: orleskRose(), Deviation: card, At: &offOrlesk, On: day}
	return known, byRose
}

func TestConvertingAllocatesNothing(t *testing.T) {
	known, byRose := onBoard()
	for name, w := range map[string]course.With{"known variation": known, "rose": byRose} {
		i := angle.Angle(0)
		for from, convert := range map[string]func(){
			"FromTrue":     func() { keptHeading, keptError = course.FromTrue(angle.TrueFrom(i*deg), w) },
			"FromMagnetic": func() { keptHeading, keptError = course.FromMagnetic(angle.MagneticFrom(i*deg), w) },
			"FromCompass":  func() { keptHeading, keptError = course.FromCompass(angle.CompassFrom(i*deg), w) },
			"BearingFromCompass": func() {
				keptBearing = keptHeading.BearingFromCompass(angle.CompassFrom(i * deg))
			},
		} {
			if n := testing.AllocsPerRun(100, func() { convert(); i += 7 }); n != 0 || keptError != nil {
				t.Errorf("%s by %s: %v allocations, error %v", from, name, n, keptError)
			}
		}
	}
}

func BenchmarkFromTrue(b *testing.B) {
	known, byRose := onBoard()
	for name, w := range map[string]course.With{"known": known, "rose": byRose} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			d := angle.TrueFrom(112 * deg)
			for b.Loop() {
				keptHeading, keptError = course.FromTrue(d, w)
				d = d.Add(7 * deg)
			}
		})
	}
}

func BenchmarkFromMagnetic(b *testing.B) {
	known, _ := onBoard()
	b.ReportAllocs()
	d := angle.MagneticFrom(112 * deg)
	for b.Loop() {
		keptHeading, keptError = course.FromMagnetic(d, known)
		d = d.Add(7 * deg)
	}
}

func BenchmarkFromCompass(b *testing.B) {
	known, byRose := onBoard()
	for name, w := range map[string]course.With{"known": known, "rose": byRose} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			d := angle.CompassFrom(112 * deg)
			for b.Loop() {
				keptHeading, keptError = course.FromCompass(d, w)
				d = d.Add(7 * deg)
			}
		})
	}
}

func BenchmarkBearingFromCompass(b *testing.B) {
	known, _ := onBoard()
	h := given(b, "112C", known)
	b.ReportAllocs()
	d := angle.CompassFrom(300 * deg)
	for b.Loop() {
		keptBearing = h.BearingFromCompass(d)
		d = d.Add(7 * deg)
	}
}

func BenchmarkWorking(b *testing.B) {
	_, byRose := onBoard()
	h := given(b, "112T", byRose)
	b.ReportAllocs()
	for b.Loop() {
		keptText = h.Working().String()
	}
}
