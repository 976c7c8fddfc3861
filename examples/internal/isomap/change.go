package isomap

import (
	"math"

	"lubberline.example/angle"
	"lubberline.example/wmm"
)

// A changeLine is the lines of one annual change, in minutes east.
type changeLine struct {
	change float64
	lines  [][]angle.Position
}

// changeSteps are the spacings of lines of annual change, in minutes.
var changeSteps = []float64{0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 30, 60, 120}

// changeSpacing returns the smallest of the steps that gives at most 8 lines of annual change,
// or 5 on a narrow map.
func (s survey) changeSpacing() float64 {
	lines := 8.0
	if s.narrow {
		lines = 5
	}
	for _, step := range changeSteps {
		if s.most-s.least <= lines*step {
			return step
		}
	}
	return changeSteps[len(changeSteps)-1]
}

// changeCells is the number of cells of the grid for the annual change, each way.
const changeCells = 72

// A changeGrid holds the annual change in minutes east at the corners of cells. It is NaN where a
// compass is of no use.
type changeGrid struct {
	area   Area
	values [changeCells + 1][changeCells + 1]float64
}

// changeLines returns the lines of equal annual change.
func (a Area) changeLines(e *wmm.Evaluator, s survey) ([]changeLine, error) {
	if !s.changeKnown {
		return nil, nil
	}
	g := &changeGrid{area: a}
	for i := range changeCells + 1 {
		for j := range changeCells + 1 {
			f, rates, err := e.FieldAndRates(g.at(float64(i), float64(j)), 0)
			if err != nil {
				return nil, err
			}
			if g.values[i][j] = 60 * rates.D(f); f.Zone() == wmm.BlackoutZone {
				g.values[i][j] = math.NaN()
			}
		}
	}
	var all []changeLine
	step := s.changeSpacing()
	for n := math.Ceil(s.least / step); n <= math.Floor(s.most/step); n++ {
		if lines := g.trace(n * step); len(lines) > 0 {
			all = append(all, changeLine{n * step, lines})
		}
	}
	return all, nil
}

// at returns the position of a place of the grid, in cells from its south-western corner.
func (g *changeGrid) at(up, across float64) angle.Position {
	part := func(whole angle.Angle, cells float64) angle.Angle {
		return angle.Angle(math.Round(float64(whole) / changeCells * cells))
	}
	return angle.Position{
		Latitude:  angle.Must(angle.LatitudeFrom(min(g.area.South.Angle()+part(g.area.height(), up), g.area.North.Angle()))),
		Longitude: g.area.West.Add(part(g.area.width(), across)),
	}
}

// An edge is a side of a cell: from a corner to the one north of it, or to the one east of it.
type edge struct {
	up, across int
	north      bool
}

// trace returns the lines of one level.
func (g *changeGrid) trace(level float64) [][]angle.Position {
	links := map[edge][]edge{}
	var order []edge // for lines in the same order every time
	link := func(a, b edge) {
		for _, e := range []edge{a, b} {
			if links[e] == nil {
				order = append(order, e)
			}
		}
		links[a], links[b] = append(links[a], b), append(links[b], a)
	}
	for i := range changeCells {
		for j := range changeCells {
			if found := g.crossed(level, i, j); len(found) == 2 {
				link(found[0], found[1])
			} else if len(found) == 4 {
				// The mean of the corners decides which crossings belong together.
				mean := (g.values[i][j] + g.values[i][j+1] + g.values[i+1][j] + g.values[i+1][j+1]) / 4
				if (mean > level) == (g.values[i][j] > level) {
					link(found[0], found[1])
					link(found[2], found[3])
				} else {
					link(found[0], found[3])
					link(found[1], found[2])
				}
			}
		}
	}
	var lines [][]angle.Position
	done := map[edge]bool{}
	for _, ends := range []bool{true, false} { // first the lines with ends, then the closed ones
		for _, start := range order {
			if done[start] || (len(links[start]) == 1) != ends {
				continue
			}
			var line []angle.Position
			at, more := start, true
			for more {
				done[at], more = true, false
				line = append(line, g.crossing(level, at))
				for _, next := range links[at] {
					if !done[next] {
						at, more = next, true
						break
					}
				}
			}
			if !ends {
				line = append(line, line[0])
			}
			lines = append(lines, line)
		}
	}
	return lines
}

// crossed returns the sides of a cell that a level crosses, anticlockwise from the south side. A
// cell with an unknown corner has none.
func (g *changeGrid) crossed(level float64, i, j int) (found []edge) {
	sw, se, nw, ne := g.values[i][j], g.values[i][j+1], g.values[i+1][j], g.values[i+1][j+1]
	if math.IsNaN(sw + se + nw + ne) {
		return nil
	}
	for _, side := range []struct {
		from, to float64
		edge
	}{{sw, se, edge{i, j, false}}, {se, ne, edge{i, j + 1, true}}, {nw, ne, edge{i + 1, j, false}}, {sw, nw, edge{i, j, true}}} {
		if (side.from > level) != (side.to > level) {
			found = append(found, side.edge)
		}
	}
	return found
}

// crossing returns where a level crosses a side of a cell.
func (g *changeGrid) crossing(level float64, e edge) angle.Position {
	from := g.values[e.up][e.across]
	if e.north {
		return g.at(float64(e.up)+(level-from)/(g.values[e.up+1][e.across]-from), float64(e.across))
	}
	return g.at(float64(e.up), float64(e.across)+(level-from)/(g.values[e.up][e.across+1]-from))
}
