package swing_test

import (
	"strings"
	"testing"
	"time"

	"lubberline.example/deviation/internal/devtest"
	"lubberline.example/deviation/swing"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/variation"
)

// likelyCause returns what a swing says would bring A to zero.
func likelyCause(swung *swing.Swing) string {
	var list []working.Warning
	for _, w := range swung.Warnings {
		if w.Kind == swing.LikelyCause {
			list = append(list, w)
		}
	}
	return devtest.Texts(list)
}

// TestWrongNameOfVariationIsNamed works a sound swing with the variation named the wrong way.
func TestWrongNameOfVariationIsNamed(t *testing.T) {
	readings, transit := devtest.TransitSwing(16, devtest.Sigma(devtest.Deg/4), devtest.Sigma(0), variation.West(5*devtest.Deg))
	if said := likelyCause(angle.Must(swing.Reduce(readings, transit))); said != "" {
		t.Errorf("a sound swing: %s", said)
	}
	transit.Variation = variation.East(5 * devtest.Deg)
	if said := likelyCause(angle.Must(swing.Reduce(readings, transit))); !strings.Contains(said, "with the variation 5°00′W") {
		t.Errorf("%q", said)
	}
}

// TestWrongTimesOfTheSunAreNamed works sound swings by the Sun with times and positions that
// are wrong.
func TestWrongTimesOfTheSunAreNamed(t *testing.T) {
	v := variation.West(5 * devtest.Deg)
	for _, c := range []struct {
		name  string
		by    time.Duration
		place angle.Position
		says  string
	}{
		{"nothing wrong", 0, devtest.Place, ""},
		{"summer time", time.Hour, devtest.Place, "times 1 h earlier"},
		{"two hours of zone", -2 * time.Hour, devtest.Place, "times 2 h later"},
		{"a slow watch", -20 * time.Minute, devtest.Place, "times 20 min later"},
		{"east for west", 0, angle.MustParsePosition("47°08.4′N 019°00.0′E"), "the longitude named the other way"},
	} {
		readings := smtReadings(t, time.Date(2026, 5, 3, 17, 0, 0, 0, time.UTC), devtest.Place, v)
		for i := range readings {
			readings[i].Time = readings[i].Time.Add(c.by)
		}
		swung, err := swing.Reduce(readings, swing.SunAzimuths{Position: &c.place, Variation: v})
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if said := likelyCause(swung); !strings.Contains(said, c.says) || (said == "") != (c.says == "") {
			t.Errorf("%s: %q, want %q", c.name, said, c.says)
		}
	}
}

// TestMistakenColumnsAreNamed gives columns that are not what they are called.
func TestMistakenColumnsAreNamed(t *testing.T) {
	sound, transit := devtest.TransitSwing(16, devtest.Sigma(devtest.Deg/4), devtest.Sigma(0), variation.West(5*devtest.Deg))
	var fromBow, exchanged []swing.Reading
	for _, r := range sound {
		fromBow = append(fromBow, swing.Reading{Heading: r.Heading, Bearing: new(angle.CompassFrom(r.Bearing.FromNorth() - r.Heading.FromNorth()))})
		exchanged = append(exchanged, swing.Reading{Heading: r.Bearing, Bearing: r.Heading})
	}
	for _, method := range []swing.Method{transit, swing.DistantObject{}} {
		if _, err := swing.Reduce(sound, method); err != nil {
			t.Errorf("a sound swing: %v", err)
		}
		if _, err := swing.Reduce(fromBow, method); err == nil || !strings.Contains(err.Error(), "from the bow") {
			t.Errorf("from the bow: %v", err)
		}
		if _, err := swing.Reduce(exchanged, method); err == nil || !strings.Contains(err.Error(), "exchanged") {
			t.Errorf("exchanged: %v", err)
		}
	}
}
