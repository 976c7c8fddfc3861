package angle

import "fmt"

// Examples of each half of a position, for messages.
const (
	latitudeExample  = "a latitude such as 47°08.4′N or 47.14"
	longitudeExample = "a longitude such as 019°00.0′W or -19.0"
)

// ParseLatitude reads a latitude with its name or a sign, in the forms of
// [ParseEastWest]: 50°12.4′N, 50-12.4N, N50 12.4, 50.2067, -33.9. The word Lat., or L or φ,
// may stand before it. For any other text, and for a latitude beyond 90°, it returns a
// [*ParseError].
func ParseLatitude(text string) (Latitude, error) {
	s := scanner{input: text, what: "latitude", want: latitudeExample}
	l, _, err := s.latitude()
	if err == nil {
		err = s.end("nothing after the latitude")
	}
	if err != nil {
		return Latitude{}, err
	}
	return l, nil
}

// ParseLongitude reads a longitude in the forms of [ParseEastWest]: 004°08.1′W, 4-08.1W,
// W4 8.1, -4.135. It also reads one in time, at 15° an hour, as old books give it:
// 5h 20m W, 0h16m32.4s W. The word Long., or Lon., Lo. or λ, may stand before it. For any
// other text, and for a longitude beyond 180°, it returns a [*ParseError].
func ParseLongitude(text string) (Longitude, error) {
	s := scanner{input: text, what: "longitude", want: longitudeExample}
	l, _, err := s.longitude()
	if err == nil {
		err = s.end("nothing after the longitude")
	}
	if err != nil {
		return Longitude{}, err
	}
	return l, nil
}

// ParsePosition reads a latitude and a longitude, in that order, as [ParseLatitude] and
// [ParseLongitude] do. A comma, a semicolon, a slash or spaces separate them. It also
// reads a position by ISO 6709, with or without the slash at the end:
//
//	50°12.4′N 004°08.1′W   50-12.4N, 4-08.1W   50.2067, -4.135   N50.2067 W4.135
//	Lat. 50° 12.4′ N., Long. 4° 08.1′ W.   33°51.5′S 10h 04m 51s E
//	+50.2067-004.135/   +5012.4-00408.1/   +501224-0040806/
//
// It returns a [*ParseError] if the longitude stands first. It also returns one if the
// latitude has a name and the longitude has neither a name nor a sign. An ISO 6709
// position with a height or a coordinate system is refused too, since a [Position] can't
// hold these.
func ParsePosition(text string) (Position, error) {
	s := scanner{input: text, what: "position", want: "a position such as 47°08.4′N 019°00.0′W"}
	if looksLikeISO6709(text) {
		p, err := s.iso6709()
		if err != nil {
			return Position{}, err
		}
		return p, nil
	}
	s.pair = true
	lat, latForm, err := s.latitude()
	if err != nil {
		return Position{}, err
	}
	s.pair, s.want = false, longitudeExample
	s.skipBlanks()
	if c, width := s.peek(); c == ',' || c == ';' || c == '/' {
		s.at += width
	}
	s.skipBlanks()
	if s.at == len(text) {
		return Position{}, s.fail(NoNumber, "a longitude after the latitude, such as 019°00.0′W")
	}
	lon, lonForm, err := s.longitude()
	if err == nil && latForm.named && !lonForm.named && !lonForm.signed && lon != (Longitude{}) {
		err = s.fail(MissingName, "E or W, since the latitude has a name")
	}
	if err == nil {
		err = s.end("nothing after the position")
	}
	if err != nil {
		return Position{}, err
	}
	return Position{lat, lon}, nil
}

// MustParsePosition is [ParsePosition] for texts written in a program. It panics on an
// error.
func MustParsePosition(text string) Position { return Must(ParsePosition(text)) }

// latitude reads a latitude.
func (s *scanner) latitude() (Latitude, form, *ParseError) {
	if err := s.label("LAT", "LATITUDE", "L", "φ", "Φ"); err != nil {
		return Latitude{}, form{}, err
	}
	at := s.at
	a, f, err := s.named(northSouth)
	if err != nil {
		return Latitude{}, f, err
	}
	if a.Abs() > 90*Degree {
		return Latitude{}, f, s.failAt(at, OutOfRange, "a latitude from 90° S to 90° N")
	}
	return Latitude{a}, f, nil
}

// longitude reads a longitude.
func (s *scanner) longitude() (Longitude, form, *ParseError) {
	if err := s.label("LONG", "LON", "LONGITUDE", "LO", "λ", "Λ"); err != nil {
		return Longitude{}, form{}, err
	}
	at := s.at
	a, f, err := s.named(inLongitude)
	if err != nil {
		return Longitude{}, f, err
	}
	if a.Abs() > 180*Degree {
		return Longitude{}, f, s.failAt(at, OutOfRange, "a longitude from 180° W to 180° E")
	}
	return LongitudeFrom(a), f, nil
}

