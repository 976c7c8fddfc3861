package check_test

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"lubberline.example/deviation/check"
	"lubberline.example/deviation/internal/devtest"
	"lubberline.example/deviation/swing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation/sky"
	"lubberline.example/variation"
)

// The example in the introduction, page IV, of Burdwood, Sun's True Bearing or
// Azimuth Tables (edition of the 1890s): the true bearing N 125°34′ E, 140°30′ by
// compass, and 21° W variation.
func TestTheExampleOfTheAzimuthTables(t *testing.T) {
	c := against(t, check.Reading{
		Heading:   new(angle.CompassFrom(0)),
		Bearing:   new(angle.CompassFrom(140*devtest.Deg + 30*devtest.Minute)),
		Variation: variation.West(21 * devtest.Deg),
	}, "the Sun", angle.TrueFrom(125*devtest.Deg+34*devtest.Minute), devtest.Sigma(0))
	if got := c.Error.String(); got != "14°56′W" {
		t.Errorf("error %v", got)
	}
	if got := c.Deviation.String(); got != "6°04′E" {
		t.Errorf("deviation %v", got)
	}
}

// The example of an amplitude in NAVEDTRA 14220 (United States Navy, 1990s): true
// 301.2°, observed 300.0°, error 1.2° E.
func TestTheExampleOfTheAmplitude(t *testing.T) {
	c := against(t, check.Reading{Heading: new(angle.CompassFrom(0)), Bearing: new(angle.MustParseCompass("300.0")), Variation: variation.East(0)}, "the Sun's amplitude", angle.MustParseTrue("301.2"), devtest.Sigma(0))
	if c.Error.Angle() != devtest.Deg+12*devtest.Minute || c.Error.Name() != "E" {
		t.Errorf("error %v", c.Error)
	}
}

func TestACheckAddsUpAndIsNamedByTheRule(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		direction := angle.TrueFrom(devtest.DrawHeading(t, "true"))
		v := variation.East(devtest.DrawBetween(t, -60*devtest.Deg, 60*devtest.Deg, "variation")).WithUncertainty(devtest.Sigma(12 * devtest.Minute))
		r := check.Reading{
			Heading:     new(angle.CompassFrom(devtest.DrawHeading(t, "heading"))),
			Bearing:     new(angle.CompassFrom(devtest.DrawHeading(t, "bearing"))),
			Uncertainty: devtest.Sigma(3 * devtest.Minute),
			Variation:   v,
		}
		c := against(t, r, "two beacons in line", direction, devtest.Sigma(4*devtest.Minute))
		if c.Error.Uncertainty() != devtest.Sigma(5*devtest.Minute) || c.Deviation.Uncertainty() != devtest.Sigma(13*devtest.Minute) { // √(3² + 4²), √(5² + 12²)
			t.Fatalf("%v, %v", c.Error.Uncertainty(), c.Deviation.Uncertainty())
		}
		if c.Heading != *r.Heading || c.Against != "two beacons in line" || c.Variation != v {
			t.Fatalf("%+v", c)
		}
		if direction.FromNorth() != (r.Bearing.FromNorth()+c.Error.Angle()).Normalized() || c.Deviation.Compass(v.Magnetic(direction)) != *r.Bearing {
			t.Fatalf("error %v, deviation %v do not lead back", c.Error, c.Deviation)
		}
		e := devtest.Number(t, c.Steps, "compass error")
		if !devtest.SameDegrees(devtest.Number(t, c.Steps, "true")-devtest.Number(t, c.Steps, "compass"), e) ||
			!devtest.SameDegrees(e-devtest.Number(t, c.Steps, "variation"), devtest.Number(t, c.Steps, "deviation")) {
			t.Fatalf("figures do not add up:\n%v", c.Steps)
		}
		if s, _ := c.Steps.Find("true"); s.What != "Two beacons in line by true" {
			t.Fatalf("%q", s.What)
		}
	})
}

