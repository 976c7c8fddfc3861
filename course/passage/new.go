package passage

import (
	"errors"
	"fmt"
	"slices"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/variation"
)

// New works a plan. If a leg has no answer, it returns an [*Error] with the leg. The error wraps
// the error of the source, such as a [*stream.Error] of kind [stream.TooStrong].
func New(plan Plan) (*Passage, error) {
	if len(plan.Waypoints) < 2 {
		return nil, &Error{Err: fmt.Errorf("%d waypoints: give two or more", len(plan.Waypoints))}
	}
	if plan.Depart.IsZero() {
		return nil, &Error{Err: errors.New("no departure: give its date and time")}
	}
	if plan.WindFrom == nil && plan.Leeway != 0 {
		return nil, &Error{Err: fmt.Errorf("leeway %v without a wind: give the direction that the wind blows from", plan.Leeway)}
	}
	if !(plan.MaxOffTrack >= 0) {
		return nil, &Error{Err: &angle.RangeError{What: "maximum distance off the track", Value: plan.MaxOffTrack.NauticalMiles(), Accepted: "nautical miles, 0 or more; 0 sets no limit"}}
	}
	plan.Waypoints = slices.Clone(plan.Waypoints)
	if plan.WindFrom != nil {
		plan.WindFrom = new(*plan.WindFrom)
	}
	p := &Passage{Arrive: plan.Depart.UTC(), WindFrom: plan.WindFrom, plan: plan, Legs: make([]Leg, len(plan.Waypoints)-1)}
	for i := range p.Legs {
		l := &p.Legs[i]
		*l = Leg{number: i + 1, From: plan.Waypoints[i], To: plan.Waypoints[i+1], Begins: p.Arrive, plan: &p.plan}
		if err := l.work(); err != nil {
			return nil, &Error{l.number, fmt.Errorf("%v to %v: %w", l.From, l.To, err)}
		}
		p.Arrive = l.Ends
		p.Distance += l.Distance
	}
	p.suspect()
	return p, nil
}

var errSamePlace = errors.New("both waypoints are the same place: leave one of them out")

// work fills in a leg.
func (l *Leg) work() error {
	if l.From.Position.SamePlace(l.To.Position) {
		return errSamePlace
	}
	speed := l.To.Speed
	if speed == 0 {
		speed = l.plan.Speed
	}
	if l.To.GreatCircle {
		var err error
		if l.circle, err = sailing.WGS84().GreatCircle(l.From.Position, l.To.Position); err != nil {
			return err
		}
		l.Track, l.Final, l.Distance = l.circle.Initial, l.circle.Final, l.circle.Distance
	} else {
		run := sailing.WGS84().Rhumb(l.From.Position, l.To.Position)
		l.Track, l.Final, l.Distance = run.Course, run.Course, run.Distance
	}
	time, err := l.steer(speed)
	if err != nil {
		return err
	}
	l.Ends = l.Begins.Add(time)
	l.Ground = stream.Motion{Course: l.Track, Speed: sailing.Speed(float64(l.Distance) / time.Seconds())}
	heading, err := l.headUp()
	if err != nil {
		return err
	}
	l.ofVariation = l.From.Position
	if !l.To.GreatCircle {
		l.ofVariation = l.middle()
	}
	l.Heading, err = course.FromTrue(heading, course.With{
		Variation: l.plan.Variation, Deviation: l.plan.Deviation,
		At: &l.ofVariation, On: l.Begins, Reading: l.plan.Reading,
	})
	if err != nil {
		return err
	}
	l.compareVariations()
	return nil
}

