package angle_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
)

func TestNormalized(t *testing.T) {
	for _, c := range []struct{ a, circle, signed angle.Angle }{
		{0, 0, 0},
		{turn, 0, 0},
		{-turn, 0, 0},
		{-1, turn - 1, -1},
		{1, 1, 1},
		{180 * deg, 180 * deg, 180 * deg},
		{-180 * deg, 180 * deg, 180 * deg}, // half a turn is positive both ways
		{-180*deg + 1, 180*deg + 1, -180*deg + 1},
		{180*deg + 1, 180*deg + 1, -180*deg + 1},
		{540 * deg, 180 * deg, 180 * deg},
		{-540 * deg, 180 * deg, 180 * deg},
		{-10 * deg, 350 * deg, -10 * deg},
		{7116*turn + 5, 5, 5},
	} {
		if got := c.a.Normalized(); got != c.circle {
			t.Errorf("%d on the circle: %d, want %d", int64(c.a), int64(got), int64(c.circle))
		}
		if got := c.a.NormalizedSigned(); got != c.signed {
			t.Errorf("%d as a turn: %d, want %d", int64(c.a), int64(got), int64(c.signed))
		}
	}
}

// Bringing an angle into the circle moves it by whole turns, and again does
// nothing.
func TestNormalizedLaws(t *testing.T) {
	check := func(fatalf func(string, ...any), a angle.Angle) {
		n, s := a.Normalized(), a.NormalizedSigned()
		if n < 0 || n >= turn || s <= -turn/2 || s > turn/2 {
			fatalf("%d: %d and %d lie outside", int64(a), int64(n), int64(s))
		}
		if n.Normalized() != n || s.NormalizedSigned() != s || s.Normalized() != n || n.NormalizedSigned() != s {
			fatalf("%d: not the same a second time", int64(a))
		}
		if (a%turn-n)%turn != 0 || (a%turn-s)%turn != 0 {
			fatalf("%d: not by whole turns", int64(a))
		}
	}
	rapid.Check(t, func(t *rapid.T) { check(t.Fatalf, anyAngle().Draw(t, "a")) })
	check(t.Fatalf, math.MinInt64)
	check(t.Fatalf, math.MaxInt64)
}
