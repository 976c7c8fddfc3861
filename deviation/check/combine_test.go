package check_test

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"lubberline.example/deviation/check"
	"lubberline.example/deviation/internal/devtest"

	"lubberline.example/angle"
	"lubberline.example/variation"
)

// cmbCheck is a check on a heading with a compass error, in degrees, read with an
// uncertainty, where the variation is 5° W ±12′.
func cmbCheck(t devtest.Fails, heading, east float64, u angle.Uncertainty, what string) check.Check {
	t.Helper()
	return against(t, check.Reading{
		Heading: new(angle.CompassFrom(devtest.Degrees(heading))), Bearing: new(angle.MustParseCompass("120")),
		Uncertainty: u, Variation: variation.West(5 * devtest.Deg).WithUncertainty(devtest.Sigma(12 * devtest.Minute)),
	}, what, angle.TrueFrom(devtest.Degrees(120+east)), devtest.Sigma(0))
}

func TestChecksThatAgreeGiveTheirWeightedMean(t *testing.T) {
	// The second is read twice as badly and weighs a quarter.
	c, err := check.Combine(cmbCheck(t, 90, -4, devtest.Sigma(devtest.Deg/2), "the Sun"), cmbCheck(t, 92.5, -3, devtest.Sigma(devtest.Deg), "the beacons"))
	if err != nil {
		t.Fatal(err)
	}
	if !devtest.Near(c.Error.Degrees(), -3.8, 1e-9) || !devtest.Near(c.Deviation.Degrees(), 1.2, 1e-9) || !devtest.Near(c.Heading.Degrees(), 90.5, 1e-9) { // rounding to a unit of Angle
		t.Errorf("error %v, deviation %v on %v", c.Error, c.Deviation, c.Heading)
	}
	own, _ := c.Error.Uncertainty().Sigma()
	all, _ := c.Deviation.Uncertainty().Sigma()
	if want := 1 / math.Sqrt(1/0.25+1); !devtest.Near(own.Degrees(), want, 1e-9) || !devtest.Near(all.Degrees(), math.Hypot(want, 0.2), 1e-9) { // the same
		t.Errorf("±%v, ±%v", own, all)
	}
	if !devtest.Near(c.ChiSquare, 0.8, 1e-9) || !devtest.Near(c.Probability, math.Erfc(math.Sqrt(0.4)), 1e-9) || len(c.Warnings) != 0 { // (0.2/0.5)² + (0.8/1)²; two are one degree of freedom
		t.Errorf("chi-square %v, probability %v, warnings %q", c.ChiSquare, c.Probability, c.Warnings)
	}
	if !devtest.SameDegrees(devtest.Number(t, c.Steps, "deviation")+devtest.Number(t, c.Steps, "variation"), c.Error.Degrees()) || !strings.Contains(c.Steps.String(), "Error by the beacons") {
		t.Errorf("\n%v", c.Steps)
	}
}

func TestChecksAcrossNorthAndAcrossSouth(t *testing.T) {
	c, err := check.Combine(cmbCheck(t, 359, 179.5, devtest.Sigma(devtest.Deg), "one"), cmbCheck(t, 1, -179.5, devtest.Sigma(devtest.Deg), "the other"))
	if err != nil {
		t.Fatal(err)
	}
	if c.Heading.FromNorth() != 0 || c.Error.Angle() != 180*devtest.Deg || c.Deviation.Angle() != -175*devtest.Deg {
		t.Errorf("error %v, deviation %v on %v", c.Error, c.Deviation, c.Heading)
	}
}

func TestChecksThatDisagreeWarn(t *testing.T) {
	c, err := check.Combine(cmbCheck(t, 90, -4, devtest.Sigma(devtest.Deg/2), "the Sun"), cmbCheck(t, 90, 1, devtest.Sigma(devtest.Deg/2), "Vega"))
	if err != nil {
		t.Fatal(err)
	}
	if c.Probability >= 0.01 || len(c.Warnings) != 1 || c.Warnings[0].Kind != check.ChecksDisagree || !strings.Contains(c.Warnings[0].Message, "do not agree") {
		t.Errorf("probability %v, warnings %q", c.Probability, c.Warnings)
	}
}

func TestCombineRefuses(t *testing.T) {
	good := cmbCheck(t, 90, -4, devtest.Sigma(devtest.Deg), "the Sun")
	other := good
	other.Variation = variation.West(6 * devtest.Deg)
	for _, c := range []struct {
		name   string
		checks []check.Check
		says   string
	}{
		{"none", nil, "0 checks; give two or more"},
		{"one", []check.Check{good}, "1 checks; give two or more"},
		{"headings", []check.Check{good, cmbCheck(t, 100, -4, devtest.Sigma(devtest.Deg), "the beacons")}, "headings 090°C and 100°C"},
		{"variations", []check.Check{good, other}, "variations 5°00′W and 6°00′W"},
		{"unstated", []check.Check{good, cmbCheck(t, 90, -4, angle.Uncertainty{}, "the beacons")}, "check against the beacons: the uncertainty of its compass error"},
		{"zero", []check.Check{good, cmbCheck(t, 90, -4, devtest.Sigma(0), "the beacons")}, "check against the beacons: "},
	} {
		_, err := check.Combine(c.checks...)
		if _, ok := errors.AsType[*check.Error](err); !ok || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

// The headings of very many checks were compared each with each.
func TestVastNumberOfChecksIsCombined(t *testing.T) {
	one := against(t, check.Reading{
		Heading: new(angle.MustParseCompass("090")), Bearing: new(angle.MustParseCompass("100")), Uncertainty: devtest.Sigma(devtest.Deg), Variation: variation.West(5 * devtest.Deg),
	}, "a transit", angle.MustParseTrue("096"), devtest.Sigma(0))
	checks := slices.Repeat([]check.Check{one}, 200_000)
	if _, err := check.Combine(checks...); err != nil {
		t.Error(err)
	}
	// Ends that lie too far apart are refused, though both are near the first.
	low, high := one, one
	low.Heading, high.Heading = one.Heading.Add(-3*devtest.Deg), one.Heading.Add(3*devtest.Deg)
	for _, ends := range [][]check.Check{{one, low, high}, {one, high, low}} {
		if _, err := check.Combine(ends...); err == nil || !strings.Contains(err.Error(), "087°C") || !strings.Contains(err.Error(), "093°C") {
			t.Error(err)
		}
	}
}
