package stream

import (
	"fmt"
	"math"
	"time"

	"lubberline.example/angle"
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
// along the track. It also returns one for each hour that ends farther from the track
// than maxOff. If maxOff is not above zero, there is no limit.
func (c Crossing) Warnings(maxOff sailing.Distance) []working.Warning {
	var out []working.Warning
	var across float64 // of the track, metres, to starboard
	sin, cos := c.run.Course.FromNorth().SinCos()
	for _, h := range c.Hours {
		north, east := h.ground.components()
		along := north*cos + east*sin
		across += (east*cos - north*sin) * h.Lasts.Seconds()
		ends := h.Begins.Add(h.Lasts)
		if along < 0 {
			out = append(out, working.Warn(SetBack, "set-back", "from %s to %s UTC the stream of %v carries the vessel back along the track at %v: leave later, or wait at anchor",
				hour(h.Begins), hour(ends), h.Stream, sailing.Speed(-along)))
		}
		if off := sailing.Distance(math.Abs(across)); maxOff > 0 && off > maxOff {
			side := angle.Starboard
			if across < 0 {
				side = angle.Port
			}
			out = append(out, working.Warn(OffTrack, "off-the-track", "at %s UTC the vessel is %v to %s of the track: the limit is %v", hour(ends), off, side, maxOff))
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

// steps returns the steps of the working.
func (c Crossing) steps() working.Steps {
	if c.run.Distance == 0 {
		nothing := working.Step{Key: "track", What: "Track", Value: c.run.Distance.String(), Unit: "nautical miles"}
		return working.Steps{nothing.Because("nothing-to-steer", "the same place: nothing to steer")}
	}
	track := vectorOf(c.run)
	steps := working.Steps{components(
		working.Direction("track", "Track", c.run.Course).Because("rhumb-line-of", "by rhumb line, %v", c.run.Distance), track)}
	for i, h := range c.Hours {
		steps = append(steps, h.step(i+1))
	}
	run := sailing.Run{Course: c.Water.Course, Distance: c.Water.Speed.For(c.Lasts)}
	drift, through := vectorOf(c.drift), vectorOf(run)
	water := working.Direction("water course", "Course through the water", c.Water.Course)
	if c.Water.Speed == 0 {
		water = stoppedStep(water).Because("stopped-in-the-water", "stopped in the water")
	} else {
		water = components(water.Because("track-minus-streams", "the track minus all the streams"), through)
	}
	all := working.Step{Key: "drift", What: "All the streams", Value: fmt.Sprintf("set %v, drift %v", c.drift.Course, c.drift.Distance), Number: c.drift.Distance.NauticalMiles(), Unit: "nautical miles"}
	steps = append(steps, components(all.Because("sum-of-drifts", "the sum of the drifts"), drift))
	// On a plane, the run through the water is the track less the streams.
	plane := vector{track.north - drift.north - through.north, track.east - drift.east - through.east}
	if off := sailing.Distance(math.Hypot(plane.north, plane.east)); off > sailing.NauticalMile/20 {
		scale := working.Step{Key: "plane", What: "Chart’s scale", Value: off.String(), Number: off.NauticalMiles(), Unit: "nautical miles"}
		steps = append(steps, components(scale.Because("scale-changes", "the scale changes with the latitude; subtracted too"), plane))
	}
	return append(steps,
		water,
		working.Step{Key: "water run", What: "Distance through the water", Value: run.Distance.String(), Number: run.Distance.NauticalMiles(), Unit: "nautical miles"}.
			Because("on-that-course", "on that course"),
		working.Step{Key: "time", What: "Time", Value: between(c.depart, c.Lasts), Number: c.Lasts.Hours(), Unit: "hours"}.
			Because("at-speed-through-water", "at %v through the water", c.Water.Speed),
		c.offTrackStep(),
	)
}

// step returns the step of the stream of an hour.
func (h CrossingHour) step(number int) working.Step {
	step := working.Step{
		Key: fmt.Sprintf("stream %d", number), What: fmt.Sprintf("Stream %s–%s UTC", hour(h.Begins), hour(h.Begins.Add(h.Lasts))),
		Value: fmt.Sprintf("set %v, rate %v", h.Stream.Set, h.Stream.Rate), Number: h.Stream.Rate.Knots(), Unit: "knots",
	}
	drift := sailing.Run{Course: h.Stream.Set, Distance: h.Stream.Rate.For(h.Lasts)}
	if h.Stream.Rate == 0 {
		step.Value = "slack water"
		step = step.Because("no-drift", "no drift")
	} else {
		step = components(step.Because("drift-of", "drift %v", drift.Distance), vectorOf(drift))
	}
	return step.Because("made-good-to", "made good %v, to %v", h.ground, h.Ends)
}

// offTrackStep returns the step of the greatest distance off the track.
func (c Crossing) offTrackStep() working.Step {
	off := sailing.Distance(math.Abs(float64(c.MaxOffTrack)))
	step := working.Step{Key: "widest", What: "Off the track", Value: off.String(), Number: c.MaxOffTrack.NauticalMiles(), Unit: "nautical miles, starboard positive"}
	side := angle.Starboard
	if c.MaxOffTrack < 0 {
		side = angle.Port
	}
	if off < sailing.NauticalMile/200 {
		return step.Because("not-off-the-track", "the streams do not set the vessel off it")
	}
	return step.Because("off-the-track-at-most", "at most, to %s: look for dangers there", side)
}

// components adds the components of a vector, so that sums can be checked.
func components(s working.Step, v vector) working.Step {
	return s.Because("components", "%v", v)
}

// A vector is a run by its components, in metres.
type vector struct{ north, east float64 }

// vectorOf returns the components of a run.
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
