package deviation_test

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"lubberline.example/deviation/internal/devtest"

	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

// The spline's equations solved in the dense way, which took cubes of the number of rows.
func TestSmoothTableSolvesItsEquations(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows := devtest.DrawRows(t, devtest.Deg, 30*devtest.Deg)
		smooth := devtest.MustTable(t, rows).Smooth()
		entries := smooth.Entries()
		n := len(entries)
		a, b := mat.NewDense(n, n, nil), mat.NewVecDense(n, nil)
		width := func(i int) float64 {
			i = (i + n) % n
			return (entries[(i+1)%n].Compass.FromNorth() - entries[i].Compass.FromNorth()).Normalized().Degrees()
		}
		slope := func(i int) float64 {
			i = (i + n) % n
			return (entries[(i+1)%n].Deviation.Angle() - entries[i].Deviation.Angle()).Degrees() / width(i)
		}
		for i := range n {
			h, k := width(i-1), width(i)
			a.Set(i, (i+n-1)%n, h)
			a.Set(i, i, 2*(h+k))
			a.Set(i, (i+1)%n, k)
			b.SetVec(i, 6*(slope(i)-slope(i-1)))
		}
		var m mat.VecDense
		if err := m.SolveVec(a, b); err != nil {
			t.Fatal(err)
		}
		i := rapid.IntRange(0, n-1).Draw(t, "segment")
		h, rise := width(i), slope(i)*width(i)
		// Half way along the segment.
		want := entries[i].Deviation.Angle().Degrees() + rise/2 - h*h/6/4*1.5*(m.AtVec(i)+m.AtVec((i+1)%n))
		if math.Abs(want) > 90 {
			return // it is refused there
		}
		got, err := smooth.OnCompass(angle.CompassFrom(entries[i].Compass.FromNorth() + devtest.Degrees(h/2)))
		if err != nil || !devtest.Near(got.Angle().Degrees(), want, 1e-7) { // rounding of the dense solution
			t.Fatalf("%v, %v: want %v°", got, err, want)
		}
	})
}

// A smooth table of 30,000 rows, 1.25 MB of JSON, ended the process: its dense system
// wanted 7 GB. It takes about 0.15 s, reading included.
func TestVastSmoothTableIsRead(t *testing.T) {
	const n = 30_000
	var b strings.Builder
	b.WriteString(`{"smooth":true,"rows":[`)
	for i := range n {
		if i > 0 {
			b.WriteByte(',')
		}
		h := 360 * float64(i) / n
		fmt.Fprintf(&b, `{"compass":"%.4f","deviation":"%.4f"}`, h, 3*math.Sin(h*math.Pi/180))
	}
	b.WriteString(`]}`)
	start := time.Now()
	table, err := deviation.ReadTable(strings.NewReader(b.String()))
	if err != nil {
		t.Fatal(err)
	}
	if d, err := table.OnCompass(angle.MustParseCompass("030.006")); err != nil || !devtest.Near(d.Angle().Degrees(), 3*math.Sin(30.006*math.Pi/180), 0.001) { // the rows are rounded to 0.0001°
		t.Errorf("%v, %v", d, err)
	}
	if took := time.Since(start); took > 10*time.Second { // of a busy machine
		t.Errorf("took %v", took)
	}
}
