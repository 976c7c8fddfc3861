package angle

import "fmt"

// ParseRelative reads a relative bearing: in three figures from the bow, or on
// a side, where red is port and green is starboard:
//
//	325   325°   325°R   325.5 rel   35° to port   35 port   port 35°   red 35
//	green 110   ahead   astern
//
// Signs, three figures beyond 360° and sides beyond 180° are refused with a
// [*ParseError].
func ParseRelative(text string) (Relative, error) { return parseRelative(text, false) }

// MustParseRelative is [ParseRelative] for texts written in a program; it
// panics on an error.
func MustParseRelative(text string) Relative { return Must(ParseRelative(text)) }

func parseRelative(text string, referenceNeeded bool) (Relative, error) {
	s := scanner{input: text}
	a, err := s.relative(referenceNeeded)
	if err == nil {
		err = s.end("nothing after the relative bearing")
	}
	if err != nil {
		return Relative{}, err
	}
	return RelativeFrom(a), nil
}

func (s *scanner) relative(referenceNeeded bool) (Angle, *ParseError) {
	s.skipBlanks()
	switch w := s.word(); {
	case is(w, "AHEAD"):
		s.at += len(w)
		return 0, nil
	case is(w, "ASTERN"):
		s.at += len(w)
		return Turn / 2, nil
	}
	before, sided := s.side()
	if sided {
		if err := s.stop(); err != nil { // "P. 35"
			return 0, err
		}
	}
	s.skipBlanks()
	at := s.at
	a, err := s.threeFigure("a relative bearing from 0° to 360°")
	if err != nil {
		return 0, err
	}
	s.skipBlanks()
	afterAt := s.at
	if w := s.word(); is(w, "TO") {
		s.at += len(w)
		s.skipBlanks()
	}
	after, sidedAfter := s.side()
	switch {
	case sided && sidedAfter:
		return 0, s.failAt(afterAt, TwoNames, "one side")
	case sidedAfter:
		before, sided = after, true
	case s.at != afterAt:
		return 0, s.fail(MissingName, "port or starboard")
	}
	if sided {
		if a > Turn/2 {
			return 0, s.failAt(at, OutOfRange, "0° to 180° on the side named")
		}
		if before == Port {
			a = -a
		}
		return a, nil
	}
	w := s.word()
	switch {
	case is(w, "R", "REL", "RELATIVE"):
		s.at += len(w)
	case is(w, "T", "M", "C", "TRUE", "MAGNETIC", "COMPASS"):
		return 0, s.fail(WrongNorth, "a relative bearing, from the bow")
	case referenceNeeded && s.at == len(s.input):
		return 0, s.fail(MissingName, "the letter R for relative, or a side, after the figures")
	}
	return a, nil
}

// side reads the name of a side.
func (s *scanner) side() (Side, bool) {
	w := s.word()
	switch {
	case is(w, "PORT", "P", "RED"):
		s.at += len(w)
		return Port, true
	case is(w, "STARBOARD", "STBD", "S", "GREEN"):
		s.at += len(w)
		return Starboard, true
	}
	return Starboard, false
}

// AppendDegrees appends the relative bearing in three figures from the bow with
// decimals and the letter R: 325.0°R.
func (r Relative) AppendDegrees(b []byte, decimals int) []byte {
	u := roundedDirection(r.fromBow, unitOf(Degree, decimals, mostDegreeDecimals))
	return append(appendDegrees(b, u, 3, decimals), 'R')
}

// AppendMinutes appends the relative bearing in degrees and decimal minutes
// from the bow with the letter R: 325°15′R.
func (r Relative) AppendMinutes(b []byte, decimals int) []byte {
	u := roundedDirection(r.fromBow, unitOf(Minute, decimals, mostMinuteDecimals))
	return append(appendMinutes(b, u, 3, decimals), 'R')
}

// String returns the relative bearing in three figures with the letter R, to a
// tenth of a degree, the tenth left out when it is nought: 325°R.
func (r Relative) String() string { return string(r.appendTenths(nil)) }

func (r Relative) appendTenths(b []byte) []byte {
	return r.AppendDegrees(b, tenthsNeeded(r.fromBow, Degree))
}

// SideString returns the relative bearing on its side of the bow, to a tenth of
// a degree: 35° to port, 110.5° to starboard, ahead, astern.
func (r Relative) SideString() string {
	side, a := r.OnSide()
	decimals := tenthsNeeded(a, Degree)
	switch u := roundedSize(uint64(a), Degree/10); u {
	case 0:
		return "ahead"
	case uint64(Turn / 2):
		return "astern"
	default:
		return string(appendDegrees(nil, u, 1, decimals)) + " to " + side.String()
	}
}

// AppendText appends the exact relative bearing with the letter R.
func (r Relative) AppendText(b []byte) ([]byte, error) {
	return append(appendExactDegrees(b, uint64(r.fromBow), 3), 'R'), nil
}

// MarshalText returns the exact text of [Relative.AppendText].
func (r Relative) MarshalText() ([]byte, error) { return r.AppendText(nil) }

// UnmarshalText reads what [ParseRelative] reads, but the letter R or a side
// must be there.
func (r *Relative) UnmarshalText(text []byte) error {
	q, err := parseRelative(string(text), true)
	if err == nil {
		*r = q
	}
	return err
}

// Format honours the verbs of package fmt as [Direction.Format] does.
func (r Relative) Format(f fmt.State, verb rune) {
	formatTo(f, verb, make([]byte, 0, 32), "angle.Relative", textForms{
		brief:   r.appendTenths,
		minutes: r.AppendMinutes,
		degrees: r.AppendDegrees,
	})
}
