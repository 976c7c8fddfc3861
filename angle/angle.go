package angle

import (
	"math"
	"math/bits"
)

// An Angle is a plane angle, a turn or a difference of directions, counted in
// whole billionths of a second of arc. Like [time.Duration] it is an integer:
// angles add, subtract and compare with the operators of the language, and do
// so exactly.
//
//	7*angle.Degree + 38*angle.Minute    // 7°38′
//	-(4*angle.Degree + 15*angle.Minute) // 4°15′ the other way: west, or to port
//
// Decimal degrees are held exactly to 11 places and decimal minutes to 10. One
// unit is 31 nanometres on the ground. The range is ±7,116 turns; operators
// that leave it wrap round, as on every integer, so a quantity that counts many
// turns (sidereal time over a century) must be reduced before it becomes an
// Angle. The constructors refuse what does not fit, and never give the most
// negative integer, so that the negative of a constructed Angle is safe.
//
// A bare number converted to Angle counts billionths of a second, which is
// never what is meant: multiply by a unit, or use [Degrees] and its like.
type Angle int64

// The units of angle. A point is the thirty-second part of the circle,
// 11°15′ exactly.
const (
	Second Angle = 1_000_000_000
	Minute       = 60 * Second
	Degree       = 60 * Minute
	Point        = 45 * Degree / 4
	Turn         = 360 * Degree
)

// Degrees returns the angle of a number of degrees, rounded once to the nearest
// unit of [Angle] (halves away from zero). It refuses NaN, infinities and
// angles beyond the range of Angle with a [*RangeError].
func Degrees(degrees float64) (Angle, error) { return fromFloat("degrees", degrees, Degree) }

// Minutes returns the angle of a number of minutes of arc; see [Degrees].
func Minutes(minutes float64) (Angle, error) { return fromFloat("minutes of arc", minutes, Minute) }

// Seconds returns the angle of a number of seconds of arc; see [Degrees].
func Seconds(seconds float64) (Angle, error) { return fromFloat("seconds of arc", seconds, Second) }

// One radian is 180°/π. The factor is kept in two parts, the first exact as a
// float64, so that the product is good to the last unit over several turns.
const (
	unitsPerRadian     = 206264806247096.34375
	unitsPerRadianRest = 180*60*60*1e9/math.Pi - unitsPerRadian
)

// Radians returns the angle of a number of radians; see [Degrees] for rounding
// and refusals.
func Radians(radians float64) (Angle, error) {
	units := math.FMA(radians, unitsPerRadian, radians*unitsPerRadianRest)
	if !(math.Abs(units) < math.MaxInt64) { // also catches NaN
		return 0, &RangeError{What: "radians", Value: radians, Accepted: "finite angles within 7,116 turns"}
	}
	return Angle(math.Round(units)), nil
}

// DegreesMinutes returns the angle of whole degrees and minutes as they are
// written. Neither may be negative: for the other side negate the result, so
// that 0°30′ west can't lose its sign. Minutes are refused from 60 upwards.
func DegreesMinutes(degrees int, minutes float64) (Angle, error) {
	if degrees < 0 || int64(degrees) > int64(math.MaxInt64/Degree) {
		return 0, &RangeError{What: "degrees written with minutes", Value: float64(degrees), Accepted: "0 and upwards, within 7,116 turns; negate the result for the other side"}
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

// DegreesMinutesSeconds returns the angle of whole degrees, whole minutes and
// seconds as they are written; see [DegreesMinutes].
func DegreesMinutesSeconds(degrees, minutes int, seconds float64) (Angle, error) {
	if !(seconds >= 0 && seconds < 60) {
		return 0, &RangeError{What: "seconds written after minutes", Value: seconds, Accepted: "0 to less than 60"}
	}
	a, err := DegreesMinutes(degrees, float64(minutes))
	if err != nil {
		return 0, err
	}
	s, err := Seconds(seconds)
	if err != nil {
		return 0, err
	}
	return sum("degrees, minutes and seconds", a, s)
}

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

// Degrees returns the angle as a number of degrees, correctly rounded within
// ±2,500°.
func (a Angle) Degrees() float64 { return float64(a) / float64(Degree) }

// Minutes returns the angle as a number of minutes of arc.
func (a Angle) Minutes() float64 { return float64(a) / float64(Minute) }

// Seconds returns the angle as a number of seconds of arc.
func (a Angle) Seconds() float64 { return float64(a) / float64(Second) }

// Radians returns the angle as a number of radians.
func (a Angle) Radians() float64 { return float64(a) / unitsPerRadian }

// Abs returns the size of the angle. Like [time.Duration.Abs] it gives the
// largest angle for the one integer whose negative does not exist.
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

// Scale returns the angle multiplied by a number, rounded once to the nearest
// unit of [Angle] (halves away from zero), or a [*RangeError] if the factor or
// the product is not finite or leaves the range of Angle.
func (a Angle) Scale(factor float64) (Angle, error) {
	product, ok := a.times(factor)
	if !ok {
		return 0, &RangeError{What: "scaled angle", Value: a.Degrees() * factor, Accepted: "finite factors, and products within 7,116 turns"}
	}
	return product, nil
}

func fromFloat(what string, value float64, unit Angle) (Angle, error) {
	a, ok := unit.times(value)
	if !ok {
		return 0, &RangeError{What: what, Value: value, Accepted: "finite angles within 7,116 turns"}
	}
	return a, nil
}

// times multiplies by a float64 and rounds once, halves away from zero. A
// float64 is an integer of 53 bits shifted, so that the product is an integer of
// at most 117 bits, shifted. It reports what does not fit, NaN and infinities as
// false.
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
		// Add a half and shift right. A shift by more than there are bits,
		// a difference below 0 among them, gives 0.
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
