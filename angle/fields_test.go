package angle_test

import (
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
)

func TestFields(t *testing.T) {
	for _, c := range []struct {
		a    angle.Angle
		want angle.Fields
	}{
		{0, angle.Fields{}},
		{-30 * minute, angle.Fields{Negative: true, Minutes: 30}}, // the sign is not lost on 0°
		{-(4*deg + 15*minute + 30*second + 1), angle.Fields{Negative: true, Degrees: 4, Minutes: 15, Seconds: 30, Nanoseconds: 1}},
		{deg - 1, angle.Fields{Minutes: 59, Seconds: 59, Nanoseconds: 999_999_999}},
		{math.MinInt64, angle.Fields{Negative: true, Degrees: 2562047, Minutes: 47, Seconds: 16, Nanoseconds: 854_775_808}},
	} {
		if got := c.a.Fields(); got != c.want {
			t.Errorf("%d: %+v, want %+v", int64(c.a), got, c.want)
		}
	}
	if got := (4*deg + 15*minute + 30*second).Fields().DecimalMinutes(); got != 15.5 {
		t.Errorf("minutes of 4°15′30″: %v", got)
	}
	// Rounded first, 60′ can't appear.
	if got := (5*deg - 1).Round(minute / 10).Fields(); got != (angle.Fields{Degrees: 5}) {
		t.Errorf("4°59.99…′ to a tenth: %+v", got)
	}
}

func TestFieldsPutTogetherGiveTheAngle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := anyAngle().Draw(t, "a")
		f := a.Fields()
		if f.Degrees < 0 || f.Minutes < 0 || f.Minutes > 59 || f.Seconds < 0 || f.Seconds > 59 || f.Nanoseconds < 0 || f.Nanoseconds > 999_999_999 {
			t.Fatalf("%+v", f)
		}
		sum := big.NewInt(f.Degrees*3600 + int64(f.Minutes)*60 + int64(f.Seconds))
		sum.Add(sum.Mul(sum, big.NewInt(1e9)), big.NewInt(int64(f.Nanoseconds)))
		if f.Negative {
			sum.Neg(sum)
		}
		if sum.Cmp(big.NewInt(int64(a))) != 0 {
			t.Fatalf("%d: %+v", int64(a), f)
		}
		if f.Negative != (a < 0) {
			t.Fatalf("%d: the sign is wrong", int64(a))
		}
		if m := f.DecimalMinutes(); m < 0 || m >= 60 {
			t.Fatalf("%v minutes", m)
		}
	})
}
