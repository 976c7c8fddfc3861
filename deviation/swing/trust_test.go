package swing_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"testing"
	"time"

	"lubberline.example/deviation/internal/devtest"
	"lubberline.example/deviation/swing"

	"lubberline.example/angle"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// swings is how many are simulated of a kind: few, unless FULL=1 asks for all. The
// figures are asserted of all, and of few with a margin.
func swings(few, all int) (n int, whole bool) {
	if os.Getenv("FULL") == "1" {
		return all, true
	}
	return few, false
}

// A simulated is how swings are drawn: ships with A, B, C, D, E of 1°, 4°, 4°, 1.5° and
// 0.5°, standard deviations, unless flat.
type simulated struct {
	headings  int
	noise     float64 // degrees
	step      float64 // degrees, to which bearings are read; 0 exactly
	rho       float64 // correlation of a reading's error with the last one's
	harmonics bool    // 3 and 4, of 0.2° to 1°
	flat      bool    // B of 1.6° and nothing else
	forces    bool    // B 12° and D 4° as forces make them
}

// draw swings one ship, with a blunder in one reading; it returns the truth in degrees.
func (s simulated) draw(r *rand.Rand, blunder float64) (swung []swing.Observation, truth func(angle.Angle) float64, wrong int) {
	a, b, c, d, e := r.NormFloat64(), 4*r.NormFloat64(), 4*r.NormFloat64(), 1.5*r.NormFloat64(), 0.5*r.NormFloat64()
	if s.flat {
		b, c, d, e = 1.6, 0, 0, 0
	}
	third, fourth, p3, p4 := 0.0, 0.0, 2*math.Pi*r.Float64(), 2*math.Pi*r.Float64()
	if s.harmonics {
		third, fourth = 0.2+0.8*r.Float64(), 0.2+0.8*r.Float64()
	}
	truth = func(z angle.Angle) float64 {
		x := z.Radians()
		return a + b*math.Sin(x) + c*math.Cos(x) + d*math.Sin(2*x) + e*math.Cos(2*x) + third*math.Sin(3*x+p3) + fourth*math.Sin(4*x+p4)
	}
	if s.forces {
		k := deviation.ExactCoefficients{A: a * math.Pi / 180, B: math.Sin(12 * math.Pi / 180), C: c * math.Pi / 360, D: math.Sin(4 * math.Pi / 180)}
		truth = func(z angle.Angle) float64 { return angle.Must(k.OnCompass(angle.CompassFrom(z))).Degrees() }
	}
	object := 360 * r.Float64()
	wrong = r.IntN(s.headings)
	off := s.noise * r.NormFloat64()
	for i := range s.headings {
		z := angle.Turn / angle.Angle(s.headings) * angle.Angle(i)
		bearing := object - truth(z) + off
		off = s.rho*off + math.Sqrt(1-s.rho*s.rho)*s.noise*r.NormFloat64()
		if s.step > 0 {
			bearing = math.Round(bearing/s.step) * s.step
		}
		if i == wrong {
			bearing += blunder
		}
		swung = append(swung, swing.Observation{Heading: angle.CompassFrom(z), Deviation: deviation.East(devtest.Degrees(object - bearing))})
	}
	return swung, truth, wrong
}

// coverage is the share of headings on which twice the uncertainty holds the truth, and
// that of swings in which correlated errors were found.
func (s simulated) coverage(t *testing.T, n int, options swing.FitOptions) (held, found float64) {
	t.Helper()
	r := rand.New(rand.NewPCG(1918, uint64(s.headings)))
	asked := 0
	for range n {
		swung, truth, _ := s.draw(r, 0)
		fit := devtest.Fit(t, swung, options)
		if swing.SerialFound(fit) {
			found++
		}
		for z := angle.Angle(0); z < angle.Turn; z += 10 * devtest.Deg {
			d := angle.Must(fit.Curve.OnCompass(angle.CompassFrom(z)))
			u, _ := d.Uncertainty().Sigma()
			asked++
			if math.Abs(d.Degrees()-truth(z)) <= 2*u.Degrees() {
				held++
			}
		}
	}
	return held / float64(asked), found / float64(n)
}

