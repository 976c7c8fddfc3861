package check_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"lubberline.example/deviation/check"
	"lubberline.example/deviation/internal/devtest"
	"lubberline.example/deviation/swing"

	"lubberline.example/angle"
	"lubberline.example/deviation"
	"lubberline.example/deviation/sky"
	"lubberline.example/variation"
)

// A forgotten heading or bearing would be 000°: it is refused.
func TestHeadingOrBearingLeftOutIsRefused(t *testing.T) {
	for what, r := range map[string]check.Reading{
		"heading": {Bearing: new(angle.CompassFrom(0))},
		"bearing": {Heading: new(angle.CompassFrom(0))},
	} {
		r.Time, r.Variation = devtest.Noon, variation.West(5*devtest.Deg)
		_, err := r.Against("a transit", angle.MustParseTrue("062"), devtest.Sigma(0))
		missing(t, "transit", err, what)
		_, err = r.AgainstSun(devtest.Place)
		missing(t, "Sun", err, what)
		_, err = r.AgainstAmplitude(sky.Set, sky.CelestialHorizon, devtest.Place, 0)
		missing(t, "amplitude", err, what)
	}
}

// slipReasons are the reasons of the review of slipLog.
func slipReasons(t *testing.T, last check.Check) string {
	t.Helper()
	return devtest.Texts(slipReview(t, last).Reasons)
}

// slipLog is what a review makes of a check that follows four good ones.
func slipLog(t *testing.T, last check.Check) check.Difference {
	t.Helper()
	return slipReview(t, last).Differences[4]
}

// slipReview reviews four good checks, of a compass as the card has it, and one more.
func slipReview(t *testing.T, last check.Check) check.Review {
	t.Helper()
	checks := []check.Check{rvwStated(0, devtest.Usual(0), 0.5), rvwStated(90, devtest.Usual(90*devtest.Deg)+0.2, 0.5), rvwStated(180, devtest.Usual(180*devtest.Deg)-0.2, 0.5), rvwStated(300, devtest.Usual(300*devtest.Deg), 0.5), last}
	r, err := check.ReviewCard(devtest.MustTable(t, devtest.Every15(devtest.Usual)).WithUncertainty(devtest.Sigma(18*devtest.Minute)), checks)
	if err != nil || r.Verdict == check.SwingAgain || !r.Differences[4].LeftOut {
		t.Fatalf("%v, %v: %q", r.Verdict, err, r.Reasons)
	}
	if reasons := devtest.Texts(r.Reasons); len(r.Differences[4].Slips) > 0 && !strings.Contains(reasons, "perhaps ") {
		t.Error(reasons)
	}
	return r
}

// What was done to a bearing, to the columns or to the variation is named.
func TestSlipOfACheckIsNamed(t *testing.T) {
	heading, v := angle.MustParseCompass("230"), variation.West(6*devtest.Deg).WithUncertainty(devtest.Sigma(15*devtest.Minute))
	d := deviation.East(devtest.Degrees(devtest.Usual(heading.FromNorth())))
	should := d.Compass(v.Magnetic(angle.MustParseTrue("100")))
	for slip, r := range map[swing.Slip]check.Reading{
		swing.ReciprocalTaken:   {Heading: &heading, Bearing: new(should.Reciprocal()), Variation: v},
		swing.TensMisread:       {Heading: &heading, Bearing: new(should.Add(20 * devtest.Deg)), Variation: v},
		swing.VariationMisnamed: {Heading: &heading, Bearing: &should, Variation: variation.East(6 * devtest.Deg).WithUncertainty(devtest.Sigma(15 * devtest.Minute))},
		swing.ColumnsExchanged:  {Heading: &should, Bearing: &heading, Variation: v},
		swing.RelativeTaken:     {Heading: &heading, Bearing: new(should.Add(-heading.FromNorth())), Variation: v},
		swing.MagneticForTrue:   {Heading: &heading, Bearing: new(d.Compass(angle.MustParseMagnetic("100"))), Variation: v},
	} {
		if slip == swing.ColumnsExchanged { // the deviation is that of the heading
			other := deviation.East(devtest.Degrees(devtest.Usual(heading.FromNorth()))).Compass(v.Magnetic(angle.MustParseTrue("100")))
			r.Heading = &other
		}
		r.Uncertainty = devtest.Sigma(devtest.Deg / 2)
		c := against(t, r, "a transit", angle.MustParseTrue("100"), devtest.Sigma(0))
		if got := slipLog(t, c); !slices.Contains(got.Slips, slip) {
			t.Errorf("%s: found %q, deviation %v, card %v", slip, got.Slips, c.Deviation, got.Card)
		}
	}
}

