package deviation_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// swgUsual is the deviation of the usual compass on a heading.
func swgUsual(c angle.Compass) deviation.Deviation {
	return deviation.East(degrees(usual(c.FromNorth())))
}

// swgTransit is a swing of the usual compass on headings at equal steps past a
// transit, with the readings' and the transit's uncertainty.
func swgTransit(n int, own, direction angle.Uncertainty, v variation.Variation) ([]deviation.Reading, deviation.Transit) {
	transit := deviation.Transit{Direction: angle.MustParseTrue("062°T"), Uncertainty: direction, Variation: v}
	var readings []deviation.Reading
	for i := range n {
		c := angle.CompassFrom(angle.Turn / angle.Angle(n) * angle.Angle(i))
		readings = append(readings, deviation.Reading{Heading: new(c), Bearing: new(swgUsual(c).Compass(v.Magnetic(transit.Direction))), Uncertainty: own})
	}
	return readings, transit
}

// swgNumber is the figure of a step, which must be there.
func swgNumber(t fails, steps working.Steps, key string) float64 {
	t.Helper()
	s, ok := steps.Find(key)
	if !ok {
		t.Fatalf("no step %q in\n%v", key, steps)
	}
	return s.Number
}

// swgSame reports whether two figures in degrees are the same round the circle,
// but for the last places of floating point.
func swgSame(a, b float64) bool { return math.Abs(math.Remainder(a-b, 360)) < 1e-9 }

func TestASwingBecomesATableWithAllTheUncertaintyThereIs(t *testing.T) {
	readings, transit := swgTransit(24, Sigma(3*minute), Sigma(4*minute), variation.West(5*deg).WithUncertainty(Sigma(12*minute)))
	swing, err := deviation.Reduce(readings, transit)
	if err != nil {
		t.Fatal(err)
	}
	table, err := swing.Table()
	if err != nil {
		t.Fatal(err)
	}
	if table.By() != deviation.ByCompass || len(table.Entries()) != 24 {
		t.Errorf("by %v, %d rows", table.By(), len(table.Entries()))
	}
	for _, e := range table.Entries() {
		if want := swgUsual(angle.CompassFrom(e.Heading)).WithUncertainty(Sigma(13 * minute)); e.Deviation != want { // √(3² + 4² + 12²)
			t.Errorf("on %v: %v %v", e.Heading, e.Deviation, e.Deviation.Uncertainty())
		}
	}
	swing.Observations = append(swing.Observations, swing.Observations[0])
	if _, err := swing.Table(); err == nil {
		t.Error("a table with a heading twice")
	}
	readings, transit = swgTransit(4, Sigma(0), Sigma(0), variation.West(0))
	if swing, err = deviation.Reduce(readings, transit); err != nil {
		t.Fatal(err)
	}
	_, err = swing.Table()
	if e, ok := errors.AsType[*deviation.TableError](err); !ok || e.Kind != deviation.GapTooWide {
		t.Errorf("rows 90° apart: %v", err)
	}
}

// What all readings have in common can't be seen in how they scatter: it goes to
// the uncertainty of A, and to no other.
func TestAFitOfASwingTakesInWhatTheReadingsHaveInCommon(t *testing.T) {
	common := Sigma(12 * minute)
	readings, transit := swgTransit(24, Sigma(3*minute), Sigma(0), variation.West(5*deg).WithUncertainty(common))
	swing, err := deviation.Reduce(readings, transit)
	if err != nil {
		t.Fatal(err)
	}
	if swing.Common != common {
		t.Errorf("common %v, want %v", swing.Common, common)
	}
	with, err := swing.Fit(deviation.FitOptions{})
	if err != nil {
		t.Fatal(err)
	}
	k := with.Coefficients()
	for i, d := range []angle.Angle{k.A - deg, k.B + 4*deg, k.C - 3*deg, k.D - 2*deg, k.E - deg/2} {
		if d.Abs() > angle.Second { // the deviations are exact to the rounding of a float
			t.Errorf("coefficient %c is off by %v", 'A'+i, d)
		}
	}
	e, known := with.StandardErrors()
	if !known || e.A < 12*minute || e.A > 13*minute || e.B > minute { // the readings are perfect: only the common part is left
		t.Errorf("standard errors %v, known %v", e, known)
	}
}

