package deviation_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"lubberline.example/deviation/adjust"
	"lubberline.example/deviation/internal/devtest"
	"lubberline.example/deviation/swing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

// drawForces draws exact coefficients of no more than half the earth's force
// together.
func drawForces(t *rapid.T, most float64) deviation.ExactCoefficients {
	var v [5]float64
	sum := 0.0
	for i := range v {
		v[i] = rapid.Float64Range(-1, 1).Draw(t, "coefficient")
		sum += math.Abs(v[i])
	}
	scale := rapid.Float64Range(0, most).Draw(t, "total") / max(sum, 1e-3)
	return deviation.ExactCoefficients{A: v[0] * scale, B: v[1] * scale, C: v[2] * scale, D: v[3] * scale, E: v[4] * scale}
}

func TestExactCoefficientsAgreeBothWays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := drawForces(t, 0.5)
		z := devtest.DrawHeading(t, "magnetic heading")
		d, err := k.OnMagnetic(angle.MagneticFrom(z))
		if err != nil {
			t.Fatal(err)
		}
		// The needle lies along the resultant of the forces toward magnetic
		// north and east.
		m := z.Radians()
		east := k.A + k.B*math.Sin(m) + k.C*math.Cos(m) + k.D*math.Sin(2*m) + k.E*math.Cos(2*m)
		north := 1 + k.B*math.Cos(m) - k.C*math.Sin(m) + k.D*math.Cos(2*m) - k.E*math.Sin(2*m)
		if !devtest.Near(d.Angle().Radians(), math.Atan2(east, north), 1e-13) { // floating point
			t.Fatalf("%v, want %v", d.Angle().Radians(), math.Atan2(east, north))
		}
		again, err := k.OnCompass(d.Compass(angle.MagneticFrom(z)))
		if err != nil || (again.Angle()-d.Angle()).Abs() > 1000 { // 1e-6″: floating point, at most doubled by the slope
			t.Fatalf("%v by magnetic, %v by compass, %v", d, again, err)
		}

		c := devtest.DrawHeading(t, "compass heading")
		d, err = k.OnCompass(angle.CompassFrom(c))
		if err != nil {
			t.Fatal(err)
		}
		r, delta := c.Radians(), d.Angle().Radians()
		right := k.A*math.Cos(delta) + k.B*math.Sin(r) + k.C*math.Cos(r) + k.D*math.Sin(2*r+delta) + k.E*math.Cos(2*r+delta)
		if !devtest.Near(math.Sin(delta), right, 1e-13) { // floating point
			t.Fatalf("sin δ %v, want %v", math.Sin(delta), right)
		}
		again, err = k.OnMagnetic(d.Magnetic(angle.CompassFrom(c)))
		if err != nil || (again.Angle()-d.Angle()).Abs() > 10000 { // 1e-5″: floating point, magnified by a slope of some radians to the radian
			t.Fatalf("%v by compass, %v by magnetic, %v", d, again, err)
		}
	})
}

func TestACompassThatCannotPointErrs(t *testing.T) {
	for _, k := range []deviation.ExactCoefficients{{B: 1.2}, {C: -1.2}, {B: 1}, {A: 0.5, B: 1.5}, {D: 1.4}, {B: math.NaN()}, {A: math.NaN()}, {E: math.NaN()}, {B: math.Inf(1)}} {
		failed := [2]int{}
		for a := angle.Angle(0); a < angle.Turn; a += devtest.Deg {
			for i, f := range []func() (deviation.Deviation, error){
				func() (deviation.Deviation, error) { return k.OnCompass(angle.CompassFrom(a)) },
				func() (deviation.Deviation, error) { return k.OnMagnetic(angle.MagneticFrom(a)) },
			} {
				d, err := f()
				if err == nil {
					if d.Angle().Abs() > 90*devtest.Deg {
						t.Errorf("%v on %v: %v", k, a, d)
					}
					continue
				}
				failed[i]++
				if e, ok := errors.AsType[*deviation.Error](err); !ok || e.Heading != a || e.By != devtest.Kinds[i] || !strings.Contains(err.Error(), "no steady direction") {
					t.Errorf("%v on %v: %v", k, a, err)
				}
			}
		}
		if failed[0] == 0 && k.D == 0 || failed[1] == 0 {
			t.Errorf("%v: fails on %v headings by compass and magnetic", k, failed)
		}
	}
	if _, err := (deviation.ExactCoefficients{B: 1.2}).Approximate(); err == nil {
		t.Error("approximate coefficients of a compass that can't point")
	}
}

