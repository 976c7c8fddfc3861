package deviation_test

import (
	"errors"
	"testing"

	"lubberline.example/deviation/internal/devtest"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

// isAmbiguous reports the one error that a table of rows may answer with.
func isAmbiguous(t devtest.Fails, err error) bool {
	t.Helper()
	if _, ok := errors.AsType[*deviation.AmbiguousHeadingError](err); !ok && err != nil {
		t.Fatal(err)
	}
	return err != nil
}

// fromMagnetic is how far the two ways are apart that begin with a magnetic
// heading: the deviation on it, and that on the compass heading it makes.
func fromMagnetic(t devtest.Fails, source deviation.Source, m angle.Magnetic) (apart angle.Angle, ambiguous bool) {
	t.Helper()
	d, err := source.OnMagnetic(m)
	if isAmbiguous(t, err) {
		return 0, true
	}
	e, err := source.OnCompass(d.Compass(m))
	if isAmbiguous(t, err) {
		return 0, true
	}
	return (d.Angle() - e.Angle()).NormalizedSigned().Abs(), false
}

// fromCompass is the same of the two ways that begin with a compass heading.
func fromCompass(t devtest.Fails, source deviation.Source, c angle.Compass) (apart angle.Angle, ambiguous bool) {
	t.Helper()
	d, err := source.OnCompass(c)
	if isAmbiguous(t, err) {
		return 0, true
	}
	e, err := source.OnMagnetic(d.Magnetic(c))
	if isAmbiguous(t, err) {
		return 0, true
	}
	return (d.Angle() - e.Angle()).NormalizedSigned().Abs(), false
}

func TestBothWaysMeetOnEveryHeading(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows := devtest.DrawOrdered(t, 15*devtest.Deg, 40*devtest.Deg)
		heading := devtest.DrawHeading(t, "heading")
		m, c := angle.MagneticFrom(heading), angle.CompassFrom(heading)
		byCompass, byMagnetic := devtest.MustTable(t, rows), devtest.MustTable(t, devtest.AsMagnetic(rows))

		// An answer solved for holds on the table.
		if apart, ambiguous := fromMagnetic(t, byCompass, m); apart > 4 || ambiguous {
			t.Fatalf("by compass, on %v: %d units, %v", m, int64(apart), ambiguous)
		}
		if apart, ambiguous := fromCompass(t, byMagnetic, c); apart > 4 || ambiguous {
			t.Fatalf("by magnetic, on %v: %d units, %v", c, int64(apart), ambiguous)
		}
		// So does one of a smooth table, unless that swings over.
		if apart, _ := fromMagnetic(t, byCompass.Smooth(), m); apart > 4 {
			t.Fatalf("by compass, smooth, on %v: %d units", m, int64(apart))
		}
		if apart, _ := fromCompass(t, byMagnetic.Smooth(), c); apart > 4 {
			t.Fatalf("by magnetic, smooth, on %v: %d units", c, int64(apart))
		}
		// An answer of the table is found again. Where the other heading stands
		// nearly still, half a unit of it is many of the heading: 1/(1 − 0.95).
		if apart, ambiguous := fromCompass(t, byCompass, c); apart > 20 || ambiguous {
			t.Fatalf("by compass, on %v: %d units, %v", c, int64(apart), ambiguous)
		}
		if apart, ambiguous := fromMagnetic(t, byMagnetic, m); apart > 20 || ambiguous {
			t.Fatalf("by magnetic, on %v: %d units, %v", m, int64(apart), ambiguous)
		}
	})
}

// On usual deviations the smooth curve is never ambiguous.
func TestBothWaysMeetOnUsualDeviations(t *testing.T) {
	rows := devtest.Every15(devtest.Usual)
	for _, table := range []*deviation.Table{devtest.MustTable(t, rows), devtest.MustTable(t, devtest.AsMagnetic(rows))} {
		for _, table := range []*deviation.Table{table, table.Smooth()} {
			for h := angle.Angle(0); h < angle.Turn; h += 17*devtest.Minute + 1 {
				if apart, ambiguous := fromMagnetic(t, table, angle.MagneticFrom(h)); apart > 4 || ambiguous {
					t.Fatalf("by %v, on %v°M: %d units, %v", table.By(), h, int64(apart), ambiguous)
				}
				if apart, ambiguous := fromCompass(t, table, angle.CompassFrom(h)); apart > 4 || ambiguous {
					t.Fatalf("by %v, on %v°C: %d units, %v", table.By(), h, int64(apart), ambiguous)
				}
			}
		}
	}
}

// A table on the other heading of each row answers the same there: its rows are
// the same headings of the vessel.
func TestRowsMayBeReadByTheOtherHeading(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows := devtest.DrawOrdered(t, 15*devtest.Deg, 40*devtest.Deg)
		byCompass := devtest.MustTable(t, rows)
		for _, r := range rows {
			m := r.Deviation.Magnetic(r.Heading)
			if d, err := byCompass.OnMagnetic(m); err != nil || d != r.Deviation {
				t.Fatalf("on %v, %v: %v, %v; the row says %v", r.Heading, m, d, err, r.Deviation)
			}
		}
		byMagnetic := devtest.MustTable(t, devtest.AsMagnetic(rows))
		for _, r := range devtest.AsMagnetic(rows) {
			c := r.Deviation.Compass(r.Heading)
			if d, err := byMagnetic.OnCompass(c); err != nil || d != r.Deviation {
				t.Fatalf("on %v, %v: %v, %v; the row says %v", r.Heading, c, d, err, r.Deviation)
			}
		}
	})
}

// Entering a table by compass with a magnetic heading is not the answer.
func TestTableIsNotEnteredWithOtherHeading(t *testing.T) {
	table := devtest.MustTable(t, by45(20, 0, -20, 0, 20, 0, -20, 0))
	m := angle.MustParseMagnetic("020°M")
	wrong, err := table.OnCompass(angle.CompassFrom(m.FromNorth()))
	if err != nil {
		t.Fatal(err)
	}
	right, err := table.OnMagnetic(m)
	// 20 − 20c/45 is the deviation on c, and with it c becomes 020°: c = 0.
	if err != nil || right.String() != "20°00′E" || wrong.String() != "11°06.7′E" {
		t.Errorf("%v, %v; entered with the magnetic heading %v", right, err, wrong)
	}
}
