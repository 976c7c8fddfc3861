package deviation_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"

	"lubberline.example/deviation/internal/devtest"
	"lubberline.example/deviation/swing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

// madeCurve is the curve of a series, found from exact data on 36 headings.
func madeCurve(t devtest.Fails, b devtest.Series, by deviation.HeadingKind) *deviation.Curve {
	t.Helper()
	var swung []swing.Observation
	for _, z := range devtest.Even(36, 0) {
		d := deviation.East(devtest.Degrees(b.At(z)))
		c := angle.CompassFrom(z)
		if by == deviation.ByMagnetic {
			c = d.Compass(angle.MagneticFrom(z))
		}
		swung = append(swung, swing.Observation{Heading: c, Deviation: d})
	}
	return devtest.Fit(t, swung, swing.FitOptions{By: by, Order: len(b) / 2}).Curve
}

func TestAnOrderedCurveAgreesBothWays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		order := rapid.IntRange(1, swing.MaxOrder).Draw(t, "order")
		// A slope of Σ k·√2·most is less than one radian to the radian.
		b := devtest.DrawSeries(t, order, 50/math.Sqrt2/float64(order*(order+1)/2))
		by := devtest.Kinds[rapid.IntRange(0, 1).Draw(t, "by")]
		curve := madeCurve(t, b, by)
		if !curve.Ordered() {
			t.Fatalf("%v is not ordered", b)
		}
		z := devtest.DrawHeading(t, "heading")
		m := angle.MagneticFrom(z)
		d, err := curve.OnMagnetic(m)
		if err != nil {
			t.Fatal(err)
		}
		back, err := curve.OnCompass(d.Compass(m))
		if err != nil || (back.Angle()-d.Angle()).Abs() > 8 { // a unit, by the slope of at most eight
			t.Fatalf("on %v: %v, back %v, %v", m, d, back, err)
		}
		c := angle.CompassFrom(z)
		d, err = curve.OnCompass(c)
		if err != nil {
			t.Fatal(err)
		}
		back, err = curve.OnMagnetic(d.Magnetic(c))
		if err != nil || (back.Angle()-d.Angle()).Abs() > 8 { // as above
			t.Fatalf("on %v: %v, back %v, %v", c, d, back, err)
		}
		for k := range order {
			s, c := curve.Harmonic(k + 1)
			if !devtest.Near(s.Degrees(), b[2*k+1], 1e-9) || !devtest.Near(c.Degrees(), b[2*k+2], 1e-9) { // the fit's rounding
				t.Fatalf("harmonic %d: %v, %v", k+1, s, c)
			}
		}
		for _, k := range []int{-1, order + 1, 100} {
			if s, c := curve.Harmonic(k); s != 0 || c != 0 {
				t.Fatalf("harmonic %d: %v, %v", k, s, c)
			}
		}
	})
}

// steepScan finds the headings whose other heading is as given, by looking at
// every tenth of a degree and halving; near a turn it may miss two.
func steepScan(k deviation.Coefficients, sign float64, other float64) (found []float64, near bool) {
	f := func(z float64) float64 {
		return math.Remainder(z+sign*byFormula(k, devtest.Degrees(z))-other, 360)
	}
	for i := range 3600 {
		low, high := float64(i)/10, float64(i+1)/10
		a, b := f(low), f(high)
		slope := math.Abs(b-a) / 0.1
		near = near || slope < 0.1 && math.Min(math.Abs(a), math.Abs(b)) < 0.2
		if math.Min(math.Abs(a), math.Abs(b)) < 1e-11 { // on a place looked at, to some units
			near = true
		}
		if math.Abs(a-b) > 180 || (a > 0) == (b > 0) {
			continue
		}
		for range 50 {
			middle := (low + high) / 2
			if (f(middle) > 0) == (a > 0) {
				low = middle
			} else {
				high = middle
			}
		}
		found = append(found, low)
	}
	return found, near
}

