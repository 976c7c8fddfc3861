package angle

import "strings"

// Parse reads an angle without a name. It may have a sign. Parse reads these forms, with
// any look-alike of the degree sign, the primes, the dash and the space:
//
//	4°15′   4° 15.5'   4 15.0   4-15   4:15:30   4°15′30″   4d15'   34′   30″
//	4.25   004.25   -4.25   +4°15′   4 deg 15 min   2 points   1½ points
//	4°15′.5   (as almanacs print 4°15.5′)
//
// A hyphen between figures separates them. It is a sign only before the first figure.
// Only the last figure may have decimals. Minutes and seconds must be less than 60. Parse
// returns a [*ParseError] for these:
//
//	61′   4°15.5′30″   4°60′   4′15°   4 - 15   4°15′W   4,25   4°15′x   4 .5
func Parse(text string) (Angle, error) {
	s := scanner{input: text, what: "angle", want: "an angle such as 4°15′ or 4.25"}
	return s.whole()
}

// whole reads a text that is a single angle without a name.
func (s *scanner) whole() (Angle, error) {
	a, _, err := s.angle(anyAngle)
	if err == nil {
		err = s.end("nothing after the angle")
	}
	if err != nil {
		return 0, err
	}
	return a, nil
}

// ParseEastWest reads an angle that is east (positive) or west, such as a variation or a
// deviation. The name E or W, or the word, stands before or after the figures:
//
//	4°15′W   4 15.0 W   4-15W   W4°15'   4.25E   4°15′ west
//
// A single figure needs no name, as in the output of programs: 4.25 is east, -4.25 is
// west. Figures with minutes need a name or a sign. For any other text ParseEastWest
// returns a [*ParseError].
func ParseEastWest(text string) (Angle, error) { return parseNamed(text, eastWest) }

// A Printed is an angle east or west, with what its text shows: the precision and the
// name.
type Printed struct {
	Angle Angle // east is positive
	Step  Angle // one unit of the last figure: 1′ for 4°15′W, 6′ for 4.3°W, 15′ for 2¾°W
	West  bool  // named west, or negative; so 0° W differs from 0° E
	Named bool  // written with a name, E or W
}

// ParsePrinted is [ParseEastWest], but also returns the precision and the name that the
// text shows.
func ParsePrinted(text string) (Printed, error) {
	s := scanner{input: text, what: eastWest.what, want: eastWest.example}
	a, f, err := s.named(eastWest)
	if err == nil {
		err = s.end("nothing after the angle")
	}
	if err != nil {
		return Printed{}, err
	}
	return Printed{a, f.step, f.negative, f.named}, nil
}

// parseNamed reads an angle with the names of an axis.
func parseNamed(text string, x axis) (Angle, error) {
	s := scanner{input: text, what: x.what, want: x.example}
	a, _, err := s.named(x)
	if err == nil {
		err = s.end("nothing after the angle")
	}
	if err != nil {
		return 0, err
	}
	return a, nil
}

// An axis holds the names that an angle may have.
type axis struct {
	letters string // positive side first
	words   [2]string
	want    string
	what    string // the angle, for messages
	example string
	inHours bool // also in hours and minutes of time, as old books give longitudes
}

var (
	eastWest    = axis{"EW", [2]string{"EAST", "WEST"}, "E or W", "angle east or west", "an angle such as 4°15′W or -4.25", false}
	northSouth  = axis{"NS", [2]string{"NORTH", "SOUTH"}, "N or S", "angle north or south", "an angle such as 47°12′N or -33.9", false}
	inLongitude = axis{eastWest.letters, eastWest.words, eastWest.want, eastWest.what, eastWest.example, true}
)

// name reads a name at the scanner. It returns the sign of the name, or 0 if there is no
// name. The name of the other axis is an error.
func (s *scanner) name(x axis) (sign Angle, err *ParseError) {
	w := s.word()
	for i, letter := range []byte(x.letters) {
		if len(w) == 1 && w[0]&^0x20 == letter || is(w, x.words[i]) {
			s.at += len(w)
			if len(w) == 1 {
				err = s.stop() // "E."
			}
			return Angle(1 - 2*i), err
		}
	}
	if is(w, "N", "S", "E", "W", "NORTH", "SOUTH", "EAST", "WEST") {
		return 0, s.fail(WrongName, x.want)
	}
	return 0, nil
}

