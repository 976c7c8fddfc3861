package isomap

import (
	"math"

	"lubberline.example/angle"
)

// The sizes on the sheet, in the units of its drawing: the maximum width and height of the
// map, the minimum of both, and the width of the text below it. A narrow map has its own.
const (
	mapWidth  = 860
	mapHeight = 1100
	minSide   = 90
	textWidth = 700

	narrowWidth  = 354
	narrowHeight = 560
	narrowText   = 490
)

// Kinds of projection.
const (
	mercator = "Mercator projection"
	polar    = "polar stereographic projection"
	plain    = "latitude and longitude to one scale"
)

// A projection maps the area to the sheet.
type projection struct {
	kind          string
	area          Area
	left, top     float64 // of the map's frame, in the sheet's units
	width, height float64
	bottom, upper float64 // ordinates of the southern and northern edge, or of the frame of a polar map
	west          float64 // of a polar map: the abscissa of the left edge of the frame
	scale         float64 // units of the sheet for a unit of ordinate and abscissa
	side          float64 // of a polar map: 1 around the north pole, −1 around the south pole
}

// The limits of the projections in latitude. A map that reaches beyond polarFrom is polar, if
// all of it is beyond polarUntil in one hemisphere. No other map beyond mercatorLimit is in
// Mercator projection.
const (
	polarFrom     = 70
	mercatorLimit = 80
	polarUntil    = 20
)

// newProjection fits the area into a frame with a maximum width and height.
func newProjection(a Area, left, top, width, height float64) projection {
	p := projection{kind: mercator, area: a, left: left, top: top}
	south, north := a.South.Degrees(), a.North.Degrees()
	switch {
	case north > polarFrom && south >= polarUntil:
		p.kind, p.side = polar, 1
	case south < -polarFrom && north <= -polarUntil:
		p.kind, p.side = polar, -1
	case max(north, -south) > mercatorLimit:
		p.kind = plain
	}
	var across float64
	if p.kind == polar {
		east := math.Inf(-1)
		p.west, p.bottom, p.upper = math.Inf(1), math.Inf(1), math.Inf(-1)
		for _, at := range a.outline() {
			x, y := p.plane(at.Latitude, a.offset(at.Longitude, false))
			p.west, east = min(p.west, x), max(east, x)
			p.bottom, p.upper = min(p.bottom, y), max(p.upper, y)
		}
		across = east - p.west
	} else {
		p.bottom, p.upper, across = p.ordinate(a.South), p.ordinate(a.North), a.width().Degrees()
	}
	p.scale = min(width/across, height/(p.upper-p.bottom))
	p.width, p.height = across*p.scale, (p.upper-p.bottom)*p.scale
	return p
}

// outline returns many places along the edges of the area, with the corners.
func (a Area) outline() []angle.Position {
	var all []angle.Position
	const n = 180
	edge := func(latitude, longitude func(angle.Angle) angle.Angle) {
		for i := range angle.Angle(n + 1) {
			all = append(all, angle.Position{Latitude: angle.Must(angle.LatitudeFrom(latitude(i))), Longitude: angle.LongitudeFrom(longitude(i))})
		}
	}
	south, north, west, w := a.South.Angle(), a.North.Angle(), a.West.Angle(), a.width()
	at := func(x angle.Angle) func(angle.Angle) angle.Angle { return func(angle.Angle) angle.Angle { return x } }
	edge(at(south), func(i angle.Angle) angle.Angle { return west + w/n*i })
	edge(func(i angle.Angle) angle.Angle { return south + a.height()/n*i }, at(west+w))
	edge(at(north), func(i angle.Angle) angle.Angle { return west + w - w/n*i })
	edge(func(i angle.Angle) angle.Angle { return north - a.height()/n*i }, at(west))
	return all
}

// offset returns the angle from the western edge of the area east to a meridian. It is negative
// if the meridian is nearer to the outside of the western edge. On the seam of a map of the
// whole earth it is 0, or a turn if seam is true.
func (a Area) offset(l angle.Longitude, seam bool) angle.Angle {
	east := l.Sub(a.West).Normalized()
	if w := a.width(); east > w+(angle.Turn-w)/2 {
		east -= angle.Turn
	} else if w == angle.Turn && east == 0 && seam {
		east = angle.Turn
	}
	return east
}

// ordinate returns the ordinate of a latitude, in lengths of a degree of longitude.
func (p projection) ordinate(l angle.Latitude) float64 {
	if p.kind != mercator {
		return l.Degrees()
	}
	return math.Atanh(l.Angle().Sin()) * 180 / math.Pi
}

// plane returns the place on a polar map. In the middle of the area, east is to the right and
// north is up. The middle meridian points down from the north pole, or up from the south pole.
func (p projection) plane(l angle.Latitude, offset angle.Angle) (x, y float64) {
	colatitude := angle.Turn/4 - angle.Angle(p.side)*l.Angle()
	r := (colatitude / 2).Tan()
	sin, cos := (offset - p.area.width()/2).SinCos()
	return r * sin, -p.side * r * cos
}

// point returns the point of a position on the sheet. On the seam of a map of the whole earth
// a place lies on both edges. Then point returns the one nearer to the abscissa near.
func (p projection) point(at angle.Position, near float64) (x, y float64) {
	offset := p.area.offset(at.Longitude, near > p.left+p.width/2)
	if p.kind == polar {
		x, y := p.plane(at.Latitude, offset)
		return p.left + (x-p.west)*p.scale, p.top + (p.upper-y)*p.scale
	}
	return p.left + offset.Degrees()*p.scale, p.top + (p.upper-p.ordinate(at.Latitude))*p.scale
}

// room returns the distance of a place from the nearest edge of the area, in units of the sheet.
func (p projection) room(at angle.Position) float64 {
	x, y := p.point(at, p.left)
	if p.kind != polar {
		return min(x-p.left, p.left+p.width-x, y-p.top, p.top+p.height-y)
	}
	pole := angle.Position{Latitude: angle.Must(angle.LatitudeFrom(angle.Angle(p.side) * angle.Turn / 4))}
	px, py := p.point(pole, p.left)
	r := math.Hypot(x-px, y-py)
	radius := func(l angle.Latitude) float64 {
		return ((angle.Turn/4 - angle.Angle(p.side)*l.Angle()) / 2).Tan() * p.scale
	}
	outer, inner := radius(p.area.South), radius(p.area.North)
	if p.side < 0 {
		outer, inner = inner, outer
	}
	room := outer - r
	if inner > 0 {
		room = min(room, r-inner)
	}
	if w := p.area.width(); w < angle.Turn {
		offset := p.area.offset(at.Longitude, false)
		for _, side := range []angle.Angle{offset, w - offset} {
			if side < angle.Turn/4 {
				room = min(room, r*side.Sin())
			}
		}
	}
	return room
}