// TestRoundedReadingsAreNotLost swings sound ships whose bearings are read to 1°, 2° and
// 5° with a noise of 1°, and ships with one blunder. Measured over 1,000 swings of each
// kind: no reading lost in 99.1 % to 100 %; blunders of 10° read to 1° found in 98.7 % and
// 100 %, of 20° read to 2° and 5° in 100 %.
func TestRoundedReadingsAreNotLost(t *testing.T) {
	n, _ := swings(80, 1000)
	for _, s := range []simulated{
		{headings: 16, noise: 1, step: 1}, {headings: 24, noise: 1, step: 1}, {headings: 24, noise: 1, step: 2}, {headings: 24, noise: 1, step: 5},
		{headings: 24, noise: 1, step: 5, flat: true}, {headings: 36, noise: 1, step: 5, flat: true},
	} {
		r := rand.New(rand.NewPCG(1919, uint64(s.headings)))
		blunder := 10.0
		if s.step > 1 {
			blunder = 20
		}
		lost, found := 0, 0
		for range n {
			if swung, _, _ := s.draw(r, 0); len(swing.Suspicions(swung)) > 0 {
				lost++
			}
			swung, _, wrong := s.draw(r, blunder)
			for _, x := range swing.Suspicions(swung) {
				if x.Index == wrong {
					found++
				}
			}
		}
		t.Logf("%+v: lost %d, found %d of %d", s, lost, found, n)
		if lost*50 > n+25 {
			t.Errorf("%+v: %d of %d sound swings lost readings", s, lost, n)
		}
		if found*100 < 95*n {
			t.Errorf("%+v: blunders of %.0f° found in %d of %d", s, blunder, found, n)
		}
	}
}

// TestUncertaintyOfRoundedReadingsHolds holds the ± of robust fits to bearings read to 1°, 2°
// and 5°. Measured over 1,000 swings each: 96.3, 96.2, 98.1, and for the flat ships 96.8 %
// on 24 headings and 93.6 % on 16.
func TestUncertaintyOfRoundedReadingsHolds(t *testing.T) {
	n, whole := swings(40, 1000)
	for _, s := range []simulated{
		{headings: 24, noise: 0.5, step: 1}, {headings: 24, noise: 1, step: 2}, {headings: 24, noise: 1, step: 5},
		{headings: 24, noise: 1, step: 5, flat: true}, {headings: 16, noise: 1, step: 5, flat: true},
	} {
		held, _ := s.coverage(t, n, swing.FitOptions{Robust: true})
		t.Logf("%+v: 2σ holds %.3f", s, held)
		if held < 0.93 && whole || held < 0.90 {
			t.Errorf("%+v: 2σ holds %.3f", s, held)
		}
	}
}

// TestFlatSwingReadToFiveDegrees works a swing of B 1.6° and noise of 1°,
// read to 5°, in which a trimmed fit alone finds seven readings to leave out.
func TestFlatSwingReadToFiveDegrees(t *testing.T) {
	var readings []swing.Reading
	for i, b := range []int{60, 60, 55, 55, 60, 55, 55, 60, 60, 55, 60, 55, 60, 55, 60, 60, 60, 60, 60, 60, 60, 60, 60, 60} {
		readings = append(readings, swing.Reading{Heading: new(angle.CompassFrom(angle.Angle(i) * 15 * devtest.Deg)), Bearing: new(angle.CompassFrom(angle.Angle(b) * devtest.Deg))})
	}
	known := devtest.Sigma(0)
	swung, err := swing.Reduce(readings, swing.Transit{Direction: angle.MustParseTrue("058.8"), Uncertainty: known, Variation: varZero})
	if err != nil {
		t.Fatal(err)
	}
	fit := angle.Must(swung.Fit(swing.FitOptions{Robust: true}))
	if len(fit.LeftOut()) != 0 || swung.Observations[0].Step != 5*devtest.Deg {
		t.Errorf("%d left out, step %v", len(fit.LeftOut()), swung.Observations[0].Step)
	}
	d := angle.Must(fit.Curve.OnCompass(angle.CompassFrom(90 * devtest.Deg)))
	u, stated := d.Uncertainty().Sigma()
	if off := math.Abs(d.Degrees() - 1.9); !stated || off > 2*u.Degrees() {
		t.Errorf("on 090°C %v ±%v, the truth is 1.9°E", d, u)
	}
}

