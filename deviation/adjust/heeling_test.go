package adjust_test

import (
	"errors"
	"math"
	"testing"

	"lubberline.example/deviation/adjust"
	"lubberline.example/deviation/internal/devtest"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

func TestHeelingFromTheForces(t *testing.T) {
	for _, test := range []struct {
		d, mu, lambda float64
		dip           angle.Angle
		want          float64
	}{
		{0.1, 1, 1, 45 * devtest.Deg, 0.1},
		{0, 0.9, 0.9, 70 * devtest.Deg, 0},
		{0.05, 1.2, 0.8, 60 * devtest.Deg, 0.55 * math.Sqrt(3)},
		{0.05, 1.2, 0.8, -60 * devtest.Deg, -0.55 * math.Sqrt(3)},
		{-0.1, 0.9, 1, 0, 0},
	} {
		j, err := adjust.NewHeeling(test.d, test.mu, test.lambda, test.dip)
		if err != nil || !devtest.Near(float64(j), test.want, 1e-12) { // floating point
			t.Errorf("%v: %v, %v", test, j, err)
		}
	}
}

func TestHeelSeenTellsTheHeelingCoefficient(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := adjust.Heeling(rapid.Float64Range(-3, 3).Draw(t, "J"))
		on := angle.CompassFrom(devtest.DrawBetween(t, -59*devtest.Deg, 59*devtest.Deg, "from north or south") + angle.Angle(rapid.IntRange(0, 1).Draw(t, "south"))*180*devtest.Deg)
		heel := devtest.DrawBetween(t, devtest.Deg, 45*devtest.Deg, "heel")
		high := rapid.SampledFrom([]angle.Side{angle.Port, angle.Starboard}).Draw(t, "high side")
		added, err := j.Adds(on, heel, high)
		if err != nil {
			t.Fatal(err)
		}
		sign := 1.0
		if high == angle.Port {
			sign = -1
		}
		if want := float64(j) * heel.Degrees() * math.Cos(on.FromNorth().Radians()) * sign; math.Abs(want) < 179 && !devtest.Near(added.Degrees(), want, 1e-9) { // rounding
			t.Fatalf("adds %v, want %v", added.Degrees(), want)
		}
		got, err := adjust.HeelingFrom(added, on, heel, high)
		if err != nil || !devtest.Near(float64(got), float64(j), 1e-9) { // the unit of an Angle over half a degree
			t.Fatalf("%v, want %v, %v", got, j, err)
		}
		// The other side, and a heel the other way, mirror it.
		low := angle.Port
		if high == angle.Port {
			low = angle.Starboard
		}
		mirrored, _ := j.Adds(on, heel, low)
		negative, _ := j.Adds(on, -heel, high)
		if mirrored.Angle() != -added.Angle() || negative.Angle() != -added.Angle() {
			t.Fatalf("%v, mirrored %v, negative %v", added, mirrored, negative)
		}
		reverse, _ := j.Adds(on.Reciprocal(), heel, high)
		if reverse.Angle() != -added.Angle() {
			t.Fatalf("%v, on the reciprocal heading %v", added, reverse)
		}
	})
}

// On north with the starboard side high, the high side is the east one.
func TestTheNorthEndIsDrawnToTheHighSide(t *testing.T) {
	j := adjust.Heeling(1)
	for _, test := range []struct {
		on   float64
		high angle.Side
		want float64
	}{{0, angle.Starboard, 10}, {0, angle.Port, -10}, {180, angle.Starboard, -10}, {180, angle.Port, 10}, {90, angle.Port, 0}, {270, angle.Starboard, 0}, {60, angle.Starboard, 5}} {
		d, err := j.Adds(angle.CompassFrom(devtest.Degrees(test.on)), 10*devtest.Deg, test.high)
		if err != nil || !devtest.Near(d.Degrees(), test.want, 1e-10) { // rounding
			t.Errorf("%v: %v, %v", test, d, err)
		}
	}
}

