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

// New works a plan. Errors are a [*PlanError], with the leg, and wrap those of the
// sources, [*lubberline.example/course/stream.StreamTooStrongError] and [*lubberline.example/course/stream.CrossingError] among them.
func New(plan Plan) (*Passage, error) {
	if len(plan.Waypoints) < 2 {
		return nil, &PlanError{Err: fmt.Errorf("%d waypoints: want two or more", len(plan.Waypoints))}
	}
	if plan.Depart.IsZero() {
		return nil, &PlanError{Err: errors.New("no departure: want its date and time")}
	}
	if plan.Wind == nil && plan.Leeway != 0 {
		return nil, &PlanError{Err: fmt.Errorf("leeway %v without a wind: want the direction it blows from", plan.Leeway)}
	}
	plan.Waypoints = slices.Clone(plan.Waypoints)
	depart := plan.Depart.UTC()
	p := &Passage{Name: plan.Name, Depart: depart, Arrive: depart, plan: plan, Legs: make([]Leg, len(plan.Waypoints)-1)}
	for i := range p.Legs {
		l := &p.Legs[i]
		*l = Leg{Number: i + 1, From: plan.Waypoints[i], To: plan.Waypoints[i+1], Begins: p.Arrive, plan: &p.plan}
		if err := l.work(); err != nil {
			return nil, &PlanError{l.Number, l.From, l.To, err}
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
		if l.circle, err = sailing.WGS84().Geodesic(l.From.Position, l.To.Position); err != nil {
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
	l.Heading, err = course.FromTrue(heading, course.With{
		Variation: l.plan.Variation, Deviation: l.plan.Deviation,
		At: new(l.forVariation()), On: l.Begins, Reading: l.plan.Reading,
	})
	if err != nil {
		return err
	}
	l.compareVariations()
	return nil
}

// compareVariations finds the least and the greatest variation at the ends of the leg, in the
// middle and half way between. Places for which the source has no answer are left out.
func (l *Leg) compareVariations() {
	used := l.Heading.Variation()
	l.lowest, l.highest = used, used
	off := func(v variation.Variation) angle.Angle { return (v.Angle() - used.Angle()).NormalizedSigned() }
	const parts = 4
	for i := range parts + 1 {
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

// headUp allows for the leeway and returns the heading.
func (l *Leg) headUp() (angle.True, error) {
	water := l.Water.Course
	if l.plan.Wind == nil || l.plan.Leeway == 0 {
		return water, nil
	}
	var err error
	if l.Leeway, l.ofLeeway, err = stream.LeewayOn(water, l.plan.Leeway, *l.plan.Wind); err != nil || l.Leeway.Angle == 0 {
		return water, err
	}
	heading := water.Add(-l.Leeway.Deflection())
	// Nearer to the wind's eye than the leeway, the wind is on the other side of that heading.
	on, warnings, err := stream.LeewayOn(heading, l.plan.Leeway, *l.plan.Wind)
	l.ofLeeway = warnings
	if err == nil && on.WindOn != l.Leeway.WindOn {
		err = &stream.LeewayError{Leeway: l.plan.Leeway, Wind: l.plan.Wind.From.Relative(heading), Reason: fmt.Sprintf("no heading makes %v good through the water: it is nearer to the wind's eye than the leeway", water)}
	}
	return heading, err
}

var errStreamsOnGreatCircle = errors.New("a great circle takes no streams that change: split it into rhumb lines between points of the circle (sailing.Geodesic.Waypoints)")

// steer finds the course through the water and the time.
func (l *Leg) steer(speed sailing.Speed) (time.Duration, error) {
	if l.plan.Streams == nil {
		l.Water = stream.Motion{Course: l.Track, Speed: speed}
		return l.Distance.TimeAt(speed)
	}
	if steady, ok := l.steady(); ok {
		s, err := stream.ToSteer(l.Track, speed, steady)
		if err != nil {
			return 0, err
		}
		l.Water = s.Water
		return s.TimeFor(l.Distance)
	}
	if l.To.GreatCircle {
		return 0, errStreamsOnGreatCircle
	}
	c, err := stream.ToSteerAcross(l.From.Position, l.To.Position, l.Begins, speed, l.plan.Streams)
	if err != nil {
		return 0, err
	}
	l.crossing = &c
	l.Water = c.Water
	return c.Time, nil
}

// steady returns the one stream of the plan, given as a value or as a pointer.
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

// Middle returns the position half way along the leg. That is where the variation of a
// rhumb line is taken.
func (l Leg) Middle() angle.Position { return l.at(l.Distance / 2) }

// forVariation is where the variation is taken: with the course that it is applied to.
func (l Leg) forVariation() angle.Position {
	if l.To.GreatCircle {
		return l.From.Position
	}
	return l.Middle()
}

// at returns the position a distance along the leg.
func (l Leg) at(distance sailing.Distance) angle.Position {
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
