package angle

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"unicode/utf8"
)

// The most decimals at which every printed figure is a whole number of units.
const (
	mostDegreeDecimals = 11
	mostMinuteDecimals = 10
	mostSecondDecimals = 9
)

// AppendDegrees appends the angle in decimal degrees, 4.25°, with a minus sign
// if it is negative. It is rounded once, to the decimals asked for; more than
// 11 decimals print as 11, the most that an [Angle] holds.
func (a Angle) AppendDegrees(b []byte, decimals int) []byte {
	b, u := appendSign(b, a, unitOf(Degree, decimals, mostDegreeDecimals))
	return appendDegrees(b, u, 1, decimals)
}

// AppendMinutes appends the angle in degrees and decimal minutes, 4°15.5′, with
// a minus sign if it is negative. It is rounded once, before it is split, so
// that 60′ can't appear; more than 10 decimals print as 10.
func (a Angle) AppendMinutes(b []byte, decimals int) []byte {
	b, u := appendSign(b, a, unitOf(Minute, decimals, mostMinuteDecimals))
	return appendMinutes(b, u, 1, decimals)
}

// AppendSeconds appends the angle in degrees, minutes and decimal seconds,
// 4°15′30″, in the manner of [Angle.AppendMinutes]; more than 9 decimals print
// as 9.
func (a Angle) AppendSeconds(b []byte, decimals int) []byte {
	b, u := appendSign(b, a, unitOf(Second, decimals, mostSecondDecimals))
	return appendSeconds(b, u, 1, decimals)
}

// String returns the angle in degrees and minutes to a tenth of a minute, the
// tenth left out when it is nought: 4°15′, −0°30.5′ (with a hyphen for minus).
// It is rounded; for the exact angle see [Angle.AppendText].
func (a Angle) String() string { return string(a.appendTenths(nil)) }

func (a Angle) appendTenths(b []byte) []byte {
	return a.AppendMinutes(b, tenthsNeeded(a, Minute))
}

// AppendText appends the exact angle: in degrees and minutes with as many
// decimals as it takes, or with seconds where minutes have no end.
func (a Angle) AppendText(b []byte) ([]byte, error) {
	if a < 0 {
		b = append(b, '-')
	}
	return appendExact(b, magnitude(a), 1), nil
}

// MarshalText returns the exact text of [Angle.AppendText].
func (a Angle) MarshalText() ([]byte, error) { return a.AppendText(nil) }

// UnmarshalText reads what [Parse] reads.
func (a *Angle) UnmarshalText(text []byte) error {
	b, err := Parse(string(text))
	if err == nil {
		*a = b
	}
	return err
}

// Format honours the verbs of package fmt: %v and %s print as String does, or
// in degrees and minutes with the precision given (%.0v: 4°15′); %f prints
// decimal degrees (%.2f: 4.25°, one decimal if no precision is given). Width
// and the flags - (left) and + (always a sign) are honoured.
func (a Angle) Format(f fmt.State, verb rune) {
	var buf [64]byte
	formatTo(f, verb, buf[:0], "angle.Angle", textForms{
		signed:  true,
		brief:   a.appendTenths,
		minutes: a.AppendMinutes,
		degrees: a.AppendDegrees,
	})
}

// textForms are the forms that the verbs of package fmt choose from.
type textForms struct {
	signed           bool // the flag + asks for a sign
	brief            func([]byte) []byte
	minutes, degrees func([]byte, int) []byte
}

// formatTo implements fmt.Formatter for every type of this package.
func formatTo(f fmt.State, verb rune, b []byte, typeName string, forms textForms) {
	precision, given := f.Precision()
	known := true
	switch verb {
	case 'v', 's':
		if given {
			b = forms.minutes(b, precision)
		} else {
			b = forms.brief(b)
		}
	case 'f', 'F':
		if !given {
			precision = 1
		}
		b = forms.degrees(b, precision)
	default:
		known = false
		b = append(b, "%!"...)
		b = utf8.AppendRune(b, verb)
		b = append(b, '(')
		b = append(b, typeName...)
		b = append(b, '=')
		b = forms.brief(b)
		b = append(b, ')')
	}
	// Looked at when the rounding is done: −0.1° in whole degrees has no sign.
	if forms.signed && known && f.Flag('+') && b[0] != '-' {
		b = slices.Insert(b, 0, '+')
	}
	width, _ := f.Width()
	pad := width - utf8.RuneCount(b)
	if f.Flag('-') {
		f.Write(b)
	}
	for range pad {
		io.WriteString(f, " ")
	}
	if !f.Flag('-') {
		f.Write(b)
	}
}

