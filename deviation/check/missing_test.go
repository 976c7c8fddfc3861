package check_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"lubberline.example/deviation/check"
	"lubberline.example/deviation/internal/devtest"
	"lubberline.example/deviation/swing"

	"lubberline.example/angle"
	"lubberline.example/deviation/sky"
	"lubberline.example/variation"
)

// A forgotten variation would be 0° everywhere: it is refused.
func TestAMissingVariationIsRefused(t *testing.T) {
	r := check.Reading{Heading: new(angle.CompassFrom(0)), Bearing: new(angle.CompassFrom(0)), Time: devtest.Noon}
	for name, checked := range map[string]func() (check.Check, error){
		"object": func() (check.Check, error) {
			return r.Against("a transit", angle.MustParseTrue("062"), devtest.Sigma(0))
		},
		"Sun": func() (check.Check, error) { return r.AgainstSun(devtest.Place) },
		"amplitude": func() (check.Check, error) {
			return r.AgainstAmplitude(sky.Set, sky.CelestialHorizon, devtest.Place, 0)
		},
	} {
		_, err := checked()
		if e, ok := errors.AsType[*check.Error](err); !ok || !strings.Contains(e.Error(), "no source of variation: give ") {
			t.Errorf("%s: %v", name, err)
		}
		missing(t, name, err, "variation")
	}
	readings := []swing.Reading{{Heading: new(angle.MustParseCompass("090")), Bearing: new(angle.Compass{}), True: new(angle.True{}), Time: devtest.Noon}}
	for name, method := range map[string]swing.Method{
		"transit": swing.Transit{}, "Sun": swing.SunAzimuths{Position: &devtest.Place}, "true": swing.TrueHeadings{},
	} {
		_, err := swing.Reduce(readings, method)
		if e, ok := errors.AsType[*swing.Error](err); !ok || e.Index != -1 || !strings.Contains(e.Error(), "no source of variation: give ") {
			t.Errorf("%s: %v", name, err)
		}
		missing(t, name, err, "variation")
	}
}

// missing reports an error that does not say, to programs too, what was left out.
func missing(t *testing.T, name string, err error, what string) {
	t.Helper()
	if e, ok := errors.AsType[*variation.MissingInputError](err); !ok || e.What != what {
		t.Errorf("%s: %v, want that the %s is missing", name, err, what)
	}
	_, checked := errors.AsType[*check.Error](err)
	_, reading := errors.AsType[*swing.Error](err)
	if !checked && !reading || strings.Contains(err.Error(), "year 1") || strings.Count(err.Error(), "deviation: ") != 1 {
		t.Errorf("%s: %v", name, err)
	}
}

