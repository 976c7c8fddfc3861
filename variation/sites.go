package variation

import (
	"math"

	"lubberline.example/angle"
)

// A site is what follows from the position of a rose alone.
type site struct {
	toward vector
	where  intensity // by the latitude
}

// newSite returns the site of a position.
func newSite(p angle.Position) site { return site{vectorTo(p), intensityByLatitude(p)} }

// A vector is the unit vector from the earth's centre to a position on the sphere.
type vector struct{ x, y, z float64 }

// vectorTo returns the vector to a position.
func vectorTo(p angle.Position) vector {
	north, equator := p.Latitude.Angle().SinCos()
	sin, cos := p.Longitude.Angle().SinCos()
	return vector{equator * cos, equator * sin, north}
}

// chordSquared returns the square of the chord between two positions. It grows with their
// arc. Its rounding error is below 1e-14.
func (a vector) chordSquared(b vector) float64 {
	x, y, z := a.x-b.x, a.y-b.y, a.z-b.z
	return x*x + y*y + z*z
}

// alike is the difference below which the squares of two chords do not tell which arc is
// longer. It is 6 m at the rose itself, and much less elsewhere.
const alike = 1e-12

// nearest returns the index of the nearest rose, the first one listed if several are at the
// same distance. It works arcs, which takes longer, only for roses whose chords are alike.
func (c *Chart) nearest(position angle.Position) int {
	here := vectorTo(position)
	index, shortest := 0, math.Inf(1)
	for i, s := range c.sites {
		if square := here.chordSquared(s.toward); square < shortest {
			index, shortest = i, square
		}
	}
	for i, s := range c.sites {
		if i == index || here.chordSquared(s.toward) > shortest+alike {
			continue
		}
		arc, least := position.ArcTo(c.roses[i].Position), position.ArcTo(c.roses[index].Position)
		if arc < least || arc == least && i < index {
			index = i
		}
	}
	return index
}
