package stream

import (
	"fmt"
	"math"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
)

// A Stream is the movement of the water over the ground: a tidal stream or a current. Its
// set is the direction toward which it flows. A wind is named the other way.
type Stream struct {
	Set  angle.True    `json:"set"`  // toward which it flows
	Rate sailing.Speed `json:"rate"` // zero or more; zero is slack water
}

// String returns the stream as 045°T 1.5 kn.
func (s Stream) String() string { return s.Set.String() + " " + s.Rate.String() }

// A Motion is a course and a speed, through the water or over the ground.
type Motion struct {
	Course angle.True    `json:"course"`
	Speed  sailing.Speed `json:"speed"`
}

// String returns the motion as 235°T 6.2 kn.
func (m Motion) String() string { return m.Course.String() + " " + m.Speed.String() }

// components returns the components to north and to east, in metres a second.
func (m Motion) components() (north, east float64) {
	s, c := m.Course.FromNorth().SinCos()
	return float64(m.Speed) * c, float64(m.Speed) * s
}

// motionOf returns the motion with the components. If its speed is zero, its course is 000°.
func motionOf(north, east float64) Motion {
	m := Motion{Speed: sailing.Speed(math.Hypot(north, east))}
	if a, err := angle.Atan2(east, north); err == nil {
		m.Course = angle.TrueFrom(a)
	}
	return m
}

// sum returns the sum of a motion through the water and a stream.
func sum(water Motion, stream Stream) Motion {
	n, e := water.components()
	sn, se := Motion{stream.Set, stream.Rate}.components()
	return motionOf(n+sn, e+se)
}

// A Steering is a triangle of velocities. Its sides are the motion through the water, the stream,
// and the motion made good over the ground.
type Steering struct {
	Water  Motion `json:"water"` // course and speed through the water
	Stream Stream `json:"stream"`
	Ground Motion `json:"ground"` // course and speed made good over the ground

	sought string // the unknown side
}

// The unknown side of a triangle. soughtNearest is for the triangle of an [Error].
// soughtLeeway is for the motion over the ground of a [ReckonedRun] with leeway.
const (
	soughtWater   = "water"
	soughtGround  = "ground"
	soughtBoth    = "both"
	soughtNearest = "nearest"
	soughtLeeway  = "leeway"
)

// checkSpeed returns an error for an invalid speed.
func checkSpeed(what string, s sailing.Speed) error {
	if !(s >= 0 && s < 1000*sailing.Knot) {
		return &angle.RangeError{What: what, Value: s.Knots(), Accepted: "knots from 0, below 1000"}
	}
	return nil
}

// MadeGood returns the course and speed made good over the ground, given the course and
// speed through the water. If the speed made good is zero, the course is 000°. For a
// negative speed it returns an [*angle.RangeError].
func MadeGood(water Motion, stream Stream) (Steering, error) {
	if err := checkSpeed("speed through the water", water.Speed); err != nil {
		return Steering{}, err
	}
	if err := checkSpeed("rate of the stream", stream.Rate); err != nil {
		return Steering{}, err
	}
	return Steering{water, stream, sum(water, stream), soughtGround}, nil
}

// CourseToSteer returns the course to steer through the water to make good a track, at a
// speed through the water. In a stream faster than the vessel, two courses may make it
// good: CourseToSteer returns the one with the higher speed made good.
//
// If no course makes good the track, it returns an [*Error] of kind [TooStrong], with the
// nearest course. For a negative speed it returns an [*angle.RangeError].
//
// With leeway, subtract [Leeway.Deflection] from the course through the water to get the
// heading.
func CourseToSteer(track angle.True, speed sailing.Speed, stream Stream) (Steering, error) {
	if err := checkSpeed("speed through the water", speed); err != nil {
		return Steering{}, err
	}
	if err := checkSpeed("rate of the stream", stream.Rate); err != nil {
		return Steering{}, err
	}
	// Across the track, the vessel's motion cancels the stream. Along the track, the two
	// add. The sine of the angle off the track is −across / speed.
	s, c := stream.Set.Sub(track).SinCos()
	across, ahead := float64(stream.Rate)*s, float64(stream.Rate)*c
	v := float64(speed)
	own := v*v - across*across
	if own >= 0 {
		along := math.Sqrt(own)
		if made := along + ahead; made > 1e-9*(v+float64(stream.Rate)) {
			off := angle.Angle(0)
			if a, err := angle.Atan2(-across, along); err == nil {
				off = a
			}
			return Steering{Motion{track.Add(off), speed}, stream, Motion{track, sailing.Speed(made)}, soughtWater}, nil
		}
	}
	return Steering{}, tooStrong(track, speed, stream)
}