// Where the ship's force outdoes the earth's, the second formula has roots that
// no needle takes: they lie where the force along the needle is against it.
// No forces turn a compass by 90° on every heading: A is then infinite.
func TestExactCoefficientsOfAConstant90DegreesAreRefused(t *testing.T) {
	for _, a := range []angle.Angle{90 * devtest.Deg, -90 * devtest.Deg} {
		k, err := deviation.Coefficients{A: a}.Exact()
		if e, ok := errors.AsType[*deviation.Error](err); !ok || e.Kind != deviation.NoSteadyHeading || e.Row != -1 || k != (deviation.ExactCoefficients{}) {
			t.Errorf("A %v: %v, %v", a, k, err)
		}
	}
	for _, a := range []angle.Angle{89 * devtest.Deg, -89*devtest.Deg - 59*devtest.Minute} {
		k, err := deviation.Coefficients{A: a}.Exact()
		if err != nil || math.Abs(k.A/a.Tan()-1) > 1e-9 { // floating point
			t.Errorf("A %v: %v, %v, want A %v", a, k, err, a.Tan())
		}
	}
}

func TestACompassThatCannotPointErrsBothWays(t *testing.T) {
	for _, k := range []deviation.ExactCoefficients{{B: 1.2}, {C: -1.2}, {B: 1.05, D: 0.1}, {A: 0.4, B: 1.1}, {A: -0.4, C: 1.1}, {B: 1.05, E: 0.3}, {C: -1.1, D: -0.3, E: -0.2}} {
		for a := angle.Angle(0); a < angle.Turn; a += devtest.Deg {
			c := angle.CompassFrom(a)
			d, err := k.OnCompass(c)
			if err != nil {
				continue
			}
			again, err := k.OnMagnetic(d.Magnetic(c))
			if err != nil || (again.Angle()-d.Angle()).Abs() > devtest.Minute { // the slope is steep there
				t.Errorf("%v: on %v %v, on %v %v, %v", k, c, d, d.Magnetic(c), again, err)
			}
		}
	}
}

func TestFitReproducesExactCoefficients(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := drawForces(t, 0.5)
		var swung []swing.Observation
		for _, z := range devtest.DrawSpread(t, rapid.IntRange(8, 24).Draw(t, "headings")) {
			c := angle.CompassFrom(z)
			swung = append(swung, swing.Observation{Heading: c, Deviation: angle.Must(k.OnCompass(c))})
		}
		got, err := adjust.FitExact(swung)
		if err != nil {
			t.Fatal(err)
		}
		if apart := devtest.ExactApart(got, k); !(apart < 1e-9) { // deviations are kept to 5e-15 radians; the equations may magnify that
			t.Fatalf("%v, want %v, apart %v", got, k, apart)
		}
	})
}

func TestFitExactRefusesBadSwings(t *testing.T) {
	_, err := adjust.FitExact(devtest.Swing(devtest.Even(4, 0), devtest.Usual))
	if _, ok := errors.AsType[*swing.Error](err); !ok {
		t.Error(err)
	}
	_, err = deviation.Coefficients{B: 91 * devtest.Deg}.Exact()
	if _, ok := errors.AsType[*deviation.Error](err); !ok {
		t.Error(err)
	}
}

// What the round trip loses grows as the cube of the deviation.
func TestExactCoefficientsRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := devtest.DrawSeries(t, 2, 1)
		size := rapid.Float64Range(0.1, 3).Draw(t, "size")
		k := deviation.Coefficients{A: devtest.Degrees(size * b[0]), B: devtest.Degrees(size * b[1]), C: devtest.Degrees(size * b[2]), D: devtest.Degrees(size * b[3]), E: devtest.Degrees(size * b[4])}
		exact, err := k.Exact()
		if err != nil {
			t.Fatal(err)
		}
		again, err := exact.Approximate()
		if err != nil {
			t.Fatal(err)
		}
		most := size * (math.Abs(b[0]) + math.Abs(b[1]) + math.Abs(b[2]) + math.Abs(b[3]) + math.Abs(b[4])) * math.Pi / 180
		limit := 2*most*most*most*180/math.Pi + 1e-9 // third order, and the unit of an Angle
		for i, d := range []angle.Angle{again.A - k.A, again.B - k.B, again.C - k.C, again.D - k.D, again.E - k.E} {
			if !devtest.Near(d.Degrees(), 0, limit) {
				t.Fatalf("%v and back %v: %d by %v°, more than %v°", k, again, i, d.Degrees(), limit)
			}
		}
	})
}

