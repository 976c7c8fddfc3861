package angle

import "math"

// Sin returns the sine of the angle. The angle is reduced exactly before it
// becomes radians, so that multiples of 30° have the exact value wherever that
// is 0, ±½ or ±1, and odd multiples of 45° the float64 nearest to ±√½.
func (a Angle) Sin() float64 {
	s, _ := a.SinCos()
	return s
}

// Cos returns the cosine of the angle, exact where [Angle.Sin] is.
func (a Angle) Cos() float64 {
	_, c := a.SinCos()
	return c
}

// Tan returns the tangent of the angle: 0 at multiples of 180°, exactly ±1 at
// odd multiples of 45°. At odd multiples of 90° it is infinite, with the sign
// that IEEE 754-2019 gives tanPi: +∞ at 90° + 360°n, −∞ at 270° + 360°n.
func (a Angle) Tan() float64 {
	quadrant, r := a.quadrant()
	var t float64
	if r == -45*Degree {
		t = -1
	} else {
		t = math.Tan(r.Radians())
	}
	if quadrant%2 == 0 {
		return t
	}
	if t == 0 {
		return math.Inf(2 - quadrant)
	}
	return -1 / t
}

// SinCos returns the sine and the cosine of the angle; see [Angle.Sin].
func (a Angle) SinCos() (sin, cos float64) {
	quadrant, r := a.quadrant()
	var s, c float64
	switch r {
	case 30 * Degree:
		s, c = 0.5, math.Sqrt(3)/2
	case -30 * Degree:
		s, c = -0.5, math.Sqrt(3)/2
	case -45 * Degree:
		s, c = -math.Sqrt2/2, math.Sqrt2/2
	default:
		s, c = math.Sincos(r.Radians())
	}
	switch quadrant {
	case 1:
		return c, 0 - s // 0 − s, not −s: no negative zero
	case 2:
		return 0 - s, -c
	case 3:
		return -c, s
	}
	return s, c
}

// quadrant splits an angle into the nearest multiple of 90°, counted 0 to 3,
// and the rest in [−45°, 45°).
func (a Angle) quadrant() (quadrant int, rest Angle) {
	a = a.Normalized()
	q := (a + 45*Degree) / (90 * Degree)
	return int(q % 4), a - q*90*Degree
}

// Atan2 returns the angle, in (−180°, 180°], whose tangent is y/x, in the
// quadrant of the point (x, y); exact on the axes and on the diagonals between
// them. With y east and x north it is a direction from north. It refuses NaN,
// and the origin, which has no direction, with a [*RangeError].
func Atan2(y, x float64) (Angle, error) {
	if x == 0 && y == 0 || math.IsNaN(x) || math.IsNaN(y) {
		value := y
		if math.IsNaN(x) {
			value = x
		}
		return 0, &RangeError{What: "direction of a vector", Value: value, Accepted: "vectors that are not zero and not NaN"}
	}
	ax, ay := math.Abs(x), math.Abs(y)
	var a Angle // first octants
	switch {
	case ay == ax:
		a = 45 * Degree
	case ay < ax:
		a = fromRatio(ay / ax)
	default:
		a = 90*Degree - fromRatio(ax/ay)
	}
	if x < 0 {
		a = Turn/2 - a
	}
	if y < 0 {
		a = -a
	}
	return a.NormalizedSigned(), nil
}

// fromRatio is the angle whose tangent is t, for t in [0, 1].
func fromRatio(t float64) Angle {
	units := math.Atan(t) * unitsPerRadian
	return Angle(math.Round(units))
}
