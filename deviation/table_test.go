package deviation_test

import (
	"errors"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"lubberline.example/deviation/internal/devtest"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

// by45 is rows on the eight principal headings.
func by45(east ...float64) []deviation.Row[angle.Compass] {
	var rows []deviation.Row[angle.Compass]
	for i, e := range east {
		rows = append(rows, devtest.RowOf(45*float64(i), e))
	}
	return rows
}

func TestRowsThatMakeNoTable(t *testing.T) {
	change := func(f func(rows []deviation.Row[angle.Compass]) []deviation.Row[angle.Compass]) []deviation.Row[angle.Compass] {
		return f(devtest.Every15(devtest.Usual))
	}
	stated := func(rows []deviation.Row[angle.Compass], which ...int) []deviation.Row[angle.Compass] {
		for _, i := range which {
			rows[i].Deviation = rows[i].Deviation.WithUncertainty(devtest.Sigma(devtest.Deg))
		}
		return rows
	}
	for _, c := range []struct {
		name    string
		rows    []deviation.Row[angle.Compass]
		kind    deviation.ErrorKind
		heading angle.Angle
		row     int
		want    string
	}{
		{"none", nil, deviation.NoRows, 0, -1, "at least 8 headings"},
		{"one", devtest.Every15(devtest.Usual)[:1], deviation.GapTooWide, 0, 0, "360°00′"},
		{"two", devtest.Every15(devtest.Usual)[:2], deviation.GapTooWide, 15 * devtest.Deg, 1, "345°00′"},
		{"the same twice, alone", []deviation.Row[angle.Compass]{devtest.RowOf(10, 1), devtest.RowOf(370, 2)}, deviation.DuplicateHeading, 10 * devtest.Deg, 1, "1°00′E and 2°00′E"},
		{"given twice", append(devtest.Every15(devtest.Usual), devtest.RowOf(90, 1)), deviation.DuplicateHeading, 90 * devtest.Deg, 24, "given twice"},
		{"given twice, the same", append(devtest.Every15(devtest.Usual), devtest.RowOf(90, devtest.Usual(90*devtest.Deg))), deviation.DuplicateHeading, 90 * devtest.Deg, 24, "given twice"},
		{"360 and 000", append(devtest.Every15(devtest.Usual), devtest.RowOf(360, 1)), deviation.DuplicateHeading, 0, 24, "given twice"},
		{"a gap", slices.Delete(devtest.Every15(devtest.Usual), 7, 10), deviation.GapTooWide, 90 * devtest.Deg, 6, "the next row is on 150°C, 60°00′ away; rows may be at most 45° apart"},
		{"a gap over north", slices.Delete(devtest.Every15(devtest.Usual), 0, 3), deviation.GapTooWide, 345 * devtest.Deg, 20, "on 045°C, 60°00′ away"},
		{"a gap, the rows in no order", []deviation.Row[angle.Compass]{devtest.RowOf(350, 1), devtest.RowOf(45, 1), devtest.RowOf(90, 1), devtest.RowOf(135, 1), devtest.RowOf(180, 1), devtest.RowOf(225, 1), devtest.RowOf(270, 1), devtest.RowOf(310, 1)}, deviation.GapTooWide, 350 * devtest.Deg, 0, "on 045°C, 55°00′ away"},
		{"a gap just too wide", append(slices.Delete(by45(1, 1, 1, 1, 1, 1, 1, 1), 3, 4), deviation.Row[angle.Compass]{Heading: angle.CompassFrom(135*devtest.Deg + 1)}), deviation.GapTooWide, 90 * devtest.Deg, 2, "45°"},
		{"too large", change(func(r []deviation.Row[angle.Compass]) []deviation.Row[angle.Compass] {
			r[5].Deviation = deviation.East(90*devtest.Deg + 1)
			return r
		}), deviation.DeviationTooLarge, 75 * devtest.Deg, 5, "at most 90°"},
		{"too large, west", change(func(r []deviation.Row[angle.Compass]) []deviation.Row[angle.Compass] {
			r[5].Deviation = deviation.West(91 * devtest.Deg)
			return r
		}), deviation.DeviationTooLarge, 75 * devtest.Deg, 5, "91°00′W"},
		{"stated on one", stated(devtest.Every15(devtest.Usual), 3), deviation.UncertaintyPartial, 45 * devtest.Deg, 3, "on all or on none"},
		{"stated on the first", stated(devtest.Every15(devtest.Usual), 0), deviation.UncertaintyPartial, 15 * devtest.Deg, 1, "on all or on none"},
	} {
		table, err := deviation.NewTable(c.rows)
		e, ok := errors.AsType[*deviation.Error](err)
		if !ok || table != nil {
			t.Errorf("%s: %v, %v", c.name, table, err)
			continue
		}
		if e.Kind != c.kind || e.Heading != c.heading || e.Row != c.row || e.By != deviation.ByCompass || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %+v: %v; want %s on %v in row %d: %s", c.name, e, err, c.kind, c.heading, c.row, c.want)
		}
		_, err = deviation.NewTable(devtest.AsMagnetic(c.rows))
		m, ok := errors.AsType[*deviation.Error](err)
		if !ok || m.Kind != c.kind || m.Heading != c.heading || m.Row != c.row || m.By != deviation.ByMagnetic || strings.Contains(err.Error(), "°C") {
			t.Errorf("%s, by magnetic: %+v", c.name, m)
		}
	}
}

