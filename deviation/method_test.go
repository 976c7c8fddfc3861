package deviation_test

import (
	"errors"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// mthDraw draws a variation of either sign and headings for a swing.
func mthDraw(t *rapid.T) (variation.Variation, []angle.Compass) {
	v := variation.East(drawBetween(t, -60*deg, 60*deg, "variation")).WithUncertainty(Sigma(3 * minute))
	var headings []angle.Compass
	for range rapid.IntRange(1, 12).Draw(t, "readings") {
		headings = append(headings, angle.CompassFrom(drawHeading(t, "heading")))
	}
	return v, headings
}

// mthCheck checks that a swing gave the usual compass back, with the readings'
// own uncertainty of 4′, and that its workings add up and name rightly.
func mthCheck(t *rapid.T, swing *deviation.Swing, headings []angle.Compass) {
	t.Helper()
	if len(swing.Observations) != len(headings) {
		t.Fatalf("%d observations of %d readings", len(swing.Observations), len(headings))
	}
	for i, o := range swing.Observations {
		if want := swgUsual(headings[i]).WithUncertainty(Sigma(4 * minute)); o.Heading != headings[i] || o.Deviation != want {
			t.Fatalf("on %v: %v %v, want %v", o.Heading, o.Deviation, o.Deviation.Uncertainty(), want)
		}
		if o.Magnetic() != o.Deviation.Magnetic(o.Heading) {
			t.Fatalf("on %v: magnetic %v", o.Heading, o.Magnetic())
		}
		d := swgNumber(t, o.Working, "deviation")
		if !swgSame(swgNumber(t, o.Working, "magnetic")-swgNumber(t, o.Working, "compass"), d) || !swgSame(d, o.Deviation.Degrees()) {
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
		m := deviation.Transit{Direction: angle.TrueFrom(drawHeading(t, "transit")), Uncertainty: Sigma(4 * minute), Variation: v}
		var readings []deviation.Reading
		for _, c := range headings {
			readings = append(readings, deviation.Reading{Heading: new(c), Bearing: new(swgUsual(c).Compass(v.Magnetic(m.Direction))), Uncertainty: Sigma(4 * minute)})
		}
		swing, err := deviation.Reduce(readings, m)
		if err != nil {
			t.Fatal(err)
		}
		mthCheck(t, swing, headings)
		if swing.Common != Sigma(5*minute) { // 3 and 4 make 5
			t.Fatalf("common %v", swing.Common)
		}
		if !swgSame(swgNumber(t, swing.Steps, "true")-swgNumber(t, swing.Steps, "variation"), swgNumber(t, swing.Steps, "magnetic")) {
			t.Fatalf("true less variation is not magnetic:\n%v", swing.Steps)
		}
		if swing.Method != "a transit of known direction" || len(swing.Warnings) != 0 {
			t.Fatalf("%q, %v", swing.Method, swing.Warnings)
		}
	})
}

func TestTrueHeadingsGiveTheDeviationsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v, headings := mthDraw(t)
		var readings []deviation.Reading
		for _, c := range headings {
			readings = append(readings, deviation.Reading{Heading: new(c), True: new(v.True(swgUsual(c).Magnetic(c))), Uncertainty: Sigma(4 * minute)})
		}
		swing, err := deviation.Reduce(readings, deviation.TrueHeadings{Uncertainty: Sigma(4 * minute), Variation: v})
		if err != nil {
			t.Fatal(err)
		}
		mthCheck(t, swing, headings)
		if swing.Common != Sigma(5*minute) { // 3 and 4 make 5
			t.Fatalf("common %v", swing.Common)
		}
		for _, o := range swing.Observations {
			if !swgSame(swgNumber(t, o.Working, "true")-swgNumber(t, o.Working, "variation"), swgNumber(t, o.Working, "magnetic")) {
				t.Fatalf("true less variation is not magnetic:\n%v", o.Working)
			}
		}
	})
}

func TestACompassAshoreGivesTheDeviationsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		_, headings := mthDraw(t)
		var readings []deviation.Reading
		for _, c := range headings {
			shore := angle.MagneticFrom(drawHeading(t, "from ashore"))
			readings = append(readings, deviation.Reading{Heading: new(c), Shore: new(shore), Bearing: new(swgUsual(c).Compass(shore.Reciprocal())), Uncertainty: Sigma(4 * minute)})
		}
		swing, err := deviation.Reduce(readings, deviation.ShoreCompass{Uncertainty: Sigma(7 * minute)})
		if err != nil {
			t.Fatal(err)
		}
		mthCheck(t, swing, headings)
		if swing.Common != Sigma(7*minute) {
			t.Fatalf("common %v", swing.Common)
		}
		for i, o := range swing.Observations {
			if !swgSame(swgNumber(t, o.Working, "shore"), readings[i].Shore.Degrees()) || !swgSame(swgNumber(t, o.Working, "shore")+180, swgNumber(t, o.Working, "magnetic")) {
				t.Fatalf("the reciprocal is not what is compared:\n%v", o.Working)
			}
		}
	})
}

// The second compass errs anew on each heading: what is known of its deviation
// goes to each observation, and nothing is left that all of them share.
func TestASecondCompassGivesTheDeviationsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		_, headings := mthDraw(t)
		table := mustTable(t, drawOrdered(t, 15*deg, 20*deg)).WithUncertainty(Sigma(4 * minute))
		var readings []deviation.Reading
		for _, c := range headings {
			m := swgUsual(c).Magnetic(c)
			d, err := table.OnMagnetic(m)
			if err != nil {
				t.Fatal(err)
			}
			readings = append(readings, deviation.Reading{Heading: new(c), Other: new(d.Compass(m)), Uncertainty: Sigma(3 * minute)})
		}
		swing, err := deviation.Reduce(readings, deviation.SecondCompass{Deviation: table})
		if err != nil {
			t.Fatal(err)
		}
		if swing.Common != Sigma(0) || swing.Method != "a second compass of known deviation" {
			t.Fatalf("common %v, %q", swing.Common, swing.Method)
		}
		for i, o := range swing.Observations {
			// The table solves for a heading to a unit of Angle or few.
			if off := o.Deviation.Angle() - swgUsual(headings[i]).Angle(); off.Abs() > angle.Second/1000 {
				t.Fatalf("on %v: %v, off by %v", o.Heading, o.Deviation, off)
			}
			if o.Deviation.Uncertainty() != Sigma(5*minute) { // 3 and 4 make 5
				t.Fatalf("on %v: %v", o.Heading, o.Deviation.Uncertainty())
			}
			if !swgSame(swgNumber(t, o.Working, "other")+swgNumber(t, o.Working, "other deviation"), swgNumber(t, o.Working, "magnetic")) {
				t.Fatalf("the other heading and its deviation are not magnetic:\n%v", o.Working)
			}
			if step, _ := o.Working.Find("other deviation"); step.What != "Its deviation" {
				t.Fatalf("%q", step.What)
			}
		}
	})
}

// mthErrs is a source that has no answer on one heading.
type mthErrs struct{ on angle.Compass }

var errMth = errors.New("the card is torn there")

func (s mthErrs) OnCompass(c angle.Compass) (deviation.Deviation, error) {
	if c == s.on {
		return deviation.Deviation{}, errMth
	}
	return deviation.East(deg).WithUncertainty(Sigma(deg)), nil
}

func (s mthErrs) OnMagnetic(m angle.Magnetic) (deviation.Deviation, error) {
	if m.FromNorth() == s.on.FromNorth() {
		return deviation.Deviation{}, errMth
	}
	return deviation.East(deg).WithUncertainty(Sigma(deg)), nil
}

