package deviation_test

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"lubberline.example/deviation/internal/devtest"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

// scan finds every heading whose other heading is as given, by walking round
// the circle in fine steps and halving where it passes. own is the deviation on
// a heading of the table's kind; sign is +1 by compass, −1 by magnetic.
func scan(own func(angle.Angle) angle.Angle, sign, other angle.Angle) []angle.Angle {
	const step = devtest.Deg / 50
	off := func(h angle.Angle) angle.Angle { return (h + sign*own(h) - other).NormalizedSigned() }
	var found []angle.Angle
	before := off(0)
	for h := step; h <= angle.Turn; h += step {
		after := off(h)
		if (before < 0) != (after < 0) && before.Abs() < 90*devtest.Deg && after.Abs() < 90*devtest.Deg {
			low, high := h-step, h
			for high-low > 1 {
				if middle := (low + high) / 2; (off(middle) < 0) == (before < 0) {
					low = middle
				} else {
					high = middle
				}
			}
			found = append(found, high)
		}
		before = after
	}
	return found
}

// headings are the headings of a refusal, of the table's own kind, and the one
// that was asked for.
func headings(e *deviation.AmbiguousHeadingError, by deviation.HeadingKind) (own []angle.Angle, asked angle.Angle, ok bool) {
	if by == deviation.ByCompass {
		for _, c := range e.Compass {
			own = append(own, c.FromNorth())
		}
		if len(e.Magnetic) != 1 {
			return nil, 0, false
		}
		return own, e.Magnetic[0].FromNorth(), true
	}
	for _, m := range e.Magnetic {
		own = append(own, m.FromNorth())
	}
	if len(e.Compass) != 1 {
		return nil, 0, false
	}
	return own, e.Compass[0].FromNorth(), true
}

// For any table, every heading is found that has the other heading asked
// for, and nothing else. A smooth curve that swings out beyond 90° answers with
// a refusal instead, as documented, there and where it is solved for.
func TestEverySolutionIsFound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows := devtest.DrawRows(t, 15*devtest.Deg, 60*devtest.Deg)
		other := devtest.DrawHeading(t, "other heading")
		compass, magnetic := devtest.MustTable(t, rows), devtest.MustTable(t, devtest.AsMagnetic(rows))
		tables := []*deviation.Table{compass, magnetic}
		if !swingsOut(compass.Smooth()) { // the table by magnetic has the same curve
			tables = append(tables, compass.Smooth(), magnetic.Smooth())
		}
		for _, table := range tables {
			// The curve of a table by magnetic is the same as by compass, which
			// answers on every compass heading.
			curve := compass
			if table.IsSmooth() {
				curve = compass.Smooth()
			}
			sign := angle.Angle(1)
			var d deviation.Deviation
			var err error
			if table.By() == deviation.ByCompass {
				d, err = table.OnMagnetic(angle.MagneticFrom(other))
			} else {
				sign = -1
				d, err = table.OnCompass(angle.CompassFrom(other))
			}
			own := func(h angle.Angle) angle.Angle {
				e, err := curve.OnCompass(angle.CompassFrom(h))
				if err != nil {
					t.Fatal(err)
				}
				return e.Angle()
			}
			if table.Ordered() && err != nil {
				t.Fatalf("by %v, smooth %v: ordered, and %v", table.By(), table.IsSmooth(), err)
			}
			var got []angle.Angle
			if e, ok := errors.AsType[*deviation.AmbiguousHeadingError](err); ok {
				var asked angle.Angle
				if got, asked, ok = headings(e, table.By()); !ok || asked != other || len(got) < 2 || !slices.IsSorted(got) {
					t.Fatalf("%+v, asked for %v", e, other)
				}
				if d != (deviation.Deviation{}) {
					t.Fatalf("%v with the refusal", d)
				}
			} else if err != nil {
				t.Fatal(err)
			} else {
				got = []angle.Angle{(other - sign*d.Angle()).Normalized()}
			}
			for _, h := range got {
				// Where the curve is steep, 60° in 15° and over it, half a unit of
				// heading is some units of the other.
				if off := (h + sign*own(h) - other).NormalizedSigned(); off.Abs() > 8 {
					t.Fatalf("by %v, smooth %v: %v is off by %d units", table.By(), table.IsSmooth(), h, int64(off))
				}
			}
			for _, want := range scan(own, sign, other) {
				// Near a turn a unit of the other heading is a thousand of the
				// heading; two solutions that close count as one.
				if !slices.ContainsFunc(got, func(h angle.Angle) bool { return (h - want).NormalizedSigned().Abs() < angle.Second/100_000 }) {
					t.Fatalf("by %v, smooth %v: %v has %v too, found only %v", table.By(), table.IsSmooth(), want, other, got)
				}
			}
		}
	})
}

