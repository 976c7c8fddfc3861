package fix

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
)

const (
	plotMost = 24          // lines drawn
	plotFar  = 600 * 1852. // metres, beyond which marks do not make the chart smaller
	plotCell = 1.25        // mm between the places where lines are sought
)

// WritePlot draws the fix as SVG on A4: the marks, the position lines and the other
// places where they meet, and a close-up of the fix with the cocked hat and the
// ellipse that holds the vessel in 95 cases of 100. It is drawn on the plane that
// touches the earth at the fix. The first 24 lines are drawn.
//
// It writes all or nothing. It returns a [*SolveError] for a Fix that [Solve] did not
// return, and the writer's error as it is.
func (f Fix) WritePlot(w io.Writer, title string) error {
	if f.state.up.dot(f.state.up) == 0 || len(f.Residuals) != len(f.Lines) || len(f.solver.lines) != len(f.Lines) {
		return &SolveError{"there is nothing to draw: want a fix that Solve returned"}
	}
	if title = oneLine(title); title == "" {
		title = "Fix"
	}
	p := &plot{fix: f, at: frameAt(f.state.up), lines: f.solver.lines}
	p.more = max(0, len(p.lines)-plotMost)
	p.lines = p.lines[:len(p.lines)-p.more]
	p.hat = f.plotHat(&p.at)
	if e, err := f.Ellipse(0.95); err == nil {
		p.ellipse = e
	}
	p.svgSheet = newSVGSheet(shortened(title, 80), fmt.Sprintf("Fix at %v from position lines: %d. Above all of it, north up, below the surroundings of the fix.", f.Position, len(f.Lines)))
	p.text(svgLeft, 18, `font-size="6" font-weight="bold"`, shortened(title, 27))
	where := fmt.Sprintf("%.2v", f.Position)
	if t := p.observed(); !t.IsZero() {
		where += ", " + t.UTC().Format("2 January 2006 15:04 UTC")
	}
	p.text(svgLeft, 25, `font-size="4"`, where)
	p.overview()
	p.closeUp()
	p.legend()
	p.foot()
	p.put(`</svg>`)
	_, err := w.Write(p.Bytes())
	return err
}