// TestUncertaintyOfFitsHolds holds the ± of fits whose order is chosen. Measured over
// 1,000 swings of each kind: sound ones of 6, 8, 12, 16, 24 and 36 headings 95.5, 95.1,
// 95.7, 95.6, 96.5 and 96.4 %; with harmonics 3 and 4 on 16, 24 and 36 headings 95.7, 95.9
// and 96.2 %; with B 12° and D 4° as forces make them on 16 and 24, 95.6 and 96.7 %.
func TestUncertaintyOfFitsHolds(t *testing.T) {
	n, whole := swings(40, 1000)
	for _, s := range []simulated{
		{headings: 6, noise: 0.5}, {headings: 8, noise: 0.5}, {headings: 12, noise: 0.5}, {headings: 16, noise: 0.5}, {headings: 24, noise: 0.5}, {headings: 36, noise: 0.5},
		{headings: 16, noise: 0.5, harmonics: true}, {headings: 24, noise: 0.5, harmonics: true}, {headings: 36, noise: 0.5, harmonics: true},
		{headings: 16, noise: 0.5, forces: true}, {headings: 24, noise: 0.5, forces: true},
	} {
		held, _ := s.coverage(t, n, swing.FitOptions{})
		t.Logf("%+v: 2σ holds %.3f", s, held)
		if whole && (held < 0.93 || held > 0.97) || held < 0.88 {
			t.Errorf("%+v: 2σ holds %.3f", s, held)
		}
	}
}

// TestCorrelatedReadingsAreWarnedOf measures the test of correlated errors, and the
// power that it states. Measured over 1,000 swings each: found in 1.3 %, 3.4 %, 5.0 % and
// 4.7 % of sound swings of 12, 16, 24 and 36 headings, and in 11.5 %, 27.6 %, 60 % and 81.5 %
// of those with a correlation of 0.7, whose deviations twice the uncertainty then holds
// in 66 %, 67 %, 74 % and 79 %.
func TestCorrelatedReadingsAreWarnedOf(t *testing.T) {
	n, whole := swings(60, 1000)
	for _, h := range []int{12, 16, 24, 36} {
		plain, sound := simulated{headings: h, noise: 0.5}.coverage(t, n, swing.FitOptions{})
		held, found := simulated{headings: h, noise: 0.5, rho: 0.7}.coverage(t, n, swing.FitOptions{})
		swung, _, _ := simulated{headings: h, noise: 0.5}.draw(rand.New(rand.NewPCG(1, 1)), 0)
		power := swing.SerialPower(devtest.Fit(t, swung, swing.FitOptions{}))
		t.Logf("%d headings: sound %.3f (held %.3f), correlated %.3f (held %.3f), stated power %.2f", h, sound, plain, found, held, power)
		if whole && (sound > 0.05 || math.Abs(found-power) > 0.05 || h == 36 && found < 0.75) || h == 36 && found < 0.65 || sound > 0.15 {
			t.Errorf("%d headings: sound %.3f, correlated %.3f, stated power %.2f", h, sound, found, power)
		}
	}
}

// TestLargeDeviationsTakeTheExactForm swings a steel yacht, B 12° and D 4°, without noise: A to
// E leave 0.58° there, the exact form must leave less than 0.01°.
func TestLargeDeviationsTakeTheExactForm(t *testing.T) {
	for _, by := range []deviation.HeadingKind{deviation.ByCompass, deviation.ByMagnetic} {
		k := deviation.ExactCoefficients{A: 0.01, B: math.Sin(12 * math.Pi / 180), C: -0.05, D: math.Sin(4 * math.Pi / 180), E: 0.01}
		var swung []swing.Observation
		for _, z := range devtest.Even(24, 0) {
			c := angle.CompassFrom(z)
			swung = append(swung, swing.Observation{Heading: c, Deviation: angle.Must(k.OnCompass(c))})
		}
		fit := devtest.Fit(t, swung, swing.FitOptions{By: by})
		if fit.Exact == nil || math.Abs(fit.Exact.B-k.B) > 1e-4 || math.Abs(fit.Exact.D-k.D) > 1e-4 {
			t.Fatalf("by %v: %v, want %v", by, fit.Exact, k)
		}
		for z := angle.Angle(0); z < angle.Turn; z += 5 * devtest.Deg {
			c := angle.CompassFrom(z)
			d := angle.Must(fit.Curve.OnCompass(c))
			if off := d.Degrees() - angle.Must(k.OnCompass(c)).Degrees(); math.Abs(off) > 0.01 {
				t.Errorf("by %v, on %v: off by %.4f°", by, c, off)
			}
		}
		if _, ok := fit.Working().Steps.Find("form"); !ok {
			t.Error("the working does not say that the form is exact")
		}
	}
	if fit := devtest.Fit(t, devtest.Swing(devtest.Even(24, 0), devtest.Usual), swing.FitOptions{}); fit.Exact != nil {
		t.Error("the exact form for deviations of 6°")
	}
}

