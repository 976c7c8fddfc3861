package angle

import "strings"

// A QuarterPoint is one of the 128 quarter points of the compass card, counted
// clockwise from north. 0 is north, 4 is N by E, 32 is east, and 128 is north again.
//
// Quarter points have the names that the United States Navy used. They are named from
// north and south toward east and west. Those next to a cardinal or intercardinal point
// are named from that point: N ¾ E, then NbE; but NEbN, then NE ¾ N. (Lectures in
// Navigation, Officers' Material School, 1918, Week I, Tuesday.)
type QuarterPoint uint8

// quarterPoints is the number of quarter points in the circle.
const quarterPoints = 128

// The points from north to east, in the letters that cards print: b is for by.
// In the other quadrants S and W replace N and E.
var pointLetters = [9]string{"N", "NbE", "NNE", "NEbN", "NE", "NEbE", "ENE", "EbN", "E"}

// The same as words.
var pointWords = [9]string{
	"north", "north by east", "north-north-east", "north-east by north",
	"north-east", "north-east by east", "east-north-east", "east by north", "east",
}

// pointNames are the names of all 32 points.
var pointNames = func() (names [32]string) {
	for i := range names {
		names[i] = QuarterPoint(4 * i).String()
	}
	return names
}()

var quarterMarks = [4]string{"", "¼", "½", "¾"}

// Angle returns the exact angle from north. A quarter point is 2°48′45″.
func (q QuarterPoint) Angle() Angle { return Angle(q%quarterPoints) * (Point / 4) }

// String returns the abbreviation: NbE, NE ¾ N.
func (q QuarterPoint) String() string { return q.name(&pointLetters, "N", "E", "S", "W") }

// Name returns the name in words: north by east, north-east ¾ north.
func (q QuarterPoint) Name() string {
	return q.name(&pointWords, "north", "east", "south", "west")
}

// name composes a name from the names of the first quadrant. The other arguments are the
// spellings of north, east, south and west in those names.
func (q QuarterPoint) name(names *[9]string, north, east, south, west string) string {
	q %= quarterPoints
	side := east
	if q > quarterPoints/2 {
		q, side = quarterPoints-q, west
	}
	pole := north
	if q > quarterPoints/4 {
		q, pole = quarterPoints/2-q, south
	}
	point, quarters := q/4, q%4
	toward := east
	// The last quarters before NE and before E are counted back from them.
	if quarters != 0 && (point == 3 || point == 7) {
		point, quarters, toward = point+1, 4-quarters, north
	}
	text := names[point]
	if quarters != 0 {
		text += " " + quarterMarks[quarters] + " " + toward
	}
	if pole == north && side == east {
		return text
	}
	return strings.NewReplacer(north, pole, east, side).Replace(text)
}

// NearestPoint returns the nearest of the 32 points. Half way between two, it returns the
// next point clockwise.
func (d Direction[R]) NearestPoint() QuarterPoint { return 4 * d.nearest(Point) }

// NearestQuarterPoint returns the nearest of the 128 quarter points. Half way between
// two, it returns the next clockwise.
func (d Direction[R]) NearestQuarterPoint() QuarterPoint { return d.nearest(Point / 4) }

// nearest returns the nearest multiple of unit, as a number of multiples.
func (d Direction[R]) nearest(unit Angle) QuarterPoint {
	return QuarterPoint(d.fromNorth.Round(unit) % Turn / unit)
}

// appendQuadrantal appends the quadrantal form with a number of decimals: S 75.7° E.
func (d Direction[R]) appendQuadrantal(b []byte, decimals int) []byte {
	const quarter = uint64(Turn / 4)
	u := roundedDirection(d.fromNorth, unitOf(Degree, decimals))
	if u%quarter == 0 {
		return append(b, "NESW"[u/quarter%4])
	}
	pole, side := byte('N'), byte('E')
	if u > 2*quarter {
		u, side = 4*quarter-u, 'W'
	}
	if u > quarter {
		u, pole = 2*quarter-u, 'S'
	}
	b = appendSize(append(b, pole, ' '), u, Degree, 1, decimals)
	return append(b, ' ', side)
}

