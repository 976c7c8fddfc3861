package deviation_test

import (
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

// drawCoefficients draws A to E up to some size each.
func drawCoefficients(t *rapid.T, most angle.Angle) deviation.Coefficients {
	return deviation.Coefficients{
		A: drawBetween(t, -most, most, "A"), B: drawBetween(t, -most, most, "B"), C: drawBetween(t, -most, most, "C"),
		D: drawBetween(t, -most, most, "D"), E: drawBetween(t, -most, most, "E"),
	}
}

// byFormula is A + B sin z + C cos z + D sin 2z + E cos 2z in degrees.
func byFormula(k deviation.Coefficients, heading angle.Angle) float64 {
	z := heading.Radians()
	return k.A.Degrees() + k.B.Degrees()*math.Sin(z) + k.C.Degrees()*math.Cos(z) + k.D.Degrees()*math.Sin(2*z) + k.E.Degrees()*math.Cos(2*z)
}

func TestCoefficientsFollowTheFormula(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := drawCoefficients(t, 17*deg)
		by := kinds[rapid.IntRange(0, 1).Draw(t, "by")]
		z := drawHeading(t, "heading")
		want := byFormula(k, z)
		curve, err := k.Curve(by)
		if err != nil {
			t.Fatal(err) // five of 17° are less than 90°
		}
		d, err := curve.OnCompass(angle.CompassFrom(z))
		if by == deviation.ByMagnetic {
			d, err = curve.OnMagnetic(angle.MagneticFrom(z))
		}
		if err != nil || !near(d.Degrees(), want, 1e-11) || k.At(z) != d { // the unit of an Angle and floating point
			t.Fatalf("%v, want %v, at %v, %v", d.Degrees(), want, k.At(z), err)
		}
		if got := curve.Coefficients(); got != k || curve.Order() != 2 || curve.By() != by {
			t.Fatalf("%v, want %v", got, k)
		}
		if k.At(z+angle.Turn) != k.At(z) || k.At(z-3*angle.Turn) != k.At(z) {
			t.Fatal("not periodic")
		}
	})
}

func TestCoefficientsPrintAsTheTradeSigns(t *testing.T) {
	k := deviation.Coefficients{A: deg / 2, B: 3 * deg, C: -2 * deg, D: deg * 12 / 10, E: -deg * 3 / 10}
	if got := k.String(); strings.Join(strings.Fields(got), " ") != "A +0.50° B +3.00° C −2.00° D +1.20° E −0.30°" {
		t.Error(got)
	}
	k = deviation.Coefficients{A: -deg / 1000, B: deg / 1000, C: -deg * 996 / 1000}
	if got := k.String(); strings.Join(strings.Fields(got), " ") != "A +0.00° B +0.00° C −1.00° D +0.00° E +0.00°" {
		t.Error(got)
	}
}

func TestCoefficientsGoThroughJSON(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := drawCoefficients(t, 90*deg)
		text, err := json.Marshal(k)
		if err != nil {
			t.Fatal(err)
		}
		var got deviation.Coefficients
		if err := json.Unmarshal(text, &got); err != nil || got != k {
			t.Fatalf("%s: %v, want %v, %v", text, got, k, err)
		}
	})
}

func TestACurveOfMoreThan90DegreesIsRefused(t *testing.T) {
	for _, k := range []deviation.Coefficients{{A: 91 * deg}, {B: -90*deg - minute}, {A: 60 * deg, D: 31 * deg}, {C: 180 * deg}, {E: 1000 * deg}} {
		for _, by := range []deviation.HeadingKind{deviation.ByCompass, deviation.ByMagnetic} {
			curve, err := k.Curve(by)
			e, ok := errors.AsType[*deviation.CurveError](err)
			if !ok || curve != nil || e.By != by || k.At(e.Heading).Angle().Abs() <= 90*deg && math.Abs(byFormula(k, e.Heading)) <= 90 || !strings.Contains(err.Error(), "at most 90°") {
				t.Errorf("%v: %v, %v", k, curve, err)
			}
		}
	}
	// The sum of all is more, but not on one heading.
	for _, k := range []deviation.Coefficients{{B: 90 * deg}, {A: 90 * deg}, {B: 60 * deg, D: 40 * deg}, {A: 10 * deg, C: 79 * deg}} {
		if _, err := k.Curve(deviation.ByCompass); err != nil {
			t.Errorf("%v: %v", k, err)
		}
	}
}
