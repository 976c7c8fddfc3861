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

	// A distance in whole units of this kind may go on with smaller ones: 6 ft 4 in.
	smaller *namedUnit
	fewer   float64 // than this number of them
}

// A measure is a kind of quantity with its units. The first unit is the navigator's, the
// second the SI unit of the stored number.
type measure struct {
	what  string
	want  string
	units []namedUnit
}

var (
	inches = namedUnit{size: 0.0254, exact: "in", words: "in,inch,inches"}
	feet   = namedUnit{size: 0.3048, exact: "ft", words: "ft,foot,feet", smaller: &inches, fewer: 12}
	cables = namedUnit{size: float64(Cable), exact: "cable", words: "cable,cables,cbl,cbls"}
)

var distances = measure{"distance", "a unit: M, nm or miles (nautical), cables, km, m, yd, ft or fathoms", []namedUnit{
	{size: float64(NauticalMile), exact: "M", words: "nm,n.m.,nmi,mile,miles,nautical mile,nautical miles,naut. mile,naut. miles,n. mile,n. miles,sea mile,sea miles", smaller: &cables, fewer: 10},
	{size: float64(Metre), exact: "m", words: "metre,metres,meter,meters"},
	{size: 1000, exact: "km", words: "kilometre,kilometres,kilometer,kilometers"},
	cables,
	{size: 0.9144, exact: "yd", words: "yd,yds,yard,yards"},
	feet,
	{size: 1.8288, exact: "fathom", words: "fathom,fathoms,fm,fms", smaller: &feet, fewer: 6},
}}

var speeds = measure{"speed", "a unit: kn, kt or knots, m/s or km/h", []namedUnit{
	{size: float64(Knot), exact: "kn", words: "kn,kt,kts,knot,knots"},
	{size: 1, exact: "m/s"},
	{size: 1000.0 / 3600, exact: "km/h"},
}}

// ParseDistance reads a distance with its unit:
//
//	12.5 M   12.5nm   3 NM   3 nmi   2 miles   4 cables   1.5 km   1852.3 m   -3 M
//	6 ft   6 feet   3 fathoms   3 fm   2000 yds   12½ M   3/4 mile   1 1/2 fathoms
//	6 ft 4 in   1 mile 3 cables   4 fathoms 2 feet
//
// M is the nautical mile and m the metre. Words may have capitals, and a full stop if they
// are short. Fractions are halves, quarters or eighths. A mile is always a nautical mile, a
// foot and a yard are the international ones. Text is written in miles or metres only. For a
// number without a unit, an unknown unit, a decimal comma, NaN, or a number too large to hold,
// it returns an [*angle.ParseError].
func ParseDistance(text string) (Distance, error) {
	x, err := distances.parse(text)
	return Distance(x), err
}

// ParseSpeed reads a speed with its unit:
//
//	1.5 kn   6kt   6 kts   5.5 knots   2½ knots   0.7716 m/s   10 km/h
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
	x, at, ok := amount(text, at)
	if !ok {
		return fail(at, angle.NoNumber, "figures, then "+m.want)
	}
	if math.IsInf(x, 0) {
		return fail(begin, angle.OutOfRange, "a smaller number")
	}
	at = blanks(text, at)
	name := trimmed(text[at:])
	switch {
	case name == "":
		return fail(at, MissingUnit, m.want)
	case strings.IndexByte(",.0123456789", name[0]) >= 0:
		return fail(at, angle.BadSeparator, "one number with a decimal point, then "+m.want)
	}
	first, rest, want := name, "", m.want
	if cut := strings.IndexAny(name, "0123456789⅛¼⅜½⅝¾⅞"); cut > 0 && x == math.Trunc(x) {
		first, rest = trimmed(name[:cut]), name[cut:]
	}
	for _, u := range m.units {
		switch {
		case rest == "" && !u.named(name), !u.named(first):
			continue
		case rest != "":
			more, ok := u.more(rest)
			if !ok {
				want = "one unit alone, or after whole units fewer smaller ones, such as 6 ft 4 in"
				continue
			}
			x = float64(x*u.size) + math.Copysign(more, x) // not fused: the same on every machine
		default:
			x *= u.size
		}
		if math.IsInf(x, 0) {
			return fail(begin, angle.OutOfRange, "a smaller number")
		}
		return x, nil
	}
	return fail(at, angle.UnknownWord, want)
}

