package swing_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"lubberline.example/deviation/internal/devtest"
	"lubberline.example/deviation/swing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

// slipSwing is a swing of n headings of an invented compass with some noise.
func slipSwing(n int, seed uint64, noise float64) []swing.Observation {
	swung := devtest.Swing(devtest.Even(n, 0), func(z angle.Angle) float64 { return devtest.Usual(z) + 12*z.Sin() })
	devtest.AddNoise(rand.New(rand.NewPCG(seed, 1)), swung, noise)
	return swung
}

func TestSlipsAreNamed(t *testing.T) {
	for _, test := range []struct {
		name string
		slip func(a angle.Angle) angle.Angle
		want swing.Slip
		text string
	}{
		{"reciprocal", func(a angle.Angle) angle.Angle { return a + 180*devtest.Deg }, swing.ReciprocalTaken, "reciprocal"},
		{"10° more", func(a angle.Angle) angle.Angle { return a + 10*devtest.Deg }, swing.TensMisread, "misread by 10°"},
		{"10° less", func(a angle.Angle) angle.Angle { return a - 10*devtest.Deg }, swing.TensMisread, "misread by 10°"},
		{"20° more", func(a angle.Angle) angle.Angle { return a + 20*devtest.Deg }, swing.TensMisread, "misread by 20°"},
		{"20° less", func(a angle.Angle) angle.Angle { return a - 20*devtest.Deg }, swing.TensMisread, "misread by 20°"},
		{"wrong name", func(a angle.Angle) angle.Angle { return -a }, swing.EastForWest, "named the wrong way"},
		{"nothing known", func(a angle.Angle) angle.Angle { return a + 65*devtest.Deg }, "", "; from the other headings, expect "},
	} {
		for _, i := range []int{3, 6, 18} { // on 045, 090 and 270 the deviation is large
			swung := slipSwing(24, 31, 0.3)
			before := slices.Clone(swung)
			swung[i].Deviation = deviation.East(test.slip(swung[i].Deviation.Angle()))
			given := slices.Clone(swung)
			found := swing.Suspicions(swung)
			for j := range swung {
				if swung[j].Deviation != given[j].Deviation || swung[j].Heading != given[j].Heading {
					t.Errorf("%s: observation %d was changed", test.name, j)
				}
			}
			if len(found) != 1 || found[0].Index != i || found[0].Observation.Deviation != swung[i].Deviation {
				t.Errorf("%s on %v: %v", test.name, swung[i].Heading, found)
				continue
			}
			s := found[0]
			if test.want == "" && len(s.Slips) != 0 || test.want != "" && !slices.Contains(s.Slips, test.want) {
				t.Errorf("%s on %v: slips %v", test.name, swung[i].Heading, s.Slips)
			}
			if off := s.Expected.Angle() - before[i].Deviation.Angle(); !devtest.Near(off.Degrees(), 0, 1.5) { // five times the noise
				t.Errorf("%s: expected %v", test.name, s.Expected)
			}
			u, ok := s.Expected.Uncertainty().Sigma()
			if !ok || u < devtest.Deg/10 || u > devtest.Deg {
				t.Errorf("%s: uncertainty %v, %v", test.name, u, ok)
			}
			text := s.String()
			if !strings.Contains(text, test.text) || !strings.HasPrefix(text, "on "+swung[i].Heading.String()+" the deviation is ") || strings.Contains(text, "\n") {
				t.Errorf("%s: %s", test.name, text)
			}
		}
	}
}

// Two explanations are both given: 10° W for 10° E is 20° off.
func TestTwoSlipsMayFit(t *testing.T) {
	swung := devtest.Swing(devtest.Even(24, 0), func(z angle.Angle) float64 { return 10 * z.Sin() })
	devtest.AddNoise(rand.New(rand.NewPCG(33, 1)), swung, 0.2)
	swung[6].Deviation = deviation.West(swung[6].Deviation.Angle())
	found := swing.Suspicions(swung)
	if len(found) != 1 || !slices.Equal(found[0].Slips, []swing.Slip{swing.TensMisread, swing.EastForWest}) {
		t.Fatalf("%v", found)
	}
	if text := found[0].String(); !strings.Contains(text, ". The bearing may be misread by 20°. The deviation may be named the wrong way") {
		t.Error(text)
	}
}