func TestTheRuleOfTheCompassError(t *testing.T) {
	for bearing, how := range map[string]string{"099": "compass least: error east", "101": "compass best: error west", "100": "compass and true agree"} {
		c := against(t, check.Reading{Heading: new(angle.CompassFrom(0)), Bearing: new(angle.MustParseCompass(bearing)), Variation: variation.East(0)}, "", angle.MustParseTrue("100"), devtest.Sigma(0))
		if s, _ := c.Steps.Find("compass error"); s.How != how {
			t.Errorf("%s: %q", bearing, s.How)
		}
		if _, stated := c.Error.Uncertainty().Sigma(); stated {
			t.Error("an uncertainty that nobody stated")
		}
	}
}

// The azimuth was made with ERFA, the open release of the IAU's routines, by a
// program of this project (500 places and instants; this is the first).
func TestACheckBySunAgreesWithTheReference(t *testing.T) {
	r := check.Reading{
		Time: time.Date(2004, 10, 15, 17, 26, 31, 0, time.UTC), Heading: new(angle.MustParseCompass("090")),
		Bearing: new(angle.MustParseCompass("250")), Uncertainty: devtest.Sigma(devtest.Deg / 2), Variation: variation.East(devtest.Deg).WithUncertainty(devtest.Sigma(0)),
	}
	c, err := r.AgainstSun(angle.Must(angle.PositionDegrees(46.584493, -8.484816)))
	if err != nil {
		t.Fatal(err)
	}
	if got := c.Error.Degrees(); !devtest.Near(got, 4.3052142, 0.001) { // 254.3052142 − 250; the accuracy package sky states
		t.Errorf("error %v", got)
	}
	if got := c.Deviation.Degrees(); !devtest.Near(got, 3.3052142, 0.001) { // the same
		t.Errorf("deviation %v", got)
	}
	if c.Against != "the Sun" || !c.Time.Equal(r.Time) || len(c.Warnings) != 0 || *c.Bearing != *r.Bearing || c.Position == nil {
		t.Errorf("%+v", c)
	}
	if !devtest.SameDegrees(devtest.Number(t, c.Steps, "azimuth")-devtest.Number(t, c.Steps, "compass"), devtest.Number(t, c.Steps, "compass error")) {
		t.Errorf("figures do not add up:\n%v", c.Steps)
	}
}

func TestACheckByAHighSunWarns(t *testing.T) {
	c, err := check.Reading{Heading: new(angle.CompassFrom(0)), Time: time.Date(2026, 6, 21, 13, 0, 0, 0, time.UTC), Bearing: new(angle.MustParseCompass("172")), Variation: variation.East(0)}.AgainstSun(devtest.Place)
	if err != nil || len(c.Warnings) != 1 || c.Warnings[0].Kind != swing.HighBody || !strings.HasPrefix(c.Warnings[0].Message, "the Sun was 66° high: ") {
		t.Errorf("%q, %v", c.Warnings, err)
	}
}

func TestACheckByASunThatCannotBeIsRefused(t *testing.T) {
	_, err := check.Reading{Heading: new(angle.CompassFrom(0)), Bearing: new(angle.CompassFrom(0)), Time: time.Date(2026, 5, 4, 1, 0, 0, 0, time.UTC)}.AgainstSun(devtest.Place)
	if e, ok := errors.AsType[*check.Error](err); !ok || e.Against != "the Sun" ||
		!strings.HasPrefix(err.Error(), "deviation: check against the Sun: the Sun was below the horizon") {
		t.Errorf("at night: %v", err)
	}
	for name, checked := range map[string]func(r check.Reading) (check.Check, error){
		"azimuth": func(r check.Reading) (check.Check, error) { return r.AgainstSun(devtest.Place) },
		"amplitude": func(r check.Reading) (check.Check, error) {
			return r.AgainstAmplitude(sky.Rise, sky.CelestialHorizon, devtest.Place, 0)
		},
	} {
		for _, at := range []time.Time{{}, time.Date(1900, 1, 1, 0, 0, 0, 0, time.UTC)} {
			_, err := checked(check.Reading{Heading: new(angle.CompassFrom(0)), Bearing: new(angle.CompassFrom(0)), Time: at})
			_, checks := errors.AsType[*check.Error](err)
			if e, ok := errors.AsType[*sky.Error](err); !ok || e.Kind != sky.OutsideYears || !checks || !e.Time.Equal(at) {
				t.Errorf("%s at %v: %v", name, at, err)
			}
		}
	}
}

