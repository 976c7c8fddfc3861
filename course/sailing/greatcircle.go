package sailing

import (
	"fmt"
	"math"

	"lubberline.example/angle"
)

// A GreatCircle is the shortest line from one position to another on a figure of the earth.
// On an ellipsoid it is a geodesic, in true metres. On [Sphere] it is the great circle of the
// books. Make one with [Ellipsoid.GreatCircle] or [Ellipsoid.FollowGreatCircle]. The zero
// value has no length, at 0° N 0° E.
//
// At a pole, courses are counted from the position's own meridian, as that meridian reaches
// the pole.
type GreatCircle struct {
	From     angle.Position `json:"from"`
	To       angle.Position `json:"to"`
	Initial  angle.True     `json:"initial"` // course at the beginning
	Final    angle.True     `json:"final"`   // course at the end, going on
	Distance Distance       `json:"distance"`
	Figure   *Ellipsoid     `json:"figure"` // of the earth; nil is WGS84
}

// sameArc is the arc within which positions count as the same place: a millionth of a second
// of arc, 31 micrometres.
const sameArc = angle.Second / 1_000_000

// arcLength is the distance along an arc on the sphere.
func arcLength(a angle.Angle) Distance { return Distance(a.Minutes()) * NauticalMile }

// GreatCircle returns the shortest line from one position to another. Where two lines are
// equally short, as between antipodes, it returns one of them. If both positions are the same
// place, it returns an [*Error] of the kind [SamePlace].
//
// Never compare a distance on [Sphere] with that of [Ellipsoid.Rhumb] on an ellipsoid.
func (e *Ellipsoid) GreatCircle(from, to angle.Position) (GreatCircle, error) {
	if from.SamePlace(to) {
		return GreatCircle{}, errorOf(SamePlace, "great circle from %v to %v: they are the same place", from, to)
	}
	e = e.or()
	j := e.join(from, to)
	return GreatCircle{from, to, direction(j.sin1, j.cos1), direction(j.sin2, j.cos2), Distance(j.length), e}, nil
}

// FollowGreatCircle returns the great circle that leaves a position on a course and goes on
// for a distance. If the distance is not above zero or is more than 10,800 M, half way round
// the earth, it returns an [*angle.RangeError].
func (e *Ellipsoid) FollowGreatCircle(from angle.Position, run Run) (GreatCircle, error) {
	if !(run.Distance > 0 && run.Distance <= 180*60*NauticalMile) {
		return GreatCircle{}, &angle.RangeError{What: "distance", Value: run.Distance.NauticalMiles(), Accepted: "nautical miles above 0, at most 10800"}
	}
	e = e.or()
	to, final := e.follow(from, run.Course, run.Distance.Metres())
	return GreatCircle{from, to, run.Course, final, run.Distance, e}, nil
}

// String returns the line on one line of text:
//
//	47°00.0′N 010°00.0′W to 47°00.0′N 060°00.0′W, 2017.4 M, 289°T becoming 251°T
func (g GreatCircle) String() string {
	return fmt.Sprintf("%v to %v, %v, %.0f becoming %.0f", g.From, g.To, g.Distance, g.Initial, g.Final)
}

// At returns the position at a distance along the line, and the course there. The line goes on
// before its beginning (a distance below zero) and beyond its end. The distance must be
// finite. A line of no length has only its one position.
func (g GreatCircle) At(distance Distance) (angle.Position, angle.True) {
	if g.Distance == 0 {
		return g.From, g.Initial
	}
	return g.Figure.or().follow(g.From, g.Initial, distance.Metres())
}

// A Vertex is the place where a great circle is farthest north or south.
type Vertex struct {
	Position angle.Position `json:"position"`
	Distance Distance       `json:"distance"` // along the circle from its beginning; below zero if the shorter way is back
}

// Vertices returns the northern and the southern vertex. If the circle is the equator, which
// has no vertex, ok is false.
func (g GreatCircle) Vertices() (north, south Vertex, ok bool) {
	if g.Distance == 0 {
		return Vertex{}, Vertex{}, false
	}
	s := g.Figure.or().start(g.From, g.Initial)
	if s.line.cos0 < 1e-15 {
		return Vertex{}, Vertex{}, false
	}
	lengths := s.line.lengths()
	vertex := func(sigma float64) Vertex {
		arc := math.Remainder(sigma-s.sigma, 2*math.Pi)
		d := Distance(lengths.between(2*s.sigma+arc, arc) * s.line.figure.polar())
		p, _ := g.At(d)
		return Vertex{p, d}
	}
	return vertex(math.Pi / 2), vertex(-math.Pi / 2), true
}

// onLeg reports whether a distance is between the beginning and the end.
func (g GreatCircle) onLeg(d Distance) bool { return d >= 0 && d <= g.Distance }

// Waypoints returns positions along the line, both ends included, equally spaced and at most a
// distance apart. If that distance is not above zero, or makes more than 100,000 legs, it
// returns an [*angle.RangeError].
func (g GreatCircle) Waypoints(apart Distance) ([]angle.Position, error) {
	n := math.Ceil(float64(g.Distance / apart))
	if !(apart > 0) || !(n <= 100_000) {
		return nil, &angle.RangeError{What: "distance apart", Value: apart.NauticalMiles(), Accepted: "nautical miles above 0, at most 100000 legs"}
	}
	steps := max(1, int(n))
	points := make([]angle.Position, steps+1)
	points[0], points[steps] = g.From, g.To
	for i := 1; i < steps; i++ {
		points[i], _ = g.At(g.Distance * Distance(i) / Distance(steps))
	}
	return points, nil
}

// WaypointsByLongitude returns From, the positions where the circle crosses the
// meridians at each step of longitude, in order, and To. If the step is below 1′ or above 90°,
// or the circle is a meridian, it returns an [*angle.RangeError].
func (g GreatCircle) WaypointsByLongitude(step angle.Angle) ([]angle.Position, error) {
	if step < angle.Minute || step > 90*angle.Degree {
		return nil, &angle.RangeError{What: "step of longitude", Value: step.Degrees(), Accepted: "degrees, 1/60 to 90"}
	}
	s := g.Figure.or().start(g.From, g.Initial)
	if s.isMeridian() {
		return nil, &angle.RangeError{What: "step of longitude", Value: step.Degrees(), Accepted: "a circle that is not a meridian"}
	}
	points := []angle.Position{g.From}
	add := func(l angle.Angle) {
		points = append(points, s.onMeridian(angle.LongitudeFrom(l)))
	}
	west := g.From.Longitude.Angle()
	if s.line.sin0 > 0 {
		end := west + (g.To.Longitude.Angle() - west).Normalized()
		for l := floor(west, step) + step; l < end; l += step {
			add(l)
		}
	} else {
		end := west - (west - g.To.Longitude.Angle()).Normalized()
		for l := -floor(-west, step) - step; l > end; l -= step {
			add(l)
		}
	}
	return append(points, g.To), nil
}

// floor is the greatest whole number of steps that is not above an angle.
func floor(a, step angle.Angle) angle.Angle {
	down := a / step * step
	if down > a {
		down -= step
	}
	return down
}
