package angle

import "math"

// minResultant is the minimum length of a mean vector. Below it, rounding errors of about
// 1e-16 a term would decide the direction.
const minResultant = 1e-12

// Mean returns the mean of several directions and their spread. The mean is the direction
// of the sum of their unit vectors: the mean of 350° and 010° is 000°. If there is no
// direction, or if the directions cancel, as two opposite ones do, Mean returns a
// [*RangeError].
//
// The spread is the circular standard deviation, √(−2 ln R) radians. R is the length of
// the mean of the unit vectors. (Mardia and Jupp, Directional Statistics, 2000, section
// 2.3; cited from memory.) For directions close together it is their standard deviation.
//
// Mean sums the vectors relative to the first direction. So if all directions turn by one
// angle, the mean turns by exactly that angle, and the spread stays the same.
func Mean[R North](directions ...Direction[R]) (mean Direction[R], spread Angle, err error) {
	if len(directions) == 0 {
		return mean, 0, &RangeError{What: "number of directions to average", Accepted: "at least one direction"}
	}
	first := directions[0]
	var east, north float64
	for _, d := range directions {
		s, c := d.Sub(first).SinCos()
		east += s
		north += c
	}
	resultant := math.Hypot(east, north) / float64(len(directions))
	if resultant < minResultant {
		return mean, 0, &RangeError{What: "length of the mean vector", Value: resultant, Accepted: "directions that do not cancel, as two opposite ones do"}
	}
	turn, err := Atan2(east, north)
	if err != nil {
		return mean, 0, err
	}
	if spread, err = Radians(math.Sqrt(-2 * math.Log(min(resultant, 1)))); err != nil {
		return mean, 0, err
	}
	return first.Add(turn), spread, nil
}
