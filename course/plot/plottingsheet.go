package plot

import (
	"cmp"
	"fmt"
	"math"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
)

// A Graticule is a part of a Mercator chart on WGS84. The zero value has no scale, which only
// [Passage] accepts. [Covering] makes one from limits.
type Graticule struct {
	Title string // if empty, the kind of drawing and its scale

	// Middle is the position in the middle of the chart. Scale is the number of the scale in the
	// latitude of Middle, from 1,000 to 50,000,000: 75000 for 1:75 000.
	Middle angle.Position
	Scale  float64

	// Width and Height are those of the drawing with its border, from 90 to 1,200 mm. If both
	// are 0, they are those of A4 paper upright, 190 by 250 mm. A3 holds 277 by 370 mm, and A2
	// 400 by 545 mm.
	Width, Height float64

	Roses []Rose // each at its place

	reserve float64 // the height below the chart and its scales, for a key, mm
}

// PlottingSheet draws an empty Mercator chart to plot on, for any latitude up to 85°. Its border is
// divided into minutes and parts of a minute, as that of a chart. A scale of distance stands below
// it. If the scale differs over the sheet, there are three for three latitudes. Printed at full
// scale, the lines are right to 0.1 mm.
//
// For a number out of range, or a sheet that goes beyond 85°, it returns an
// [*angle.RangeError].
func PlottingSheet(g Graticule) (*drawing.Sheet, error) {
	m, roses, err := g.chartAndRoses()
	if err != nil {
		return nil, err
	}
	s := m.sheet(g, fmt.Sprintf("Plotting sheet %s", m.scaleText(g)), "An empty Mercator chart to plot on")
	m.graticule(s, func() { drawRoses(s, roses) })
	m.foot(s, g)
	return s, nil
}

// The parts of a sheet below its chart, mm.
const (
	footLine = 4.2 // a line of text
	footRow  = 7.5 // a scale of distance
)

// sized returns the graticule with the width and height that it has if both are 0.
func (g Graticule) sized() Graticule {
	if g.Width == 0 && g.Height == 0 {
		g.Width, g.Height = 190, 250
	}
	return g
}

// maxScale is the number of the smallest scale.
const maxScale = 50e6

// maxSide is the greatest width and height of a chart, mm.
const maxSide = 1200

// chart returns the chart in its frame.
func (g Graticule) chart() (mercator, error) {
	var m mercator
	g = g.sized()
	if !(g.Scale >= 1000 && g.Scale <= maxScale) {
		return m, &angle.RangeError{What: "scale of a chart", Value: g.Scale, Accepted: "from 1,000 to 50,000,000, for 1 to that number"}
	}
	for _, side := range []float64{g.Width, g.Height} {
		if !(side >= 90 && side <= maxSide) {
			return m, &angle.RangeError{What: "width or height of a chart", Value: side, Accepted: "each from 90 to 1,200 mm, or both 0 for A4 paper; with Covering, another scale or other limits"}
		}
	}
	edge := borderWidth + borderAbove
	f := drawing.Box{Left: borderWidth + borderBeside, Top: edge, Right: g.Width - borderWidth - borderBeside, Bottom: g.Height - edge - footLine - footRow - g.reserve}
	m = newMercator(g.Middle, g.Scale, f)
	if m.varies() {
		f.Bottom -= 2 * footRow
		m = newMercator(g.Middle, g.Scale, f)
	}
	if (f.Right-f.Left)/m.perMinute > 360*60 {
		return m, &angle.RangeError{What: "scale of a chart", Value: g.Scale, Accepted: "one whose sheet is at most 360° of longitude wide; give a smaller number"}
	}
	for _, y := range []float64{f.Top, f.Bottom} {
		parts := m.parts + (m.centre().Y-y)/m.perMinute
		if limit := math.Atanh(math.Sin(maxMercator*math.Pi/180)) * 10800 / math.Pi; !(math.Abs(parts) < limit-25) {
			return m, &angle.RangeError{What: "latitude of the middle of a chart", Value: g.Middle.Latitude.Degrees(), Accepted: "degrees, such that the whole sheet is between 85°S and 85°N; or give a larger scale"}
		}
	}
	return m, nil
}

// varies reports whether the scale differs over the chart by more than two hundredths.
func (m mercator) varies() bool {
	least, greatest := math.Inf(1), 0.0
	for _, l := range m.latitudes() {
		least, greatest = min(least, m.mile(l)), max(greatest, m.mile(l))
	}
	return greatest > 1.02*least
}

// latitudes returns a latitude near the upper edge, that of the middle and one near the lower edge.
func (m mercator) latitudes() []angle.Latitude {
	f := m.frame
	return []angle.Latitude{minutesNorth(m.latitude(f.Top)), m.middle.Latitude, minutesNorth(m.latitude(f.Bottom))}
}

// scaleText returns the scale and its latitude: 1:75 000 in 47°N.
func (m mercator) scaleText(g Graticule) string {
	text := fmt.Sprintf("%.0f", g.Scale)
	for i := len(text) - 3; i > 0; i -= 3 {
		text = text[:i] + "\u00a0" + text[i:]
	}
	latitude := ""
	for _, part := range figureLines(g.Middle.Latitude.Angle().Round(angle.Minute/10), "N", "S", "%.0f") {
		latitude += part
	}
	return "1:" + text + " in " + latitude
}

