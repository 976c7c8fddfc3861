package swing_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"lubberline.example/deviation/internal/devtest"
	"lubberline.example/deviation/swing"

	"lubberline.example/angle"
)

// simulatedNoise is the standard deviation of a reading, in degrees.
const simulatedNoise = 0.5

// simulatedShip draws the deviation of an invented ship, in degrees: constant
// and quadrantal parts less than the semicircular, and a little of what A to E
// can't follow.
func simulatedShip(random *rand.Rand) devtest.Series {
	var b devtest.Series
	for _, sd := range []float64{1, 5, 5, 2, 0.7, 0.5, 0.5, 0.4, 0.4} {
		b = append(b, sd*random.NormFloat64())
	}
	return b
}

// simulatedSwing swings a ship from headings at equal steps.
func simulatedSwing(random *rand.Rand, ship devtest.Series, n int) []swing.Observation {
	swung := devtest.Swing(devtest.Even(n, angle.Angle(random.Int64N(int64(angle.Turn)))), ship.At)
	devtest.AddNoise(random, swung, simulatedNoise)
	return swung
}

// ships is how many are simulated, all with FULL=1; the figures are asserted of all of them only.
func ships() (n int, all bool) {
	return swings(150, 1000)
}

func TestIntervalCoverage(t *testing.T) {
	n, all := ships()
	for _, test := range []struct {
		headings int
		options  swing.FitOptions
	}{
		{16, swing.FitOptions{Order: 0}},
		{24, swing.FitOptions{Order: 0}},
		{36, swing.FitOptions{Order: 0}},
		{24, swing.FitOptions{Order: 4}},
	} {
		random := rand.New(rand.NewPCG(1880, uint64(test.headings)))
		held, asked := 0, 0
		for range n {
			ship := simulatedShip(random)
			fit := devtest.Fit(t, simulatedSwing(random, ship, test.headings), test.options)
			for z := angle.Angle(0); z < angle.Turn; z += 10 * devtest.Deg {
				within, ok := fit.Within(z, 0.95)
				d, err := fit.Curve.OnCompass(angle.CompassFrom(z))
				if !ok || err != nil {
					t.Fatal(ok, err)
				}
				asked++
				if math.Abs(d.Degrees()-ship.At(z)) <= within.Degrees() {
					held++
				}
			}
		}
		coverage := float64(held) / float64(asked)
		t.Logf("%d headings, %+v: %.3f", test.headings, test.options, coverage)
		if all && (coverage < 0.93 || coverage > 0.97) { // 0.95, and what model averaging leaves
			t.Errorf("%d headings, %+v: 95 %% intervals hold the truth in %.3f", test.headings, test.options, coverage)
		}
	}
}

func TestBlundersAreSuspected(t *testing.T) {
	n, all := ships()
	random := rand.New(rand.NewPCG(1881, 16))
	found, flagged := 0, 0
	for range n {
		ship := simulatedShip(random)
		swung := simulatedSwing(random, ship, 16)
		if len(swing.Suspicions(swung)) > 0 {
			flagged++
		}
		i := random.IntN(16)
		devtest.AddEast(swung, i, angle.Angle(2*random.IntN(2)-1)*10*devtest.Deg)
		for _, s := range swing.Suspicions(swung) {
			if s.Index == i {
				found++
			}
		}
	}
	t.Logf("of %d swings, blunders found in %d, good ones flagged %d", n, found, flagged)
	if all && found*100 < 90*n {
		t.Errorf("blunders of 10° found in %d of %d swings", found, n)
	}
	if all && flagged*100 >= 2*n {
		t.Errorf("%d of %d good swings flagged", flagged, n)
	}
}
