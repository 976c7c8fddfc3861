package deviation_test

import (
	"strings"
	"testing"

	"lubberline.example/deviation/internal/devtest"
	"lubberline.example/deviation/swing"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

// Two rows 5° apart that disagree by 6° throw a smooth curve out beyond them.
func TestSmoothTableSwingingOutWarns(t *testing.T) {
	var rows []deviation.Row[angle.Compass]
	for h := 0.0; h < 360; h += 45 {
		rows = append(rows, devtest.RowOf(h, 2))
	}
	table := devtest.MustTable(t, append(rows, devtest.RowOf(5, 8)))
	warnings := 0
	for h := angle.Angle(0); h < angle.Turn; h += devtest.Deg {
		c := angle.CompassFrom(h)
		if e, err := table.ExplainDeviation(c); err != nil || len(e.Warnings) != 0 {
			t.Errorf("straight, on %v: %v, %v", c, e.Warnings, err)
		}
		e, err := table.Smooth().ExplainDeviation(c)
		if err != nil {
			t.Fatal(err)
		}
		far := e.Deviation.Angle() < -3*devtest.Deg || e.Deviation.Angle() > 7*devtest.Deg && (h > 45*devtest.Deg || h < 5*devtest.Deg) || e.Deviation.Angle() > 13*devtest.Deg
		if devtest.Warned(e.Warnings, deviation.SwingsOut) != far {
			t.Errorf("smooth, on %v: %v, warnings %q", c, e.Deviation, e.Warnings)
		}
		warnings += len(e.Warnings)
	}
	if warnings == 0 {
		t.Error("the curve of this test does not swing out")
	}
	// A usual compass does not, from rows as far apart as they may be.
	rows = nil
	for h := angle.Angle(0); h < angle.Turn; h += 45 * devtest.Deg {
		rows = append(rows, devtest.RowOf(h.Degrees(), 25*h.Sin()+7*(2*h+20*devtest.Deg).Sin()))
	}
	usual := devtest.MustTable(t, rows).Smooth()
	for h := angle.Angle(0); h < angle.Turn; h += devtest.Deg {
		if e, err := usual.ExplainDeviation(angle.CompassFrom(h)); err != nil || len(e.Warnings) != 0 {
			t.Errorf("usual, on %v: %q, %v", h, e.Warnings, err)
		}
	}
}

func TestACurveWarnsWhereNothingWasObserved(t *testing.T) {
	var headings []angle.Angle
	for h := 90 * devtest.Deg; h <= 350*devtest.Deg; h += 10 * devtest.Deg {
		headings = append(headings, h)
	}
	for _, by := range []deviation.HeadingKind{deviation.ByCompass, deviation.ByMagnetic} {
		fit, err := swing.NewFit(devtest.Swing(headings, devtest.Usual), swing.FitOptions{By: by})
		if err != nil {
			t.Fatal(err)
		}
		for heading, warns := range map[string]bool{"000°C": true, "085°C": true, "091°C": false, "200°C": false, "349°C": false} {
			e, err := fit.Curve.ExplainDeviation(angle.MustParseCompass(heading))
			if err != nil || devtest.Warned(e.Warnings, deviation.NotObserved) != warns || len(e.Warnings) > 1 {
				t.Errorf("by %v, on %s: %q, %v", by, heading, e.Warnings, err)
			}
		}
	}
	e, err := angle.Must(swing.NewFit(devtest.Swing(headings, devtest.Usual), swing.FitOptions{})).Curve.ExplainDeviation(angle.MustParseCompass("000°C"))
	if err != nil || !strings.HasPrefix(e.Warnings[0].Message, "there is no observation from 350°C to 090°C: ") {
		t.Errorf("%q, %v", e.Warnings, err)
	}
	// All round in eight headings there is nothing to warn of, nor of coefficients.
	even := angle.Must(swing.NewFit(devtest.Swing(devtest.Even(8, 0), devtest.Usual), swing.FitOptions{By: deviation.ByMagnetic})).Curve
	for _, curve := range []*deviation.Curve{even, angle.Must(deviation.Coefficients{B: 3 * devtest.Deg}.Curve(deviation.ByCompass))} {
		for h := angle.Angle(0); h < angle.Turn; h += devtest.Deg {
			if e, err := curve.ExplainDeviation(angle.CompassFrom(h)); err != nil || len(e.Warnings) != 0 {
				t.Errorf("on %v: %q, %v", h, e.Warnings, err)
			}
		}
	}
}
