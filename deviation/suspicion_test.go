package deviation_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

// slipSwing is a swing of n headings of an invented compass with some noise.
func slipSwing(n int, seed uint64, noise float64) []deviation.Observation {
	swing := madeSwing(madeEven(n, 0), func(z angle.Angle) float64 { return usual(z) + 12*z.Sin() })
	madeNoise(rand.New(rand.NewPCG(seed, 1)), swing, noise)
	return swing
}

func slipAdd(swing []deviation.Observation, i int, east angle.Angle) {
	swing[i].Deviation = deviation.East(swing[i].Deviation.Angle() + east)
}

func TestSlipsAreNamed(t *testing.T) {
	for _, test := range []struct {
		name string
		slip func(a angle.Angle) angle.Angle
		want deviation.ReadingSlip
		text string
	}{
		{"reciprocal", func(a angle.Angle) angle.Angle { return a + 180*deg }, deviation.ReciprocalTaken, "reciprocal"},
		{"10° more", func(a angle.Angle) angle.Angle { return a + 10*deg }, deviation.TensMisread, "misread by 10°"},
		{"10° less", func(a angle.Angle) angle.Angle { return a - 10*deg }, deviation.TensMisread, "misread by 10°"},
		{"20° more", func(a angle.Angle) angle.Angle { return a + 20*deg }, deviation.TensMisread, "misread by 20°"},
		{"20° less", func(a angle.Angle) angle.Angle { return a - 20*deg }, deviation.TensMisread, "misread by 20°"},
		{"wrong name", func(a angle.Angle) angle.Angle { return -a }, deviation.EastForWest, "named the wrong way"},
		{"nothing known", func(a angle.Angle) angle.Angle { return a + 65*deg }, "", "where the other headings lead one to expect"},
	} {
		for _, i := range []int{3, 6, 18} { // on 045, 090 and 270 the deviation is large
			swing := slipSwing(24, 31, 0.3)
			before := slices.Clone(swing)
			swing[i].Deviation = deviation.East(test.slip(swing[i].Deviation.Angle()))
			given := slices.Clone(swing)
			found := deviation.Suspicions(swing)
			for j := range swing {
				if swing[j].Deviation != given[j].Deviation || swing[j].Heading != given[j].Heading {
					t.Errorf("%s: observation %d was changed", test.name, j)
				}
			}
			if len(found) != 1 || found[0].Index != i || found[0].Observation.Deviation != swing[i].Deviation {
				t.Errorf("%s on %v: %v", test.name, swing[i].Heading, found)
				continue
			}
			s := found[0]
			if test.want == "" && len(s.Slips) != 0 || test.want != "" && !slices.Contains(s.Slips, test.want) {
				t.Errorf("%s on %v: slips %v", test.name, swing[i].Heading, s.Slips)
			}
			if off := s.Expected.Angle() - before[i].Deviation.Angle(); !near(off.Degrees(), 0, 1.5) { // five times the noise
				t.Errorf("%s: expected %v", test.name, s.Expected)
			}
			u, ok := s.Expected.Uncertainty().Sigma()
			if !ok || u < deg/10 || u > deg {
				t.Errorf("%s: uncertainty %v, %v", test.name, u, ok)
			}
			text := s.String()
			if !strings.Contains(text, test.text) || !strings.HasPrefix(text, "on "+swing[i].Heading.String()+": deviation ") || strings.Contains(text, "\n") {
				t.Errorf("%s: %s", test.name, text)
			}
		}
	}
}

// Two explanations are both given: 10° W for 10° E is 20° off.
func TestTwoSlipsMayFit(t *testing.T) {
	swing := madeSwing(madeEven(24, 0), func(z angle.Angle) float64 { return 10 * z.Sin() })
	madeNoise(rand.New(rand.NewPCG(33, 1)), swing, 0.2)
	swing[6].Deviation = deviation.West(swing[6].Deviation.Angle())
	found := deviation.Suspicions(swing)
	if len(found) != 1 || !slices.Equal(found[0].Slips, []deviation.ReadingSlip{deviation.TensMisread, deviation.EastForWest}) {
		t.Fatalf("%v", found)
	}
	if text := found[0].String(); !strings.Contains(text, ": the bearing may be misread by 20°, or it may be named the wrong way") {
		t.Error(text)
	}
}

