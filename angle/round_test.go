package angle_test

import (
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
)

func TestRound(t *testing.T) {
	for _, c := range []struct {
		a, unit, want angle.Angle
	}{
		{4*deg + 15*minute, deg, 4 * deg},
		{4*deg + 30*minute, deg, 5 * deg},     // half: away from zero
		{-(4*deg + 30*minute), deg, -5 * deg}, // on both sides
		{4*deg + 30*minute - 1, deg, 4 * deg}, // just under
		{-(4*deg + 30*minute) + 1, deg, -4 * deg},
		{4*deg + 15*minute, deg / 2, 4*deg + 30*minute},
		{4*deg + 14*minute, deg / 2, 4 * deg},
		{-(4*deg + 14*minute), deg / 2, -4 * deg},
		{15*second + 2*minute, minute / 10, 2*minute + 18*second},
		{7, 0, 7}, {7, -3, 7}, {-7, 0, -7}, // no unit to round to
		{7, 1, 7}, {-7, 1, -7},
		{7, 7, 7}, {-7, 7, -7}, {0, deg, 0},
		{math.MaxInt64, deg, math.MaxInt64},  // would leave the range
		{math.MinInt64, deg, math.MinInt64},  //
		{-math.MaxInt64, deg, math.MinInt64}, //
		{math.MaxInt64, math.MaxInt64, math.MaxInt64},
		{math.MinInt64, math.MaxInt64, -math.MaxInt64},
		{1, math.MaxInt64, 0},
	} {
		if got := c.a.Round(c.unit); got != c.want {
			t.Errorf("%d rounded to %d: %d, want %d", int64(c.a), int64(c.unit), int64(got), int64(c.want))
		}
	}
}

func TestRoundAgreesWithFractions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := anyAngle().Draw(t, "a")
		unit := angle.Angle(rapid.OneOf(rapid.Int64Range(1, math.MaxInt64), rapid.Int64Range(1, 100),
			rapid.SampledFrom([]int64{int64(deg), int64(deg / 2), int64(minute), int64(minute / 10)})).Draw(t, "unit"))
		multiple, _ := nearest(big.NewRat(int64(a), int64(unit)))
		exact := new(big.Int).Mul(big.NewInt(int64(multiple)), big.NewInt(int64(unit)))
		want := angle.Angle(math.MaxInt64)
		if exact.Sign() < 0 {
			want = math.MinInt64
		}
		if exact.IsInt64() {
			want = angle.Angle(exact.Int64())
		}
		if got := a.Round(unit); got != want {
			t.Fatalf("%d to %d: %d, want %d", int64(a), int64(unit), int64(got), int64(want))
		}
	})
}

func TestTruncateGoesTowardZero(t *testing.T) {
	for _, c := range []struct{ a, unit, want angle.Angle }{
		{4*deg + 59*minute, deg, 4 * deg},
		{-(4*deg + 59*minute), deg, -4 * deg},
		{4 * deg, deg, 4 * deg},
		{7, 0, 7}, {-7, -1, -7},
		{math.MinInt64, deg, -2562047 * deg},
	} {
		if got := c.a.Truncate(c.unit); got != c.want {
			t.Errorf("%v truncated to %v: %v", c.a, c.unit, got)
		}
	}
}
