package sailing

import (
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"lubberline.example/angle"
)

// MissingUnit is the kind of the error about a number without a unit: 12.5 could be miles,
// kilometres or metres.
const MissingUnit angle.ErrorKind = "missing-unit"

// A namedUnit is a unit of distance or speed.
type namedUnit struct {
	size  float64 // in metres, or metres per second
	exact string  // its symbol, in which capitals matter: M is a mile and m a metre
	words string  // other names, in small letters, separated by commas
}

// A measure is a kind of quantity with its units. The first unit is the navigator's, the
// second the SI unit of the stored number.
type measure struct {
	what  string
	want  string
	units []namedUnit
}

var distances = measure{"distance", "a unit: M, nm or miles (nautical), cables, km, m, ft or fathoms", []namedUnit{
	{float64(NauticalMile), "M", "nm,n.m.,nmi,mile,miles,nautical mile,nautical miles"},
	{float64(Metre), "m", "metre,metres,meter,meters"},
	{1000, "km", "kilometre,kilometres,kilometer,kilometers"},
	{float64(Cable), "cable", "cable,cables"},
	{0.3048, "ft", "ft,foot,feet"},
	{1.8288, "fathom", "fathom,fathoms,fm,fms"},
}}

var speeds = measure{"speed", "a unit: kn, kt or knots, m/s or km/h", []namedUnit{
	{float64(Knot), "kn", "kn,kt,kts,knot,knots"},
	{1, "m/s", ""},
	{1000.0 / 3600, "km/h", ""},
}}

// ParseDistance reads a distance with its unit:
//
//	12.5 M   12.5nm   3 NM   3 nmi   2 miles   4 cables   1.5 km   1852.3 m   -3 M
//	6 ft   6 feet   3 fathoms   3 fm
//
// M is the nautical mile and m the metre. Words may have capitals. A mile is always a
// nautical mile, a foot the international one. Text is written in miles or metres only. For a
// number without a unit, an unknown unit, a decimal comma, NaN, or a number too large to hold,
// it returns an [*angle.ParseError].
func ParseDistance(text string) (Distance, error) {
	x, err := distances.parse(text)
	return Distance(x), err
}

// ParseSpeed reads a speed with its unit:
//
//	1.5 kn   6kt   6 kts   5.5 knots   0.7716 m/s   10 km/h
//
// Its errors are those of [ParseDistance].
func ParseSpeed(text string) (Speed, error) {
	x, err := speeds.parse(text)
	return Speed(x), err
}

// MarshalText returns the exact distance, which [ParseDistance] reads back to the same number.
// It is in nautical miles: 12.5 M. It is in metres, 1852.3 m, if those have far fewer figures
// or if miles would not read back exactly. For NaN and infinities it returns an
// [*angle.RangeError].
func (d Distance) MarshalText() ([]byte, error) { return distances.appendText(nil, float64(d)) }

// UnmarshalText reads what [ParseDistance] reads, with the same errors.
func (d *Distance) UnmarshalText(text []byte) error {
	read, err := ParseDistance(string(text))
	if err == nil {
		*d = read
	}
	return err
}

// MarshalText returns the exact speed, which [ParseSpeed] reads back to the same number. It is
// in knots: 1.5 kn. It is in metres per second, 0.7716 m/s, if those have far fewer figures or
// if knots would not read back exactly. For NaN and infinities it returns an
// [*angle.RangeError].
func (s Speed) MarshalText() ([]byte, error) { return speeds.appendText(nil, float64(s)) }

// UnmarshalText reads what [ParseSpeed] reads, with the same errors.
func (s *Speed) UnmarshalText(text []byte) error {
	read, err := ParseSpeed(string(text))
	if err == nil {
		*s = read
	}
	return err
}

// farFewer is the number of figures by which metres must be shorter than miles.
const farFewer = 3

// appendText appends the exact text of a number in the SI unit.
func (m *measure) appendText(b []byte, x float64) ([]byte, error) {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return b, &angle.RangeError{What: m.what, Value: x, Accepted: "a finite number"}
	}
	plain := figures(x)
	// The quotient of a product that was rounded may have a tail: fewer figures first.
	for digits := 15; digits <= 17; digits++ {
		q, err := strconv.ParseFloat(strconv.FormatFloat(x/m.units[0].size, 'g', digits, 64), 64)
		if err != nil || q*m.units[0].size != x {
			continue
		}
		if text := figures(q); len(text) < len(plain)+farFewer {
			return append(append(append(b, text...), ' '), m.units[0].exact...), nil
		}
		break
	}
	return append(append(append(b, plain...), ' '), m.units[1].exact...), nil
}

