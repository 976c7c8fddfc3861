package wmm

import (
	"math"

	"lubberline.example/angle"
)

// An Isogonic is a line of equal variation in a region. Each of its pieces runs between
// edges of the region or poles, or is closed: its first place is then also its last.
type Isogonic struct {
	D     angle.Angle        `json:"declination"` // east positive, in (−180°, 180°]; 0 is the agonic line
	Lines [][]angle.Position `json:"lines"`       // empty if the region has no such place
}

// maxLevels is the maximum number of levels.
const maxLevels = 10_000

// Levels returns from, from+step, and so on, up to at most to. For example,
// Levels(-30*angle.Degree, 30*angle.Degree, 5*angle.Degree) returns 13 angles. It returns
// nil if step is not positive, or if from is greater than to. It also returns nil if an
// angle is beyond ±360°, or if there would be more than ten thousand angles.
func Levels(from, to, step angle.Angle) []angle.Angle {
	if step <= 0 || from < -angle.Turn || to > angle.Turn || from > to || (to-from)/step >= maxLevels {
		return nil
	}
	levels := make([]angle.Angle, (to-from)/step+1)
	for i := range levels {
		levels[i] = from + angle.Angle(i)*step
	}
	return levels
}

// Isogonics returns the lines of equal variation in a region, in the order of levels. A
// finer grid finds more: a line that enters and leaves a cell by the same side is missed.
// Each place is on its line to a ten-millionth of a degree. Between places the line is
// straight.
//
// Lines may cross the date line, and the variation may pass ±180°. Lines end at the dip
// poles, which have no declination, and at the geographic poles, which have all. A grid
// 360° wide goes round the whole earth.
//
// If the grid is invalid or has more than ten million places, Isogonics returns an [*Error]. If the
// height is invalid, it returns an [*angle.RangeError].
func (e *Evaluator) Isogonics(g Grid, levels ...angle.Angle) ([]Isogonic, error) {
	t, err := e.newTracer(g)
	if err != nil {
		return nil, err
	}
	all := make([]Isogonic, len(levels))
	for i, level := range levels {
		all[i].D = level.NormalizedSigned()
		if all[i].Lines, err = t.trace(all[i].D); err != nil {
			return nil, err
		}
	}
	return all, nil
}

// maxPlaces is the maximum size of a tracer's grid, which stays in memory.
const maxPlaces = 10_000_000

// A tracer follows isogonics over a grid. It finds the line of declination L where
// Y cos L = X sin L and X cos L + Y sin L is positive.
type tracer struct {
	evaluator     *Evaluator
	grid          Grid
	rows, columns int
	closed        bool // the grid goes round the earth
	fields        []Field
}

// newTracer computes the fields of a grid.
func (e *Evaluator) newTracer(g Grid) (*tracer, error) {
	rows, columns, err := g.size()
	if err != nil {
		return nil, err
	}
	if g.Width == angle.Turn {
		// The grid goes round the earth. If the steps fit, its last meridian is the first
		// one again.
		if g.Width%g.LongitudeStep == 0 {
			columns--
		}
	}
	if rows < 2 || columns < 2 || rows > maxPlaces/columns {
		return nil, badGrid("the grid has %d parallels and %d meridians; lines need at least 2 of each, and at most %d places in all", rows, columns, maxPlaces)
	}
	t := &tracer{evaluator: e, grid: g, rows: rows, columns: columns, closed: g.Width == angle.Turn}
	t.fields = make([]Field, 0, rows*columns)
	err = e.Rows(g, func(r Row) error {
		t.fields = append(t.fields, r.Fields[:columns]...)
		return nil
	})
	return t, err
}

// at returns the field at a place of the grid. After the last column comes the first.
func (t *tracer) at(row, column int) Field {
	return t.fields[row*t.columns+column%t.columns]
}

// position returns the position of a place of the grid.
func (t *tracer) position(row, column int) angle.Position {
	return angle.Position{Latitude: t.grid.latitude(row), Longitude: t.grid.longitude(column % t.columns)}
}

// width returns the width of the cells of a column. In a grid that goes round the earth, the
// last column may be narrower than the others.
func (t *tracer) width(column int) angle.Angle {
	return (t.grid.longitude((column+1)%t.columns).Angle() - t.grid.longitude(column).Angle()).Normalized()
}

// A direction is a declination, as its sine and cosine.
type direction struct{ sin, cos float64 }

// across is zero where the declination is d, or opposite to d. ahead is positive where it is
// d, and negative where it is opposite.
func (d direction) across(f Field) float64 { return f.Y*d.cos - f.X*d.sin }
func (d direction) ahead(f Field) float64  { return f.X*d.cos + f.Y*d.sin }