// swingsOut looks along a table by compass for deviations it refuses.
func swingsOut(table *deviation.Table) bool {
	for h := angle.Angle(0); h < angle.Turn; h += 20 * devtest.Minute {
		d, err := table.OnCompass(angle.CompassFrom(h))
		if err != nil || d.Angle().Abs() > 89*devtest.Deg { // between two looks it may turn
			return true
		}
	}
	return false
}

// steep is a table by compass whose magnetic heading falls from 45° to 90°: 110°
// of deviation to the west within 45°.
var steep = by45(0, 55, -55, 0, 0, 0, 0, 0)

func TestAmbiguousHeadingsAreNamed(t *testing.T) {
	const message = "deviation: magnetic heading 067.5°M belongs to 3 compass headings, [030.4°C 067.5°C 104.6°C]: the deviations change too fast there; steer by another compass, or have this one adjusted"
	table := devtest.MustTable(t, steep)
	_, err := table.OnMagnetic(angle.MustParseMagnetic("067.5°M"))
	e, ok := errors.AsType[*deviation.AmbiguousHeadingError](err)
	if !ok {
		t.Fatal(err)
	}
	if len(e.Magnetic) != 1 || e.Magnetic[0] != angle.MustParseMagnetic("067.5°M") || len(e.Compass) != 3 {
		t.Errorf("%+v", e)
	}
	if err.Error() != message {
		t.Errorf("%v\nwant %s", err, message)
	}
	// On a compass heading there is no doubt, and off the steep part neither.
	if d, err := table.OnCompass(angle.MustParseCompass("067.5°C")); err != nil || d.Angle() != 0 {
		t.Errorf("%v, %v", d, err)
	}
	if d, err := table.OnMagnetic(angle.MustParseMagnetic("225°M")); err != nil || d.Angle() != 0 {
		t.Errorf("%v, %v", d, err)
	}
}

// The same by magnetic heading, the other way about.
func TestAmbiguousHeadingsAreNamedByMagnetic(t *testing.T) {
	const message = "deviation: compass heading 067.5°C belongs to 3 magnetic headings, [030.4°M 067.5°M 104.6°M]: the deviations change too fast there; steer by another compass, or have this one adjusted"
	table := devtest.MustTable(t, devtest.AsMagnetic(by45(0, -55, 55, 0, 0, 0, 0, 0)))
	_, err := table.OnCompass(angle.MustParseCompass("067.5°C"))
	e, ok := errors.AsType[*deviation.AmbiguousHeadingError](err)
	if !ok {
		t.Fatal(err)
	}
	if len(e.Compass) != 1 || e.Compass[0] != angle.MustParseCompass("067.5°C") || len(e.Magnetic) != 3 {
		t.Errorf("%+v", e)
	}
	if err.Error() != message {
		t.Errorf("%v\nwant %s", err, message)
	}
	// On a magnetic heading there is no doubt, and off the steep part neither.
	if d, err := table.OnMagnetic(angle.MustParseMagnetic("067.5°M")); err != nil || d.Angle() != 0 {
		t.Errorf("%v, %v", d, err)
	}
	if d, err := table.OnCompass(angle.MustParseCompass("225°C")); err != nil || d.Angle() != 0 {
		t.Errorf("%v, %v", d, err)
	}
	if _, err := table.ExplainDeviation(angle.MustParseCompass("067.5°C")); !isAmbiguous(t, err) {
		t.Error("explained")
	}
}

