package course_test

import (
	"errors"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/deviation"
	"lubberline.example/variation"
	"lubberline.example/wmm"
)

// everyWay converts north, given in each of the three ways.
func everyWay(w course.With) map[string]func() (course.Heading, error) {
	return map[string]func() (course.Heading, error){
		"true":     func() (course.Heading, error) { return course.FromTrue(angle.True{}, w) },
		"magnetic": func() (course.Heading, error) { return course.FromMagnetic(angle.Magnetic{}, w) },
		"compass":  func() (course.Heading, error) { return course.FromCompass(angle.Compass{}, w) },
	}
}

func TestMissingSourceIsRefused(t *testing.T) {
	for _, c := range []struct {
		name    string
		with    course.With
		missing []string // either, if both are
		message string
	}{
		{"variation", course.With{Deviation: deviation.None()}, []string{"variation"},
			"no source of variation: give a rose, a chart, a field model or a known variation; variation.East(0) if it is zero"},
		{"deviation", course.With{Variation: variation.East(0)}, []string{"deviation"},
			"no source of deviation: give a table, a curve or a known deviation; deviation.None() for a compass without deviation"},
		{"both", course.With{At: &offOrlesk, On: day}, []string{"variation", "deviation"}, ""},
	} {
		for from, convert := range everyWay(c.with) {
			h, err := convert()
			var missing *variation.MissingInputError
			if !errors.As(err, &missing) {
				t.Errorf("no %s, from %s: error %v, want a *MissingInputError", c.name, from, err)
				continue
			}
			if missing.What != c.missing[0] && missing.What != c.missing[len(c.missing)-1] {
				t.Errorf("no %s, from %s: missing %q", c.name, from, missing.What)
			}
			if c.message != "" && err.Error() != c.message {
				t.Errorf("no %s, from %s: message %q, want %q", c.name, from, err, c.message)
			}
			if h != (course.Heading{}) {
				t.Errorf("no %s, from %s: a heading with the error: %v", c.name, from, h.Working())
			}
		}
	}
}

var errSource = errors.New("the source has no answer there")

// silent is a source of both that has no answer.
type silent struct{}

func (silent) VariationAt(angle.Position, time.Time) (variation.Variation, error) {
	return variation.East(deg), errSource
}
func (silent) OnCompass(angle.Compass) (deviation.Deviation, error) {
	return deviation.East(deg), errSource
}
func (silent) OnMagnetic(angle.Magnetic) (deviation.Deviation, error) {
	return deviation.East(deg), errSource
}

func TestSourceErrorIsReturned(t *testing.T) {
	for name, w := range map[string]course.With{
		"variation": {Variation: silent{}, Deviation: deviation.None(), At: &offOrlesk, On: day},
		"deviation": {Variation: variation.East(0), Deviation: silent{}},
		"both":      {Variation: silent{}, Deviation: silent{}, At: &offOrlesk, On: day},
	} {
		for from, convert := range everyWay(w) {
			if h, err := convert(); !errors.Is(err, errSource) || h != (course.Heading{}) {
				t.Errorf("%s fails, from %s: got %v and a heading %v", name, from, err, h.Compass())
			}
		}
	}
}

func TestYearBeyondARoseIsRefused(t *testing.T) {
	w := course.With{Variation: orleskRose(), Deviation: quillon(), On: time.Date(1200, time.May, 1, 0, 0, 0, 0, time.UTC)}
	for from, convert := range everyWay(w) {
		_, err := convert()
		if y, ok := errors.AsType[*angle.RangeError](err); !ok || y.Value != 1200 {
			t.Errorf("from %s: error %v, want an *angle.RangeError for 1200", from, err)
		}
	}
}

// A missing date is not the year 1. It is an error if the source needs it.
func TestMissingDateIsRefused(t *testing.T) {
	rose := orleskRose()
	v := variation.West(4 * deg)
	for name, c := range map[string]struct {
		source variation.Source
		always bool
	}{
		"a known variation": {v, true}, "pointer to a variation": {&v, true}, "a rose": {rose, false}, "pointer to a rose": {&rose, false},
		"a chart": {orleskChart(t), false}, "your own source": {silent{}, false}, "a field model": {wmm.WMM2025(), false},
	} {
		for from, convert := range everyWay(course.With{Variation: c.source, Deviation: deviation.None(), At: &offOrlesk}) { // On forgotten
			_, err := convert()
			missing, is := errors.AsType[*variation.MissingInputError](err)
			if is == c.always || is && (missing.What != "date" || err.Error() != "no date: the variation depends on it; give the day of the passage") {
				t.Errorf("%s, from %s: %v", name, from, err)
			}
		}
	}
}

