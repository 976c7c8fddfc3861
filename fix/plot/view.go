package plot

import (
	"fmt"
	"math"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/fix/internal/earth"
)

// A view is a sheet on which places stand in a plane that touches the earth at one of them.
type view struct {
	*drawing.Sheet
	at    earth.Frame
	small bool // for a small screen
}

// letters returns a size of letters, mm. For a small screen they are large enough for a small
// screen.
func (v *view) letters(size float64) float64 {
	if v.small {
		return max(size, 2.6)
	}
	return size
}

// ground is a place in metres north and east of where the plane touches the earth.
type ground struct{ north, east float64 }

// onPlane returns where a position is drawn. It is false for the half of the earth that is
// turned away.
func (v *view) onPlane(q angle.Position) (ground, bool) {
	north, east, ok := v.at.OnPlane(earth.Upright(q))
	return ground{north, east}, ok
}

// position returns the position of a place.
func (v *view) position(g ground) angle.Position {
	return earth.Position(v.at.Moved(g.north, g.east))
}

// spotOf returns the spot of a position in a panel, and whether it lies in it.
func (v *view) spotOf(c *panel, q angle.Position) (drawing.Spot, bool) {
	g, ok := v.onPlane(q)
	if !ok {
		return drawing.Spot{}, false
	}
	s := c.spot(g)
	return s, c.Holds(s)
}

// A panel is a rectangle of the sheet with a part of the plane in it.
type panel struct {
	drawing.Box
	middle ground
	scale  float64 // metres to the millimetre
	labels *drawing.Labels
	runs   []string // that are drawn, each once
}

// newPanel returns a panel without a scale.
func newPanel(b drawing.Box) *panel {
	return &panel{Box: b, scale: 1, labels: &drawing.Labels{Room: b.Grown(-0.6)}}
}

// spot returns where a place is drawn in the panel.
func (c *panel) spot(g ground) drawing.Spot {
	return drawing.At((c.Left+c.Right)/2+(g.east-c.middle.east)/c.scale, (c.Top+c.Bottom)/2-(g.north-c.middle.north)/c.scale)
}

// ground returns the place that is drawn at a spot.
func (c *panel) ground(s drawing.Spot) ground {
	return ground{c.middle.north - (s.Y-(c.Top+c.Bottom)/2)*c.scale, c.middle.east + (s.X-(c.Left+c.Right)/2)*c.scale}
}

// spots returns where some places lie in the panel.
func (c *panel) spots(places []ground) []drawing.Spot {
	out := make([]drawing.Spot, len(places))
	for i, g := range places {
		out[i] = c.spot(g)
	}
	return out
}

// An extent is the rectangle of some places.
type extent struct{ low, high ground }

// include widens the extent so that a place lies in it.
func (e *extent) include(g ground) {
	e.low = ground{min(e.low.north, g.north), min(e.low.east, g.east)}
	e.high = ground{max(e.high.north, g.north), max(e.high.east, g.east)}
}

// reach returns the longer side of the extent.
func (e *extent) reach() float64 {
	return max(e.high.north-e.low.north, e.high.east-e.low.east)
}

// fit sets the scale of a panel so that the extent lies in it, with room for names. It is at
// least as wide as reach.
func (c *panel) fit(e extent, reach float64) {
	beside := min(34, (c.Right-c.Left)/3) // for names
	c.middle = ground{(e.low.north + e.high.north) / 2, (e.low.east + e.high.east) / 2}
	c.scale = max((e.high.north-e.low.north+0.04*reach)/(c.Bottom-c.Top-12), (e.high.east-e.low.east+0.04*reach)/(c.Right-c.Left-beside), reach/(c.Right-c.Left-beside))
}

const (
	frameStyle  = `fill="none" stroke="black" stroke-width="0.3"`
	hollowStyle = `fill="white" stroke="black" stroke-width="0.4"`
)

// steps are the lengths of scales, in units.
var steps = []float64{0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000}

// caption writes the name of a panel above it, with its scale and an arrow to the north.
func (v *view) caption(c *panel, name string, unit float64, symbol string) {
	v.Text(drawing.At(c.Left, c.Top-2.5), `font-size="3.2" font-weight="bold"`, name)
	length := unit / 1000
	for _, n := range steps {
		if n*unit/c.scale <= 36 {
			length = n * unit
		}
	}
	label := fmt.Sprintf("%g %s", length/unit, symbol)
	right := c.Right - drawing.Letters*drawing.TextWidth(label) - 8
	left, y := right-length/c.scale, c.Top-3.2
	v.Line(drawing.At(left, y), drawing.At(right, y), `class="scale" stroke="black" stroke-width="0.5"`)
	for i := range 3 {
		x := left + (right-left)*float64(i)/2
		v.Line(drawing.At(x, y-0.9), drawing.At(x, y+0.9), `stroke="black" stroke-width="0.3"`)
	}
	v.Text(drawing.At(right+1.5, y+0.9), "", label)
	v.northArrow(drawing.At(c.Right-2, c.Top-3.6))
}

// northArrow draws an arrow to the north.
func (v *view) northArrow(at drawing.Spot) {
	v.Polygon("north", `fill="black"`, []drawing.Spot{at.Moved(0, -2.9), at.Moved(1, 2.7), at.Moved(0, 1.8), at.Moved(-1, 2.7)})
	v.Text(at.Moved(-1.8, 1), `text-anchor="end" font-weight="bold"`, "N")
}

// circle draws a circle in a style.
func (v *view) circle(s drawing.Spot, r float64, class, style string) {
	v.Put(`<circle class="%s" cx="%.2f" cy="%.2f" r="%.2f" %s/>`, class, s.X, s.Y, r, style)
}

// mark draws the symbol of a charted mark.
func (v *view) mark(s drawing.Spot) {
	v.Polygon("mark", `fill="black"`, []drawing.Spot{s.Moved(0, -1.2), s.Moved(1.2, 0), s.Moved(0, 1.2), s.Moved(-1.2, 0)})
}

// avoidRing keeps names off the outline of some spots.
func (c *panel) avoidRing(outline []drawing.Spot) {
	if len(outline) > 2 {
		c.labels.AvoidLine(append(outline[:len(outline):len(outline)], outline[0])...)
	}
}

// distance returns the distance of two spots, mm.
func distance(a, b drawing.Spot) float64 { return math.Hypot(a.X-b.X, a.Y-b.Y) }