// The amplitude is its rule's, sin A = sin declination / cos latitude, worked
// here again. On the visible horizon the Sun is seen earlier at rising and later
// at setting, so farther to the elevated pole's side.
func TestACheckByAmplitude(t *testing.T) {
	for _, c := range []struct {
		name    string
		place   string
		month   time.Month
		north   bool // declination
		warning bool
	}{
		{"summer", "47°N 019°W", time.June, true, false},
		{"winter", "47°N 019°W", time.December, false, false},
		{"south, its winter", "35°S 019°W", time.June, true, false},
		{"far north", "62°N 019°W", time.June, true, true},
		{"far south", "62°S 019°W", time.June, true, true},
	} {
		p := angle.MustParsePosition(c.place)
		at := time.Date(2026, c.month, 21, 6, 0, 0, 0, time.UTC)
		declination := angle.Must(sky.Sun(at)).Declination
		amplitude := math.Asin(declination.Sin()/p.Latitude.Angle().Cos()) * 180 / math.Pi
		for _, event := range []sky.Event{sky.Rise, sky.Set} {
			want, names := 90-amplitude, "E "
			if event == sky.Set {
				want, names = 270+amplitude, "W "
			}
			r := check.Reading{Heading: new(angle.CompassFrom(0)), Time: at, Bearing: new(angle.CompassFrom(devtest.Degrees(want))), Uncertainty: devtest.Sigma(devtest.Deg), Variation: variation.West(5 * devtest.Deg)}
			checked, err := r.AgainstAmplitude(event, sky.CelestialHorizon, p, 0)
			if err != nil {
				t.Errorf("%s: %v", c.name, err)
				continue
			}
			if !devtest.Near(checked.Error.Degrees(), 0, 1e-6) || !devtest.Near(checked.Deviation.Degrees(), 5, 1e-6) { // the same rule in floating point
				t.Errorf("%s: error %v, deviation %v", c.name, checked.Error, checked.Deviation)
			}
			s, _ := checked.Steps.Find("amplitude")
			if !strings.HasPrefix(s.Value, names) || strings.HasSuffix(s.Value, "N") != c.north || !strings.HasSuffix(s.How, "celestial horizon") {
				t.Errorf("%s: %+v", c.name, s)
			}
			if s, _ := checked.Steps.Find("declination"); strings.HasSuffix(s.Value, "N") != c.north {
				t.Errorf("%s: %+v", c.name, s)
			}
			// The time, the same for both, is not that of either.
			checked.Warnings = slices.DeleteFunc(checked.Warnings, func(w working.Warning) bool {
				return w.Kind == check.SunElsewhere && strings.HasPrefix(w.Message, "at that time and place the Sun was not ")
			})
			if checked.Against != "the Sun's amplitude" || devtest.Warned(checked.Warnings, check.HighLatitude) != c.warning || len(checked.Warnings) > 1 {
				t.Errorf("%s: against %q, warnings %q", c.name, checked.Against, checked.Warnings)
			}
			// Nearer the elevated pole is to the left at rising in the north.
			visible, err := r.AgainstAmplitude(event, sky.VisibleHorizon, p, 12)
			if err != nil {
				t.Errorf("%s: %v", c.name, err)
				continue
			}
			left := (event == sky.Rise) == (p.Latitude.Angle() > 0)
			if moved := visible.Error.Degrees(); (moved < 0) != left || math.Abs(moved) < 0.3 || math.Abs(moved) > 3 {
				t.Errorf("%s, event %v: on the visible horizon %v from the celestial", c.name, event, visible.Error)
			}
			if s, _ := visible.Steps.Find("amplitude"); !strings.HasSuffix(s.How, "visible horizon") {
				t.Errorf("%s: %+v", c.name, s)
			}
		}
	}
}

