package swing_test

import (
	"errors"
	"strings"
	"testing"

	"lubberline.example/deviation/internal/devtest"
	"lubberline.example/deviation/swing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// mthDraw draws a variation of either sign and headings for a swing.
func mthDraw(t *rapid.T) (variation.Variation, []angle.Compass) {
	v := variation.East(devtest.DrawBetween(t, -60*devtest.Deg, 60*devtest.Deg, "variation")).WithUncertainty(devtest.Sigma(3 * devtest.Minute))
	var headings []angle.Compass
	for range rapid.IntRange(1, 12).Draw(t, "readings") {
		headings = append(headings, angle.CompassFrom(devtest.DrawHeading(t, "heading")))
	}
	return v, headings
}

// mthCheck checks that a swing gave the usual compass back, with the readings'
// own uncertainty of 4′, and that its workings add up and name rightly.
func mthCheck(t *rapid.T, swung *swing.Swing, headings []angle.Compass) {
	t.Helper()
	if len(swung.Observations) != len(headings) {
		t.Fatalf("%d observations of %d readings", len(swung.Observations), len(headings))
	}
	for i, o := range swung.Observations {
		if want := devtest.UsualOn(headings[i]).WithUncertainty(devtest.Sigma(4 * devtest.Minute)); o.Heading != headings[i] || o.Deviation != want {
			t.Fatalf("on %v: %v %v, want %v", o.Heading, o.Deviation, o.Deviation.Uncertainty(), want)
		}
		d := devtest.Number(t, o.Working, "deviation")
		if !devtest.SameDegrees(devtest.Number(t, o.Working, "magnetic")-devtest.Number(t, o.Working, "compass"), d) || !devtest.SameDegrees(d, o.Deviation.Degrees()) {
			t.Fatalf("on %v magnetic less compass is not the deviation:\n%v", o.Heading, o.Working)
		}
		step, _ := o.Working.Find("deviation")
		name, rule := "E", "compass least: deviation is east"
		switch angle := o.Deviation.Angle(); {
		case angle < 0:
			name, rule = "W", "compass best: deviation is west"
		case angle == 0:
			rule = "compass and magnetic agree"
		}
		if !strings.HasSuffix(step.Value, name) || !strings.HasPrefix(step.How, rule) || !strings.HasSuffix(step.How, o.Heading.String()) {
			t.Fatalf("%v is named %q, %q", d, step.Value, step.How)
		}
	}
}

func TestATransitGivesTheDeviationsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v, headings := mthDraw(t)
		m := swing.Transit{Direction: angle.TrueFrom(devtest.DrawHeading(t, "transit")), Uncertainty: devtest.Sigma(4 * devtest.Minute), Variation: v}
		var readings []swing.Reading
		for _, c := range headings {
			readings = append(readings, swing.Reading{Heading: new(c), Bearing: new(devtest.UsualOn(c).Compass(v.Magnetic(m.Direction))), BearingBy: swing.SwungCompass, Uncertainty: devtest.Sigma(4 * devtest.Minute)})
		}
		swung, err := swing.Reduce(readings, m)
		if err != nil {
			t.Fatal(err)
		}
		mthCheck(t, swung, headings)
		if swung.Common != devtest.Sigma(5*devtest.Minute) { // 3 and 4 make 5
			t.Fatalf("common %v", swung.Common)
		}
		if !devtest.SameDegrees(devtest.Number(t, swung.Steps, "true")-devtest.Number(t, swung.Steps, "variation"), devtest.Number(t, swung.Steps, "magnetic")) {
			t.Fatalf("true less variation is not magnetic:\n%v", swung.Steps)
		}
		if swung.Method != "a transit of known direction" || len(swung.Warnings) != 0 {
			t.Fatalf("%q, %v", swung.Method, swung.Warnings)
		}
	})
}

func TestTrueHeadingsGiveTheDeviationsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v, headings := mthDraw(t)
		var readings []swing.Reading
		for _, c := range headings {
			readings = append(readings, swing.Reading{Heading: new(c), True: new(v.True(devtest.UsualOn(c).Magnetic(c))), Uncertainty: devtest.Sigma(4 * devtest.Minute)})
		}
		swung, err := swing.Reduce(readings, swing.TrueHeadings{Uncertainty: devtest.Sigma(4 * devtest.Minute), Variation: v})
		if err != nil {
			t.Fatal(err)
		}
		mthCheck(t, swung, headings)
		if swung.Common != devtest.Sigma(5*devtest.Minute) { // 3 and 4 make 5
			t.Fatalf("common %v", swung.Common)
		}
		for _, o := range swung.Observations {
			if !devtest.SameDegrees(devtest.Number(t, o.Working, "true")-devtest.Number(t, o.Working, "variation"), devtest.Number(t, o.Working, "magnetic")) {
				t.Fatalf("true less variation is not magnetic:\n%v", o.Working)
			}
		}
	})
}

func TestACompassAshoreGivesTheDeviationsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		_, headings := mthDraw(t)
		var readings []swing.Reading
		for _, c := range headings {
			shore := angle.MagneticFrom(devtest.DrawHeading(t, "from ashore"))
			readings = append(readings, swing.Reading{Heading: new(c), Shore: new(shore), Bearing: new(devtest.UsualOn(c).Compass(shore.Reciprocal())), BearingBy: swing.SwungCompass, Uncertainty: devtest.Sigma(4 * devtest.Minute)})
		}
		swung, err := swing.Reduce(readings, swing.ShoreCompass{Uncertainty: devtest.Sigma(7 * devtest.Minute)})
		if err != nil {
			t.Fatal(err)
		}
		mthCheck(t, swung, headings)
		if swung.Common != devtest.Sigma(7*devtest.Minute) {
			t.Fatalf("common %v", swung.Common)
		}
		for i, o := range swung.Observations {
			if !devtest.SameDegrees(devtest.Number(t, o.Working, "shore"), readings[i].Shore.Degrees()) || !devtest.SameDegrees(devtest.Number(t, o.Working, "shore")+180, devtest.Number(t, o.Working, "magnetic")) {
				t.Fatalf("the reciprocal is not what is compared:\n%v", o.Working)
			}
		}
	})
}

// The error of the second compass is new on each heading: the uncertainty of its deviation
// goes to each observation, and nothing is left that all of them share.
func TestASecondCompassGivesTheDeviationsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		_, headings := mthDraw(t)
		table := devtest.MustTable(t, devtest.DrawOrdered(t, 15*devtest.Deg, 20*devtest.Deg)).WithUncertainty(devtest.Sigma(4 * devtest.Minute))
		var readings []swing.Reading
		for _, c := range headings {
			m := devtest.UsualOn(c).Magnetic(c)
			d, err := table.OnMagnetic(m)
			if err != nil {
				t.Fatal(err)
			}
			readings = append(readings, swing.Reading{Heading: new(c), Other: new(d.Compass(m)), Uncertainty: devtest.Sigma(3 * devtest.Minute)})
		}
		swung, err := swing.Reduce(readings, swing.SecondCompass{Deviation: table})
		if err != nil {
			t.Fatal(err)
		}
		if swung.Common != devtest.Sigma(0) || swung.Method != "a second compass of known deviation" {
			t.Fatalf("common %v, %q", swung.Common, swung.Method)
		}
		for i, o := range swung.Observations {
			// The table solves for a heading to a unit of Angle or few.
			if off := o.Deviation.Angle() - devtest.UsualOn(headings[i]).Angle(); off.Abs() > angle.Second/1000 {
				t.Fatalf("on %v: %v, off by %v", o.Heading, o.Deviation, off)
			}
			if o.Deviation.Uncertainty() != devtest.Sigma(5*devtest.Minute) { // 3 and 4 make 5
				t.Fatalf("on %v: %v", o.Heading, o.Deviation.Uncertainty())
			}
			if !devtest.SameDegrees(devtest.Number(t, o.Working, "other")+devtest.Number(t, o.Working, "other deviation"), devtest.Number(t, o.Working, "magnetic")) {
				t.Fatalf("the other heading and its deviation are not magnetic:\n%v", o.Working)
			}
			if step, _ := o.Working.Find("other deviation"); step.What != "Its deviation" {
				t.Fatalf("%q", step.What)
			}
		}
	})
}

