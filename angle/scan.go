package angle

import (
	"math"
	"math/bits"
	"strings"
	"unicode/utf8"
)

// A scanner reads a text that a navigator or a program wrote. Many characters look like a
// degree sign, a prime, a dash or a space; the scanner folds each into one. Offsets are
// those of the original text.
type scanner struct {
	input string
	what  string // the quantity: "latitude"
	want  string // the quantity with an example, for messages
	at    int    // offset of the next character
	pair  bool   // reading the first of two quantities
}

// The folded characters. Letters are folded to upper case.
const (
	endOfText   = -1
	degreeMark  = '°'
	minuteMark  = '\''
	secondMark  = '"'
	dash        = '-'
	blank       = ' '
	decimalMark = '.'
)

// peek returns the next character, folded, and its width in the input.
func (s *scanner) peek() (c rune, width int) {
	if s.at < len(s.input) && s.input[s.at] < utf8.RuneSelf {
		if c := plain[s.input[s.at]]; c != 0 {
			return rune(c), 1
		}
	}
	return s.peekFolded()
}

// plain holds each ASCII character, folded, or 0 if the next character matters too.
var plain = func() (p [utf8.RuneSelf]byte) {
	for c := range p {
		switch b := byte(c); {
		case 'a' <= b && b <= 'z':
			p[c] = b - 'a' + 'A'
		case b == '\t' || b == '\n' || b == '\r':
			p[c] = blank
		case b != '\'' && b != '`':
			p[c] = b
		}
	}
	return p
}()

// peekFolded is peek for a character that may be a look-alike of another.
func (s *scanner) peekFolded() (c rune, width int) {
	if s.at >= len(s.input) {
		return endOfText, 0
	}
	if strings.HasPrefix(s.input[s.at:], "°") { // the most common, without decoding
		return degreeMark, len("°")
	}
	r, width := utf8.DecodeRuneInString(s.input[s.at:])
	c = fold(r)
	if c == minuteMark {
		// Two primes side by side are a double prime.
		if s.at+width == len(s.input) {
			return minuteMark, width
		}
		if next, w := utf8.DecodeRuneInString(s.input[s.at+width:]); fold(next) == minuteMark {
			return secondMark, width + w
		}
	}
	return c, width
}

// fold maps look-alikes to the character they stand for.
func fold(r rune) rune {
	switch r {
	case '°', 'º', '˚', '∘', '⁰', 'ᵒ', '゜':
		return degreeMark
	case '\'', '`', '′', '’', '‘', '‛', 'ʹ', 'ʼ', '´', '＇':
		return minuteMark
	case '″', '”', '“', '‟', 'ʺ', '˝', '＂', '〃':
		return secondMark
	case '−', '–', '—', '‐', '‑', '‒', '﹣', '－':
		return dash
	case '\u00a0', '\u2002', '\u2003', '\u2007', '\u2008', '\u2009', '\u200a', '\u202f', '\u3000':
		return blank
	case '·', '．':
		return decimalMark
	}
	return r
}

// skipBlanks moves to the next character that is not blank.
func (s *scanner) skipBlanks() {
	for s.at < len(s.input) {
		if b := s.input[s.at]; ' ' < b && b < utf8.RuneSelf {
			return
		}
		c, width := s.peek()
		if c != blank {
			return
		}
		s.at += width
	}
}

// fail returns an error at the scanner.
func (s *scanner) fail(kind ErrorKind, want string) *ParseError {
	return s.failAt(s.at, kind, want)
}

// failAt returns an error at an offset.
func (s *scanner) failAt(at int, kind ErrorKind, want string) *ParseError {
	return &ParseError{What: s.what, Input: s.input, Offset: at, Kind: kind, Want: want}
}

// end returns an error if anything but spaces follows.
func (s *scanner) end(want string) *ParseError {
	s.skipBlanks()
	if s.at < len(s.input) {
		return s.fail(TrailingText, want)
	}
	return nil
}

// stop skips the full stop of an abbreviation. Directly before a figure it could also be a
// decimal point, so there it is an error.
func (s *scanner) stop() *ParseError {
	c, width := s.peek()
	if c != decimalMark {
		return nil
	}
	if next := s.at + width; next < len(s.input) && isDigit(rune(s.input[next])) {
		return s.fail(BadSeparator, "a space after the full stop, or a 0 before the decimal point")
	}
	s.at += width
	return nil
}

