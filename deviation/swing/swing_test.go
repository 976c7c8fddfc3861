package swing_test

import (
	"errors"
	"strings"
	"testing"

	"lubberline.example/deviation/internal/devtest"
	"lubberline.example/deviation/swing"

	"lubberline.example/angle"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

func TestSwingTableHasWholeUncertainty(t *testing.T) {
	readings, transit := devtest.TransitSwing(24, devtest.Sigma(3*devtest.Minute), devtest.Sigma(4*devtest.Minute), variation.West(5*devtest.Deg).WithUncertainty(devtest.Sigma(12*devtest.Minute)))
	swung, err := swing.Reduce(readings, transit)
	if err != nil {
		t.Fatal(err)
	}
	table, err := swung.Table()
	if err != nil {
		t.Fatal(err)
	}
	if table.By() != deviation.ByCompass || len(table.Entries()) != 24 {
		t.Errorf("by %v, %d rows", table.By(), len(table.Entries()))
	}
	for _, e := range table.Entries() {
		if want := devtest.UsualOn(e.Compass).WithUncertainty(devtest.Sigma(13 * devtest.Minute)); e.Deviation != want { // √(3² + 4² + 12²)
			t.Errorf("on %v: %v %v", e.Compass, e.Deviation, e.Deviation.Uncertainty())
		}
	}
	swung.Observations = append(swung.Observations, swung.Observations[0])
	if _, err := swung.Table(); err == nil {
		t.Error("a table with a heading twice")
	}
	readings, transit = devtest.TransitSwing(4, devtest.Sigma(0), devtest.Sigma(0), variation.West(0))
	if swung, err = swing.Reduce(readings, transit); err != nil {
		t.Fatal(err)
	}
	_, err = swung.Table()
	if e, ok := errors.AsType[*deviation.Error](err); !ok || e.Kind != deviation.GapTooWide {
		t.Errorf("rows 90° apart: %v", err)
	}
}

// What all readings have in common can't be seen in how they scatter: it goes to
// the uncertainty of A, and to no other.
func TestFitIncludesCommonUncertainty(t *testing.T) {
	common := devtest.Sigma(12 * devtest.Minute)
	readings, transit := devtest.TransitSwing(24, devtest.Sigma(3*devtest.Minute), devtest.Sigma(0), variation.West(5*devtest.Deg).WithUncertainty(common))
	swung, err := swing.Reduce(readings, transit)
	if err != nil {
		t.Fatal(err)
	}
	if swung.Common != common {
		t.Errorf("common %v, want %v", swung.Common, common)
	}
	with, err := swung.Fit(swing.FitOptions{})
	if err != nil {
		t.Fatal(err)
	}
	k := with.Curve.Coefficients()
	for i, d := range []angle.Angle{k.A - devtest.Deg, k.B + 4*devtest.Deg, k.C - 3*devtest.Deg, k.D - 2*devtest.Deg, k.E - devtest.Deg/2} {
		if d.Abs() > angle.Second { // the deviations are exact to the rounding of a float
			t.Errorf("coefficient %c is off by %v", 'A'+i, d)
		}
	}
	e, known := with.StandardErrors()
	if !known || e.A < 12*devtest.Minute || e.A > 13*devtest.Minute || e.B > devtest.Minute { // the readings are perfect: only the common part is left
		t.Errorf("standard errors %v, known %v", e, known)
	}
}

func TestReciprocalBearingIsSuspected(t *testing.T) {
	readings, transit := devtest.TransitSwing(16, devtest.Sigma(devtest.Deg/4), devtest.Sigma(0), variation.West(5*devtest.Deg))
	readings[3].Bearing = new(readings[3].Bearing.Reciprocal())
	swung, err := swing.Reduce(readings, transit)
	if err != nil {
		t.Fatal(err)
	}
	found := swung.Suspicions()
	if len(found) != 1 || found[0].Index != 3 || !strings.Contains(found[0].String(), "reciprocal") {
		t.Fatalf("%v", found)
	}
	fit, err := swung.Fit(swing.FitOptions{Robust: true})
	if err != nil {
		t.Fatal(err)
	}
	if r := fit.LeftOut(); len(r) != 1 || r[0].Heading != *readings[3].Heading {
		t.Errorf("rejected %v", r)
	}
}

// A transit given by its reciprocal, or nearly, makes every deviation one that no
// compass has, on either side of 180°.
func TestReciprocalTransitIsRefused(t *testing.T) {
	readings, transit := devtest.TransitSwing(16, devtest.Sigma(devtest.Deg/4), devtest.Sigma(0), variation.West(5*devtest.Deg))
	for _, off := range []angle.Angle{0, 25 * devtest.Deg, -25 * devtest.Deg} {
		transit := transit
		transit.Direction = transit.Direction.Reciprocal().Add(off)
		swung, err := swing.Reduce(readings, transit)
		if err != nil {
			t.Fatal(err)
		}
		for _, options := range []swing.FitOptions{{}, {Robust: true}, {Order: 0}} {
			_, err = swung.Fit(options)
			if e, ok := errors.AsType[*swing.Error](err); !ok || e.Kind != swing.AllReversed || !strings.Contains(err.Error(), "was the reciprocal given?") {
				t.Errorf("%v: %v", off, err)
			}
		}
	}
}

func TestASwingOfNothingIsRefused(t *testing.T) {
	_, err := swing.Reduce(nil, swing.Transit{})
	e, ok := errors.AsType[*swing.Error](err)
	if !ok || e.Index != -1 || err.Error() != "deviation: swing: there are no readings" {
		t.Errorf("%v", err)
	}
}

func TestErrorCountsReadingsFromOne(t *testing.T) {
	why := errors.New("the card stuck")
	err := &swing.Error{Index: 2, Heading: angle.MustParseCompass("045"), Err: why}
	if got, want := err.Error(), "deviation: swing: reading 3, on 045°C: the card stuck"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if !errors.Is(err, why) {
		t.Error("does not wrap why")
	}
}

// TestForgottenReadingsAreRefused leaves out the heading and each thing that a method needs: none
// of them may count as 000°.
func TestForgottenReadingsAreRefused(t *testing.T) {
	heading, bearing := angle.MustParseCompass("090"), angle.MustParseCompass("065")
	transit := swing.Transit{Direction: angle.MustParseTrue("062"), Variation: variation.West(5 * devtest.Deg)}
	for _, c := range []struct {
		what    string
		reading swing.Reading
		method  swing.Method
	}{
		{"heading", swing.Reading{Bearing: &bearing}, transit},
		{"bearing", swing.Reading{Heading: &heading}, transit},
		{"bearing", swing.Reading{Heading: &heading}, swing.DistantObject{}},
		{"true", swing.Reading{Heading: &heading}, swing.TrueHeadings{Variation: variation.West(5 * devtest.Deg)}},
		{"shore", swing.Reading{Heading: &heading, Bearing: &bearing}, swing.ShoreCompass{}},
		{"other", swing.Reading{Heading: &heading}, swing.SecondCompass{Deviation: deviation.None()}},
		{"deviation", swing.Reading{Heading: &heading}, swing.StatedDeviations{}},
	} {
		_, err := swing.Reduce([]swing.Reading{c.reading}, c.method)
		e, ok := errors.AsType[*variation.MissingInputError](err)
		if at, isReading := errors.AsType[*swing.Error](err); !ok || e.What != c.what || !isReading || at.Index != 0 {
			t.Errorf("%s forgotten: %v", c.what, err)
		}
	}
}

// TestAssumedConstantHasNoUncertainty fits swings whose readings share something unknown: A
// is then not known to ±0.01°, and no card has a ±.
func TestAssumedConstantHasNoUncertainty(t *testing.T) {
	readings, transit := devtest.TransitSwing(16, devtest.Sigma(devtest.Deg/4), devtest.Sigma(0), variation.West(5*devtest.Deg))
	for name, method := range map[string]swing.Method{"distant object": swing.DistantObject{}, "variation without ±": transit} {
		fit := angle.Must(angle.Must(swing.Reduce(readings, method)).Fit(swing.FitOptions{}))
		if v, known := fit.Covariance(0, 0); known {
			t.Errorf("%s: A is known to a variance of %v", name, v)
		}
		if _, known := fit.StandardErrors(); known {
			t.Errorf("%s: the uncertainty of A is known", name)
		}
		if _, known := fit.Within(0, 0.95); known {
			t.Errorf("%s: the interval is known", name)
		}
		if _, known := fit.Covariance(1, 1); !known {
			t.Errorf("%s: the uncertainty of B is unknown", name)
		}
		if step, _ := fit.Working().Steps.Find("A"); !strings.Contains(step.How, "uncertainty unknown: what all readings share is not stated") {
			t.Errorf("%s: A %s", name, step.How)
		}
	}
}
