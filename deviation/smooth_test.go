package deviation_test

import (
	"errors"
	"math"
	"testing"

	"lubberline.example/deviation/internal/devtest"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

// slowSpline is the periodic cubic spline by another way: for the slopes at the
// knots, not the second derivatives, by Gaussian elimination. In degrees.
type slowSpline struct{ at, value, slope []float64 }

func newSlowSpline(rows []deviation.Row[angle.Compass]) slowSpline {
	n := len(rows)
	s := slowSpline{make([]float64, n+1), make([]float64, n+1), nil}
	for i := range n + 1 {
		r := rows[i%n]
		s.at[i] = (r.Heading.FromNorth() - rows[0].Heading.FromNorth()).Normalized().Degrees()
		s.value[i] = r.Deviation.Degrees()
	}
	s.at[n] = 360
	// The second derivative has no jump where, with the widths h and the
	// slopes of the chords d before and after,
	//
	//	s₋/h₋ + 2 s (1/h₋ + 1/h₊) + s₊/h₊ = 3 (d₋/h₋ + d₊/h₊)
	m := make([][]float64, n)
	for i := range n {
		before := (i + n - 1) % n
		h, k := s.at[before+1]-s.at[before], s.at[i+1]-s.at[i]
		m[i] = make([]float64, n+1)
		m[i][before] += 1 / h
		m[i][i] += 2/h + 2/k
		m[i][(i+1)%n] += 1 / k
		m[i][n] = 3 * ((s.value[before+1]-s.value[before])/(h*h) + (s.value[i+1]-s.value[i])/(k*k))
	}
	for c := range n { // Gauss and Jordan
		pivot := c
		for r := c + 1; r < n; r++ {
			if math.Abs(m[r][c]) > math.Abs(m[pivot][c]) {
				pivot = r
			}
		}
		m[c], m[pivot] = m[pivot], m[c]
		for r := range n {
			if f := m[r][c] / m[c][c]; r != c && f != 0 {
				for k := c; k <= n; k++ {
					m[r][k] -= f * m[c][k]
				}
			}
		}
	}
	for i := range n + 1 {
		s.slope = append(s.slope, m[i%n][n]/m[i%n][i%n])
	}
	return s
}

// on is the spline's value some degrees clockwise of the first row.
func (s slowSpline) on(x float64) float64 {
	i := 0
	for x > s.at[i+1] {
		i++
	}
	h := s.at[i+1] - s.at[i]
	t := (x - s.at[i]) / h
	// Hermite's form.
	return (1+2*t)*(1-t)*(1-t)*s.value[i] + t*(1-t)*(1-t)*h*s.slope[i] +
		t*t*(3-2*t)*s.value[i+1] + t*t*(t-1)*h*s.slope[i+1]
}

func TestSmoothCurveIsPeriodicSpline(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows := devtest.DrawRows(t, devtest.Deg, 40*devtest.Deg)
		table := devtest.MustTable(t, rows).Smooth()
		slow := newSlowSpline(rows)
		heading := devtest.DrawHeading(t, "heading")
		want := slow.on((heading - rows[0].Heading.FromNorth()).Normalized().Degrees())
		d, err := table.OnCompass(angle.CompassFrom(heading))
		if math.Abs(want) > 89.999999 { // beyond 90° it is refused
			e, refused := errors.AsType[*deviation.Error](err)
			if refused && e.Kind != deviation.DeviationTooLarge || !refused && math.Abs(want) > 90.000001 {
				t.Fatalf("on %v: %v, %v; another way %.12f", heading, d, err, want)
			}
			return
		}
		// Rows 1° apart make slopes of 80 and swings of hundreds of degrees,
		// where a float64 in degrees is good to 1e-10.
		if off := math.Mod(d.Degrees()-want+540, 360) - 180; err != nil || math.Abs(off) > 1e-10*max(1, math.Abs(want)) {
			t.Fatalf("on %v: %.12f, %v; another way %.12f", heading, d.Degrees(), err, want)
		}
	})
}