func TestTwoBlundersDoNotHideEachOther(t *testing.T) {
	for i := range 23 {
		swing := slipSwing(24, uint64(40+i), 0.3)
		slipAdd(swing, i, 10*deg)
		slipAdd(swing, i+1, 10*deg)
		found := deviation.Suspicions(swing)
		if len(found) != 2 || found[0].Index != i || found[1].Index != i+1 {
			t.Errorf("on %d and the next: %v", i, found)
		}
	}
}

func TestTheOrderOfTheReadingsDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(8, 24).Draw(t, "headings")
		swing := slipSwing(n, rapid.Uint64().Draw(t, "noise"), 0.4)
		for range rapid.IntRange(0, n/8).Draw(t, "blunders") {
			slipAdd(swing, rapid.IntRange(0, n-1).Draw(t, "on"), angle.Angle(rapid.SampledFrom([]int{-20, -10, 10, 20, 180}).Draw(t, "by"))*deg)
		}
		places := make([]int, n)
		for i := range places {
			places[i] = i
		}
		places = rapid.Permutation(places).Draw(t, "order")
		mixed := make([]deviation.Observation, n)
		for i, p := range places {
			mixed[i] = swing[p]
		}
		a, b := deviation.Suspicions(swing), deviation.Suspicions(mixed)
		var was, is []int
		for _, s := range a {
			was = append(was, s.Index)
		}
		for i, s := range b {
			is = append(is, places[s.Index])
			if i > 0 && b[i-1].Index >= s.Index {
				t.Fatal("not in the order of the observations")
			}
		}
		slices.Sort(is)
		if !slices.Equal(was, is) {
			t.Fatalf("suspected %v, in another order %v", was, is)
		}
	})
}

func TestWithFewerThanEightHeadingsNothingIsSuspected(t *testing.T) {
	for n := range 8 {
		swing := madeSwing(madeEven(n, 0), usual)
		if n > 0 {
			slipAdd(swing, n-1, 20*deg)
			swing = append(swing, swing...) // seen twice, they are no more headings
		}
		if found := deviation.Suspicions(swing); found != nil {
			t.Errorf("%d headings: %v", n, found)
		}
	}
}

func TestNothingIsSuspectedOfExactData(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawSeries(t, 2, 8)
		swing := madeSwing(drawSpread(t, rapid.IntRange(8, 24).Draw(t, "headings")), b.at)
		if found := deviation.Suspicions(swing); found != nil {
			t.Fatalf("%v", found)
		}
	})
}

// A higher harmonic of a degree is no blunder: less than 2½° off.
func TestPoorReadingIsNotABlunder(t *testing.T) {
	swing := madeSwing(madeEven(24, 0), usual)
	slipAdd(swing, 4, 2*deg)
	if found := deviation.Suspicions(swing); found != nil {
		t.Errorf("%v", found)
	}
	slipAdd(swing, 4, deg)
	if found := deviation.Suspicions(swing); len(found) != 1 {
		t.Errorf("3° off: %v", found)
	}
}

// Where all headings lie within some degrees, A to E can't be told apart.
func TestNothingIsSuspectedWhereNoCurveCanBeFitted(t *testing.T) {
	var headings []angle.Angle
	for i := range angle.Angle(12) {
		headings = append(headings, i*minute)
	}
	swing := madeSwing(headings, usual)
	slipAdd(swing, 3, 20*deg)
	if found := deviation.Suspicions(swing); found != nil {
		t.Errorf("%v", found)
	}
}

// Half a swing on the headings that agree, and the rest round the circle.
func TestSuspicionsOfAnUnevenSwingAreNumbers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var swing []deviation.Observation
		for range rapid.IntRange(8, 20).Draw(t, "n") {
			swing = append(swing, deviation.Observation{
				Heading:   angle.CompassFrom(drawHeading(t, "heading")),
				Deviation: deviation.East(drawBetween(t, -180*deg, 180*deg, "deviation")),
			})
		}
		for _, s := range deviation.Suspicions(swing) {
			if s.Index < 0 || s.Index >= len(swing) || s.Observation.Heading != swing[s.Index].Heading || math.IsNaN(s.Expected.Degrees()) || s.String() == "" {
				t.Fatalf("%+v", s)
			}
		}
	})
}
