package angle

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"unicode/utf8"
)

// The last decimals of a degree and of a minute that an [Angle] holds; see maxDecimals.
const (
	lastOfDegree = Degree / 1e11
	lastOfMinute = Minute / 1e10
)

// maxDecimals returns how many decimals of a unit an [Angle] holds exactly.
func maxDecimals(unit Angle) int {
	switch unit {
	case Degree:
		return 11
	case Minute:
		return 10
	}
	return 9
}

// longText is the number of bytes of the longest texts that are usual.
const longText = 48

// String returns the angle in degrees and minutes, rounded to a tenth of a minute: 4°15′,
// -0°30.5′. A tenth of zero is left out. For the exact angle see [Angle.AppendText].
func (a Angle) String() string { return string(a.appendTenths(make([]byte, 0, longText))) }

// appendTenths appends the text of [Angle.String].
func (a Angle) appendTenths(b []byte) []byte {
	return a.appendIn(b, Minute, tenthsNeeded(a, Minute))
}

// appendIn appends the angle with its last figure in degrees, minutes or seconds. It
// rounds once, before it splits the angle, so that 60′ can't appear.
func (a Angle) appendIn(b []byte, unit Angle, decimals int) []byte {
	b, u := appendSign(b, a, unitOf(unit, decimals))
	return appendSize(b, u, unit, 1, decimals)
}

// AppendText appends the exact angle: in degrees and decimal minutes where a decimal is exact,
// otherwise with seconds.
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

// Format prints the angle with the verbs of package fmt:
//
//	%v  %s    as String does: 4°15.5′
//	%.0v      degrees and minutes, with the decimals given: 4°16′
//	%f  %.2f  decimal degrees, by default with one decimal: 4.3°, 4.26°
//	%d  %.1d  degrees, minutes and seconds, by default without decimals: 4°15′30″
//
// Width and the flags - (left) and + (always a sign) have their usual meaning. Format
// rounds once. It prints at most the decimals that an [Angle] holds: 11 of a degree, 10 of
// a minute, 9 of a second.
func (a Angle) Format(f fmt.State, verb rune) {
	var buf [64]byte
	formatTo(f, verb, buf[:0], "angle.Angle", textForms{signed: true, brief: a.appendTenths, in: a.appendIn})
}

// textForms are the forms that the verbs of package fmt choose from.
type textForms struct {
	signed     bool // the flag + asks for a sign
	brief      func([]byte) []byte
	in         func(b []byte, unit Angle, decimals int) []byte
	quadrantal func(b []byte, decimals int) []byte // nil if the type has no such form
}

// formatTo implements fmt.Formatter for every type of this package.
func formatTo(f fmt.State, verb rune, b []byte, typeName string, forms textForms) {
	precision, given := f.Precision()
	known := true
	switch {
	case verb == 'v' || verb == 's':
		if given {
			b = forms.in(b, Minute, precision)
		} else {
			b = forms.brief(b)
		}
	case verb == 'f' || verb == 'F':
		if !given {
			precision = 1
		}
		b = forms.in(b, Degree, precision)
	case verb == 'd':
		b = forms.in(b, Second, precision)
	case verb == 'q' && forms.quadrantal != nil:
		b = forms.quadrantal(b, precision)
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
	// After rounding, because −0.1° in whole degrees has no minus sign.
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

// unitOf returns the unit of the last decimal.
func unitOf(unit Angle, decimals int) Angle {
	return unit / Angle(powersOfTen[min(max(decimals, 0), maxDecimals(unit))])
}

// appendSign appends a minus sign if the rounded angle is negative. It returns the rounded
// size.
func appendSign(b []byte, a, unit Angle) ([]byte, uint64) {
	u := roundedSize(magnitude(a), unit)
	if a < 0 && u != 0 {
		b = append(b, '-')
	}
	return b, u
}

// magnitude returns the size of any Angle, also of the most negative integer.
func magnitude(a Angle) uint64 {
	if a < 0 {
		return -uint64(a)
	}
	return uint64(a)
}

// roundedSize rounds a size to a multiple of unit, halves upwards. It is unsigned, so that
// it does not overflow.
func roundedSize(u uint64, unit Angle) uint64 {
	rest := u % uint64(unit)
	u -= rest
	if rest >= uint64(unit)-rest {
		u += uint64(unit)
	}
	return u
}

// tenthsNeeded returns 1 if the angle, rounded to a tenth of unit, shows a tenth.
func tenthsNeeded(a, unit Angle) int {
	if roundedSize(magnitude(a), unit/10)%uint64(unit) != 0 {
		return 1
	}
	return 0
}

// appendSize prints a rounded size, with its last figure in degrees, minutes or seconds.
// width is the minimum number of figures for the degrees.
func appendSize(b []byte, u uint64, unit Angle, width, decimals int) []byte {
	decimals = min(decimals, maxDecimals(unit))
	b = appendPadded(b, u/uint64(Degree), width)
	u %= uint64(Degree)
	if unit == Degree {
		return append(appendFraction(b, u, Degree, decimals), "°"...)
	}
	b = appendPadded(append(b, "°"...), u/uint64(Minute), 2)
	u %= uint64(Minute)
	if unit == Minute {
		return append(appendFraction(b, u, Minute, decimals), "′"...)
	}
	b = appendPadded(append(b, "′"...), u/uint64(Second), 2)
	return append(appendFraction(b, u%uint64(Second), Second, decimals), "″"...)
}

// appendExact prints a size exactly, in minutes or else in seconds.
func appendExact(b []byte, u uint64, width int) []byte {
	if u%uint64(lastOfMinute) == 0 {
		return appendSize(b, u, Minute, width, decimalsOf(u%uint64(Minute), Minute))
	}
	return appendSize(b, u, Second, width, decimalsOf(u%uint64(Second), Second))
}

// appendExactDegrees prints a size exactly, in decimal degrees if these are finite.
func appendExactDegrees(b []byte, u uint64, width int) []byte {
	if u%uint64(lastOfDegree) == 0 {
		return appendSize(b, u, Degree, width, decimalsOf(u%uint64(Degree), Degree))
	}
	return appendExact(b, u, width)
}

// decimalsOf returns how many decimals of unit a fraction needs.
func decimalsOf(fraction uint64, unit Angle) int {
	most := maxDecimals(unit)
	for n := range most {
		if fraction%(uint64(unit)/powersOfTen[n]) == 0 {
			return n
		}
	}
	return most
}

// appendPadded appends a number with zeros before it, up to a width.
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
