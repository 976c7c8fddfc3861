package swing_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"lubberline.example/deviation/internal/devtest"
	"lubberline.example/deviation/swing"

	"lubberline.example/angle"
	"lubberline.example/deviation/sky"
	"lubberline.example/variation"
)

// smtReadings are bearings of the Sun every few minutes from an instant, by the
// usual compass, at a place with a variation.
func smtReadings(t devtest.Fails, from time.Time, p angle.Position, v variation.Variation) []swing.Reading {
	t.Helper()
	var readings []swing.Reading
	for i := range 8 {
		at := from.Add(time.Duration(i) * 4 * time.Minute)
		s, err := sky.Sun(at)
		if err != nil {
			t.Fatal(err)
		}
		c := angle.CompassFrom(angle.Angle(i) * 45 * devtest.Deg)
		readings = append(readings, swing.Reading{Heading: new(c), Time: at, Bearing: new(devtest.UsualOn(c).Compass(v.Magnetic(s.From(p).Azimuth))), BearingBy: swing.SwungCompass, Uncertainty: devtest.Sigma(4 * devtest.Minute)})
	}
	return readings
}

func TestSunSwingGivesDeviations(t *testing.T) {
	for _, c := range []struct {
		name  string
		place angle.Position
		at    time.Time
		v     variation.Variation
	}{
		{"afternoon, north", devtest.Place, time.Date(2026, 5, 3, 18, 0, 0, 0, time.UTC), variation.West(5 * devtest.Deg)},
		{"morning, south", angle.MustParsePosition("33°S 151°E"), time.Date(2026, 5, 2, 21, 30, 0, 0, time.UTC), variation.East(13 * devtest.Deg)},
		{"across north, south", angle.MustParsePosition("45°S 000°E"), time.Date(2026, 6, 21, 11, 45, 0, 0, time.UTC), variation.West(24 * devtest.Deg)},
	} {
		v := c.v.WithUncertainty(devtest.Sigma(6 * devtest.Minute))
		swung, err := swing.Reduce(smtReadings(t, c.at, c.place, v), swing.SunAzimuths{Position: &c.place, Variation: v})
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if swung.Common != devtest.Sigma(6*devtest.Minute) || len(swung.Warnings) != 0 || swung.Method != "azimuths of the Sun" {
			t.Errorf("%s: %q, common %v, warnings %q", c.name, swung.Method, swung.Common, swung.Warnings)
		}
		for _, o := range swung.Observations {
			if o.Deviation != devtest.UsualOn(o.Heading).WithUncertainty(devtest.Sigma(4*devtest.Minute)) {
				t.Errorf("%s, on %v: %v", c.name, o.Heading, o.Deviation)
			}
			if !devtest.SameDegrees(devtest.Number(t, o.Working, "azimuth")-devtest.Number(t, o.Working, "variation"), devtest.Number(t, o.Working, "magnetic")) ||
				!devtest.SameDegrees(devtest.Number(t, o.Working, "magnetic")-devtest.Number(t, o.Working, "compass"), devtest.Number(t, o.Working, "deviation")) {
				t.Errorf("%s, on %v: figures do not add up\n%v", c.name, o.Heading, o.Working)
			}
		}
	}
}

func TestASunThatCannotHaveBeenSeenIsRefused(t *testing.T) {
	v := variation.West(5 * devtest.Deg)
	m := swing.SunAzimuths{Position: &devtest.Place, Variation: v}
	for _, c := range []struct {
		name string
		at   time.Time
		says string
		date bool
	}{
		{"midnight", time.Date(2026, 5, 4, 1, 0, 0, 0, time.UTC), "the Sun was below the horizon: check date, time (UTC) and position; it stood ", false},
		{"the year 1900", time.Date(1900, 5, 4, 12, 0, 0, 0, time.UTC), "1900", true},
		{"no time", time.Time{}, "", true},
	} {
		readings := smtReadings(t, time.Date(2026, 5, 3, 18, 0, 0, 0, time.UTC), devtest.Place, v)
		readings[2].Time = c.at
		_, err := swing.Reduce(readings, m)
		e, ok := errors.AsType[*swing.Error](err)
		if !ok || e.Index != 2 || e.Heading != *readings[2].Heading || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v", c.name, err)
		}
		if e, ok := errors.AsType[*sky.Error](err); (ok && e.Kind == sky.OutsideYears) != c.date {
			t.Errorf("%s: a sky.Error: %v", c.name, ok)
		}
	}
	// In the zenith it has no bearing.
	at := time.Date(2026, 5, 3, 12, 0, 0, 0, time.UTC)
	m.Position = new(angle.Must(sky.Sun(at)).GeographicalPosition())
	_, err := swing.Reduce([]swing.Reading{{Heading: new(angle.Compass{}), Bearing: new(angle.Compass{}), Time: at}}, m)
	if err == nil || !strings.Contains(err.Error(), "overhead") {
		t.Errorf("zenith: %v", err)
	}
}

func TestAHighSunWarns(t *testing.T) {
	v := variation.West(5 * devtest.Deg)
	at := time.Date(2026, 6, 21, 13, 0, 0, 0, time.UTC)
	swung, err := swing.Reduce(smtReadings(t, at, devtest.Place, v), swing.SunAzimuths{Position: &devtest.Place, Variation: v})
	if err != nil {
		t.Fatal(err)
	}
	// One warning and the number of headings, not eight warnings.
	if len(swung.Warnings) != 2 || swung.Warnings[0].Kind != swing.HighBody || !strings.HasPrefix(swung.Warnings[0].Message, "the Sun was 66° high: ") || swung.Warnings[1].Message != "the warning above holds on 8 headings" {
		t.Errorf("%q", swung.Warnings)
	}
}