// side reports on which side of the line a field is. A place on the line counts as true.
func (d direction) side(f Field) bool { return d.across(f) >= 0 }

// A crossing is a place where a line crosses a side of a cell.
type crossing struct {
	position angle.Position
	ahead    bool  // on the line, not on that of the opposite declination
	links    []int // the neighbours along the line, by index; at most two
}

// trace finds the crossings of one line, links them in each cell, and follows the links.
func (t *tracer) trace(level angle.Angle) ([][]angle.Position, error) {
	var d direction
	d.sin, d.cos = level.SinCos()
	found := map[int]int{} // index of the crossing on a side, by the number of the side
	var crossings []crossing
	cross := func(row, column, toRow, toColumn int) (int, error) {
		side := 2 * (row*t.columns + column%t.columns)
		if toRow > row {
			side++
		}
		if i, ok := found[side]; ok {
			return i, nil
		}
		c, err := t.cross(d, row, column, toRow, toColumn)
		if err != nil {
			return 0, err
		}
		crossings = append(crossings, c)
		found[side] = len(crossings) - 1
		return len(crossings) - 1, nil
	}
	link := func(a, b int) error {
		switch ca, cb := &crossings[a], &crossings[b]; {
		case ca.ahead && cb.ahead:
			ca.links = append(ca.links, b)
			cb.links = append(cb.links, a)
		case ca.ahead || cb.ahead:
			// Between the two crossings the declination turns to its opposite, so there is a
			// dip pole.
			if cb.ahead {
				a, b = b, a
			}
			pole, ok, err := t.dipPole(crossings[a].position, crossings[b].position)
			if err != nil || !ok {
				return err
			}
			crossings = append(crossings, crossing{position: pole, ahead: true, links: []int{a}})
			crossings[a].links = append(crossings[a].links, len(crossings)-1)
		}
		return nil
	}
	cells := t.columns - 1
	if t.closed {
		cells = t.columns
	}
	for row := range t.rows - 1 {
		for column := range cells {
			if err := t.cell(d, row, column, cross, link); err != nil {
				return nil, err
			}
		}
	}
	return follow(crossings), nil
}

// cell finds and links the crossings on the sides of one cell.
func (t *tracer) cell(d direction, row, column int, cross func(row, column, toRow, toColumn int) (int, error), link func(a, b int) error) error {
	south, north, west, east := row, row+1, column, column+1
	sw, se := d.side(t.at(south, west)), d.side(t.at(south, east))
	nw, ne := d.side(t.at(north, west)), d.side(t.at(north, east))
	if sw == se && nw == ne && sw == nw {
		return nil
	}
	var found []int // anticlockwise, from the south side
	for _, side := range [4]struct {
		crossed               bool
		row, column, toR, toC int
	}{
		{sw != se, south, west, south, east},
		{se != ne, south, east, north, east},
		{nw != ne, north, west, north, east},
		{sw != nw, south, west, north, west},
	} {
		if !side.crossed {
			continue
		}
		i, err := cross(side.row, side.column, side.toR, side.toC)
		if err != nil {
			return err
		}
		found = append(found, i)
	}
	if len(found) == 2 {
		return link(found[0], found[1])
	}
	// The line crosses all four sides, in two pieces. The field in the middle of the cell
	// decides which crossings belong together.
	middle := angle.Position{
		Latitude:  angle.Must(angle.LatitudeFrom((t.grid.latitude(south).Angle() + t.grid.latitude(north).Angle()) / 2)),
		Longitude: t.grid.longitude(west).Add(t.width(west) / 2),
	}
	f, err := t.evaluator.Field(middle, t.grid.HeightMetres)
	if err != nil {
		return err
	}
	// If the middle is on the side of the south-west corner, the pieces cut off the corners
	// in the south-east and the north-west.
	pairs := [2][2]int{{0, 3}, {1, 2}}
	if d.side(f) == sw {
		pairs = [2][2]int{{0, 1}, {2, 3}}
	}
	for _, p := range pairs {
		if err := link(found[p[0]], found[p[1]]); err != nil {
			return err
		}
	}
	return nil
}

// exact is the precision of a crossing, as an angle.
const exact = angle.Degree / 10_000_000