// named reads a signed or named angle.
func (s *scanner) named(x axis) (Angle, form, *ParseError) {
	s.skipBlanks()
	start := s.at
	before, err := s.name(x)
	if err != nil {
		return 0, form{}, err
	}
	figuresAt := s.at
	figures, f, err := s.angle(anyAngle)
	if err == nil && x.inHours && f.fields == 1 && f.rank == 0 && s.hour() {
		s.at = figuresAt
		figures, f, err = s.timeOfArc()
	}
	if err != nil {
		return 0, form{}, err
	}
	if f.signed && before != 0 {
		return 0, form{}, s.failAt(start, SignAndName, "either a sign or "+x.want)
	}
	beforeName := s.at
	s.skipBlanks()
	nameAt := s.at
	after, err := s.name(x)
	if before != 0 && (after != 0 || err != nil) {
		// A name that stands before figures belongs to the next quantity.
		s.at = nameAt + len(s.word())
		if s.skipBlanks(); s.figures() == 0 {
			return 0, form{}, s.failAt(nameAt, TwoNames, "one name, "+x.want)
		}
		s.at, after, err = beforeName, 0, nil
	}
	if err != nil {
		return 0, form{}, err
	}
	switch {
	case after != 0 && f.signed:
		return 0, form{}, s.failAt(nameAt, SignAndName, "either a sign or "+x.want)
	case after == 0 && before == 0 && !f.signed && (f.fields > 1 || f.rank > 0) && figures != 0:
		return 0, form{}, s.failAt(nameAt, MissingName, x.want)
	case after+before < 0:
		figures, f.negative = -figures, true
	}
	f.named = after+before != 0
	return figures, f, nil
}

// A form describes how an angle was written.
type form struct {
	signed   bool  // with a sign before it
	negative bool  // with a minus sign, or a name that means one
	named    bool  // with a name
	fields   int   // the number of figures
	rank     int   // of the unit of the last figure: degrees 0
	step     Angle // one unit of the last figure
}

// An allowance says which forms of an angle are allowed.
type allowance int

const (
	anyAngle     allowance = iota
	unsignedOnly           // a direction: no sign, no angle of points or of minutes alone
	threeFigures           // the same; and 327½ needs no degree sign, since it can't be in points
)

// The units by rank.
var fieldUnits = [3]Angle{Degree, Minute, Second}

// angle reads [sign] figure [separator figure [separator figure]].
func (s *scanner) angle(allow allowance) (a Angle, f form, err *ParseError) {
	s.skipBlanks()
	if s.at >= len(s.input) {
		kind := NoNumber
		if s.at == 0 || isBlank(s.input) {
			kind = Empty
		}
		return 0, f, s.fail(kind, s.want)
	}
	if c, width := s.peek(); c == dash || c == '+' {
		if allow != anyAngle {
			return 0, f, s.fail(SignNotAllowed, "a direction from 0° to 360°")
		}
		f.signed, f.negative = true, c == dash
		s.at += width
		s.skipBlanks()
	}
	last := -1 // rank of the unit last read
	for {
		want := s.want
		if f.fields > 0 {
			want = "a figure"
		}
		d, err := s.number(want)
		if err != nil {
			return 0, f, err
		}
		unit, rank, err := s.unit(&d, last+1, allow)
		if err != nil {
			return 0, f, err
		}
		if err := s.misplaced(&d, rank, last, allow); err != nil {
			return 0, f, err
		}
		part, ok := d.times(unit)
		if !ok || a+part < a {
			return 0, f, s.failAt(d.at, OutOfRange, "an angle within 7,116 turns")
		}
		a += part
		f.step = max(unit/d.finest(), 1)
		f.fields++
		f.rank, last = rank, rank
		if rank >= 2 {
			break
		}
		more, err := s.separator(d.pointed)
		if err != nil {
			return 0, f, err
		}
		if !more {
			break
		}
		if d.pointed {
			return 0, f, s.failAt(d.at, FractionNotLast, "decimals in the last figure only")
		}
	}
	if f.negative {
		a = -a
	}
	return a, f, nil
}

// misplaced returns an error if a figure's rank can't follow the last rank, which is -1
// before the first figure. It also returns one if minutes or seconds are 60 or more.
func (s *scanner) misplaced(d *decimal, rank, last int, allow allowance) *ParseError {
	first := last < 0
	switch {
	case rank > 2 && !first, rank > 0 && first && allow != anyAngle:
		return s.failAt(d.at, UnitsOutOfOrder, "degrees first")
	case rank <= last:
		return s.failAt(d.at, UnitsOutOfOrder, "degrees, then minutes, then seconds, each once")
	case rank == 1 && d.whole >= 60:
		return s.failAt(d.at, MinutesOutOfRange, "less than 60")
	case rank == 2 && d.whole >= 60:
		return s.failAt(d.at, SecondsOutOfRange, "less than 60")
	}
	return nil
}

// isBlank reports whether a text is only spaces.
func isBlank(text string) bool {
	s := scanner{input: text}
	s.skipBlanks()
	return s.at == len(text)
}

