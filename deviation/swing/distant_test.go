package swing_test

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"lubberline.example/deviation/internal/devtest"
	"lubberline.example/deviation/swing"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// dstDeviation is the deviation of an invented compass without A.
func dstDeviation(c angle.Compass) float64 { return devtest.Usual(c.FromNorth()) - 1 }

// dstReadings are bearings of an object far off, on some headings.
func dstReadings(object float64, headings ...float64) []swing.Reading {
	var readings []swing.Reading
	for _, h := range headings {
		c := angle.CompassFrom(devtest.Degrees(h))
		readings = append(readings, swing.Reading{Heading: new(c), Bearing: new(angle.CompassFrom(devtest.Degrees(object - dstDeviation(c)))), Uncertainty: devtest.Sigma(devtest.Deg / 4)})
	}
	return readings
}

// dstEven are headings at equal steps.
func dstEven(n int) []float64 {
	var h []float64
	for i := range n {
		h = append(h, 360/float64(n)*float64(i))
	}
	return h
}

// dstMean is the plain mean of bearings near one of them, in degrees.
func dstMean(readings []swing.Reading) float64 {
	sum := angle.Angle(0)
	for _, r := range readings {
		sum += r.Bearing.Sub(*readings[0].Bearing)
	}
	return (readings[0].Bearing.FromNorth() + sum/angle.Angle(len(readings))).Normalized().Degrees()
}

func TestDistantObjectBearsMeanOfBearings(t *testing.T) {
	for _, object := range []float64{0.5, 62, 181, 359.5} { // across north both ways
		for _, n := range []int{8, 16, 24} {
			readings := dstReadings(object, dstEven(n)...)
			swung, err := swing.Reduce(readings, swing.DistantObject{})
			if err != nil {
				t.Fatal(err)
			}
			got := devtest.Number(t, swung.Steps, "magnetic")
			if !devtest.SameDegrees(got, dstMean(readings)) && math.Abs(math.Remainder(got-dstMean(readings), 360)) > 1e-8 { // rounding to a unit of Angle
				t.Errorf("%v on %d headings: %v, the mean is %v", object, n, got, dstMean(readings))
			}
			for _, o := range swung.Observations {
				if !devtest.Near(o.Deviation.Degrees(), dstDeviation(o.Heading), 1e-8) { // rounding to a unit of Angle
					t.Errorf("%v on %v: %v", object, o.Heading, o.Deviation)
				}
			}
			if step, _ := swung.Steps.Find("magnetic"); step.How != fmt.Sprintf("mean of %d bearings round the circle, A taken as zero", n) {
				t.Errorf("%q", step.How)
			}
			if !devtest.Warned(swung.Warnings, swing.ConstantTakenAsZero) || !devtest.Warned(swung.Warnings, swing.NoParallax) {
				t.Errorf("warnings %q", swung.Warnings)
			}
			if _, stated := swung.Common.Sigma(); stated {
				t.Errorf("common %v, though nothing is said of A", swung.Common)
			}
			checked, err := swing.Reduce(dstReadings(object, dstEven(n)...), swing.DistantObject{A: devtest.Sigma(devtest.Deg / 4)})
			if err != nil {
				t.Fatal(err)
			}
			if s, stated := checked.Common.Sigma(); !stated || s < devtest.Deg/4 || s > devtest.Deg {
				t.Errorf("common %v, A known to ±0.25°", checked.Common)
			}
		}
	}
}

// A sector with many headings draws the plain mean aside; the mean of the curve
// through the bearings it does not.
// Bearings without errors give the same object for any uncertainty stated for each.
func TestUnequalBearingsGiveTheObject(t *testing.T) {
	readings := dstReadings(62, dstEven(16)...)
	for i := range readings {
		if i%3 == 0 {
			readings[i].Uncertainty = devtest.Sigma(2 * devtest.Deg)
		}
	}
	swung, err := swing.Reduce(readings, swing.DistantObject{})
	if err != nil {
		t.Fatal(err)
	}
	if got := devtest.Number(t, swung.Steps, "magnetic"); !devtest.Near(got, 62, 1e-8) { // rounding to a unit of Angle
		t.Errorf("the object bears %v", got)
	}
}

