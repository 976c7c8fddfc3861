package deviation_test

import (
	"errors"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

// Two rows a hundredth of a minute apart that disagree throw a smooth curve far
// out; the table says so, and without Smooth it answers.
func TestASmoothCurveThatSwingsOutIsRefused(t *testing.T) {
	rows := []deviation.Row[angle.Compass]{{Heading: angle.CompassFrom(angle.Minute / 100), Deviation: deviation.West(5 * angle.Degree)}}
	for h := angle.Angle(0); h < angle.Turn; h += 45 * angle.Degree {
		rows = append(rows, deviation.Row[angle.Compass]{Heading: angle.CompassFrom(h), Deviation: deviation.East(2 * angle.Degree)})
	}
	table := angle.Must(deviation.NewTable(rows))
	refused := 0
	for h := angle.Angle(0); h < angle.Turn; h += angle.Degree {
		if d, err := table.OnCompass(angle.CompassFrom(h)); err != nil || d.Angle().Abs() > 5*angle.Degree {
			t.Errorf("linear on %v: %v, %v", h, d, err)
		}
		d, err := table.Smooth().OnCompass(angle.CompassFrom(h))
		e, is := errors.AsType[*deviation.Error](err)
		switch {
		case err == nil && d.Angle().Abs() > deviation.MaxDeviation:
			t.Errorf("smooth on %v: %v", h, d)
		case err != nil && (!is || e.Kind != deviation.DeviationTooLarge || e.Row != -1 || e.Heading != h):
			t.Errorf("smooth on %v: %v", h, err)
		case err != nil:
			refused++
		}
		if d, err := table.Smooth().OnMagnetic(angle.MagneticFrom(h)); err == nil && d.Angle().Abs() > deviation.MaxDeviation {
			t.Errorf("smooth on magnetic %v: %v", h, d)
		}
	}
	if refused == 0 {
		t.Error("the curve of this test does not swing out")
	}
}