// sheet returns an empty sheet for the chart.
func (m mercator) sheet(g Graticule, title, what string) *drawing.Sheet {
	f := m.frame
	text := fmt.Sprintf("%s, Mercator projection on WGS 84, %s. It reaches from %.1v to %.1v and from %.1v to %.1v.", what, m.scaleText(g),
		minutesNorth(m.latitude(f.Bottom)), minutesNorth(m.latitude(f.Top)), minutesEast(m.longitude(f.Left)), minutesEast(m.longitude(f.Right)))
	g = g.sized()
	s := drawing.New(g.Width, g.Height, cmp.Or(g.Title, title), text)
	s.Caution("Not for navigation without a chart: the sheet shows no depths and no dangers. Measure the frame after printing: the printer may have changed the scale.")
	return s
}

// chartAndRoses returns the chart, and the roses at their places.
func (g Graticule) chartAndRoses() (mercator, []*rosePen, error) {
	m, err := g.chart()
	if err != nil {
		return m, nil, err
	}
	roses, err := m.roses(g.Roses)
	return m, roses, err
}

// roses returns the roses at their places.
func (m mercator) roses(all []Rose) ([]*rosePen, error) {
	var pens []*rosePen
	for _, r := range all {
		r.Direction = nil
		p, err := r.pen()
		if err != nil {
			return nil, err
		}
		p.centre = m.spot(r.At)
		p.halo = true
		switch f := m.frame; {
		case p.centre.X < f.Left || p.centre.X > f.Right:
			return nil, &angle.RangeError{What: "longitude of a rose", Value: r.At.Longitude.Degrees(), Accepted: fmt.Sprintf("degrees east on the sheet, from %.1f to %.1f", m.longitude(f.Left)/60, m.longitude(f.Right)/60)}
		case p.centre.Y < f.Top || p.centre.Y > f.Bottom:
			return nil, &angle.RangeError{What: "latitude of a rose", Value: r.At.Latitude.Degrees(), Accepted: fmt.Sprintf("degrees north on the sheet, from %.1f to %.1f", m.latitude(f.Bottom)/60, m.latitude(f.Top)/60)}
		}
		pens = append(pens, p)
	}
	return pens, nil
}

// drawRoses draws roses on a sheet.
func drawRoses(s *drawing.Sheet, all []*rosePen) {
	for _, p := range all {
		p.Sheet = s
		p.draw()
	}
}

// foot writes the projection and draws the scales of distance below the chart. It returns the
// ordinate below them.
func (m mercator) foot(s *drawing.Sheet, g Graticule) float64 {
	f := m.frame
	y := f.Bottom + borderWidth + borderAbove + 3.4
	s.Text(drawing.At(f.Left-borderWidth, y), "", fmt.Sprintf("Mercator, WGS 84, %s. Nautical miles:", m.scaleText(g)))
	all := m.latitudes()
	if !m.varies() {
		all = all[1:2]
	}
	for i, l := range all {
		m.distances(s, y+footRow*float64(i)+3, l)
	}
	return y + footRow*float64(len(all)) + 2
}

// distances draws the scale of distance of a latitude. Left of its zero a unit is divided into
// ten parts.
func (m mercator) distances(s *drawing.Sheet, y float64, l angle.Latitude) {
	f, mile := m.frame, m.mile(l)
	unit := 0.0
	for power := 0.1; unit == 0; power *= 10 {
		for _, n := range []float64{1, 2, 5} {
			if n*power*mile >= 14 {
				unit = n * power
				break
			}
		}
	}
	room := f.Right - f.Left - 18
	count := min(max(math.Floor(room/(unit*mile))-1, 1), 10)
	zero := f.Left + 14 + unit*mile
	if count*unit*mile > room-unit*mile { // a unit is as wide as the sheet
		count = 0
	}
	s.Text(drawing.At(f.Left-borderWidth, y+2.4), "", figureText(l))
	for i := range 10 {
		fill := `fill="none" `
		if i%2 == 0 {
			fill = `fill="black" `
		}
		left := zero - unit*mile*float64(i+1)/10
		s.Rectangle(drawing.Box{Left: left, Top: y, Right: left + unit*mile/10, Bottom: y + 1}, fill+borderThin)
	}
	for i := range int(count) {
		fill := `fill="none" `
		if i%2 == 1 {
			fill = `fill="black" `
		}
		left := zero + unit*mile*float64(i)
		s.Rectangle(drawing.Box{Left: left, Top: y, Right: left + unit*mile, Bottom: y + 1}, `class="distance" `+fill+borderThin)
	}
	for i := -1; i <= int(count); i++ {
		text := fmt.Sprintf("%g", math.Abs(math.Round(unit*float64(i)*10)/10))
		if i == int(count) {
			text += " M"
		}
		s.Text(drawing.At(zero+unit*mile*float64(i), y+3.9), `text-anchor="middle"`, text)
	}
}

// figureText returns a latitude to a minute.
func figureText(l angle.Latitude) string {
	text := ""
	for _, part := range figureLines(l.Angle().Round(angle.Minute), "N", "S", "%.0f") {
		text += part
	}
	return text
}
