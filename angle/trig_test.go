package angle_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
)

// exactTrig holds the multiples of 30° and 45° in one turn. 60° has √3/2, the
// nearest float64; zero is never negative.
var exactTrig = map[int][3]float64{ // sine, cosine, tangent
	0:   {0, 1, 0},
	30:  {0.5, math.Sqrt(3) / 2, 0},
	45:  {math.Sqrt2 / 2, math.Sqrt2 / 2, 1},
	60:  {math.Sqrt(3) / 2, 0.5, 0},
	90:  {1, 0, math.Inf(1)},
	120: {math.Sqrt(3) / 2, -0.5, 0},
	135: {math.Sqrt2 / 2, -math.Sqrt2 / 2, -1},
	150: {0.5, -math.Sqrt(3) / 2, 0},
	180: {0, -1, 0},
	210: {-0.5, -math.Sqrt(3) / 2, 0},
	225: {-math.Sqrt2 / 2, -math.Sqrt2 / 2, 1},
	240: {-math.Sqrt(3) / 2, -0.5, 0},
	270: {-1, 0, math.Inf(-1)},
	300: {-math.Sqrt(3) / 2, 0.5, 0},
	315: {-math.Sqrt2 / 2, math.Sqrt2 / 2, -1},
	330: {-0.5, math.Sqrt(3) / 2, 0},
}

func TestTrigonometryAtCardinalAngles(t *testing.T) {
	for d, want := range exactTrig {
		for _, turns := range []angle.Angle{-7000, -3, -2, -1, 0, 1, 2, 3, 7000} {
			a := angle.Angle(d)*deg + turns*turn
			s, c := a.SinCos()
			if s != want[0] || c != want[1] || a.Sin() != s || a.Cos() != c {
				t.Errorf("%d°%+d turns: sine %v, cosine %v, want %v", d, turns, s, c, want[:2])
			}
			if s == 0 && math.Signbit(s) || c == 0 && math.Signbit(c) {
				t.Errorf("%d°%+d turns: negative zero in %v, %v", d, turns, s, c)
			}
			tan := a.Tan()
			switch {
			case d%45 == 0 && tan != want[2]:
				t.Errorf("%d°%+d turns: tangent %v, want %v", d, turns, tan, want[2])
			case tan == 0 && math.Signbit(tan):
				t.Errorf("%d°%+d turns: negative zero", d, turns)
			case d%45 != 0 && math.Abs(tan-s/c) > 4e-16: // two roundings at a tangent under 2
				t.Errorf("%d°: tangent %v, sine over cosine %v", d, tan, s/c)
			}
		}
	}
}

func TestSineAndCosineAreThoseOfRadians(t *testing.T) {
	for n := angle.Angle(-720 * 6); n <= 720*6; n++ { // every ten minutes over two turns
		a := n * 10 * minute
		s, c := math.Sincos(float64(n) / 6 * math.Pi / 180)
		// The reference rounds up to 4π radians three times, 0.9e-15 each.
		if math.Abs(a.Sin()-s) > 3e-15 || math.Abs(a.Cos()-c) > 3e-15 {
			t.Fatalf("%v: %v, %v; want %v, %v", a, a.Sin(), a.Cos(), s, c)
		}
		if tan := a.Tan(); math.Abs(tan*a.Cos()-a.Sin()) > 4e-16 && !math.IsInf(tan, 0) { // a product rounded twice
			t.Fatalf("%v: tangent %v", a, tan)
		}
	}
}

func TestTheLawsOfTheCircle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := anyAngle().Draw(t, "a")
		s, c := a.SinCos()
		if d := s*s + c*c - 1; math.Abs(d) > 5e-16 { // two rounded squares and their sum
			t.Fatalf("%v: sin² + cos² = 1%+g", a, d)
		}
		if (-a).Sin() != -s || (-a).Cos() != c || (-a).Tan() != -a.Tan() && !math.IsInf(a.Tan(), 0) {
			t.Fatalf("%v: sine is odd and cosine even, exactly", a)
		}
		b := a % turn
		if (b+turn/2).Sin() != -s || (b+turn/2).Cos() != -c {
			t.Fatalf("%v: half a turn further both change sign, exactly", a)
		}
		if (b+turn/4).Sin() != c || (b+turn/4).Cos() != -s {
			t.Fatalf("%v: a quarter further they change places, exactly", a)
		}
	})
}

func TestAtan2(t *testing.T) {
	inf := math.Inf(1)
	zero := math.Copysign(0, -1)
	for _, c := range []struct {
		y, x float64
		want angle.Angle
	}{
		{0, 1, 0}, {zero, 1, 0}, {1, 0, 90 * deg}, {1, zero, 90 * deg}, {0, -1, 180 * deg}, {-1, 0, -90 * deg},
		{zero, -1, 180 * deg}, // never −180°
		{-math.SmallestNonzeroFloat64, -1, 180 * deg},
		{1, 1, 45 * deg}, {1, -1, 135 * deg}, {-1, -1, -135 * deg}, {-1, 1, -45 * deg},
		{0.3, 0.3, 45 * deg}, {1e300, -1e300, 135 * deg}, {5e-324, 5e-324, 45 * deg},
		{1e300, 1e-300, 90 * deg}, {1e-300, 1e300, 0}, {5e-324, math.MaxFloat64, 0}, {math.MaxFloat64, -5e-324, 90 * deg},
		{inf, inf, 45 * deg}, {inf, 1, 90 * deg}, {1, -inf, 180 * deg}, {-inf, -inf, -135 * deg}, {-1, inf, 0},
	} {
		if got, err := angle.Atan2(c.y, c.x); err != nil || got != c.want {
			t.Errorf("Atan2(%v, %v) = %v, %v; want %v", c.y, c.x, got, err, c.want)
		}
	}
	for _, c := range [][2]float64{{0, 0}, {zero, zero}, {math.NaN(), 1}, {1, math.NaN()}, {math.NaN(), math.NaN()}, {inf, math.NaN()}} {
		a, err := angle.Atan2(c[0], c[1])
		if a != 0 {
			t.Errorf("Atan2(%v) = %v", c, a)
		}
		wantRange(t, err, "Atan2")
	}
}

// The direction of a unit vector is the angle it was made from.
func TestAtan2UndoesSinCos(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := smallAngle().Draw(t, "a").NormalizedSigned()
		got := angle.Must(angle.Atan2(a.SinCos()))
		// A rounding of 1.1e-16 in either is 0.02 units.
		if d := (got - a).NormalizedSigned(); d.Abs() > 1 {
			t.Fatalf("%d comes back as %d", int64(a), int64(got))
		}
		if got <= -turn/2 || got > turn/2 {
			t.Fatalf("%v lies outside (−180°, 180°]", got)
		}
	})
}
