package angle

// looksLikeISO6709 reports whether a text is a latitude and a longitude without a space
// between them, each with a sign and all its figures. No other form looks like that.
func looksLikeISO6709(text string) bool {
	s := scanner{input: text}
	s.skipBlanks()
	if c, width := s.peek(); c == '+' || c == dash {
		s.at += width
	} else {
		return false
	}
	if _, err := s.number(""); err != nil {
		return false
	}
	if c, width := s.peek(); c == '+' || c == dash {
		s.at += width
	} else {
		return false
	}
	n := s.figures()
	return n == 3 || n == 5 || n == 7
}

// figures counts the digits at the scanner.
func (s *scanner) figures() int {
	n := 0
	for s.at+n < len(s.input) && isDigit(rune(s.input[s.at+n])) {
		n++
	}
	return n
}

// iso6709 reads a position by ISO 6709, annex H. The latitude has a sign and two figures
// of degrees, the longitude a sign and three. Two figures of minutes, and then two of
// seconds, may follow. The last unit may have decimals. A slash ends the position.
func (s *scanner) iso6709() (Position, *ParseError) {
	s.skipBlanks()
	lat, err := s.isoCoordinate(2, 90*Degree, "a latitude as ±DD, ±DDMM or ±DDMMSS, up to 90°")
	if err != nil {
		return Position{}, err
	}
	lon, err := s.isoCoordinate(3, 180*Degree, "a longitude as ±DDD, ±DDDMM or ±DDDMMSS, up to 180°")
	if err != nil {
		return Position{}, err
	}
	if c, width := s.peek(); c == '/' {
		s.at += width
	}
	if err := s.end("nothing after the position, no height and no coordinate system"); err != nil {
		return Position{}, err
	}
	return Position{Latitude{lat}, LongitudeFrom(lon)}, nil
}

// isoCoordinate reads a sign and figures without spaces.
func (s *scanner) isoCoordinate(degreeFigures int, most Angle, want string) (Angle, *ParseError) {
	start := s.at
	c, width := s.peek()
	if c != '+' && c != dash {
		return 0, s.fail(NoNumber, want)
	}
	s.at += width
	figuresAt := s.at
	figures := s.figures()
	d, err := s.number(want)
	if err != nil {
		return 0, err
	}
	var a Angle
	last := Degree
	switch figures - degreeFigures {
	case 0:
	case 2:
		last = Minute
		a, d.whole = Angle(d.whole/100)*Degree, d.whole%100
	case 4:
		last = Second
		minutes := d.whole / 100 % 100
		if minutes >= 60 {
			return 0, s.failAt(figuresAt+degreeFigures, MinutesOutOfRange, "less than 60")
		}
		a, d.whole = Angle(d.whole/10000)*Degree+Angle(minutes)*Minute, d.whole%100
	default:
		return 0, s.failAt(figuresAt, NoNumber, want)
	}
	if last != Degree && d.whole >= 60 {
		kind := MinutesOutOfRange
		if last == Second {
			kind = SecondsOutOfRange
		}
		return 0, s.failAt(figuresAt+figures-2, kind, "less than 60")
	}
	part, _ := d.times(last)
	if a += part; a > most {
		return 0, s.failAt(start, OutOfRange, want)
	}
	if c == dash {
		a = -a
	}
	return a, nil
}

// ISO6709 returns the position by ISO 6709 (annex H) in decimal degrees, rounded once to
// the decimals given: +50.2067-004.1350/.
func (p Position) ISO6709(decimals int) string {
	b := appendISO(nil, p.Latitude.north, 2, decimals)
	b = appendISO(b, p.Longitude.east, 3, decimals)
	return string(append(b, '/'))
}

// appendISO appends a latitude or a longitude in decimal degrees: +50.2067.
func appendISO(b []byte, a Angle, width, decimals int) []byte {
	u := roundedSize(magnitude(a), unitOf(Degree, decimals))
	sign := byte('+')
	if a < 0 && u != 0 {
		sign = '-'
	}
	b = appendPadded(append(b, sign), u/uint64(Degree), width)
	return appendFraction(b, u%uint64(Degree), Degree, min(decimals, maxDecimals(Degree)))
}
