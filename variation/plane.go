package variation

import (
	"math"
	"slices"

	"lubberline.example/angle"
)

// A plane lays a chart's roses out flat: north is latitude, east is longitude
// from the first rose times the cosine of the middle latitude, in degrees.
type plane struct {
	origin angle.Longitude
	scale  float64
	points []point
	reason string // why the roses can't be laid out, or ""
}

type point struct{ east, north float64 }

func (a point) minus(b point) point { return point{a.east - b.east, a.north - b.north} }
func (a point) dot(b point) float64 { return a.east*b.east + a.north*b.north }

// cross is exactly nought for a point and itself, on every machine: the conversions keep
// a processor from fusing a product with the difference, where only one would be rounded.
func (a point) cross(b point) float64 {
	return float64(a.east*b.north) - float64(a.north*b.east)
}

func newPlane(roses []ChartRose) plane {
	pl := plane{origin: roses[0].Position.Longitude}
	south, north := roses[0].Position.Latitude.Angle(), roses[0].Position.Latitude.Angle()
	var west, east angle.Angle
	for _, r := range roses {
		lat := r.Position.Latitude.Angle()
		d := r.Position.Longitude.Sub(pl.origin)
		south, north = min(south, lat), max(north, lat)
		west, east = min(west, d), max(east, d)
	}
	switch {
	case max(north, -south) > 85*angle.Degree:
		pl.reason = "roses beyond 85° of latitude are not blended"
	case east-west > 90*angle.Degree:
		pl.reason = "roses more than 90° of longitude apart are not blended"
	}
	pl.scale = ((south + north) / 2).Cos()
	for _, r := range roses {
		pl.points = append(pl.points, pl.point(r.Position))
	}
	return pl
}

func (pl plane) point(p angle.Position) point {
	return point{p.Longitude.Sub(pl.origin).Degrees() * pl.scale, p.Latitude.Degrees()}
}

// barycentric returns the shares of a triangle's corners in a point.
func (pl plane) barycentric(t [3]int, p point) (u, v, w float64) {
	a, b, c := pl.points[t[0]], pl.points[t[1]], pl.points[t[2]]
	whole := b.minus(a).cross(c.minus(a))
	u = b.minus(p).cross(c.minus(p)) / whole
	v = c.minus(p).cross(a.minus(p)) / whole
	return u, v, 1 - u - v
}

// delaunay returns the triangles whose circumscribed circles hold no other
// rose, by trying them all: charts have a handful of roses. Of triangles that
// overlap because four roses lie on one circle, the first stays: with both the
// answer would jump where they meet others.
func (pl plane) delaunay() [][3]int {
	var triangles [][3]int
	n := len(pl.points)
	if pl.reason != "" {
		return nil
	}
	for i := range n {
		for j := i + 1; j < n; j++ {
			for k := j + 1; k < n; k++ {
				t := [3]int{i, j, k}
				if pl.isDelaunay(i, j, k) && !slices.ContainsFunc(triangles, func(u [3]int) bool { return pl.overlap(t, u) }) {
					triangles = append(triangles, t)
				}
			}
		}
	}
	return triangles
}

// overlap reports whether two triangles that hold none of each other's corners
// have more than an edge in common: whether an edge crosses an edge.
func (pl plane) overlap(t, u [3]int) bool {
	for i := range 3 {
		for j := range 3 {
			a, b := pl.points[t[i]], pl.points[t[(i+1)%3]]
			c, d := pl.points[u[j]], pl.points[u[(j+1)%3]]
			ab, cd := b.minus(a), d.minus(c)
			if ab.cross(c.minus(a))*ab.cross(d.minus(a)) < 0 && cd.cross(a.minus(c))*cd.cross(b.minus(c)) < 0 {
				return true
			}
		}
	}
	return false
}

func (pl plane) isDelaunay(i, j, k int) bool {
	a, b, c := pl.points[i], pl.points[j], pl.points[k]
	whole := b.minus(a).cross(c.minus(a))
	longest2 := max(b.minus(a).dot(b.minus(a)), c.minus(a).dot(c.minus(a)), c.minus(b).dot(c.minus(b)))
	if math.Abs(whole) < 1e-9*longest2 {
		return false // in one line
	}
	for m, p := range pl.points {
		if m == i || m == j || m == k {
			continue
		}
		// The determinant that is positive inside the circle of a triangle
		// taken anticlockwise.
		pa, pb, pc := a.minus(p), b.minus(p), c.minus(p)
		inside := pa.dot(pa)*pb.cross(pc) - pb.dot(pb)*pa.cross(pc) + pc.dot(pc)*pa.cross(pb)
		if inside*whole > 1e-12*whole*whole*longest2 {
			return false
		}
	}
	return true
}