func TestSecondCompassWithoutAnswer(t *testing.T) {
	readings := []swing.Reading{
		{Heading: new(angle.MustParseCompass("000")), Other: new(angle.MustParseCompass("003"))},
		{Heading: new(angle.MustParseCompass("045")), Other: new(angle.MustParseCompass("046"))},
	}
	_, err := swing.Reduce(readings, swing.SecondCompass{})
	if e, ok := errors.AsType[*swing.Error](err); !ok || e.Index != -1 || !strings.Contains(err.Error(), "the second compass: no source of deviation") {
		t.Errorf("no source: %v", err)
	}
	_, err = swing.Reduce(readings, swing.SecondCompass{Deviation: devtest.Torn{On: *readings[1].Other}})
	if e, ok := errors.AsType[*swing.Error](err); !ok || e.Index != 1 || e.Heading != *readings[1].Heading || !errors.Is(err, devtest.ErrTorn) ||
		err.Error() != "deviation: swing: reading 2, on 045°C: the card is torn there" {
		t.Errorf("%v", err)
	}
	// A source that explains nothing is named as given.
	swung, err := swing.Reduce(readings[:1], swing.SecondCompass{Deviation: devtest.Torn{}})
	if err != nil {
		t.Fatal(err)
	}
	if s, _ := swung.Observations[0].Working.Find("other deviation"); s.How != "as given" || swung.Observations[0].Deviation.Angle() != 4*devtest.Deg {
		t.Errorf("%v", swung.Observations[0])
	}
}

func TestStatedDeviationsStayAsTheyAre(t *testing.T) {
	d := deviation.West(2 * devtest.Deg).WithUncertainty(devtest.Sigma(devtest.Deg))
	swung, err := swing.Reduce([]swing.Reading{
		{Heading: new(angle.MustParseCompass("000")), Deviation: new(d)},
		{Heading: new(angle.MustParseCompass("090")), Deviation: new(d), Uncertainty: devtest.Sigma(devtest.Minute)},
	}, swing.StatedDeviations{})
	if err != nil {
		t.Fatal(err)
	}
	if a, b := swung.Observations[0], swung.Observations[1]; a.Deviation != d || b.Deviation != d.WithUncertainty(devtest.Sigma(devtest.Minute)) || swung.Common != devtest.Sigma(0) {
		t.Errorf("%v, %v, common %v", a, b, swung.Common)
	}
	if s, _ := swung.Observations[1].Working.Find("deviation"); s.Value != "2°00′W" || s.How != "as recorded on heading 090°C" {
		t.Errorf("%+v", s)
	}
}

func TestTheVariationIsAppliedByItsName(t *testing.T) {
	for _, c := range []struct {
		v   variation.Variation
		how string
	}{
		{variation.East(5 * devtest.Deg), "east: magnetic is less than true"},
		{variation.West(5 * devtest.Deg), "west: magnetic is greater than true"},
		{variation.East(0), "nothing to apply"},
	} {
		readings, transit := devtest.TransitSwing(8, devtest.Sigma(0), devtest.Sigma(0), c.v)
		swung, err := swing.Reduce(readings, transit)
		if err != nil {
			t.Fatal(err)
		}
		if s, _ := swung.Steps.Find("variation"); s.How != c.how {
			t.Errorf("%v: %q", c.v, s.How)
		}
		if _, stated := swung.Common.Sigma(); stated {
			t.Errorf("%v: %v is stated, and the variation's is not", c.v, swung.Common)
		}
	}
	// No deviation has no rule for its name.
	swung, err := swing.Reduce([]swing.Reading{{Heading: new(angle.Compass{}), Bearing: new(angle.MustParseCompass("100"))}}, swing.Transit{Direction: angle.MustParseTrue("100"), Variation: variation.East(0)})
	if err != nil {
		t.Fatal(err)
	}
	if s, _ := swung.Observations[0].Working.Find("deviation"); !strings.HasPrefix(s.How, "compass and magnetic agree") {
		t.Errorf("%+v", s)
	}
}
