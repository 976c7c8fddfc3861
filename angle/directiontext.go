package angle

import (
	"fmt"
	"strings"
)

// ParseTrue reads a direction from true north in any of these notations:
//
//	035   035°   035.5°T   327½   35 T   035°(T)   104°15′T   104 15.3   360
//	N35E   N 35° E   N 35°30′ E   S 2 points E   E 14° N   (quadrantal)
//	NNE   N by E   NbE   north-east by north   NE ¾ E   NW 3/4 W   due W   (points)
//
// The letter T may be left out. A whole number after N or S is in degrees, but a fraction is in
// points, as manuals write them: S 7 W is 187°, and S 7½ W is 7½ points. Write the degree sign
// if degrees are meant: S 7½° W.
//
// ParseTrue returns a [*ParseError] for the letter of another north, a sign, and figures on two
// lines. It does the same for an angle beyond 360°, a quadrantal angle beyond 90°, and all that
// [Parse] refuses.
func ParseTrue(text string) (True, error) { return parseDirection[trueNorth](text, false) }

// ParseMagnetic is [ParseTrue] for directions from magnetic north: 035°M.
func ParseMagnetic(text string) (Magnetic, error) { return parseDirection[magneticNorth](text, false) }

// ParseCompass is [ParseTrue] for directions by compass: 035°C. It also reads the old
// abbreviation p.s.c. (per standard compass), and the words by compass.
func ParseCompass(text string) (Compass, error) { return parseDirection[compassNorth](text, false) }

// MustParseTrue is [ParseTrue] for texts written in a program. It panics on an error.
func MustParseTrue(text string) True { return Must(ParseTrue(text)) }

// MustParseMagnetic is [ParseMagnetic] for texts written in a program. It panics on an
// error.
func MustParseMagnetic(text string) Magnetic { return Must(ParseMagnetic(text)) }

// MustParseCompass is [ParseCompass] for texts written in a program. It panics on an
// error.
func MustParseCompass(text string) Compass { return Must(ParseCompass(text)) }

// parseDirection is [ParseTrue] for any north. If asked, it requires the letter of the north.
func parseDirection[R North](text string, letterNeeded bool) (Direction[R], error) {
	letter := Direction[R]{}.letter()
	s := scanner{input: text, what: directionName(letter), want: "a direction such as 035° or NNE"}
	a, err := s.direction()
	if err == nil {
		err = s.northLetter(letter, letterNeeded)
	}
	if err == nil {
		err = s.end("nothing after the direction")
	}
	if err != nil {
		return Direction[R]{}, err
	}
	return directionFrom[R](a), nil
}

// direction reads a direction in figures, quadrantal or in points.
func (s *scanner) direction() (Angle, *ParseError) {
	s.skipBlanks()
	if c, _ := s.peek(); isLetter(c) {
		if w := s.word(); is(w, "DUE") {
			s.passWord(w)
		}
		return s.namedDirection()
	}
	return s.threeFigure("a direction from 0° to 360°")
}

// threeFigure reads an angle from 0° to 360° that has no sign.
func (s *scanner) threeFigure(want string) (Angle, *ParseError) {
	s.skipBlanks()
	at := s.at
	a, _, err := s.angle(threeFigures)
	if err != nil {
		return 0, err
	}
	if a > Turn {
		return 0, s.failAt(at, OutOfRange, want)
	}
	return a, nil
}

// northLetter reads the letter, word or abbreviation that says which north, in
// brackets or not.
func (s *scanner) northLetter(letter byte, needed bool) *ParseError {
	s.skipBlanks()
	bracketed := false
	if c, width := s.peek(); c == '(' {
		bracketed = true
		s.at += width
	}
	var found byte
	w := s.word()
	if is(w, "BY", "PER") && s.byCompass() {
		s.passWord(w)
		w = s.word()
	}
	switch {
	case is(w, "T", "TRUE"):
		found = 'T'
	case is(w, "M", "MAG", "MAGNETIC"):
		found = 'M'
	case is(w, "C", "COMPASS", "PSC"):
		found = 'C'
	case len(s.input)-s.at >= len("p.s.c.") && strings.EqualFold(s.input[s.at:s.at+len("p.s.c.")], "p.s.c."):
		found, w = 'C', "p.s.c."
	}
	if found == 0 {
		if bracketed {
			return s.fail(TrailingText, "the letter "+string(letter)+" in the brackets")
		}
		if needed && s.at == len(s.input) {
			return s.fail(MissingNorth, "the letter "+string(letter)+" for "+northName(letter)+" after the figures")
		}
		return nil
	}
	if found != letter {
		return s.fail(WrongNorth, "a "+directionName(letter))
	}
	s.at += len(w)
	if is(w, "MAG") {
		s.dot()
	}
	if bracketed {
		c, width := s.peek()
		if c != ')' {
			return s.fail(TrailingText, "a closing bracket")
		}
		s.at += width
	}
	return nil
}

// byCompass reports whether the word compass follows the word at the scanner.
func (s *scanner) byCompass() bool {
	ahead := *s
	ahead.passWord(ahead.word())
	return is(ahead.word(), "COMPASS")
}

// appendIn appends the direction in three figures with its north's letter: 104.3°T,
// 104°15′T. It is rounded once; 359.96° to one decimal is 000.0°.
func (d Direction[R]) appendIn(b []byte, unit Angle, decimals int) []byte {
	u := roundedDirection(d.fromNorth, unitOf(unit, decimals))
	return append(appendSize(b, u, unit, 3, decimals), d.letter())
}

// roundedDirection rounds an angle from north to a multiple of unit. A full turn becomes 0.
func roundedDirection(a, unit Angle) uint64 {
	return roundedSize(uint64(a), unit) % uint64(Turn)
}

// String returns the direction in three figures with its north's letter, rounded to a
// tenth of a degree: 035°T, 035.5°M. A tenth of zero is left out. For the exact direction
// see [Direction.AppendText].
func (d Direction[R]) String() string { return string(d.appendTenths(make([]byte, 0, longText))) }

// appendTenths appends the text of [Direction.String].
func (d Direction[R]) appendTenths(b []byte) []byte {
	return d.appendIn(b, Degree, tenthsNeeded(d.fromNorth, Degree))
}

// AppendText appends the exact direction with its north's letter. It is in decimal degrees where a
// decimal is exact, otherwise in degrees and decimal minutes or with seconds.
func (d Direction[R]) AppendText(b []byte) ([]byte, error) {
	return append(appendExactDegrees(b, uint64(d.fromNorth), 3), d.letter()), nil
}

// MarshalText returns the exact text of [Direction.AppendText].
func (d Direction[R]) MarshalText() ([]byte, error) { return d.AppendText(nil) }

// UnmarshalText reads any notation that [ParseTrue] reads. The letter of the north is
// required, because data must say which north it means.
func (d *Direction[R]) UnmarshalText(text []byte) error {
	e, err := parseDirection[R](string(text), true)
	if err == nil {
		*d = e
	}
	return err
}

// Format prints the direction with the verbs of package fmt, as [Angle.Format] does:
// %v 104.3°T, %.0v 104°15′T, %.0f 104°T, %d 104°15′00″T. The verb %q prints the
// quadrantal form, which does not show the north: %q S 76° E, %.1q S 75.7° E.
func (d Direction[R]) Format(f fmt.State, verb rune) {
	formatTo(f, verb, make([]byte, 0, 32), "angle.Direction", textForms{
		brief:      d.appendTenths,
		in:         d.appendIn,
		quadrantal: d.appendQuadrantal,
	})
}
