package fix

import (
	"fmt"
	"io"
	"math"
	"slices"

	"lubberline.example/angle/drawing"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
	"lubberline.example/fix/internal/earth"
)

const (
	plotMost = 24          // lines drawn
	plotFar  = 600 * 1852. // metres, beyond which marks do not make the chart smaller
	plotCell = 1.25        // mm between the places where lines are sought
)

// WritePlot draws the fix as SVG on A4: the marks, the position lines and the other
// places where they meet, and a close-up of the fix with the cocked hat and the
// ellipse that holds the vessel in 95 cases of 100. Where the lines do not agree there is
// no ellipse, and the heading says so in the place of the position. It is drawn on the plane that
// touches the earth at the fix. The first 24 lines are drawn.
//
// It writes all or nothing. It returns a [*SolveError] for a nil writer and for a Fix that
// [Solve] did not return, and the writer's error as it is.
func (f Fix) WritePlot(w io.Writer, title string) error {
	if w == nil {
		return &SolveError{Reason: "the writer of the plot is nil: want one such as a file"}
	}
	if f.state.up.Dot(f.state.up) == 0 || len(f.residuals) != len(f.lines) || len(f.solver.lines) != len(f.lines) {
		return &SolveError{Reason: "there is nothing to draw: want a fix that Solve returned"}
	}
	if title = working.OneLine(title); title == "" {
		title = "Fix"
		if f.estimated() {
			title = "Estimated position"
		}
	}
	p := &plot{fix: f, at: earth.FrameAt(f.state.up), lines: f.solver.lines}
	p.more = max(0, len(p.lines)-plotMost)
	p.lines = p.lines[:len(p.lines)-p.more]
	p.hat = f.plotHat(p)
	if e, err := f.Ellipse(0.95); err == nil && !f.disagrees() {
		p.ellipse = e
	}
	name := "Fix"
	if f.estimated() {
		name = "Estimated position"
	}
	what := fmt.Sprintf("%s at %s from position lines: %d.", name, f.positionText(), len(f.lines))
	where, style := f.positionText(), `font-size="4"`
	if f.disagrees() {
		what = fmt.Sprintf("No fix: the lines do not agree. Position lines: %d.", len(f.lines))
		where, style = "NO FIX: the lines do not agree", `font-size="5" font-weight="bold"`
	}
	if t := f.Time(); !t.IsZero() {
		where += ", " + t.UTC().Format("2 January 2006 15:04 UTC")
	}
	p.Sheet = drawing.New(drawing.A4(), drawing.Shortened(title, 80), what+" Above all of it, north up, below the surroundings of the fix.")
	p.Text(drawing.At(drawing.A4Left, 18), `font-size="6" font-weight="bold"`, drawing.Shortened(title, 27))
	p.Text(drawing.At(drawing.A4Left, 25), style, where)
	p.overview()
	p.closeUp()
	p.legend()
	p.foot()
	_, err := p.WriteTo(w)
	return err
}