// steepCheck compares what a curve that is not ordered says of a heading of the
// other kind with a slow scan.
func steepCheck(t devtest.Fails, k deviation.Coefficients, by deviation.HeadingKind, other angle.Angle) {
	t.Helper()
	curve, err := k.Curve(by)
	if err != nil {
		return
	}
	sign := 1.0
	if by == deviation.ByMagnetic {
		sign = -1
	}
	want, near0 := steepScan(k, sign, other.Degrees())
	if near0 {
		return
	}
	var d deviation.Deviation
	var got []angle.Angle
	if by == deviation.ByCompass {
		d, err = curve.OnMagnetic(angle.MagneticFrom(other))
	} else {
		d, err = curve.OnCompass(angle.CompassFrom(other))
	}
	if err == nil {
		got = []angle.Angle{(other - angle.Angle(sign)*d.Angle()).Normalized()}
	} else if e, ok := errors.AsType[*deviation.AmbiguousHeadingError](err); !ok {
		t.Fatal(err)
	} else if by == deviation.ByCompass {
		for _, c := range e.Compass {
			got = append(got, c.FromNorth())
		}
		if len(e.Magnetic) != 1 || e.Magnetic[0].FromNorth() != other {
			t.Fatalf("%v", e)
		}
	} else {
		for _, m := range e.Magnetic {
			got = append(got, m.FromNorth())
		}
		if len(e.Compass) != 1 || e.Compass[0].FromNorth() != other {
			t.Fatalf("%v", e)
		}
	}
	if len(got) != len(want) || !slices.IsSorted(got) {
		t.Fatalf("%v by %v, other heading %v: %v, want %v", k, by, other.Degrees(), got, want)
	}
	for i := range got {
		if !devtest.Near(got[i].Degrees(), want[i], 1e-6) { // halving in floating point, by the slope
			t.Fatalf("%v by %v, other heading %v: %v, want %v", k, by, other.Degrees(), got, want)
		}
	}
}

func TestHeadingsOfUnorderedCurve(t *testing.T) {
	for _, k := range []deviation.Coefficients{{B: 70 * devtest.Deg}, {B: -70 * devtest.Deg}, {C: 80 * devtest.Deg}, {D: 40 * devtest.Deg}, {B: 30 * devtest.Deg, D: -40 * devtest.Deg}} {
		for _, by := range []deviation.HeadingKind{deviation.ByCompass, deviation.ByMagnetic} {
			curve := angle.Must(k.Curve(by))
			if curve.Ordered() {
				t.Errorf("%v is ordered", k)
			}
			for a := devtest.Deg / 3; a < angle.Turn; a += 5 * devtest.Deg {
				steepCheck(t, k, by, a)
			}
		}
	}
}

// Here the heading begins and ends within the part where the other one falls. With FULL=1 every
// degree is tried.
func TestHeadingsOfCurveFallingAcrossNorth(t *testing.T) {
	step := 4 * devtest.Deg
	if os.Getenv("FULL") == "1" {
		step = devtest.Deg
	}
	for _, k := range []deviation.Coefficients{{B: 70 * devtest.Deg}, {B: -70 * devtest.Deg}, {B: -60 * devtest.Deg, C: 40 * devtest.Deg}} {
		for _, by := range []deviation.HeadingKind{deviation.ByCompass, deviation.ByMagnetic} {
			for a := devtest.Deg / 3; a < angle.Turn; a += step {
				steepCheck(t, k, by, a)
			}
		}
	}
}

func TestHeadingsOfSteepCurves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := deviation.Coefficients{A: devtest.DrawBetween(t, -5*devtest.Deg, 5*devtest.Deg, "A")}
		size, phase := devtest.DrawBetween(t, 10*devtest.Deg, 80*devtest.Deg, "size"), devtest.DrawHeading(t, "phase")
		k.B, k.C = angle.Must(size.Scale(phase.Cos())), angle.Must(size.Scale(phase.Sin()))
		n, other := rapid.IntRange(0, 1).Draw(t, "by"), devtest.DrawHeading(t, "other heading")
		if rapid.Bool().Draw(t, "near the fall") {
			middle := phase + angle.Angle(1-n)*180*devtest.Deg // where the other heading falls fastest
			sign := 1.0 - 2*float64(n)
			other = (middle + devtest.Degrees(sign*byFormula(k, middle)) + other/180).Normalized()
		}
		steepCheck(t, k, devtest.Kinds[n], other)
	})
}

