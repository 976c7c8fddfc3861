package sailing

import (
	"math"

	"lubberline.example/angle"
)

// A vector is in the frame of the earth: x toward 0° N 0° E, y toward 90° E, z
// toward the north pole.
type vector struct{ x, y, z float64 }

// unit is the direction of a position from the middle of the sphere.
func unit(p angle.Position) vector {
	s, c := p.Latitude.Angle().SinCos()
	sl, cl := p.Longitude.Angle().SinCos()
	return vector{c * cl, c * sl, s}
}

// axes are north and east at a position.
func axes(p angle.Position) (north, east vector) {
	s, c := p.Latitude.Angle().SinCos()
	sl, cl := p.Longitude.Angle().SinCos()
	return vector{-s * cl, -s * sl, c}, vector{-sl, cl, 0}
}

func (v vector) dot(w vector) float64 { return v.x*w.x + v.y*w.y + v.z*w.z }

func (v vector) cross(w vector) vector {
	return vector{v.y*w.z - v.z*w.y, v.z*w.x - v.x*w.z, v.x*w.y - v.y*w.x}
}

func (v vector) plus(w vector) vector    { return vector{v.x + w.x, v.y + w.y, v.z + w.z} }
func (v vector) scaled(k float64) vector { return vector{k * v.x, k * v.y, k * v.z} }
func (v vector) length() float64         { return math.Sqrt(v.dot(v)) }

// flat reports whether the plane at right angles to v is that of the equator.
func (v vector) flat() bool { return math.Hypot(v.x, v.y) < 1e-15 }

// position is where a direction from the middle of the sphere meets it; at a pole
// it has the longitude given.
func (v vector) position(atPole angle.Longitude) angle.Position {
	across := math.Hypot(v.x, v.y)
	p := angle.Position{Longitude: atPole}
	if a, err := angle.Atan2(v.z, across); err == nil {
		p.Latitude, _ = angle.LatitudeFrom(a) // within the poles, as across is not negative
	}
	if across > 1e-15 {
		if a, err := angle.Atan2(v.y, v.x); err == nil {
			p.Longitude = angle.LongitudeFrom(a)
		}
	}
	return p
}