// namedDirection reads a direction that begins with the name of a point. It may be the
// point alone, a point and a fraction toward a cardinal point, or an angle from one
// cardinal point toward another.
func (s *scanner) namedDirection() (Angle, *ParseError) {
	at := s.at
	base, err := s.pointName()
	if err != nil {
		return 0, err
	}
	s.skipBlanks()
	c, _ := s.peek()
	if _, fractional := vulgar(c); !fractional && !isDigit(c) && c != decimalMark {
		return base, nil
	}
	fieldAt := s.at
	size, _, err := s.angle(unsignedOnly)
	inPoints := false
	if err != nil {
		// Not degrees: a fraction of a point, or points.
		if size, inPoints = s.pointsFrom(fieldAt); !inPoints {
			return 0, err
		}
	}
	s.skipBlanks()
	towardAt := s.at
	toward, err := s.pointName()
	if err != nil {
		return 0, err
	}
	turn := (toward - base).NormalizedSigned()
	switch {
	case toward%(90*Degree) != 0:
		return 0, s.failAt(towardAt, WrongName, "N, S, E or W to turn toward")
	case turn == 0 || turn.Abs() > 90*Degree:
		return 0, s.failAt(towardAt, WrongName, "a cardinal point at most 90° away")
	case !inPoints && base%(90*Degree) != 0:
		return 0, s.failAt(at, UnknownPoint, "degrees counted from N, S, E or W")
	case size > turn.Abs():
		return 0, s.failAt(fieldAt, OutOfRange, "an angle that ends before the second point")
	}
	if turn < 0 {
		size = -size
	}
	return (base + size).Normalized(), nil
}

// pointsFrom reads a number of points, or a fraction of a point, at an offset: 2 points,
// 1½ points, ¾, 1 1/2.
func (s *scanner) pointsFrom(at int) (Angle, bool) {
	back := s.at
	s.at = at
	d, err := s.number("a figure")
	if err == nil {
		err = s.pointFraction(&d)
	}
	if err == nil {
		after := s.at
		s.skipBlanks()
		w := s.word()
		named := is(w, "POINT", "POINTS", "PT", "PTS")
		if named {
			s.at += len(w)
		} else {
			s.at = after
		}
		if size, ok := d.times(Point); ok && (named || d.vulgar) {
			return size, true
		}
	}
	s.at = back
	return 0, false
}

// pointName reads the name of one of the 32 points, in letters or in words.
func (s *scanner) pointName() (Angle, *ParseError) {
	start := s.at
	var letters [8]byte // N, E, S, W and b for by
	n := 0
	end := start
	for n < len(letters) {
		w := s.word()
		if w == "" {
			// Spaces and hyphens may join words.
			c, width := s.peek()
			if n == 0 || c != blank && c != dash && !(c == '.' && n > 0) {
				break
			}
			s.at += width
			continue
		}
		letter, width := pointLetter(w)
		if width == 0 || is(w, "BY") && s.byCompass() {
			break
		}
		letters[n] = letter
		n++
		s.at += width
		end = s.at
	}
	s.at = end
	if n > 0 {
		if err := s.stop(); err != nil {
			return 0, err
		}
	}
	for i, name := range pointNames {
		if name == string(letters[:n]) {
			return Angle(i) * Point, nil
		}
	}
	return 0, s.failAt(start, UnknownPoint, "a point of the compass, such as N, NNE or NE by E")
}

// pointLetter reads one part of a point's name at the start of a word.
func pointLetter(w string) (letter byte, width int) {
	for _, part := range [...]struct {
		spelling string
		letter   byte
	}{{"NORTH", 'N'}, {"SOUTH", 'S'}, {"EAST", 'E'}, {"WEST", 'W'}, {"BY", 'b'}, {"B", 'b'}, {"X", 'b'}} {
		if len(w) >= len(part.spelling) && is(w[:len(part.spelling)], part.spelling) {
			return part.letter, len(part.spelling)
		}
	}
	if c := w[0] &^ 0x20; c == 'N' || c == 'S' || c == 'E' || c == 'W' {
		return c, 1
	}
	return 0, 0
}
