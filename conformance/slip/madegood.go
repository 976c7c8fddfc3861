package slip

import (
	"fmt"
	"math"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/stream"
)

// NewMadeGood asks for the course and speed made good through a stream, to the degree and to a
// tenth of a knot. The heading of the run is true, and its time is not used. If nothing is made
// good, the answer is 000°, 0.0 kn. Errors are those of [stream.MadeGood]. For the leeway see
// [NewToSteerThroughStream].
func NewMadeGood(run stream.ReckonedRun) (Problem, error) {
	if err := checkLeeway(run.Leeway); err != nil {
		return Problem{}, err
	}
	right, err := stream.MadeGood(run.Water(), run.Stream)
	if err != nil {
		return Problem{}, err
	}
	run.Lasts = time.Hour
	return made(Problem{
		Topic: "course and speed made good",
		Question: fmt.Sprintf("A vessel steers %s at %s through the water; %s. What are the course and the speed made good, to the degree and to a tenth of a knot?",
			exact(run.Heading), knots(run.Speed), streamAndLeeway(run)),
		Form: CourseAndSpeed, Rounding: 1, north: 'T', plotted: onChart,
		minor: []Kind{MinutesAsDecimals, LeewayLeftOut, SineForCosine, NorthForSouth, EastForWest, RoundedOnTheWay, ReciprocalTaken},
	}, func() working.Steps {
		var steps working.Steps
		if run.Leeway.Angle != 0 {
			steps = append(steps, working.Direction("heading", "Heading", run.Heading).Because("away-from-wind", "the leeway, %s, is applied away from the wind", leewayText(run.Leeway.Angle)))
		}
		return append(steps, throughWater(right, run.Leeway)...)
	}, func(c *calculation) (float64, error) {
		var s sums
		for _, r := range runsOf(c, []stream.ReckonedRun{run}) {
			miles := r.Distance.NauticalMiles()
			s.north, s.east, s.run = s.north+miles*r.Course.FromNorth().Cos(), s.east+miles*r.Course.FromNorth().Sin(), s.run+miles
		}
		return courseAndDistance(c, ReciprocalTaken, s.north, s.east, func(speed float64) float64 {
			if c.does(DistancesAdded) {
				return s.run
			}
			return speed
		}), nil
	})
}

// NewSetAndDrift asks for the set and the rate of the stream, to the degree and to a tenth of a
// knot. The dead reckoning position and the fix are of the same time. since is the time since the
// last fix. Errors are those of [stream.SetAndDriftBetween].
func NewSetAndDrift(reckoned, fix angle.Position, since time.Duration) (Problem, error) {
	right, err := stream.SetAndDriftBetween(stream.Estimate{Position: reckoned}, stream.Estimate{Position: fix}, since)
	if err != nil {
		return Problem{}, err
	}
	north := right.Drift.Distance.NauticalMiles() * right.Drift.Course.FromNorth().Cos()
	east := right.Drift.Distance.NauticalMiles() * right.Drift.Course.FromNorth().Sin()
	middle := (reckoned.Latitude.Degrees() + fix.Latitude.Degrees()) / 2 * math.Pi / 180
	return made(Problem{
		Topic: "set and drift",
		Question: fmt.Sprintf("The dead reckoning position is %s, and the fix at the same time %s. The last fix was %s before. What are the set and the rate of the stream, to the degree and to a tenth of a knot?",
			reckoned, fix, minutesOf(since)),
		Form: CourseAndSpeed, Rounding: 1, north: 'T', plotted: drToFix, minor: []Kind{MinutesAsDecimals, SineForCosine, NorthForSouth, EastForWest, RoundedOnTheWay, CosineWrongWay},
	}, func() working.Steps { return upTo(right.Working().Steps, "rate") }, func(c *calculation) (float64, error) {
		n, e, hours := north, east, since.Hours()
		switch {
		case c.does(CosineLeftOut):
			e /= math.Cos(middle)
		case c.does(CosineWrongWay):
			e /= math.Cos(middle) * math.Cos(middle)
		case c.does(SineForCosine):
			n, e = math.Copysign(e, n), math.Copysign(n, e)
		}
		if decimalsOnTheWay(c) {
			whole, part := math.Modf(hours)
			hours = whole + part*60/100
		}
		return courseAndDistance(c, FixToReckoning, n, e, func(drift float64) float64 {
			drift = c.figure(Figure{Key: "drift", What: "Drift", Form: Miles, Rounding: 0.1}, drift)
			switch {
			case c.does(NotDivided):
				return drift
			case c.does(DividedForMultiplied):
				return drift * hours
			}
			return drift / hours
		}), nil
	})
}
