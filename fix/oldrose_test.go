package fix_test

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/fix"
	"lubberline.example/fix/internal/fixtest"
	"lubberline.example/variation"
	"lubberline.example/wmm"
)

// TestFixesByOldRosesHoldTheTruth solves four hand bearings by a rose that is 0 to 20 years
// old. The true variation is that of IGRF-14, plus an error drawn from the error model of the
// WMM for what such a model leaves out. The rose extrapolates the change of the two years
// before, and is rounded to 1′, 5′ or 15′. Each bearing is read to ±0.7°. The 95 % ellipse
// must hold the true position in 92 to 98 %.
//
// Whole (FULL=1, 8,000 fixes for each): 95.7 % in the rose's own year, 95.2 % by roses of 1 to
// 5 years, 95.9 % of 10, 95.7 % of 20, and 95.7 % of 0 to 20.
func TestFixesByOldRosesHoldTheTruth(t *testing.T) {
	trials := 300
	full := svFull()
	if full {
		trials = 8_000
	}
	for _, ages := range [][2]int{{0, 0}, {1, 5}, {10, 10}, {20, 20}, {0, 20}} {
		random := rand.New(rand.NewPCG(uint64(ages[0]), uint64(ages[1])))
		held := 0
		for range trials {
			p := fixtest.At(math.Asin(1.7*random.Float64()-0.85)*180/math.Pi, 360*random.Float64())
			years := ages[0] + random.IntN(ages[1]-ages[0]+1)
			year := 1905 + random.IntN(2029-years-1905)
			rose := orPrint(t, random, p, year)
			date := orDay(year+years, random.Float64())
			truth := orVariation(t, p, date) + orLeftOut(t, p, date)*random.NormFloat64()

			w := course.With{Variation: rose, At: &p, On: date}
			marks := svSpread(random, p, 4, 35, 8)
			lines := make([]fix.Line, len(marks))
			for i, m := range marks {
				read := fixtest.Azimuth(p, m.Position) - truth + 0.7*random.NormFloat64()
				b := angle.Must(course.HandBearing(angle.MagneticFrom(angle.Must(angle.Degrees(read))), w))
				lines[i] = fix.CompassBearing(m, b, fixtest.Sigma(0.7))
			}
			if svWithin(t, svSolve(t, lines, fix.Options{Near: &p}), p) {
				held++
			}
		}
		percent := 100 * float64(held) / float64(trials)
		t.Logf("roses of %d to %d years: %.1f %% of the ellipses hold the true position", ages[0], ages[1], percent)
		least, most := 92.0, 98.0
		if !full { // three times the scatter
			least, most = least-3.5, 100
		}
		if percent < least || percent > most {
			t.Errorf("roses of %d to %d years: %.1f %% of the ellipses hold the true position", ages[0], ages[1], percent)
		}
	}
}

// orDay returns the time at which a part of a year has passed.
func orDay(year int, part float64) time.Time {
	return time.Date(year, 1, 1, 0, 0, 0, 0, time.UTC).Add(time.Duration(part * 365 * 24 * float64(time.Hour)))
}

// orVariation returns the variation by IGRF-14, in degrees.
func orVariation(t *testing.T, p angle.Position, date time.Time) float64 {
	t.Helper()
	v, err := wmm.IGRF14().VariationAt(p, date)
	if err != nil {
		t.Fatal(err)
	}
	return v.Degrees()
}

// orLeftOut returns the standard uncertainty of what the model leaves out, in degrees.
func orLeftOut(t *testing.T, p angle.Position, date time.Time) float64 {
	t.Helper()
	h, err := wmm.IGRF14().HorizontalIntensity(p, date)
	if err != nil {
		t.Fatal(err)
	}
	s, _ := wmm.WMM2025().Uncertainty().D(h).Sigma()
	return s.Degrees()
}

// orPrint returns the rose of a chart, printed for an unknown day of a year.
func orPrint(t *testing.T, random *rand.Rand, p angle.Position, year int) variation.Rose {
	t.Helper()
	into := random.Float64()
	d := orVariation(t, p, orDay(year, into))
	change := math.Remainder(d-orVariation(t, p, orDay(year-2, into)), 360) / 2
	step := []angle.Angle{angle.Minute, 5 * angle.Minute, 15 * angle.Minute}[random.IntN(3)]
	return variation.Rose{
		Variation: variation.East(angle.Must(angle.Degrees(d)).Round(step)), Year: year, Step: angle.Minute,
		Change: variation.Eastward(angle.Must(angle.Degrees(change)).Round(angle.Minute)), ChangeStep: angle.Minute,
	}
}