// unit reads the unit after a figure. A figure without a unit has the next rank. The
// ranks are: degrees 0, minutes 1, seconds 2, points 3. If a fraction follows, as points
// have, unit reads it into d.
func (s *scanner) unit(d *decimal, next int, allow allowance) (unit Angle, rank int, err *ParseError) {
	if unit, rank, ok := s.mark(); ok {
		s.decimalsAfterMark(d)
		return unit, rank, nil
	}
	if err := s.pointFraction(d); err != nil {
		return 0, 0, err
	}
	after := s.at // to return to if there is no unit
	s.skipBlanks()
	if unit, rank, ok := s.mark(); ok {
		s.decimalsAfterMark(d)
		return unit, rank, nil
	}
	switch w := s.word(); {
	case is(w, "D", "DEG", "DEGS", "DEGREE", "DEGREES"):
		s.at += len(w)
		s.dot()
		return Degree, 0, nil
	case is(w, "POINT", "POINTS", "PT", "PTS"):
		s.at += len(w)
		return Point, 3, nil
	case is(w, "MIN", "MINS", "MINUTE", "MINUTES"):
		s.at += len(w)
		s.dot()
		return Minute, 1, nil
	case is(w, "SEC", "SECS", "SECOND", "SECONDS"):
		s.at += len(w)
		s.dot()
		return Second, 2, nil
	case d.vulgar && !(allow == threeFigures && next == 0 && s.degreesPlainly(d)):
		return 0, 0, s.fail(NoNumber, "a unit after a fraction: the word points, or a degree sign")
	}
	s.at = after
	return fieldUnits[min(next, 2)], min(next, 2), nil
}

// degreesPlainly reports whether a number with a fraction and no unit can only be degrees.
// Such a number has three figures, or is more than the 32 points of the circle.
func (s *scanner) degreesPlainly(d *decimal) bool {
	figures := 0
	for i := d.at; i < len(s.input) && isDigit(rune(s.input[i])); i++ {
		figures++
	}
	return figures >= 3 || d.whole > 32
}

// mark reads the symbol of a unit: °, ′ or ″.
func (s *scanner) mark() (unit Angle, rank int, ok bool) {
	c, width := s.peek()
	switch c {
	case degreeMark:
		unit, rank = Degree, 0
	case minuteMark:
		unit, rank = Minute, 1
	case secondMark:
		unit, rank = Second, 2
	default:
		return 0, 0, false
	}
	s.at += width
	return unit, rank, true
}

// dot skips the full stop of an abbreviation, unless a digit follows.
func (s *scanner) dot() {
	if c, width := s.peek(); c == '.' && !(s.at+width < len(s.input) && isDigit(rune(s.input[s.at+width]))) {
		s.at += width
	}
}

// separator skips what stands between two figures and reports whether another figure
// follows. A hyphen or a colon is a separator only between two figures without spaces. A
// dash after a space may be the sign of the next quantity. A comma after decimals separates
// two quantities.
func (s *scanner) separator(afterDecimals bool) (more bool, err *ParseError) {
	start := s.at
	s.skipBlanks()
	touching := s.at == start
	c, width := s.peek()
	if c == endOfText {
		s.at = start
		return false, nil
	}
	if !touching && strings.ContainsAny(s.input[start:s.at], "\r\n") {
		// Two lines are two quantities: 35 above 35 is not 35°35′.
		if _, fraction := vulgar(c); !s.pair && (fraction || isDigit(c) || c == decimalMark) {
			return false, s.failAt(start, BadSeparator, "one angle on one line")
		}
		s.at = start
		return false, nil
	}
	ahead := *s
	ahead.at += width
	next, _ := ahead.peek()
	followed := isDigit(next)
	switch {
	case c == dash || c == ':':
		switch {
		case touching && followed:
			*s = ahead
			return true, nil
		case c == ':' || !followed:
			return false, s.fail(BadSeparator, "a space, or a hyphen or a colon without spaces, between two figures")
		}
	case c == ',' && touching && followed && !afterDecimals:
		return false, s.fail(BadSeparator, s.pointFor())
	case s.pair && afterDecimals && !touching:
		// The second of two quantities.
	case c == decimalMark && followed && !afterDecimals:
		return false, s.fail(BadSeparator, "a figure before the decimal point")
	case isDigit(c) || c == decimalMark && followed:
		return true, nil
	}
	if _, ok := vulgar(c); ok {
		return true, nil
	}
	s.at = start
	return false, nil
}

// pointFor returns what to write for a text that has decimal commas.
func (s *scanner) pointFor() string {
	const want = "a decimal point"
	if len(s.input) > maxQuoted {
		return want
	}
	b := []byte(s.input)
	for i := 1; i+1 < len(b); i++ {
		if b[i] == ',' && isDigit(rune(b[i-1])) && isDigit(rune(b[i+1])) {
			b[i] = '.'
		}
	}
	return want + ": " + strings.TrimSpace(string(b)) + ", or a space between figures"
}
