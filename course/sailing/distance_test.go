package sailing_test

import (
	"math"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"pgregory.net/rapid"
)

func TestDistanceAndSpeedStrings(t *testing.T) {
	for want, got := range map[string]string{
		"12.5 M":  (12.5 * mile).String(),
		"0.42 M":  (0.42 * mile).String(),
		"0.10 M":  sailing.Cable.String(),
		"1.0 M":   (0.9951 * mile).String(),
		"0.99 M":  (0.9949 * mile).String(),
		"-3.2 M":  (-3.2 * mile).String(),
		"0.54 M":  sailing.Kilometre.String(),
		"0.00 M":  sailing.Distance(0).String(),
		"6.0 kn":  (6 * sailing.Knot).String(),
		"1.9 kn":  sailing.Speed(1).String(),
		"-0.5 kn": (-0.5 * sailing.Knot).String(),
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	for _, d := range []sailing.Distance{0, sailing.Distance(math.Copysign(0, -1)), -0.004 * mile, 0.004 * mile} {
		if got := d.String(); got != "0.00 M" {
			t.Errorf("%v: %q", float64(d), got)
		}
	}
	if got := (-0.04 * sailing.Knot).String(); got != "0.0 kn" {
		t.Error(got)
	}
	if m, n := (2 * mile).Metres(), (3704 * sailing.Metre).NauticalMiles(); m != 3704 || n != 2 {
		t.Error(m, n)
	}
	if s := 36 * sailing.Knot; math.Abs(float64(s)-18.52) > 1e-14 || math.Abs(s.Knots()-36) > 1e-14 { // units of float64
		t.Error(float64(s), s.Knots())
	}
}

func TestTimeAtCoversTheDistance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := sailing.Distance(rapid.Float64Range(0, 20000).Draw(t, "miles")) * mile
		s := sailing.Speed(rapid.Float64Range(0.1, 60).Draw(t, "knots")) * sailing.Knot
		took, err := d.TimeAt(s)
		if err != nil || !near(s.For(took), d, 2e-7) { // times are whole nanoseconds, and units of float64
			t.Fatalf("%v at %v: %v, %v", d, s, took, err)
		}
	})
	if took, err := (12.5 * mile).TimeAt(5 * sailing.Knot); err != nil || took != 150*time.Minute {
		t.Error(took, err)
	}
	if d := (-5 * sailing.Knot).For(time.Hour); !near(d, -5*mile, 1e-9) { // units of float64
		t.Error(d)
	}
}

func TestInvalidTimesAreRefused(t *testing.T) {
	inf, nan := math.Inf(1), math.NaN()
	for _, c := range [][2]float64{{1, 0}, {1, -1}, {1, nan}, {1, inf}, {-1, 1}, {nan, 1}, {inf, 1}, {3.2e9, 1}, {1, 1e18}} {
		_, err := sailing.Distance(c[0]).TimeAt(sailing.Speed(c[1]))
		refused[*angle.RangeError](t, "time", err)
	}
}
