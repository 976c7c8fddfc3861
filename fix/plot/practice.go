package plot

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/angle/working"
	chart "lubberline.example/course/plot"
	"lubberline.example/course/sailing"
	"lubberline.example/fix/practice"
)

// PracticeOptions say how a practice chart is drawn. The zero value draws it at 1:250,000. The
// chart is an exercise on paper: print it as a plate. It has no narrow form, since a small screen
// shows no soundings.
type PracticeOptions struct {
	// Scale is the number of the scale at the middle latitude, such as 250000. If 0, it is
	// 250,000.
	Scale float64

	// Plain leaves out the tidal table and the names, for exercises that ask for them.
	Plain bool
}

// notForNavigation stands on each practice chart.
const notForNavigation = "Invented: not for navigation"

// PracticeChart draws a chart for practice on a Mercator graticule. It has land, depths, marks with
// their lights, dangers, compass roses, and tidal diamonds with their table. Its title says that
// the chart is invented. Soundings are in metres; those that would meet a symbol are left out. A rose
// has the legend of its year, which the learner brings up to date.
//
// The symbols are simple drawings in the general manner of a chart. Land is grey. No danger and no
// depth depends on colour.
//
// For a scale that makes a drawing too small or too large, it returns an [*angle.RangeError].
func PracticeChart(c practice.Chart, o PracticeOptions) (*drawing.Sheet, error) {
	g := chart.Covering(c.South, c.North, c.West, c.East, cmp.Or(o.Scale, 250_000))
	g.Title = drawing.Shortened(working.OneLine(c.Name)+": practice chart", 80)
	for _, r := range c.Roses.Roses() {
		g.Roses = append(g.Roses, chart.Rose{Legend: r.Rose, At: r.Position, Diameter: roseDiameter(c, g, r.Position)})
	}
	p := &practicePlot{Chart: c, o: o}
	sheet, err := p.draw(g, 0)
	if err == nil && p.crowded {
		p = &practicePlot{Chart: c, o: o}
		sheet, err = p.draw(g, besideChart)
	}
	if err != nil {
		return nil, err
	}
	sheet.Caution(notForNavigation + ". " + working.Caution)
	return sheet, nil
}

// draw draws the chart. Its title and table stand beside it if there is room for them, and
// otherwise on it.
func (p *practicePlot) draw(g chart.Graticule, beside float64) (*drawing.Sheet, error) {
	below := 0.0
	if beside > 0 {
		below = max(0, p.columnHeight()-g.Height)
	}
	sheet, err := g.Draw(p.inWords(), beside, below, func(canvas chart.Canvas) {
		p.Canvas, p.Sheet = canvas, canvas.Sheet
		for _, r := range g.Roses {
			p.rings = append(p.rings, ring{p.Spot(r.At), r.Diameter/2 + 1.5})
		}
		p.land()
		p.contours()
		p.symbols()
		if beside == 0 {
			p.blocks()
		}
		p.soundings()
		p.labels()
	})
	if err != nil {
		return nil, err
	}
	missing := "Without room on the chart: " + strings.Join(p.unnamed, ", ") + "."
	switch {
	case beside > 0:
		at := drawing.At(g.Width, p.Frame.Top)
		for _, b := range p.allBlocks() {
			p.framed(b, at)
			at.Y += b.height + 3
		}
		for i, text := range drawing.Wrapped(missing, (besideChart-10)/drawing.Letters) {
			if len(p.unnamed) > 0 && i < missingLines {
				p.Text(at.Moved(0, 3+3.6*float64(i)), `class="without-room"`, text)
			}
		}
	case len(p.unnamed) > 0: // beside the scale of distance
		room := (p.Frame.Right - p.Frame.Left - 80) / drawing.Letters
		p.Text(drawing.At(p.Frame.Right, p.Frame.Bottom+10.9), `class="without-room" text-anchor="end"`, drawing.Shortened(missing, room))
	}
	return sheet, nil
}

// missingLines is the greatest number of lines that name what has no room.
const missingLines = 6

// columnHeight returns the height of the title, the table and the names beside the chart, mm.
func (p *practicePlot) columnHeight() float64 {
	height := 12 + 3.6*missingLines
	for _, b := range p.allBlocks() {
		height += b.height + 3
	}
	return height
}

// A practicePlot is a practice chart that is being drawn.
type practicePlot struct {
	*drawing.Sheet
	practice.Chart
	chart.Canvas
	o PracticeOptions

	taken []drawing.Box  // symbols, diamonds and blocks
	rings []ring         // of roses
	coast []drawing.Spot // close together
	depth []drawing.Spot // of contours and soundings

	unnamed []string // names without room on the chart
	crowded bool     // whether the title or the table covers something
}

// A ring is a circle in which no sounding stands.
type ring struct {
	drawing.Spot
	radius float64
}

// spots returns where some positions are drawn.
func (p *practicePlot) spots(line []angle.Position) []drawing.Spot {
	out := make([]drawing.Spot, len(line))
	for i, q := range line {
		out[i] = p.Spot(q)
	}
	return out
}

// inWords says what the chart shows.
func (p *practicePlot) inWords() string {
	text := fmt.Sprintf("Practice chart of %s. %s. It reaches from %.0v to %.0v and from %.0v to %.0v.", working.OneLine(p.Name), notForNavigation, p.South, p.North, p.West, p.East)
	for _, m := range p.Marks {
		text += fmt.Sprintf(" %s, %s, %v.", working.OneLine(m.Name), m.Kind, m.Position)
	}
	return text
}

