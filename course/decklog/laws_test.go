package decklog_test

import (
	"math"
	"math/rand/v2"
	"os"
	"testing"
	"time"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/course/decklog"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
)

// day is when the logs of these tests begin.
var day = time.Date(2026, 7, 2, 0, 0, 0, 0, time.UTC)

// row returns a row of a log with a true course, in degrees, and a stream.
func row(minutes int, log, course, set, rate float64) decklog.Entry {
	d := sailing.Distance(log) * sailing.NauticalMile
	c, s := direction(course), direction(set)
	return decklog.Entry{Time: day.Add(time.Duration(minutes) * time.Minute), Log: &d, True: &c, Stream: &stream.Stream{Set: s, Rate: sailing.Speed(rate) * sailing.Knot}}
}

// direction returns a true direction in degrees.
func direction(degrees float64) angle.True {
	d, err := angle.TrueDegrees(math.Mod(degrees+720, 360))
	if err != nil {
		panic(err) // a mistake of the test
	}
	return d
}

// TestRowInBetweenChangesNothing reads the log once more in the middle of a run: the EP at the
// end is the same, and setting the log to another reading there changes nothing either.
func TestRowInBetweenChangesNothing(t *testing.T) {
	start := stream.Estimate{Position: angle.MustParsePosition("47°N 019°W"), Time: day}
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		course, set, rate, miles := draw("course", 0, 359.9), draw("set", 0, 359.9), draw("rate", 0, 5), draw("miles", 0, 20)
		o := decklog.Options{Start: &start, Factor: decklog.Factor{Value: draw("factor", 0.5, 2)}}
		whole := decklog.Log{row(0, 100, course, set, rate), row(120, 100+miles, course, set, rate)}
		middle, reset := row(60, 100+miles/2, course, set, rate), sailing.Distance(draw("reset", 0, 900))*sailing.NauticalMile
		middle.Reset = &reset
		end := row(120, reset.NauticalMiles()+miles/2, course, set, rate)
		a, err1 := whole.Reckon(o)
		b, err2 := decklog.Log{whole[0], middle, end}.Reckon(o)
		if err1 != nil || err2 != nil {
			t.Fatal(err1, err2)
		}
		if d := sailing.WGS84().Rhumb(a.Points[1].EP.Position, b.Points[2].EP.Position).Distance; d > 0.01 {
			t.Fatalf("%v apart: %v and %v", d.Metres(), a.Points[1].EP.Position, b.Points[2].EP.Position)
		}
	})
}

// TestEllipseHoldsTruth sails voyages of eight hours with drawn errors of the factor (3 %), the
// compass (1.5°), the course steered (2°) and the streams (0.3 kn), by sums on a plane that
// share no code with the package. The 95 % ellipse at the end holds the true position in 95 %:
// 94.9 % of 20,000 voyages with FULL=1.
func TestEllipseHoldsTruth(t *testing.T) {
	voyages := 3000
	if os.Getenv("FULL") == "1" {
		voyages = 20000
	}
	courses := []float64{90, 90, 120, 120, 60, 350, 350, 20}
	o := decklog.Options{Factor: decklog.Factor{Value: 1.1}, Start: &stream.Estimate{Position: angle.MustParsePosition("00°00′N 020°00′W"), Time: day, Covariance: sailing.Exactly()}}
	o.Factor.PerMile, _ = sailing.StandardUncertainty(0.033 * sailing.NauticalMile) // 3 % of 1.1
	o.HeadingUncertainty, _ = angle.StandardUncertainty(90 * angle.Minute)
	o.HeadingScatter, _ = angle.StandardUncertainty(2 * angle.Degree)
	o.StreamUncertainty, _ = sailing.StandardUncertainty(0.3 * sailing.Knot)
	var l decklog.Log
	for h := range len(courses) + 1 {
		l = append(l, row(60*h, 6*float64(h), courses[min(h, 7)], 45, 1))
	}
	r, err := l.Reckon(o)
	if err != nil {
		t.Fatal(err)
	}
	c := r.Points[len(courses)].EP.Covariance
	const metres = 1852
	det := c.North*c.East - c.Both*c.Both
	random := rand.New(rand.NewPCG(3, 4))
	inside := 0
	for range voyages {
		factor, compass := 0.03*random.NormFloat64(), 1.5*random.NormFloat64()
		var north, east float64 // true minus reckoned, metres
		for _, course := range courses {
			miles := 6 * 1.1
			s0, c0 := math.Sincos(course * math.Pi / 180)
			s1, c1 := math.Sincos((course + compass + 2*random.NormFloat64()) * math.Pi / 180)
			north += metres * (miles*((1+factor)*c1-c0) + 0.3*random.NormFloat64())
			east += metres * (miles*((1+factor)*s1-s0) + 0.3*random.NormFloat64())
		}
		if (c.East*north*north-2*c.Both*north*east+c.North*east*east)/det <= -2*math.Log(0.05) {
			inside++
		}
	}
	part := float64(inside) / float64(voyages)
	t.Logf("%.2f %% of %d voyages", 100*part, voyages)
	if part < 0.935 || part > 0.965 {
		t.Errorf("the 95 %% ellipse holds %.1f %% of %d voyages", 100*part, voyages)
	}
}

// By hand: 10 M by log with a factor of 1.25 are 12.5 M. A factor uncertain by 0.05 is uncertain by 4 %,
// and so is the run: 0.5 M.
func TestFactorUncertaintyIsAShareOfTheRun(t *testing.T) {
	o := decklog.Options{Factor: decklog.Factor{Value: 1.25}, Start: &stream.Estimate{Position: angle.MustParsePosition("00°00′N 020°00′W"), Time: day, Covariance: sailing.Exactly()}}
	o.Factor.PerMile, _ = sailing.StandardUncertainty(0.05 * sailing.NauticalMile)
	o.HeadingUncertainty, _ = angle.StandardUncertainty(0)
	o.HeadingScatter, o.StreamUncertainty = o.HeadingUncertainty, sailing.Uncertainty[sailing.Speed]{}
	o.StreamUncertainty, _ = sailing.StandardUncertainty(0 * sailing.Knot)
	r, err := decklog.Log{row(0, 0, 0, 0, 0), row(60, 10, 0, 0, 0)}.Reckon(o)
	if err != nil {
		t.Fatal(err)
	}
	if c := r.Points[1].EP.Covariance; math.Abs(math.Sqrt(c.North)/1852-0.5) > 1e-6 || c.East > 1 {
		t.Errorf("±%v M along the run, ±%v m across it", math.Sqrt(c.North)/1852, math.Sqrt(c.East))
	}
}
