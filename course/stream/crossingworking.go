package stream

import (
	"fmt"
	"math"
	"time"

	"lubberline.example/angle/working"
	"lubberline.example/course/internal/printed"
	"lubberline.example/course/sailing"
)

// The warnings of a [Crossing].
const (
	SetBack  working.WarningKind = "set-back"      // an hour in which the streams carry the vessel back along the track
	OffTrack working.WarningKind = "off-the-track" // farther from the track than the limit
)

// Warnings returns a warning for each hour in which the stream carries the vessel back
// along the track, and for each hour that ends farther from the track than maxOff. If
// maxOff is not above zero, there is no limit.
func (c Crossing) Warnings(maxOff sailing.Distance) []working.Warning {
	var out []working.Warning
	var across float64 // of the track, metres, to starboard
	sin, cos := c.Run.Course.FromNorth().SinCos()
	for _, h := range c.Hours {
		north, east := h.Ground.components()
		along := north*cos + east*sin
		across += (east*cos - north*sin) * h.Lasts.Seconds()
		if along < 0 {
			out = append(out, working.Warning{Kind: SetBack, Message: fmt.Sprintf("from %s to %s UTC the stream of %v carries the vessel back along the track at %v: leave later, or wait at anchor",
				hour(h.Begins), hour(h.Begins.Add(h.Lasts)), h.Stream, sailing.Speed(-along))})
		}
		if off := sailing.Distance(math.Abs(across)); maxOff > 0 && off > maxOff {
			side := "starboard"
			if across < 0 {
				side = "port"
			}
			out = append(out, working.Warning{Kind: OffTrack, Message: fmt.Sprintf("at %s UTC the vessel is %v to %s of the track: the limit is %v", hour(h.Begins.Add(h.Lasts)), off, side, maxOff)})
		}
	}
	return out
}

// Working returns the steps: the track, the streams hour by hour, their sum, and the course
// to steer. It also prints the components of each vector to north or south and to east or
// west, so that the sums can be checked.
func (c Crossing) Working() working.Sheet {
	return working.Sheet{Steps: c.steps(), Warnings: c.Warnings(0), Caution: working.Caution}
}

func (c Crossing) steps() working.Steps {
	if c.Run.Distance == 0 {
		return working.Steps{{Key: "track", What: "Track", Value: c.Run.Distance.String(), Unit: "nautical miles", How: "the same place: nothing to steer"}}
	}
	track := vectorOf(c.Run)
	steps := working.Steps{
		working.Direction("track", "Track", c.Run.Course, "by rhumb line, "+c.Run.Distance.String()+": "+track.String()),
	}
	for i, h := range c.Hours {
		flows := fmt.Sprintf("set %v, rate %v", h.Stream.Set, h.Stream.Rate)
		drift := sailing.Run{Course: h.Stream.Set, Distance: h.Stream.Rate.For(h.Lasts)}
		how := fmt.Sprintf("drift %v: %v", drift.Distance, vectorOf(drift))
		if h.Stream.Rate == 0 {
			flows, how = "slack water", "no drift"
		}
		steps = append(steps, working.Step{
			Key: fmt.Sprintf("stream %d", i+1), What: fmt.Sprintf("Stream %s–%s UTC", hour(h.Begins), hour(h.Begins.Add(h.Lasts))),
			Value: flows, Number: h.Stream.Rate.Knots(), Unit: "knots",
			How: fmt.Sprintf("%s; made good %v, to %v", how, h.Ground, h.Ends),
		})
	}
	widest := sailing.Distance(math.Abs(float64(c.MaxOffTrack)))
	where := "to starboard at most: look for dangers there"
	switch {
	case widest < sailing.NauticalMile/200:
		where = "the streams do not set the vessel off it"
	case c.MaxOffTrack < 0:
		where = "to port at most: look for dangers there"
	}
	run := sailing.Run{Course: c.Water.Course, Distance: c.Water.Speed.For(c.Time)}
	drift, through := vectorOf(c.Drift), vectorOf(run)
	water := working.Direction("water course", "Course through the water", c.Water.Course, "the track less all the streams: "+through.String())
	if c.Water.Speed == 0 {
		water = stoppedStep(water, "stopped in the water")
	}
	steps = append(steps, working.Step{Key: "drift", What: "All the streams", Value: fmt.Sprintf("set %v, drift %v", c.Drift.Course, c.Drift.Distance), Number: c.Drift.Distance.NauticalMiles(), Unit: "nautical miles", How: "the sum of the drifts: " + drift.String()})
	// On a plane, the run through the water is the track less the streams.
	plane := vector{track.north - drift.north - through.north, track.east - drift.east - through.east}
	if off := sailing.Distance(math.Hypot(plane.north, plane.east)); off > sailing.NauticalMile/20 {
		steps = append(steps, working.Step{Key: "plane", What: "Chart’s scale", Value: off.String(), Number: off.NauticalMiles(), Unit: "nautical miles", How: "the scale changes with the latitude; subtracted too: " + plane.String()})
	}
	return append(steps,
		water,
		working.Step{Key: "water run", What: "Distance through the water", Value: run.Distance.String(), Number: run.Distance.NauticalMiles(), Unit: "nautical miles", How: "on that course"},
		working.Step{Key: "time", What: "Time", Value: between(c.Depart, c.Time), Number: c.Time.Hours(), Unit: "hours", How: "at " + c.Water.Speed.String() + " through the water"},
		working.Step{Key: "widest", What: "Off the track", Value: widest.String(), Number: c.MaxOffTrack.NauticalMiles(), Unit: "nautical miles, starboard positive", How: where},
	)
}

// A vector is a run by its components, in metres.
type vector struct{ north, east float64 }

func vectorOf(r sailing.Run) vector {
	north, east := Motion{r.Course, sailing.Speed(r.Distance)}.components()
	return vector{north, east}
}

// String returns the components as 0.33 M S, 0.58 M E: to a hundredth, so that sums can be
// checked to a tenth.
func (v vector) String() string {
	part := func(metres float64, positive, negative string) string {
		text := fmt.Sprintf("%.2f M", math.Abs(sailing.Distance(metres).NauticalMiles()))
		switch {
		case text == "0.00 M":
			return text
		case metres < 0:
			return text + " " + negative
		}
		return text + " " + positive
	}
	return part(v.north, "N", "S") + ", " + part(v.east, "E", "W")
}

// hour prints the time of day to the nearest minute.
func hour(t time.Time) string { return toMinute(t).Format("15:04") }

// toMinute returns a time in UTC to the nearest minute.
func toMinute(t time.Time) time.Time { return t.UTC().Round(time.Minute) }

// between prints a time as the difference of the printed times of day at its ends, so that
// the three figures agree.
func between(begins time.Time, lasts time.Duration) string {
	return printed.Clock(toMinute(begins.Add(lasts)).Sub(toMinute(begins)))
}