func TestAtTheLimitsRowsMakeATable(t *testing.T) {
	at90 := by45(90, -90, 90, -90, 90, -90, 90, -90)
	table := devtest.MustTable(t, at90)
	if d, err := table.OnCompass(angle.CompassFrom(45 * devtest.Deg)); err != nil || d.Angle() != -90*devtest.Deg {
		t.Errorf("%v, %v", d, err)
	}
	if deviation.MaxGap != 45*devtest.Deg || deviation.MaxDeviation != 90*devtest.Deg {
		t.Error("the limits are not those documented")
	}
}

// The Row of an error is the caller's, in any order of the rows.
func TestErrorsNameTheRowAsGiven(t *testing.T) {
	rows := devtest.Every15(devtest.Usual)
	rows[7].Deviation = deviation.East(100 * devtest.Deg)
	bad := rows[7]
	rand.New(rand.NewPCG(1, 2)).Shuffle(len(rows), func(i, j int) { rows[i], rows[j] = rows[j], rows[i] })
	_, err := deviation.NewTable(rows)
	if e, ok := errors.AsType[*deviation.Error](err); !ok || rows[e.Row] != bad {
		t.Errorf("%+v", e)
	}
}

func TestRowsMayComeInAnyOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows := devtest.DrawRows(t, 5*devtest.Deg, 40*devtest.Deg)
		shuffled := rapid.Permutation(rows).Draw(t, "order")
		a, b := devtest.MustTable(t, rows), devtest.MustTable(t, shuffled)
		if !slices.Equal(a.Entries(), b.Entries()) {
			t.Fatalf("%v\n%v", a.Entries(), b.Entries())
		}
		if !slices.IsSortedFunc(a.Entries(), func(x, y deviation.Entry) int {
			return int((x.Compass.FromNorth() - y.Compass.FromNorth()) / devtest.Deg)
		}) {
			t.Fatalf("not in the order of the headings: %v", a.Entries())
		}
		c := angle.CompassFrom(devtest.DrawHeading(t, "heading"))
		x, err1 := a.OnCompass(c)
		y, err2 := b.OnCompass(c)
		if x != y || err1 != nil || err2 != nil {
			t.Fatalf("%v and %v", x, y)
		}
	})
}

func TestATableSaysWhatItIs(t *testing.T) {
	rows := devtest.Every15(devtest.Usual)
	c, m := devtest.MustTable(t, rows), devtest.MustTable(t, devtest.AsMagnetic(rows))
	if c.By() != deviation.ByCompass || m.By() != deviation.ByMagnetic || string(c.By()) != "compass" || string(m.By()) != "magnetic" {
		t.Errorf("%v, %v", c.By(), m.By())
	}
	if c.IsSmooth() || !c.Smooth().IsSmooth() || c.IsSmooth() {
		t.Error("smooth is not what it says, or changed the table")
	}
	entries := c.Entries()
	if len(entries) != 24 || entries[3] != (deviation.Entry{Compass: angle.CompassFrom(45 * devtest.Deg), Magnetic: rows[3].Deviation.Magnetic(angle.CompassFrom(45 * devtest.Deg)), Deviation: rows[3].Deviation}) {
		t.Errorf("%v", entries)
	}
	entries[3].Deviation = deviation.East(77 * devtest.Deg)
	rows[3].Deviation = deviation.East(77 * devtest.Deg)
	if d, err := c.OnCompass(angle.CompassFrom(45 * devtest.Deg)); err != nil || d.Angle() == 77*devtest.Deg {
		t.Errorf("someone else's change is in the table: %v, %v", d, err)
	}
}

func TestTheZeroTableAnswersWithAnError(t *testing.T) {
	var zero deviation.Table
	for _, table := range []*deviation.Table{&zero, zero.Smooth(), zero.WithUncertainty(devtest.Sigma(devtest.Deg))} {
		_, err1 := table.OnCompass(angle.Compass{})
		_, err2 := table.OnMagnetic(angle.Magnetic{})
		_, err3 := table.ExplainDeviation(angle.Compass{})
		for _, err := range []error{err1, err2, err3} {
			if e, ok := errors.AsType[*deviation.Error](err); !ok || e.Kind != deviation.NoRows || !strings.Contains(err.Error(), "no rows") {
				t.Errorf("%v", err)
			}
		}
		if len(table.Entries()) != 0 {
			t.Error("rows out of nothing")
		}
	}
}