// edge is a smooth table's value, slope and curvature at one end of a segment,
// the last two times its width and the width's square, from four samples: a
// cubic is known from four.
func edge(t devtest.Fails, table *deviation.Table, from, width angle.Angle, end bool) (value, slope, curvature float64) {
	var y [4]float64
	w := float64(width)
	third := width / 3
	for i, x := range [4]angle.Angle{0, third, 2 * third, width} {
		d, err := table.OnCompass(angle.CompassFrom(from + x))
		if err != nil {
			t.Fatal(err)
		}
		y[i] = float64(d.Angle())
	}
	if end {
		y[0], y[1], y[2], y[3] = y[3], y[2], y[1], y[0]
		w = -w
	}
	// Derivatives of the cubic through 0, ⅓, ⅔ and 1, at 0.
	first := (-11*y[0] + 18*y[1] - 9*y[2] + 2*y[3]) / 2
	second := 9 * (2*y[0] - 5*y[1] + 4*y[2] - y[3])
	return y[0], first / w, second / (w * w)
}

// At its rows, at north too, the smooth curve has no corner and no jump of its
// curvature.
func TestTheSmoothCurveIsSmoothAtItsRows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows := devtest.DrawRows(t, 10*devtest.Deg, 30*devtest.Deg)
		if rapid.Bool().Draw(t, "a row on north") {
			turn := -rows[0].Heading.FromNorth()
			for i := range rows {
				rows[i].Heading = rows[i].Heading.Add(turn)
			}
		}
		table := devtest.MustTable(t, rows).Smooth()
		entries := table.Entries()
		for i, e := range entries {
			before := entries[(i+len(entries)-1)%len(entries)]
			after := entries[(i+1)%len(entries)]
			h := (devtest.HeadingOf(table, e) - devtest.HeadingOf(table, before)).Normalized()
			k := (devtest.HeadingOf(table, after) - devtest.HeadingOf(table, e)).Normalized()
			// Thirds of a width are cut to whole units, each sample is rounded:
			// a few units in the value over widths of 3.6e13 and more.
			v1, s1, c1 := edge(t, table, devtest.HeadingOf(table, before), h, true)
			v2, s2, c2 := edge(t, table, devtest.HeadingOf(table, e), k, false)
			w := float64(min(h, k))
			if v1 != v2 || math.Abs(s1-s2)*w > 100 || math.Abs(c1-c2)*w*w > 1000 {
				t.Fatalf("on %v: %v %v %v and %v %v %v", devtest.HeadingOf(table, e), v1, s1, c1, v2, s2, c2)
			}
		}
	})
}

// A linear table has corners: the test above would find them.
func TestTheLinearCurveHasCorners(t *testing.T) {
	table := devtest.MustTable(t, devtest.Every15(devtest.Usual))
	_, s1, _ := edge(t, table, 0, 15*devtest.Deg, true)
	_, s2, _ := edge(t, table, 15*devtest.Deg, 15*devtest.Deg, false)
	if math.Abs(s1-s2)*float64(15*devtest.Deg) < 1000 {
		t.Errorf("slopes %v and %v", s1, s2)
	}
}

// The deviation of a compass is A + B sin z + C cos z + D sin 2z + E cos 2z to a
// good part. Rows every 15° on such a curve give it back.
func TestTheSmoothCurveReproducesCoefficients(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := [5]float64{}
		for i, limit := range []float64{3, 20, 20, 7, 3} {
			k[i] = rapid.Float64Range(-limit, limit).Draw(t, string(rune('A'+i)))
		}
		curve := func(z angle.Angle) float64 {
			return k[0] + k[1]*z.Sin() + k[2]*z.Cos() + k[3]*(2*z).Sin() + k[4]*(2*z).Cos()
		}
		rows := devtest.Every15(curve)
		compass, magnetic := devtest.MustTable(t, rows).Smooth(), devtest.MustTable(t, devtest.AsMagnetic(rows)).Smooth()
		heading := devtest.DrawHeading(t, "heading")
		c, err1 := compass.OnCompass(angle.CompassFrom(heading))
		m, err2 := magnetic.OnMagnetic(angle.MagneticFrom(heading))
		if err1 != nil || !devtest.Near(c.Degrees(), curve(heading), 0.02) || !isAmbiguous(t, err2) && !devtest.Near(m.Degrees(), curve(heading), 0.02) {
			t.Fatalf("on %v: %.4f, %v and %.4f, %v; the curve %.4f", heading, c.Degrees(), err1, m.Degrees(), err2, curve(heading))
		}
	})
}
