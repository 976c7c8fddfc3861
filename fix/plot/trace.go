package plot

import (
	"math"
	"slices"

	"lubberline.example/angle/drawing"
)

// hullOf returns the convex hull of some places, by the monotone chain.
func hullOf(places []ground) []ground {
	sorted := slices.Clone(places)
	slices.SortFunc(sorted, func(a, b ground) int {
		switch {
		case a.north < b.north || a.north == b.north && a.east < b.east:
			return -1
		case a == b:
			return 0
		}
		return 1
	})
	sorted = slices.Compact(sorted)
	if len(sorted) < 3 {
		return sorted
	}
	half := func(in []ground) (out []ground) {
		for _, q := range in {
			for n := len(out); n >= 2; n = len(out) {
				a, b := out[n-2], out[n-1]
				if (b.north-a.north)*(q.east-a.east)-(b.east-a.east)*(q.north-a.north) > 0 {
					break
				}
				out = out[:n-1]
			}
			out = append(out, q)
		}
		return out[:len(out)-1]
	}
	forth := half(sorted)
	slices.Reverse(sorted)
	return append(forth, half(sorted)...)
}

// A contour is a grid of cells in which the line is sought along which a quantity is zero.
type contour struct {
	columns, rows int       // of cells
	left          []float64 // at the corners of the cells
	at            func(i, j float64) drawing.Spot
	of            func(drawing.Spot) float64
}

// crossing returns where the line crosses an edge of the grid. Edge 2k goes right from corner
// k, and edge 2k+1 goes down from it.
func (g *contour) crossing(edge int) (drawing.Spot, bool) {
	k, wide := edge/2, g.columns+1
	i, j, o := float64(k%wide), float64(k/wide), k+1
	a, b := g.at(i, j), g.at(i+1, j)
	if edge%2 == 1 {
		b, o = g.at(i, j+1), k+wide
	}
	u, v := g.left[k], g.left[o]
	if !(u < 0 && v >= 0 || u >= 0 && v < 0) {
		return drawing.Spot{}, false
	}
	most := max(math.Abs(u), math.Abs(v))
	var m drawing.Spot
	w := u
	for range 24 {
		m = drawing.At((a.X+b.X)/2, (a.Y+b.Y)/2)
		if w = g.of(m); (w < 0) == (u < 0) {
			a = m
		} else {
			b = m
		}
	}
	// Where it jumps from +180° to −180° there is no line.
	return m, math.Abs(w) <= most/100
}

// paths joins the crossings of the cells to lines.
func (g *contour) paths() [][]drawing.Spot {
	c := g.crossings()
	var out [][]drawing.Spot
	done := map[int]bool{}
	walk := func(edge int) {
		if path := c.path(edge, done); len(path) > 1 {
			out = append(out, path)
		}
	}
	for _, edge := range c.order { // lines from their ends, before rings from anywhere
		if len(c.next[edge]) == 1 {
			walk(edge)
		}
	}
	for _, edge := range c.order {
		walk(edge)
	}
	return out
}

// crossings are where a line crosses the edges of a grid, and which of them it joins.
type crossings struct {
	spots map[int]drawing.Spot // by edge
	next  map[int][]int        // edges that share a cell's piece of the line
	order []int                // edges as they were found
}

// crossings goes through the cells.
func (g *contour) crossings() crossings {
	wide := g.columns + 1
	c := crossings{spots: map[int]drawing.Spot{}, next: map[int][]int{}}
	for j := range g.rows {
		for i := range g.columns {
			k := j*wide + i
			var found []int
			for _, edge := range [4]int{2 * k, 2*k + 1, 2 * (k + wide), 2*(k+1) + 1} {
				if _, known := c.spots[edge]; !known {
					s, ok := g.crossing(edge)
					if !ok {
						continue
					}
					c.spots[edge] = s
					c.order = append(c.order, edge)
				}
				found = append(found, edge)
			}
			for ; len(found) >= 2; found = found[2:] {
				a, b := found[0], found[1]
				c.next[a], c.next[b] = append(c.next[a], b), append(c.next[b], a)
			}
		}
	}
	return c
}

// path returns the line from an edge on, over edges that are not done, and back to the first
// if it is a ring. It is empty for an edge that is done.
func (c *crossings) path(edge int, done map[int]bool) (path []drawing.Spot) {
	if done[edge] {
		return nil
	}
	for begin, last := edge, -1; ; {
		done[edge] = true
		path = append(path, c.spots[edge])
		to := slices.IndexFunc(c.next[edge], func(e int) bool { return !done[e] })
		if to < 0 {
			if len(path) > 2 && last != begin && slices.Contains(c.next[edge], begin) {
				path = append(path, c.spots[begin])
			}
			return path
		}
		last, edge = edge, c.next[edge][to]
	}
}