func TestWhatTellsNoHeelingCoefficient(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, bad := range []struct {
		d, mu, lambda float64
		dip           angle.Angle
	}{
		{0, 0, 1, 0}, {0, 1, 0, 0}, {0, -1, 1, 0}, {0, 1, -1, 0}, {0, nan, 1, 0}, {0, 1, nan, 0}, {0, inf, 1, 0}, {0, 1, inf, 0},
		{nan, 1, 1, 0}, {1.1, 1, 1, 0}, {-1.1, 1, 1, 0}, {inf, 1, 1, 0},
		{0, 1, 1, 90 * devtest.Deg}, {0, 1, 1, -90 * devtest.Deg}, {0, 1, 1, 120 * devtest.Deg}, {0, 1, 1, 300 * devtest.Deg}, {0, 1, 1, 90*devtest.Deg - 1},
	} {
		j, err := adjust.NewHeeling(bad.d, bad.mu, bad.lambda, bad.dip)
		if _, ok := errors.AsType[*angle.RangeError](err); !ok || j != 0 {
			t.Errorf("%v: %v, %v", bad, j, err)
		}
	}
	for _, bad := range []struct {
		on   float64
		heel angle.Angle
	}{{90, 10 * devtest.Deg}, {270, 10 * devtest.Deg}, {61, 10 * devtest.Deg}, {119, 10 * devtest.Deg}, {241, 10 * devtest.Deg}, {299, 10 * devtest.Deg}, {0, 0}, {0, devtest.Deg - 1}, {0, -10 * devtest.Deg}, {0, 45*devtest.Deg + 1}} {
		j, err := adjust.HeelingFrom(deviation.East(devtest.Deg), angle.CompassFrom(devtest.Degrees(bad.on)), bad.heel, angle.Port)
		if _, ok := errors.AsType[*angle.RangeError](err); !ok || j != 0 {
			t.Errorf("%v: %v, %v", bad, j, err)
		}
	}
	for _, j := range []adjust.Heeling{adjust.Heeling(nan), adjust.Heeling(inf), 1e9} {
		if d, err := j.Adds(angle.CompassFrom(0), 10*devtest.Deg, angle.Port); err == nil || d != (deviation.Deviation{}) {
			t.Errorf("J %v adds %v", float64(j), d)
		}
	}
}

func TestHeelToNoSideIsRefused(t *testing.T) {
	_, adds := adjust.Heeling(0.3).Adds(angle.Compass{}, 10*devtest.Deg, "larboard")
	_, from := adjust.HeelingFrom(deviation.East(devtest.Deg), angle.Compass{}, 10*devtest.Deg, "larboard")
	_, infinite := adjust.Heeling(math.Inf(1)).Adds(angle.Compass{}, 10*devtest.Deg, angle.Port)
	for i, err := range []error{adds, from} {
		if _, ok := errors.AsType[*angle.ParseError](err); !ok {
			t.Errorf("%d: %v", i, err)
		}
	}
	if _, ok := errors.AsType[*angle.RangeError](infinite); !ok {
		t.Errorf("infinite: %v", infinite)
	}
}

// The limits themselves are accepted: D from −1 to 1, a heading within 60° of north or south, a
// heel of 1° to 45°. By hand: a D of 1 at a dip of 45° makes J 1, one of −1 makes it −1.
func TestLimitsOfHeelAreAccepted(t *testing.T) {
	for _, d := range []float64{1, -1} {
		if j, err := adjust.NewHeeling(d, 1, 1, 45*devtest.Deg); err != nil || !devtest.Near(float64(j), d, 1e-12) { // floating point
			t.Errorf("D %v: %v, %v", d, j, err)
		}
	}
	if j, err := adjust.NewHeeling(0, 91, 1, 45*devtest.Deg); err != nil || !devtest.Near(float64(j), 90, 1e-9) { // floating point
		t.Errorf("J 90: %v, %v", j, err)
	}
	for _, c := range []struct {
		on, heel angle.Angle
		want     float64 // for 9°E, the starboard side high
	}{{0, devtest.Deg, 9}, {0, 45 * devtest.Deg, 0.2}, {60 * devtest.Deg, 9 * devtest.Deg, 2}, {300 * devtest.Deg, 9 * devtest.Deg, 2}, {180 * devtest.Deg, 9 * devtest.Deg, -1}} {
		j, err := adjust.HeelingFrom(deviation.East(9*devtest.Deg), angle.CompassFrom(c.on), c.heel, angle.Starboard)
		if err != nil || !devtest.Near(float64(j), c.want, 1e-9) { // rounding
			t.Errorf("on %v, heel %v: %v, want %v, %v", c.on, c.heel, j, c.want, err)
		}
	}
}

// By hand: a degree for each degree of heel adds 90° on north, on its beam ends too.
func TestHeelOutOfRange(t *testing.T) {
	for _, heel := range []angle.Angle{90 * angle.Degree, -90 * angle.Degree} {
		if d, err := adjust.Heeling(1).Adds(angle.Compass{}, heel, angle.Starboard); err != nil || d.Angle() != heel {
			t.Errorf("%v: %v, %v", heel, d, err)
		}
	}
	for _, heel := range []angle.Angle{90*angle.Degree + 1, -91 * angle.Degree, 400 * angle.Degree} {
		_, err := adjust.Heeling(1).Adds(angle.Compass{}, heel, angle.Port)
		if _, ok := errors.AsType[*angle.RangeError](err); !ok {
			t.Errorf("%v: %v", heel, err)
		}
	}
}
