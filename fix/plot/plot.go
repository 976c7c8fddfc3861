package plot

import (
	"fmt"
	"math"
	"slices"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
	"lubberline.example/fix"
	"lubberline.example/fix/internal/earth"
)

// Measures of a drawing that fits on A4 upright, mm.
const (
	bodyLeft, bodyRight = 0.0, 182.0
	bodyHeight          = 255.5
)

const (
	maxLines = 24          // lines drawn
	maxReach = 600 * 1852. // metres; marks farther off do not make the chart smaller
	cell     = 1.25        // millimetres between the points where lines are sought
)

// Options say how a fix is drawn. The zero value draws it with a title of its own.
type Options struct {
	Title string // if empty, "Fix" or "Estimated position"
}

// Fix draws a fix. The overview has the marks, the position lines and other
// places where they meet. The close-up has the fix, the cocked hat and the 95 % ellipse.
// If the lines do not agree, there is no ellipse and no symbol of a fix, and the heading says
// so instead of the position. The plane of the drawing touches the earth at the fix. Only the
// first 24 lines are drawn.
//
// Fix returns an [*fix.Error] for a Fix that [fix.Solve] did not return.
func Fix(f fix.Fix, options Options) (*drawing.Sheet, error) {
	p := newPlot(f)
	if len(p.lines) == 0 && p.options.Prior == nil {
		return nil, &fix.Error{Kind: fix.InvalidInput, Reason: "there is nothing to draw: give a fix that Solve returned"}
	}
	name := "Fix"
	if p.estimated {
		name = "Estimated position"
	}
	title := working.OneLine(options.Title)
	if title == "" {
		title = name
	}
	what := fmt.Sprintf("%s at %s from position lines: %d.", name, p.text("position"), len(p.all))
	where, style := p.text("position"), `font-size="4"`
	if p.disagree {
		what = fmt.Sprintf("No fix: the lines do not agree. Position lines: %d.", len(p.all))
		where, style = "NO FIX: the lines do not agree", `font-size="5" font-weight="bold"`
	}
	if t := f.Time(); !t.IsZero() {
		where += ", " + t.UTC().Format("2 January 2006 15:04 UTC")
	}
	p.Sheet = drawing.New(bodyRight, bodyHeight, drawing.Shortened(title, 80), what+" Above the overview, north up; below the close-up of the fix.")
	p.Caution(working.Caution)
	p.Text(drawing.At(bodyLeft, 4), style, where)
	p.overview()
	p.closeUp()
	p.legend()
	p.foot()
	return p.Sheet, nil
}

// A plot is a sheet with what is drawn on it.
type plot struct {
	*drawing.Sheet
	fix       fix.Fix
	options   fix.Options
	sheet     working.Sheet // of the fix
	residuals []fix.Residual
	disagree  bool // whether the lines do not agree, so that there is no fix
	estimated bool // whether the lines alone give no position

	at        earth.Frame // at the fix
	all       []fix.Line
	lines     []fix.Line // drawn
	turns     []float64  // radians by which each is drawn turned, for the compass error that was solved for
	hat       []ground
	hull      []ground        // the part of the hat that is drawn
	ellipse   sailing.Ellipse // zero if unknown
	off       []string        // marks off the chart
	elsewhere bool            // whether other places are drawn
}

// newPlot collects what is drawn of a fix.
func newPlot(f fix.Fix) *plot {
	p := &plot{fix: f, options: f.Options(), sheet: f.Working(), residuals: f.Residuals(), all: f.Lines(), at: earth.FrameAt(earth.Upright(f.Position()))}
	p.lines = p.all[:min(len(p.all), maxLines)]
	p.disagree = slices.ContainsFunc(p.sheet.Warnings, func(w working.Warning) bool { return w.Kind == fix.LinesDisagree })
	p.estimated = p.options.Prior != nil && f.DegreesOfFreedom() < 2
	corners, _ := f.Hat()
	for _, c := range corners {
		if g, ok := p.onPlane(c.Position); ok && c.A < maxLines && c.B < maxLines {
			p.hat = append(p.hat, g)
		}
	}
	if e, err := f.Ellipse(0.95); err == nil && !p.disagree {
		p.ellipse = e
	}
	p.turns = make([]float64, len(p.lines))
	for i, l := range p.lines {
		// The offset is that of the line as it is drawn. If it is not the line's own, the
		// compass error that was solved for turns the line.
		own := l.Residual(f.Position())
		if r := p.residuals[i]; p.options.CompassError && math.Abs(float64(r.Offset-own.Offset)) > 0.01 {
			p.turns[i] = r.Value - own.Value
		}
	}
	return p
}