func TestTwoBlundersDoNotHideEachOther(t *testing.T) {
	for i := range 23 {
		swung := slipSwing(24, uint64(40+i), 0.3)
		devtest.AddEast(swung, i, 10*devtest.Deg)
		devtest.AddEast(swung, i+1, 10*devtest.Deg)
		found := swing.Suspicions(swung)
		if len(found) != 2 || found[0].Index != i || found[1].Index != i+1 {
			t.Errorf("on %d and the next: %v", i, found)
		}
	}
}

func TestTheOrderOfTheReadingsDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(8, 24).Draw(t, "headings")
		swung := slipSwing(n, rapid.Uint64().Draw(t, "noise"), 0.4)
		for range rapid.IntRange(0, n/8).Draw(t, "blunders") {
			devtest.AddEast(swung, rapid.IntRange(0, n-1).Draw(t, "on"), angle.Angle(rapid.SampledFrom([]int{-20, -10, 10, 20, 180}).Draw(t, "by"))*devtest.Deg)
		}
		places := make([]int, n)
		for i := range places {
			places[i] = i
		}
		places = rapid.Permutation(places).Draw(t, "order")
		mixed := make([]swing.Observation, n)
		for i, p := range places {
			mixed[i] = swung[p]
		}
		a, b := swing.Suspicions(swung), swing.Suspicions(mixed)
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

func TestFewHeadingsAreNotSuspected(t *testing.T) {
	for n := range 8 {
		swung := devtest.Swing(devtest.Even(n, 0), devtest.Usual)
		if n > 0 {
			devtest.AddEast(swung, n-1, 20*devtest.Deg)
			swung = append(swung, swung...) // seen twice, they are no more headings
		}
		if found := swing.Suspicions(swung); found != nil {
			t.Errorf("%d headings: %v", n, found)
		}
	}
}

func TestNothingIsSuspectedOfExactData(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := devtest.DrawSeries(t, 2, 8)
		swung := devtest.Swing(devtest.DrawSpread(t, rapid.IntRange(8, 24).Draw(t, "headings")), b.At)
		if found := swing.Suspicions(swung); found != nil {
			t.Fatalf("%v", found)
		}
	})
}

// A higher harmonic of a degree is no blunder: less than 2½° off.
func TestPoorReadingIsNotABlunder(t *testing.T) {
	swung := devtest.Swing(devtest.Even(24, 0), devtest.Usual)
	devtest.AddEast(swung, 4, 2*devtest.Deg)
	if found := swing.Suspicions(swung); found != nil {
		t.Errorf("%v", found)
	}
	devtest.AddEast(swung, 4, devtest.Deg)
	if found := swing.Suspicions(swung); len(found) != 1 {
		t.Errorf("3° off: %v", found)
	}
}

// Where all headings lie within some degrees, A to E can't be told apart.
func TestNoCurveNoSuspicion(t *testing.T) {
	var headings []angle.Angle
	for i := range angle.Angle(12) {
		headings = append(headings, i*devtest.Minute)
	}
	swung := devtest.Swing(headings, devtest.Usual)
	devtest.AddEast(swung, 3, 20*devtest.Deg)
	if found := swing.Suspicions(swung); found != nil {
		t.Errorf("%v", found)
	}
}

// Half a swing on the headings that agree, and the rest round the circle.
func TestSuspicionsOfAnUnevenSwingAreNumbers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var swung []swing.Observation
		for range rapid.IntRange(8, 20).Draw(t, "n") {
			swung = append(swung, swing.Observation{
				Heading:   angle.CompassFrom(devtest.DrawHeading(t, "heading")),
				Deviation: deviation.East(devtest.DrawBetween(t, -180*devtest.Deg, 180*devtest.Deg, "deviation")),
			})
		}
		for _, s := range swing.Suspicions(swung) {
			if s.Index < 0 || s.Index >= len(swung) || s.Observation.Heading != swung[s.Index].Heading || math.IsNaN(s.Expected.Degrees()) || s.String() == "" {
				t.Fatalf("%+v", s)
			}
		}
	})
}