func TestASwingPointsAtABearingThatIsTheReciprocal(t *testing.T) {
	readings, transit := swgTransit(16, Sigma(deg/4), Sigma(0), variation.West(5*deg))
	readings[3].Bearing = new(readings[3].Bearing.Reciprocal())
	swing, err := deviation.Reduce(readings, transit)
	if err != nil {
		t.Fatal(err)
	}
	found := swing.Suspicions()
	if len(found) != 1 || found[0].Index != 3 || !strings.Contains(found[0].String(), "reciprocal") {
		t.Fatalf("%v", found)
	}
	fit, err := swing.Fit(deviation.FitOptions{Robust: true})
	if err != nil {
		t.Fatal(err)
	}
	if r := fit.Rejected(); len(r) != 1 || r[0].Heading != *readings[3].Heading {
		t.Errorf("rejected %v", r)
	}
}

// A transit given by its reciprocal, or nearly, makes every deviation one that no
// compass has, on either side of 180°.
func TestATransitGivenByItsReciprocalIsRefused(t *testing.T) {
	readings, transit := swgTransit(16, Sigma(deg/4), Sigma(0), variation.West(5*deg))
	for _, off := range []angle.Angle{0, 25 * deg, -25 * deg} {
		transit := transit
		transit.Direction = transit.Direction.Reciprocal().Add(off)
		swing, err := deviation.Reduce(readings, transit)
		if err != nil {
			t.Fatal(err)
		}
		for _, options := range []deviation.FitOptions{{}, {Robust: true}, {Order: 0}} {
			_, err = swing.Fit(options)
			if e, ok := errors.AsType[*deviation.FitError](err); !ok || e.Kind != deviation.AllReversed || e.Got != 16 || !strings.Contains(err.Error(), "was the reciprocal given?") {
				t.Errorf("%v: %v", off, err)
			}
		}
	}
}

func TestASwingOfNothingIsRefused(t *testing.T) {
	_, err := deviation.Reduce(nil, deviation.Transit{})
	e, ok := errors.AsType[*deviation.ReadingError](err)
	if !ok || e.Index != -1 || err.Error() != "deviation: swing: no readings" {
		t.Errorf("%v", err)
	}
}

func TestAReadingErrorSaysWhichReadingAsNavigatorsCount(t *testing.T) {
	why := errors.New("the card stuck")
	err := &deviation.ReadingError{Index: 2, Heading: angle.MustParseCompass("045"), Err: why}
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
	transit := deviation.Transit{Direction: angle.MustParseTrue("062"), Variation: variation.West(5 * deg)}
	for _, c := range []struct {
		what    string
		reading deviation.Reading
		method  deviation.Method
	}{
		{"heading", deviation.Reading{Bearing: &bearing}, transit},
		{"bearing", deviation.Reading{Heading: &heading}, transit},
		{"bearing", deviation.Reading{Heading: &heading}, deviation.DistantObject{}},
		{"true", deviation.Reading{Heading: &heading}, deviation.TrueHeadings{Variation: variation.West(5 * deg)}},
		{"shore", deviation.Reading{Heading: &heading, Bearing: &bearing}, deviation.ShoreCompass{}},
		{"other", deviation.Reading{Heading: &heading}, deviation.SecondCompass{Deviation: deviation.None()}},
		{"deviation", deviation.Reading{Heading: &heading}, deviation.StatedDeviations{}},
	} {
		_, err := deviation.Reduce([]deviation.Reading{c.reading}, c.method)
		e, ok := errors.AsType[*variation.MissingInputError](err)
		if at, isReading := errors.AsType[*deviation.ReadingError](err); !ok || e.What != c.what || !isReading || at.Index != 0 {
			t.Errorf("%s forgotten: %v", c.what, err)
		}
	}
}

// TestAssumedConstantHasNoUncertainty fits swings whose readings share something unknown: A
// is then not known to ±0.01°, and no card has a ±.
func TestAssumedConstantHasNoUncertainty(t *testing.T) {
	readings, transit := swgTransit(16, Sigma(deg/4), Sigma(0), variation.West(5*deg))
	for name, method := range map[string]deviation.Method{"distant object": deviation.DistantObject{}, "variation without ±": transit} {
		fit := angle.Must(angle.Must(deviation.Reduce(readings, method)).Fit(deviation.FitOptions{}))
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
		if step, _ := fit.Working().Steps.Find("A"); !strings.Contains(step.How, "not known: what all readings share is not stated") {
			t.Errorf("%s: A %s", name, step.How)
		}
	}
}
