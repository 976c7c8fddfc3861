package deviation_test

import (
	"strings"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// Two rows 5° apart that disagree by 6° throw a smooth curve out beyond them.
func TestASmoothTableThatSwingsFarBeyondItsRowsWarns(t *testing.T) {
	var rows []deviation.Row[angle.Compass]
	for h := 0.0; h < 360; h += 45 {
		rows = append(rows, row(h, 2))
	}
	table := mustTable(t, append(rows, row(5, 8)))
	warnings := 0
	for h := angle.Angle(0); h < angle.Turn; h += deg {
		c := angle.CompassFrom(h)
		if e, err := table.ExplainDeviation(c); err != nil || len(e.Warnings) != 0 {
			t.Errorf("straight, on %v: %v, %v", c, e.Warnings, err)
		}
		e, err := table.Smooth().ExplainDeviation(c)
		if err != nil {
			t.Fatal(err)
		}
		far := e.Deviation.Angle() < -3*deg || e.Deviation.Angle() > 7*deg && (h > 45*deg || h < 5*deg) || e.Deviation.Angle() > 13*deg
		if warned(e.Warnings, deviation.SwingsOut) != far {
			t.Errorf("smooth, on %v: %v, warnings %q", c, e.Deviation, e.Warnings)
		}
		warnings += len(e.Warnings)
	}
	if warnings == 0 {
		t.Error("the curve of this test does not swing out")
	}
	// A usual compass does not, from rows as far apart as they may be.
	rows = nil
	for h := angle.Angle(0); h < angle.Turn; h += 45 * deg {
		rows = append(rows, row(h.Degrees(), 25*h.Sin()+7*(2*h+20*deg).Sin()))
	}
	usual := mustTable(t, rows).Smooth()
	for h := angle.Angle(0); h < angle.Turn; h += deg {
		if e, err := usual.ExplainDeviation(angle.CompassFrom(h)); err != nil || len(e.Warnings) != 0 {
			t.Errorf("usual, on %v: %q, %v", h, e.Warnings, err)
		}
	}
}

func TestACurveWarnsWhereNothingWasObserved(t *testing.T) {
	var headings []angle.Angle
	for h := 90 * deg; h <= 350*deg; h += 10 * deg {
		headings = append(headings, h)
	}
	for _, by := range []deviation.HeadingKind{deviation.ByCompass, deviation.ByMagnetic} {
		fit, err := deviation.NewFit(madeSwing(headings, usual), deviation.FitOptions{By: by})
		if err != nil {
			t.Fatal(err)
		}
		for heading, warns := range map[string]bool{"000°C": true, "085°C": true, "091°C": false, "200°C": false, "349°C": false} {
			e, err := fit.Curve.ExplainDeviation(angle.MustParseCompass(heading))
			if err != nil || warned(e.Warnings, deviation.NotObserved) != warns || len(e.Warnings) > 1 {
				t.Errorf("by %v, on %s: %q, %v", by, heading, e.Warnings, err)
			}
		}
	}
	e, err := angle.Must(deviation.NewFit(madeSwing(headings, usual), deviation.FitOptions{})).Curve.ExplainDeviation(angle.MustParseCompass("000°C"))
	if err != nil || !strings.HasPrefix(e.Warnings[0].Message, "nothing was observed from 350°C to 090°C: ") {
		t.Errorf("%q, %v", e.Warnings, err)
	}
	// All round in eight headings there is nothing to warn of, nor of coefficients.
	even := angle.Must(deviation.NewFit(madeSwing(madeEven(8, 0), usual), deviation.FitOptions{By: deviation.ByMagnetic})).Curve
	for _, curve := range []*deviation.Curve{even, angle.Must(deviation.Coefficients{B: 3 * deg}.Curve(deviation.ByCompass))} {
		for h := angle.Angle(0); h < angle.Turn; h += deg {
			if e, err := curve.ExplainDeviation(angle.CompassFrom(h)); err != nil || len(e.Warnings) != 0 {
				t.Errorf("on %v: %q, %v", h, e.Warnings, err)
			}
		}
	}
}

// What weakens the variation weakens what was found with it.
func TestChecksAndSwingsHandOnTheWarningsOfTheVariation(t *testing.T) {
	rose := variation.MustParseLegend("7°20′W 1985 (2′E)")
	c := against(t, deviation.CheckReading{Heading: new(angle.CompassFrom(0)), Bearing: new(angle.CompassFrom(0)), Time: missNoon, Variation: rose}, "a transit", angle.MustParseTrue("352"), Sigma(0))
	if !warned(c.Warnings, variation.OldRose) {
		t.Errorf("check: %q", c.Warnings)
	}
	reading := []deviation.Reading{{Heading: new(angle.Compass{}), Bearing: new(angle.Compass{}), True: new(angle.True{}), Time: missNoon}}
	for name, m := range map[string]deviation.Method{
		"transit": deviation.Transit{Variation: rose, On: missNoon}, "true": deviation.TrueHeadings{Variation: rose, On: missNoon},
		"Sun": deviation.SunAzimuths{Variation: rose, Position: &smtPlace},
	} {
		swing, err := deviation.Reduce(reading, m)
		if err != nil || !warned(swing.Warnings, variation.OldRose) {
			t.Errorf("%s: %+v, %v", name, swing, err)
		}
	}
}

// A second compass's table is warned of on the heading on which it swings out.
func TestASwingWarnsOfTheSecondCompass(t *testing.T) {
	var rows []deviation.Row[angle.Compass]
	for h := 0.0; h < 360; h += 45 {
		rows = append(rows, row(h, 2))
	}
	smooth := mustTable(t, append(rows, row(5, 8))).Smooth()
	swing, err := deviation.Reduce([]deviation.Reading{{Heading: new(angle.MustParseCompass("024")), Other: new(angle.MustParseCompass("020"))}}, deviation.SecondCompass{Deviation: smooth})
	if err != nil || !warned(swing.Warnings, deviation.SwingsOut) || !strings.HasPrefix(swing.Warnings[0].Message, "the second compass, on 024°C: the smooth curve swings to ") {
		t.Errorf("%+v, %v", swing, err)
	}
}