func TestASecondCompassWithoutAnAnswerIsRefused(t *testing.T) {
	readings := []deviation.Reading{
		{Heading: new(angle.MustParseCompass("000")), Other: new(angle.MustParseCompass("003"))},
		{Heading: new(angle.MustParseCompass("045")), Other: new(angle.MustParseCompass("046"))},
	}
	_, err := deviation.Reduce(readings, deviation.SecondCompass{})
	if e, ok := errors.AsType[*deviation.ReadingError](err); !ok || e.Index != -1 || !strings.Contains(err.Error(), "the second compass: no source of deviation") {
		t.Errorf("no source: %v", err)
	}
	_, err = deviation.Reduce(readings, deviation.SecondCompass{Deviation: mthErrs{*readings[1].Other}})
	if e, ok := errors.AsType[*deviation.ReadingError](err); !ok || e.Index != 1 || e.Heading != *readings[1].Heading || !errors.Is(err, errMth) ||
		err.Error() != "deviation: swing: reading 2, on 045°C: the card is torn there" {
		t.Errorf("%v", err)
	}
	// A source that explains nothing is named as given.
	swing, err := deviation.Reduce(readings[:1], deviation.SecondCompass{Deviation: mthErrs{}})
	if err != nil {
		t.Fatal(err)
	}
	if s, _ := swing.Observations[0].Working.Find("other deviation"); s.How != "as given" || swing.Observations[0].Deviation.Angle() != 4*deg {
		t.Errorf("%v", swing.Observations[0])
	}
}

func TestStatedDeviationsStayAsTheyAre(t *testing.T) {
	d := deviation.West(2 * deg).WithUncertainty(Sigma(deg))
	swing, err := deviation.Reduce([]deviation.Reading{
		{Heading: new(angle.MustParseCompass("000")), Deviation: new(d)},
		{Heading: new(angle.MustParseCompass("090")), Deviation: new(d), Uncertainty: Sigma(minute)},
	}, deviation.StatedDeviations{})
	if err != nil {
		t.Fatal(err)
	}
	if a, b := swing.Observations[0], swing.Observations[1]; a.Deviation != d || b.Deviation != d.WithUncertainty(Sigma(minute)) || swing.Common != Sigma(0) {
		t.Errorf("%v, %v, common %v", a, b, swing.Common)
	}
	if s, _ := swing.Observations[1].Working.Find("deviation"); s.Value != "2°00′W" || s.How != "as recorded on heading 090°C" {
		t.Errorf("%+v", s)
	}
}

func TestTheVariationIsAppliedByItsName(t *testing.T) {
	for _, c := range []struct {
		v   variation.Variation
		how string
	}{
		{variation.East(5 * deg), "east: magnetic is less than true"},
		{variation.West(5 * deg), "west: magnetic is greater than true"},
		{variation.East(0), "nothing to apply"},
	} {
		readings, transit := swgTransit(8, Sigma(0), Sigma(0), c.v)
		swing, err := deviation.Reduce(readings, transit)
		if err != nil {
			t.Fatal(err)
		}
		if s, _ := swing.Steps.Find("variation"); s.How != c.how {
			t.Errorf("%v: %q", c.v, s.How)
		}
		if _, stated := swing.Common.Sigma(); stated {
			t.Errorf("%v: %v is stated, and the variation's is not", c.v, swing.Common)
		}
	}
	// No deviation has no rule for its name.
	swing, err := deviation.Reduce([]deviation.Reading{{Heading: new(angle.Compass{}), Bearing: new(angle.MustParseCompass("100"))}}, deviation.Transit{Direction: angle.MustParseTrue("100"), Variation: variation.East(0)})
	if err != nil {
		t.Fatal(err)
	}
	if s, _ := swing.Observations[0].Working.Find("deviation"); !strings.HasPrefix(s.How, "compass and magnetic agree") {
		t.Errorf("%+v", s)
	}
}