// tooStrong returns the error with the course that comes nearest. A vessel slower than
// the stream can make good only courses within some angle of the set. The sine of that
// angle is speed over rate. At the limit, the vessel heads at right angles to its course
// over the ground.
func tooStrong(track angle.True, speed sailing.Speed, stream Stream) error {
	ratio := min(1, float64(speed)/float64(stream.Rate))
	if math.IsNaN(ratio) {
		ratio = 0 // neither moves
	}
	limit, err := angle.Atan2(ratio, math.Sqrt(1-ratio*ratio))
	if err != nil {
		limit = 0
	}
	side := angle.Angle(1) // the side of the set on which the track lies
	if track.Sub(stream.Set) < 0 {
		side = -1
	}
	ground := stream.Set.Add(side * limit)
	water := Motion{ground.Add(side * 90 * angle.Degree), speed}
	made := Motion{ground, sum(water, stream).Speed} // at the limit, even if the vessel stops there
	e := &Error{Kind: TooStrong, Nearest: Steering{water, stream, made, soughtNearest}}
	off := ground.Sub(track)
	towards := "starboard"
	if off < 0 {
		towards = "port"
	}
	switch {
	case speed == 0 && stream.Rate == 0:
		e.Reason = fmt.Sprintf("track %v cannot be made good: no speed through the water and no stream", track)
	case speed == 0:
		e.Reason = fmt.Sprintf("track %v cannot be made good: no speed through the water, and the stream sets %v", track, stream)
	default:
		e.Reason = fmt.Sprintf("track %v cannot be made good at %v in a stream of %v: the nearest is course %v through the water, which makes good %v, %.0f° to %s of the track",
			track, speed, stream, water.Course, made, off.Abs().Degrees(), towards)
	}
	return e
}

// CourseAndSpeedToSteer returns the course and speed through the water to make good a
// course and a speed over the ground. Use it to arrive at a given time. If the stream
// alone makes them good, the speed of Water is zero and its course has no meaning. For a
// negative speed it returns an [*angle.RangeError].
func CourseAndSpeedToSteer(ground Motion, stream Stream) (Steering, error) {
	if err := checkSpeed("speed over the ground", ground.Speed); err != nil {
		return Steering{}, err
	}
	if err := checkSpeed("rate of the stream", stream.Rate); err != nil {
		return Steering{}, err
	}
	n, e := ground.components()
	sn, se := Motion{stream.Set, stream.Rate}.components()
	water := motionOf(n-sn, e-se)
	if water.Speed <= 1e-12*(ground.Speed+stream.Rate) {
		water = Motion{} // equal motions: the rounding error has no course
	}
	return Steering{water, stream, ground, soughtBoth}, nil
}

// String returns the triangle on one line:
//
//	235°T 6.0 kn through the water, stream 045°T 1.5 kn, 238.3°T 4.5 kn over the ground
func (s Steering) String() string {
	return fmt.Sprintf("%v through the water, stream %v, %v over the ground", s.Water, s.Stream, s.Ground)
}

// Working returns the steps of the triangle.
func (s Steering) Working() working.Sheet {
	return working.Sheet{Steps: s.steps(), Caution: working.Caution}
}

// steps returns the steps of the working.
func (s Steering) steps() working.Steps {
	stream := working.Step{Key: "stream", What: "Stream", Value: s.Stream.String(), Number: s.Stream.Rate.Knots(), Unit: "knots"}
	if s.Stream.Rate == 0 {
		stream.Value = s.Stream.Rate.String()
		stream = stream.Because("slack-water", "slack water")
	} else {
		stream = stream.Because("set-and-rate", "set (toward) and rate")
	}
	water := working.Direction("water course", "Course through the water", s.Water.Course)
	ground := working.Direction("ground course", "Course made good", s.Ground.Course)
	if s.Water.Speed == 0 {
		water = stoppedStep(water).Because("stopped-in-the-water", "stopped in the water")
	} else {
		water = s.waterReason(water)
	}
	switch {
	case s.Ground.Speed == 0:
		ground = stoppedStep(ground).Because("stopped-over-the-ground", "stopped over the ground")
	case s.sought == soughtWater:
		ground = ground.Because("track-made-good", "the track; the parts along it are added")
	case s.sought == soughtBoth:
		ground = ground.Because("given", "given")
	default:
		ground = ground.Because("vessel-and-stream", "vessel and stream added")
	}
	return working.Steps{
		stream,
		water,
		{Key: "water speed", What: "Speed through the water", Value: s.Water.Speed.String(), Number: s.Water.Speed.Knots(), Unit: "knots"},
		ground,
		{Key: "ground speed", What: "Speed made good", Value: s.Ground.Speed.String(), Number: s.Ground.Speed.Knots(), Unit: "knots"},
	}
}

// waterReason adds to the course through the water how it was found.
func (s Steering) waterReason(step working.Step) working.Step {
	switch s.sought {
	case soughtWater:
		return step.Because("course-to-steer-across-stream", "to steer: cancels the stream across the track")
	case soughtGround:
		return step.Because("given", "given")
	case soughtBoth:
		return step.Because("motion-minus-stream", "to steer: the motion to be made good, minus the stream")
	case soughtNearest:
		return step.Because("nearest-to-the-track", "nearest to the track: at right angles to the course made good")
	case soughtLeeway:
		return step.Because("heading-and-leeway", "heading and leeway")
	}
	return step
}

// stoppedStep returns the step for the course of a vessel that is stopped.
func stoppedStep(s working.Step) working.Step {
	return working.Step{Key: s.Key, What: s.What, Value: "none"}
}
