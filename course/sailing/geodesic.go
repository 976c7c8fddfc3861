package sailing

import (
	"encoding/json"
	"fmt"
	"math"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// A Geodesic is the shortest line between two positions on an ellipsoid: the great circle
// of passages, in true metres. Make one with [Ellipsoid.Geodesic] or
// [Ellipsoid.FollowGeodesic]; it does not change. The zero value has no length.
//
// At a pole, directions are counted from the position's own meridian as it comes to the
// pole.
type Geodesic struct {
	figure         *Ellipsoid
	from, to       angle.Position
	initial, final angle.True
	distance       Distance
}

// Geodesic returns the shortest line from one position to another. Where two lines are equally
// short, as between antipodes, it returns one of them. If both positions are the same
// place, it returns an [*UndefinedError].
func (e *Ellipsoid) Geodesic(from, to angle.Position) (Geodesic, error) {
	if from.SamePlace(to) {
		return Geodesic{}, &UndefinedError{from, to, "they are the same place"}
	}
	e = e.or()
	j := e.join(from, to)
	return Geodesic{e, from, to, direction(j.sin1, j.cos1), direction(j.sin2, j.cos2), Distance(j.length)}, nil
}

// FollowGeodesic returns the geodesic that leaves a position on a course, as far as a
// distance. If that is not above zero or is more than 10,800 M, half way round the
// earth, it returns an [*angle.RangeError].
func (e *Ellipsoid) FollowGeodesic(from angle.Position, run Run) (Geodesic, error) {
	if !(run.Distance > 0 && run.Distance <= 180*60*NauticalMile) {
		return Geodesic{}, &angle.RangeError{What: "distance", Value: run.Distance.NauticalMiles(), Accepted: "nautical miles above 0, at most 10800"}
	}
	e = e.or()
	to, final := e.follow(from, run.Course, run.Distance.Metres())
	return Geodesic{e, from, to, run.Course, final, run.Distance}, nil
}

// From returns the position where the line begins.
func (g Geodesic) From() angle.Position { return g.from }

// To returns the position where the line ends.
func (g Geodesic) To() angle.Position { return g.to }

// Initial returns the course at the beginning.
func (g Geodesic) Initial() angle.True { return g.initial }

// Final returns the course at the end, going on.
func (g Geodesic) Final() angle.True { return g.final }

// Distance returns the length of the line.
func (g Geodesic) Distance() Distance { return g.distance }

// At returns the position at a distance along the line, and the course there. The line goes on
// before its beginning (a distance below zero) and beyond its end. The distance must be
// finite.
func (g Geodesic) At(distance Distance) (angle.Position, angle.True) {
	return g.figure.or().follow(g.from, g.initial, distance.Metres())
}

// Waypoints returns positions along the line, both ends included, equally spaced and at most a
// distance apart. If that distance is not above zero, or makes more than 100,000 legs, it returns an
// [*angle.RangeError].
func (g Geodesic) Waypoints(apart Distance) ([]angle.Position, error) {
	n := math.Ceil(float64(g.distance / apart))
	if !(apart > 0) || !(n <= 100_000) {
		return nil, &angle.RangeError{What: "distance apart", Value: apart.NauticalMiles(), Accepted: "nautical miles above 0, at most 100000 legs"}
	}
	steps := max(1, int(n))
	points := make([]angle.Position, steps+1)
	points[0], points[steps] = g.from, g.to
	for i := 1; i < steps; i++ {
		points[i], _ = g.At(g.distance * Distance(i) / Distance(steps))
	}
	return points, nil
}

// String returns the line in one sentence:
//
//	47°00.0′N 010°00.0′W to 47°00.0′N 060°00.0′W, 2017.4 M, 289°T becoming 251°T
func (g Geodesic) String() string {
	return fmt.Sprintf("%v to %v, %v, %.0f becoming %.0f", g.from, g.to, g.distance, g.initial, g.final)
}

// MarshalJSON gives the ends, the courses, the distance and the figure of the earth,
// exactly. It is not read back.
func (g Geodesic) MarshalJSON() ([]byte, error) {
	return json.Marshal(struct {
		From     angle.Position `json:"from"`
		To       angle.Position `json:"to"`
		Initial  angle.True     `json:"initial"`
		Final    angle.True     `json:"final"`
		Distance Distance       `json:"distance"`
		Figure   *Ellipsoid     `json:"figure"`
	}{g.from, g.to, g.initial, g.final, g.distance, g.figure.or()})
}

// Working returns the ends, the answer, and the answer on the sphere of the books, by which
// it can be checked by hand: the two differ by up to 0.6 % in distance.
func (g Geodesic) Working() working.Sheet {
	steps := append(positionSteps(g.from, g.to),
		distanceStep("distance", "Distance", g.distance, "shortest line on "+g.figure.or().String()+", in miles of 1852 m"),
		working.Direction("initial course", "Initial course", g.initial, "solved for, until the line meets the other end"),
		working.Direction("final course", "Final course", g.final, "of the same line at its end"),
	)
	if s, err := NewGreatCircle(g.from, g.to); err == nil {
		steps = append(steps, distanceStep("sphere distance", "To check: on the sphere", s.distance, fmt.Sprintf("cos D = sin lat₁ sin lat₂ + cos lat₁ cos lat₂ cos d.long; initial course %.1f; within 0.6 %%", s.initial)))
	}
	return sheet(steps)
}
