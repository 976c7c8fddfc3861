package deviation_test

import (
	"errors"
	"strings"
	"testing"

	"lubberline.example/deviation/internal/devtest"
	"lubberline.example/deviation/swing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
)

// handbook are the deviations of figure 501 of the Handbook of Magnetic Compass
// Adjustment (formerly Pub. No. 226), 1980 text in the web edition of 2004,
// article 501.
var handbook = map[string]angle.Angle{
	"N": devtest.Degrees(10.5), "NE": devtest.Degrees(20), "E": devtest.Degrees(11.5), "SE": devtest.Degrees(-1.2),
	"S": devtest.Degrees(-5.5), "SW": devtest.Degrees(-8), "W": devtest.Degrees(-12.5), "NW": devtest.Degrees(-6.8),
}

// handNear compares A to E in degrees.
func handNear(t devtest.Fails, got deviation.Coefficients, want [5]float64, within float64) {
	t.Helper()
	for i, a := range []angle.Angle{got.A, got.B, got.C, got.D, got.E} {
		if !devtest.Near(a.Degrees(), want[i], within) {
			t.Fatalf("%v, want %v within %v", got, want, within)
		}
	}
}

func TestTheHandbooksCoefficients(t *testing.T) {
	h := angle.Must(deviation.AnalyseByHand(handbook))
	handNear(t, h.Coefficients, [5]float64{1, 12, 8, 5, 1.5}, 0.05) // the coefficients, from memory, have one decimal
	curve, err := h.Coefficients.Curve(deviation.ByCompass)
	if err != nil {
		t.Fatal(err)
	}
	again, err := deviation.OnEightHeadings(curve)
	if err != nil {
		t.Fatal(err)
	}
	if len(again) != 8 {
		t.Fatal(again)
	}
	for name, d := range again {
		off := d - handbook[name]
		if !devtest.Near(off.Degrees(), 0, 0.15) { // the deviations have one decimal, and a third harmonic that A to E can't follow
			t.Errorf("heading %s: off by %v", name, off)
		}
	}
}

// Evans, Elementary Manual for the Deviations of the Compass in Iron Ships, 1870
// and 1875.
func TestCoefficientBOfTheManual(t *testing.T) {
	h := angle.Must(deviation.AnalyseByHand(map[string]angle.Angle{
		"NE": 24*devtest.Deg + 10*devtest.Minute, "SE": 6 * devtest.Deg, "SW": -(10*devtest.Deg + 30*devtest.Minute), "NW": -(19*devtest.Deg + 30*devtest.Minute),
	}))
	if want := 21*devtest.Deg + 16*devtest.Minute; (h.Coefficients.B - want).Abs() > devtest.Minute { // worked to the minute there
		t.Errorf("B %v, want %v", h.Coefficients.B, want)
	}
}

func TestEightHeadingsByHandAgreeWithFit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		curve := devtest.DrawSeries(t, 4, 4)
		swung := devtest.Swing(devtest.Even(8, 0), curve.At)
		d := func(i int) angle.Angle { return swung[i].Deviation.Angle() }
		h := angle.Must(deviation.AnalyseByHand(map[string]angle.Angle{"N": d(0), "NE": d(1), "E": d(2), "SE": d(3), "S": d(4), "SW": d(5), "W": d(6), "NW": d(7)}))
		fit := devtest.Fit(t, swung, swing.FitOptions{Order: 2}).Curve.Coefficients()
		k := h.Coefficients
		for _, off := range []angle.Angle{k.A - fit.A, k.D - fit.D, k.E - fit.E} {
			if !devtest.Near(off.Degrees(), 0, 1e-10) { // floating point
				t.Fatalf("%v, fitted %v", k, fit)
			}
		}
		// The hand uses cardinal headings alone for B and C, the fit all eight;
		// the mean with what the intercardinal ones say is the fit's.
		x := angle.Must(deviation.AnalyseByHand(map[string]angle.Angle{"NE": d(1), "SE": d(3), "SW": d(5), "NW": d(7)})).Coefficients
		for _, off := range []float64{(k.B+x.B).Degrees()/2 - fit.B.Degrees(), (k.C+x.C).Degrees()/2 - fit.C.Degrees()} {
			if !devtest.Near(off, 0, 1e-10) { // floating point
				t.Fatalf("%v and %v, fitted %v", k, x, fit)
			}
		}
	})
}

