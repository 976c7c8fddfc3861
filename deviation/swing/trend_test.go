package swing_test

import (
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation/swing"
)

// drifting is a swing by bearings of an object that drift by some degrees from the first
// reading to the last, taken in the order of the headings.
func drifting(r *rand.Rand, n int, drift, noise float64) []swing.Reading {
	b, c, d, e := r.NormFloat64()*3, r.NormFloat64()*2, r.NormFloat64(), r.NormFloat64()*0.2
	readings := make([]swing.Reading, n)
	for i := range readings {
		h := 2 * math.Pi * float64(i) / float64(n)
		dev := b*math.Sin(h) + c*math.Cos(h) + d*math.Sin(2*h) + e*math.Sin(4*h) + drift*float64(i)/float64(n-1) + noise*r.NormFloat64()
		bearing := angle.Must(angle.CompassDegrees(60 - math.Round(dev*2)/2))
		heading := angle.CompassFrom(angle.Angle(i) * angle.Turn / angle.Angle(n))
		readings[i] = swing.Reading{Heading: &heading, Bearing: &bearing}
	}
	return readings
}

// A boat that drifts while it swings by a distant object is warned; a boat that does not is
// left alone. Measured with FULL=1, 4,000 swings of each, read to half a degree with noise
// of 0.5°: of drifts of 6° found in 24 headings 98.2 %, in 16 headings 83 %; of sound swings
// accused at most 0.6 %.
func TestDriftingBoatIsWarnedOf(t *testing.T) {
	swings := 200
	if os.Getenv("FULL") == "1" {
		swings = 4000
	}
	r := rand.New(rand.NewPCG(14, 5)) // the same draws each time
	for _, c := range []struct {
		headings    int
		drift       float64
		least, most float64
	}{{24, 6, 0.97, 1}, {16, 6, 0.75, 1}, {24, 0, 0, 0.02}, {16, 0, 0, 0.02}, {12, 0, 0, 0.02}} {
		found := 0
		for range swings {
			swung, err := swing.Reduce(drifting(r, c.headings, c.drift, 0.5), swing.DistantObject{})
			if err != nil {
				t.Fatal(err)
			}
			if slices.ContainsFunc(swung.Warnings, func(w working.Warning) bool { return w.Kind == swing.TrendInTime }) {
				found++
			}
		}
		share := float64(found) / float64(swings)
		t.Logf("%d headings, drift %v°: warned of in %.1f %%", c.headings, c.drift, 100*share)
		if share < c.least || share > c.most {
			t.Errorf("%d headings, drift %v°: warned of in %.1f %%, want %.0f to %.0f %%", c.headings, c.drift, 100*share, 100*c.least, 100*c.most)
		}
	}
}
