package course_test

import (
	"errors"
	"reflect"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// Worked by hand: with east added to compass and west taken away.
var byHand = []struct {
	name, variation, deviation string
	compass, magnetic, true    string
	err                        string
}{
	{"west and east", "4°15′W", "3°30′E", "112°C", "115.5°M", "111°15′T", "0°45′W"},
	{"west and west", "4°15′W", "3°30′W", "112°C", "108.5°M", "104°15′T", "7°45′W"},
	{"east and east", "4°15′E", "3°30′E", "112°C", "115.5°M", "119°45′T", "7°45′E"},
	{"east and west", "4°15′E", "3°30′W", "112°C", "108.5°M", "112°45′T", "0°45′E"},
	{"contrary and equal", "3°30′W", "3°30′E", "112°C", "115.5°M", "112°T", "0°E"},
	{"no variation", "0°", "2°W", "112°C", "110°M", "110°T", "2°W"},
	{"no deviation", "5°E", "0°", "112°C", "112°M", "117°T", "5°E"},
	{"neither", "0°", "0°", "112°C", "112°M", "112°T", "0°E"},
	{"up through north", "6°E", "1°E", "357°C", "358°M", "004°T", "7°E"},
	{"up to north", "2°E", "1°E", "357°C", "358°M", "000°T", "3°E"},
	{"down through north", "6°W", "1°E", "002°C", "003°M", "357°T", "5°W"},
	{"deviation through north and back", "3°W", "4°E", "358°C", "002°M", "359°T", "1°E"},
	{"variation of half a turn", "180°E", "1°E", "010°C", "011°M", "191°T", "179°W"},
	{"sum beyond half a turn", "150°E", "35°E", "173°C", "208°M", "358°T", "175°W"},
	{"near the magnetic pole", "100°W", "20°W", "030°C", "010°M", "270°T", "120°W"},
}

func TestConversionsWorkedByHand(t *testing.T) {
	for _, c := range byHand {
		w := known(c.variation, c.deviation)
		fromTrue, err1 := course.FromTrue(angle.MustParseTrue(c.true), w)
		fromMagnetic, err2 := course.FromMagnetic(angle.MustParseMagnetic(c.magnetic), w)
		fromCompass, err3 := course.FromCompass(angle.MustParseCompass(c.compass), w)
		if err := errors.Join(err1, err2, err3); err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		for from, h := range map[string]course.Heading{"true": fromTrue, "magnetic": fromMagnetic, "compass": fromCompass} {
			if h.True() != angle.MustParseTrue(c.true) || h.Magnetic() != angle.MustParseMagnetic(c.magnetic) || h.Compass() != angle.MustParseCompass(c.compass) {
				t.Errorf("%s, from %s: %v %v %v, want %s %s %s", c.name, from, h.True(), h.Magnetic(), h.Compass(), c.true, c.magnetic, c.compass)
			}
			if h.Variation() != w.Variation || h.Deviation() != w.Deviation {
				t.Errorf("%s, from %s: variation %v, deviation %v", c.name, from, h.Variation(), h.Deviation())
			}
			if want := variation.MustParse(c.err).EastWest; h.CompassError() != want {
				t.Errorf("%s, from %s: error %v, want %v", c.name, from, h.CompassError(), want)
			}
		}
	}
}

// The deviation of a true course is that of the compass heading in the result, not that of
// the true or the magnetic heading.
func TestDeviationIsThatOfTheResult(t *testing.T) {
	var rows []deviation.Row[angle.Compass]
	for i, d := range []angle.Angle{0, 20, 0, -20, 0, 20, 0, -20} {
		rows = append(rows, deviation.Row[angle.Compass]{
			Heading: angle.CompassFrom(angle.Angle(i) * 45 * deg), Deviation: deviation.East(d * deg)})
	}
	w := course.With{Variation: variation.West(13 * deg), Deviation: angle.Must(deviation.NewTable(rows))}
	// On 018°C the deviation is 20° × 18/45 = 8°E, so that the vessel heads 026°M and,
	// with 13°W, 013°T. On 013°C it would be 5°47′E, on 026°C 11°33′E.
	h, err := course.FromTrue(angle.TrueFrom(13*deg), w)
	if err != nil {
		t.Fatal(err)
	}
	if off := h.Compass().Sub(angle.CompassFrom(18 * deg)); off.Abs() > 1 { // the card rounds once
		t.Errorf("compass course %v, want 018°C", h.Compass())
	}
	if off := h.Deviation().Angle() - 8*deg; off.Abs() > 1 {
		t.Errorf("deviation %v, want 8°E", h.Deviation())
	}
	g, err := course.FromMagnetic(angle.MagneticFrom(26*deg), w)
	if err != nil || g.Compass() != h.Compass() || g.True() != h.True() {
		t.Errorf("from magnetic: %v %v %v, want as from true", g.Compass(), g.True(), err)
	}
}

func TestUncertaintyNeedsBothParts(t *testing.T) {
	stated, not := sigma(deg/2), angle.Uncertainty{}
	for _, c := range []struct {
		variation, deviation, reading angle.Uncertainty
		want                          angle.Uncertainty
		bearing                       angle.Uncertainty // of a magnetic bearing
	}{
		{not, not, not, not, not},
		{stated, not, not, not, stated},
		{not, stated, not, not, not},
		{not, not, stated, not, not},
		{not, stated, stated, not, not},
		{stated, not, stated, not, stated.Combined(stated)},
		{stated, stated, not, stated.Combined(stated), stated},
		{stated, stated, stated, stated.Combined(stated).Combined(stated), stated.Combined(stated)},
		{sigma(0), sigma(0), not, sigma(0), sigma(0)},
	} {
		h, err := course.FromCompass(angle.CompassFrom(40*deg), course.With{
			Variation: variation.West(4 * deg).WithUncertainty(c.variation),
			Deviation: deviation.East(2 * deg).WithUncertainty(c.deviation),
			Reading:   c.reading,
		})
		if err != nil {
			t.Fatal(err)
		}
		if got := h.Uncertainty(); got != c.want {
			t.Errorf("variation %v, deviation %v, reading %v: got %v, want %v", c.variation, c.deviation, c.reading, got, c.want)
		}
		if got := h.BearingFromMagnetic(angle.Magnetic{}).Uncertainty(); got != c.bearing {
			t.Errorf("magnetic bearing, variation %v, deviation %v, reading %v: got %v, want %v", c.variation, c.deviation, c.reading, got, c.bearing)
		}
		for name, b := range map[string]course.Bearing{
			"compass": h.BearingFromCompass(angle.Compass{}), "true": h.BearingFromTrue(angle.True{}), "relative": h.BearingFromRelative(angle.Relative{}),
		} {
			if b.Uncertainty() != c.want {
				t.Errorf("%s bearing: got %v, want that of the heading, %v", name, b.Uncertainty(), c.want)
			}
		}
	}
}

// A source that checks the position and the date that it receives.
type placed struct {
	at *angle.Position
	on *time.Time
}

func (p placed) VariationAt(at angle.Position, on time.Time) (variation.Variation, error) {
	*p.at, *p.on = at, on
	return variation.West(4 * deg), nil
}

func TestVariationOfPlaceAndDate(t *testing.T) {
	var at angle.Position
	var on time.Time
	w := course.With{Variation: placed{&at, &on}, Deviation: deviation.None(), At: &offOrlesk, On: day}
	asked := func(name string, err error) {
		if err != nil || at != offOrlesk || !on.Equal(day) {
			t.Errorf("%s: asked for %v on %v: %v", name, at, on, err)
		}
		at, on = angle.Position{}, time.Time{}
	}
	_, err := course.FromTrue(angle.True{}, w)
	asked("true", err)
	_, err = course.FromMagnetic(angle.Magnetic{}, w)
	asked("magnetic", err)
	_, err = course.FromCompass(angle.Compass{}, w)
	asked("compass", err)
}

// Warnings of the deviation stand beside those of the variation.
func TestWarningsIncludeTheDeviation(t *testing.T) {
	rows := []deviation.Row[angle.Compass]{{Heading: angle.CompassFrom(5 * deg), Deviation: deviation.East(8 * deg)}}
	for h := angle.Angle(0); h < turn; h += 45 * deg {
		rows = append(rows, deviation.Row[angle.Compass]{Heading: angle.CompassFrom(h), Deviation: deviation.East(2 * deg)})
	}
	table := angle.Must(deviation.NewTable(rows))
	old := variation.MustParseLegend("3°50′W 1990 (9′E)")
	swings := 0
	for c := angle.Angle(0); c < turn; c += deg {
		h, err := course.FromCompass(angle.CompassFrom(c), course.With{Variation: old, Deviation: table.Smooth(), On: day})
		if err != nil {
			continue
		}
		want := angle.Must(deviation.Explain(table.Smooth(), h.Compass())).Warnings
		got := h.Warnings()
		if len(got) == 0 || got[0].Kind != variation.OldRose || !slices.EqualFunc(got[len(got)-len(want):], want, sameWarning) {
			t.Fatalf("on %v: %v", h.Compass(), got)
		}
		if sheet := h.Working(); !slices.EqualFunc(got, sheet.Warnings, sameWarning) {
			t.Errorf("on %v: %v, the working has %v", h.Compass(), got, sheet.Warnings)
		}
		if len(want) > 0 && want[0].Kind == deviation.SwingsOut {
			swings++
		}
	}
	if swings == 0 {
		t.Error("the curve of this test does not swing out")
	}
}

// The helm is given a whole degree, and never 360°.
func TestSteerIsAWholeDegree(t *testing.T) {
	for given, want := range map[string]string{"112°": "112", "112°29′": "112", "112°30′": "113", "359°29′": "359", "359°30′": "000", "000°": "000"} {
		h := angle.Must(course.FromCompass(angle.MustParseCompass(given), known("0°", "0°")))
		if got := h.Steer(); got != angle.MustParseCompass(want) {
			t.Errorf("%s: %v, want %s", given, got, want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		h, err := course.FromTrue(angle.TrueFrom(angle.Angle(rapid.Int64Range(0, int64(turn)-1).Draw(t, "true"))), course.With{Variation: orleskRose(), Deviation: quillon(), On: day})
		if err != nil {
			t.Fatal(err)
		}
		last, ok := h.Working().Steps.Find("course to steer")
		if got := h.Steer(); !ok || got.Degrees() != last.Number || got.FromNorth()%deg != 0 || got.Sub(h.Compass()).Abs() > deg/2 {
			t.Fatalf("%v for %v; the working ends in %+v", got, h.Compass(), last)
		}
	})
}

func sameWarning(a, b working.Warning) bool { return reflect.DeepEqual(a, b) }