// A wrong hour, a slow watch, the other side of Greenwich, the other hemisphere and another
// day each leave their own error in a bearing of the Sun. Each is named.
func TestClockErrorOfASunCheckIsNamed(t *testing.T) {
	place := angle.MustParsePosition("38°N 047°W")
	at := time.Date(2026, 5, 3, 18, 0, 0, 0, time.UTC)
	heading, v := angle.MustParseCompass("230"), variation.West(12*devtest.Deg).WithUncertainty(devtest.Sigma(15*devtest.Minute))
	truth := angle.Must(sky.Sun(at)).From(place).Azimuth
	bearing := deviation.East(devtest.Degrees(devtest.Usual(heading.FromNorth()))).Compass(v.Magnetic(truth))
	for name, c := range map[string]struct {
		slip  swing.Slip
		time  time.Time
		place angle.Position
		says  string
	}{
		"summer time":        {swing.HourOff, at.Add(time.Hour), place, "the time is 1 hour fast"},
		"an hour slow":       {swing.HourOff, at.Add(-time.Hour), place, "the time is 1 hour slow"},
		"zone time":          {swing.HourOff, at.Add(-3 * time.Hour), place, "zone time, UTC-3, was written as UTC"},
		"a slow watch":       {swing.WatchOff, at.Add(-14 * time.Minute), place, "the watch is 14 min slow"},
		"a fast watch":       {swing.WatchOff, at.Add(14 * time.Minute), place, "the watch is 14 min fast"},
		"east of Greenwich":  {swing.LongitudeMisnamed, at, angle.MustParsePosition("38°N 047°E"), "the longitude is named the wrong way"},
		"south of the line":  {swing.LatitudeMisnamed, at, angle.MustParsePosition("38°S 047°W"), "the latitude is named the wrong way"},
		"March for May":      {swing.AnotherDay, time.Date(2026, 3, 5, 18, 0, 0, 0, time.UTC), place, "day and month are exchanged"},
		"a month before May": {swing.AnotherDay, time.Date(2026, 4, 3, 18, 0, 0, 0, time.UTC), place, "the date is a month early"},
	} {
		// By the almanac the Sun may have been down then: no check is worked, as it should be.
		checked, err := check.Reading{Time: c.time, Heading: &heading, Bearing: &bearing, Uncertainty: devtest.Sigma(devtest.Deg / 2), Variation: v}.AgainstSun(c.place)
		if err != nil {
			if !strings.Contains(err.Error(), c.says) {
				t.Errorf("%s: %v", name, err)
			}
			continue
		}
		got := slipLog(t, checked)
		if reasons := slipReasons(t, checked); !slices.Contains(got.Slips, c.slip) || !strings.Contains(reasons, c.says) {
			t.Errorf("%s: found %q; deviation %v, card %v", name, got.Slips, checked.Deviation, got.Card)
		}
	}
}

// Half an hour from sunset one end of the hour that is searched is in the night. A watch error that puts
// the Sun above the horizon is named, and one that puts it below is not: it gave no bearing there.
func TestWatchErrorBesideSunset(t *testing.T) {
	place := angle.MustParsePosition("47°N 019°W")
	set, err := sky.Next(sky.Set, place, time.Date(2026, 5, 3, 12, 0, 0, 0, time.UTC))
	if err != nil {
		t.Fatal(err)
	}
	heading, v := angle.MustParseCompass("230"), variation.West(12*devtest.Deg).WithUncertainty(devtest.Sigma(15*devtest.Minute))
	written := set.Add(-22 * time.Minute)
	for slow, named := range map[time.Duration]bool{20 * time.Minute: true, 29 * time.Minute: false} {
		truth := angle.Must(sky.Sun(written.Add(slow))).From(place).Azimuth
		bearing := deviation.East(devtest.Degrees(devtest.Usual(heading.FromNorth()))).Compass(v.Magnetic(truth))
		checked, err := check.Reading{Time: written, Heading: &heading, Bearing: &bearing, Uncertainty: devtest.Sigma(devtest.Deg / 2), Variation: v}.AgainstSun(place)
		if err != nil {
			t.Fatal(err)
		}
		if got := slipLog(t, checked); slices.Contains(got.Slips, swing.WatchOff) != named || named && !strings.Contains(slipReasons(t, checked), "the watch is 20 min slow") {
			t.Errorf("slow by %v: found %q, %s; deviation %v, card %v", slow, got.Slips, slipReasons(t, checked), checked.Deviation, got.Card)
		}
	}
}

