package sailing

import (
	"math"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// A GreatCircle is the shortest line between two positions on the sphere of the books, on
// which a minute of arc is a nautical mile. Make one with [NewGreatCircle]. The zero value
// has no length, at 0° N 0° E.
//
// For a passage use [Ellipsoid.Geodesic], the great circle in true metres. Never compare a
// distance on the sphere with that of [Ellipsoid.Rhumb]. To follow a great circle from a
// course and a distance, use [Ellipsoid.FollowGeodesic] of [Sphere].
type GreatCircle struct {
	Line

	start, ahead vector // of From, and of the place 90° on
}

// sameArc is the arc within which positions count as the same place, or as antipodes: a
// millionth of a second of arc, 31 micrometres.
const sameArc = angle.Second / 1_000_000

// NewGreatCircle returns the great circle from one position to another. If the positions are
// the same place or antipodes, to a millionth of a second, it returns an [*Error] of the kind
// [SamePlace] or [Antipodes].
func NewGreatCircle(from, to angle.Position) (GreatCircle, error) {
	p, q := unit(from), unit(to)
	across := p.cross(q)
	arc, err := angle.Atan2(across.length(), p.dot(q))
	switch {
	case err != nil || arc < sameArc:
		return GreatCircle{}, errSamePlace(from, to)
	case arc > angle.Turn/2-sameArc:
		return GreatCircle{}, errorOf(Antipodes, "great circle from %v to %v: they are antipodes, and every course leads there; use Ellipsoid.Geodesic, or a waypoint between", from, to)
	}
	ahead := across.cross(p).scaled(1 / across.length())
	g := GreatCircle{Line: Line{From: from, To: to, Distance: arcLength(arc)}, start: p, ahead: ahead}
	g.Initial, g.Final = g.courseAt(0, from), g.courseAt(arc.Radians(), to)
	return g, nil
}

// arcRadius is the radius of the sphere.
const arcRadius = 180 * 60 * 1852 / math.Pi

// arcLength is the distance along an arc.
func arcLength(a angle.Angle) Distance { return Distance(a.Minutes()) * NauticalMile }

// errSamePlace is the error of a great circle or a geodesic from a place to itself.
func errSamePlace(from, to angle.Position) error {
	return errorOf(SamePlace, "great circle from %v to %v: they are the same place", from, to)
}

// At returns the position at a distance along the circle, and the course there. The circle goes
// on before From (a distance below zero) and beyond To. The distance must be finite.
func (g GreatCircle) At(distance Distance) (angle.Position, angle.True) {
	p := g.at(distance)
	return p, g.courseAt(float64(distance)/arcRadius, p)
}

func (g GreatCircle) at(distance Distance) angle.Position {
	s, c := math.Sincos(float64(distance) / arcRadius)
	return g.start.scaled(c).plus(g.ahead.scaled(s)).position(g.From.Longitude)
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
	Distance Distance       `json:"distance"` // along the circle from its beginning; below zero if the shorter way is back
	OnLeg    bool           `json:"onLeg"`    // whether the vertex lies between the beginning and the end
}

// Vertices returns the northern and the southern vertex. If the circle is the equator, which
// has no vertex, ok is false.
func (g GreatCircle) Vertices() (north, south Vertex, ok bool) {
	if g.normal().flat() {
		return Vertex{}, Vertex{}, false
	}
	arc := math.Atan2(g.ahead.z, g.start.z)
	return g.vertex(arc), g.vertex(math.Remainder(arc+math.Pi, 2*math.Pi)), true
}

func (g GreatCircle) vertex(arc float64) Vertex {
	d := Distance(arc * arcRadius)
	return Vertex{g.at(d), d, d >= 0 && d <= g.Distance}
}

// latitudeAt is the latitude in which the circle crosses a meridian. It is false for a
// circle that is itself a meridian.
func (g GreatCircle) latitudeAt(longitude angle.Longitude) (angle.Latitude, bool) {
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

// Waypoints returns positions along the circle, both ends included, equally spaced and at
// most a distance apart. If that distance is not above zero, or makes more than 100,000 legs, it
// returns an [*angle.RangeError].
func (g GreatCircle) Waypoints(apart Distance) ([]angle.Position, error) {
	return g.waypoints(apart, g.At)
}

// WaypointsByLongitude returns From, the positions where the circle crosses the
// meridians at each step of longitude, in order, and To. If the step is below 1′ or above 90°,
// or the circle is a meridian, it returns an [*angle.RangeError].
func (g GreatCircle) WaypointsByLongitude(step angle.Angle) ([]angle.Position, error) {
	if step < angle.Minute || step > 90*angle.Degree {
		return nil, &angle.RangeError{What: "step of longitude", Value: step.Degrees(), Accepted: "degrees, 1/60 to 90"}
	}
	if math.Abs(g.normal().z) < 1e-12 {
		return nil, &angle.RangeError{What: "step of longitude", Value: step.Degrees(), Accepted: "a circle that is not a meridian"}
	}
	d := g.To.Longitude.Sub(g.From.Longitude)
	points := []angle.Position{g.From}
	west := g.From.Longitude.Angle()
	if d > 0 {
		for l := floor(west, step) + step; l < west+d; l += step {
			points = append(points, g.onMeridian(angle.LongitudeFrom(l)))
		}
	} else {
		for l := -floor(-west, step) - step; l > west+d; l -= step {
			points = append(points, g.onMeridian(angle.LongitudeFrom(l)))
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

func (g GreatCircle) onMeridian(longitude angle.Longitude) angle.Position {
	latitude, _ := g.latitudeAt(longitude) // the circle is not a meridian
	return angle.Position{Latitude: latitude, Longitude: longitude}
}

// normal is the pole of the circle: of length 1, positive up when going east.
func (g GreatCircle) normal() vector { return g.start.cross(g.ahead) }

// Working returns the steps by the formulas of the spherical triangle.
func (g GreatCircle) Working() working.Sheet { return sheet(g.steps()) }

func (g GreatCircle) steps() working.Steps {
	steps := positionSteps(g.From, g.To)
	steps = append(steps,
		distanceStep("distance", "Distance", g.Distance, "on the sphere, where a minute of arc is a mile: cos D = sin lat₁ sin lat₂ + cos lat₁ cos lat₂ cos d.long"),
		working.Direction("initial course", "Initial course", g.Initial, "tan C = sin d.long / (cos lat₁ tan lat₂ − sin lat₁ cos d.long); "+quadrantal(g.Initial)),
		working.Direction("final course", "Final course", g.Final, "the same from the other end, reversed"),
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