// trimmed is a text without the blanks at its end.
func trimmed(text string) string {
	return strings.TrimRight(text, "\t\n\r \u00a0\u2002\u2003\u2007\u2008\u2009\u200a\u202f\u3000")
}

// more reads the smaller units after whole ones, as 4 in after 6 ft, in the SI unit.
func (u namedUnit) more(text string) (float64, bool) {
	if u.smaller == nil {
		return 0, false
	}
	x, at, ok := amount(text, 0)
	if !ok || x >= u.fewer || !u.smaller.named(text[blanks(text, at):]) {
		return 0, false
	}
	return x * u.smaller.size, true
}

// named reports whether a text is a name of the unit. A short name may have a full stop.
func (u namedUnit) named(name string) bool {
	if name == u.exact {
		return true
	}
	short := name
	if before, dot := strings.CutSuffix(name, "."); dot && len(before) <= 4 {
		short = before
	}
	for word := range strings.SplitSeq(u.words, ",") {
		if word != "" && (strings.EqualFold(word, name) || strings.EqualFold(word, short)) {
			return true
		}
	}
	return false
}

// amount reads a number with its sign, decimals or a fraction: 12.5, 12½, 12 1/2, 3/4. It
// returns infinity for a number too large to hold. Without figures it returns where they
// were missed.
func amount(text string, begin int) (x float64, end int, ok bool) {
	number, end := decimal(text, begin)
	if number == "" {
		part, width := eighths(text[end:])
		if sign := trimmed(text[begin:end]); sign != "" && sign != "+" {
			part = -part
		}
		return part, end + width, width > 0
	}
	x, err := strconv.ParseFloat(number, 64)
	if err != nil || strings.ContainsAny(number, ".e") {
		return x, end, true // an infinity, if it is out of range
	}
	if part, width := eighths(text[end-1:]); width > 1 && len(strings.TrimPrefix(number, "-")) == 1 { // 3/4
		return math.Copysign(part, x), end - 1 + width, true
	}
	at := blanks(text, end)
	part, width := eighths(text[at:])
	if width == 0 || at == end && isDigit(text[at]) {
		return x, end, true
	}
	return x + math.Copysign(part, x), at + width, true
}

// eighths reads a fraction of halves, quarters or eighths: ¾, 3/4. If there is none, the
// width is 0.
func eighths(text string) (part float64, width int) {
	r, width := utf8.DecodeRuneInString(text)
	for i, mark := range [...]rune{'⅛', '¼', '⅜', '½', '⅝', '¾', '⅞'} {
		if r == mark {
			return float64(i+1) / 8, width
		}
	}
	after, ok := strings.CutPrefix(text[min(1, len(text)):], "/")
	if !ok {
		after, ok = strings.CutPrefix(text[min(1, len(text)):], "⁄")
	}
	if !ok || after == "" || !isDigit(text[0]) || len(after) > 1 && isDigit(after[1]) {
		return 0, 0
	}
	numerator, denominator := text[0]-'0', after[0]-'0'
	if denominator != 2 && denominator != 4 && denominator != 8 || numerator == 0 || numerator >= denominator {
		return 0, 0
	}
	return float64(numerator) / float64(denominator), len(text) - len(after) + 1
}

// isDigit reports whether a byte is a digit.
func isDigit(c byte) bool { return '0' <= c && c <= '9' }

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
		for at < len(text) && isDigit(text[at]) {
			b.WriteByte(text[at])
			at++
			any = true
		}
		return any
	}
	whole := digits()
	if r, width := utf8.DecodeRuneInString(text[at:]); r == '.' || r == '·' || r == '．' {
		if next := at + width; next < len(text) && isDigit(text[next]) {
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