// text returns the value of a step of the fix's working.
func (p *plot) text(key string) string {
	step, _ := p.sheet.Steps.Find(key)
	return step.Value
}

// onPlane returns where a position is drawn. It is false for the half of the earth that is
// turned away.
func (p *plot) onPlane(q angle.Position) (ground, bool) {
	north, east, ok := p.at.OnPlane(earth.Upright(q))
	return ground{north, east}, ok
}

// ground is a place in metres north and east of the fix.
type ground struct{ north, east float64 }

// A panel is a rectangle of the sheet with a part of the plane in it.
type panel struct {
	drawing.Box
	middle ground
	scale  float64 // metres to the millimetre
	taken  []drawing.Box
	along  []drawing.Spot // of the lines
	of     []int          // which line each of them is of
}

// spot returns where a place is drawn in the panel.
func (c *panel) spot(g ground) drawing.Spot {
	return drawing.At((c.Left+c.Right)/2+(g.east-c.middle.east)/c.scale, (c.Top+c.Bottom)/2-(g.north-c.middle.north)/c.scale)
}

// ground returns the place that is drawn at a spot.
func (c *panel) ground(s drawing.Spot) ground {
	return ground{c.middle.north - (s.Y-(c.Top+c.Bottom)/2)*c.scale, c.middle.east + (s.X-(c.Left+c.Right)/2)*c.scale}
}

// cost returns how bad a place for a text is.
func (c *panel) cost(b drawing.Box) int {
	cost := 0
	if !b.Within(c.Grown(-0.5)) {
		cost += 2000
	}
	for _, t := range c.taken {
		if b.Meets(t) {
			cost += 100
		}
	}
	for _, s := range c.along {
		if b.Holds(s) {
			cost++
		}
	}
	return cost
}

// beside returns where a text beside a spot begins, and the box that it fills.
func (c *panel) beside(at drawing.Spot, text string, size float64) (drawing.Spot, drawing.Box) {
	w, best, least := size*drawing.TextWidth(text), drawing.Spot{}, math.MaxInt
	for _, d := range []float64{2.2, 4.5, 8} {
		for _, s := range []drawing.Spot{
			drawing.At(d, 0.3*size), drawing.At(-d-w, 0.3*size), drawing.At(-w/2, -d+0.3), drawing.At(-w/2, d+0.8*size),
			drawing.At(0.7*d, -0.6*d), drawing.At(0.7*d, 0.6*d+0.7*size), drawing.At(-0.7*d-w, -0.6*d), drawing.At(-0.7*d-w, 0.6*d+0.7*size),
		} {
			p := at.Moved(s.X, s.Y)
			if cost := c.cost(drawing.TextBox(p, text, size).Grown(0.3)); cost < least {
				best, least = p, cost
			}
		}
	}
	b := drawing.TextBox(best, text, size)
	c.taken = append(c.taken, b)
	return best, b
}

// lineStyles tell lines apart in black and white.
var lineStyles = [...]string{
	`stroke-width="0.4"`,
	`stroke-width="0.4" stroke-dasharray="4 1.2"`,
	`stroke-width="0.4" stroke-dasharray="5 1 0.8 1"`,
	`stroke-width="0.45" stroke-dasharray="1.2 0.9"`,
	`stroke-width="0.4" stroke-dasharray="6 0.9 0.7 0.9 0.7 0.9"`,
	`stroke-width="0.8"`,
	`stroke-width="0.7" stroke-dasharray="3 1.5"`,
}

// lineStyle returns the style of a line by its index.
func lineStyle(i int) string {
	return `fill="none" stroke="black" stroke-linejoin="round" ` + lineStyles[i%len(lineStyles)]
}

