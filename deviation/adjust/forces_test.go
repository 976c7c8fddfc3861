package adjust_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"lubberline.example/deviation/adjust"
	"lubberline.example/deviation/internal/devtest"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/deviation"
	"lubberline.example/wmm"
)

// A field of the model is one of the earth's.
var _ adjust.EarthField = wmm.Field{}

// earth is a field of the earth by its intensity and dip.
type earth struct {
	h   float64
	dip angle.Angle
	err error
}

func (e earth) H() float64              { return e.h }
func (e earth) I() (angle.Angle, error) { return e.dip, e.err }

// drawShip draws what acts on a compass in a ship: coefficients of usual size in
// the fields of the earth where ships go.
func drawShip(t *rapid.T) adjust.Forces {
	draw := func(most float64, what string) float64 { return rapid.Float64Range(-most, most).Draw(t, what) }
	return adjust.Forces{
		A: draw(0.02, "A"), D: draw(0.1, "D"), E: draw(0.02, "E"),
		PermanentAhead: draw(5000, "P"), PermanentStarboard: draw(5000, "Q"),
		InducedAhead: draw(0.1, "c"), InducedStarboard: draw(0.1, "f"),
	}
}

func drawEarth(t *rapid.T, least, most float64) earth {
	return earth{h: rapid.Float64Range(10000, 40000).Draw(t, "H"), dip: devtest.Degrees(rapid.Float64Range(least, most).Draw(t, "dip"))}
}

func TestSeparatedForcesPredictAThirdPlace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ship := drawShip(t)
		north, south, third := drawEarth(t, 30, 80), drawEarth(t, -80, -10), drawEarth(t, -80, 80)
		first, second := angle.Must(ship.At(north)), angle.Must(ship.At(south))
		got, err := adjust.Separate(first, north, second, south)
		z1, z2 := north.h*north.dip.Tan(), south.h*south.dip.Tan()
		if z1-z2 < max(north.h, south.h)/2 { // too little to tell the parts by
			if _, ok := errors.AsType[*adjust.FieldError](err); !ok {
				t.Fatal(err)
			}
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		for _, place := range []earth{north, south, third} {
			want, err := ship.At(place)
			if err != nil {
				t.Fatal(err)
			}
			is, err := got.At(place)
			if err != nil || devtest.ExactApart(is, want) > 1e-9 { // floating point, over some powers of ten
				t.Fatalf("at %v: %v, want %v, %v", place, is, want, err)
			}
		}
	})
}

// By hand: H 18,000 and dip 60° make Z 31,177.
func TestForcesAtAPlace(t *testing.T) {
	f := adjust.Forces{A: 0.01, D: 0.05, E: -0.01, PermanentAhead: 1800, PermanentStarboard: -900, InducedAhead: 0.1, InducedStarboard: 0.02}
	k, err := f.At(wmm.Field{X: 18000, Z: 18000 * math.Sqrt(3)})
	want := deviation.ExactCoefficients{A: 0.01, B: 0.1 + 0.1*math.Sqrt(3), C: -0.05 + 0.02*math.Sqrt(3), D: 0.05, E: -0.01}
	if err != nil || devtest.ExactApart(k, want) > 1e-12 { // floating point
		t.Errorf("%v, want %v, %v", k, want, err)
	}
}

func TestOnePlaceBracketsWhatTheForcesAre(t *testing.T) {
	k := deviation.ExactCoefficients{A: 0.01, B: 0.2, C: -0.1, D: 0.05, E: 0.02}
	here, far := earth{h: 18000, dip: 60 * devtest.Deg}, earth{h: 36000, dip: -45 * devtest.Deg}
	permanent, err1 := adjust.AllPermanent(k, here)
	induced, err2 := adjust.AllInduced(k, here)
	if err1 != nil || err2 != nil {
		t.Fatal(err1, err2)
	}
	for _, f := range []adjust.Forces{permanent, induced} {
		if got := angle.Must(f.At(here)); devtest.ExactApart(got, k) > 1e-12 { // floating point
			t.Errorf("%v at the place itself: %v", f, got)
		}
	}
	half := deviation.ExactCoefficients{A: 0.01, B: 0.1, C: -0.05, D: 0.05, E: 0.02}
	if got := angle.Must(permanent.At(far)); devtest.ExactApart(got, half) > 1e-12 { // floating point
		t.Errorf("permanent: %v, want %v", got, half)
	}
	turned := deviation.ExactCoefficients{A: 0.01, B: -0.2 / math.Sqrt(3), C: 0.1 / math.Sqrt(3), D: 0.05, E: 0.02}
	if got := angle.Must(induced.At(far)); devtest.ExactApart(got, turned) > 1e-12 { // floating point
		t.Errorf("induced: %v, want %v", got, turned)
	}
}

