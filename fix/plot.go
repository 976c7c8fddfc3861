package fix

import (
	"fmt"
	"io"
	"math"
	"slices"

	"lubberline.example/course/sailing"
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
// It writes all or nothing. It returns a [*SolveError] for a Fix that [Solve] did not
// return, and the writer's error as it is.
func (f Fix) WritePlot(w io.Writer, title string) error {
	if f.state.up.dot(f.state.up) == 0 || len(f.Residuals) != len(f.Lines) || len(f.solver.lines) != len(f.Lines) {
		return &SolveError{Reason: "there is nothing to draw: want a fix that Solve returned"}
	}
	if title = oneLine(title); title == "" {
		title = "Fix"
	}
	p := &plot{fix: f, at: frameAt(f.state.up), lines: f.solver.lines}
	p.more = max(0, len(p.lines)-plotMost)
	p.lines = p.lines[:len(p.lines)-p.more]
	p.hat = f.plotHat(&p.at)
	if e, err := f.Ellipse(0.95); err == nil && !f.disagrees() {
		p.ellipse = e
	}
	what := fmt.Sprintf("Fix at %v from position lines: %d.", f.Position, len(f.Lines))
	if f.disagrees() {
		what = fmt.Sprintf("No fix: the lines do not agree. Position lines: %d.", len(f.Lines))
	}
	p.svgSheet = newSVGSheet(shortened(title, 80), what+" Above all of it, north up, below the surroundings of the fix.")
	p.text(svgLeft, 18, `font-size="6" font-weight="bold"`, shortened(title, 27))
	where, style := fmt.Sprintf("%.2v", f.Position), `font-size="4"`
	if f.disagrees() {
		where, style = "NO FIX: the lines do not agree", `font-size="5" font-weight="bold"`
	}
	if t := f.Time(); !t.IsZero() {
		where += ", " + t.UTC().Format("2 January 2006 15:04 UTC")
	}
	p.text(svgLeft, 25, style, where)
	p.overview()
	p.closeUp()
	p.legend()
	p.foot()
	p.put(`</svg>`)
	_, err := w.Write(p.Bytes())
	return err
}

// A plot is a sheet with what is drawn on it.
type plot struct {
	*svgSheet
	fix     Fix
	at      frame  // at the fix
	lines   []Line // drawn
	more    int    // not drawn
	hat     []ground
	hull    []ground        // what of the hat is drawn
	ellipse sailing.Ellipse // of nought if it is not known
	off     []string        // marks off the chart
	others  bool            // whether other places are drawn
}

// ground is a place in metres north and east of the fix.
type ground struct{ north, east float64 }

// A panel is a rectangle of the sheet with a part of the plane in it.
type panel struct {
	box
	middle ground
	scale  float64 // metres to the millimetre
	taken  []box
	along  []spot // of the lines
	of     []int  // which line each of them is of
}

func (c *panel) spot(g ground) spot {
	return spot{(c.left+c.right)/2 + (g.east-c.middle.east)/c.scale, (c.top+c.bottom)/2 - (g.north-c.middle.north)/c.scale}
}

func (c *panel) ground(s spot) ground {
	return ground{c.middle.north - (s.y-(c.top+c.bottom)/2)*c.scale, c.middle.east + (s.x-(c.left+c.right)/2)*c.scale}
}

// cost tells how bad a place for a text is.
func (c *panel) cost(b box) int {
	cost := 0
	if !b.within(c.grown(-0.5)) {
		cost += 2000
	}
	for _, t := range c.taken {
		if b.meets(t) {
			cost += 100
		}
	}
	for _, s := range c.along {
		if b.holds(s) {
			cost++
		}
	}
	return cost
}

// beside finds the best place for a text beside a spot: where it begins.
func (c *panel) beside(at spot, text string, size float64) (spot, box) {
	w, best, least := size*textWidth(text), spot{}, math.MaxInt
	for _, d := range []float64{2.2, 4.5, 8} {
		for _, s := range []spot{
			{d, 0.3 * size}, {-d - w, 0.3 * size}, {-w / 2, -d + 0.3}, {-w / 2, d + 0.8*size},
			{0.7 * d, -0.6 * d}, {0.7 * d, 0.6*d + 0.7*size}, {-0.7*d - w, -0.6 * d}, {-0.7*d - w, 0.6*d + 0.7*size},
		} {
			p := spot{at.x + s.x, at.y + s.y}
			if cost := c.cost(textBox(p, text, size).grown(0.3)); cost < least {
				best, least = p, cost
			}
		}
	}
	b := textBox(best, text, size)
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
	c := &panel{box: box{34, 38, 194, 158}}
	low, high := ground{}, ground{}
	include := func(g ground) {
		low = ground{min(low.north, g.north), min(low.east, g.east)}
		high = ground{max(high.north, g.north), max(high.east, g.east)}
	}
	marks := p.marks()
	for _, m := range marks {
		g, ok := p.at.onPlane(upright(m.Position))
		if !ok || math.Hypot(g.north, g.east) > plotFar {
			p.off = append(p.off, m.String())
			continue
		}
		include(g)
	}
	for _, o := range p.fix.Others {
		if g, ok := p.at.onPlane(upright(o)); ok && math.Hypot(g.north, g.east) <= plotFar {
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
	c.scale = max((high.north-low.north+0.1*reach)/(c.bottom-c.top-16), (high.east-low.east+0.1*reach)/(c.right-c.left-30), reach/(c.right-c.left-30))

	p.caption(c, "Overview", 1852, "M")
	p.northArrow(spot{188, 31})
	p.graticule(c)
	p.clip("overview", c.box)
	traced := p.trace(c)
	p.put(`</g>`)
	for _, m := range marks {
		if g, ok := p.at.onPlane(upright(m.Position)); ok && c.holds(c.spot(g)) {
			p.mark(c.spot(g))
			c.takes(c.spot(g), 1.3)
		}
	}
	p.places(c)
	for _, m := range marks {
		if g, ok := p.at.onPlane(upright(m.Position)); ok && c.holds(c.spot(g)) {
			name := shortened(m.String(), 24)
			at, b := c.beside(c.spot(g), name, svgSmall)
			p.tag(b, at, name, `font-style="italic"`)
		}
	}
	for i, paths := range traced {
		p.name(c, i, fmt.Sprint(i+1), paths)
	}
	p.put(`<rect x="%.2f" y="%.2f" width="%.2f" height="%.2f" %s/>`, c.left, c.top, c.right-c.left, c.bottom-c.top, frameStyle)
}

// takes keeps names off a symbol.
func (c *panel) takes(s spot, r float64) {
	c.taken = append(c.taken, box{s.x - r, s.y - r, s.x + r, s.y + r})
}

// marks are those of the lines, each once.
func (p *plot) marks() []Mark {
	var out []Mark
	for i := range p.lines {
		for _, m := range p.lines[i].Marks {
			if !slices.Contains(out, m) {
				out = append(out, m)
			}
		}
	}
	return out
}

// estimate is where the estimated position is, if it took part.
func (p *plot) estimate() (ground, bool) {
	if !p.fix.solver.prior.used {
		return ground{}, false
	}
	return p.at.onPlane(p.fix.solver.prior.frame.up)
}

// places draws the fix, the estimate and the other intersections.
func (p *plot) places(c *panel) {
	for _, o := range p.fix.Others {
		if g, ok := p.at.onPlane(upright(o)); ok && c.holds(c.spot(g)) {
			p.others = true
			p.circle(c.spot(g), 1.3, "other", hollowStyle)
			c.takes(c.spot(g), 1.6)
		}
	}
	if g, ok := p.estimate(); ok && c.holds(c.spot(g)) {
		p.triangle(c.spot(g))
		c.takes(c.spot(g), 1.8)
	}
	p.dot(c.spot(ground{}))
	c.takes(c.spot(ground{}), 2)
}

func (p *plot) dot(s spot) {
	p.circle(s, 1.6, "fix", `fill="none" stroke="black" stroke-width="0.4"`)
	p.circle(s, 0.5, "dot", `fill="black"`)
}

func (p *plot) triangle(s spot) {
	p.path("polygon", "estimate", hollowStyle, []spot{{s.x, s.y - 1.7}, {s.x + 1.5, s.y + 0.9}, {s.x - 1.5, s.y + 0.9}})
}

func (p *plot) mark(s spot) {
	p.path("polygon", "mark", `fill="black"`, []spot{{s.x, s.y - 1.2}, {s.x + 1.2, s.y}, {s.x, s.y + 1.2}, {s.x - 1.2, s.y}})
}

// tag writes a name on white.
func (p *plot) tag(b box, at spot, text, attributes string) {
	p.put(`<rect x="%.2f" y="%.2f" width="%.2f" height="%.2f" fill="white" fill-opacity="0.85"/>`, b.left-0.2, b.top, b.right-b.left+0.4, b.bottom-b.top)
	p.text(at.x, at.y, attributes, text)
}

// boldWidth is how much wider bold figures are.
const boldWidth = 1.12

// name writes a line's number on it, or its name beside it, where it is best read.
func (p *plot) name(c *panel, line int, text string, paths [][]spot) {
	w, best, least := boldWidth*svgSmall*textWidth(text), spot{}, math.MaxInt
	boxed := func(at spot) box { return box{at.x, at.y - 0.8*svgSmall, at.x + w, at.y + 0.26*svgSmall} }
	places := []spot{{-w / 2, 0.3 * svgSmall}}
	if w > 8 {
		places = []spot{{1.2, 0.3 * svgSmall}, {-w - 1.2, 0.3 * svgSmall}, {-w / 2, -1.4}, {-w / 2, 3.2}}
	}
	fixed := c.spot(ground{})
	for _, path := range paths {
		for _, s := range path {
			for _, o := range places {
				at := spot{s.x + o.x, s.y + o.y}
				cost := 2 * c.cost(boxed(at).grown(0.6))
				// Rather far from the fix, where lines are apart.
				cost += max(0, 12-int(math.Hypot(s.x-fixed.x, s.y-fixed.y)/3))
				// It must not seem to be another line's.
				wide := boxed(at).grown(2)
				for k, q := range c.along {
					if c.of[k] != line && wide.holds(q) {
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

func (p *plot) clip(id string, b box) {
	p.put(`<clipPath id="%s"><rect x="%.2f" y="%.2f" width="%.2f" height="%.2f"/></clipPath>`, id, b.left, b.top, b.right-b.left, b.bottom-b.top)
	p.put(`<g clip-path="url(#%s)">`, id)
}

// closeUp draws the surroundings of the fix.
func (p *plot) closeUp() {
	c := &panel{box: box{svgLeft, 176, 104, 258}}
	reach := 1.3 * float64(p.ellipse.SemiMajor)
	for _, r := range p.fix.Residuals[:len(p.lines)] {
		if o := math.Abs(float64(r.Offset)); o < 60*1852 {
			reach = max(reach, 1.4*o)
		}
	}
	if reach < 0.5 { // two lines that meet, of unknown uncertainty
		reach = 185.2
	}
	reach = max(reach, 20)
	inner := reach
	var near []ground
	for _, g := range p.hat {
		if d := math.Hypot(g.north, g.east); d < 3*inner {
			reach, near = max(reach, 1.15*d), append(near, g)
		}
	}
	// A hat of three has one far corner at times; of more lines some two are always
	// nearly parallel.
	if p.hull = hullOf(p.hat); len(p.lines) > 3 {
		p.hull = hullOf(near)
	}
	c.scale = 2 * reach / (c.bottom - c.top)
	switch {
	case c.scale > 50:
		p.caption(c, "About the fix", 1852, "M")
	case c.scale > 8:
		p.caption(c, "About the fix", 185.2, "cables")
	default:
		p.caption(c, "About the fix", 1, "m")
	}
	p.clip("close", c.box)
	spots := func(gs []ground) []spot {
		out := make([]spot, len(gs))
		for i, g := range gs {
			out[i] = c.spot(g)
		}
		return out
	}
	if len(p.hull) > 2 {
		p.path("polygon", "hat", `fill="#ddd" stroke="#777" stroke-width="0.5" stroke-linejoin="round"`, spots(p.hull))
	}
	if p.ellipse.SemiMajor > 0 {
		var round []ground
		sin, cos := p.ellipse.MajorAxis.FromNorth().SinCos()
		for i := range 90 {
			s, t := math.Sincos(float64(i) * math.Pi / 45)
			a, b := float64(p.ellipse.SemiMajor)*t, float64(p.ellipse.SemiMinor)*s
			round = append(round, ground{a*cos - b*sin, a*sin + b*cos})
		}
		p.path("polygon", "ellipse", `fill="none" stroke="#666" stroke-width="0.6"`, spots(round))
	}
	traced := p.trace(c)
	p.put(`</g>`)
	for _, m := range p.marks() {
		if g, ok := p.at.onPlane(upright(m.Position)); ok && c.holds(c.spot(g)) {
			p.mark(c.spot(g))
			c.takes(c.spot(g), 1.3)
		}
	}
	p.places(c)
	for _, s := range spots(p.hull) {
		c.takes(s, 1)
	}
	for i, paths := range traced {
		p.name(c, i, fmt.Sprintf("%d %s", i+1, shortened(p.lines[i].Name, 11)), paths)
	}
	p.put(`<rect x="%.2f" y="%.2f" width="%.2f" height="%.2f" %s/>`, c.left, c.top, c.right-c.left, c.bottom-c.top, frameStyle)
}
