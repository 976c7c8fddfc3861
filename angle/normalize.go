package angle

// Normalized returns the angle brought into [0°, 360°), the range of a
// direction in three figures.
func (a Angle) Normalized() Angle {
	if a %= Turn; a < 0 {
		a += Turn
	}
	return a
}

// NormalizedSigned returns the angle brought into (−180°, 180°], the range of
// the shortest turn. Half a turn is +180° whichever way it was given.
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