func TestCrowdedSectorDoesNotBiasObject(t *testing.T) {
	readings := dstReadings(62, append(dstEven(8), 80, 85, 95, 100, 105, 110, 115, 120)...)
	swung, err := swing.Reduce(readings, swing.DistantObject{})
	if err != nil {
		t.Fatal(err)
	}
	if off := dstMean(readings) - 62; math.Abs(off) < 1 {
		t.Errorf("this test needs a plain mean that is off, not one off by %.2f°", off)
	}
	if got := devtest.Number(t, swung.Steps, "magnetic"); !devtest.Near(got, 62, 1e-8) { // rounding to a unit of Angle
		t.Errorf("%v, want 62", got)
	}
}

func TestDistantObjectHidesConstant(t *testing.T) {
	readings := dstReadings(62, dstEven(16)...)
	for i := range readings {
		readings[i].Bearing = new(readings[i].Bearing.Add(-3 * devtest.Deg)) // A of 3°E
	}
	swung, err := swing.Reduce(readings, swing.DistantObject{})
	if err != nil {
		t.Fatal(err)
	}
	for _, o := range swung.Observations {
		if !devtest.Near(o.Deviation.Degrees(), dstDeviation(o.Heading), 1e-8) { // rounding to a unit of Angle
			t.Errorf("on %v: %v", o.Heading, o.Deviation)
		}
	}
}

// dstCircle is a swing on a circle of radius 1 about the origin, in plane
// coordinates x east and y north by magnetic: the vessel at (x, y) steams along
// the tangent and sees the object at its distance. This is the geometry itself,
// without a formula of parallax.
func dstCircle(object, distance float64, turning angle.Side, n int) []swing.Reading {
	rad := math.Pi / 180
	ox, oy := distance*math.Sin(object*rad), distance*math.Cos(object*rad)
	var readings []swing.Reading
	for i := range n {
		c := angle.CompassFrom(devtest.Degrees(360 / float64(n) * float64(i)))
		magnetic := c.Degrees() + dstDeviation(c)
		// Place on the circle whose tangent, run clockwise (to starboard), has
		// this heading: going clockwise at place bearing p one heads p + 90°.
		p := magnetic - 90
		if turning == angle.Port {
			p = magnetic + 90
		}
		x, y := math.Sin(p*rad), math.Cos(p*rad)
		bearing := math.Atan2(ox-x, oy-y) / rad
		readings = append(readings, swing.Reading{Heading: new(c), Bearing: new(angle.CompassFrom(devtest.Degrees(bearing - dstDeviation(c)))), Uncertainty: devtest.Sigma(devtest.Deg / 4)})
	}
	return readings
}

func TestParallaxIsCorrected(t *testing.T) {
	for _, turning := range []angle.Side{angle.Starboard, angle.Port} {
		for _, distance := range []float64{3, 5, 10, 50} {
			for _, object := range []float64{0, 62, 200, 359} {
				readings := dstCircle(object, distance, turning, 16)
				swung, err := swing.Reduce(readings, swing.DistantObject{Distance: distance * 350, Radius: 350, Turning: turning})
				if err != nil {
					t.Fatal(err)
				}
				worst := 0.0
				for _, o := range swung.Observations {
					worst = max(worst, math.Abs(o.Deviation.Degrees()-dstDeviation(o.Heading)))
					if !devtest.SameDegrees(devtest.Number(t, o.Working, "centre")+devtest.Number(t, o.Working, "parallax"), devtest.Number(t, o.Working, "magnetic")) {
						t.Fatalf("the parallax does not lead to the bearing:\n%v", o.Working)
					}
				}
				if worst > 0.01 { // a twenty-fifth of what a compass reads at best
					t.Errorf("turning to %v, %v radii off on %v: off by %.4f°", turning, distance, object, worst)
				}
				if devtest.Warned(swung.Warnings, swing.NoParallax) {
					t.Errorf("warnings %q", swung.Warnings)
				}
				// Not allowed for it would show.
				plain, err := swing.Reduce(readings, swing.DistantObject{})
				if err != nil {
					t.Fatal(err)
				}
				worst = 0
				for _, o := range plain.Observations {
					worst = max(worst, math.Abs(o.Deviation.Degrees()-dstDeviation(o.Heading)))
				}
				if worst < 0.5 {
					t.Errorf("%v radii off the parallax is %.3f°: nothing to allow for", distance, worst)
				}
			}
		}
	}
}

