package angle

// Normalized returns the same angle in [0°, 360°), the range of a direction: −10° gives
// 350°.
func (a Angle) Normalized() Angle {
	if a %= Turn; a < 0 {
		a += Turn
	}
	return a
}

// NormalizedSigned returns the same angle in (−180°, 180°], the range of the shortest
// turn: 350° gives −10°. Half a turn is always +180°.
func (a Angle) NormalizedSigned() Angle {
	a %= Turn
	switch {
	case a > Turn/2:
		return a - Turn
	case a <= -Turn/2:
		return a + Turn
	default:
		return a
	}
}
