package plot

import (
	"fmt"
	"math"
	"slices"

	"lubberline.example/angle/drawing"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
	"lubberline.example/course/signs"
	"lubberline.example/fix"
)

// overview draws the marks and lines as a whole.
func (p *plot) overview() {
	c := newPanel(p.layout.overview)
	var e extent
	marks := p.marks()
	for _, m := range marks {
		g, ok := p.onPlane(m.Position)
		if !ok || math.Hypot(g.north, g.east) > maxReach {
			p.off = append(p.off, m.String())
			continue
		}
		e.include(g)
	}
	for _, g := range p.others() {
		e.include(g)
	}
	reach := e.reach()
	if reach < 100 {
		reach = 2 * 1852
	}
	c.fit(e, max(reach, 4*float64(p.ellipse.SemiMajor)))
	p.caption(c, "Overview", 1852, "M")
	p.panel(c, "overview", false)
}

// others returns the other places that the overview shows: alternatives, the reckoned position,
// and where transferred lines come from.
func (p *plot) others() (out []ground) {
	add := func(g ground, ok bool) {
		if ok && math.Hypot(g.north, g.east) <= maxReach {
			out = append(out, g)
		}
	}
	for _, o := range p.fix.Alternatives() {
		add(p.onPlane(o))
	}
	add(p.reckoned())
	for _, l := range p.lines {
		if _, run, ok := l.Original(); ok {
			sin, cos := run.Course.FromNorth().SinCos()
			d := float64(run.Distance)
			add(ground{-d * cos, -d * sin}, true)
		}
	}
	return out
}

// panel draws what both panels have.
func (p *plot) panel(c *panel, class string, closeUp bool) {
	p.pen.Labels = c.labels
	p.graticule(c)
	p.Clip(class, c.Box, func() {
		if closeUp {
			p.region(c)
		}
		p.positionLines(c, closeUp)
		p.shift(c)
	})
	for _, m := range p.marks() {
		if s, ok := p.spotOf(c, m.Position); ok {
			p.mark(s)
			c.labels.Avoid(drawing.Around(s, 1.3, 1.3))
			name := drawing.Label{Text: drawing.Shortened(working.OneLine(m.String()), 24), At: s, Attributes: `font-style="italic"`}
			if len(p.lines) >= many {
				name.Text, name.Size = drawing.Shortened(name.Text, 16), p.letters(2.2)
			}
			c.labels.Add(name)
		}
	}
	p.places(c, closeUp)
	p.Rectangle(c.Box, frameStyle)
	for _, l := range c.labels.Draw(p.Sheet) {
		p.unnamed = append(p.unnamed, l.Text)
	}
	p.pen.Labels = nil
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

// reckoned returns where the reckoned position is drawn, if the options have one.
func (p *plot) reckoned() (ground, bool) {
	switch {
	case p.options.Prior != nil:
		return p.onPlane(p.options.Prior.Position)
	case p.options.Near != nil:
		return p.onPlane(*p.options.Near)
	}
	return ground{}, false
}

// shift draws a dashed line from the reckoned position to the fix. The legend says how long it is.
func (p *plot) shift(c *panel) {
	g, ok := p.reckoned()
	if !ok || !c.Holds(c.spot(g)) {
		return
	}
	from, to := c.spot(g), c.spot(ground{})
	if p.disagree || distance(from, to) < 3.5 {
		return
	}
	p.Polyline("shift", `fill="none" stroke="black" stroke-width="0.25" stroke-dasharray="0.8 0.8"`, []drawing.Spot{from, to})
	c.labels.AvoidLine(from, to)
	run := sailing.WGS84().Rhumb(p.position(g), p.fix.Position())
	p.shifted = fmt.Sprintf("%.0f %s", run.Course, miles(run.Distance))
}

// places draws the fix, the reckoned position and the other intersections.
func (p *plot) places(c *panel, closeUp bool) {
	for _, o := range p.fix.Alternatives() {
		if s, ok := p.spotOf(c, o); ok {
			p.elsewhere = true
			p.circle(s, 1.3, "other", hollowStyle)
			c.labels.Avoid(drawing.Around(s, 1.6, 1.6))
		}
	}
	if g, ok := p.reckoned(); ok && c.Holds(c.spot(g)) && (p.disagree || distance(c.spot(g), c.spot(ground{})) > 3) {
		m := signs.Mark{Kind: signs.DeadReckoning, At: c.spot(g), Way: 90}
		if p.options.Prior != nil {
			if !p.estimated {
				m.Kind = signs.Estimated
			}
			if t := p.options.Prior.Time; !t.IsZero() {
				m.Time = t.UTC().Format("1504")
			}
		}
		p.symbol(c, "reckoned", m)
	}
	// Lines that do not agree make no fix, so that no symbol is drawn.
	if p.disagree {
		return
	}
	m := signs.Mark{Kind: signs.Fix, At: c.spot(ground{})}
	for _, l := range p.lines {
		if _, _, moved := l.Original(); moved {
			m.Kind = signs.RunningFix
		}
	}
	if p.estimated {
		m.Kind = signs.Estimated
	}
	if t := p.fix.Time(); !t.IsZero() {
		m.Time = t.UTC().Format("1504")
	}
	if closeUp { // the overview has the time
		m.Time = ""
	}
	p.symbol(c, "position", m)
}

// crowd is a number of lines from which on the time of a fix has no room at the fix. It stands
// above the overview.
const crowd = 8

// symbol draws a position in a group of a class. If there are many lines, or no time, it has no
// more text than the time.
func (p *plot) symbol(c *panel, class string, m signs.Mark) {
	p.Put(`<g class="%s">`, class)
	if len(p.lines) >= many || m.Time == "" {
		p.pen.Labels = &drawing.Labels{} // that are not drawn
		c.labels.Avoid(drawing.Around(m.At, 2, 2))
		if class != "position" || len(p.lines) < crowd {
			c.labels.Add(drawing.Label{Text: m.Time, At: m.At, Gap: 2.4, Size: p.letters(2.2)})
		}
	}
	p.pen.Mark(m)
	p.pen.Labels = c.labels
	p.Put("</g>")
}
