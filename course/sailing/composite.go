package sailing

import (
	"fmt"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// A Composite is the shortest line between two positions that does not go beyond a
// limiting latitude, on [Sphere]. It has three parts: a great circle that touches the limit, a
// run along that parallel, and a great circle away from it. If the great circle between the
// positions keeps within the limit, it is the only part, and First and Last are the same. Make
// one with [NewComposite].
type Composite struct {
	Limit    angle.Latitude `json:"limit"`
	First    GreatCircle    `json:"first"`
	Parallel Run            `json:"parallel"` // of distance zero if there is no such run
	Last     GreatCircle    `json:"last"`
	Distance Distance       `json:"distance"` // of all parts
}

// NewComposite returns the composite sailing between two positions with a limiting
// latitude, north if above zero and south if below. If either position is beyond the limit, it
// returns an [*angle.RangeError]. Other errors are those of
// [Ellipsoid.GreatCircle].
func NewComposite(from, to angle.Position, limit angle.Latitude) (Composite, error) {
	sign := angle.Angle(1)
	if limit.Angle() < 0 {
		sign = -1
	}
	for _, p := range []angle.Position{from, to} {
		if p.Latitude.Angle()*sign > limit.Angle()*sign {
			return Composite{}, &angle.RangeError{What: "latitude of the end " + p.String(), Value: p.Latitude.Degrees(), Accepted: "degrees within the limiting latitude of " + limit.String()}
		}
	}
	direct, err := Sphere().GreatCircle(from, to)
	if err != nil {
		return Composite{}, err
	}
	c := Composite{Limit: limit, First: direct, Last: direct, Distance: direct.Distance}
	north, south, ok := direct.Vertices()
	v := north
	if sign < 0 {
		v = south
	}
	if !ok || !direct.onLeg(v.Distance) || v.Position.Latitude.Angle()*sign <= limit.Angle()*sign {
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
		return GreatCircle{From: from, To: to, Initial: course, Final: course, Figure: Sphere()}, nil
	}
	return Sphere().GreatCircle(from, to)
}

// alone reports whether the great circle is the only part.
func (c Composite) alone() bool { return c.Parallel.Distance == 0 && c.First == c.Last }

// String returns the sailing on one line of text, with its parts:
//
//	47°00.0′N 010°00.0′W to 47°00.0′N 060°00.0′W within 48°00.0′N, 2023.0 M: 613.2 M, 796.6 M along the limit, 613.2 M
func (c Composite) String() string {
	text := fmt.Sprintf("%v to %v within %v, %v", c.First.From, c.Last.To, c.Limit, c.Distance)
	if c.alone() {
		return text + " by one great circle"
	}
	return fmt.Sprintf("%s: %v, %v along the limit, %v", text, c.First.Distance, c.Parallel.Distance, c.Last.Distance)
}

// Working returns the steps of the three parts.
func (c Composite) Working() working.Sheet { return sheet(c.steps()) }

// steps returns the steps of the working.
func (c Composite) steps() working.Steps {
	limit := working.Step{Key: "limit", What: "Limiting latitude", Value: c.Limit.String(), Number: c.Limit.Degrees(), Unit: degreesNorth}
	if c.alone() {
		return append(working.Steps{limit.Because("circle-within-limit", "the great circle keeps within it")}, c.First.steps()...)
	}
	return working.Steps{
		given(limit),
		given(working.Step{Key: "from", What: "From", Value: c.First.From.String()}),
		working.Direction("initial course", "Initial course", c.First.Initial).
			Because("composite-course", "great circle that touches the limit: sin C = cos limit / cos lat₁"),
		distanceStep("first", "To the limit", c.First.Distance).
			Because("to-the-limit", "cos d.long = tan lat₁ cot limit; the limit is reached in %v", c.First.To.Longitude),
		distanceStep("parallel", "Along the limit", c.Parallel.Distance).
			Because("along-the-limit", "%v to %v", c.Parallel.Course, c.Last.From.Longitude),
		distanceStep("last", "From the limit", c.Last.Distance).
			Because("from-the-limit", "great circle away from it"),
		working.Direction("final course", "Final course", c.Last.Final),
		given(working.Step{Key: "to", What: "To", Value: c.Last.To.String()}),
		distanceStep("distance", "Distance", c.Distance).
			Because("sum-on-the-sphere", "the three together, on the sphere"),
	}
}
