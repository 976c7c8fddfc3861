package deviation_test

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
)

const (
	deg    = angle.Degree
	minute = angle.Minute
)

// kinds are both kinds of heading.
var kinds = [2]deviation.HeadingKind{deviation.ByCompass, deviation.ByMagnetic}

// fails is what a test and a law have in common.
type fails interface {
	Helper()
	Fatal(args ...any)
	Fatalf(format string, args ...any)
}

// row is a row of a table by compass, heading and deviation in degrees.
func row(heading, east float64) deviation.Row[angle.Compass] {
	return deviation.Row[angle.Compass]{Heading: angle.CompassFrom(degrees(heading)), Deviation: deviation.East(degrees(east))}
}

// degrees is the angle of a number of degrees known to fit.
func degrees(d float64) angle.Angle { return angle.Must(angle.Degrees(d)) }

// Sigma is a stated standard uncertainty.
func Sigma(a angle.Angle) angle.Uncertainty { return angle.Must(angle.StandardUncertainty(a)) }

// against is a check that nothing is wrong with.
func against(t fails, r deviation.CheckReading, what string, direction angle.True, known angle.Uncertainty) deviation.Check {
	t.Helper()
	c, err := r.Against(what, direction, known)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// warned reports whether there is a warning of a kind, with something to say.
func warned(warnings []working.Warning, kind working.WarningKind) bool {
	return slices.ContainsFunc(warnings, func(w working.Warning) bool { return w.Kind == kind && w.Message != "" })
}

// mustTable makes a table of rows known to be fit for one.
func mustTable[H deviation.TableHeading](t fails, rows []deviation.Row[H]) *deviation.Table {
	t.Helper()
	table, err := deviation.NewTable(rows)
	if err != nil {
		t.Fatal(err)
	}
	return table
}

// asMagnetic is the same rows by magnetic heading.
func asMagnetic(rows []deviation.Row[angle.Compass]) []deviation.Row[angle.Magnetic] {
	var m []deviation.Row[angle.Magnetic]
	for _, r := range rows {
		m = append(m, deviation.Row[angle.Magnetic]{Heading: angle.MagneticFrom(r.Heading.FromNorth()), Deviation: r.Deviation})
	}
	return m
}

// every15 is rows on every 15° of compass heading.
func every15(east func(heading angle.Angle) float64) []deviation.Row[angle.Compass] {
	var rows []deviation.Row[angle.Compass]
	for h := range angle.Angle(24) {
		rows = append(rows, deviation.Row[angle.Compass]{Heading: angle.CompassFrom(h * 15 * deg), Deviation: deviation.East(degrees(east(h * 15 * deg)))})
	}
	return rows
}

// usual is the deviation of a usual compass, invented: of the coefficients
// A 1°, B −4°, C 3°, D 2°, E ½°.
func usual(heading angle.Angle) float64 {
	return 1 - 4*heading.Sin() + 3*heading.Cos() + 2*(2*heading).Sin() + 0.5*(2*heading).Cos()
}

// drawRows draws rows at least some degrees apart, of deviations up to a limit.
// A table goes round north, so that the first need not be there.
func drawRows(t *rapid.T, least, limit angle.Angle) []deviation.Row[angle.Compass] {
	var rows []deviation.Row[angle.Compass]
	first := drawHeading(t, "first heading")
	for at := angle.Angle(0); ; {
		rows = append(rows, deviation.Row[angle.Compass]{
			Heading:   angle.CompassFrom(first + at),
			Deviation: deviation.East(drawBetween(t, -limit, limit, "deviation")),
		})
		left := angle.Turn - at
		if left <= deviation.MostGap && (left < 2*least || rapid.Bool().Draw(t, "enough")) {
			return rows
		}
		at += drawBetween(t, least, min(deviation.MostGap, left-least), "gap")
	}
}

// drawOrdered draws rows whose deviations fall by less than the heading rises:
// each compass heading has a magnetic heading of its own, and the other way
// about for both kinds of table.
func drawOrdered(t *rapid.T, least, limit angle.Angle) []deviation.Row[angle.Compass] {
	rows := drawRows(t, least, limit)
	steepest := 0.0
	for i, r := range rows {
		next := rows[(i+1)%len(rows)]
		gap := (next.Heading.FromNorth() - r.Heading.FromNorth()).Normalized()
		steepest = max(steepest, math.Abs((next.Deviation.Angle()-r.Deviation.Angle()).Degrees()/gap.Degrees()))
	}
	if flatter := 0.95 / steepest; flatter < 1 {
		for i := range rows {
			rows[i].Deviation = deviation.East(angle.Must(rows[i].Deviation.Angle().Scale(flatter)))
		}
	}
	return rows
}

// drawHeading draws any angle from north.
func drawHeading(t *rapid.T, label string) angle.Angle {
	return drawBetween(t, 0, angle.Turn-1, label)
}

// drawBetween draws an angle, both ends included.
func drawBetween(t *rapid.T, least, most angle.Angle, label string) angle.Angle {
	return angle.Angle(rapid.Int64Range(int64(least), int64(most)).Draw(t, label))
}

func TestTheDrawnRowsAreFitForATable(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mustTable(t, drawRows(t, 5*deg, 40*deg))
		mustTable(t, drawOrdered(t, 15*deg, 40*deg))
	})
}

func near(a, b, within float64) bool { return math.Abs(a-b) <= within }