func TestHandRulesFindCoefficients(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := devtest.DrawSeries(t, 2, 8)
		swung := devtest.Swing(devtest.Even(8, 0), b.At)
		d := func(i int) angle.Angle { return swung[i].Deviation.Angle() }
		eight := angle.Must(deviation.AnalyseByHand(map[string]angle.Angle{"N": d(0), "NE": d(1), "E": d(2), "SE": d(3), "S": d(4), "SW": d(5), "W": d(6), "NW": d(7)}))
		four := angle.Must(deviation.AnalyseByHand(map[string]angle.Angle{"N": d(0), "E": d(2), "S": d(4), "W": d(6)}))
		between := angle.Must(deviation.AnalyseByHand(map[string]angle.Angle{"NE": d(1), "SE": d(3), "SW": d(5), "NW": d(7)}))
		handNear(t, eight.Coefficients, [5]float64{b[0], b[1], b[2], b[3], b[4]}, 1e-10) // units of an Angle
		handNear(t, four.Coefficients, [5]float64{b[0], b[1], b[2], 0, b[4]}, 1e-10)     // as above
		handNear(t, between.Coefficients, [5]float64{b[0], b[1], b[2], b[3], 0}, 1e-10)  // as above
		for _, h := range []struct {
			got  deviation.HandAnalysis
			want string
		}{{eight, "ABCDE"}, {four, "ABCE"}, {between, "ABCD"}} {
			if h.got.Found != h.want || len(h.got.Steps) != len(h.want) {
				t.Fatalf("found %s, want %s", h.got.Found, h.want)
			}
			k := h.got.Coefficients
			values := map[string]angle.Angle{"A": k.A, "B": k.B, "C": k.C, "D": k.D, "E": k.E}
			for i, step := range h.got.Steps {
				if step.Key != h.want[i:i+1] || step.Number != values[step.Key].Degrees() || step.Unit != working.DegreesEast {
					t.Fatalf("%+v, coefficients %v", step, k)
				}
			}
		}
	})
}

func TestTheWorkingByHandHasTheFigures(t *testing.T) {
	w := angle.Must(deviation.AnalyseByHand(handbook)).Steps
	for i, want := range [][2]string{
		{"+1.00°", "mean of the eight: N +10.50°, NE +20.00°, E +11.50°, SE −1.20°, S −5.50°, SW −8.00°, W −12.50°, NW −6.80°"},
		{"+12.00°", "half of E less W: E +11.50°, less W −12.50°"},
		{"+8.00°", "half of N less S: N +10.50°, less S −5.50°"},
		{"+5.00°", "NE +20.00°, SW −8.00°, less SE −1.20°, less NW −6.80°"},
		{"+1.50°", "N +10.50°, S −5.50°, less E +11.50°, less W −12.50°"},
	} {
		if w[i].Value != want[0] || !strings.Contains(w[i].How, want[1]) || w[i].What != "Coefficient "+w[i].Key {
			t.Errorf("%+v", w[i])
		}
	}
}

func TestZeroByHandIsZero(t *testing.T) {
	for _, headings := range []string{"N NE E SE S SW W NW", "N E S W", "NE SE SW NW"} {
		given := map[string]angle.Angle{}
		for name := range strings.FieldsSeq(headings) {
			given[name] = 0
		}
		h := angle.Must(deviation.AnalyseByHand(given))
		if h.Coefficients != (deviation.Coefficients{}) || h.Steps[0].Value != "+0.00°" {
			t.Errorf("%+v", h)
		}
	}
}

func TestEightHeadingsOfASourceThatHasNotAll(t *testing.T) {
	e, err := deviation.OnEightHeadings(deviation.ExactCoefficients{B: 1.2})
	if _, ok := errors.AsType[*deviation.Error](err); !ok || e != nil {
		t.Errorf("%v, %v", e, err)
	}
}

// A deviation that is missing must not count as 0°.
func TestByHandNeedsEveryHeading(t *testing.T) {
	for _, names := range []string{"", "N", "N E S", "N NE E SE S SW W", "N E S W NE", "N E S X", "n e s w"} {
		given := map[string]angle.Angle{}
		for name := range strings.FieldsSeq(names) {
			given[name] = devtest.Deg
		}
		h, err := deviation.AnalyseByHand(given)
		if e, ok := errors.AsType[*deviation.Error](err); !ok || e.Kind != deviation.WrongHeadings || h.Steps != nil || h.Coefficients != (deviation.Coefficients{}) {
			t.Errorf("%q: %v, %v", names, h, err)
		}
	}
	_, err := deviation.AnalyseByHand(map[string]angle.Angle{"N": 0, "E": 0, "S": 0})
	if want := `deviation: by hand: the headings are "E", "N", "S"; give all of N, NE, E, SE, S, SW, W, NW, or N, E, S, W alone, or NE, SE, SW, NW alone`; err.Error() != want {
		t.Errorf("%v\nwant %s", err, want)
	}
}