// figures is the shortest text that reads back to a number, without an exponent for the
// usual sizes of distances.
func figures(x float64) string {
	if x == 0 {
		return "0" // never -0
	}
	if size := math.Abs(x); size < 1e-9 || size >= 1e21 {
		return strconv.FormatFloat(x, 'e', -1, 64)
	}
	return strconv.FormatFloat(x, 'f', -1, 64)
}

// parse reads a number with its unit, and returns it in the SI unit.
func (m *measure) parse(text string) (float64, error) {
	fail := func(at int, kind angle.ErrorKind, want string) (float64, error) {
		return 0, &angle.ParseError{What: m.what, Input: text, Offset: at, Kind: kind, Want: want}
	}
	at := blanks(text, 0)
	if at == len(text) {
		return fail(at, angle.Empty, "a "+m.what+" with its unit")
	}
	begin := at
	number, at := decimal(text, at)
	if number == "" {
		return fail(at, angle.NoNumber, "figures, then "+m.want)
	}
	x, err := strconv.ParseFloat(number, 64)
	if err != nil {
		return fail(begin, angle.OutOfRange, "a smaller number")
	}
	at = blanks(text, at)
	name := strings.TrimRight(text[at:], "\t\n\r \u00a0\u2002\u2003\u2007\u2008\u2009\u200a\u202f\u3000")
	switch {
	case name == "":
		return fail(at, MissingUnit, m.want)
	case strings.IndexByte(",.0123456789", name[0]) >= 0:
		return fail(at, angle.BadSeparator, "one number with a decimal point, then "+m.want)
	}
	for _, u := range m.units {
		if !u.named(name) {
			continue
		}
		if x *= u.size; math.IsInf(x, 0) {
			return fail(begin, angle.OutOfRange, "a smaller number")
		}
		return x, nil
	}
	return fail(at, angle.UnknownWord, m.want)
}

// named reports whether a text is a name of the unit.
func (u namedUnit) named(name string) bool {
	if name == u.exact {
		return true
	}
	for word := range strings.SplitSeq(u.words, ",") {
		if word != "" && strings.EqualFold(word, name) {
			return true
		}
	}
	return false
}

// blanks is the place of the next character that is not blank.
func blanks(text string, at int) int {
	for at < len(text) {
		r, width := utf8.DecodeRuneInString(text[at:])
		switch r {
		case ' ', '\t', '\n', '\r', '\u00a0', '\u2002', '\u2003', '\u2007', '\u2008', '\u2009', '\u200a', '\u202f', '\u3000':
			at += width
		default:
			return at
		}
	}
	return at
}

// decimal reads a number with a sign, decimals and an exponent if it has them, and
// folds look-alikes of the minus and the point. Without figures it returns none, and
// where they were missed.
func decimal(text string, at int) (number string, end int) {
	var b strings.Builder
	switch r, width := utf8.DecodeRuneInString(text[at:]); r {
	case '-', '−', '–', '—', '‐', '‑', '‒', '﹣', '－':
		b.WriteByte('-')
		at = blanks(text, at+width)
	case '+':
		at = blanks(text, at+width)
	}
	digits := func() (any bool) {
		for at < len(text) && text[at] >= '0' && text[at] <= '9' {
			b.WriteByte(text[at])
			at++
			any = true
		}
		return any
	}
	whole := digits()
	if r, width := utf8.DecodeRuneInString(text[at:]); r == '.' || r == '·' || r == '．' {
		if next := at + width; next < len(text) && text[next] >= '0' && text[next] <= '9' {
			b.WriteByte('.')
			at = next
			whole = digits() || whole
		}
	}
	if !whole {
		return "", at
	}
	// The exponent that programs write. No unit begins so.
	if at+1 < len(text) && (text[at] == 'e' || text[at] == 'E') {
		mantissa, mark := b.String(), at
		at++
		b.WriteByte('e')
		if text[at] == '-' || text[at] == '+' {
			b.WriteByte(text[at])
			at++
		}
		if !digits() {
			return mantissa, mark
		}
	}
	return b.String(), at
}
