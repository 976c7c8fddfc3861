package angle_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
)

func true3(d float64) angle.True { return angle.Must(angle.TrueDegrees(d)) }

func TestDirectionsAreNormalized(t *testing.T) {
	for a, want := range map[angle.Angle]angle.Angle{
		0: 0, turn: 0, -deg: 359 * deg, 361 * deg: deg, -turn: 0, turn - 1: turn - 1, -1: turn - 1,
		math.MaxInt64: angle.Angle(math.MaxInt64).Normalized(),
		math.MinInt64: angle.Angle(math.MinInt64).Normalized(),
	} {
		got := []angle.Angle{angle.TrueFrom(a).FromNorth(), angle.MagneticFrom(a).FromNorth(), angle.CompassFrom(a).FromNorth(), angle.RelativeFrom(a).FromBow()}
		for _, g := range got {
			if g != want {
				t.Errorf("%v from north: %v, want %v", a, got, want)
			}
		}
	}
	var zero angle.True
	if zero != angle.TrueFrom(0) || zero.FromNorth() != 0 || zero.Degrees() != 0 {
		t.Error("the zero value is north")
	}
}

func TestDirectionDegreesRefuse(t *testing.T) {
	for _, d := range []float64{-10, -1e-9, 360.0000001, 400, 1e300, math.NaN(), math.Inf(1), math.Inf(-1)} {
		_, err := angle.TrueDegrees(d)
		wantRange(t, err, "TrueDegrees")
		_, err = angle.MagneticDegrees(d)
		wantRange(t, err, "MagneticDegrees")
		_, err = angle.CompassDegrees(d)
		wantRange(t, err, "CompassDegrees")
		_, err = angle.RelativeDegrees(d)
		wantRange(t, err, "RelativeDegrees")
	}
	for d, want := range map[float64]angle.Angle{0: 0, math.Copysign(0, -1): 0, 360: 0, 112.5: 112*deg + 30*minute, 359.99999999999994: 0} {
		m, err := angle.MagneticDegrees(d)
		c, err2 := angle.CompassDegrees(d)
		r, err3 := angle.RelativeDegrees(d)
		if err != nil || err2 != nil || err3 != nil || true3(d).FromNorth() != want || m.FromNorth() != want || c.FromNorth() != want || r.FromBow() != want {
			t.Errorf("%v°: %v, %v, %v, %v", d, true3(d), m, c, r)
		}
	}
	if d := angle.TrueFrom(turn - 1).Degrees(); d >= 360 {
		t.Errorf("just short of north is %v, documented as under 360", d)
	}
}

func TestSub(t *testing.T) {
	for _, c := range []struct{ d, from, want float64 }{
		{10, 350, 20}, {350, 10, -20}, {0, 180, 180}, {180, 0, 180}, {90, 270, 180}, {270, 90, 180}, {5, 5, 0}, {180.5, 0, -179.5}, {0, 180.5, 179.5},
	} {
		if got := true3(c.d).Sub(true3(c.from)).Degrees(); got != c.want {
			t.Errorf("from %v° to %v°: %v°, want %v°", c.from, c.d, got, c.want)
		}
	}
}

func TestDirectionRound(t *testing.T) {
	for _, c := range []struct {
		a, unit, want angle.Angle
	}{
		{359*deg + 30*minute, deg, 0}, // what rounds to 360° is north
		{359*deg + 29*minute, deg, 359 * deg},
		{30 * minute, deg, deg}, // halves clockwise
		{104*deg + 15*minute, deg / 2, 104*deg + 30*minute},
		{104*deg + 15*minute, 0, 104*deg + 15*minute},
	} {
		if got := angle.TrueFrom(c.a).Round(c.unit).FromNorth(); got != c.want {
			t.Errorf("%v to %v: %v", c.a, c.unit, got)
		}
	}
}

func TestTheLawsOfDirections(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, e := anyTrue().Draw(t, "d"), anyTrue().Draw(t, "e")
		a := anyAngle().Draw(t, "a")
		switch {
		case d.Add(a).Add(-a) != d:
			t.Fatal("turning to starboard and back to port by the same angle gives another heading")
		case e.Add(d.Sub(e)) != d:
			t.Fatal("turning by the difference gives another heading")
		case d.Reciprocal().Reciprocal() != d:
			t.Fatal("the reciprocal of the reciprocal is another direction")
		case d.Reciprocal() == d || d.Reciprocal().Sub(d) != turn/2:
			t.Fatal("the reciprocal is not half a turn away")
		case d.Sub(e) != turn/2 && d.Sub(e) != -e.Sub(d):
			t.Fatal("there and back the turns differ")
		case d.Sub(e) == turn/2 && e.Sub(d) != turn/2:
			t.Fatal("exactly opposite is +180° both ways")
		case d.Add(a).Sub(e.Add(a)) != d.Sub(e):
			t.Fatal("turning both changed the angle between them")
		case d.Sub(e) <= -turn/2 || d.Sub(e) > turn/2:
			t.Fatal("not the shortest turn")
		}
		if d.Equal(e) != (d == e) {
			t.Fatal("Equal is the operator")
		}
	})
}

func TestABearingOffTheBowComesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		heading, bearing, r := anyTrue().Draw(t, "heading"), anyTrue().Draw(t, "bearing"), anyRelative().Draw(t, "relative")
		if heading.Bearing(bearing.Relative(heading)) != bearing {
			t.Fatal("the bearing is not the heading and the relative bearing")
		}
		if heading.Bearing(r).Relative(heading) != r {
			t.Fatal("the relative bearing is not the bearing less the heading")
		}
	})
	heading := angle.TrueFrom(350 * deg)
	if got := heading.Bearing(angle.RelativeFrom(30 * deg)); got != angle.TrueFrom(20*deg) {
		t.Errorf("heading 350°, 030°R: %v", got)
	}
}

// Directions are comparable, of one kind, and serve as keys of a map.
func TestDirectionsServeAsKeys(t *testing.T) {
	seen := map[angle.Compass]int{angle.CompassFrom(-deg): 1}
	if seen[angle.CompassFrom(359*deg)] != 1 || seen[angle.CompassFrom(0)] != 0 {
		t.Error(seen)
	}
}

// A function over any north, as the documentation of North has it.
func spread[R angle.North](bearings []angle.Direction[R]) (widest angle.Angle) {
	for _, b := range bearings {
		widest = max(widest, b.Sub(bearings[0]).Abs())
	}
	return widest
}

func TestOneFunctionServesEveryNorth(t *testing.T) {
	if got := spread([]angle.Magnetic{angle.MagneticFrom(350 * deg), angle.MagneticFrom(5 * deg)}); got != 15*deg {
		t.Error(got)
	}
	if got := spread([]angle.Compass{{}, angle.CompassFrom(350 * deg)}); got != 10*deg {
		t.Error(got)
	}
}