func TestACircleThatCannotBeIsRefused(t *testing.T) {
	readings := dstReadings(62, dstEven(8)...)
	for _, c := range []struct {
		name string
		o    swing.DistantObject
	}{
		{"object inside", swing.DistantObject{Distance: 300, Radius: 400}},
		{"object on the circle", swing.DistantObject{Distance: 300, Radius: 300}},
		{"no distance", swing.DistantObject{Radius: 300}},
		{"radius negative", swing.DistantObject{Distance: 300, Radius: -1}},
		{"distance negative", swing.DistantObject{Distance: -300}},
		{"distance NaN", swing.DistantObject{Distance: math.NaN(), Radius: 1}},
		{"radius NaN", swing.DistantObject{Distance: 300, Radius: math.NaN()}},
		{"distance infinite", swing.DistantObject{Distance: math.Inf(1), Radius: 1}},
		{"radius infinite", swing.DistantObject{Distance: 300, Radius: math.Inf(1)}},
		{"both infinite", swing.DistantObject{Distance: math.Inf(1), Radius: math.Inf(1)}},
		{"no side", swing.DistantObject{Turning: "larboard"}},
	} {
		_, err := swing.Reduce(readings, c.o)
		if e, ok := errors.AsType[*swing.Error](err); !ok || e.Index != -1 {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

func TestBearingsThatNoCurveFitsAreRefused(t *testing.T) {
	_, err := swing.Reduce(dstReadings(62, 0, 90, 180), swing.DistantObject{})
	if _, ok := errors.AsType[*swing.Error](err); !ok {
		t.Errorf("three headings: %v", err)
	}
	opposite := []swing.Reading{{Heading: new(angle.Compass{}), Bearing: new(angle.MustParseCompass("000"))}, {Heading: new(angle.Compass{}), Bearing: new(angle.MustParseCompass("180"))}}
	_, err = swing.Reduce(opposite, swing.DistantObject{})
	if _, ok := errors.AsType[*angle.RangeError](err); !ok {
		t.Errorf("opposite bearings: %v", err)
	}
}

func TestABearingFarOffIsLeftOutOfTheMean(t *testing.T) {
	readings := dstReadings(62, dstEven(16)...)
	readings[5].Bearing = new(readings[5].Bearing.Add(40 * devtest.Deg))
	swung, err := swing.Reduce(readings, swing.DistantObject{})
	if err != nil {
		t.Fatal(err)
	}
	if got := devtest.Number(t, swung.Steps, "magnetic"); !devtest.Near(got, 62, 1e-8) { // rounding to a unit of Angle
		t.Errorf("%v, want 62", got)
	}
	if !slices.ContainsFunc(swung.Warnings, func(w working.Warning) bool {
		return w.Kind == swing.BearingLeftOut && w.Message == "the bearing on 112.5°C does not agree with the others and was left out of the mean"
	}) {
		t.Errorf("warnings %q", swung.Warnings)
	}
	if step, _ := swung.Steps.Find("magnetic"); !strings.HasPrefix(step.How, "of a curve A to E through 15 bearings") {
		t.Errorf("%q", step.How)
	}
	if len(swung.Observations) != 16 {
		t.Errorf("%d observations: it is left out of the mean, not of the swing", len(swung.Observations))
	}
}
