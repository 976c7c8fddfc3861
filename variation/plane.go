package variation

import (
	"cmp"
	"math"
	"slices"

	"lubberline.example/angle"
)

// A plane maps a chart's roses to a plane, in degrees. North is latitude. East is
// longitude from the first rose times the cosine of the middle latitude.
type plane struct {
	origin angle.Longitude
	scale  float64
	points []point
	reason string // why the roses cannot be mapped, or ""
}

type point struct{ east, north float64 }

// minus returns the vector from b to a.
func (a point) minus(b point) point { return point{a.east - b.east, a.north - b.north} }

// dot returns the scalar product.
func (a point) dot(b point) float64 { return a.east*b.east + a.north*b.north }

// cross is exactly zero for a point and itself, on every machine. The conversions keep a
// processor from fusing one product with the difference without rounding it.
func (a point) cross(b point) float64 {
	return float64(a.east*b.north) - float64(a.north*b.east)
}

// newPlane maps the roses of a chart.
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

// point maps a position.
func (pl plane) point(p angle.Position) point {
	return point{p.Longitude.Sub(pl.origin).Degrees() * pl.scale, p.Latitude.Degrees()}
}

// barycentric returns the weights of a triangle's corners at a point.
func (pl plane) barycentric(t [3]int, p point) (u, v, w float64) {
	a, b, c := pl.points[t[0]], pl.points[t[1]], pl.points[t[2]]
	whole := b.minus(a).cross(c.minus(a))
	u = b.minus(p).cross(c.minus(p)) / whole
	v = c.minus(p).cross(a.minus(p)) / whole
	return u, v, 1 - u - v
}

// If a triangle's height over its longest side is less than sliver, it is blended along
// its two shorter sides. The printed position of a corner is too coarse there. Between
// sliver and full both ways are mixed, so that the answer does not jump if a rose moves.
const (
	sliver = 0.004
	full   = 0.015
)

// shares returns the weights of a triangle's corners at a point within it. The arguments u,
// v and w are the barycentric weights.
func (pl plane) shares(t [3]int, u, v, w float64) []part {
	weights := [3]float64{u, v, w}
	long := 0 // the corner opposite the longest side
	side2 := func(k int) float64 {
		d := pl.points[t[(k+1)%3]].minus(pl.points[t[(k+2)%3]])
		return d.dot(d)
	}
	for k := 1; k < 3; k++ {
		if side2(k) > side2(long) {
			long = k
		}
	}
	m, a, b := pl.points[t[long]], pl.points[t[(long+1)%3]], pl.points[t[(long+2)%3]]
	ab := b.minus(a)
	flat := math.Abs(ab.cross(m.minus(a))) / side2(long)
	if mix := (flat - sliver) / (full - sliver); mix < 1 {
		mix = max(mix, 0)
		foot := ab.dot(m.minus(a)) / side2(long) // of the middle corner, from 0 at a to 1 at b
		here := weights[long]*foot + weights[(long+2)%3]
		var along [3]float64
		if here <= foot {
			along[long], along[(long+1)%3] = here/foot, 1-here/foot
		} else {
			share := (1 - here) / (1 - foot)
			along[long], along[(long+2)%3] = share, 1-share
		}
		for k := range weights {
			weights[k] = mix*weights[k] + (1-mix)*along[k]
		}
	}
	return []part{{t[0], weights[0]}, {t[1], weights[1]}, {t[2], weights[2]}}
}

// line returns the roses in order along a line if all lie on one. Two roses do. More do if
// each lies within a sliver's height of the line through the two furthest apart.
func (pl plane) line() []int {
	if len(pl.points) < 2 || pl.reason != "" {
		return nil
	}
	first, last, length2 := 0, 1, -1.0
	for i, a := range pl.points {
		for j := i + 1; j < len(pl.points); j++ {
			if d := pl.points[j].minus(a); d.dot(d) > length2 {
				first, last, length2 = i, j, d.dot(d)
			}
		}
	}
	a := pl.points[first]
	ab := pl.points[last].minus(a)
	order := make([]int, len(pl.points))
	for i, p := range pl.points {
		order[i] = i
		if math.Abs(ab.cross(p.minus(a))) > sliver*length2 {
			return nil
		}
	}
	slices.SortStableFunc(order, func(i, j int) int {
		return cmp.Compare(ab.dot(pl.points[i].minus(a)), ab.dot(pl.points[j].minus(a)))
	})
	return order
}

// alongLine returns the weights of the two roses on either side of a point's foot on their
// line. If there are none, it returns the reason.
func (pl plane) alongLine(order []int, p point) (parts []part, reason string) {
	a, b := pl.points[order[0]], pl.points[order[len(order)-1]]
	ab := b.minus(a)
	length2 := ab.dot(ab)
	along := func(q point) float64 { return ab.dot(q.minus(a)) / length2 }
	t := along(p)
	if t < 0 || t > 1 {
		if len(order) == 2 {
			return nil, "beyond the two roses"
		}
		return nil, "beyond the ends of the line of the roses"
	}
	k := 1
	for k < len(order)-1 && along(pl.points[order[k]]) < t {
		k++
	}
	from, to := along(pl.points[order[k-1]]), along(pl.points[order[k]])
	off := math.Abs(ab.cross(p.minus(a)) / length2)
	switch {
	case len(order) == 2 && off > 1:
		return nil, "too far to one side of the two roses"
	case off > 1 || off > to-from && off > sliver:
		return nil, "too far to one side of the line of the roses"
	}
	share := 1.0
	if to > from {
		share = (t - from) / (to - from)
	}
	return []part{{order[k-1], 1 - share}, {order[k], share}}, ""
}

// delaunay returns the triangles whose circumscribed circles hold no other rose. It tries
// all triangles, since charts have few roses. If triangles overlap because four roses lie on
// one circle, it keeps the first; with both the answer would jump at their edges.
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

// overlap reports whether an edge of one triangle crosses an edge of the other.
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

// isDelaunay reports whether the circumscribed circle of a triangle holds no other rose.
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
