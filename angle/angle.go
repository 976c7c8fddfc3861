package angle

import (
	"math"
	"math/bits"
)

// An Angle is a plane angle, a turn or a difference of directions, in whole billionths
// of a second of arc. Like [time.Duration] it is an integer: angles add, subtract and
// compare exactly, with the operators of Go.
//
//	7*angle.Degree + 38*angle.Minute    // 7°38′
//	-(4*angle.Degree + 15*angle.Minute) // 4°15′ the other way: west, or to port
//
// A bare number converted to Angle counts billionths of a second, which is never what is
// meant. Multiply by a unit, or use [Degrees], [Minutes], [Seconds] or [Radians].
//
// Decimal degrees are exact to 11 places and decimal minutes to 10. One unit is 31
// nanometres on the ground. The range is ±7,116 turns. Operators overflow beyond it, as
// on every integer. Reduce a quantity of many turns, such as sidereal time over a century,
// before you make it an Angle. The constructors return an error if the angle does not fit.
// They never return the most negative integer, so a constructed Angle can be negated.
type Angle int64

// The units of angle. A point is 1/32 of the circle, exactly 11°15′.
const (
	Second Angle = 1_000_000_000
	Minute       = 60 * Second
	Degree       = 60 * Minute
	Point        = 45 * Degree / 4
	Turn         = 360 * Degree
)

// Degrees returns the angle of a number of degrees, rounded once to the nearest
// unit of [Angle] (halves away from zero). If degrees is NaN, infinite or beyond the
// range of Angle, it returns a [*RangeError].
func Degrees(degrees float64) (Angle, error) { return fromFloat("degrees", degrees, Degree) }

// Minutes returns the angle of a number of minutes of arc; see [Degrees].
func Minutes(minutes float64) (Angle, error) { return fromFloat("minutes of arc", minutes, Minute) }

// Seconds returns the angle of a number of seconds of arc; see [Degrees].
func Seconds(seconds float64) (Angle, error) { return fromFloat("seconds of arc", seconds, Second) }

// One radian is 180°/π. The factor is kept in two parts, the first exact as a
// float64. So the product is good to the last unit over several turns.
const (
	unitsPerRadian     = 206264806247096.34375
	unitsPerRadianRest = 180*60*60*1e9/math.Pi - unitsPerRadian
)

// Radians returns the angle of a number of radians; see [Degrees] for rounding and
// errors.
func Radians(radians float64) (Angle, error) {
	units := math.FMA(radians, unitsPerRadian, radians*unitsPerRadianRest)
	if !(math.Abs(units) < math.MaxInt64) { // also catches NaN
		return 0, &RangeError{What: "radians", Value: radians, Accepted: "finite angles within 7,116 turns"}
	}
	return Angle(math.Round(units)), nil
}

// DegreesMinutes returns the angle of whole degrees and minutes. Neither may be
// negative. For west or south, negate the result: then 0°30′ W keeps its sign. If
// degrees is negative or minutes is not from 0 to less than 60, it returns a
// [*RangeError].
func DegreesMinutes(degrees int, minutes float64) (Angle, error) {
	if degrees < 0 || int64(degrees) > int64(math.MaxInt64/Degree) {
		return 0, &RangeError{What: "degrees written with minutes", Value: float64(degrees), Accepted: "0 or more, within 7,116 turns; for west or south, negate the result"}
	}
	if !(minutes >= 0 && minutes < 60) {
		return 0, &RangeError{What: "minutes written after degrees", Value: minutes, Accepted: "0 to less than 60"}
	}
	m, err := Minutes(minutes)
	if err != nil {
		return 0, err
	}
	return sum("degrees and minutes", Angle(degrees)*Degree, m)
}

// sum adds angles. If the sum is beyond the range of Angle, it returns a [*RangeError].
func sum(what string, angles ...Angle) (Angle, error) {
	var total Angle
	for _, a := range angles {
		next := total + a
		if (next > total) != (a > 0) && a != 0 || next == math.MinInt64 {
			return 0, &RangeError{What: what, Value: total.Degrees() + a.Degrees(), Accepted: "angles within 7,116 turns"}
		}
		total = next
	}
	return total, nil
}

// Degrees returns the angle as a number of degrees. The result is correctly rounded
// within ±2,500°.
func (a Angle) Degrees() float64 { return float64(a) / float64(Degree) }

// Minutes returns the angle as a number of minutes of arc.
func (a Angle) Minutes() float64 { return float64(a) / float64(Minute) }

// Seconds returns the angle as a number of seconds of arc.
func (a Angle) Seconds() float64 { return float64(a) / float64(Second) }

// Radians returns the angle as a number of radians.
func (a Angle) Radians() float64 { return float64(a) / unitsPerRadian }

// Abs returns the absolute value of the angle. As with [time.Duration.Abs], that of the
// most negative Angle is the largest Angle.
func (a Angle) Abs() Angle {
	switch {
	case a >= 0:
		return a
	case a == math.MinInt64:
		return math.MaxInt64
	default:
		return -a
	}
}

// Scale returns the angle multiplied by a number, rounded once to the nearest unit of
// [Angle] (halves away from zero). If the factor is not finite, or the product is beyond
// the range of Angle, it returns a [*RangeError].
func (a Angle) Scale(factor float64) (Angle, error) {
	product, ok := a.times(factor)
	if !ok {
		return 0, &RangeError{What: "scaled angle", Value: a.Degrees() * factor, Accepted: "finite factors, and products within 7,116 turns"}
	}
	return product, nil
}

// fromFloat returns value times unit, rounded once.
func fromFloat(what string, value float64, unit Angle) (Angle, error) {
	a, ok := unit.times(value)
	if !ok {
		return 0, &RangeError{What: what, Value: value, Accepted: "finite angles within 7,116 turns"}
	}
	return a, nil
}

// times multiplies by a float64 and rounds once, halves away from zero. A
// float64 is a shifted integer of 53 bits, so the product is a shifted integer of
// at most 117 bits. It reports false for NaN, infinities and a product that does not fit.
func (a Angle) times(factor float64) (product Angle, ok bool) {
	const mantissaBits, bias = 52, 1075
	b := math.Float64bits(factor)
	mantissa, exponent := b&(1<<mantissaBits-1), int(b>>mantissaBits&0x7ff)
	switch exponent {
	case 0x7ff: // NaN, ±Inf
		return 0, false
	case 0: // denormal
		exponent = 1
	default:
		mantissa |= 1 << mantissaBits
	}
	high, low := bits.Mul64(magnitude(a), mantissa)
	if shift := exponent - bias; shift >= 0 {
		if high != 0 || low > math.MaxInt64>>shift {
			return 0, false
		}
		low <<= shift
	} else {
		// Add a half and shift right. A shift by more bits than there are, which
		// includes a difference below 0, gives 0.
		n := uint(-shift)
		var carry uint64
		low, carry = bits.Add64(low, 1<<(n-1), 0)
		high += 1<<(n-65) + carry
		low = low>>n | high<<(64-n) | high>>(n-64)
		high >>= n
	}
	if high != 0 || low > math.MaxInt64 {
		return 0, false
	}
	if (a < 0) != math.Signbit(factor) {
		return -Angle(low), true
	}
	return Angle(low), true
}
