package sailing

import (
	"fmt"
	"math"

	"lubberline.example/angle"
)

// A Line is the shortest way from one position to another: a [Geodesic], a
// [GreatCircle] or a [Composite]. At a pole, its courses are counted from the position's
// own meridian, as that meridian reaches the pole.
type Line struct {
	From     angle.Position `json:"from"`
	To       angle.Position `json:"to"`
	Initial  angle.True     `json:"initial"` // course at the beginning
	Final    angle.True     `json:"final"`   // course at the end, going on
	Distance Distance       `json:"distance"`
}

// String returns the line on one line of text:
//
//	47°00.0′N 010°00.0′W to 47°00.0′N 060°00.0′W, 2017.4 M, 289°T becoming 251°T
func (l Line) String() string {
	return fmt.Sprintf("%v to %v, %v, %.0f becoming %.0f", l.From, l.To, l.Distance, l.Initial, l.Final)
}

// waypoints are the ends of the line and positions between them, equally spaced and at
// most a distance apart.
func (l Line) waypoints(apart Distance, at func(Distance) (angle.Position, angle.True)) ([]angle.Position, error) {
	n := math.Ceil(float64(l.Distance / apart))
	if !(apart > 0) || !(n <= 100_000) {
		return nil, &angle.RangeError{What: "distance apart", Value: apart.NauticalMiles(), Accepted: "nautical miles above 0, at most 100000 legs"}
	}
	steps := max(1, int(n))
	points := make([]angle.Position, steps+1)
	points[0], points[steps] = l.From, l.To
	for i := 1; i < steps; i++ {
		points[i], _ = at(l.Distance * Distance(i) / Distance(steps))
	}
	return points, nil
}
