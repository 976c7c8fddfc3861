package deviation_test

import (
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"lubberline.example/deviation/internal/devtest"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

// drawCoefficients draws A to E up to some size each.
func drawCoefficients(t *rapid.T, most angle.Angle) deviation.Coefficients {
	return deviation.Coefficients{
		A: devtest.DrawBetween(t, -most, most, "A"), B: devtest.DrawBetween(t, -most, most, "B"), C: devtest.DrawBetween(t, -most, most, "C"),
		D: devtest.DrawBetween(t, -most, most, "D"), E: devtest.DrawBetween(t, -most, most, "E"),
	}
}

// byFormula is A + B sin z + C cos z + D sin 2z + E cos 2z in degrees.
func byFormula(k deviation.Coefficients, heading angle.Angle) float64 {
	z := heading.Radians()
	return k.A.Degrees() + k.B.Degrees()*math.Sin(z) + k.C.Degrees()*math.Cos(z) + k.D.Degrees()*math.Sin(2*z) + k.E.Degrees()*math.Cos(2*z)
}

func TestCoefficientsFollowTheFormula(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := drawCoefficients(t, 17*devtest.Deg)
		by := devtest.Kinds[rapid.IntRange(0, 1).Draw(t, "by")]
		z := devtest.DrawHeading(t, "heading")
		want := byFormula(k, z)
		curve, err := k.Curve(by)
		if err != nil {
			t.Fatal(err) // five of 17° are less than 90°
		}
		d, err := curve.OnCompass(angle.CompassFrom(z))
		if by == deviation.ByMagnetic {
			d, err = curve.OnMagnetic(angle.MagneticFrom(z))
		}
		if err != nil || !devtest.Near(d.Degrees(), want, 1e-11) { // the unit of an Angle and floating point
			t.Fatalf("%v, want %v, %v", d.Degrees(), want, err)
		}
		if got := curve.Coefficients(); got != k || curve.Order() != 2 || curve.By() != by {
			t.Fatalf("%v, want %v", got, k)
		}
	})
}

func TestCoefficientsPrintAsTheTradeSigns(t *testing.T) {
	k := deviation.Coefficients{A: devtest.Deg / 2, B: 3 * devtest.Deg, C: -2 * devtest.Deg, D: devtest.Deg * 12 / 10, E: -devtest.Deg * 3 / 10}
	if got := k.String(); strings.Join(strings.Fields(got), " ") != "A +0.50° B +3.00° C −2.00° D +1.20° E −0.30°" {
		t.Error(got)
	}
	k = deviation.Coefficients{A: -devtest.Deg / 1000, B: devtest.Deg / 1000, C: -devtest.Deg * 996 / 1000}
	if got := k.String(); strings.Join(strings.Fields(got), " ") != "A +0.00° B +0.00° C −1.00° D +0.00° E +0.00°" {
		t.Error(got)
	}
}

func TestCoefficientsGoThroughJSON(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := drawCoefficients(t, 90*devtest.Deg)
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
	for _, k := range []deviation.Coefficients{{A: 91 * devtest.Deg}, {B: -90*devtest.Deg - devtest.Minute}, {A: 60 * devtest.Deg, D: 31 * devtest.Deg}, {C: 180 * devtest.Deg}, {E: 1000 * devtest.Deg}} {
		for _, by := range []deviation.HeadingKind{deviation.ByCompass, deviation.ByMagnetic} {
			curve, err := k.Curve(by)
			e, ok := errors.AsType[*deviation.Error](err)
			if !ok || curve != nil || e.By != by || math.Abs(byFormula(k, e.Heading)) <= 90 || !strings.Contains(err.Error(), "at most 90°") {
				t.Errorf("%v: %v, %v", k, curve, err)
			}
		}
	}
	// The sum of all is more, but not on one heading.
	for _, k := range []deviation.Coefficients{{B: 90 * devtest.Deg}, {A: 90 * devtest.Deg}, {B: 60 * devtest.Deg, D: 40 * devtest.Deg}, {A: 10 * devtest.Deg, C: 79 * devtest.Deg}} {
		if _, err := k.Curve(deviation.ByCompass); err != nil {
			t.Errorf("%v: %v", k, err)
		}
	}
}
