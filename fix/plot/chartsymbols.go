package plot

import (
	"fmt"
	"math"
	"strings"

	"lubberline.example/angle/drawing"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
	"lubberline.example/fix/practice"
)

const (
	solid   = `fill="black" stroke="black" stroke-width="0.2" stroke-linejoin="round"`
	outline = `fill="white" stroke="black" stroke-width="0.3" stroke-linejoin="round"`
	stroke  = `fill="none" stroke="black" stroke-width="0.3"`
	dotted  = `fill="none" stroke="black" stroke-width="0.3" stroke-dasharray="0.1 0.9" stroke-linecap="round"`
)

// nameStyle gives names a white edge, since they may stand on lines of the graticule.
const nameStyle = `class="name" stroke="white" stroke-width="0.6" paint-order="stroke"`

// contourSize is the size of the figures along lines of equal depth, mm.
const contourSize = 2.0

// symbols draws the marks, the dangers, the anchorages and the tidal diamonds.
func (p *practicePlot) symbols() {
	for _, d := range p.Dangers {
		p.danger(d)
	}
	for _, q := range p.Anchorages {
		p.anchorage(p.Spot(q))
	}
	if p.Tidal != nil && !p.o.Plain {
		for _, t := range p.Tidal.Places {
			p.diamond(p.Spot(*t.Position), t.Name)
		}
	}
	for _, m := range p.Marks {
		p.chartMark(m)
	}
}

// place draws a circle that shows the exact place of a symbol.
func (p *practicePlot) place(class string, at drawing.Spot, radius float64, style string) {
	p.Put(`<circle class="%s" cx="%.2f" cy="%.2f" r="%.2f" %s/>`, class, at.X, at.Y, radius, style)
}

// chartMark draws a mark. Its position is in the middle of its small circle.
func (p *practicePlot) chartMark(m practice.Mark) {
	at := p.Spot(m.Position)
	class := "mark " + string(m.Kind)
	switch m.Kind {
	case practice.Light:
		p.Polygon("star", solid, star(at, 5, 1.7, 0.7, 0))
		p.place(class, at, 0.35, `fill="white"`)
	case practice.Beacon:
		p.Polygon("beacon", outline, []drawing.Spot{at.Moved(-0.8, 0), at.Moved(0.8, 0), at.Moved(0.35, -3.4), at.Moved(-0.35, -3.4)})
		p.Polygon("topmark", solid, []drawing.Spot{at.Moved(-0.8, -3.5), at.Moved(0.8, -3.5), at.Moved(0, -5)})
		p.place(class, at, 0.45, outline)
	case practice.Tower:
		p.Polygon("tower", outline, []drawing.Spot{at.Moved(-0.9, 0), at.Moved(0.9, 0), at.Moved(0.5, -3.6), at.Moved(-0.5, -3.6)})
		p.place(class, at, 0.45, outline)
	case practice.Church:
		p.Line(at.Moved(0, -0.4), at.Moved(0, -3.4), stroke)
		p.Line(at.Moved(-1, -2.3), at.Moved(1, -2.3), stroke)
		p.place(class, at, 0.9, outline)
		p.place("point", at, 0.2, `fill="black"`)
	case practice.Buoy:
		p.Polygon("buoy", solid, []drawing.Spot{at.Moved(-0.7, 0), at.Moved(0.9, 0), at.Moved(1.3, -2.6), at.Moved(0.7, -2.8)})
		p.place(class, at, 0.5, outline)
	default:
		p.Polygon("summit", outline, []drawing.Spot{at.Moved(0, -1.6), at.Moved(1.4, 0.8), at.Moved(-1.4, 0.8)})
		p.place(class, at, 0.3, `fill="black"`)
	}
	if m.Light != "" {
		p.flare(at)
		p.taken = append(p.taken, drawing.Box{Left: at.X, Top: at.Y, Right: at.X + 4.6, Bottom: at.Y + 3.8})
	}
	top := at.Y - 5.2
	switch m.Kind {
	case practice.Light, practice.Summit:
		top = at.Y - 1.8
	case practice.Church, practice.Tower, practice.Buoy:
		top = at.Y - 3.8
	}
	p.taken = append(p.taken, drawing.Box{Left: at.X - 1.8, Top: top, Right: at.X + 1.8, Bottom: at.Y + 1.2})
}

