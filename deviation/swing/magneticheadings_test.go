package swing_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/devtest"
	"lubberline.example/deviation/swing"
)

// TestHeadingsByMagneticAreNamed swings simulated ships by the exact form (Smith's), with B and
// C of a given size together, in any proportion, A 0.5°, E 0.3° and harmonics 3 and 4 of 0.5° and
// 0.4° beside it (standard deviations), noise 0.5°, headings to the whole degree. They are
// recorded by compass, or by magnetic.
//
// Of 300 swings each (FULL=1), named where recorded by magnetic, with B and C of 12° and D of 4°: 50 %
// (24 headings) and 51 % (36); 16° and 4°: 75 %; 20° and 4°: 78 % (16 headings), 82 % (24);
// 20° and 0°: 65 %; 25° and 5°: 90 %; 8° and 2°: 0.3 %. Sound ones accused: at most 0.7 %.
func TestHeadingsByMagneticAreNamed(t *testing.T) {
	n, all := swings(12, 300)
	for _, c := range []struct {
		headings int
		size, d  float64 // of B and C together, and of D
	}{
		{24, 8, 2}, {24, 12, 4}, {36, 12, 4}, {24, 16, 4}, {16, 20, 4}, {24, 20, 4}, {24, 20, 0}, {24, 25, 5},
	} {
		random := rand.New(rand.NewPCG(7, 14))
		var accused, named int
		for range n {
			turn := 2 * math.Pi * random.Float64()
			rad := math.Pi / 180
			k := deviation.ExactCoefficients{
				A: 0.5 * rad * random.NormFloat64(), B: math.Sin(c.size*rad) * math.Sin(turn), C: math.Sin(c.size*rad) * math.Cos(turn),
				D: math.Sin(c.d * rad), E: 0.3 * rad * random.NormFloat64(),
			}
			more := devtest.Series{0, 0, 0, 0, 0, 0.5 * random.NormFloat64(), 0.5 * random.NormFloat64(), 0.4 * random.NormFloat64(), 0.4 * random.NormFloat64()}
			first := angle.Angle(random.Int64N(int64(angle.Turn)))
			var byCompass, byMagnetic []swing.Reading
			for _, z := range devtest.Even(c.headings, first) {
				heading := angle.CompassFrom(z.Round(angle.Degree))
				d := deviation.East(angle.Must(k.OnCompass(heading)).Angle() + devtest.Degrees(more.At(heading.FromNorth())))
				read := deviation.East(d.Angle() + devtest.Degrees(simulatedNoise*random.NormFloat64()))
				recorded := angle.CompassFrom(d.Magnetic(heading).FromNorth().Round(angle.Degree))
				byCompass = append(byCompass, swing.Reading{Heading: &heading, Deviation: &read})
				byMagnetic = append(byMagnetic, swing.Reading{Heading: &recorded, Deviation: &read})
			}
			says := func(readings []swing.Reading) bool {
				swung, err := swing.Reduce(readings, swing.StatedDeviations{})
				if err != nil {
					t.Fatal(err)
				}
				return strings.Contains(likelyCause(swung), "the headings seem to be by magnetic")
			}
			if says(byCompass) {
				accused++
			}
			if says(byMagnetic) {
				named++
			}
		}
		percent := func(k int) float64 { return 100 * float64(k) / float64(n) }
		t.Logf("%d headings, B and C %v°, D %v°: named %.1f %%, sound ones accused %.1f %%", c.headings, c.size, c.d, percent(named), percent(accused))
		if all && percent(accused) > 2 {
			t.Errorf("sound swings accused: %.1f %%", percent(accused))
		}
		if c.size >= 20 && c.d > 0 && percent(named) < 50 {
			t.Errorf("headings by magnetic named in %.1f %% only", percent(named))
		}
	}
}
