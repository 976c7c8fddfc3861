package isomap

import (
	"bytes"
	"fmt"
	"math"

	"lubberline.example/angle"
)

// graticule draws parallels and meridians, with their figures outside the map.
func (s *sheet) graticule(b *bytes.Buffer) {
	fmt.Fprintln(b, `<g stroke="#999" stroke-width="0.6" fill="#333">`)
	// Choose the meridians so that their figures have room: along the width of the map, or
	// along the outer edge of a polar map.
	outer := s.area.South
	if s.side < 0 {
		outer = s.area.North
	}
	whole := s.area.width()
	length := s.width
	if s.kind == polar {
		length = whole.Radians() * ((angle.Turn/4 - outer.Angle().Abs()) / 2).Tan() * s.scale
	}
	for _, m := range s.roundBetween(s.area.West.Angle(), whole, length, 72) {
		if whole == angle.Turn && s.kind == polar && m == s.area.West.Angle()+whole {
			continue // the first one again
		}
		s.meridian(b, m, outer)
	}
	length = s.height
	if s.kind == polar {
		a, c := s.place(s.area.South.Angle(), s.area.West.Angle()), s.place(s.area.North.Angle(), s.area.West.Angle())
		length = math.Hypot(a.x-c.x, a.y-c.y)
	}
	for _, p := range s.roundBetween(s.area.South.Angle(), s.area.height(), length, 34) {
		if p.Abs() < angle.Turn/4 || s.kind != polar {
			s.parallel(b, p)
		}
	}
	fmt.Fprintln(b, `</g>`)
}

// A spot is a point on the sheet.
type spot struct{ x, y float64 }

// place returns the spot of a latitude and a longitude.
func (s *sheet) place(latitude, longitude angle.Angle) spot {
	near := s.left
	if longitude-s.area.West.Angle() > s.area.width()/2 {
		near += s.width
	}
	x, y := s.point(angle.Position{Latitude: angle.Must(angle.LatitudeFrom(latitude)), Longitude: angle.LongitudeFrom(longitude)}, near)
	return spot{x, y}
}

// roundBetween returns the multiples of a round step in a range that begins at an angle. The
// length is that of the whole range on the sheet. On the sheet the multiples are at least
// apart units from each other.
func (s *sheet) roundBetween(from, whole angle.Angle, length, apart float64) []angle.Angle {
	step := 90 * angle.Degree
	for _, t := range []angle.Angle{angle.Minute, 2 * angle.Minute, 5 * angle.Minute, 10 * angle.Minute, 30 * angle.Minute,
		angle.Degree, 2 * angle.Degree, 5 * angle.Degree, 10 * angle.Degree, 15 * angle.Degree, 30 * angle.Degree, 45 * angle.Degree} {
		if length*float64(t)/float64(whole) >= apart && whole/t <= 12 {
			step = t
			break
		}
	}
	var all []angle.Angle
	for a := from.Truncate(step) - step; a <= from+whole; a += step {
		if a >= from {
			all = append(all, a)
		}
	}
	return all
}

// meridian draws a meridian. Its figures stand above and below the map, or outside the outer
// edge of a polar map.
func (s *sheet) meridian(b *bytes.Buffer, m angle.Angle, outer angle.Latitude) {
	south, north := s.place(s.area.South.Angle(), m), s.place(s.area.North.Angle(), m)
	fmt.Fprintf(b, `<path d="M%.1f %.1fL%.1f %.1f"/>`, south.x, south.y, north.x, north.y)
	name := figure(angle.LongitudeFrom(m).Angle(), "E", "W")
	if s.kind != polar {
		s.text(b, spot{north.x, north.y - 13}, name)
		s.text(b, spot{south.x, south.y + 14}, name)
		return
	}
	edge, pole := s.place(outer.Angle(), m), s.place(angle.Angle(s.side)*angle.Turn/4, m)
	r := math.Hypot(edge.x-pole.x, edge.y-pole.y)
	out := 12 + 24*math.Abs(edge.x-pole.x)/r
	s.text(b, spot{edge.x + (edge.x-pole.x)/r*out, edge.y + (edge.y-pole.y)/r*out}, name)
}

// parallel draws a parallel. Its figures stand left and right of the map. On a polar map the
// figure stands at the western edge, or on the first meridian if there is no edge.
func (s *sheet) parallel(b *bytes.Buffer, p angle.Angle) {
	const parts = 90
	for i := range angle.Angle(parts + 1) {
		at := s.place(p, s.area.West.Angle()+s.area.width()/parts*i)
		letter := "L"
		if i == 0 {
			letter = `<path fill="none" d="M`
		}
		fmt.Fprintf(b, "%s%.1f %.1f", letter, at.x, at.y)
	}
	fmt.Fprint(b, `"/>`)
	name := figure(p, "N", "S")
	west, east := s.place(p, s.area.West.Angle()), s.place(p, s.area.West.Angle()+s.area.width())
	switch {
	case s.kind != polar:
		s.text(b, spot{s.left - 36, west.y}, name)
		s.text(b, spot{s.left + s.width + 36, east.y}, name)
	case s.area.width() == angle.Turn:
		if r := s.room(angle.Position{Latitude: angle.Must(angle.LatitudeFrom(p)), Longitude: s.area.West}); r > 16 {
			s.onMap(&s.over, west, 0, name, "")
		}
	default:
		// At a right angle to the edge, away from the area.
		pole := s.place(angle.Angle(s.side)*angle.Turn/4, s.area.West.Angle())
		dx, dy := west.x-pole.x, west.y-pole.y
		r := math.Hypot(dx, dy)
		across := spot{-dy / r, dx / r}
		if s.side < 0 {
			across = spot{dy / r, -dx / r}
		}
		out := 12 + 20*math.Abs(across.x)
		s.text(b, spot{west.x + across.x*out, west.y + across.y*out}, name)
	}
}

// text writes a figure at a spot, unless it would overlap another.
func (s *sheet) text(b *bytes.Buffer, at spot, name string) {
	if !s.take(at, textLength(name)) {
		return
	}
	fmt.Fprintf(b, `<text stroke="none" text-anchor="middle" x="%.1f" y="%.1f">%s</text>`+"\n", at.x, at.y+5, name)
}

// figure returns the label of a parallel or a meridian: 40°N, 5°30′W, 0°.
func figure(a angle.Angle, positive, negative string) string {
	text := short(a.Abs())
	switch {
	case a > 0 && a < angle.Turn/2:
		return text + positive
	case a < 0 && a > -angle.Turn/2:
		return text + negative
	}
	return text
}

// short prints whole degrees, or degrees and whole minutes.
func short(a angle.Angle) string {
	if a%angle.Degree == 0 {
		return fmt.Sprintf("%.0f", a)
	}
	return fmt.Sprintf("%.0v", a)
}
