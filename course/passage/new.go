package passage

import (
	"errors"
	"fmt"
	"slices"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
)

// New works a plan. Errors are a [*PlanError], with the leg, and wrap those of the
// sources, [*course.StreamTooStrongError] and [*course.CrossingError] among them.
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
	plan.Depart = plan.Depart.UTC()
	plan.Waypoints = slices.Clone(plan.Waypoints)
	p := &Passage{Name: plan.Name, Depart: plan.Depart, Arrive: plan.Depart, plan: plan, Legs: make([]Leg, len(plan.Waypoints)-1)}
	for i := range p.Legs {
		l := &p.Legs[i]
		*l = Leg{Number: i + 1, From: plan.Waypoints[i], To: plan.Waypoints[i+1], Begins: p.Arrive, plan: &p.plan}
		if err := l.work(); err != nil {
			return nil, &PlanError{l.Number, l.From, l.To, err}
		}
		p.Arrive = l.Ends
		p.Distance += l.Distance
	}
	return p, nil
}

var errSamePlace = errors.New("both ends are the same place")

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
		g, err := sailing.NewGreatCircle(l.From.Position, l.To.Position)
		if err != nil {
			return err
		}
		l.Track, l.Final, l.Distance = g.Initial(), g.Final(), g.Distance()
	} else {
		run := sailing.WGS84().Rhumb(l.From.Position, l.To.Position)
		l.Track, l.Final, l.Distance = run.Course, run.Course, run.Distance
	}
	time, err := l.steer(speed)
	if err != nil {
		return err
	}
	l.Ends = l.Begins.Add(time)
	l.Ground = course.Motion{Course: l.Track, Speed: sailing.Speed(float64(l.Distance) / time.Seconds())}
	heading, err := l.headUp()
	if err != nil {
		return err
	}
	l.Heading, err = course.FromTrue(heading, course.With{
		Variation: l.plan.Variation, Deviation: l.plan.Deviation,
		At: new(l.forVariation()), On: l.Begins, Reading: l.plan.Reading,
	})
	return err
}

// headUp allows for the leeway and returns the heading.
func (l *Leg) headUp() (angle.True, error) {
	water := l.Water.Course
	if l.plan.Wind == nil || l.plan.Leeway == 0 || l.beforeTheWind() {
		return water, nil
	}
	var err error
	if l.Leeway, _, err = course.LeewayOn(water, l.plan.Leeway, *l.plan.Wind); err != nil {
		return water, err
	}
	heading := water.Add(-l.Leeway.Deflection())
	// The wind sets her by the side it is on when she heads so, which nearer to its
	// eye than the leeway is the other.
	on, warnings, err := course.LeewayOn(heading, l.plan.Leeway, *l.plan.Wind)
	l.ofLeeway = warnings
	if err == nil && on.WindOn != l.Leeway.WindOn {
		err = &course.LeewayError{Leeway: l.plan.Leeway, Wind: l.plan.Wind.From.Relative(heading), Reason: fmt.Sprintf("no heading makes %v good through the water: it is nearer to the wind's eye than the leeway", water)}
	}
	return heading, err
}

// beforeTheWind reports whether the wind is right astern.
func (l *Leg) beforeTheWind() bool {
	return l.plan.Wind != nil && l.plan.Wind.From == l.Water.Course.Reciprocal()
}

var errStreamsOnGreatCircle = errors.New("a great circle takes no streams that change: split it into rhumb lines, by its waypoints (package sailing)")

// steer finds the course through the water and the time.
func (l *Leg) steer(speed sailing.Speed) (time.Duration, error) {
	if l.plan.Streams == nil {
		l.Water = course.Motion{Course: l.Track, Speed: speed}
		return l.Distance.At(speed)
	}
	if steady, ok := l.steady(); ok {
		s, err := course.ToSteer(l.Track, speed, steady)
		if err != nil {
			return 0, err
		}
		l.Water = s.Water
		return s.TimeFor(l.Distance)
	}
	if l.To.GreatCircle {
		return 0, errStreamsOnGreatCircle
	}
	c, err := course.ToSteerAcross(l.From.Position, l.To.Position, l.Begins, speed, l.plan.Streams)
	if err != nil {
		return 0, err
	}
	l.crossing = &c
	l.Water = c.Water
	return c.Time, nil
}

// steady returns the one stream of the plan, given as a value or as a pointer.
func (l *Leg) steady() (course.Stream, bool) {
	switch s := l.plan.Streams.(type) {
	case course.Stream:
		return s, true
	case *course.Stream:
		if s != nil {
			return *s, true
		}
	}
	return course.Stream{}, false
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
		if g, err := sailing.NewGreatCircle(l.From.Position, l.To.Position); err == nil {
			return g.At(distance)
		}
	}
	p, err := sailing.WGS84().Follow(l.From.Position, sailing.Run{Course: l.Track, Distance: distance})
	if err != nil { // a leg that ends at a pole, beyond it by rounding
		return l.To.Position
	}
	return p
}