func TestFieldsThatNoForcesAreHadFrom(t *testing.T) {
	good, other := earth{h: 20000, dip: 60 * devtest.Deg}, earth{h: 30000, dip: -30 * devtest.Deg}
	cause := errors.New("no field")
	var k deviation.ExactCoefficients
	for _, bad := range []earth{
		{h: 0}, {h: -20000}, {h: 0.5}, {h: math.NaN()}, {h: math.Inf(1)},
		{h: 20000, dip: 90 * devtest.Deg}, {h: 20000, dip: -90 * devtest.Deg}, {h: 20000, dip: 100 * devtest.Deg}, {h: 20000, err: cause},
	} {
		_, err1 := adjust.Separate(k, bad, k, other)
		_, err2 := adjust.Separate(k, good, k, bad)
		_, err3 := adjust.AllPermanent(k, bad)
		_, err4 := adjust.AllInduced(k, bad)
		_, err5 := adjust.Forces{}.At(bad)
		for i, err := range []error{err1, err2, err3, err4, err5} {
			e, ok := errors.AsType[*adjust.FieldError](err)
			if !ok || e.Reason == "" || !strings.HasPrefix(err.Error(), "deviation: earth's field: ") {
				t.Errorf("%v, function %d: %v", bad, i, err)
			}
			if errors.Is(err, cause) != (bad.err != nil) {
				t.Errorf("%v, function %d: wraps %v", bad, i, errors.Unwrap(err))
			}
		}
	}
	if _, err := adjust.Separate(k, good, k, good); err == nil || !strings.Contains(err.Error(), "two places") {
		t.Errorf("twice the same place: %v", err)
	}
	if _, err := adjust.Separate(k, earth{h: 20000, dip: 45 * devtest.Deg}, k, earth{h: 20000, dip: devtest.Degrees(54)}); err == nil { // tan 54° = 1.38
		t.Error("places that are too alike")
	}
	if _, err := adjust.Separate(k, earth{h: 20000, dip: 45 * devtest.Deg}, k, earth{h: 20000, dip: devtest.Degrees(57)}); err != nil { // tan 57° = 1.54
		t.Error(err)
	}
	if _, err := adjust.Separate(k, earth{h: 20000, dip: 45 * devtest.Deg}, k, earth{h: 40000}); err != nil { // 20,000 and 0: half of the greater H is enough
		t.Error(err)
	}
	if _, err := adjust.AllInduced(k, earth{h: 30000}); err == nil {
		t.Error("induced on the magnetic equator")
	}
	if _, err := adjust.AllPermanent(k, earth{h: 30000}); err != nil {
		t.Error(err)
	}
}

// B·H = P + c·Z: it is Z that must differ for P and c to be told apart.
func TestEqualVerticalFieldsDoNotSeparate(t *testing.T) {
	here, there := earth{h: 10000, dip: angle.Must(angle.Atan2(2, 1))}, earth{h: 20000, dip: 45 * devtest.Deg}
	first, second := deviation.ExactCoefficients{B: 0.1}, deviation.ExactCoefficients{B: 0.2}
	f, err := adjust.Separate(first, here, second, there)
	if _, ok := errors.AsType[*adjust.FieldError](err); !ok {
		t.Errorf("Z 20,000 nT at both: %+v, %v", f, err)
	}
}