func TestNearestEntry(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		table := devtest.MustTable(t, devtest.DrawRows(t, 5*devtest.Deg, 40*devtest.Deg))
		heading := devtest.DrawHeading(t, "heading")
		got, _ := table.NearestEntry(heading + angle.Turn*angle.Angle(rapid.IntRange(-3, 3).Draw(t, "turns")))
		clockwise := func(e deviation.Entry) angle.Angle { return (devtest.HeadingOf(table, e) - heading).Normalized() }
		away := func(e deviation.Entry) angle.Angle { return min(clockwise(e), angle.Turn-clockwise(e)) }
		for _, e := range table.Entries() {
			if away(e) < away(got) {
				t.Fatalf("from %v the row on %v, %v is nearer", heading, got.Compass, e.Compass)
			}
		}
	})
}

func TestNearestEntryGoesClockwise(t *testing.T) {
	table := devtest.MustTable(t, by45(0, 1, 2, 3, 4, 5, 6, 7))
	for heading, want := range map[angle.Angle]angle.Angle{
		22*devtest.Deg + 30*devtest.Minute:      45 * devtest.Deg,
		22*devtest.Deg + 30*devtest.Minute - 1:  0,
		337*devtest.Deg + 30*devtest.Minute:     0, // across north
		337*devtest.Deg + 30*devtest.Minute - 1: 315 * devtest.Deg,
		-(22*devtest.Deg + 30*devtest.Minute):   0,
		180 * devtest.Deg:                       180 * devtest.Deg,
		angle.Turn:                              0,
	} {
		if e, err := table.NearestEntry(heading); err != nil || e.Compass.FromNorth() != want {
			t.Errorf("nearest to %v: %v, want %v", heading, e.Compass, want)
		}
	}
}

func TestUncertaintyIsInterpolated(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows := devtest.DrawOrdered(t, 15*devtest.Deg, 30*devtest.Deg)
		for i := range rows {
			rows[i].Deviation = rows[i].Deviation.WithUncertainty(devtest.Sigma(angle.Angle(rapid.Int64Range(0, int64(devtest.Deg)).Draw(t, "uncertainty"))))
		}
		table := devtest.MustTable(t, rows)
		if rapid.Bool().Draw(t, "smooth") {
			table = table.Smooth()
		}
		i := rapid.IntRange(0, len(rows)-1).Draw(t, "row")
		a, b := rows[i], rows[(i+1)%len(rows)]
		gap := (b.Heading.FromNorth() - a.Heading.FromNorth()).Normalized()
		s := rapid.Float64Range(0, 0.999).Draw(t, "along")
		c := angle.CompassFrom(a.Heading.FromNorth() + angle.Must(gap.Scale(s)))
		sa, _ := a.Deviation.Uncertainty().Sigma()
		sb, _ := b.Deviation.Uncertainty().Sigma()
		want := float64(sa) + s*float64(sb-sa)

		d, err := table.OnCompass(c)
		got, stated := d.Uncertainty().Sigma()
		if err != nil || !stated || !devtest.Near(float64(got), want, 2) { // units
			t.Fatalf("%v, %v; want %.0f units", got, err, want)
		}
		if got < min(sa, sb) {
			t.Fatalf("%v is better than %v and %v", got, sa, sb)
		}
		// By magnetic heading the same deviation is known as well.
		e, err := table.OnMagnetic(d.Magnetic(c))
		if _, ambiguous := errors.AsType[*deviation.AmbiguousHeadingError](err); ambiguous {
			t.Skip("the spline is not ordered")
		}
		other, stated := e.Uncertainty().Sigma()
		if err != nil || !stated || !devtest.Near(float64(other), want, 2) { // units
			t.Fatalf("%v, %v; want %.0f units", other, err, want)
		}
	})
}

func TestUncertaintyOnTheRowsAndTheSameOnAll(t *testing.T) {
	table := devtest.MustTable(t, devtest.Every15(devtest.Usual))
	if d, err := table.OnCompass(angle.CompassFrom(7 * devtest.Deg)); err != nil || d.Uncertainty() != (angle.Uncertainty{}) {
		t.Errorf("an uncertainty that nobody gave: %v, %v", d.Uncertainty(), err)
	}
	known := table.WithUncertainty(devtest.Sigma(30 * devtest.Minute))
	for h := angle.Angle(0); h < angle.Turn; h += 7 * devtest.Deg {
		a, errA := known.OnCompass(angle.CompassFrom(h))
		b, errB := known.OnMagnetic(angle.MagneticFrom(h))
		if errA != nil || errB != nil || a.Uncertainty() != devtest.Sigma(30*devtest.Minute) || b.Uncertainty() != devtest.Sigma(30*devtest.Minute) {
			t.Fatalf("on %v: %v and %v", h, a.Uncertainty(), b.Uncertainty())
		}
		plain, err := table.OnCompass(angle.CompassFrom(h))
		if err != nil || plain.Angle() != a.Angle() || plain.Uncertainty() != (angle.Uncertainty{}) {
			t.Fatalf("the table changed: %v, %v", plain, err)
		}
	}
}