// Where the deviation falls just as fast as the heading rises the vessel turns
// and its magnetic heading does not: both ends of that are named.
func TestWhereTheOtherHeadingStandsStill(t *testing.T) {
	table := devtest.MustTable(t, by45(10, -35, 0, 0, 0, 0, 0, 0))
	_, err := table.OnMagnetic(angle.MustParseMagnetic("010°M"))
	e, ok := errors.AsType[*deviation.AmbiguousHeadingError](err)
	if !ok || !slices.Equal(e.Compass, []angle.Compass{angle.MustParseCompass("000°C"), angle.MustParseCompass("045°C")}) {
		t.Errorf("%v", err)
	}
	for _, k := range []struct{ m, want string }{
		{"009.9°M", "10°"}, {"010.1°M", "-35°"},
	} {
		d, err := table.OnMagnetic(angle.MustParseMagnetic(k.m))
		if err != nil || !devtest.Near(d.Degrees(), angle.Must(angle.Parse(k.want)).Degrees(), 0.2) {
			t.Errorf("on %s: %v, %v; want about %s", k.m, d, err, k.want)
		}
	}
	byMagnetic := devtest.MustTable(t, devtest.AsMagnetic(by45(-10, 35, 0, 0, 0, 0, 0, 0)))
	_, err = byMagnetic.OnCompass(angle.MustParseCompass("010°C"))
	if e, ok := errors.AsType[*deviation.AmbiguousHeadingError](err); !ok || !slices.Equal(e.Magnetic, []angle.Magnetic{angle.MustParseMagnetic("000°M"), angle.MustParseMagnetic("045°M")}) {
		t.Errorf("%v", err)
	}
}

// A steep table is ambiguous on some headings, over north too.
func TestAmbiguousAcrossNorth(t *testing.T) {
	rows := by45(0, 55, -55, 0, 0, 0, 0, 0)
	for i := range rows {
		rows[i].Heading = rows[i].Heading.Add(-67*devtest.Deg - 30*devtest.Minute)
	}
	_, err := devtest.MustTable(t, rows).OnMagnetic(angle.MagneticFrom(0))
	if e, ok := errors.AsType[*deviation.AmbiguousHeadingError](err); !ok || len(e.Compass) != 3 || !strings.Contains(err.Error(), "[000°C 037.1°C 322.9°C]") {
		t.Errorf("%v", err)
	}
}

// The periodic spline through samples of −a·sin(h + phase) at steps s has the slope
// −a·cos(phase)·6 sin s ÷ (s·(4 + 2 cos s)) on north: its equations hold for samples of cosines. With
// a slope of −1 the magnetic heading turns back there, on north or some units beside it. North
// counts once, and one other heading has that magnetic heading too.
func TestTurnOnNorthIsOneHeading(t *testing.T) {
	sin, cos := math.Sincos(math.Pi / 4)
	for _, phase := range []float64{-45, -30, 30, 45} {
		amplitude := 45 * (4 + 2*cos) / (6 * sin) / devtest.Degrees(phase).Cos() // degrees
		for more := angle.Angle(-50); more <= 50; more++ {
			rows := by45(0, 0, 0, 0, 0, 0, 0, 0)
			for i := range rows {
				rows[i].Deviation = deviation.West(devtest.Degrees(amplitude * devtest.Degrees(45*float64(i)+phase).Sin()))
			}
			rows[1].Deviation = deviation.East(rows[1].Deviation.Angle() + more)
			_, err := devtest.MustTable(t, rows).Smooth().OnMagnetic(rows[0].Deviation.Magnetic(angle.CompassFrom(0)))
			if e, ok := errors.AsType[*deviation.AmbiguousHeadingError](err); !ok || len(e.Compass) != 2 {
				t.Fatalf("phase %v, %d units more: %v", phase, int64(more), err)
			}
		}
	}
}