// land draws the land.
func (p *practicePlot) land() {
	for _, l := range p.Land {
		p.coast = append(p.coast, dense(p.spots(l))...)
		p.Polygon("land", `fill="black" fill-opacity="0.12" stroke="black" stroke-width="0.35" stroke-linejoin="round"`, p.spots(l))
	}
}

// contours draws the lines of equal depth. Dashes tell shallow ones from deep ones.
func (p *practicePlot) contours() {
	for _, c := range p.Contours {
		style := `fill="none" stroke="black" stroke-width="0.12"`
		switch {
		case c.Depth <= 5*sailing.Metre:
			style = `fill="none" stroke="black" stroke-width="0.2" stroke-dasharray="0.3 0.7" stroke-linecap="round"`
		case c.Depth <= 10*sailing.Metre:
			style += ` stroke-dasharray="2.5 0.8"`
		case c.Depth <= 20*sailing.Metre:
			style += ` stroke-dasharray="2.5 0.7 0.4 0.7"`
		}
		line := p.spots(c.Line)
		p.depth = append(p.depth, line...)
		p.Polyline("contour", style, line)
	}
}

// roseDiameter returns how wide a rose is: as wide as no mark lies in it, and as the frame does not
// cut it. At least it is 40 mm.
func roseDiameter(c practice.Chart, g chart.Graticule, at angle.Position) float64 {
	off := func(p angle.Position) float64 {
		return sailing.WGS84().Rhumb(at, p).Distance.Metres() * 1000 / g.Scale
	}
	radius := 30.0
	for _, m := range c.Marks {
		radius = min(radius, off(m.Position)-4)
	}
	for _, l := range []angle.Longitude{c.West, c.East} {
		radius = min(radius, off(angle.Position{Latitude: at.Latitude, Longitude: l})-1)
	}
	for _, l := range []angle.Latitude{c.South, c.North} { // with the star of true north
		radius = min(radius, off(angle.Position{Latitude: l, Longitude: at.Longitude})-5)
	}
	return 2 * max(radius, 20)
}

// free reports whether a box meets nothing that is drawn.
func (p *practicePlot) free(b drawing.Box) bool {
	for _, t := range p.taken {
		if b.Meets(t) {
			return false
		}
	}
	for _, r := range p.rings {
		x, y := max(b.Left-r.X, 0, r.X-b.Right), max(b.Top-r.Y, 0, r.Y-b.Bottom)
		if math.Hypot(x, y) < r.radius {
			return false
		}
	}
	for _, s := range p.coast {
		if b.Holds(s) {
			return false
		}
	}
	return b.Within(p.Frame)
}

// dense returns spots along an outline at most half a millimetre apart.
func dense(outline []drawing.Spot) (out []drawing.Spot) {
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		n := math.Ceil(math.Hypot(b.X-a.X, b.Y-a.Y)/0.5) + 1
		if !(n < 10_000) { // an edge far beyond the chart
			continue
		}
		for k := range int(n) {
			out = append(out, between(a, b, float64(k)/n))
		}
	}
	return out
}

// soundings writes the charted depths that have room.
func (p *practicePlot) soundings() {
	const size = 2.2
	for _, s := range p.Soundings {
		at := p.Spot(s.Position)
		whole, tenth := depthText(s.Depth)
		half := size * drawing.TextWidth(whole) / 2
		b := drawing.Box{Left: at.X - half, Top: at.Y - 0.5*size, Right: at.X + half + 0.75*size*drawing.TextWidth(tenth), Bottom: at.Y + 0.7*size}
		if !p.free(b.Grown(0.3)) {
			continue
		}
		p.taken = append(p.taken, b)
		p.writeDepth("sounding", at, s.Depth, size)
	}
}

// depthText returns a depth in metres as charts write it, with the tenths of shallow ones.
func depthText(d sailing.Distance) (whole, tenth string) {
	m := math.Abs(d.Metres())
	if m >= 31 {
		return fmt.Sprintf("%.0f", math.Floor(m)), ""
	}
	tenths := int(math.Round(m * 10))
	if tenths%10 == 0 {
		return fmt.Sprint(tenths / 10), ""
	}
	return fmt.Sprint(tenths / 10), fmt.Sprint(tenths % 10)
}

// writeDepth writes a depth with its whole metres at a spot, and the tenths below to the right. A
// depth that dries is underlined.
func (p *practicePlot) writeDepth(class string, at drawing.Spot, d sailing.Distance, size float64) {
	whole, tenth := depthText(d)
	half := size * drawing.TextWidth(whole) / 2
	p.Put(`<text class="%s" x="%.2f" y="%.2f" font-size="%.1f" text-anchor="middle">%s</text>`, class, at.X, at.Y+0.36*size, size, whole)
	if tenth != "" {
		p.Put(`<text class="tenth" x="%.2f" y="%.2f" font-size="%.1f">%s</text>`, at.X+half*0.86, at.Y+0.75*size, 0.75*size, tenth)
	}
	if d < 0 {
		p.Line(at.Moved(-half, 0.5*size), at.Moved(half, 0.5*size), `stroke="black" stroke-width="0.2"`)
	}
}
