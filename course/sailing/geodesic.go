package sailing

import (
	"fmt"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// A Geodesic is the shortest line between two positions on an ellipsoid: the great circle
// of passages, in true metres. Make one with [Ellipsoid.Geodesic] or
// [Ellipsoid.FollowGeodesic]. The zero value has no length.
type Geodesic struct {
	Line
	Figure *Ellipsoid `json:"figure"` // of the earth; nil is WGS84
}

// Geodesic returns the shortest line from one position to another. Where two lines are equally
// short, as between antipodes, it returns one of them. If both positions are the same
// place, it returns an [*Error] of the kind [SamePlace].
func (e *Ellipsoid) Geodesic(from, to angle.Position) (Geodesic, error) {
	if from.SamePlace(to) {
		return Geodesic{}, errSamePlace(from, to)
	}
	e = e.or()
	j := e.join(from, to)
	return Geodesic{Line{from, to, direction(j.sin1, j.cos1), direction(j.sin2, j.cos2), Distance(j.length)}, e}, nil
}

// FollowGeodesic returns the geodesic that leaves a position on a course and goes on for a
// distance. If the distance is not above zero or is more than 10,800 M, half way round the
// earth, it returns an [*angle.RangeError].
func (e *Ellipsoid) FollowGeodesic(from angle.Position, run Run) (Geodesic, error) {
	if !(run.Distance > 0 && run.Distance <= 180*60*NauticalMile) {
		return Geodesic{}, &angle.RangeError{What: "distance", Value: run.Distance.NauticalMiles(), Accepted: "nautical miles above 0, at most 10800"}
	}
	e = e.or()
	to, final := e.follow(from, run.Course, run.Distance.Metres())
	return Geodesic{Line{from, to, run.Course, final, run.Distance}, e}, nil
}

// At returns the position at a distance along the line, and the course there. The line goes on
// before its beginning (a distance below zero) and beyond its end. The distance must be
// finite.
func (g Geodesic) At(distance Distance) (angle.Position, angle.True) {
	return g.Figure.or().follow(g.From, g.Initial, distance.Metres())
}

// Waypoints returns positions along the line, both ends included, equally spaced and at most a
// distance apart. If that distance is not above zero, or makes more than 100,000 legs, it returns an
// [*angle.RangeError].
func (g Geodesic) Waypoints(apart Distance) ([]angle.Position, error) {
	return g.waypoints(apart, g.At)
}

// Working returns the steps: the ends, the distance and the courses. It adds the distance on the
// sphere of the books to check by hand, which differs by up to 0.6 %.
func (g Geodesic) Working() working.Sheet {
	steps := append(positionSteps(g.From, g.To),
		distanceStep("distance", "Distance", g.Distance, "shortest line on "+g.Figure.or().String()+", in miles of 1852 m"),
		working.Direction("initial course", "Initial course", g.Initial, "solved for, until the line meets the other end"),
		working.Direction("final course", "Final course", g.Final, "of the same line at its end"),
	)
	if s, err := NewGreatCircle(g.From, g.To); err == nil {
		steps = append(steps, distanceStep("sphere distance", "To check: on the sphere", s.Distance, fmt.Sprintf("cos D = sin lat₁ sin lat₂ + cos lat₁ cos lat₂ cos d.long; initial course %.1f; within 0.6 %%", s.Initial)))
	}
	return sheet(steps)
}