// A relative bearing in the column of compass bearings gives an unlikely deviation: it is
// named before there is a card to compare with.
func TestUnusualDeviationIsWarnedOf(t *testing.T) {
	c := against(t, check.Reading{
		Heading: new(angle.MustParseCompass("310")), Bearing: new(angle.MustParseCompass("148")), Variation: variation.West(5 * devtest.Deg),
	}, "a transit", angle.MustParseTrue("095"), devtest.Sigma(0))
	if len(c.Warnings) != 2 || c.Warnings[1].Kind != check.LargeDeviation || !strings.Contains(c.Warnings[1].Message, "counted from the bow") {
		t.Errorf("%v: %q", c.Deviation, c.Warnings)
	}
}

// The time settles on which horizon the Sun stood: its centre takes four minutes and more
// from the one to the other.
func TestTimeSettlesTheHorizonOfAnAmplitude(t *testing.T) {
	place := angle.MustParsePosition("47°N 019°W")
	set, err := sky.Next(sky.Set, place, time.Date(2026, 5, 3, 12, 0, 0, 0, time.UTC))
	if err != nil {
		t.Fatal(err)
	}
	checked := func(at time.Time, horizon sky.Horizon) check.Check {
		t.Helper()
		c, err := check.Reading{Time: at, Heading: new(angle.CompassFrom(0)), Bearing: new(angle.MustParseCompass("300")), Variation: variation.West(5 * devtest.Deg)}.AgainstAmplitude(sky.Set, horizon, place, 3)
		if err != nil {
			t.Fatal(err)
		}
		return c
	}
	// The centre is on the celestial horizon five minutes before the upper limb sets, and
	// on the visible one about two.
	celestial, visible := set.Add(-5*time.Minute), set.Add(-90*time.Second)
	for _, c := range []struct {
		name    string
		at      time.Time
		horizon sky.Horizon
		warns   bool
		agrees  bool
	}{
		{"celestial in time", celestial, sky.CelestialHorizon, false, true},
		{"visible in time", visible, sky.VisibleHorizon, false, true},
		{"celestial, but visible by the time", visible, sky.CelestialHorizon, true, false},
		{"visible, but celestial by the time", celestial, sky.VisibleHorizon, true, false},
		{"the hour alone", set.Add(-40 * time.Minute), sky.CelestialHorizon, false, false},
	} {
		found := checked(c.at, c.horizon)
		step, _ := found.Steps.Find("amplitude")
		if devtest.Warned(found.Warnings, check.OtherHorizon) != c.warns || strings.Contains(step.How, "which agrees") != c.agrees {
			t.Errorf("%s: %q, %q", c.name, step.How, found.Warnings)
		}
	}
	// By the other horizon the deviation is what the warning says.
	wrong, right := checked(visible, sky.CelestialHorizon), checked(visible, sky.VisibleHorizon)
	off := (right.Deviation.Angle() - wrong.Deviation.Angle()).Degrees()
	if off < 0.5 || off > 1 || !strings.Contains(wrong.Warnings[0].Message, fmt.Sprintf("changes by %v", angle.EastWestFrom(devtest.Degrees(off).Round(angle.Degree/10)))) {
		t.Errorf("%v: %q", off, wrong.Warnings)
	}
}