// A place that was left out is no place at 0° N 0° E, nor a date the year 1: sources
// that may depend on them are not asked.
func TestAMissingPlaceOrDateIsRefused(t *testing.T) {
	somewhere := angle.MustParsePosition("47°N 019°W")
	known, rose := variation.West(5*devtest.Deg), variation.MustParseLegend("7°20′W 2015 (12′E)")
	chart := angle.Must(variation.NewChart("", variation.ChartRose{Position: angle.MustParsePosition("00°10′N 000°00′E"), Rose: rose}))
	var asked missAsked
	readings := []swing.Reading{{Heading: new(angle.MustParseCompass("090")), Bearing: new(angle.Compass{}), True: new(angle.True{}), Time: devtest.Noon}}
	for name, ask := range map[string]func(s variation.Source, at *angle.Position, on time.Time) error{
		"check": func(s variation.Source, at *angle.Position, on time.Time) error {
			_, err := check.Reading{Heading: new(angle.CompassFrom(0)), Bearing: new(angle.CompassFrom(0)), Variation: s, At: at, Time: on}.Against("a transit", angle.MustParseTrue("062"), devtest.Sigma(0))
			return err
		},
		"transit": func(s variation.Source, at *angle.Position, on time.Time) error {
			_, err := swing.Reduce(readings, swing.Transit{Variation: s, At: at, On: on})
			return err
		},
		"true headings": func(s variation.Source, at *angle.Position, on time.Time) error {
			_, err := swing.Reduce(readings, swing.TrueHeadings{Variation: s, At: at, On: on})
			return err
		},
	} {
		for _, c := range []struct {
			source  variation.Source
			at      *angle.Position
			on      time.Time
			missing string // empty if it answers
		}{
			{known, nil, time.Time{}, ""},
			{&known, nil, time.Time{}, ""},
			{rose, nil, devtest.Noon, ""},
			{&rose, nil, devtest.Noon, ""},
			{rose, new(angle.Position), time.Time{}, "date"},
			{&rose, &somewhere, time.Time{}, "date"},
			{chart, nil, devtest.Noon, "position"},
			{chart, new(angle.Position), devtest.Noon, ""},
			{chart, new(angle.Position), time.Time{}, "date"},
			{&asked, nil, devtest.Noon, "position"},
			{&asked, new(angle.Position), devtest.Noon, ""},
			{&asked, &somewhere, devtest.Noon, ""},
			{&asked, &somewhere, time.Time{}, "date"},
		} {
			switch err := ask(c.source, c.at, c.on); {
			case c.missing != "":
				missing(t, name, err, c.missing)
			case err != nil:
				t.Errorf("%s: %v", name, err)
			}
		}
	}
	_, err := swing.Reduce(readings, swing.SunAzimuths{Variation: known})
	missing(t, "Sun", err, "position")
	if _, err = swing.Reduce(readings, swing.SunAzimuths{Variation: known, Position: new(angle.Position)}); err != nil {
		t.Error(err) // the Sun is in the west there
	}
	// A check by the Sun has its position as an argument; any position will do.
	if _, err = (check.Reading{Heading: new(angle.CompassFrom(0)), Bearing: new(angle.CompassFrom(0)), Time: devtest.Noon, Variation: &asked}).AgainstSun(angle.Position{}); err != nil || asked.at != (angle.Position{}) {
		t.Error(err)
	}
	_, err = swing.Reduce([]swing.Reading{{Heading: new(angle.Compass{}), Bearing: new(angle.Compass{})}}, swing.SunAzimuths{Variation: known, Position: &somewhere})
	if e, ok := errors.AsType[*sky.Error](err); !ok || e.Kind != sky.OutsideYears || !e.Time.IsZero() || !strings.Contains(err.Error(), "no time given") {
		t.Error(err)
	}
}

// A missAsked is a source that notes what it was asked.
type missAsked struct {
	times int
	at    angle.Position
	on    time.Time
	err   error
}

func (s *missAsked) VariationAt(at angle.Position, on time.Time) (variation.Variation, error) {
	s.times, s.at, s.on = s.times+1, at, on
	return variation.West(5 * devtest.Deg), s.err
}