// B = sin B (1 + ½ sin D), C = sin C (1 − ½ sin D), D = sin D to the second
// order, from memory.
func TestSmithsSecondOrderRelations(t *testing.T) {
	for _, k := range []deviation.Coefficients{{B: 5 * devtest.Deg, C: -4 * devtest.Deg, D: 6 * devtest.Deg}, {B: -8 * devtest.Deg, C: 2 * devtest.Deg, D: 4 * devtest.Deg}, {D: 5 * devtest.Deg}} {
		e, err := k.Exact()
		if err != nil {
			t.Fatal(err)
		}
		want := deviation.ExactCoefficients{B: k.B.Sin() * (1 + k.D.Sin()/2), C: k.C.Sin() * (1 - k.D.Sin()/2), D: k.D.Sin()}
		if !devtest.Near(e.B, want.B, 0.002) || !devtest.Near(e.C, want.C, 0.002) { // the third order: 0.14³ = 0.003, with small factors
			t.Errorf("%v: %v, want %v", k, e, want)
		}
		if k.B == 0 && !devtest.Near(e.D, want.D, 0.001) { // the third order
			t.Errorf("%v: %v, want %v", k, e, want)
		}
	}
}

// Evans's rule in the manual of 1870: the error of the approximate coefficients
// is some 10′ for deviations up to 7° and 90′ for 21°; it grows as the square.
func TestApproximateCoefficientsErrorIsSecondOrder(t *testing.T) {
	worst := func(size float64) float64 {
		k := deviation.ExactCoefficients{B: 0.8 * math.Sin(size*math.Pi/180), D: 0.25 * math.Sin(size*math.Pi/180)}
		approximate, err := k.Approximate()
		if err != nil {
			t.Fatal(err)
		}
		off := 0.0
		for _, z := range devtest.Even(72, 0) {
			d, err := k.OnCompass(angle.CompassFrom(z))
			if err != nil {
				t.Fatal(err)
			}
			off = max(off, math.Abs(d.Degrees()-byFormula(approximate, z))*60)
		}
		return off
	}
	at7, at21 := worst(7), worst(21)
	if at7 < 2 || at7 > 20 { // 10′, the order of magnitude
		t.Errorf("%.1f′ at 7°", at7)
	}
	if at21 < 20 || at21 > 180 { // 90′, the order of magnitude
		t.Errorf("%.1f′ at 21°", at21)
	}
	if r := at21 / at7; r < 6 || r > 14 { // 9 by the rule; the next order adds
		t.Errorf("grows %.1f times", r)
	}
}

func TestExactCoefficientsPrintFourDecimals(t *testing.T) {
	k := deviation.ExactCoefficients{A: 0.01, B: -0.12345, C: 0.2, D: 0, E: -0.00001}
	if got := k.String(); got != "A +0.0100  B -0.1235  C +0.2000  D +0.0000  E -0.0000" && got != "A +0.0100  B -0.1234  C +0.2000  D +0.0000  E -0.0000" {
		t.Errorf("%s", got)
	}
}

// With a D of 1.5 the soft iron turns the force round on east and west, to 1 − 1.5 of the earth's. There
// the compass has no steady direction near north.
func TestForceTurnedRoundIsRefused(t *testing.T) {
	k := deviation.ExactCoefficients{D: 1.5}
	for _, h := range []string{"090", "270"} {
		if d, err := k.OnCompass(angle.MustParseCompass(h)); err == nil {
			t.Errorf("on %s by compass: %v", h, d)
		}
		if d, err := k.OnMagnetic(angle.MustParseMagnetic(h)); err == nil {
			t.Errorf("on %s by magnetic: %v", h, d)
		}
	}
}