// TestReversedReadingsAreNamedFirst reverses nine readings in a row, and every second one: each is
// named, also if the fit then fails.
func TestReversedReadingsAreNamedFirst(t *testing.T) {
	for name, reversed := range map[string]func(i int) bool{
		"nine in a row":    func(i int) bool { return i >= 5 && i < 14 },
		"every second one": func(i int) bool { return i%2 == 1 },
	} {
		swung := devtest.Swing(devtest.Even(24, 0), devtest.Usual)
		devtest.AddNoise(rand.New(rand.NewPCG(3, 3)), swung, 0.3)
		want := 0
		for i := range swung {
			if reversed(i) {
				swung[i].Deviation = deviation.East(swung[i].Deviation.Angle() + 180*devtest.Deg)
				want++
			}
		}
		named := 0
		for _, s := range swing.Suspicions(swung) {
			if reversed(s.Index) && len(s.Slips) > 0 && s.Slips[0] == swing.ReciprocalTaken {
				named++
			}
		}
		if named != want {
			t.Errorf("%s: %d of %d named", name, named, want)
		}
		for _, robust := range []bool{true, false} {
			_, err := swing.NewFit(swung, swing.FitOptions{Robust: robust})
			if err != nil && !fitErrorNames(err, want) {
				t.Errorf("%s, robust %v: %v", name, robust, err)
			}
			if err == nil && !robust {
				t.Errorf("%s: a curve through reversed readings", name)
			}
		}
	}
}

// TestThreeThousandReadingsAreJudgedInTime gives the largest swing that is worked in time: 0.1 s
// on an idle machine, asserted with a margin for a busy one.
func TestThreeThousandReadingsAreJudgedInTime(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 3))
	swung := devtest.Swing(devtest.Even(3600, 0), devtest.Usual)
	devtest.AddNoise(r, swung, 1)
	readings := make([]swing.Reading, len(swung))
	for i := range swung {
		if i%7 == 0 {
			swung[i].Deviation = deviation.East(60 * devtest.Deg)
		}
		readings[i] = swing.Reading{Heading: new(swung[i].Heading), Bearing: new(angle.CompassFrom(100*devtest.Deg - swung[i].Deviation.Angle()))}
	}
	for name, work := range map[string]func() error{
		"suspicions": func() error { swing.Suspicions(swung); return nil },
		"robust fit": func() error { _, err := swing.NewFit(swung, swing.FitOptions{Robust: true}); return err },
		"distant object": func() error {
			_, err := swing.Reduce(readings, swing.DistantObject{Distance: 4000, Radius: 100})
			return err
		},
	} {
		start := time.Now()
		if err := work(); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		took := time.Since(start)
		t.Logf("%s: %v", name, took)
		if took > 2*time.Second {
			t.Errorf("%s took %v", name, took)
		}
	}
}

// varZero is a variation known to be zero.
var varZero = variation.East(0).WithUncertainty(devtest.Sigma(0))

// fitErrorNames reports whether an error says first which readings to look at.
func fitErrorNames(err error, n int) bool {
	e, ok := errors.AsType[*swing.Error](err)
	return ok && len(e.Suspicions) == n && strings.HasPrefix(err.Error(), "deviation: fit: look again at the readings on ")
}
