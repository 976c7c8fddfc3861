package angle

import (
	"math"
)

// A MeanDirection is the mean of several directions and their spread.
type MeanDirection[R North] struct {
	Direction Direction[R] `json:"direction"`

	// Resultant is the length of the mean vector, from 0 (no direction
	// preferred) to 1 (all the same).
	Resultant float64 `json:"resultant"`

	// Spread is the circular standard deviation, √(−2 ln Resultant) radians
	// (Mardia and Jupp, Directional Statistics, 2000, section 2.3; cited from
	// memory). For directions close together it is their standard deviation.
	Spread Angle `json:"spread"`
}

// leastResultant is the least length of a mean vector. Below it, rounding errors of about
// 1e-16 a term would decide the direction.
const leastResultant = 1e-12

// Mean returns the mean of several directions, which is the direction of the sum of their
// unit vectors: the mean of 350° and 010° is 000°. It returns a [*RangeError] if there is
// no direction, or if the directions cancel, as two opposite ones do.
//
// Mean sums the vectors relative to the first direction. So if all directions turn by one
// angle, the mean turns by exactly that angle.
func Mean[R North](directions ...Direction[R]) (MeanDirection[R], error) {
	if len(directions) == 0 {
		return MeanDirection[R]{}, &RangeError{What: "number of directions to average", Accepted: "at least one direction"}
	}
	first := directions[0]
	var east, north float64
	for _, d := range directions {
		s, c := d.Sub(first).SinCos()
		east += s
		north += c
	}
	n := len(directions)
	resultant := math.Hypot(east, north) / float64(n)
	if resultant < leastResultant {
		return MeanDirection[R]{}, &RangeError{What: "length of the mean vector", Value: resultant, Accepted: "directions that do not cancel, as two opposite ones do"}
	}
	turn, err := Atan2(east, north)
	if err != nil {
		return MeanDirection[R]{}, err
	}
	m := MeanDirection[R]{Direction: first.Add(turn), Resultant: min(resultant, 1)}
	m.Spread, err = Radians(math.Sqrt(-2 * math.Log(m.Resultant)))
	return m, err
}
