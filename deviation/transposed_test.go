package deviation_test

import (
	"math/rand/v2"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

// TestTransposedHeadingIsRecognised writes two figures of one heading the wrong way round, where
// the deviation hardly shows it.
func TestTransposedHeadingIsRecognised(t *testing.T) {
	for _, c := range []struct {
		headings     int
		first        angle.Angle
		meant, wrote angle.Angle
	}{
		{36, 0, 50 * deg, 5 * deg}, {24, 0, 135 * deg, 153 * deg}, {24, 12 * deg, 57 * deg, 75 * deg}, {8, 0, 45 * deg, 54 * deg},
	} {
		swing := madeSwing(madeEven(c.headings, c.first), func(z angle.Angle) float64 { return 2 * z.Sin() })
		madeNoise(rand.New(rand.NewPCG(5, 5)), swing, 0.3)
		if found := deviation.Suspicions(swing); len(found) != 0 {
			t.Errorf("%d headings, sound: %v", c.headings, found)
		}
		at := -1
		for i := range swing {
			if swing[i].Heading == angle.CompassFrom(c.meant) {
				swing[i].Heading, at = angle.CompassFrom(c.wrote), i
			}
		}
		found := deviation.Suspicions(swing)
		if len(found) != 1 || found[0].Index != at || found[0].Slips[0] != deviation.HeadingTransposed {
			t.Errorf("%v for %v: %v", c.wrote, c.meant, found)
		}
	}
}