const (
	frameStyle  = `fill="none" stroke="black" stroke-width="0.3"`
	hollowStyle = `fill="white" stroke="black" stroke-width="0.4"`
)

// overview draws the marks and lines as a whole.
func (p *plot) overview() {
	c := &panel{Box: drawing.Box{Left: 20, Top: 14, Right: 180, Bottom: 130}}
	low, high := ground{}, ground{}
	include := func(g ground) {
		low = ground{min(low.north, g.north), min(low.east, g.east)}
		high = ground{max(high.north, g.north), max(high.east, g.east)}
	}
	marks := p.marks()
	for _, m := range marks {
		g, ok := p.onPlane(m.Position)
		if !ok || math.Hypot(g.north, g.east) > maxReach {
			p.off = append(p.off, m.String())
			continue
		}
		include(g)
	}
	for _, o := range p.fix.Alternatives() {
		if g, ok := p.onPlane(o); ok && math.Hypot(g.north, g.east) <= maxReach {
			include(g)
		}
	}
	if e, ok := p.estimate(); ok {
		include(e)
	}
	reach := max(high.north-low.north, high.east-low.east)
	if reach < 100 {
		reach = 2 * 1852
	}
	reach = max(reach, 4*float64(p.ellipse.SemiMajor))
	c.middle = ground{(low.north + high.north) / 2, (low.east + high.east) / 2}
	c.scale = max((high.north-low.north+0.1*reach)/(c.Bottom-c.Top-16), (high.east-low.east+0.1*reach)/(c.Right-c.Left-30), reach/(c.Right-c.Left-30))

	p.caption(c, "Overview", 1852, "M")
	p.northArrow(drawing.At(174, 8))
	p.graticule(c)
	var traced [][][]drawing.Spot
	p.Clip("overview", c.Box, func() { traced = p.trace(c) })
	p.charted(c)
	p.places(c)
	for _, m := range marks {
		if g, ok := p.onPlane(m.Position); ok && c.Holds(c.spot(g)) {
			name := drawing.Shortened(m.String(), 24)
			at, b := c.beside(c.spot(g), name, drawing.Letters)
			p.tag(b, at, name, `font-style="italic"`)
		}
	}
	for i, paths := range traced {
		p.name(c, i, fmt.Sprint(i+1), paths)
	}
	p.Rectangle(c.Box, frameStyle)
}

// takes keeps names off a symbol.
func (c *panel) takes(s drawing.Spot, r float64) {
	c.taken = append(c.taken, drawing.Around(s, r, r))
}

// marks returns the marks of the lines, each once.
func (p *plot) marks() []fix.Mark {
	var out []fix.Mark
	for i := range p.lines {
		for _, m := range p.lines[i].Marks() {
			if !slices.Contains(out, m) {
				out = append(out, m)
			}
		}
	}
	return out
}

// charted draws the marks that lie in a panel.
func (p *plot) charted(c *panel) {
	for _, m := range p.marks() {
		if g, ok := p.onPlane(m.Position); ok && c.Holds(c.spot(g)) {
			p.mark(c.spot(g))
			c.takes(c.spot(g), 1.3)
		}
	}
}

// estimate returns where the reckoned position is drawn, if it took part.
func (p *plot) estimate() (ground, bool) {
	if p.options.Prior == nil {
		return ground{}, false
	}
	return p.onPlane(p.options.Prior.Position)
}

// places draws the fix, the estimate and the other intersections.
func (p *plot) places(c *panel) {
	for _, o := range p.fix.Alternatives() {
		if g, ok := p.onPlane(o); ok && c.Holds(c.spot(g)) {
			p.elsewhere = true
			p.circle(c.spot(g), 1.3, "other", hollowStyle)
			c.takes(c.spot(g), 1.6)
		}
	}
	if g, ok := p.estimate(); ok && c.Holds(c.spot(g)) {
		p.reckoned(c.spot(g))
		c.takes(c.spot(g), 1.8)
	}
	// Lines that do not agree make no fix, so that no symbol is drawn.
	if p.disagree {
		return
	}
	p.position(c.spot(ground{}))
	c.takes(c.spot(ground{}), 2)
}

