package sailing

import (
	"fmt"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// A Composite is the shortest line between two positions that does not go beyond a
// limiting latitude: a great circle that touches the limit, the parallel along it,
// and a great circle away from it. Where the great circle keeps within the limit
// it is that alone. Make one with [NewComposite]; it does not change.
type Composite struct {
	from, to    angle.Position
	limit       angle.Latitude
	distance    Distance
	first, last GreatCircle
	parallel    Run
}

// From returns where it begins.
func (c Composite) From() angle.Position { return c.from }

// To returns where it ends.
func (c Composite) To() angle.Position { return c.to }

// Limit returns the limiting latitude.
func (c Composite) Limit() angle.Latitude { return c.limit }

// Distance returns how long the parts are together.
func (c Composite) Distance() Distance { return c.distance }

// First returns the great circle that begins it.
func (c Composite) First() GreatCircle { return c.first }

// Last returns the great circle that ends it. Without a parallel between them it is the
// same as [Composite.First].
func (c Composite) Last() GreatCircle { return c.last }

// Parallel returns the run along the limit, from where the first great circle ends to
// where the last one begins; if there is no such run, its distance is zero.
func (c Composite) Parallel() Run { return c.parallel }

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
	c := Composite{from: from, to: to, limit: limit, distance: direct.distance, first: direct, last: direct}
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
	if c.first, err = orNothing(from, on, eastOrWest(d)); err != nil {
		return Composite{}, err
	}
	if c.last, err = orNothing(off, to, eastOrWest(d)); err != nil {
		return Composite{}, err
	}
	c.parallel = Sphere().Rhumb(on, off)
	c.distance = c.first.distance + c.parallel.Distance + c.last.distance
	return c, nil
}

// orNothing is a great circle, of no length where a position lies on the limit.
func orNothing(from, to angle.Position, course angle.True) (GreatCircle, error) {
	if from.Latitude == to.Latitude && from.Longitude.Sub(to.Longitude).Abs() < sameArc {
		_, east := axes(from)
		return GreatCircle{from: from, to: to, initial: course, final: course, start: unit(from), ahead: east.scaled(course.FromNorth().Sin())}, nil
	}
	return NewGreatCircle(from, to)
}

// String returns the sailing on one line, with its parts:
//
//	47°00.0′N 010°00.0′W to 47°00.0′N 060°00.0′W within 48°00.0′N, 2023.0 M: 613.2 M, 796.6 M along the limit, 613.2 M
func (c Composite) String() string {
	text := fmt.Sprintf("%v to %v within %v, %v", c.from, c.to, c.limit, c.distance)
	if c.parallel.Distance == 0 && c.first == c.last {
		return text + " by one great circle"
	}
	return fmt.Sprintf("%s: %v, %v along the limit, %v", text, c.first.distance, c.parallel.Distance, c.last.distance)
}

// Working returns the steps of the three parts.
func (c Composite) Working() working.Sheet { return sheet(c.steps()) }

func (c Composite) steps() working.Steps {
	if c.parallel.Distance == 0 && c.first == c.last {
		return append(working.Steps{{Key: "limit", What: "Limiting latitude", Value: c.limit.String(), Number: c.limit.Degrees(), Unit: degreesNorth, How: "the great circle keeps within it"}}, c.first.steps()...)
	}
	return working.Steps{
		{Key: "limit", What: "Limiting latitude", Value: c.limit.String(), Number: c.limit.Degrees(), Unit: degreesNorth, How: "given"},
		{Key: "from", What: "From", Value: c.from.String(), How: "given"},
		working.Direction("initial course", "Initial course", c.first.initial, "great circle that touches the limit: sin C = cos limit / cos lat₁"),
		distanceStep("first", "To the limit", c.first.distance, "cos d.long = tan lat₁ cot limit; the limit is reached in "+c.first.to.Longitude.String()),
		distanceStep("parallel", "Along the limit", c.parallel.Distance, c.parallel.Course.String()+" to "+c.last.from.Longitude.String()),
		distanceStep("last", "From the limit", c.last.distance, "great circle away from it"),
		working.Direction("final course", "Final course", c.last.final, ""),
		{Key: "to", What: "To", Value: c.to.String(), How: "given"},
		distanceStep("distance", "Distance", c.distance, "the three together, on the sphere"),
	}
}
