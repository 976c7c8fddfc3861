package passage_test

import (
	"math"
	"os"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/course/passage"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// legs is a plan of n legs to and fro, with the sources of a real passage.
func legs(b testing.TB, n int) passage.Plan {
	b.Helper()
	file, err := os.Open("../../examples/passage/roses.csv")
	if err != nil {
		b.Fatal(err)
	}
	defer file.Close()
	chart, err := variation.ReadChart("", file)
	if err != nil {
		b.Fatal(err)
	}
	var rows []deviation.Row[angle.Compass]
	for h := angle.Angle(0); h < angle.Turn; h += 15 * deg {
		rows = append(rows, deviation.Row[angle.Compass]{Heading: angle.CompassFrom(h), Deviation: deviation.East(angle.Must((3 * deg).Scale(h.Sin())))})
	}
	p := plan()
	p.Variation, p.Deviation = chart, angle.Must(deviation.NewTable(rows))
	p.Streams = stream.Stream{Set: angle.MustParseTrue("045"), Rate: sailing.Knot}
	for i := range n + 1 {
		p.Waypoints = append(p.Waypoints, passage.Waypoint{Position: angle.Must(angle.PositionDegrees(47+0.1*math.Sin(float64(i)), -19+0.2*math.Cos(float64(2*i))))})
	}
	return p
}

var kept *passage.Passage

// A leg takes no memory of its own but its place in the list.
func TestAllocationsDoNotGrowWithLegs(t *testing.T) {
	allocations := func(n int) float64 {
		p := legs(t, n)
		return testing.AllocsPerRun(20, func() { kept = worked(t, p) })
	}
	if few, many := allocations(10), allocations(200); many > few {
		t.Errorf("%v allocations for 10 legs, %v for 200", few, many)
	}
}

func BenchmarkTenThousandLegs(b *testing.B) {
	p := legs(b, 10_000)
	b.ReportAllocs()
	for b.Loop() {
		kept = worked(b, p)
	}
}
