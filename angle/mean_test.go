package angle_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
)

func TestMean(t *testing.T) {
	for _, c := range []struct {
		degrees []float64
		want    float64
	}{
		{[]float64{350, 10}, 0}, // not 180
		{[]float64{10, 350}, 0},
		{[]float64{90}, 90},
		{[]float64{0, 90}, 45},
		{[]float64{359, 0, 1, 2}, 0.5},
		{[]float64{180, 181, 179}, 180},
		{[]float64{0, 0, 90}, 26.565051177}, // arctan ½
		{[]float64{0, 120, 240, 30}, 30},    // three cancel
	} {
		var directions []angle.Magnetic
		for _, d := range c.degrees {
			directions = append(directions, angle.Must(angle.MagneticDegrees(d)))
		}
		mean, spread, err := angle.Mean(directions...)
		if err != nil {
			t.Error(c.degrees, err)
			continue
		}
		// The sines are good to 1e-16, the printed arctangent to 5e-10.
		if d := mean.Sub(angle.Must(angle.MagneticDegrees(c.want))).Degrees(); math.Abs(d) > 1e-9 {
			t.Errorf("mean of %v: %v°, want %v°", c.degrees, mean.Degrees(), c.want)
		}
		if spread < 0 {
			t.Errorf("mean of %v: spread %v", c.degrees, spread)
		}
	}
}

func TestSpread(t *testing.T) {
	mean, spread, err := angle.Mean(true3(57), true3(57), true3(57))
	if err != nil || spread != 0 || mean != true3(57) {
		t.Errorf("all the same: %v, %v, %v", mean, spread, err)
	}
	// Two at right angles: the resultant is √½, one hypotenuse.
	_, spread, _ = angle.Mean(true3(0), true3(90))
	if want := math.Sqrt(-2 * math.Log(math.Sqrt2/2)); math.Abs(spread.Radians()-want) > 1e-14 { // half a unit and the logarithm
		t.Errorf("spread %v, want %v", spread.Radians(), want)
	}
	// Close together the spread is the standard deviation: here of −1°, 0°, +1°.
	_, spread, _ = angle.Mean(true3(359), true3(0), true3(1))
	if want := math.Sqrt(2.0 / 3); math.Abs(spread.Degrees()-want) > 1e-3*want { // fourth-order terms
		t.Errorf("spread %v°, want %v°", spread.Degrees(), want)
	}
}

func TestDirectionsThatCancelHaveNoMean(t *testing.T) {
	for _, degrees := range [][]float64{{}, {0, 180}, {45, 225}, {0, 120, 240}, {10, 100, 190, 280}, {33, 213, 77, 257}} {
		var directions []angle.True
		for _, d := range degrees {
			directions = append(directions, true3(d))
		}
		mean, spread, err := angle.Mean(directions...)
		var refused *angle.RangeError
		if !errors.As(err, &refused) || spread != 0 || mean != (angle.True{}) {
			t.Errorf("mean of %v: %v, %v, %v", degrees, mean, spread, err)
			continue
		}
		if refused.Value > 1e-12 {
			t.Errorf("mean of %v: %+v", degrees, refused)
		}
		if want := map[bool]string{true: "at least one", false: "cancel"}[len(degrees) == 0]; !strings.Contains(err.Error(), want) {
			t.Errorf("message %q does not say %q", err, want)
		}
	}
}

// A hair off opposite there is a mean again.
func TestNearlyOppositeDirectionsHaveAMean(t *testing.T) {
	mean, _, err := angle.Mean(angle.TrueFrom(0), angle.TrueFrom(turn/2-second))
	if err != nil {
		t.Fatal(err)
	}
	// The resultant is 2e-6; the sines' 1e-16 turn it by 1e-10 radians.
	if d := mean.Sub(angle.TrueFrom(turn/4 - second/2)); d.Abs() > second/1000 {
		t.Errorf("off by %v", d.Degrees())
	}
}

func TestMeanLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		directions := rapid.SliceOfN(anyTrue(), 1, 12).Draw(t, "directions")
		mean, spread, err := angle.Mean(directions...)

		a := anyAngle().Draw(t, "turned by")
		turned := make([]angle.True, len(directions))
		for i, d := range directions {
			turned[i] = d.Add(a)
		}
		turnedMean, turnedSpread, err2 := angle.Mean(turned...)
		if (err == nil) != (err2 == nil) || turnedMean != mean.Add(a) && err == nil || turnedSpread != spread {
			t.Fatal("turning all the bearings turned their mean by another angle")
		}

		order := rapid.Permutation(directions).Draw(t, "order")
		again, _, err3 := angle.Mean(order...)
		if resultant := math.Exp(-spread.Radians() * spread.Radians() / 2); resultant > 0.01 {
			// A dozen terms at 1e-16, over a resultant of 0.01: 1e-13 radians,
			// some 20 units. A millionth of a second is 1,000.
			if d := again.Sub(mean); err3 != nil || d.Abs() > second/1e6 {
				t.Fatalf("in another order the mean differs by %d units, %v", int64(d), err3)
			}
		}
		if len(directions) == 1 && mean != directions[0] {
			t.Fatal("the mean of one bearing is another")
		}
	})
}
