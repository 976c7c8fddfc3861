package plot

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/course/sailing"
	"lubberline.example/course/signs"
	"lubberline.example/fix"
)

// lineKind returns the sign of a line.
func lineKind(l fix.Line) signs.LineKind {
	switch l.Kind() {
	case fix.KindBearing, fix.KindTransit:
		return signs.BearingLine
	}
	return signs.RangeLine
}

// figures returns what is observed, without a tenth that is zero: 049°T.
func figures(l fix.Line) string {
	text := l.Observed()
	if whole, ok := strings.CutSuffix(text, ".0°T"); ok {
		return whole + "°T"
	}
	return drawing.Shortened(text, 12)
}

// clock returns a time in four figures, or an empty text.
func clock(l fix.Line) string {
	if l.Time().IsZero() {
		return ""
	}
	return l.Time().UTC().Format("1504")
}

// many is a number of lines from which on texts are short.
const many = 5

// lineTexts returns the time and the direction along a line. In the close-up the number of the
// legend stands before.
func (p *plot) lineTexts(i int, closeUp bool) (time, direction string) {
	l := p.lines[i]
	time, direction = clock(l), figures(l)
	switch {
	case closeUp && len(p.lines) >= many:
		return "", fmt.Sprint(i + 1)
	case closeUp:
		return "", fmt.Sprintf("%d: %s", i+1, direction)
	}
	if _, _, moved := l.Original(); moved && time != "" {
		time += "–" + p.fix.Time().UTC().Format("1504")
		if len(p.lines) >= many { // the bearing stands on the original line
			return "", time
		}
	}
	return p.together(time, direction)
}

// together joins the texts of a line if there are many lines, so that they take one place. The
// time of the fix stands at the fix or above the overview, and is left out.
func (p *plot) together(time, direction string) (string, string) {
	if len(p.lines) >= many {
		if t := p.fix.Time(); !t.IsZero() && time == t.UTC().Format("1504") && !p.disagree {
			time = ""
		}
		return "", strings.TrimSpace(time + " " + direction)
	}
	return time, direction
}

// positionLines draws all lines in a panel, those that were transferred also where they were
// observed.
func (p *plot) positionLines(c *panel, closeUp bool) {
	trace := p.tracer(c)
	for i, l := range p.lines {
		sign := signs.Line{Kind: lineKind(l)}
		sign.Time, sign.Direction = p.lineTexts(i, closeUp)
		target := c.spot(ground{})
		if original, run, ok := l.Original(); ok {
			p.original(c, trace, i, original, run)
			sign.Kind = signs.TransferredLine
		}
		sign.Path = p.part(c, trace(l, p.turns[i]), l, target, closeUp)
		if n := len(sign.Path); closeUp && len(p.lines) >= many && n > 4 { // lines are apart at their ends
			c.labels.Add(drawing.Label{Text: sign.Direction, Along: sign.Path[n*5/8:], Gap: 0.7, Size: p.letters(2.4), Attributes: `font-weight="bold"`})
			sign.Direction = ""
		}
		p.draw(fmt.Sprintf("line-%d", i+1), sign)
	}
}

// draw draws a line in a group of a class. If there are many lines, its texts are smaller than
// those of the pen.
func (p *plot) draw(class string, sign signs.Line) {
	if len(sign.Path) < 2 {
		return
	}
	if text := sign.Direction; len(p.lines) >= many && text != "" {
		p.pen.Labels.Add(drawing.Label{Text: text, Along: sign.Path, Gap: 1.1, Size: p.letters(2.2)})
		sign.Time, sign.Direction = "", ""
	}
	p.Put(`<g class="%s">`, class)
	p.pen.Line(sign)
	p.Put("</g>")
}

// original draws a line where it was observed, and the run from there to the transferred line.
func (p *plot) original(c *panel, trace tracer, i int, l fix.Line, run sailing.Run) {
	back := sailing.Run{Course: run.Course.Reciprocal(), Distance: run.Distance}
	from, err := sailing.WGS84().Follow(p.fix.Position(), back)
	if err != nil { // over the pole
		return
	}
	g, ok := p.onPlane(from)
	if !ok {
		return
	}
	start, end := c.spot(g), c.spot(ground{})
	if !c.Holds(start) {
		return
	}
	sign := signs.Line{Kind: lineKind(l)}
	sign.Time, sign.Direction = p.together(clock(l), figures(l))
	sign.Path = p.part(c, trace(l, p.turns[i]), l, start, false)
	p.draw(fmt.Sprintf("original-%d", i+1), sign)
	text := fmt.Sprintf("%.0f %s", run.Course, miles(run.Distance))
	if distance(start, end) > 4 && !slices.Contains(c.runs, text) {
		c.runs = append(c.runs, text)
		track := signs.Line{Kind: signs.GroundTrack, Path: []drawing.Spot{start, end}, Direction: text}
		if len(p.lines) >= many { // the legend has it
			track.Direction = ""
		}
		p.draw("run", track)
	}
}