func TestWhetherACurveIsOrdered(t *testing.T) {
	radian := devtest.Degrees(180 / math.Pi)
	ordered := 0
	for _, k := range []deviation.Coefficients{
		{}, {A: 80 * devtest.Deg},
		{B: radian - devtest.Minute}, {B: radian + devtest.Minute},
		{D: radian/2 - devtest.Minute}, {D: radian/2 + devtest.Minute},
		// Together the slopes may be more than a radian, but they are not
		// greatest on one heading, or not against the heading there.
		{B: radian * 6 / 10, D: radian * 25 / 100}, {B: -radian * 6 / 10, D: radian * 22 / 100},
		{B: radian * 6 / 10, D: radian * 22 / 100}, {C: radian * 9 / 10, D: radian * 15 / 100},
	} {
		least := [2]float64{9, 9} // of how the other heading rises, by differences
		for a := angle.Angle(0); a < angle.Turn; a += devtest.Deg / 10 {
			slope := (byFormula(k, a+devtest.Minute) - byFormula(k, a-devtest.Minute)) * 30
			least[0], least[1] = min(least[0], 1+slope), min(least[1], 1-slope)
		}
		for by, l := range least {
			curve := angle.Must(k.Curve(devtest.Kinds[by]))
			if curve.Ordered() != (l > 0) {
				t.Errorf("%v by %v: ordered %v, least rise %v", k, devtest.Kinds[by], curve.Ordered(), l)
			}
			if l > 0 {
				ordered++
			}
		}
	}
	if ordered < 9 || ordered > 15 {
		t.Errorf("%d of 20 are ordered: want some of each", ordered)
	}
}

// A negative variance would count as an uncertainty of zero, which is a claim.
func TestNegativeVarianceIsRefused(t *testing.T) {
	for _, variance := range [][]float64{{-1}, {1, 2, 0}, {1, 0, 0, 0, -1.01}} {
		c, err := deviation.NewCurve(deviation.ByCompass, []angle.Angle{devtest.Deg}, variance, nil)
		if e, ok := errors.AsType[*deviation.Error](err); !ok || e.Kind != deviation.NoCurve || c != nil || !strings.Contains(err.Error(), "variance is -") {
			t.Errorf("%v: %v", variance, err)
		}
	}
	var read deviation.Curve
	err := read.UnmarshalJSON([]byte(`{"by":"compass","coefficientsArcseconds":[0],"varianceSquareArcseconds":[-1]}`))
	if e, ok := errors.AsType[*deviation.Error](err); !ok || e.Kind != deviation.NoCurve || !reflect.DeepEqual(read, deviation.Curve{}) {
		t.Errorf("JSON: %v", err)
	}
	for _, variance := range [][]float64{nil, {0}, {1, 1, 0}, {1, 0, 0, 0, -1}} { // zero on one heading
		if _, err := deviation.NewCurve(deviation.ByCompass, []angle.Angle{devtest.Deg}, variance, nil); err != nil {
			t.Errorf("%v: %v", variance, err)
		}
	}
}

func TestTurningTheHeadingsTurnsTheCurve(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := devtest.DrawSeries(t, 3, 4)
		turn := devtest.DrawHeading(t, "turn")
		turned := make(devtest.Series, len(b)) // z − turn for z
		turned[0] = b[0]
		for k := 1; k <= 3; k++ {
			s, c := math.Sin(float64(k)*turn.Radians()), math.Cos(float64(k)*turn.Radians())
			turned[2*k-1] = b[2*k-1]*c + b[2*k]*s
			turned[2*k] = b[2*k]*c - b[2*k-1]*s
		}
		by := devtest.Kinds[rapid.IntRange(0, 1).Draw(t, "by")]
		a, c := madeCurve(t, b, by), madeCurve(t, turned, by)
		z := devtest.DrawHeading(t, "heading")
		for i, f := range []func(*deviation.Curve, angle.Angle) (deviation.Deviation, error){
			func(c *deviation.Curve, z angle.Angle) (deviation.Deviation, error) {
				return c.OnCompass(angle.CompassFrom(z))
			},
			func(c *deviation.Curve, z angle.Angle) (deviation.Deviation, error) {
				return c.OnMagnetic(angle.MagneticFrom(z))
			},
		} {
			x, err1 := f(a, z)
			y, err2 := f(c, z+turn)
			if err1 != nil || err2 != nil || !devtest.Near(x.Degrees(), y.Degrees(), 1e-8) { // two fits' rounding
				t.Fatalf("way %d: %v, turned %v, %v, %v", i, x, y, err1, err2)
			}
		}
	})
}