// compareVariations finds the least and the greatest variation at five places along the leg. It
// leaves out places for which the source has no answer.
func (l *Leg) compareVariations() {
	used := l.Heading.Variation()
	l.lowest, l.highest = used, used
	switch l.plan.Variation.(type) {
	case variation.Variation, variation.Rose, *variation.Rose, variation.Projection:
		return // the same everywhere
	}
	off := func(v variation.Variation) angle.Angle { return (v.Angle() - used.Angle()).NormalizedSigned() }
	const parts = 4
	for i := range parts + 1 {
		if i == parts/2 && !l.To.GreatCircle {
			continue // the variation that was applied is that of the middle
		}
		at := l.From.Position
		switch i {
		case 0:
		case parts:
			at = l.To.Position
		default:
			at = l.at(l.Distance * sailing.Distance(i) / parts)
		}
		v, err := l.plan.Variation.VariationAt(at, l.Begins)
		if err != nil {
			continue
		}
		if off(v) < off(l.lowest) {
			l.lowest = v
		}
		if off(v) > off(l.highest) {
			l.highest = v
		}
	}
	l.spread = off(l.highest) - off(l.lowest)
}

// headUp returns the heading that allows for the leeway.
func (l *Leg) headUp() (angle.True, error) {
	water := l.Water.Course
	if l.plan.WindFrom == nil || l.plan.Leeway == 0 {
		return water, nil
	}
	var err error
	if l.Leeway, l.ofLeeway, err = stream.LeewayOn(water, l.plan.Leeway, *l.plan.WindFrom); err != nil || l.Leeway.Angle == 0 {
		return water, err
	}
	heading := water.Add(-l.Leeway.Deflection())
	// If the wind is ahead within the leeway, it is on the other side of that heading.
	on, warnings, err := stream.LeewayOn(heading, l.plan.Leeway, *l.plan.WindFrom)
	l.ofLeeway = warnings
	if err == nil && on.WindSide != l.Leeway.WindSide {
		err = &stream.Error{Kind: stream.InvalidLeeway, Reason: fmt.Sprintf("no heading gives the course %v through the water: the wind is ahead, closer to it than the leeway: tack, or use the engine", water)}
	}
	return heading, err
}

var errStreamsOnGreatCircle = errors.New("streams that change can't be allowed for on a great circle: split it into rhumb lines between points of it (sailing.GreatCircle.Waypoints)")

// steer finds the course through the water and the time.
func (l *Leg) steer(speed sailing.Speed) (time.Duration, error) {
	if l.plan.Streams == nil {
		l.Water = stream.Motion{Course: l.Track, Speed: speed}
		return l.Distance.TimeAt(speed)
	}
	if steady, ok := l.steady(); ok {
		s, err := stream.CourseToSteer(l.Track, speed, steady)
		if err != nil {
			return 0, err
		}
		l.steering, l.Water = s, s.Water
		return l.Distance.TimeAt(s.Ground.Speed)
	}
	if l.To.GreatCircle {
		return 0, errStreamsOnGreatCircle
	}
	c, err := stream.CourseToSteerAcross(l.From.Position, l.To.Position, l.Begins, speed, l.plan.Streams)
	if err != nil {
		return 0, err
	}
	l.crossing, l.Hours = &c, c.Hours
	l.Water = c.Water
	return c.Lasts, nil
}

// steady returns the plan's stream if it is a single one, a value or a pointer.
func (l *Leg) steady() (stream.Stream, bool) {
	switch s := l.plan.Streams.(type) {
	case stream.Stream:
		return s, true
	case *stream.Stream:
		if s != nil {
			return *s, true
		}
	}
	return stream.Stream{}, false
}

// middle is the position half way along the leg.
func (l *Leg) middle() angle.Position { return l.at(l.Distance / 2) }

// at returns the position a distance along the leg.
func (l *Leg) at(distance sailing.Distance) angle.Position {
	if l.To.GreatCircle {
		p, _ := l.circle.At(distance)
		return p
	}
	p, err := sailing.WGS84().Follow(l.From.Position, sailing.Run{Course: l.Track, Distance: distance})
	if err != nil { // a leg that ends at a pole, beyond it by rounding
		return l.To.Position
	}
	return p
}
