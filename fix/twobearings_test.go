package fix_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"lubberline.example/fix"
	"lubberline.example/fix/internal/fixtest"
)

// tbDegrees returns an angle of some degrees.
func tbDegrees(d float64) angle.Angle { return angle.Must(angle.Degrees(d)) }

// tbOnBow checks the angles on the bow in a working.
func tbOnBow(t *testing.T, b fix.TwoBearings, first, second angle.Angle) {
	t.Helper()
	steps := b.Working().Steps
	if got, _ := steps.Find("first"); got.Number != first.Degrees() {
		t.Errorf("%v on the bow first, want %v", got.Value, first)
	}
	if got, _ := steps.Find("second"); got.Number != second.Degrees() {
		t.Errorf("%v on the bow second, want %v", got.Value, second)
	}
}

// tbFactors returns the distances off and abeam for a run of 1, as tables give them.
func tbFactors(b fix.TwoBearings, run sailing.Distance) (second, abeam float64) {
	return float64(b.Distance / run), float64(b.Abeam / run)
}

// tbWorked returns the distances by two angles on the bow.
func tbWorked(t interface{ Fatal(...any) }, first, second angle.Angle, run sailing.Distance) fix.TwoBearings {
	b, err := fix.ByTwoBearings(first, second, run)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// The American Practical Navigator (Bowditch), Pub. No. 9, editions 1958 to 2002,
// table of distance of an object by two bearings: from memory, and accepted because
// the rule gives the same.
func TestTwoBearingsTable(t *testing.T) {
	for _, c := range [][4]float64{{30, 60, 1.0, 0.87}, {45, 90, 1.0, 1.0}, {60, 120, 1.0, 0.87}, {26, 51, 1.04, 0.81}} {
		b := tbWorked(t, tbDegrees(c[0]), tbDegrees(c[1]), plMile)
		second, abeam := tbFactors(b, plMile)
		if !fixtest.Near(second, c[2], 0.005) || !fixtest.Near(abeam, c[3], 0.005) { // half a unit of the last printed figure
			t.Errorf("%v and %v: %.4f and %.4f, want %v and %v", c[0], c[1], second, abeam, c[2], c[3])
		}
	}
}

// The example of the explanation of that table, editions 1977 to 2002, from memory:
// course 050°, 15 knots, a light bears 024° at 1130 and 359° at 1140.
func TestTwoBearingsTableExample(t *testing.T) {
	cmg := angle.MustParseTrue("050°T")
	b := tbWorked(t, angle.MustParseTrue("024°T").Sub(cmg), angle.MustParseTrue("359°T").Sub(cmg), 2.5*plMile)
	tbOnBow(t, b, 26*angle.Degree, 51*angle.Degree)
	if !fixtest.Near(b.Distance.NauticalMiles(), 2.6, 0.05) || !fixtest.Near(b.Abeam.NauticalMiles(), 2.0, 0.06) { // half a unit; the abeam one is worked there by the factor 0.81
		t.Errorf("%v off and %v abeam, want 2.6 and 2.0 M", b.Distance, b.Abeam)
	}
}

// Draper, Lectures in Navigation, Officers' Material School, US Naval Auxiliary
// Reserve, 1918, Week I, Saturday lecture: a light bears NNW, after 9 miles NW; and
// the pairs of points for which the distance run is the distance off.
func TestDoublingTheAngleLecture(t *testing.T) {
	north := angle.MustParseTrue("000°T")
	b := tbWorked(t, angle.MustParseTrue("337.5°T").Sub(north), angle.MustParseTrue("315°T").Sub(north), 9*plMile)
	tbOnBow(t, b, 2*angle.Point, 4*angle.Point)
	if !fixtest.Near(b.Distance.NauticalMiles(), 9, 0.01) { // half a unit of the last printed figure
		t.Errorf("%v off, want 9 M", b.Distance)
	}
	for _, pair := range [][2]angle.Angle{{2, 4}, {3, 6}, {4, 8}} {
		b := tbWorked(t, pair[0]*angle.Point, pair[1]*angle.Point, 5*plMile)
		if second, _ := tbFactors(b, 5*plMile); !fixtest.Near(second, 1, 1e-12) { // the machine's rounding
			t.Errorf("%d and %d points: %v of the run", pair[0], pair[1], second)
		}
	}
}

// Bowditch, editions 1914 to 1958, pairs of angles for which the run is the distance
// abeam: from memory, and accepted because the rule gives the same; the second angle
// is printed to a quarter of a degree.
func TestPairsWithRunEqualToDistanceAbeam(t *testing.T) {
	for _, pair := range [][2]float64{{20, 29.75}, {22, 34}, {25, 41}, {27, 46}, {32, 59}, {35, 66.75}, {40, 79}, {44, 88}} {
		b := tbWorked(t, tbDegrees(pair[0]), tbDegrees(pair[1]), plMile)
		if _, abeam := tbFactors(b, plMile); !fixtest.Near(abeam, 1, 0.03) { // a quarter of a degree
			t.Errorf("%v: %v of the run", pair, abeam)
		}
		second, err := fix.AbeamPartner(tbDegrees(pair[0]))
		if err != nil || !fixtest.Near(second.Degrees(), pair[1], 0.3) { // a quarter of a degree, and its rounding
			t.Errorf("%v: the partner is %v (%v)", pair, second, err)
		}
	}
}

func TestRulesOfThumb(t *testing.T) {
	// Seven tenths, common practice: 22½° and 45°, abeam 0.7 of the run, after 0.7 of the run.
	b := tbWorked(t, tbDegrees(22.5), tbDegrees(45), plMile)
	if !fixtest.Near(b.Abeam.NauticalMiles(), 0.7, 0.01) || !fixtest.Near(b.ToAbeam.NauticalMiles(), 0.7, 0.01) { // a rule of thumb
		t.Errorf("%v abeam, after %v", b.Abeam.NauticalMiles(), b.ToAbeam)
	}
	// 26½° and 45°, common practice.
	if b = tbWorked(t, tbDegrees(26.5), tbDegrees(45), plMile); !fixtest.Near(b.Abeam.NauticalMiles(), 1, 0.01) { // a rule of thumb; exactly it is 26.565°
		t.Errorf("%v abeam", b.Abeam.NauticalMiles())
	}
	// Seven eighths: The American Practical Navigator, editions 1977 to 2002, special
	// cases of two bearings, from memory.
	if b = tbWorked(t, tbDegrees(30), tbDegrees(60), plMile); !fixtest.Near(b.Abeam.NauticalMiles(), 0.875, 0.01) { // a rule of thumb; exactly it is 0.866
		t.Errorf("%v abeam", b.Abeam.NauticalMiles())
	}
}

func TestTwoBearingsAgreeWithPlane(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		abeam, ahead := rapid.Float64Range(200, 20_000).Draw(t, "abeam"), rapid.Float64Range(-20_000, 20_000).Draw(t, "ahead")
		run := rapid.Float64Range(500, 20_000).Draw(t, "run")
		first, second := angle.Must(angle.Atan2(abeam, ahead)), angle.Must(angle.Atan2(abeam, ahead-run))
		if second-first < angle.Degree/2 {
			t.Skip("too near to each other for the nanosecond of arc")
		}
		b := tbWorked(t, first, second, sailing.Distance(run))
		for _, pair := range [][2]float64{{float64(b.Abeam), abeam}, {float64(b.Distance), math.Hypot(abeam, ahead-run)}, {float64(b.ToAbeam), ahead - run}} {
			if !fixtest.Near(pair[0], pair[1], 0.001) { // the nanosecond of arc, over the sine of half a degree
				t.Fatalf("%v, want %v", pair[0], pair[1])
			}
		}
	})
}