// appendIn appends the latitude with its name: 50°12.4′N. In decimal degrees it has a
// sign instead: -33.9°.
func (l Latitude) appendIn(b []byte, unit Angle, decimals int) []byte {
	if unit == Degree {
		return l.north.appendIn(b, unit, decimals)
	}
	return l.north.appendNamed(b, northSouth, unit, 2, decimals)
}

// appendIn appends the longitude as [Latitude.appendIn] does: 004°08.1′W, -4.135°.
func (l Longitude) appendIn(b []byte, unit Angle, decimals int) []byte {
	if unit == Degree {
		return l.east.appendIn(b, unit, decimals)
	}
	return l.east.appendNamed(b, eastWest, unit, 3, decimals)
}

// appendIn appends the latitude and the longitude: 50°12.4′N 004°08.1′W, or
// 50.2067°, -4.1350°.
func (p Position) appendIn(b []byte, unit Angle, decimals int) []byte {
	b = p.Latitude.appendIn(b, unit, decimals)
	if unit == Degree {
		b = append(b, ',')
	}
	return p.Longitude.appendIn(append(b, ' '), unit, decimals)
}

// String returns the latitude, rounded to a tenth of a minute: 50°12.4′N. For the exact
// latitude see [Latitude.AppendText].
func (l Latitude) String() string { return string(l.appendIn(make([]byte, 0, longText), Minute, 1)) }

// String returns the longitude, rounded to a tenth of a minute: 004°08.1′W. For the exact
// longitude see [Longitude.AppendText].
func (l Longitude) String() string { return string(l.appendIn(make([]byte, 0, longText), Minute, 1)) }

// String returns the position, rounded to a tenth of a minute: 50°12.4′N 004°08.1′W. For
// the exact position see [Position.AppendText].
func (p Position) String() string { return string(p.appendIn(make([]byte, 0, longText), Minute, 1)) }

// AppendText appends the exact latitude: in decimal minutes where a decimal is exact, otherwise
// with seconds.
func (l Latitude) AppendText(b []byte) ([]byte, error) {
	u := magnitude(l.north)
	return append(appendExact(b, u, 2), nameOf(l.north, u, northSouth)), nil
}

// AppendText appends the exact longitude, as [Latitude.AppendText] does.
func (l Longitude) AppendText(b []byte) ([]byte, error) {
	u := magnitude(l.east)
	return append(appendExact(b, u, 3), nameOf(l.east, u, eastWest)), nil
}

// AppendText appends the exact position, latitude first.
func (p Position) AppendText(b []byte) ([]byte, error) {
	b, err := p.Latitude.AppendText(b)
	if err != nil {
		return b, err
	}
	return p.Longitude.AppendText(append(b, ' '))
}

// MarshalText returns the exact text of [Latitude.AppendText].
func (l Latitude) MarshalText() ([]byte, error) { return l.AppendText(nil) }

// MarshalText returns the exact text of [Longitude.AppendText].
func (l Longitude) MarshalText() ([]byte, error) { return l.AppendText(nil) }

// MarshalText returns the exact text of [Position.AppendText].
func (p Position) MarshalText() ([]byte, error) { return p.AppendText(nil) }

// UnmarshalText reads what [ParseLatitude] reads.
func (l *Latitude) UnmarshalText(text []byte) error {
	m, err := ParseLatitude(string(text))
	if err == nil {
		*l = m
	}
	return err
}

// UnmarshalText reads what [ParseLongitude] reads.
func (l *Longitude) UnmarshalText(text []byte) error {
	m, err := ParseLongitude(string(text))
	if err == nil {
		*l = m
	}
	return err
}

// UnmarshalText reads what [ParsePosition] reads.
func (p *Position) UnmarshalText(text []byte) error {
	q, err := ParsePosition(string(text))
	if err == nil {
		*p = q
	}
	return err
}

// Format prints the latitude with the verbs of package fmt, as [Angle.Format] does:
// %v 50°12.4′N, %.2v 50°12.40′N, %d 50°12′24″N. The verb %f prints signed decimal
// degrees: %.4f -33.9000°.
func (l Latitude) Format(f fmt.State, verb rune) { formatPlace(f, verb, "angle.Latitude", l.appendIn) }

// Format prints the longitude with the verbs of package fmt, as [Latitude.Format] does.
func (l Longitude) Format(f fmt.State, verb rune) {
	formatPlace(f, verb, "angle.Longitude", l.appendIn)
}

// Format prints the position with the verbs of package fmt, as [Latitude.Format] does.
func (p Position) Format(f fmt.State, verb rune) { formatPlace(f, verb, "angle.Position", p.appendIn) }

// formatPlace implements fmt.Formatter for latitudes, longitudes and positions.
func formatPlace(f fmt.State, verb rune, typeName string, in func([]byte, Angle, int) []byte) {
	formatTo(f, verb, make([]byte, 0, 64), typeName, textForms{
		brief: func(b []byte) []byte { return in(b, Minute, 1) },
		in:    in,
	})
}
