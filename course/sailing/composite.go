package sailing

import (
	"fmt"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// A Composite is the shortest line between two positions that does not go beyond a
// limiting latitude: a great circle that touches the limit, the parallel along it,
// and a great circle away from it. Where the great circle keeps within the limit
// it is that alone.
type Composite struct {
	From, To angle.Position
	Limit    angle.Latitude // north or south, as its sign says
	Distance Distance       // of the three parts together

	// First and Last are the great circles. Without a parallel between them Last
	// is the same as First.
	First, Last GreatCircle

	// Parallel is the run along the limit, from First.To to Last.From; its
	// distance is nought if there is none.
	Parallel Run
}

// A LimitError reports a limiting latitude beyond which a position lies, or one on
// which nothing can touch.
type LimitError struct {
	Limit    angle.Latitude
	Position angle.Position // the one beyond it
}

// Error says which position lies beyond the limit.
func (e *LimitError) Error() string {
	return fmt.Sprintf("sailing: limit %v: %v lies beyond it", e.Limit, e.Position)
}

// NewComposite returns the composite sailing between two positions with a limiting
// latitude, north or south as its sign says. It returns a [*LimitError] if either
// position is beyond the limit, and an [*UndefinedError] as [NewGreatCircle] does.
func NewComposite(from, to angle.Position, limit angle.Latitude) (Composite, error) {
	sign := angle.Angle(1)
	if limit.Angle() < 0 {
		sign = -1
	}
	for _, p := range []angle.Position{from, to} {
		if p.Latitude.Angle()*sign > limit.Angle()*sign {
			return Composite{}, &LimitError{limit, p}
		}
	}
	direct, err := NewGreatCircle(from, to)
	if err != nil {
		return Composite{}, err
	}
	c := Composite{From: from, To: to, Limit: limit, Distance: direct.Distance, First: direct, Last: direct}
	north, south, ok := direct.Vertices()
	v := north
	if sign < 0 {
		v = south
	}
	if !ok || !v.OnLeg || v.Position.Latitude.Angle()*sign <= limit.Angle()*sign {
		return c, nil
	}
	// The circle that touches the limit does so where cos Δλ = tan lat cot limit.
	d := to.Longitude.Sub(from.Longitude)
	east := d >= 0
	touch := func(p angle.Position, ahead bool) (angle.Position, error) {
		cos := p.Latitude.Angle().Tan() / limit.Angle().Tan()
		arc, err := angle.Atan2(root(1-cos*cos), cos)
		if err != nil {
			return angle.Position{}, err
		}
		if ahead != east {
			arc = -arc
		}
		return angle.Position{Latitude: limit, Longitude: p.Longitude.Add(arc)}, nil
	}
	on, err := touch(from, true)
	if err != nil {
		return Composite{}, err
	}
	off, err := touch(to, false)
	if err != nil {
		return Composite{}, err
	}
	if c.First, err = orNothing(from, on, eastOrWest(d)); err != nil {
		return Composite{}, err
	}
	if c.Last, err = orNothing(off, to, eastOrWest(d)); err != nil {
		return Composite{}, err
	}
	c.Parallel = Sphere().Rhumb(on, off)
	c.Distance = c.First.Distance + c.Parallel.Distance + c.Last.Distance
	return c, nil
}

// orNothing is a great circle, of no length where a position lies on the limit.
func orNothing(from, to angle.Position, course angle.True) (GreatCircle, error) {
	if from.Latitude == to.Latitude && from.Longitude.Sub(to.Longitude).Abs() < sameArc {
		_, east := axes(from)
		return GreatCircle{From: from, To: to, Initial: course, Final: course, start: unit(from), ahead: east.scaled(course.FromNorth().Sin())}, nil
	}
	return NewGreatCircle(from, to)
}

// Working returns the steps of the three parts.
func (c Composite) Working() working.Steps {
	if c.Parallel.Distance == 0 && c.First == c.Last {
		return append(working.Steps{{Key: "limit", What: "Limiting latitude", Value: c.Limit.String(), Number: c.Limit.Degrees(), Unit: degreesNorth, How: "the great circle keeps within it"}}, c.First.Working()...)
	}
	return working.Steps{
		{Key: "limit", What: "Limiting latitude", Value: c.Limit.String(), Number: c.Limit.Degrees(), Unit: degreesNorth, How: "given"},
		{Key: "from", What: "From", Value: c.From.String(), How: "given"},
		working.Direction("initial course", "Initial course", c.First.Initial, "great circle that touches the limit: sin C = cos limit / cos lat₁"),
		distanceStep("first", "To the limit", c.First.Distance, "cos d.long = tan lat₁ cot limit; the limit is reached in "+c.First.To.Longitude.String()),
		distanceStep("parallel", "Along the limit", c.Parallel.Distance, c.Parallel.Course.String()+" to "+c.Last.From.Longitude.String()),
		distanceStep("last", "From the limit", c.Last.Distance, "great circle away from it"),
		working.Direction("final course", "Final course", c.Last.Final, ""),
		{Key: "to", What: "To", Value: c.To.String(), How: "given"},
		distanceStep("distance", "Distance", c.Distance, "the three together"),
	}
}