func TestPartnerAngles(t *testing.T) {
	for _, pair := range [][2]float64{{26.565051177, 45}, {45, 90}, {90, 135}} {
		if second, err := fix.AbeamPartner(tbDegrees(pair[0])); err != nil || !fixtest.Near(second.Degrees(), pair[1], 1e-6) { // the digits of the first
			t.Errorf("%v: %v (%v), want %v", pair[0], second, err, pair[1])
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		first := tbDegrees(rapid.Float64Range(1, 134).Draw(t, "first"))
		second, err := fix.AbeamPartner(first)
		if err != nil {
			t.Fatal(err)
		}
		if b := tbWorked(t, first, second, plMile); !fixtest.Near(b.Abeam.NauticalMiles(), 1, 1e-6) { // the nanosecond of arc, over small angles
			t.Fatalf("%v and %v: %v abeam", first, second, b.Abeam.NauticalMiles())
		}
		if first < 90*angle.Degree {
			if b := tbWorked(t, first, 2*first, plMile); !fixtest.Near(b.Distance.NauticalMiles(), 1, 1e-9) { // the machine's rounding
				t.Fatalf("%v of the run", b.Distance.NauticalMiles())
			}
		}
	})
}

// An object on the port bow can't come to bear on the starboard bow (Knight, Sailing, 1889 and
// later, Fig. 48, as misprinted).
func TestBearingsOnBothBowsAreRefused(t *testing.T) {
	course := angle.MustParseTrue("348.75°T")
	first, second := angle.MustParseTrue("315°T").Sub(course), angle.MustParseTrue("045°T").Sub(course)
	_, err := fix.ByTwoBearings(first, second, 5*plMile)
	hzRefused(t, "both bows", err)
}

func TestInvalidAnglesOnBowAreRefused(t *testing.T) {
	for name, c := range map[string][3]float64{
		"first 0": {0, 40, 1}, "first 180": {180, 190, 1}, "second 180": {30, 180, 1}, "second less": {40, 30, 1}, "too near": {40, 40.01, 1},
		"no run": {30, 60, 0}, "run NaN": {30, 60, math.NaN()}, "run without end": {30, 60, math.Inf(1)}, "run back": {30, 60, -1},
	} {
		_, err := fix.ByTwoBearings(tbDegrees(c[0]), tbDegrees(c[1]), sailing.Distance(c[2])*plMile)
		hzRefused(t, name, err)
	}
	for _, bad := range []float64{0, -1, 135} {
		_, err := fix.AbeamPartner(tbDegrees(bad))
		hzRefused(t, "abeam", err)
	}
}

func TestTwoBearingsWorkingNamesRule(t *testing.T) {
	for rule, pair := range map[string][2]float64{
		"bow and beam (four-point) bearing: the run is the distance abeam":        {45, 90},
		"angle doubled on the bow: the run is the distance at the second bearing": {30, 60},
		"the run is the distance abeam":                                           {26.5, 45},
		"":                                                                        {30, 70},
	} {
		steps := tbWorked(t, tbDegrees(pair[0]), tbDegrees(pair[1]), 5*plMile).Working().Steps
		second, ok := steps.Find("second")
		if !ok || second.How != rule {
			t.Errorf("%v: %q, want %q", pair, second.How, rule)
		}
	}
	past := tbWorked(t, tbDegrees(60), tbDegrees(120), 5*plMile)
	if _, ok := past.Working().Steps.Find("to abeam"); ok || past.ToAbeam >= 0 {
		t.Error("a run to abeam where it is past")
	}
	text := tbWorked(t, tbDegrees(30), tbDegrees(60), 5*plMile).Working().String()
	for _, want := range []string{"First angle on the bow", "Distance off", "5.0 M", "Run to abeam", "2.5 M"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
}
