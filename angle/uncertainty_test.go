package angle_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
)

func sigma(a angle.Angle) angle.Uncertainty { return angle.Must(angle.StandardUncertainty(a)) }

func TestNotStatedIsNotNought(t *testing.T) {
	var none angle.Uncertainty
	if s, stated := none.Sigma(); s != 0 || stated {
		t.Errorf("the zero value: %v, %v", s, stated)
	}
	if s, stated := sigma(0).Sigma(); s != 0 || !stated {
		t.Errorf("known exactly: %v, %v", s, stated)
	}
	if none == sigma(0) || none.Equal(sigma(0)) || !none.Equal(angle.Uncertainty{}) {
		t.Error("not stated and zero are two things")
	}
	_, err := angle.StandardUncertainty(-1)
	wantRange(t, err, "StandardUncertainty")
}

func TestRectangular(t *testing.T) {
	for _, step := range []angle.Angle{minute, -minute, deg / 2, 1, 0, math.MaxInt64, math.MinInt64} {
		got, stated := angle.Rectangular(step).Sigma()
		want := math.Abs(float64(step)) / math.Sqrt(12)
		if !stated || math.Abs(float64(got)-want) > 0.5+1e-15*want { // the rounding, and the division
			t.Errorf("to the nearest %v: %v", step, got)
		}
	}
	if got := angle.Rectangular(minute).String(); got != "±0°00.3′" {
		t.Errorf("of a figure to the minute: %s", got)
	}
}

func TestCombined(t *testing.T) {
	if got := sigma(3 * deg).Combined(sigma(4 * deg)); got != sigma(5*deg) {
		t.Errorf("3° and 4°: %v", got)
	}
	if got := sigma(deg).Combined(sigma(2*deg), sigma(2*deg)); got != sigma(3*deg) {
		t.Errorf("1°, 2° and 2°: %v", got)
	}
	if got := sigma(deg).Combined(); got != sigma(deg) {
		t.Errorf("alone: %v", got)
	}
	// If any part is not stated the whole is not.
	var none angle.Uncertainty
	if sigma(deg).Combined(none) != none || none.Combined(sigma(deg)) != none || sigma(0).Combined(sigma(0), none) != none {
		t.Error("something not stated was taken for zero")
	}
	if got, _ := sigma(math.MaxInt64).Combined(sigma(math.MaxInt64)).Sigma(); got != math.MaxInt64 {
		t.Errorf("beyond the range: %v", got)
	}
}

func TestScaled(t *testing.T) {
	var none angle.Uncertainty
	for _, c := range []struct {
		u      angle.Uncertainty
		factor float64
		want   angle.Uncertainty
	}{
		{sigma(deg), 2.5, sigma(2*deg + 30*minute)}, {sigma(deg), -2, sigma(2 * deg)}, {sigma(deg), 0, sigma(0)}, {sigma(0), 1e300, sigma(0)},
		{sigma(deg), math.NaN(), none}, {none, 2, none}, {sigma(deg), math.Inf(-1), sigma(math.MaxInt64)}, {sigma(deg), 1e300, sigma(math.MaxInt64)},
	} {
		if got := c.u.Scaled(c.factor); got != c.want {
			t.Errorf("%v × %v: %v, want %v", c.u, c.factor, got, c.want)
		}
	}
}

func TestTheLawsOfUncertainties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string) angle.Angle { return angle.Angle(rapid.Int64Range(0, int64(turn)).Draw(t, name)) }
		a, b := draw("a"), draw("b")
		ab, _ := sigma(a).Combined(sigma(b)).Sigma()
		ba, _ := sigma(b).Combined(sigma(a)).Sigma()
		if ab != ba || ab < max(a, b) || ab > a+b {
			t.Fatal("two together are at least the greater, at most the sum, in either order")
		}
		text, err := sigma(a).MarshalText()
		var back angle.Uncertainty
		if err2 := back.UnmarshalText(text); err != nil || err2 != nil || back != sigma(a) {
			t.Fatalf("%s: %v, %v, %v", text, back, err, err2)
		}
	})
}

func TestUncertaintyText(t *testing.T) {
	for u, want := range map[angle.Uncertainty]string{{}: "not stated", sigma(30 * minute): "±0°30′", sigma(0): "±0°00′", sigma(deg + 90*second): "±1°01.5′"} {
		if got := u.String(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	if text, err := (angle.Uncertainty{}).MarshalText(); len(text) != 0 || err != nil {
		t.Errorf("not stated: %q, %v", text, err)
	}
	for text, want := range map[string]angle.Uncertainty{"": {}, "±0°30′": sigma(30 * minute), "0.5": sigma(30 * minute), "± 30′": sigma(30 * minute), "±0": sigma(0), "-0": sigma(0)} {
		u := sigma(deg)
		if err := u.UnmarshalText([]byte(text)); err != nil || u != want {
			t.Errorf("%q: %v, %v; want %v", text, u, err, want)
		}
	}
	for _, r := range uncertaintyRefusals {
		u := sigma(deg)
		checkRefusal(t, r, u.UnmarshalText([]byte(r.text)))
		if u != sigma(deg) {
			t.Errorf("%q: refused, but the uncertainty is now %v", r.text, u)
		}
	}
}

var uncertaintyRefusals = []refusal{
	{" ", angle.NoNumber, 1}, {"±", angle.NoNumber, 2}, {"-0°30′", angle.SignNotAllowed, 0}, {"±-1", angle.SignNotAllowed, 2}, {"not stated", angle.NoNumber, 0}, {"±±1", angle.NoNumber, 2}, {"±61′", angle.MinutesOutOfRange, 2}, {"1 x", angle.TrailingText, 2},
}
