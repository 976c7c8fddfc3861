package sailing

import (
	"fmt"
	"math"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// A GreatCircle is the shortest line between two positions on the sphere, on which
// a minute of arc is a nautical mile, as the books work it. Make one with [NewGreatCircle] or
// [FollowGreatCircle]; it does not change. The zero value has no length, at
// 0° N 0° E.
//
// For a passage use [Ellipsoid.Geodesic], the same line in true metres: only that may be
// compared with [Ellipsoid.Rhumb].
//
// At a pole, directions count as they do along the position's own meridian as it
// comes to the pole.
type GreatCircle struct {
	from, to       angle.Position
	initial, final angle.True
	distance       Distance

	start, ahead vector // of from, and of the place 90° on
}

// From returns where the circle begins.
func (g GreatCircle) From() angle.Position { return g.from }

// To returns where it ends.
func (g GreatCircle) To() angle.Position { return g.to }

// Initial returns the course at the beginning.
func (g GreatCircle) Initial() angle.True { return g.initial }

// Final returns the course at the end, going on.
func (g GreatCircle) Final() angle.True { return g.final }

// Distance returns how long it is.
func (g GreatCircle) Distance() Distance { return g.distance }

// An UndefinedError reports two positions that no one great circle joins: they
// are the same place, or antipodes, which every circle through one joins.
type UndefinedError struct {
	From, To angle.Position
	Reason   string // in words
}

// Error says why.
func (e *UndefinedError) Error() string {
	return fmt.Sprintf("sailing: great circle from %v to %v: %s", e.From, e.To, e.Reason)
}

// sameArc is the arc within which positions count as the same place, or as antipodes: a
// millionth of a second of arc, 31 micrometres.
const sameArc = angle.Second / 1_000_000

// NewGreatCircle returns the great circle from one position to another. The same
// place and antipodes, to within a millionth of a second, are an
// [*UndefinedError].
func NewGreatCircle(from, to angle.Position) (GreatCircle, error) {
	p, q := unit(from), unit(to)
	across := p.cross(q)
	arc, err := angle.Atan2(across.length(), p.dot(q))
	switch {
	case err != nil || arc < sameArc:
		return GreatCircle{}, &UndefinedError{from, to, "they are the same place"}
	case arc > angle.Turn/2-sameArc:
		return GreatCircle{}, &UndefinedError{from, to, "they are antipodes, every course leads there"}
	}
	ahead := across.cross(p).scaled(1 / across.length())
	g := GreatCircle{from: from, to: to, distance: arcLength(arc), start: p, ahead: ahead}
	g.initial, g.final = g.courseAt(0, from), g.courseAt(arc.Radians(), to)
	return g, nil
}

// FollowGreatCircle returns the great circle that leaves a position on a course,
// as far as a distance. It refuses distances that are not above zero or more
// than half way round the earth, with an [*angle.RangeError].
func FollowGreatCircle(from angle.Position, run Run) (GreatCircle, error) {
	if !(run.Distance > 0 && run.Distance < 180*60*NauticalMile) {
		return GreatCircle{}, &angle.RangeError{What: "distance", Value: run.Distance.NauticalMiles(), Accepted: "nautical miles above 0, below 10800"}
	}
	north, east := axes(from)
	s, c := run.Course.FromNorth().SinCos()
	g := GreatCircle{from: from, initial: run.Course, distance: run.Distance, start: unit(from), ahead: north.scaled(c).plus(east.scaled(s))}
	g.to = g.At(run.Distance)
	g.final = g.courseAt(float64(run.Distance)/arcRadius, g.to)
	return g, nil
}

// arcRadius is the radius of the sphere.
const arcRadius = 180 * 60 * 1852 / math.Pi

// arcLength is the distance along an arc.
func arcLength(a angle.Angle) Distance { return Distance(a.Minutes()) * NauticalMile }

// At returns the position at a distance along the circle, which goes on before
// From (a distance below zero) and beyond To, round and round. The distance must be
// a finite number.
func (g GreatCircle) At(distance Distance) angle.Position {
	s, c := math.Sincos(float64(distance) / arcRadius)
	return g.start.scaled(c).plus(g.ahead.scaled(s)).position(g.from.Longitude)
}

// CourseAt returns the course at a distance along the circle, a finite number.
func (g GreatCircle) CourseAt(distance Distance) angle.True {
	return g.courseAt(float64(distance)/arcRadius, g.At(distance))
}

func (g GreatCircle) courseAt(arc float64, p angle.Position) angle.True {
	s, c := math.Sincos(arc)
	onward := g.ahead.scaled(c).plus(g.start.scaled(-s))
	north, east := axes(p)
	a, err := angle.Atan2(onward.dot(east), onward.dot(north))
	if err != nil {
		return angle.True{} // not reached: onward is of length 1, in the plane of the two
	}
	return angle.TrueFrom(a)
}

// A Vertex is the place where a great circle is farthest north or south.
type Vertex struct {
	Position angle.Position `json:"position"`
	Distance Distance       `json:"distance"` // along the circle from its beginning, forward or, below zero, back: the nearer way
	OnLeg    bool           `json:"onLeg"`    // whether it lies between the beginning and the end
}

// Vertices returns the northern and the southern vertex. The equator has none:
// then ok is false.
func (g GreatCircle) Vertices() (north, south Vertex, ok bool) {
	if g.normal().flat() {
		return Vertex{}, Vertex{}, false
	}
	arc := math.Atan2(g.ahead.z, g.start.z)
	return g.vertex(arc), g.vertex(math.Remainder(arc+math.Pi, 2*math.Pi)), true
}

func (g GreatCircle) vertex(arc float64) Vertex {
	d := Distance(arc * arcRadius)
	return Vertex{g.At(d), d, d >= 0 && d <= g.distance}
}

// EquatorCrossing returns the first place from From onward where the circle
// crosses the equator, its distance, and whether that is between From and To. The
// equator itself crosses nowhere: then ok is false.
func (g GreatCircle) EquatorCrossing() (p angle.Position, distance Distance, onLeg, ok bool) {
	if g.normal().flat() {
		return angle.Position{}, 0, false, false
	}
	arc := math.Atan2(-g.start.z, g.ahead.z)
	if arc < 0 {
		arc += math.Pi
	}
	distance = Distance(arc * arcRadius)
	p = g.At(distance)
	p.Latitude = angle.Latitude{} // exactly
	return p, distance, distance <= g.distance, true
}

// LatitudeAt returns the latitude in which the circle crosses a meridian. It is
// false for a circle that is itself a meridian.
func (g GreatCircle) LatitudeAt(longitude angle.Longitude) (angle.Latitude, bool) {
	n := g.normal()
	if math.Abs(n.z) < 1e-12 {
		return angle.Latitude{}, false
	}
	s, c := longitude.Angle().SinCos()
	a, err := angle.Atan2(-(n.x*c+n.y*s)*math.Copysign(1, n.z), math.Abs(n.z))
	if err != nil {
		return angle.Latitude{}, false
	}
	latitude, err := angle.LatitudeFrom(a)
	return latitude, err == nil
}

// Waypoints returns positions along the circle, From and To included, at most a
// distance apart and equally spaced. It refuses distances that are not above
// zero, and those that make more than 100,000 waypoints, with an [*angle.RangeError].
func (g GreatCircle) Waypoints(apart Distance) ([]angle.Position, error) {
	n := math.Ceil(float64(g.distance / apart))
	if !(apart > 0) || !(n <= 100_000) {
		return nil, &angle.RangeError{What: "distance apart", Value: apart.NauticalMiles(), Accepted: "nautical miles above 0, at most 100000 legs"}
	}
	steps := max(1, int(n))
	points := make([]angle.Position, steps+1)
	for i := range points {
		points[i] = g.At(g.distance * Distance(i) / Distance(steps))
	}
	points[0], points[steps] = g.from, g.to
	return points, nil
}

// WaypointsByLongitude returns From, the positions where the circle crosses the
// meridians at a step of longitude between them, in order, and To. It refuses
// steps under 1′ or over 90°, and a circle that is a meridian, with a
// [*angle.RangeError].
func (g GreatCircle) WaypointsByLongitude(step angle.Angle) ([]angle.Position, error) {
	if step < angle.Minute || step > 90*angle.Degree {
		return nil, &angle.RangeError{What: "step of longitude", Value: step.Degrees(), Accepted: "degrees, 1/60 to 90"}
	}
	if math.Abs(g.normal().z) < 1e-12 {
		return nil, &angle.RangeError{What: "step of longitude", Value: step.Degrees(), Accepted: "a circle that is not a meridian"}
	}
	d := g.to.Longitude.Sub(g.from.Longitude)
	points := []angle.Position{g.from}
	west := g.from.Longitude.Angle()
	if d > 0 {
		for l := floor(west, step) + step; l < west+d; l += step {
			points = append(points, g.onMeridian(angle.LongitudeFrom(l)))
		}
	} else {
		for l := -floor(-west, step) - step; l > west+d; l -= step {
			points = append(points, g.onMeridian(angle.LongitudeFrom(l)))
		}
	}
	return append(points, g.to), nil
}

// floor is the greatest whole number of steps that is not above an angle.
func floor(a, step angle.Angle) angle.Angle {
	down := a / step * step
	if down > a {
		down -= step
	}
	return down
}

func (g GreatCircle) onMeridian(longitude angle.Longitude) angle.Position {
	latitude, _ := g.LatitudeAt(longitude) // the circle is no meridian
	return angle.Position{Latitude: latitude, Longitude: longitude}
}

// normal is the pole of the circle: of length 1, positive up when going east.
func (g GreatCircle) normal() vector { return g.start.cross(g.ahead) }

// String returns the circle on one line:
//
//	47°00.0′N 010°00.0′W to 47°00.0′N 060°00.0′W, 2010.2 M, 289°T becoming 251°T
func (g GreatCircle) String() string {
	return fmt.Sprintf("%v to %v, %v, %.0f becoming %.0f", g.from, g.to, g.distance, g.initial, g.final)
}

// Working returns the steps by the formulas of the spherical triangle.
func (g GreatCircle) Working() working.Sheet { return sheet(g.steps()) }

func (g GreatCircle) steps() working.Steps {
	steps := positionSteps(g.from, g.to)
	steps = append(steps,
		distanceStep("distance", "Distance", g.distance, "on the sphere, where a minute of arc is a mile: cos D = sin lat₁ sin lat₂ + cos lat₁ cos lat₂ cos d.long"),
		working.Direction("initial course", "Initial course", g.initial, "tan C = sin d.long / (cos lat₁ tan lat₂ − sin lat₁ cos d.long); "+quadrantal(g.initial)),
		working.Direction("final course", "Final course", g.final, "the same from the other end, reversed"),
	)
	if north, south, ok := g.Vertices(); ok {
		v := north
		if !north.OnLeg && (south.OnLeg || math.Abs(float64(south.Distance)) < math.Abs(float64(north.Distance))) {
			v = south
		}
		where := "outside the leg"
		if v.OnLeg {
			where = "on the leg, after " + v.Distance.String()
		}
		steps = append(steps, working.Step{Key: "vertex", What: "Vertex", Value: v.Position.String(), Number: v.Position.Latitude.Degrees(), Unit: degreesNorth, How: "cos lat = sin C cos lat₁; " + where})
	}
	return steps
}
