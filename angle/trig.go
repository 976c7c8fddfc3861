package angle

import "math"

// Sin returns the sine of the angle. It reduces the angle exactly before it converts to
// radians. So a sine of 0, ±½ or ±1 is exact, and that of an odd multiple of 45° is the
// float64 nearest to ±√½.
func (a Angle) Sin() float64 {
	s, _ := a.SinCos()
	return s
}

// Cos returns the cosine of the angle. It is as exact as [Angle.Sin].
func (a Angle) Cos() float64 {
	_, c := a.SinCos()
	return c
}

// Tan returns the tangent of the angle. It is exactly 0 at multiples of 180° and exactly
// ±1 at odd multiples of 45°. At odd multiples of 90° it is infinite, with the sign of
// tanPi in IEEE 754-2019. That is +∞ at 90° + 360°n, and −∞ at 270° + 360°n.
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
		s, c = sinCosOctant(r.Radians())
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

// sinCosOctant returns the sine and cosine of x within ±π/4, each to within one unit in the
// last place. The caller has already reduced the angle, which is what makes the function
// of package math slow.
//
// The polynomials are those of __kernel_sin and __kernel_cos of FDLIBM, files k_sin.c and
// k_cos.c, whose notice follows and stands in LICENSE too:
//
//	====================================================
//	Copyright (C) 1993 by Sun Microsystems, Inc. All rights reserved.
//
//	Developed at SunSoft, a Sun Microsystems, Inc. business.
//	Permission to use, copy, modify, and distribute this
//	software is freely granted, provided that this notice
//	is preserved.
//	====================================================
func sinCosOctant(x float64) (sin, cos float64) {
	z := x * x
	sin = x + x*z*(-1.66666666666666324348e-01+z*(8.33333333332248946124e-03+z*(-1.98412698298579493134e-04+
		z*(2.75573137070700676789e-06+z*(-2.50507602534068634195e-08+z*1.58969099521155010221e-10)))))
	rest := z * z * (4.16666666666666019037e-02 + z*(-1.38888888888741095749e-03+z*(2.48015872894767294178e-05+
		z*(-2.75573143513906633035e-07+z*(2.08757232129817482790e-09+z*-1.13596475577881948265e-11)))))
	half := z / 2
	// 1 − z/2 loses digits; the next line restores them.
	cos = 1 - half
	cos += ((1 - cos) - half) + rest
	return sin, cos
}

// quadrant splits an angle into the nearest multiple of 90°, counted 0 to 3,
// and the rest in [−45°, 45°).
func (a Angle) quadrant() (quadrant int, rest Angle) {
	if a < 0 || a >= Turn {
		a = a.Normalized()
	}
	switch { // comparisons are faster than a division
	case a < 45*Degree:
		return 0, a
	case a < 135*Degree:
		return 1, a - 90*Degree
	case a < 225*Degree:
		return 2, a - 180*Degree
	case a < 315*Degree:
		return 3, a - 270*Degree
	}
	return 0, a - Turn
}

// Atan2 returns the angle of the point (x, y), in (−180°, 180°]: its tangent is y/x. With
// y east and x north it is a direction from north. It is exact on the axes and on the
// diagonals. If x or y is NaN, or both are zero, it returns a [*RangeError].
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

// fromRatio returns the angle whose tangent is t, for t in [0, 1].
func fromRatio(t float64) Angle {
	units := math.Atan(t) * unitsPerRadian
	return Angle(math.Round(units))
}
