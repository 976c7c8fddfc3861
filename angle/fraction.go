package angle

import "strings"

// vulgar returns the eighths in a fraction that is one character.
func vulgar(c rune) (eighths uint64, ok bool) {
	switch c {
	case '⅛':
		return 1, true
	case '¼':
		return 2, true
	case '⅜':
		return 3, true
	case '½':
		return 4, true
	case '⅝':
		return 5, true
	case '¾':
		return 6, true
	case '⅞':
		return 7, true
	}
	return 0, false
}

// slashed reads numerator/denominator of halves, quarters or eighths. If there is none at
// the scanner, it does not move.
func (s *scanner) slashed() (eighths uint64, ok bool) {
	rest := s.input[s.at:]
	width := 1
	switch {
	case len(rest) >= 3 && rest[1] == '/':
	case len(rest) >= 1+len("⁄")+1 && rest[1:1+len("⁄")] == "⁄": // U+2044
		width = len("⁄")
	default:
		return 0, false
	}
	numerator, denominator := rest[0]-'0', rest[1+width]-'0'
	if denominator != 2 && denominator != 4 && denominator != 8 || numerator == 0 || numerator >= denominator {
		return 0, false
	}
	end := 1 + width + 1
	if end < len(rest) && isDigit(rune(rest[end])) {
		return 0, false
	}
	s.at += end
	return uint64(numerator) * 8 / uint64(denominator), true
}

// fraction reads ¾ or 3/4 at the scanner.
func (s *scanner) fraction() (eighths uint64, ok bool) {
	c, width := s.peek()
	if eighths, ok = vulgar(c); ok {
		s.at += width
		return eighths, true
	}
	return s.slashed()
}

// pointFraction reads the fraction after a whole number: 1½, 1 1/2. If the number was
// itself a numerator, as in 3/4, it reads the denominator. It does not change another
// number.
func (s *scanner) pointFraction(d *decimal) *ParseError {
	if d.pointed {
		return nil
	}
	start := s.at
	if c, _ := s.peek(); c == '/' && s.pair {
		return nil // it separates the latitude from the longitude
	} else if c == '/' || c == '⁄' {
		s.at = d.at
		eighths, ok := s.slashed()
		if !ok {
			s.at = start
			return s.fail(NoNumber, "halves, quarters or eighths, such as 3/4")
		}
		*d = inEighths(d.at, 0, eighths)
		return nil
	}
	s.skipBlanks()
	eighths, ok := s.fraction()
	if !ok || strings.ContainsAny(s.input[start:s.at], "\r\n") {
		s.at = start
		return nil
	}
	*d = inEighths(d.at, d.whole, eighths)
	return nil
}

// inEighths returns a figure with a fraction in eighths: 2¾.
func inEighths(at int, whole int64, eighths uint64) decimal {
	return decimal{at: at, whole: whole, fraction: eighths * 125, places: 3, pointed: true, vulgar: true}
}
