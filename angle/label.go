package angle

import "strings"

// label skips spaces and the name of the quantity, if it stands there: Lat., Long. The
// names are in upper case, or Greek letters.
func (s *scanner) label(names ...string) *ParseError {
	s.skipBlanks()
	if c, _ := s.peek(); c != 'L' && c < 'Λ' {
		return nil // the most common: figures, a sign or a name
	}
	w := s.word()
	for _, name := range names {
		if w == "" && strings.HasPrefix(s.input[s.at:], name) || is(w, name) {
			s.at += len(name)
			if err := s.stop(); err != nil { // "Lat.50"
				return err
			}
			s.skipBlanks()
			if c, width := s.peek(); c == ':' || c == '=' {
				s.at += width
				s.skipBlanks()
			}
			return nil
		}
	}
	return nil
}

// The words and letters for hours, minutes and seconds of time.
var (
	hourWords   = []string{"H", "HR", "HRS", "HOUR", "HOURS"}
	minuteWords = []string{"M", "MIN", "MINS", "MINUTE", "MINUTES"}
	secondWords = []string{"S", "SEC", "SECS", "SECOND", "SECONDS"}
)

// hour reports whether a word for hours stands at the scanner.
func (s *scanner) hour() bool {
	ahead := *s
	ahead.skipBlanks()
	c, _ := ahead.peek()
	return c == 'H' && is(ahead.word(), hourWords...)
}

// timeOfArc reads an angle in hours, minutes and seconds of time, of which an hour is 15°:
// 5h 20m 16.4s.
func (s *scanner) timeOfArc() (a Angle, f form, err *ParseError) {
	units := [...]struct {
		words []string
		arc   Angle
		over  ErrorKind
	}{{hourWords, 15 * Degree, ""}, {minuteWords, 15 * Minute, MinutesOutOfRange}, {secondWords, 15 * Second, SecondsOutOfRange}}
	last := -1
	for {
		s.skipBlanks()
		c, width := s.peek()
		if last < 0 && (c == dash || c == '+') {
			f.signed, f.negative = true, c == dash
			s.at += width
			s.skipBlanks()
			c, _ = s.peek()
		}
		if last >= 0 && !isDigit(c) {
			break
		}
		d, err := s.number("a figure")
		if err != nil {
			return 0, f, err
		}
		s.skipBlanks()
		w, rank := s.word(), last+1
		for rank < len(units) && !is(w, units[rank].words...) {
			rank++
		}
		switch {
		case rank == len(units):
			return 0, f, s.fail(UnitsOutOfOrder, "hours, then minutes, then seconds, each with its letter: 5h 20m 16s")
		case rank > 0 && d.whole >= 60:
			return 0, f, s.failAt(d.at, units[rank].over, "less than 60")
		}
		part, ok := d.times(units[rank].arc)
		if !ok || a+part < a {
			return 0, f, s.failAt(d.at, OutOfRange, "an angle within 7,116 turns")
		}
		a += part
		f.step = max(units[rank].arc/d.finest(), 1)
		f.fields++
		s.at += len(w)
		s.dot()
		last = rank
		if d.pointed || rank == len(units)-1 {
			break
		}
	}
	f.rank = last
	if f.negative {
		a = -a
	}
	return a, f, nil
}