func TestNoAmplitudeWithoutRising(t *testing.T) {
	r := check.Reading{Heading: new(angle.CompassFrom(0)), Bearing: new(angle.CompassFrom(0)), Time: time.Date(2026, 6, 21, 0, 0, 0, 0, time.UTC)}
	for _, horizon := range []sky.Horizon{sky.CelestialHorizon, sky.VisibleHorizon} {
		for _, place := range []string{"75°N 019°W", "75°S 019°W"} {
			_, err := r.AgainstAmplitude(sky.Rise, horizon, angle.MustParsePosition(place), 0)
			_, checks := errors.AsType[*check.Error](err)
			if e, ok := errors.AsType[*sky.Error](err); !ok || e.Kind != sky.StaysAbove && e.Kind != sky.StaysBelow || !checks || !strings.HasPrefix(err.Error(), "deviation: check against the Sun's amplitude: ") {
				t.Errorf("%s, %v: %v", place, horizon, err)
			}
		}
	}
	_, err := r.AgainstAmplitude(sky.Rise, sky.VisibleHorizon, devtest.Place, math.NaN())
	if _, ok := errors.AsType[*angle.RangeError](err); !ok {
		t.Errorf("no height of eye: %v", err)
	}
}

func TestAnAmplitudeAtAnotherTimeWarns(t *testing.T) {
	p := angle.MustParsePosition("47°N 019°W")
	for _, c := range []struct {
		event sky.Event
		after sky.Event
		warns bool
	}{
		{sky.Rise, sky.Rise, false},
		{sky.Set, sky.Set, false},
		{sky.Rise, sky.Set, true},
		{sky.Set, sky.Rise, true},
		{sky.Rise, sky.MeridianPassage, true},
	} {
		at, err := sky.Next(c.after, p, time.Date(2026, 5, 3, 0, 0, 0, 0, time.UTC))
		if err != nil {
			t.Fatal(err)
		}
		checked, err := check.Reading{Heading: new(angle.CompassFrom(0)), Time: at, Bearing: new(angle.MustParseCompass("070")), Variation: variation.East(0)}.AgainstAmplitude(c.event, sky.CelestialHorizon, p, 0)
		if err != nil {
			t.Fatal(err)
		}
		if warns := devtest.Warned(checked.Warnings, check.SunElsewhere); warns != c.warns {
			t.Errorf("event %v at %v: warnings %q", c.event, c.after, checked.Warnings)
		}
	}
	r := check.Reading{Heading: new(angle.CompassFrom(0)), Bearing: new(angle.CompassFrom(0)), Time: time.Date(2026, 5, 3, 6, 0, 0, 0, time.UTC), Variation: variation.East(0)}
	if _, err := r.AgainstAmplitude("noon", sky.CelestialHorizon, p, 0); err == nil {
		t.Error("event noon is accepted")
	}
	if _, err := r.AgainstAmplitude(sky.Rise, "sensible", p, 0); err == nil {
		t.Error("horizon sensible is accepted")
	}
}

func TestAReciprocalBearingWarns(t *testing.T) {
	c := against(t, check.Reading{Heading: new(angle.CompassFrom(0)), Bearing: new(angle.MustParseCompass("245")), Variation: variation.East(0)}, "a transit", angle.MustParseTrue("065"), devtest.Sigma(0))
	if len(c.Warnings) != 2 || c.Warnings[1].Kind != check.NotADeviation || c.Warnings[1].Message != "perhaps the reciprocal was read, 180° off" {
		t.Errorf("%q", c.Warnings)
	}
}

// against is a check that nothing is wrong with.
func against(t devtest.Fails, r check.Reading, what string, direction angle.True, known angle.Uncertainty) check.Check {
	t.Helper()
	c, err := r.Against(what, direction, known)
	if err != nil {
		t.Fatal(err)
	}
	return c
}
