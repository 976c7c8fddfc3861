package variation

import (
	"math"
	"math/rand/v2"
	"testing"

	"lubberline.example/angle"
)

// scatter lays points out on a plane, each a degree's latitude and longitude.
func scatter(points ...[2]float64) plane {
	var roses []ChartRose
	for _, p := range points {
		roses = append(roses, ChartRose{Position: angle.Must(angle.PositionDegrees(p[0], p[1]))})
	}
	return newPlane(roses)
}

// hullArea is the area of the convex hull, by Andrew's monotone chain.
func hullArea(points []point) float64 {
	sorted := append([]point(nil), points...)
	for i := range sorted { // by insertion
		for j := i; j > 0 && (sorted[j].east < sorted[j-1].east || sorted[j].east == sorted[j-1].east && sorted[j].north < sorted[j-1].north); j-- {
			sorted[j], sorted[j-1] = sorted[j-1], sorted[j]
		}
	}
	half := func(at func(int) point) (chain []point) {
		for i := range sorted {
			p := at(i)
			for len(chain) > 1 && chain[len(chain)-1].minus(chain[len(chain)-2]).cross(p.minus(chain[len(chain)-1])) <= 0 {
				chain = chain[:len(chain)-1]
			}
			chain = append(chain, p)
		}
		return chain[:len(chain)-1]
	}
	hull := append(half(func(i int) point { return sorted[i] }), half(func(i int) point { return sorted[len(sorted)-1-i] })...)
	area := 0.0
	for i, p := range hull {
		area += p.cross(hull[(i+1)%len(hull)]) / 2
	}
	return area
}

// The triangles cover the hull of the roses once: their areas sum to its area,
// and no place lies in two.
func TestTrianglesCoverTheRosesOnce(t *testing.T) {
	random := rand.New(rand.NewPCG(47, 19))
	var circle, grid [][2]float64
	for i := range 12 {
		s, c := math.Sincos(float64(i) * math.Pi / 6)
		circle = append(circle, [2]float64{s, c}) // at the equator, a circle on the plane
	}
	for i := range 36 {
		grid = append(grid, [2]float64{47 + float64(i/6), -19 + float64(i%6)})
	}
	layouts := map[string][][2]float64{
		"a circle": circle,
		"a grid":   grid,
		"a fan":    {{47, -19}, {46, -18}, {47, -18}, {48, -18}, {49, -18}},
	}
	for range 20 {
		var cloud, fine [][2]float64
		for range 3 + random.IntN(20) {
			cloud = append(cloud, [2]float64{20 + 60*random.Float64(), -50 + 80*random.Float64()})
			fine = append(fine, [2]float64{47 + float64(random.IntN(6))/10 + 1e-3*random.Float64(), -19 + float64(random.IntN(6))/10})
		}
		layouts["a cloud "+string(rune('a'+len(layouts)))] = cloud
		layouts["nearly a grid "+string(rune('a'+len(layouts)))] = fine
	}
	for name, points := range layouts {
		pl := scatter(points...)
		triangles := pl.delaunay()
		area := 0.0
		for _, u := range triangles {
			a, b, c := pl.points[u[0]], pl.points[u[1]], pl.points[u[2]]
			area += math.Abs(b.minus(a).cross(c.minus(a))) / 2
		}
		if want := hullArea(pl.points); math.Abs(area-want) > 1e-9*want { // triangles flatter than that are left out
			t.Errorf("%s: triangles of %v together, the hull %v", name, area, want)
		}
		for range 300 {
			i, j, k := random.IntN(len(points)), random.IntN(len(points)), random.IntN(len(points))
			u, v := random.Float64(), random.Float64()
			p := point{
				u*pl.points[i].east + (1-u)*(v*pl.points[j].east+(1-v)*pl.points[k].east),
				u*pl.points[i].north + (1-u)*(v*pl.points[j].north+(1-v)*pl.points[k].north),
			}
			within := 0
			for _, tr := range triangles {
				if u, v, w := pl.barycentric(tr, p); u > 1e-9 && v > 1e-9 && w > 1e-9 {
					within++
				}
			}
			if within > 1 {
				t.Fatalf("%s: %+v lies in %d triangles", name, p, within)
			}
		}
	}
}

// No rose lies within the circle of a triangle, measured from its centre.
func TestDelaunayCircles(t *testing.T) {
	random := rand.New(rand.NewPCG(20, 15))
	for range 50 {
		var cloud [][2]float64
		for range 3 + random.IntN(15) {
			cloud = append(cloud, [2]float64{45 + 4*random.Float64(), -21 + 4*random.Float64()})
		}
		pl := scatter(cloud...)
		for _, tr := range pl.delaunay() {
			a, b, c := pl.points[tr[0]], pl.points[tr[1]], pl.points[tr[2]]
			d := 2 * b.minus(a).cross(c.minus(a))
			ab, ac := b.minus(a), c.minus(a)
			centre := point{
				a.east + (ac.north*ab.dot(ab)-ab.north*ac.dot(ac))/d,
				a.north + (ab.east*ac.dot(ac)-ac.east*ab.dot(ab))/d,
			}
			radius := math.Sqrt(a.minus(centre).dot(a.minus(centre)))
			for _, p := range pl.points {
				if r := math.Sqrt(p.minus(centre).dot(p.minus(centre))); r < radius*(1-1e-6) { // flat triangles lose digits
					t.Fatalf("a rose at %v of the circle's radius", r/radius)
				}
			}
		}
	}
}

// With fused multiply-adds an edge would not be quite along itself, and a triangle would
// overlap its neighbour. This fails where the processor has them and cross uses them.
func TestAnEdgeIsAlongItself(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 1000 {
		p := point{r.Float64(), r.Float64()}
		if got := p.cross(p); got != 0 {
			t.Fatalf("%v: %g", p, got)
		}
	}
}