// observed is the time of the last line.
func (p *plot) observed() (last time.Time) {
	for i := range p.fix.Lines {
		if t := p.fix.Lines[i].Time; t.After(last) {
			last = t
		}
	}
	return last
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

// onPlane is where the vertical of a place meets the plane, the converse of moved. It
// is false for the half of the earth that is turned away.
func (f *frame) onPlane(up vector) (ground, bool) {
	h := up.dot(f.up)
	if h < 0.01 {
		return ground{}, false
	}
	return ground{up.dot(f.north) / h * f.meridian, up.dot(f.east) / h * f.across}, true
}

// plotHat is the corners of the hat.
func (f Fix) plotHat(at *frame) (corners []ground) {
	g := f
	g.Lines = g.Lines[:min(len(g.Lines), plotMost)]
	for _, c := range g.Hat().Corners {
		if q, ok := at.onPlane(upright(c.Position)); ok {
			corners = append(corners, q)
		}
	}
	return corners
}

// hullOf is the convex hull of some places, by the monotone chain.
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

// caption writes the name of a panel and its scale above it.
func (p *plot) caption(c *panel, name string, unit float64, symbol string) {
	p.text(c.left, c.top-2.5, `font-size="3.2" font-weight="bold"`, name)
	length := unit / 1000
	for _, n := range []float64{0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000} {
		if n*unit/c.scale <= 36 {
			length = n * unit
		}
	}
	label := fmt.Sprintf("%g %s", length/unit, symbol)
	right := c.right - svgSmall*textWidth(label) - 1.5
	if name == "Overview" {
		right -= 12
	}
	left, y := right-length/c.scale, c.top-3.2
	p.line(left, y, right, y, `stroke="black" stroke-width="0.5"`)
	for i := range 3 {
		x := left + (right-left)*float64(i)/2
		p.line(x, y-0.9, x, y+0.9, `stroke="black" stroke-width="0.3"`)
	}
	p.text(right+1.5, y+0.9, "", label)
}

func (p *plot) northArrow(at spot) {
	p.path("polygon", "north", `fill="black"`, []spot{{at.x, at.y - 4.5}, {at.x + 1.4, at.y + 4}, {at.x, at.y + 2.7}, {at.x - 1.4, at.y + 4}})
	p.text(at.x, at.y-5.3, `text-anchor="middle" font-weight="bold"`, "N")
}

func (p *plot) clip(id string, b box) {
	p.put(`<clipPath id="%s"><rect x="%.2f" y="%.2f" width="%.2f" height="%.2f"/></clipPath>`, id, b.left, b.top, b.right-b.left, b.bottom-b.top)
	p.put(`<g clip-path="url(#%s)">`, id)
}

// graticule draws the ticks of latitude and longitude on the frame, with figures at
// the left and below.
func (p *plot) graticule(c *panel) {
	const parts = 60
	position := func(s spot) angle.Position {
		g := c.ground(s)
		return position(p.at.moved(g.north, g.east))
	}
	edge := func(a, b spot, of func(spot) float64, tick func(at spot, minutes float64, decimals int)) {
		values, places := make([]float64, parts+1), make([]spot, parts+1)
		span := 0.0
		for i := range values {
			t := float64(i) / parts
			places[i] = spot{a.x + (b.x-a.x)*t, a.y + (b.y-a.y)*t}
			values[i] = of(places[i])
			if i > 0 {
				values[i] = values[i-1] + math.Remainder(values[i]-values[i-1], 360*60)
				span += math.Abs(values[i] - values[i-1])
			}
		}
		step, decimals := 1800.0, 0
		for _, n := range []float64{0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 30, 60, 120, 300, 600} {
			if span/n <= 7 {
				step = n
				break
			}
		}
		for n := step; n < 0.9999 && decimals < 3; n *= 10 {
			decimals++
		}
		for i := range parts {
			u, v := values[i], values[i+1]
			for k := math.Floor(min(u, v)/step) + 1; k*step <= max(u, v); k++ {
				t := (k*step - u) / (v - u)
				tick(spot{places[i].x + (places[i+1].x-places[i].x)*t, places[i].y + (places[i+1].y-places[i].y)*t}, k*step, decimals)
			}
		}
	}
	latitude := func(s spot) float64 { return position(s).Latitude.Angle().Minutes() }
	longitude := func(s spot) float64 { return position(s).Longitude.Angle().Minutes() }
	const style = `stroke="black" stroke-width="0.3"`
	free := math.Inf(1)
	figure := func(y float64) bool {
		if math.Abs(free-y) < 4 {
			return false
		}
		free = y
		return true
	}
	edge(spot{c.left, c.bottom}, spot{c.left, c.top}, latitude, func(at spot, m float64, decimals int) {
		p.line(at.x, at.y, at.x+1.8, at.y, style)
		if l, err := angle.LatitudeFrom(minutes(m)); err == nil && figure(at.y) {
			p.text(at.x-1, at.y+0.9, `text-anchor="end"`, string(l.AppendMinutes(nil, decimals)))
		}
	})
	edge(spot{c.right, c.bottom}, spot{c.right, c.top}, latitude, func(at spot, _ float64, _ int) { p.line(at.x, at.y, at.x-1.8, at.y, style) })
	free = c.left - 100
	figure = func(x float64) bool {
		if x-free < 21 {
			return false
		}
		free = x
		return true
	}
	edge(spot{c.left, c.bottom}, spot{c.right, c.bottom}, longitude, func(at spot, m float64, decimals int) {
		p.line(at.x, at.y, at.x, at.y-1.8, style)
		if figure(at.x) {
			p.text(at.x, at.y+3.4, `text-anchor="middle"`, string(angle.LongitudeFrom(minutes(math.Remainder(m, 360*60))).AppendMinutes(nil, decimals)))
		}
	})
	edge(spot{c.left, c.top}, spot{c.right, c.top}, longitude, func(at spot, _ float64, _ int) { p.line(at.x, at.y, at.x, at.y+1.8, style) })
}

// minutes is the angle of some minutes of arc known to fit.
func minutes(m float64) angle.Angle {
	a, err := angle.Minutes(m)
	if err != nil {
		return 0
	}
	return a.Round(angle.Second / 1000)
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

// legend tells what is drawn, beside the close-up.
func (p *plot) legend() {
	const left, from, right, last = 110.0, 123.0, svgRight, 258.0
	y := 175.5
	symbol := func(text string, draw func(s spot)) {
		draw(spot{left + 5, y - 0.9})
		p.text(from, y, "", text)
		y += 4.2
	}
	symbol("the fix", p.dot)
	symbol("charted mark", p.mark)
	if p.others {
		symbol("another place where the lines meet", func(s spot) { p.circle(s, 1.3, "key", hollowStyle) })
	}
	if p.fix.solver.prior.used {
		symbol("estimated position", p.triangle)
	}
	if len(p.hull) > 2 {
		what := "cocked hat: where each two lines meet"
		if len(p.lines) > 3 {
			what = "about the places near by where two lines meet"
		}
		symbol(what, func(s spot) {
			p.path("polygon", "key", `fill="#ddd" stroke="#777" stroke-width="0.5"`, []spot{{s.x - 3, s.y + 1.2}, {s.x + 3, s.y + 1.2}, {s.x + 1, s.y - 1.5}})
		})
	}
	if p.ellipse.SemiMajor > 0 {
		symbol("ellipse of 95 in 100", func(s spot) {
			p.put(`<ellipse class="key" cx="%.2f" cy="%.2f" rx="4" ry="1.4" fill="none" stroke="#666" stroke-width="0.6"/>`, s.x, s.y)
		})
	}
	y += 1
	room := int((last - y) / 7.4)
	shown := len(p.lines)
	if shown > room || p.more > 0 {
		shown = min(shown, room-1)
	}
	for i := range shown {
		l := &p.lines[i]
		p.line(left, y-0.9, left+11, y-0.9, lineStyle(i))
		title := fmt.Sprintf("%d  %s", i+1, strings.TrimPrefix(l.titled(), "horizontal "))
		p.text(from, y, "", shortened(title, (right-from)/svgSmall))
		p.text(from, y+3.4, `fill="#444"`, shortened(l.observed(p.fix.Residuals[i]), (right-from)/svgSmall))
		y += 7.4
	}
	if rest := len(p.fix.Lines) - shown; rest > 0 {
		text := fmt.Sprintf("and %d more", rest)
		if p.more > 0 {
			text += fmt.Sprintf(", of which %d are not drawn", p.more)
		}
		p.text(from, y, "", text)
	}
}

// titled is what a line is and what it is of.
func (l *Line) titled() string {
	switch l.Kind {
	case KindLatitude, KindLongitude, KindOther:
		return l.Name
	case KindTransit, KindHorizontalAngle:
		return string(l.Kind) + ", " + l.Name
	}
	if l.Kind == KindRange {
		return "distance off " + l.Name
	}
	return string(l.Kind) + " of " + l.Name
}

// observed is what was observed, how well, and how far from the fix it passes.
func (l *Line) observed(r Residual) string {
	var text string
	known := ""
	if l.stated {
		switch l.Kind {
		case KindBearing, KindTransit, KindHorizontalAngle:
			known = fmt.Sprintf(" ±%.2g°", l.sigma*180/math.Pi)
		case KindOther:
			known = fmt.Sprintf(" ±%g", l.sigma)
		default:
			known = " ±" + sailing.Distance(l.sigma).String()
			if l.sigma < 1852/10 {
				known = fmt.Sprintf(" ±%.0f m", l.sigma)
			}
		}
	}
	degrees, _ := angle.Radians(l.want)
	switch l.Kind {
	case KindBearing:
		text = fmt.Sprintf("%.1f", angle.TrueFrom(degrees))
	case KindHorizontalAngle:
		text = string(degrees.AppendMinutes(nil, 1))
	case KindRange:
		text = sailing.Distance(l.want).String()
	case KindOther:
		text = strings.TrimSpace(fmt.Sprintf("%g %s", l.want, l.unit))
	case KindTransit:
		text = "in line"
	}
	text = strings.TrimSpace(text + known)
	if l.moved {
		text += ", transferred"
	}
	off, toward := r.Offset, r.Toward
	if off < 0 {
		off, toward = -off, toward.Reciprocal()
	}
	if off < 1 {
		return text + ", through the fix"
	}
	return fmt.Sprintf("%s, %s off toward %s", text, metres(off), toward.AppendDegrees(nil, 0))
}

// metres is a short distance in metres, a longer one in miles.
func metres(d sailing.Distance) string {
	if d < 1852/2 {
		return fmt.Sprintf("%.0f m", d.Metres())
	}
	return d.String()
}

// foot says in words what the fix is worth.
func (p *plot) foot() {
	y := 263.5
	write := func(attributes, text string) {
		for _, line := range wrapped(text, (svgRight-svgLeft)/svgSmall) {
			p.text(svgLeft, y, attributes, line)
			y += 3.6
		}
	}
	if p.fix.Known {
		write("", fmt.Sprintf("The ellipse reaches %s either way along %s, and %s across. 95 in 100 lie in the ellipse if the lines are as good as stated.",
			metres(p.ellipse.SemiMajor), p.ellipse.MajorAxis.AppendDegrees(nil, 0), metres(p.ellipse.SemiMinor)))
	} else {
		write("", "The uncertainties of the lines are not stated: how good the fix is can't be told.")
	}
	if cut, ok := p.fix.BestCut(); ok && cut.Angle < 30*angle.Degree {
		write("", fmt.Sprintf("The lines cut at %s only: the fix is weak along them.", cut.Angle.AppendDegrees(nil, 0)))
	}
	if pr := p.fix.Probability(); pr < suspicionLevel {
		text := fmt.Sprintf("THE LINES DO NOT AGREE: good ones would be so far apart in %s cases.", scarce(pr))
		if s := p.fix.Suspicions(); len(s) > 0 {
			text += fmt.Sprintf(" Without line %d the others agree.", s[0].Line+1)
		}
		write(`font-weight="bold"`, text)
	} else if p.fix.DegreesOfFreedom == 0 {
		write("", "No line is to spare: a wrong one would not show.")
	}
	if e := p.fix.CompassError; p.fix.solver.unknowns == 3 {
		write("", fmt.Sprintf("The compass bearings are drawn with the compass error found, %s, allowed for.", e.Angle().AppendEastWestDegrees(nil, 1)))
	}
	if len(p.off) > 0 {
		write("", "Off the drawing: "+shortened(strings.Join(p.off, ", "), 50)+".")
	}
	y = 288
	write(`font-weight="bold"`, working.Caution)
}

// scarce is a small probability in words.
func scarce(p float64) string {
	if p < 1e-4 {
		return "fewer than 1 of 10,000"
	}
	return fmt.Sprintf("1 of %.0f", 1/p)
}

// trace draws the lines in a panel: the places where nothing is left of each. It
// returns the points of each.
func (p *plot) trace(c *panel) [][][]spot {
	columns, rows := int((c.right-c.left)/plotCell)+1, int((c.bottom-c.top)/plotCell)+1
	at := func(i, j float64) spot { return spot{c.left + i*plotCell, c.top + j*plotCell} }
	frameOn := func(s spot) frame {
		g := c.ground(s)
		return frameAt(p.at.moved(g.north, g.east))
	}
	frames := make([]frame, (columns+1)*(rows+1))
	for j := range rows + 1 {
		for i := range columns + 1 {
			frames[j*(columns+1)+i] = frameOn(at(float64(i), float64(j)))
		}
	}
	out := make([][][]spot, len(p.lines))
	left := make([]float64, len(frames))
	for n := range p.lines {
		l := &p.lines[n]
		of := func(f *frame) float64 {
			v := l.expect(f).left
			if l.shared && p.fix.solver.unknowns == 3 {
				v = math.Remainder(v+p.fix.state.error, 2*math.Pi)
			}
			return v
		}
		for k := range frames {
			left[k] = of(&frames[k])
		}
		g := contour{columns: columns, rows: rows, left: left, at: at, of: func(s spot) float64 { f := frameOn(s); return of(&f) }}
		for _, path := range g.paths() {
			p.path("polyline", fmt.Sprintf("line-%d", n+1), lineStyle(n), path)
			for _, s := range path {
				if c.holds(s) {
					c.along, c.of = append(c.along, s), append(c.of, n)
				}
			}
			out[n] = append(out[n], path)
		}
	}
	return out
}

// A contour is a grid of cells in which the line is sought where a quantity is
// nought.
type contour struct {
	columns, rows int       // of cells
	left          []float64 // at the corners of the cells
	at            func(i, j float64) spot
	of            func(spot) float64
}

// crossing is where the line crosses an edge of the grid: edge 2k goes right from
// corner k, edge 2k+1 down.
func (g *contour) crossing(edge int) (spot, bool) {
	k, wide := edge/2, g.columns+1
	i, j, o := float64(k%wide), float64(k/wide), k+1
	a, b := g.at(i, j), g.at(i+1, j)
	if edge%2 == 1 {
		b, o = g.at(i, j+1), k+wide
	}
	u, v := g.left[k], g.left[o]
	if !(u < 0 && v >= 0 || u >= 0 && v < 0) {
		return spot{}, false
	}
	most := max(math.Abs(u), math.Abs(v))
	var m spot
	w := u
	for range 24 {
		m = spot{(a.x + b.x) / 2, (a.y + b.y) / 2}
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
func (g *contour) paths() [][]spot {
	wide := g.columns + 1
	crossed, next := map[int]spot{}, map[int][]int{}
	var order []int
	for j := range g.rows {
		for i := range g.columns {
			k := j*wide + i
			var found []int
			for _, edge := range [4]int{2 * k, 2*k + 1, 2 * (k + wide), 2*(k+1) + 1} {
				_, known := crossed[edge]
				if !known {
					s, ok := g.crossing(edge)
					if !ok {
						continue
					}
					crossed[edge] = s
					order = append(order, edge)
				}
				found = append(found, edge)
			}
			for ; len(found) >= 2; found = found[2:] {
				a, b := found[0], found[1]
				next[a], next[b] = append(next[a], b), append(next[b], a)
			}
		}
	}
	var out [][]spot
	done := map[int]bool{}
	walk := func(edge int) {
		if done[edge] {
			return
		}
		begin, last := edge, -1
		var path []spot
		for {
			done[edge] = true
			path = append(path, crossed[edge])
			to := slices.IndexFunc(next[edge], func(e int) bool { return !done[e] })
			if to < 0 {
				// A ring is closed.
				if len(path) > 2 && last != begin && slices.Contains(next[edge], begin) {
					path = append(path, crossed[begin])
				}
				break
			}
			last, edge = edge, next[edge][to]
		}
		if len(path) > 1 {
			out = append(out, path)
		}
	}
	for _, edge := range order {
		if len(next[edge]) == 1 {
			walk(edge)
		}
	}
	for _, edge := range order {
		walk(edge)
	}
	return out
}