// A plot is a sheet with what is drawn on it.
type plot struct {
	*drawing.Sheet
	fix     Fix
	at      earth.Frame // at the fix
	lines   []Line      // drawn
	more    int         // not drawn
	hat     []ground
	hull    []ground        // what of the hat is drawn
	ellipse sailing.Ellipse // zero if unknown
	off     []string        // marks off the chart
	others  bool            // whether other places are drawn
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

func (c *panel) spot(g ground) drawing.Spot {
	return drawing.At((c.Left+c.Right)/2+(g.east-c.middle.east)/c.scale, (c.Top+c.Bottom)/2-(g.north-c.middle.north)/c.scale)
}

func (c *panel) ground(s drawing.Spot) ground {
	return ground{c.middle.north - (s.Y-(c.Top+c.Bottom)/2)*c.scale, c.middle.east + (s.X-(c.Left+c.Right)/2)*c.scale}
}

// cost tells how bad a place for a text is.
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

// beside finds the best place for a text beside a spot: where it begins.
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

func lineStyle(i int) string {
	return `fill="none" stroke="black" stroke-linejoin="round" ` + lineStyles[i%len(lineStyles)]
}

const (
	frameStyle  = `fill="none" stroke="black" stroke-width="0.3"`
	hollowStyle = `fill="white" stroke="black" stroke-width="0.4"`
)

// overview draws all of it.
func (p *plot) overview() {
	c := &panel{Box: drawing.Box{Left: 34, Top: 38, Right: 194, Bottom: 158}}
	low, high := ground{}, ground{}
	include := func(g ground) {
		low = ground{min(low.north, g.north), min(low.east, g.east)}
		high = ground{max(high.north, g.north), max(high.east, g.east)}
	}
	marks := p.marks()
	for _, m := range marks {
		g, ok := p.onPlane(earth.Upright(m.Position))
		if !ok || math.Hypot(g.north, g.east) > plotFar {
			p.off = append(p.off, m.String())
			continue
		}
		include(g)
	}
	for _, o := range p.fix.alternatives {
		if g, ok := p.onPlane(earth.Upright(o)); ok && math.Hypot(g.north, g.east) <= plotFar {
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
	p.northArrow(drawing.At(188, 31))
	p.graticule(c)
	var traced [][][]drawing.Spot
	p.Clip("overview", c.Box, func() { traced = p.trace(c) })
	p.charted(c)
	p.places(c)
	for _, m := range marks {
		if g, ok := p.onPlane(earth.Upright(m.Position)); ok && c.Holds(c.spot(g)) {
			name := drawing.Shortened(m.String(), 24)
			at, b := c.beside(c.spot(g), name, drawing.A4Letters)
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

// marks are those of the lines, each once.
func (p *plot) marks() []Mark {
	var out []Mark
	for i := range p.lines {
		for _, m := range p.lines[i].marks {
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
		if g, ok := p.onPlane(earth.Upright(m.Position)); ok && c.Holds(c.spot(g)) {
			p.mark(c.spot(g))
			c.takes(c.spot(g), 1.3)
		}
	}
}

// estimate is where the estimated position is, if it took part.
func (p *plot) estimate() (ground, bool) {
	if !p.fix.solver.prior.used {
		return ground{}, false
	}
	return p.onPlane(p.fix.solver.prior.frame.Up)
}

// places draws the fix, the estimate and the other intersections.
func (p *plot) places(c *panel) {
	for _, o := range p.fix.alternatives {
		if g, ok := p.onPlane(earth.Upright(o)); ok && c.Holds(c.spot(g)) {
			p.others = true
			p.circle(c.spot(g), 1.3, "other", hollowStyle)
			c.takes(c.spot(g), 1.6)
		}
	}
	if g, ok := p.estimate(); ok && c.Holds(c.spot(g)) {
		p.reckoned(c.spot(g))
		c.takes(c.spot(g), 1.8)
	}
	// Lines that do not agree make no fix, so that there is no sign of one.
	if p.fix.disagrees() {
		return
	}
	p.position(c.spot(ground{}))
	c.takes(c.spot(ground{}), 2)
}

// circle draws a circle in a style.
func (p *plot) circle(s drawing.Spot, r float64, class, style string) {
	p.Put(`<circle class="%s" cx="%.2f" cy="%.2f" r="%.2f" %s/>`, class, s.X, s.Y, r, style)
}

func (p *plot) dot(s drawing.Spot) {
	p.circle(s, 1.6, "fix", `fill="none" stroke="black" stroke-width="0.4"`)
	p.circle(s, 0.5, "dot", `fill="black"`)
}

// position draws the sign of what the lines gave: a fix, or an estimated position.
func (p *plot) position(s drawing.Spot) {
	if p.fix.estimated() {
		p.triangle("estimated", s)
		p.circle(s, 0.4, "dot", `fill="black"`)
		return
	}
	p.dot(s)
}

func (p *plot) triangle(class string, s drawing.Spot) {
	p.Polygon(class, hollowStyle, []drawing.Spot{s.Moved(0, -1.7), s.Moved(1.5, 0.9), s.Moved(-1.5, 0.9)})
}

// reckoned draws the sign of the position reckoned before the lines: a triangle, or a cross
// where the triangle is what the lines made of it.
func (p *plot) reckoned(s drawing.Spot) {
	if !p.fix.estimated() {
		p.triangle("estimate", s)
		return
	}
	for _, d := range []float64{-1.4, 1.4} {
		p.Line(s.Moved(-1.4, d), s.Moved(1.4, -d), `class="estimate" stroke="black" stroke-width="0.4"`)
	}
}

func (p *plot) mark(s drawing.Spot) {
	p.Polygon("mark", `fill="black"`, []drawing.Spot{s.Moved(0, -1.2), s.Moved(1.2, 0), s.Moved(0, 1.2), s.Moved(-1.2, 0)})
}

// tag writes a name on white.
func (p *plot) tag(b drawing.Box, at drawing.Spot, text, attributes string) {
	b.Left, b.Right = b.Left-0.2, b.Right+0.2
	p.Rectangle(b, `fill="white" fill-opacity="0.85"`)
	p.Text(at, attributes, text)
}

// boldWidth is how much wider bold figures are.
const boldWidth = 1.12

// name writes a line's number on it, or its name beside it, where it is best read.
func (p *plot) name(c *panel, line int, text string, paths [][]drawing.Spot) {
	w, best, least := boldWidth*drawing.A4Letters*drawing.TextWidth(text), drawing.Spot{}, math.MaxInt
	boxed := func(at drawing.Spot) drawing.Box {
		return drawing.Box{Left: at.X, Top: at.Y - 0.8*drawing.A4Letters, Right: at.X + w, Bottom: at.Y + 0.26*drawing.A4Letters}
	}
	places := []drawing.Spot{drawing.At(-w/2, 0.3*drawing.A4Letters)}
	if w > 8 {
		places = []drawing.Spot{drawing.At(1.2, 0.3*drawing.A4Letters), drawing.At(-w-1.2, 0.3*drawing.A4Letters), drawing.At(-w/2, -1.4), drawing.At(-w/2, 3.2)}
	}
	fixed := c.spot(ground{})
	for _, path := range paths {
		for _, s := range path {
			for _, o := range places {
				at := s.Moved(o.X, o.Y)
				cost := 2 * c.cost(boxed(at).Grown(0.6))
				// Rather far from the fix, where lines are apart.
				cost += max(0, 12-int(math.Hypot(s.X-fixed.X, s.Y-fixed.Y)/3))
				// It must not seem to be another line's.
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
		return // it has no line in the panel, or no room
	}
	c.taken = append(c.taken, boxed(best))
	p.tag(boxed(best), best, text, `font-weight="bold"`)
}