func TestPositionOutsideRosesIsRefused(t *testing.T) {
	chart := orleskChart(t)
	chart.Method = variation.Blended
	w := course.With{Variation: chart, Deviation: quillon(), On: day, At: new(angle.MustParsePosition("0°N 000°01′E"))}
	for from, convert := range everyWay(w) {
		_, err := convert()
		if e, ok := errors.AsType[*variation.Error](err); !ok || e.Kind != variation.OutsideRoses || e.Rose != "Braddle rose" {
			t.Errorf("far away, from %s: error %v, want a *variation.Error", from, err)
		}
	}
}

// constant is a caller's own source, the same everywhere and always.
type constant struct{}

func (constant) VariationAt(angle.Position, time.Time) (variation.Variation, error) {
	return variation.West(4 * deg), nil
}
func (constant) VariationNeeds() (position, date bool) { return false, false }

func TestOwnConstantNeedsNoPosition(t *testing.T) {
	for _, source := range []variation.Source{constant{}, new(constant)} {
		for from, convert := range everyWay(course.With{Variation: source, Deviation: deviation.None()}) {
			if h, err := convert(); err != nil || h.Variation() != variation.West(4*deg) {
				t.Errorf("from %s: %v, %v", from, h, err)
			}
		}
	}
}

func TestNilPointerIsNoSource(t *testing.T) {
	for what, w := range map[string]course.With{
		"variation": {Variation: (*variation.Rose)(nil), Deviation: deviation.None(), On: day},
		"deviation": {Variation: variation.East(0), Deviation: (*deviation.Deviation)(nil)},
	} {
		for from, convert := range everyWay(w) {
			_, err := convert()
			if e, ok := errors.AsType[*variation.MissingInputError](err); !ok || e.What != what {
				t.Errorf("%s, from %s: %v", what, from, err)
			}
		}
	}
}

// Changing the position after the conversion does not change the working.
func TestHeadingKeepsItsPosition(t *testing.T) {
	at, asked := offOrlesk, angle.Position{}
	var on time.Time
	h := given(t, "112T", course.With{Variation: placed{&asked, &on}, Deviation: deviation.None(), At: &at, On: day})
	before := h.Working().String()
	at = angle.Position{}
	if after := h.Working().String(); after != before || asked != offOrlesk {
		t.Errorf("asked at %v:\n%s", asked, after)
	}
}

// A missing position is not taken as 0° N 0° E.
func TestMissingPositionIsRefused(t *testing.T) {
	var at angle.Position
	var on time.Time
	rose := orleskRose()
	v := variation.West(4 * deg)
	for name, c := range map[string]struct {
		source     variation.Source
		everywhere bool
	}{
		"a known variation": {v, true}, "a rose": {rose, true}, "pointer to a variation": {&v, true}, "pointer to a rose": {&rose, true},
		"a chart": {orleskChart(t), false}, "your own source": {placed{&at, &on}, false}, "a field model": {wmm.WMM2025(), false},
	} {
		w := course.With{Variation: c.source, Deviation: deviation.None(), On: day} // At forgotten
		said := w
		said.At = new(angle.Position)
		for from, convert := range everyWay(w) {
			_, err := convert()
			missing, is := errors.AsType[*variation.MissingInputError](err)
			if is == c.everywhere || is && (missing.What != "position" || err.Error() != "no position: the variation depends on it; give the vessel's position") {
				t.Errorf("%s, from %s: %v", name, from, err)
			}
		}
		for from, convert := range everyWay(said) {
			if _, err := convert(); err != nil {
				t.Errorf("%s, from %s, at 0° N 0° E: %v", name, from, err)
			}
		}
	}
}

