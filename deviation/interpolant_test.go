package deviation_test

import (
	"math"
	"math/big"
	"testing"

	"lubberline.example/deviation/internal/devtest"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

// slowLinear goes between the rows around a heading in exact fractions, trying
// every pair of neighbours.
func slowLinear(rows []deviation.Row[angle.Compass], heading angle.Angle) float64 {
	for i, r := range rows {
		next := rows[(i+1)%len(rows)]
		width := (next.Heading.FromNorth() - r.Heading.FromNorth()).Normalized()
		along := (heading - r.Heading.FromNorth()).Normalized()
		if along > width {
			continue
		}
		rise := new(big.Rat).SetInt64(int64(next.Deviation.Angle() - r.Deviation.Angle()))
		rise.Mul(rise, new(big.Rat).SetFrac64(int64(along), int64(width)))
		f, _ := rise.Add(rise, new(big.Rat).SetInt64(int64(r.Deviation.Angle()))).Float64()
		return f
	}
	return math.NaN()
}

func TestBetweenRowsATableIsLinear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows := devtest.DrawRows(t, devtest.Deg, 90*devtest.Deg)
		table := devtest.MustTable(t, rows)
		by := devtest.MustTable(t, devtest.AsMagnetic(rows))
		heading := devtest.DrawHeading(t, "heading")
		want := slowLinear(rows, heading)
		d, err := table.OnCompass(angle.CompassFrom(heading))
		if err != nil || !devtest.Near(float64(d.Angle()), want, 0.75) { // half a unit, and what a float64 of 180° is good to
			t.Fatalf("on %v: %v, %v; the slow way %.2f units", heading, d, err, want)
		}
		m, err := by.OnMagnetic(angle.MagneticFrom(heading))
		if !isAmbiguous(t, err) && m != d {
			t.Fatalf("by magnetic %v, by compass %v", m, d)
		}
	})
}

func TestATableGoesRoundThroughNorth(t *testing.T) {
	// From 4° E on 345° to 2° W on 015°, with nothing on north itself.
	rows := devtest.Every15(func(angle.Angle) float64 { return 0 })
	rows[23].Deviation, rows[1].Deviation = deviation.East(4*devtest.Deg), deviation.West(2*devtest.Deg)
	table := devtest.MustTable(t, rows[1:])
	for heading, want := range map[float64]string{345: "4°00′E", 350: "3°00′E", 355: "2°00′E", 0: "1°00′E", 360: "1°00′E", 5: "0°00′E", 10: "1°00′W", 15: "2°00′W"} {
		if d, err := table.OnCompass(angle.CompassFrom(devtest.Degrees(heading))); err != nil || d.String() != want {
			t.Errorf("on %v°: %v, %v; want %s", heading, d, err, want)
		}
	}
}

// On its rows a table says what they say, linear or smooth.
func TestOnItsRowsATableSaysWhatTheySay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows := devtest.DrawRows(t, devtest.Deg, 90*devtest.Deg)
		table := devtest.MustTable(t, rows)
		by := devtest.MustTable(t, devtest.AsMagnetic(rows))
		pairs := [][2]*deviation.Table{{table, by}, {table.Smooth(), by.Smooth()}}
		for _, r := range rows {
			m := angle.MagneticFrom(r.Heading.FromNorth())
			for _, tables := range pairs {
				c, errC := tables[0].OnCompass(r.Heading)
				d, errD := tables[1].OnMagnetic(m)
				if c != r.Deviation || errC != nil || !isAmbiguous(t, errD) && d != r.Deviation {
					t.Fatalf("on %v: %v, %v and %v, %v; the row says %v", r.Heading, c, errC, d, errD, r.Deviation)
				}
			}
		}
	})
}

// Turning the compass card turns the curve with it.
func TestTurningTheTableTurnsTheAnswers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows := devtest.DrawRows(t, 5*devtest.Deg, 40*devtest.Deg)
		turn := devtest.DrawHeading(t, "turn")
		turned := make([]deviation.Row[angle.Compass], len(rows))
		for i, r := range rows {
			turned[i] = deviation.Row[angle.Compass]{Heading: r.Heading.Add(turn), Deviation: r.Deviation}
		}
		a, b := devtest.MustTable(t, rows), devtest.MustTable(t, turned)
		c := angle.CompassFrom(devtest.DrawHeading(t, "heading"))
		for _, tables := range [][2]*deviation.Table{{a, b}, {a.Smooth(), b.Smooth()}} {
			x, errX := tables[0].OnCompass(c)
			y, errY := tables[1].OnCompass(c.Add(turn))
			if errX != nil && errY != nil && tables[0].IsSmooth() {
				continue // a curve that swings out beyond 90° is refused, turned or not
			}
			// The spline's equations are solved in another order.
			if errX != nil || errY != nil || (x.Angle()-y.Angle()).Abs() > 2 {
				t.Fatalf("%v on %v, %v after a turn of %v: %d units; %v, %v", x, c, y, turn, int64(x.Angle()-y.Angle()), errX, errY)
			}
		}
	})
}
