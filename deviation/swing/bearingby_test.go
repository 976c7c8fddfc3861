package swing_test

import (
	"errors"
	"strings"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/angle/working"
	"lubberline.example/deviation/internal/devtest"
	"lubberline.example/deviation/swing"
	"lubberline.example/variation"
)

// TestBearingsByAnotherCompassAreRefused takes the bearings of a swing with a hand-bearing
// compass whose own deviation is −14° sin of the heading. Taken as by the steering compass
// they make a card that is wrong by up to 12.6°, and they fit each other well.
func TestBearingsByAnotherCompassAreRefused(t *testing.T) {
	readings, transit := devtest.TransitSwing(24, devtest.Sigma(devtest.Deg/2), devtest.Sigma(0), variation.West(5*devtest.Deg))
	magnetic := variation.West(5 * devtest.Deg).Magnetic(transit.Direction)
	for i := range readings {
		sine, _ := readings[i].Heading.FromNorth().SinCos()
		readings[i].Bearing = new(angle.CompassFrom(magnetic.FromNorth() - devtest.Degrees(-14*sine)))
		readings[i].BearingBy = ""
	}
	swung, err := swing.Reduce(readings, transit)
	if err != nil {
		t.Fatal(err)
	}
	if n := warnedTimes(swung, swing.BearingCompassNotStated); n != 1 {
		t.Errorf("not stated: asked %d times, want once: %v", n, swung.Warnings)
	}
	fit := devtest.Fit(t, swung.Observations, swing.FitOptions{Robust: true})
	worst := 0.0
	for _, o := range swung.Observations {
		d, err := fit.Curve.OnCompass(o.Heading)
		if err != nil {
			t.Fatal(err)
		}
		worst = max(worst, (d.Angle() - devtest.UsualOn(o.Heading).Angle()).Abs().Degrees())
	}
	t.Logf("the card would be wrong by up to %.1f°", worst)
	if worst < 10 {
		t.Errorf("the card is wrong by %.1f° only: the test shows no harm", worst)
	}

	for i := range readings {
		readings[i].BearingBy = swing.SwungCompass
	}
	readings[7].BearingBy = swing.AnotherCompass
	_, err = swing.Reduce(readings, transit)
	if e, ok := errors.AsType[*swing.Error](err); !ok || e.Index != 7 || !strings.Contains(err.Error(), "second compass") || !strings.Contains(err.Error(), "ashore") {
		t.Errorf("by another compass: %v", err)
	}
	readings[7].BearingBy = "steering"
	if _, err = swing.Reduce(readings, transit); err == nil || !strings.Contains(err.Error(), "give swung or another") {
		t.Errorf("by an unknown word: %v", err)
	}
}

// TestRecordsAskWhoseBearings reads records that say by which compass the bearings are, and
// records that do not.
func TestRecordsAskWhoseBearings(t *testing.T) {
	transit := swing.Transit{Direction: angle.MustParseTrue("062°T"), Variation: variation.West(5 * devtest.Deg)}
	for _, c := range []struct {
		name, record string
		asked        int
		line         int // of the refusal
		says         string
	}{
		{"stated", "heading,bearing,bearing_by\n000,065,swung\n045,066,swung\n", 0, 0, ""},
		{"stated as JSON", `[{"heading":"000","bearing":"065","bearing_by":"swung"}]`, 0, 0, ""},
		{"without the column", "heading,bearing\n000,065\n045,066\n090,067\n", 1, 0, ""},
		{"one left empty", "heading,bearing,bearing_by\n000,065,swung\n045,066,\n", 1, 0, ""},
		{"from the bow", "heading,relative\n000,065\n045,020\n", 0, 0, ""},
		{"another", "heading,bearing,bearing_by\n000,065,swung\n045,066,another\n", 0, 3, "another compass aboard"},
		{"an unknown word", "heading,bearing,bearing_by\n000,065,hand\n", 0, 2, "give swung or another"},
		{"from the bow by a compass", "heading,bearing,relative,bearing_by\n000,065,,swung\n045,,020,swung\n", 0, 3, "by no compass"},
	} {
		swung, err := swing.ReadSwing(strings.NewReader(c.record), transit)
		if c.line == 0 {
			if err != nil || warnedTimes(swung, swing.BearingCompassNotStated) != c.asked {
				t.Errorf("%s: %v, %v", c.name, swung, err)
			}
			continue
		}
		if e, ok := errors.AsType[*record.Error](err); !ok || e.Line != c.line || e.Column != "bearing_by" || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
	if _, err := swing.ReadSwing(strings.NewReader("heading,deviation,bearing_by\n000,1,swung\n"), swing.StatedDeviations{}); err == nil {
		t.Error("a column that the method does not use was accepted")
	}
}

// warnedTimes counts the warnings of a kind.
func warnedTimes(swung *swing.Swing, kind working.WarningKind) int {
	n := 0
	for _, w := range swung.Warnings {
		if w.Kind == kind {
			n++
		}
	}
	return n
}