// flare draws the flash of a light, to the lower right of its position.
func (p *practicePlot) flare(at drawing.Spot) {
	a, b := at.Moved(0.9, 0.75), at.Moved(4.3, 3.5)
	p.Put(`<path class="flare" d="M%.2f %.2fQ%.2f %.2f %.2f %.2fQ%.2f %.2f %.2f %.2fZ" fill="white" stroke="black" stroke-width="0.3"/>`,
		a.X, a.Y, b.X-0.3, b.Y-2.3, b.X, b.Y, b.X-2.2, b.Y-0.6, a.X, a.Y)
}

// star returns the corners of a star.
func star(at drawing.Spot, rays int, outer, inner, turn float64) []drawing.Spot {
	var out []drawing.Spot
	for i := range 2 * rays {
		r := outer
		if i%2 == 1 {
			r = inner
		}
		sin, cos := math.Sincos(turn + math.Pi*float64(i)/float64(rays))
		out = append(out, at.Moved(r*sin, -r*cos))
	}
	return out
}

// danger draws a danger with the limit of the foul water.
func (p *practicePlot) danger(d practice.Danger) {
	at := p.Spot(d.Position)
	radius := max(p.Mile(d.Position.Latitude)*d.Radius.NauticalMiles(), 2.2)
	p.place("foul", at, radius, dotted)
	cross := func(size, turn float64) {
		sin, cos := math.Sincos(turn)
		p.Line(at.Moved(-size*cos, -size*sin), at.Moved(size*cos, size*sin), `class="danger" `+stroke)
	}
	switch {
	case d.Kind == practice.Wreck:
		cross(1.8, 0)
		for _, x := range []float64{-0.9, 0, 0.9} {
			h := 0.9 - 0.3*math.Abs(x)
			p.Line(at.Moved(x, -h), at.Moved(x, h), stroke)
		}
	case d.Kind == practice.Rock && d.Depth <= 0: // covers and uncovers
		for i := range 3 {
			cross(1.2, math.Pi*float64(i)/3)
		}
	case d.Kind == practice.Rock:
		cross(1.2, 0)
		cross(1.2, math.Pi/2)
	default:
		p.writeDepth("least-depth", at, d.Depth, 2.2)
	}
	p.taken = append(p.taken, drawing.Around(at, 2.2, 2.2))
}

// anchorage draws an anchor with its middle at a spot.
func (p *practicePlot) anchorage(at drawing.Spot) {
	p.Line(at.Moved(0, -1.7), at.Moved(0, 2), `class="anchorage" `+stroke)
	p.Line(at.Moved(-0.9, -1), at.Moved(0.9, -1), stroke)
	p.Put(`<path d="M%.2f %.2fQ%.2f %.2f %.2f %.2fQ%.2f %.2f %.2f %.2f" %s/>`, at.X-1.7, at.Y+0.7, at.X-1.2, at.Y+2, at.X, at.Y+2, at.X+1.2, at.Y+2, at.X+1.7, at.Y+0.7, stroke)
	p.place("ring", at.Moved(0, -2.1), 0.4, stroke)
	p.taken = append(p.taken, drawing.Around(at, 2, 2.6))
}

// diamond draws a tidal diamond with its letter.
func (p *practicePlot) diamond(at drawing.Spot, letter string) {
	size := max(3, 0.75*drawing.Letters*drawing.TextWidth(letter)+1.4)
	p.Polygon("tidal", `fill="white" stroke="black" stroke-width="0.3"`, []drawing.Spot{at.Moved(0, -size), at.Moved(size, 0), at.Moved(0, size), at.Moved(-size, 0)})
	p.Text(at.Moved(0, 0.36*drawing.Letters), `class="tidal-letter" text-anchor="middle" font-weight="bold"`, letter)
	p.taken = append(p.taken, drawing.Around(at, size, size))
}