// cross finds where a line crosses the side between two neighbouring places of the grid.
func (t *tracer) cross(d direction, row, column, toRow, toColumn int) (crossing, error) {
	start := t.position(row, column)
	span := t.grid.LatitudeStep
	along := func(a angle.Angle) angle.Position {
		p := start
		p.Latitude = angle.Must(angle.LatitudeFrom(start.Latitude.Angle() + a))
		return p
	}
	if toColumn > column {
		span = t.width(column)
		along = func(a angle.Angle) angle.Position {
			p := start
			p.Longitude = start.Longitude.Add(a)
			return p
		}
	}
	// The false position method (regula falsi), with the Illinois modification.
	a, b := angle.Angle(0), span
	fa, fb := d.across(t.at(row, column)), d.across(t.at(toRow, toColumn))
	var field Field
	position := along(a)
	for range 60 {
		m := a + angle.Angle(math.Round(float64(b-a)*fa/(fa-fb)))
		var err error
		position = along(m)
		if field, err = t.evaluator.Field(position, t.grid.HeightMetres); err != nil {
			return crossing{}, err
		}
		fm := d.across(field)
		if fm == 0 || (b-a).Abs() <= exact || (m-b).Abs() <= exact/10 {
			break
		}
		if fm*fb < 0 {
			a, fa = b, fb
		} else {
			fa /= 2
		}
		b, fb = m, fm
	}
	return crossing{position: position, ahead: d.ahead(field) > 0}, nil
}

// dipPole finds the place near two others where the horizontal field is zero, by Newton's
// method on X and Y. If there is no such place close by, it reports false, and the line ends
// at its last crossing.
func (t *tracer) dipPole(near, far angle.Position) (angle.Position, bool, error) {
	half := far.Longitude.Sub(near.Longitude) / 2
	p := angle.Position{
		Latitude:  angle.Must(angle.LatitudeFrom((near.Latitude.Angle() + far.Latitude.Angle()) / 2)),
		Longitude: near.Longitude.Add(half),
	}
	start := p
	const step = angle.Degree / 1000
	for range 30 {
		f, err := t.evaluator.Field(p, t.grid.HeightMetres)
		if err != nil {
			return p, false, err
		}
		// Central differences, which must not reach beyond the geographic poles.
		lat := min(max(p.Latitude.Angle(), -90*angle.Degree+step), 90*angle.Degree-step)
		var slope [4]Field
		for i, q := range [4][2]angle.Angle{{-step, 0}, {step, 0}, {0, -step}, {0, step}} {
			at := angle.Position{Latitude: angle.Must(angle.LatitudeFrom(lat + q[0])), Longitude: p.Longitude.Add(q[1])}
			if slope[i], err = t.evaluator.Field(at, t.grid.HeightMetres); err != nil {
				return p, false, err
			}
		}
		xLat, yLat := slope[1].X-slope[0].X, slope[1].Y-slope[0].Y
		xLon, yLon := slope[3].X-slope[2].X, slope[3].Y-slope[2].Y
		whole := xLat*yLon - xLon*yLat
		dLat := -2 * (f.X*yLon - f.Y*xLon) / whole // in steps
		dLon := -2 * (xLat*f.Y - yLat*f.X) / whole
		if !(math.Abs(dLat) < 5000 && math.Abs(dLon) < 360_000) {
			return p, false, nil
		}
		latitude, err := angle.LatitudeFrom(p.Latitude.Angle() + angle.Angle(dLat*float64(step)))
		if err != nil {
			return p, false, nil // beyond a pole
		}
		p = angle.Position{Latitude: latitude, Longitude: p.Longitude.Add(angle.Angle(dLon * float64(step)))}
		if math.Abs(dLat) < 1e-6 && math.Abs(dLon) < 1e-4 {
			close := 2 * max(t.grid.LatitudeStep, t.grid.LongitudeStep)
			return p, start.ArcTo(p) <= close, nil
		}
	}
	return p, false, nil
}

// follow joins linked crossings to lines: first those with ends, then the closed ones.
func follow(crossings []crossing) [][]angle.Position {
	var lines [][]angle.Position
	done := make([]bool, len(crossings))
	walk := func(start int) []angle.Position {
		var line []angle.Position
		for at, from := start, -1; ; {
			line = append(line, crossings[at].position)
			done[at] = true
			next := -1
			for _, l := range crossings[at].links {
				if l != from && (!done[l] || l == start && len(line) > 2) {
					next = l
					break
				}
			}
			if next < 0 {
				return line
			}
			if next == start {
				return append(line, crossings[start].position)
			}
			at, from = next, at
		}
	}
	for _, ends := range []bool{true, false} {
		for i, c := range crossings {
			if !done[i] && len(c.links) > 0 && (len(c.links) == 1) == ends {
				lines = append(lines, walk(i))
			}
		}
	}
	return lines
}
