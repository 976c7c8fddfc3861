package slip

import (
	"math"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/deviation"
)

// flow draws a stream.
func (d draw) flow() stream.Stream {
	return stream.Stream{Set: angle.TrueFrom(d.direction()), Rate: sailing.Speed(d.tenths(1, 2)) * sailing.Knot}
}

// leg draws a run at a true heading.
func (d draw) leg() stream.ReckonedRun {
	return stream.ReckonedRun{
		Heading: angle.TrueFrom(d.direction()), Speed: sailing.Speed(d.tenths(4, 5)) * sailing.Knot,
		Lasts: time.Duration(30+5*d.IntN(25)) * time.Minute,
	}
}

// legs draws some runs, with one stream and leeway if they are to be an estimate.
func (d draw) legs(estimate bool) []stream.ReckonedRun {
	out := make([]stream.ReckonedRun, 2+d.IntN(1+d.hard))
	flow := d.flow()
	for i := range out {
		out[i] = d.leg()
		if estimate {
			out[i].Stream = flow
		}
		if estimate && d.hard > 0 {
			out[i].Leeway = d.leeway()
		}
	}
	return out
}

// leeway draws leeway on either side.
func (d draw) leeway() stream.Leeway {
	return stream.Leeway{Angle: angle.Angle(4+d.IntN(7)) * angle.Degree, WindSide: []angle.Side{angle.Port, angle.Starboard}[d.IntN(2)]}
}

// reckoning draws a dead reckoning or an estimated position.
func reckoning(estimate bool) maker {
	return func(d draw, _ *deviation.Table) (Problem, error) {
		from, legs := d.tenthOfMinute(d.offing()), d.legs(estimate)
		at := stream.Estimate{Position: from}
		for _, leg := range legs {
			var err error
			if at, err = at.Run(leg); err != nil || !atSea(at.Position) {
				return Problem{}, errDraw
			}
		}
		return NewReckoning(from, legs...)
	}
}

// tenthOfMinute rounds a position to a tenth of a minute, as questions print it.
func (d draw) tenthOfMinute(p angle.Position) angle.Position {
	return angle.Must(angle.PositionDegrees(math.Round(p.Latitude.Degrees()*600)/600, math.Round(p.Longitude.Degrees()*600)/600))
}

// madeGood draws a course and speed made good.
func madeGood(d draw, _ *deviation.Table) (Problem, error) {
	run := d.leg()
	run.Stream = d.flow()
	if d.hard > 0 {
		run.Leeway = d.leeway()
	}
	return NewMadeGood(run)
}

// setAndDrift draws a fix some miles from the dead reckoning position.
func setAndDrift(d draw, _ *deviation.Table) (Problem, error) {
	hours := time.Duration(60+15*d.IntN(9)) * time.Minute
	if d.hard == 0 {
		hours = time.Duration(2+d.IntN(2)) * time.Hour
	}
	reckoned := d.tenthOfMinute(d.offing())
	fix, err := sailing.WGS84().Follow(reckoned, sailing.Run{Course: angle.TrueFrom(d.direction()), Distance: sailing.Speed(1+2*d.Float64()).For(hours) * sailing.Distance(sailing.Knot)})
	if err != nil {
		return Problem{}, err
	}
	if !atSea(fix) {
		return Problem{}, errDraw
	}
	return NewSetAndDrift(reckoned, d.tenthOfMinute(fix), hours)
}

// ocean draws a position in the open ocean, south too if the exercise is hard.
func (d draw) ocean() angle.Position {
	latitude, longitude := 35+20*d.Float64(), -15-35*d.Float64()
	if d.hard > 1 && d.IntN(2) == 0 {
		latitude = -latitude
	}
	if d.hard > 1 && d.IntN(2) == 0 {
		longitude = -longitude
	}
	return d.tenthOfMinute(angle.Must(angle.PositionDegrees(latitude, longitude)))
}

// far draws a second position some degrees from the first, on the same side of the equator.
func (d draw) far(from angle.Position, degrees float64) angle.Position {
	off := func() float64 { return float64(1-2*d.IntN(2)) * degrees * (0.3 + 0.7*d.Float64()) }
	return d.tenthOfMinute(angle.Must(angle.PositionDegrees(from.Latitude.Degrees()+off(), from.Longitude.Degrees()+2*off())))
}

// bySailing draws a passage for one of the sailings.
func bySailing(method sailing.Method) maker {
	return func(d draw, _ *deviation.Table) (Problem, error) {
		from := d.ocean()
		to := d.far(from, 2+2*float64(d.hard))
		if method == sailing.ParallelSailing {
			to.Latitude = from.Latitude
		}
		return NewSailing(method, from, to)
	}
}

// greatCircle draws a long passage.
func greatCircle(d draw, _ *deviation.Table) (Problem, error) {
	from := d.ocean()
	return NewGreatCircle(from, d.far(from, 12))
}

// arrival draws a time of arrival.
func arrival(d draw, _ *deviation.Table) (Problem, error) {
	return NewArrival(time.Duration(d.IntN(20*60))*time.Minute, sailing.Distance(d.tenths(6, 30))*sailing.NauticalMile, sailing.Speed(d.tenths(4, 5))*sailing.Knot)
}
