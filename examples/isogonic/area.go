package main

import (
	"errors"
	"math"

	"lubberline.example/angle"
	"lubberline.example/wmm"
)

// An area is what the map shows, and how densely.
type area struct {
	south, north angle.Latitude
	west, east   angle.Longitude
	every        angle.Angle // between lines
}

// width is how far the area reaches eastward; from a meridian to itself is round
// the earth.
func (a area) width() angle.Angle {
	if w := a.east.Sub(a.west).Normalized(); w != 0 {
		return w
	}
	return angle.Turn
}

func (a area) check() error {
	if a.north.Angle()-a.south.Angle() < angle.Degree/10 {
		return errors.New("want the northern edge at least 0.1° north of the southern")
	}
	if a.width() < angle.Degree/10 {
		return errors.New("want the eastern edge at least 0.1° east of the western")
	}
	return nil
}

// grid looks for lines about 180 times across the area, and ends on its edges.
func (a area) grid() wmm.Grid {
	fit := func(whole angle.Angle) angle.Angle { return whole / 180 }
	return wmm.Grid{
		South: a.south, North: a.north, West: a.west, Width: a.width(),
		LatitudeStep:  fit(a.north.Angle() - a.south.Angle()),
		LongitudeStep: fit(a.width()),
	}
}

// A projection lays the area out on a sheet.
type projection struct {
	name          string
	area          area
	left, top     float64 // of the map's frame, in the sheet's units
	width, height float64
	bottom, upper float64 // ordinates of the southern and northern edge
}

// mercatorLimit is the latitude beyond which the map is not a Mercator's.
const mercatorLimit = 80

// newProjection fits the area into a frame of a width, and gives it its height.
func newProjection(a area, left, top, width, mostHeight float64) projection {
	p := projection{name: "Mercator projection", area: a, left: left, top: top, width: width}
	if math.Max(a.north.Degrees(), -a.south.Degrees()) > mercatorLimit {
		p.name = "latitude and longitude to one scale"
	}
	p.bottom, p.upper = p.ordinate(a.south), p.ordinate(a.north)
	scale := width / a.width().Degrees() // per degree of longitude
	if p.height = (p.upper - p.bottom) * scale; p.height > mostHeight {
		p.width *= mostHeight / p.height
		p.height = mostHeight
	}
	return p
}

// ordinate is how far north a latitude lies, in degrees of longitude's length.
func (p projection) ordinate(l angle.Latitude) float64 {
	if p.name != "Mercator projection" {
		return l.Degrees()
	}
	return math.Atanh(l.Angle().Sin()) * 180 / math.Pi
}

// point is where a position lies on the sheet. On the seam of a map of the whole
// earth a place lies on both edges: it is put on that to which near is nearer.
func (p projection) point(at angle.Position, near float64) (x, y float64) {
	east := at.Longitude.Sub(p.area.west).Normalized()
	whole := p.area.width()
	if east > whole+(angle.Turn-whole)/2 { // just outside, to the west
		east -= angle.Turn
	}
	x = p.left + p.width*float64(east)/float64(whole)
	if whole == angle.Turn && east == 0 && near-x > p.width/2 {
		x += p.width
	}
	y = p.top + p.height*(p.upper-p.ordinate(at.Latitude))/(p.upper-p.bottom)
	return x, y
}