// labels writes the names of marks, dangers and waters where they meet nothing.
func (p *practicePlot) labels() {
	names := &drawing.Labels{Room: p.Frame.Grown(-0.8)}
	names.Avoid(p.taken...)
	for _, r := range p.rings {
		var circle []drawing.Spot
		for i := range 73 {
			sin, cos := math.Sincos(float64(i) * math.Pi / 36)
			circle = append(circle, r.Moved(r.radius*cos, r.radius*sin))
		}
		names.AvoidLine(circle...)
		names.Avoid(drawing.Around(r.Spot, 0.7*r.radius, 0.7*r.radius), drawing.Around(r.Spot, 0.95*r.radius, 0.3*r.radius), drawing.Around(r.Spot, 0.3*r.radius, 0.95*r.radius))
	}
	for _, l := range p.Land {
		names.AvoidLine(p.spots(l)...)
	}
	for _, m := range p.Marks {
		names.Add(drawing.Label{Text: p.markText(m), At: p.Spot(m.Position), Gap: 2.4, Attributes: nameStyle})
	}
	for _, d := range p.Dangers {
		if text := dangerText(d); text != "" && !p.o.Plain {
			names.Add(drawing.Label{Text: text, At: p.Spot(d.Position), Gap: max(p.Mile(d.Position.Latitude)*d.Radius.NauticalMiles(), 2.4) + 0.4, Attributes: nameStyle + ` font-style="italic"`})
		}
	}
	if !p.o.Plain {
		for _, n := range p.Names {
			names.Add(drawing.Label{Text: working.OneLine(n.Text), At: p.Spot(n.Position), Gap: 0.01, Size: n.Size, Attributes: nameStyle + ` font-style="italic"`})
		}
	}
	for _, c := range p.Contours {
		if c.Depth >= 20*sailing.Metre {
			names.Add(drawing.Label{Text: fmt.Sprintf("%.0f", c.Depth.Metres()), Along: p.spots(c.Line), Gap: 0.4, Size: contourSize, Attributes: nameStyle})
		}
	}
	for _, l := range names.Draw(p.Sheet) {
		if l.Size != contourSize { // a line of equal depth needs no figure
			p.unnamed = append(p.unnamed, working.OneLine(strings.ReplaceAll(l.Text, "\n", " ")))
		}
	}
}

// markText returns what stands beside a mark: its name, and the light with height and range.
func (p *practicePlot) markText(m practice.Mark) string {
	parts := []string{}
	if m.Light != "" {
		parts = append(parts, working.OneLine(m.Light))
	}
	if m.Height > 0 {
		parts = append(parts, fmt.Sprintf("%.0fm", m.Height.Metres()))
	}
	if m.Range > 0 {
		parts = append(parts, fmt.Sprintf("%.0fM", m.Range.NauticalMiles()))
	}
	name := drawing.Shortened(working.OneLine(m.Name), 24)
	if len(parts) == 0 {
		return name
	}
	text := drawing.Shortened(strings.Join(parts, " "), 24)
	if m.Light == "" {
		text = "(" + text[:len(text)-1] + ")"
	}
	return name + "\n" + text
}

// dangerText returns what stands beside a danger.
func dangerText(d practice.Danger) string {
	text := drawing.Shortened(working.OneLine(d.Name), 24)
	add := ""
	switch {
	case d.Kind == practice.Wreck:
		add = fmt.Sprintf("Wk %.0fm", math.Floor(d.Depth.Metres()))
	case d.Depth < 0:
		add = fmt.Sprintf("dries %.1fm", -d.Depth.Metres())
	case d.Kind == practice.Rock:
		add = fmt.Sprintf("%.1fm", d.Depth.Metres())
	}
	return strings.Trim(text+"\n"+add, "\n")
}