func TestANilCurveAnswersWithAnError(t *testing.T) {
	var c *deviation.Curve
	_, err1 := c.OnCompass(angle.Compass{})
	_, err2 := c.OnMagnetic(angle.Magnetic{})
	_, err3 := c.ExplainDeviation(angle.Compass{})
	for _, err := range []error{err1, err2, err3} {
		if _, ok := errors.AsType[*deviation.Error](err); !ok || !strings.HasPrefix(err.Error(), "deviation: curve: ") {
			t.Error(err)
		}
	}
	if c.Ordered() {
		t.Error("ordered")
	}
}

func TestLookingUpACurveAllocatesNothing(t *testing.T) {
	swung := devtest.Swing(devtest.Even(16, 0), devtest.Usual)
	devtest.AddNoise(rand.New(rand.NewPCG(51, 52)), swung, 0.5)
	for _, by := range []deviation.HeadingKind{deviation.ByCompass, deviation.ByMagnetic} {
		curve := devtest.Fit(t, swung, swing.FitOptions{By: by}).Curve
		if !curve.Ordered() {
			t.Fatal("not ordered")
		}
		c, m := angle.CompassFrom(123*devtest.Deg), angle.MagneticFrom(321*devtest.Deg)
		if n := testing.AllocsPerRun(100, func() { _, _ = curve.OnCompass(c) }); n != 0 {
			t.Errorf("by %v, OnCompass: %v", by, n)
		}
		if n := testing.AllocsPerRun(100, func() { _, _ = curve.OnMagnetic(m) }); n != 0 {
			t.Errorf("by %v, OnMagnetic: %v", by, n)
		}
	}
}

// On the other kind of heading the uncertainty is that of the curve over how fast
// the other heading rises.
func TestTheUncertaintyOnTheOtherHeading(t *testing.T) {
	swung := devtest.Swing(devtest.Even(16, 0), func(z angle.Angle) float64 { return 20 * z.Sin() })
	devtest.AddNoise(rand.New(rand.NewPCG(53, 54)), swung, 0.5)
	fit := devtest.Fit(t, swung, swing.FitOptions{Order: 2})
	k := fit.Curve.Coefficients()
	for a := angle.Angle(0); a < angle.Turn; a += 15 * devtest.Deg {
		c := angle.CompassFrom(a)
		d, _ := fit.Curve.OnCompass(c)
		other, err := fit.Curve.OnMagnetic(d.Magnetic(c))
		if err != nil {
			t.Fatal(err)
		}
		u, _ := d.Uncertainty().Sigma()
		v, stated := other.Uncertainty().Sigma()
		rise := 1 + (byFormula(k, a+devtest.Minute)-byFormula(k, a-devtest.Minute))*30
		if !stated || !devtest.Near(v.Degrees(), u.Degrees()/rise, 1e-6) { // the slope by differences
			t.Errorf("on %v: %v, want %v / %v", c, v, u, rise)
		}
	}
}

func TestACurveExplainsItself(t *testing.T) {
	k := deviation.Coefficients{A: devtest.Deg, B: -3 * devtest.Deg}
	for _, by := range []deviation.HeadingKind{deviation.ByCompass, deviation.ByMagnetic} {
		curve := angle.Must(k.Curve(by))
		c := angle.CompassFrom(90 * devtest.Deg)
		e, err := curve.ExplainDeviation(c)
		d, _ := curve.OnCompass(c)
		on := c.String()
		if by == deviation.ByMagnetic {
			on = d.Magnetic(c).String()
		}
		if err != nil || e.Deviation != d || len(e.Working) != 1 || !strings.Contains(e.Working[0].How, "on "+on+": A +1.00°") {
			t.Errorf("by %v: %+v, %v", by, e, err)
		}
	}
	e, err := madeCurve(t, devtest.Series{1, 2, 0, 0, 0, 0, 0.5}, deviation.ByCompass).ExplainDeviation(angle.Compass{})
	if err != nil || !strings.HasSuffix(e.Working[0].How, "; and harmonics to 3") {
		t.Errorf("%+v, %v", e, err)
	}
}