// unitOf is the unit of the last of some decimals.
func unitOf(unit Angle, decimals, most int) Angle {
	return unit / Angle(powersOfTen[min(max(decimals, 0), most)])
}

// appendSign appends a minus sign if what is left after rounding is negative,
// and returns the rounded size.
func appendSign(b []byte, a, unit Angle) ([]byte, uint64) {
	u := roundedSize(magnitude(a), unit)
	if a < 0 && u != 0 {
		b = append(b, '-')
	}
	return b, u
}

// roundedSize rounds a size to a multiple of unit, halves upwards. It is
// unsigned, so that no Angle overflows it.
func roundedSize(u uint64, unit Angle) uint64 {
	rest := u % uint64(unit)
	u -= rest
	if rest >= uint64(unit)-rest {
		u += uint64(unit)
	}
	return u
}

// tenthsNeeded is 1 if the angle, rounded to a tenth of unit, shows a tenth.
func tenthsNeeded(a, unit Angle) int {
	if roundedSize(magnitude(a), unit/10)%uint64(unit) != 0 {
		return 1
	}
	return 0
}

// The following print a size that is already rounded. width is the least number
// of figures for the degrees.

func appendDegrees(b []byte, u uint64, width, decimals int) []byte {
	b = appendPadded(b, u/uint64(Degree), width)
	b = appendFraction(b, u%uint64(Degree), Degree, min(decimals, mostDegreeDecimals))
	return append(b, "°"...)
}

func appendMinutes(b []byte, u uint64, width, decimals int) []byte {
	b = append(appendPadded(b, u/uint64(Degree), width), "°"...)
	u %= uint64(Degree)
	b = appendPadded(b, u/uint64(Minute), 2)
	b = appendFraction(b, u%uint64(Minute), Minute, min(decimals, mostMinuteDecimals))
	return append(b, "′"...)
}

func appendSeconds(b []byte, u uint64, width, decimals int) []byte {
	b = append(appendPadded(b, u/uint64(Degree), width), "°"...)
	u %= uint64(Degree)
	b = append(appendPadded(b, u/uint64(Minute), 2), "′"...)
	u %= uint64(Minute)
	b = appendPadded(b, u/uint64(Second), 2)
	b = appendFraction(b, u%uint64(Second), Second, min(decimals, mostSecondDecimals))
	return append(b, "″"...)
}

// appendExact prints a size exactly, in minutes or else in seconds.
func appendExact(b []byte, u uint64, width int) []byte {
	if u%uint64(Minute/Angle(powersOfTen[mostMinuteDecimals])) == 0 {
		return appendMinutes(b, u, width, decimalsOf(u%uint64(Minute), Minute, mostMinuteDecimals))
	}
	return appendSeconds(b, u, width, decimalsOf(u%uint64(Second), Second, mostSecondDecimals))
}

// appendExactDegrees prints a size exactly, in decimal degrees where they have
// an end.
func appendExactDegrees(b []byte, u uint64, width int) []byte {
	if u%uint64(Degree/Angle(powersOfTen[mostDegreeDecimals])) == 0 {
		return appendDegrees(b, u, width, decimalsOf(u%uint64(Degree), Degree, mostDegreeDecimals))
	}
	return appendExact(b, u, width)
}

// decimalsOf is how many decimals of unit a fraction of it needs.
func decimalsOf(fraction uint64, unit Angle, most int) int {
	for n := range most {
		if fraction%(uint64(unit)/powersOfTen[n]) == 0 {
			return n
		}
	}
	return most
}

func appendPadded(b []byte, n uint64, width int) []byte {
	for p := 1; p < width; p++ {
		if n < powersOfTen[p] {
			b = append(b, '0')
		}
	}
	return strconv.AppendUint(b, n, 10)
}

// appendFraction appends a point and the decimals of a fraction of unit.
func appendFraction(b []byte, fraction uint64, unit Angle, decimals int) []byte {
	if decimals <= 0 {
		return b
	}
	b = append(b, '.')
	return appendPadded(b, fraction/(uint64(unit)/powersOfTen[decimals]), decimals)
}
