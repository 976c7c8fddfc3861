package angle

import "math"

// Round returns the angle rounded to the nearest multiple of unit, halves away from zero.
// The whole module rounds in this way. Navigators round to a whole degree (Degree), half a
// degree (Degree/2), a minute (Minute) or a tenth of a minute (Minute/10). As with
// [time.Duration.Round], if unit is zero or less, Round returns the angle unchanged. If the
// result is beyond the range of [Angle], Round returns the largest or smallest Angle.
func (a Angle) Round(unit Angle) Angle {
	if unit <= 0 {
		return a
	}
	rest := a % unit
	if rest < 0 {
		rest = -rest
		if rest < unit-rest {
			return a + rest
		}
		if r := a - (unit - rest); r < a {
			return r
		}
		return math.MinInt64
	}
	if rest < unit-rest {
		return a - rest
	}
	if r := a + (unit - rest); r > a {
		return r
	}
	return math.MaxInt64
}

// Truncate returns the angle rounded toward zero to a multiple of unit. If unit is zero or
// less, it returns the angle unchanged.
func (a Angle) Truncate(unit Angle) Angle {
	if unit <= 0 {
		return a
	}
	return a - a%unit
}