func TestVariationIsAskedOnce(t *testing.T) {
	var source missAsked
	elsewhere := angle.MustParsePosition("47°N 019°W")
	r := check.Reading{Heading: new(angle.CompassFrom(0)), Bearing: new(angle.CompassFrom(0)), Time: devtest.Noon, Variation: &source, At: &elsewhere}
	readings := []swing.Reading{{Heading: new(angle.Compass{}), Bearing: new(angle.Compass{}), True: new(angle.True{}), Time: devtest.Noon}, {Heading: new(angle.MustParseCompass("090")), Bearing: new(angle.Compass{}), True: new(angle.True{}), Time: devtest.Noon.Add(time.Minute)}}
	reduce := func(m swing.Method) error {
		_, err := swing.Reduce(readings, m)
		return err
	}
	for name, c := range map[string]struct {
		ask func() error
		at  angle.Position
	}{
		"check against an object": {func() error {
			_, err := r.Against("a transit", angle.MustParseTrue("062"), devtest.Sigma(0))
			return err
		}, elsewhere},
		"check by the Sun": {func() error { _, err := r.AgainstSun(devtest.Place); return err }, devtest.Place},
		"check by amplitude": {func() error {
			_, err := r.AgainstAmplitude(sky.Set, sky.CelestialHorizon, devtest.Place, 0)
			return err
		}, devtest.Place},
		"transit": {func() error { return reduce(swing.Transit{Variation: &source, At: &elsewhere, On: devtest.Noon}) }, elsewhere},
		"true headings": {func() error {
			return reduce(swing.TrueHeadings{Variation: &source, At: &elsewhere, On: devtest.Noon})
		}, elsewhere},
		"swing by Sun": {func() error { return reduce(swing.SunAzimuths{Variation: &source, Position: &devtest.Place}) }, devtest.Place},
		"origin": {func() error {
			return reduce(swing.Transit{Variation: &source, At: new(angle.Position), On: devtest.Noon})
		}, angle.Position{}},
	} {
		source = missAsked{}
		if err := c.ask(); err != nil || source.times != 1 || source.at != c.at || !source.on.Equal(devtest.Noon) {
			t.Errorf("%s: asked %d times, at %v on %v: %v", name, source.times, source.at, source.on, err)
		}
		source = missAsked{err: errors.New("the chart is torn")}
		err := c.ask()
		_, checked := errors.AsType[*check.Error](err)
		_, reading := errors.AsType[*swing.Error](err)
		if !checked && !reading || !errors.Is(err, source.err) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// An old rose shows how it was brought to the day, on a check and on a swing.
func TestARoseShowsItsWorking(t *testing.T) {
	rose := variation.MustParseLegend("7°20′W 2015 (12′E)")
	c := against(t, check.Reading{Heading: new(angle.CompassFrom(0)), Time: devtest.Noon, Bearing: new(angle.MustParseCompass("066")), Variation: rose}, "a transit", angle.MustParseTrue("062"), devtest.Sigma(0))
	if c.Variation.Angle() != -(5*devtest.Deg+8*devtest.Minute) || c.Deviation.Angle() != devtest.Deg+8*devtest.Minute { // 11 years of 12′
		t.Errorf("variation %v, deviation %v", c.Variation, c.Deviation)
	}
	swung, err := swing.Reduce([]swing.Reading{{Heading: new(angle.Compass{}), Bearing: new(angle.MustParseCompass("066"))}}, swing.Transit{Direction: angle.MustParseTrue("062"), Variation: rose, On: devtest.Noon})
	if err != nil || swung.Observations[0].Deviation.Angle() != devtest.Deg+8*devtest.Minute {
		t.Errorf("%v, %v", swung, err)
	}
	for _, steps := range []string{c.Steps.String(), swung.Steps.String()} {
		if !strings.Contains(steps, "7°20′W") {
			t.Errorf("the rose is not in the working:\n%s", steps)
		}
	}
}

// What weakens the variation weakens what was found with it.
func TestWarningsOfVariationArePassedOn(t *testing.T) {
	rose := variation.MustParseLegend("7°20′W 1985 (2′E)")
	c := against(t, check.Reading{Heading: new(angle.CompassFrom(0)), Bearing: new(angle.CompassFrom(0)), Time: devtest.Noon, Variation: rose}, "a transit", angle.MustParseTrue("352"), devtest.Sigma(0))
	if !devtest.Warned(c.Warnings, variation.OldRose) {
		t.Errorf("check: %q", c.Warnings)
	}
	reading := []swing.Reading{{Heading: new(angle.Compass{}), Bearing: new(angle.Compass{}), True: new(angle.True{}), Time: devtest.Noon}}
	for name, m := range map[string]swing.Method{
		"transit": swing.Transit{Variation: rose, On: devtest.Noon}, "true": swing.TrueHeadings{Variation: rose, On: devtest.Noon},
		"Sun": swing.SunAzimuths{Variation: rose, Position: &devtest.Place},
	} {
		swung, err := swing.Reduce(reading, m)
		if err != nil || !devtest.Warned(swung.Warnings, variation.OldRose) {
			t.Errorf("%s: %+v, %v", name, swung, err)
		}
	}
}