// isLetter and isDigit report whether a character is an upper-case letter or a digit, of ASCII.
func isLetter(c rune) bool { return 'A' <= c && c <= 'Z' }
func isDigit(c rune) bool  { return '0' <= c && c <= '9' }

// word returns the ASCII letters at the scanner. It does not move the scanner.
func (s *scanner) word() string {
	end := s.at
	for end < len(s.input) && isLetter(rune(s.input[end]&^0x20)) {
		end++
	}
	return s.input[s.at:end]
}

// is reports whether word is one of the spellings, which are in upper case.
func is(word string, spellings ...string) bool {
	for _, spelling := range spellings {
		if len(word) != len(spelling) {
			continue
		}
		same := true
		for i := 0; i < len(word); i++ {
			if word[i]&^0x20 != spelling[i] {
				same = false
				break
			}
		}
		if same {
			return true
		}
	}
	return false
}

// A decimal is a number as written, before it has a unit.
type decimal struct {
	at       int    // its offset
	whole    int64  // digits before the point
	fraction uint64 // digits after the point, up to 18 of them
	places   int    // the number of those digits
	pointed  bool   // it has a decimal point
	vulgar   bool   // it was written with halves, quarters or eighths
}

var powersOfTen = func() (p [19]uint64) {
	p[0] = 1
	for i := 1; i < len(p); i++ {
		p[i] = p[i-1] * 10
	}
	return p
}()

// number reads digits with at most one decimal point, which may stand first or last. It
// ignores digits after the eighteenth decimal, which are far below the unit of Angle.
func (s *scanner) number(want string) (decimal, *ParseError) {
	d := decimal{at: s.at}
	if c, width := s.peek(); c >= utf8.RuneSelf {
		if eighths, ok := vulgar(c); ok {
			s.at += width
			return inEighths(d.at, 0, eighths), nil
		}
	}
	digits := 0
	for ; s.at < len(s.input) && isDigit(rune(s.input[s.at])); s.at++ {
		digits++
		if d.whole > math.MaxInt64/100 {
			return d, s.failAt(d.at, OutOfRange, "an angle within 7,116 turns")
		}
		d.whole = d.whole*10 + int64(s.input[s.at]-'0')
	}
	if c, width := s.peek(); c == decimalMark {
		next := s.at + width
		if digits == 0 && !(next < len(s.input) && isDigit(rune(s.input[next]))) {
			return d, s.failAt(d.at, NoNumber, want)
		}
		s.at = next
		digits += s.decimals(&d)
	}
	if digits == 0 {
		return d, s.failAt(d.at, NoNumber, want)
	}
	return d, nil
}

// decimals reads the digits after a decimal point and returns their number.
func (s *scanner) decimals(d *decimal) (digits int) {
	d.pointed = true
	for ; s.at < len(s.input) && isDigit(rune(s.input[s.at])); s.at++ {
		digits++
		if d.places < 18 {
			d.fraction = d.fraction*10 + uint64(s.input[s.at]-'0')
			d.places++
		}
	}
	return digits
}

// decimalsAfterMark reads decimals that follow the symbol of the unit, as almanacs print
// them: 15′.4 for 15.4′.
func (s *scanner) decimalsAfterMark(d *decimal) {
	c, width := s.peek()
	if next := s.at + width; c == decimalMark && !d.pointed && next < len(s.input) && isDigit(rune(s.input[next])) {
		s.at = next
		s.decimals(d)
	}
}

// times multiplies the number by a unit, and rounds its fraction once, halves upwards. It
// reports false for a product beyond the range of Angle.
func (d decimal) times(unit Angle) (Angle, bool) {
	if d.whole > int64(math.MaxInt64/unit) {
		return 0, false
	}
	if d.fraction == 0 { // the most common, without a division
		return Angle(d.whole) * unit, true
	}
	high, low := bits.Mul64(d.fraction, uint64(unit))
	quotient, rest := bits.Div64(high, low, powersOfTen[d.places])
	if rest >= powersOfTen[d.places]-rest {
		quotient++
	}
	total := uint64(d.whole)*uint64(unit) + quotient
	if total > math.MaxInt64 {
		return 0, false
	}
	return Angle(total), true
}

// finest returns the number of parts into which the last figure divides its unit.
func (d decimal) finest() Angle {
	if !d.vulgar {
		return Angle(powersOfTen[min(d.places, 12)])
	}
	switch eighths := d.fraction / 125; {
	case eighths%4 == 0:
		return 2
	case eighths%2 == 0:
		return 4
	}
	return 8
}