func TestAmbiguousCompassHeadingIsRefused(t *testing.T) {
	byCompass := course.With{Variation: variation.East(0), Deviation: wild(angle.CompassFrom)}
	byMagnetic := course.With{Variation: variation.East(0), Deviation: wild(angle.MagneticFrom)}

	_, err := course.FromMagnetic(angle.MagneticFrom(20*deg), byCompass)
	e, ok := errors.AsType[*deviation.AmbiguousHeadingError](err)
	if !ok || len(e.Magnetic) != 1 || e.Magnetic[0] != angle.MagneticFrom(20*deg) || len(e.Compass) < 2 {
		t.Fatalf("from magnetic: error %v, want an *AmbiguousHeadingError", err)
	}
	for _, c := range e.Compass { // each of them is such a heading, which by compass has one answer
		h, err := course.FromCompass(c, byCompass)
		if err != nil || h.Magnetic().Sub(e.Magnetic[0]).Abs() > 4 {
			t.Errorf("%v is %v: %v", c, h.Magnetic(), err)
		}
	}
	if _, err = course.FromTrue(angle.TrueFrom(20*deg), byCompass); !isAmbiguous(err) {
		t.Errorf("from true: error %v, want an *AmbiguousHeadingError", err)
	}

	// A table by magnetic heading has one deviation on 065°M. But the compass shows the
	// same figure on other headings too, so that course cannot be steered.
	for _, m := range []angle.Angle{65 * deg, 160 * deg, 250 * deg, 340 * deg} {
		h, err := course.FromMagnetic(angle.MagneticFrom(m), byMagnetic)
		if !isAmbiguous(err) {
			t.Errorf("magnetic %v: %v, error %v, want an *AmbiguousHeadingError", m, h.Compass(), err)
		}
		if _, err = course.FromTrue(angle.TrueFrom(m), byMagnetic); !isAmbiguous(err) {
			t.Errorf("true %v: error %v, want an *AmbiguousHeadingError", m, err)
		}
	}
	if _, err = course.FromCompass(angle.CompassFrom(70*deg), byMagnetic); !isAmbiguous(err) {
		t.Errorf("from compass: error %v, want an *AmbiguousHeadingError", err)
	}
	// On its other headings the same table is as good as any.
	if h, err := course.FromMagnetic(angle.MagneticFrom(20*deg), byMagnetic); err != nil {
		t.Errorf("020°M by magnetic: %v, error %v", h.Compass(), err)
	}
}

func isAmbiguous(err error) bool {
	_, ok := errors.AsType[*deviation.AmbiguousHeadingError](err)
	return ok
}

func TestATableWithoutRowsIsRefused(t *testing.T) {
	w := course.With{Variation: variation.East(0), Deviation: &deviation.Table{}}
	for from, convert := range everyWay(w) {
		_, err := convert()
		if e, ok := errors.AsType[*deviation.Error](err); !ok || e.Kind != deviation.NoRows {
			t.Errorf("from %s: error %v, want a *deviation.Error", from, err)
		}
	}
}

// [deviation.None] is a certain deviation of zero.
func TestNoDeviation(t *testing.T) {
	h, err := course.FromTrue(angle.TrueFrom(90*deg), course.With{
		Variation: variation.West(4 * deg).WithUncertainty(sigma(deg / 2)), Deviation: deviation.None()})
	if err != nil {
		t.Fatal(err)
	}
	if h.Compass() != angle.CompassFrom(94*deg) || h.Uncertainty() != sigma(deg/2) {
		t.Errorf("got %v, %v; want 094°C, ±0°30′", h.Compass(), h.Uncertainty())
	}
}

// A nil pointer of any type is not a source of deviation.
func TestNilPointerIsNoDeviation(t *testing.T) {
	for _, source := range []deviation.Source{(*deviation.Deviation)(nil), (*deviation.ExactCoefficients)(nil), (*deviation.Table)(nil), (*deviation.Curve)(nil)} {
		_, err := course.FromCompass(angle.MustParseCompass("090"), course.With{Variation: variation.West(0), Deviation: source})
		if e, ok := errors.AsType[*variation.MissingInputError](err); !ok || e.What != "deviation" {
			t.Errorf("%T: %v", source, err)
		}
	}
}