// circle draws a circle in a style.
func (p *plot) circle(s drawing.Spot, r float64, class, style string) {
	p.Put(`<circle class="%s" cx="%.2f" cy="%.2f" r="%.2f" %s/>`, class, s.X, s.Y, r, style)
}

// dot draws the symbol of a fix: a dot in a circle.
func (p *plot) dot(s drawing.Spot) {
	p.circle(s, 1.6, "fix", `fill="none" stroke="black" stroke-width="0.4"`)
	p.circle(s, 0.5, "dot", `fill="black"`)
}

// position draws the symbol of a fix, or of an estimated position.
func (p *plot) position(s drawing.Spot) {
	if p.estimated {
		p.triangle("estimated", s)
		p.circle(s, 0.4, "dot", `fill="black"`)
		return
	}
	p.dot(s)
}

// triangle draws a triangle, the symbol of an estimated position.
func (p *plot) triangle(class string, s drawing.Spot) {
	p.Polygon(class, hollowStyle, []drawing.Spot{s.Moved(0, -1.7), s.Moved(1.5, 0.9), s.Moved(-1.5, 0.9)})
}

// reckoned draws the symbol of the reckoned position: a triangle, or a cross if the triangle
// is that of the estimated position.
func (p *plot) reckoned(s drawing.Spot) {
	if !p.estimated {
		p.triangle("estimate", s)
		return
	}
	for _, d := range []float64{-1.4, 1.4} {
		p.Line(s.Moved(-1.4, d), s.Moved(1.4, -d), `class="estimate" stroke="black" stroke-width="0.4"`)
	}
}

// mark draws the symbol of a charted mark.
func (p *plot) mark(s drawing.Spot) {
	p.Polygon("mark", `fill="black"`, []drawing.Spot{s.Moved(0, -1.2), s.Moved(1.2, 0), s.Moved(0, 1.2), s.Moved(-1.2, 0)})
}

// tag writes a name on white.
func (p *plot) tag(b drawing.Box, at drawing.Spot, text, attributes string) {
	b.Left, b.Right = b.Left-0.2, b.Right+0.2
	p.Rectangle(b, `fill="white" fill-opacity="0.85"`)
	p.Text(at, attributes, text)
}

// boldWidth is the width of bold figures, in that of regular ones.
const boldWidth = 1.12

// name writes a line's number on it, or its name beside it, where it reads best.
func (p *plot) name(c *panel, line int, text string, paths [][]drawing.Spot) {
	w, best, least := boldWidth*drawing.Letters*drawing.TextWidth(text), drawing.Spot{}, math.MaxInt
	boxed := func(at drawing.Spot) drawing.Box {
		return drawing.Box{Left: at.X, Top: at.Y - 0.8*drawing.Letters, Right: at.X + w, Bottom: at.Y + 0.26*drawing.Letters}
	}
	places := []drawing.Spot{drawing.At(-w/2, 0.3*drawing.Letters)}
	if w > 8 {
		places = []drawing.Spot{drawing.At(1.2, 0.3*drawing.Letters), drawing.At(-w-1.2, 0.3*drawing.Letters), drawing.At(-w/2, -1.4), drawing.At(-w/2, 3.2)}
	}
	fixed := c.spot(ground{})
	for _, path := range paths {
		for _, s := range path {
			for _, o := range places {
				at := s.Moved(o.X, o.Y)
				cost := 2 * c.cost(boxed(at).Grown(0.6))
				// Lines are apart far from the fix.
				cost += max(0, 12-int(math.Hypot(s.X-fixed.X, s.Y-fixed.Y)/3))
				// It must not seem to belong to another line.
				wide := boxed(at).Grown(2)
				for k, q := range c.along {
					if c.of[k] != line && wide.Holds(q) {
						cost += 2
					}
				}
				if cost < least {
					best, least = at, cost
				}
			}
		}
	}
	if least >= 4000 {
		return // the line is not in the panel, or there is no room
	}
	c.taken = append(c.taken, boxed(best))
	p.tag(boxed(best), best, text, `font-weight="bold"`)
}
