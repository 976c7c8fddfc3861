package plot

import (
	"cmp"
	"math"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/course/sailing"
)

// chartMargin is the room between positions and the frame of a chart that is fitted to them, mm.
// A narrow chart has a tenth of its width.
const chartMargin = 11.0

// scales are the scales that a chart is fitted to, times a power of ten.
var scales = []float64{1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 7.5}

// fitted returns the graticule of the largest round scale that holds some positions and the
// roses. If it has a scale, fitted checks that they fit.
func (g Graticule) fitted(positions []angle.Position) (Graticule, error) {
	if g.Scale != 0 {
		m, err := g.chart()
		if err == nil && !g.holds(m, positions, 0) {
			err = &angle.RangeError{What: "scale of a chart", Value: g.Scale, Accepted: "a greater number, or another middle, that shows all positions; or 0 to choose both"}
		}
		return g, err
	}
	var last error
	drawable := false
	for power := 1000.0; power <= 1e7; power *= 10 {
		for _, s := range scales {
			g.Scale = s * power
			if g.Scale > maxScale {
				break
			}
			g.Middle = g.between(positions)
			m, err := g.chart()
			if err == nil && g.holds(m, positions, min(chartMargin, (m.frame.Right-m.frame.Left)/10)) {
				return g, nil
			}
			drawable, last = drawable || err == nil, err
		}
	}
	if drawable {
		width := g.sized().Width
		return g, &angle.RangeError{What: "width of a chart in millimetres", Value: width, Accepted: "a greater width and height that hold all positions and roses; or smaller roses, nearer to the tracks"}
	}
	return g, last
}

// holds reports whether positions and roses lie in the frame of a chart, a margin from it.
func (g Graticule) holds(m mercator, positions []angle.Position, margin float64) bool {
	inside := m.frame.Grown(-margin)
	for _, p := range positions {
		if !inside.Holds(m.spot(p)) {
			return false
		}
	}
	for _, r := range g.Roses {
		s, half := m.spot(r.At), r.radius()+5
		if !drawing.Around(s, half, half).Within(m.frame) && margin > 0 {
			return false
		}
	}
	return true
}

// between returns the middle of positions and roses at the scale of the graticule.
func (g Graticule) between(positions []angle.Position) angle.Position {
	middle := positions[0]
	for range 3 { // the length of a minute depends on the latitude of the middle
		m := newMercator(middle, g.Scale, drawing.Box{})
		box := drawing.Box{Left: math.Inf(1), Top: math.Inf(1), Right: math.Inf(-1), Bottom: math.Inf(-1)}
		hold := func(s drawing.Spot, half float64) {
			box = drawing.Box{Left: min(box.Left, s.X-half), Top: min(box.Top, s.Y-half), Right: max(box.Right, s.X+half), Bottom: max(box.Bottom, s.Y+half)}
		}
		x, at := 0.0, middle.Longitude
		for _, p := range positions { // on across the date line
			x, at = x+p.Longitude.Sub(at).Minutes()*m.perMinute, p.Longitude
			hold(drawing.At(x, m.ordinate(p.Latitude)), chartMargin)
		}
		for _, r := range g.Roses {
			hold(m.spot(r.At), r.radius()+5)
		}
		middle = angle.Position{
			Latitude:  minutesNorth(m.latitude((box.Top + box.Bottom) / 2)),
			Longitude: middle.Longitude.Add(angle.Angle(math.Round((box.Left + box.Right) / 2 / m.perMinute * float64(angle.Minute)))),
		}
	}
	return middle
}

// radius returns the radius of a rose in mm.
func (r Rose) radius() float64 { return cmp.Or(r.Diameter, 80) / 2 }

// line returns many spots along a leg: a straight line on the chart for a rhumb line, and a curve
// for a great circle.
func (m mercator) line(from, to angle.Position, circle bool) []drawing.Spot {
	if circle {
		if g, err := sailing.WGS84().GreatCircle(from, to); err == nil {
			var spots []drawing.Spot
			const parts = 60
			for i := range parts + 1 {
				p, _ := g.At(g.Distance * sailing.Distance(i) / parts)
				spots = append(spots, m.spot(p))
			}
			return spots
		}
	}
	return []drawing.Spot{m.spot(from), m.spot(to)}
}
