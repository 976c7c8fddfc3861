package swing_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"lubberline.example/deviation/internal/devtest"
	"lubberline.example/deviation/swing"

	"lubberline.example/angle"
)

// TestTransposedHeadingIsRecognised writes two figures of one heading the wrong way round, where
// the deviation hardly shows it.
func TestTransposedHeadingIsRecognised(t *testing.T) {
	for _, c := range []struct {
		headings     int
		first        angle.Angle
		meant, wrote angle.Angle
	}{
		{36, 0, 50 * devtest.Deg, 5 * devtest.Deg}, {24, 0, 135 * devtest.Deg, 153 * devtest.Deg}, {24, 12 * devtest.Deg, 57 * devtest.Deg, 75 * devtest.Deg}, {8, 0, 45 * devtest.Deg, 54 * devtest.Deg},
	} {
		swung := devtest.Swing(devtest.Even(c.headings, c.first), func(z angle.Angle) float64 { return 2 * z.Sin() })
		devtest.AddNoise(rand.New(rand.NewPCG(5, 5)), swung, 0.3)
		if found := swing.Suspicions(swung); len(found) != 0 {
			t.Errorf("%d headings, sound: %v", c.headings, found)
		}
		at := -1
		for i := range swung {
			if swung[i].Heading == angle.CompassFrom(c.meant) {
				swung[i].Heading, at = angle.CompassFrom(c.wrote), i
			}
		}
		found := swing.Suspicions(swung)
		if len(found) != 1 || found[0].Index != at || found[0].Slips[0] != swing.HeadingTransposed {
			t.Errorf("%v for %v: %v", c.wrote, c.meant, found)
		}
	}
}

// A transposed heading may put the deviation out by 20° too: 29.5°·(sin 050° − sin 005°). That is one
// suspicion with two explanations, not two.
func TestTransposedHeadingIsOneSuspicion(t *testing.T) {
	swung := devtest.Swing(devtest.Even(36, 0), func(z angle.Angle) float64 { return 29.5 * z.Sin() })
	devtest.AddNoise(rand.New(rand.NewPCG(5, 5)), swung, 0.3)
	swung[5].Heading = angle.CompassFrom(5 * devtest.Deg) // for 050°C
	found := swing.Suspicions(swung)
	if len(found) != 1 || found[0].Index != 5 || !slices.Equal(found[0].Slips, []swing.Slip{swing.HeadingTransposed, swing.TensMisread}) {
		t.Errorf("%v", found)
	}
}
