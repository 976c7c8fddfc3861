package angle_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
)

func TestDegreesMinutes(t *testing.T) {
	for _, c := range []struct {
		degrees int
		minutes float64
		want    angle.Angle
	}{
		{0, 0, 0},
		{7, 38, 7*deg + 38*minute},
		{0, 30.25, 30*minute + 15*second},
		{4, 15.5, 4*deg + 15*minute + 30*second},
		{2562047, 47.28, 2562047*deg + 47*minute + 168*second/10},
		{0, 59.999999999999, deg}, // rounds up: the carry is arithmetic
	} {
		if got, err := angle.DegreesMinutes(c.degrees, c.minutes); err != nil || got != c.want {
			t.Errorf("%d°%v′ = %d, %v; want %d", c.degrees, c.minutes, int64(got), err, int64(c.want))
		}
	}
}

// A sign would be lost on 0°30′: DegreesMinutes takes none.
func TestDegreesMinutesRefuses(t *testing.T) {
	for _, c := range []struct {
		degrees int
		minutes float64
	}{
		{-1, 0}, {0, -1}, {0, 60}, {2562048, 0}, {2562047, 48}, {math.MaxInt, 0}, {math.MinInt, 0},
		{1, 60}, {1, -0.5}, {1, math.NaN()}, {1, math.Inf(1)}, {1, math.Inf(-1)},
	} {
		a, err := angle.DegreesMinutes(c.degrees, c.minutes)
		if a != 0 {
			t.Errorf("%v = %d", c, int64(a))
		}
		wantRange(t, err, "DegreesMinutes")
	}
}

func TestScaleIsExactWhereTheProductIs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := anyAngle().Draw(t, "a")
		if got := angle.Must(a.Scale(1)); got != a {
			t.Fatalf("%d × 1 = %d", int64(a), int64(got))
		}
		if got := angle.Must(a.Scale(-1)); got != -a {
			t.Fatalf("%d × −1 = %d", int64(a), int64(got))
		}
	})
	for _, c := range []struct {
		a      angle.Angle
		factor float64
		want   angle.Angle
	}{
		{9 * minute, 12, 108 * minute}, // nine minutes a year for twelve years
		{1, 0.5, 1}, {-1, 0.5, -1}, {1, 0.49, 0}, {3, 0.5, 2}, {-3, 0.5, -2},
		// Ties beyond 2⁵², where a float64 has no halves left.
		{3002399751580333, 1.5, 4503599627370500},
		{1<<53 + 3, 0.5, 1<<52 + 2},
		{-(1<<53 + 3), 0.5, -(1<<52 + 2)},
		{1, (1<<53 - 1) << 10, (1<<53 - 1) << 10}, // the largest float64 that fits
		{math.MaxInt64 - 299, 0.5, 1<<62 - 150},
	} {
		if got := angle.Must(c.a.Scale(c.factor)); got != c.want {
			t.Errorf("%d × %v = %d, want %d", int64(c.a), c.factor, int64(got), int64(c.want))
		}
	}
}

func TestAbs(t *testing.T) {
	for a, want := range map[angle.Angle]angle.Angle{
		0: 0, 5: 5, -5: 5, math.MaxInt64: math.MaxInt64, -math.MaxInt64: math.MaxInt64,
		math.MinInt64: math.MaxInt64, // its negative does not exist
	} {
		if got := a.Abs(); got != want {
			t.Errorf("size of %d: %d", int64(a), int64(got))
		}
	}
}