// miles returns a distance in miles, or in metres if it is short.
func miles(d sailing.Distance) string {
	if d < 0.1*sailing.NauticalMile {
		return fmt.Sprintf("%.0f m", d.Metres())
	}
	return fmt.Sprintf("%.1f M", d.NauticalMiles())
}

// part returns the part of a traced line that is drawn: about a target, and of a bearing from
// its mark on.
func (p *plot) part(c *panel, paths [][]drawing.Spot, l fix.Line, target drawing.Spot, closeUp bool) []drawing.Spot {
	path := nearestPath(paths, target)
	if len(path) < 2 {
		return nil
	}
	const all = 1e6
	if l.Kind() == fix.KindBearing { // from the mark on
		s := c.spot(p.markPlace(l.Marks()[0]))
		if distance(path[0], s) > distance(path[len(path)-1], s) {
			slices.Reverse(path)
		}
	}
	if closeUp {
		return trimmed(path, target, all, all)
	}
	reach := 28.0
	for _, o := range p.fix.Alternatives() {
		if s, ok := p.spotOf(c, o); ok {
			reach = max(reach, distance(s, target)+10)
		}
	}
	if l.Kind() != fix.KindBearing {
		return trimmed(path, target, reach, reach)
	}
	return trimmed(path, target, all, max(20, 50-distance(path[0], target)))
}

// markPlace returns where a mark is drawn, or lies beyond the drawing. A mark on the other half of the
// earth counts as far off in its direction.
func (p *plot) markPlace(m fix.Mark) ground {
	if g, ok := p.onPlane(m.Position); ok {
		return g
	}
	const far = 1e8
	sin, cos := sailing.WGS84().Rhumb(p.fix.Position(), m.Position).Course.FromNorth().SinCos()
	return ground{far * cos, far * sin}
}

// nearestPath returns the line that passes nearest to a spot.
func nearestPath(paths [][]drawing.Spot, target drawing.Spot) []drawing.Spot {
	var best []drawing.Spot
	least := math.Inf(1)
	for _, path := range paths {
		for _, s := range path {
			if d := distance(s, target); d < least {
				best, least = path, d
			}
		}
	}
	return slices.Clone(best)
}

// trimmed returns the part of a line that begins a length before the spot nearest to a target,
// and ends a length after it. A ring is opened opposite the target.
func trimmed(path []drawing.Spot, target drawing.Spot, before, after float64) []drawing.Spot {
	nearest := func() int {
		best := 0
		for i, s := range path {
			if distance(s, target) < distance(path[best], target) {
				best = i
			}
		}
		return best
	}
	n := len(path) - 1
	if n > 3 && path[0] == path[n] {
		ring, middle := path[:n], nearest()
		turned := make([]drawing.Spot, 0, n)
		for i := range n {
			turned = append(turned, ring[(middle+n/2+i)%n])
		}
		path = turned
	}
	middle := nearest()
	from, to := middle, middle
	for length := 0.0; from > 0 && length < before; from-- {
		length += distance(path[from], path[from-1])
	}
	for length := 0.0; to < len(path)-1 && length < after; to++ {
		length += distance(path[to], path[to+1])
	}
	return path[from : to+1]
}

// A tracer returns the lines on which the residual of a line is zero, if it is drawn turned by some
// radians.
type tracer func(l fix.Line, turn float64) [][]drawing.Spot

// tracer returns a tracer for a panel. It reckons the positions of the grid once.
func (v *view) tracer(c *panel) tracer {
	columns, rows := int((c.Right-c.Left)/cell)+1, int((c.Bottom-c.Top)/cell)+1
	at := func(i, j float64) drawing.Spot { return drawing.At(c.Left+i*cell, c.Top+j*cell) }
	corners := make([]angle.Position, 0, (columns+1)*(rows+1))
	for j := range rows + 1 {
		for i := range columns + 1 {
			corners = append(corners, v.position(c.ground(at(float64(i), float64(j)))))
		}
	}
	left := make([]float64, len(corners))
	return func(l fix.Line, turn float64) [][]drawing.Spot {
		of := func(q angle.Position) float64 {
			left := l.Residual(q).Value
			if turn != 0 {
				left = math.Remainder(left+turn, 2*math.Pi)
			}
			return left
		}
		for k, q := range corners {
			left[k] = of(q)
		}
		g := contour{columns: columns, rows: rows, left: left, at: at, of: func(s drawing.Spot) float64 { return of(v.position(c.ground(s))) }}
		var inside [][]drawing.Spot
		for _, path := range g.paths() {
			inside = append(inside, within(path, c.Grown(-1))...)
		}
		return inside
	}
}

// within returns the parts of a line that lie in a box. The grid goes a little beyond it.
func within(path []drawing.Spot, b drawing.Box) (out [][]drawing.Spot) {
	var part []drawing.Spot
	for _, s := range path {
		if b.Holds(s) {
			part = append(part, s)
			continue
		}
		if len(part) > 1 {
			out = append(out, part)
		}
		part = nil
	}
	if len(part) > 1 {
		out = append(out, part)
	}
	return out
}