// The ± of a check by the Sun holds that of the time, of the position and of the altitude:
// of 1 minute of time, near noon, half a degree and more.
func TestUncertaintyOfASunCheck(t *testing.T) {
	r := check.Reading{
		Time: time.Date(2026, 6, 21, 12, 30, 0, 0, time.UTC), Heading: new(angle.CompassFrom(0)), Bearing: new(angle.MustParseCompass("160")),
		Uncertainty: devtest.Sigma(devtest.Deg / 2), Variation: variation.West(5 * devtest.Deg).WithUncertainty(devtest.Sigma(0)),
	}
	known := func(r check.Reading) float64 {
		t.Helper()
		c, err := r.AgainstSun(devtest.Place)
		if err != nil {
			t.Fatal(err)
		}
		s, _ := c.Error.Uncertainty().Sigma()
		return s.Degrees()
	}
	assumed := known(r)
	r.TimeUncertainty, r.PositionUncertaintyMiles = 5*time.Second, 1 // what is assumed
	if stated := known(r); stated != assumed {
		t.Errorf("±%v° with 5 s and 1 M stated, ±%v° with them assumed", stated, assumed)
	}
	r.PositionUncertaintyMiles = 0
	r.TimeUncertainty = time.Minute
	minute := known(r)
	r.TimeUncertainty, r.PositionUncertaintyMiles = 0, 30
	far := known(r)
	if assumed < 0.6 || minute < assumed+0.05 || far < minute {
		t.Errorf("assumed ±%.2f°, time to a minute ±%.2f°, position to 30 M ±%.2f°", assumed, minute, far)
	}
	for _, bad := range []check.Reading{{TimeUncertainty: -time.Second}, {PositionUncertaintyMiles: -1}} {
		bad.Time, bad.Heading, bad.Bearing, bad.Variation = r.Time, r.Heading, r.Bearing, r.Variation
		if _, err := bad.AgainstSun(devtest.Place); err == nil {
			t.Errorf("%+v is accepted", bad)
		}
	}
}

// TestAnnualChangeOfACheckIsNamed makes sound checks with roses whose year or change is wrong.
func TestAnnualChangeOfACheckIsNamed(t *testing.T) {
	heading := angle.MustParseCompass("230")
	d := deviation.East(devtest.Degrees(devtest.Usual(heading.FromNorth())))
	bearing := d.Compass(variation.West(4 * devtest.Deg).Magnetic(angle.MustParseTrue("100")))
	for legend, says := range map[string]string{
		"7°00′W 1996 (6′E)": "",                                         // 4°W in 2026
		"1°00′W 1996 (6′W)": "",                                         // the same
		"4°00′W 1986 (6′W)": "without the annual change of 4°00′W",      // 8°W in 2026: the year should be 2026
		"6°00′W 2006 (6′W)": "4°00′E since the rose, was applied wrong", // 8°W: named E, it would be 4°W
	} {
		rose, err := variation.ParseLegend(legend)
		if err != nil {
			t.Fatal(err)
		}
		r := check.Reading{Time: devtest.Noon, Heading: &heading, Bearing: &bearing, Uncertainty: devtest.Sigma(devtest.Deg / 2), Variation: rose}
		c := against(t, r, "a transit", angle.MustParseTrue("100"), devtest.Sigma(0))
		c.Deviation = c.Deviation.WithUncertainty(devtest.Sigma(devtest.Deg / 2))
		c.Variation.EastWest = c.Variation.WithUncertainty(devtest.Sigma(devtest.Deg / 4)).EastWest
		if says == "" {
			if !devtest.Near(c.Deviation.Degrees(), d.Degrees(), 1e-6) { // rounding
				t.Errorf("%s: %v, want %v", legend, c.Deviation, d)
			}
			continue
		}
		if got := slipLog(t, c); !slices.Contains(got.Slips, swing.AnnualChangeWrong) {
			t.Errorf("%s: %q in\n%s", legend, got.Slips, slipReasons(t, c))
		}
	}
}

// TestBearingByAnotherCompassIsNoCheck gives bearings by a hand-bearing compass.
func TestBearingByAnotherCompassIsNoCheck(t *testing.T) {
	r := check.Reading{Heading: new(angle.MustParseCompass("090")), Bearing: new(angle.MustParseCompass("065")), Variation: variation.West(5 * devtest.Deg)}
	for by, says := range map[swing.BearingCompass]string{"": "", swing.SwungCompass: "", swing.AnotherCompass: "another compass aboard", "hand": `"hand" is not a compass of the bearing`} {
		r.BearingBy = by
		_, err := r.Against("a transit", angle.MustParseTrue("062"), angle.Uncertainty{})
		if (err == nil) != (says == "") || err != nil && !strings.Contains(err.Error(), says) {
			t.Errorf("%q: %v", by, err)
		}
	}
}
