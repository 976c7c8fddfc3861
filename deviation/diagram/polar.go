package diagram

import (
	"fmt"
	"math"
	"strings"

	"lubberline.example/angle/drawing"
)

// Measures of a polar plot, mm.
const (
	polarWidth  = 94.0
	polarZero   = 26.5 // radius of no deviation
	polarReach  = 13.0 // from there to the ends of the scale
	polarFigure = 43.9 // radius of the headings' figures
	polarSize   = drawing.Letters
	polarLine   = 4.2 // of the legend
)

// Polar draws a swing about the compass. Headings go round the circle, with north up. The deviation
// is drawn from a ring of no deviation, east outward and west inward. Where the source states its
// uncertainty, the curve has one standard uncertainty on both sides. It is narrow enough for a
// small screen.
//
// It returns an [*Error] where there is no source, or its answer can't be drawn.
func Polar(d Plot) (*drawing.Sheet, error) {
	p, err := d.plot()
	if err != nil {
		return nil, err
	}
	fields := newFields(d.Details)
	top := fields.height(polarWidth)
	legend := p.polarLegend()
	mid := drawing.At(polarWidth/2, top+polarFigure+4)
	rows := 1
	for _, k := range legend {
		rows += len(k.lines())
	}
	height := mid.Y + polarFigure + 7 + polarLine*float64(rows)
	s := svgSheet{drawing.New(polarWidth, height, titled("Swing of the compass", d.Details), fmt.Sprintf("Deviation about the compass, north up: east outside the ring of no deviation, west inside it; %s; largest %s; %s", p.eight(), largestText(p), p.describe()))}
	s.Caution(svgCaution)
	fields.draw(s, polarWidth)
	polar := &polarPlot{svgSheet: s, data: p, mid: mid}
	polar.limit = roundLimit(reach(p.curve, p.observed), curveLimits...)
	polar.grid()
	polar.curve()
	polar.marks()
	polar.figures()
	polar.writeLegend(mid.Y+polarFigure+8, legend)
	return s.Sheet, nil
}

// eight names the deviations on the principal headings.
func (data *plotData) eight() string {
	var list []string
	for h := 0; h < 360; h += 45 {
		list = append(list, headingPoint(h)+" "+tenthsText(data.at(h).east))
	}
	return strings.Join(list, ", ")
}

// A polarPlot is a polar plot as it is drawn.
type polarPlot struct {
	svgSheet
	data  *plotData
	mid   drawing.Spot
	limit float64 // degrees at the ends of the scale
}

// at returns the place of a deviation on a heading.
func (p *polarPlot) at(heading, east float64) drawing.Spot {
	return onCircle(p.mid, heading, polarZero+float64(polarReach*east)/p.limit)
}

// grid draws the rings and the spokes, and the figures of the headings.
func (p *polarPlot) grid() {
	for i := -2; i <= 2; i++ {
		style := `fill="none" stroke="#999" stroke-width="0.15"`
		if i == 0 {
			style = `fill="none" stroke="black" stroke-width="0.35"`
		}
		p.Put(`<circle cx="%.2f" cy="%.2f" r="%.2f" %s/>`, p.mid.X, p.mid.Y, polarZero+polarReach*float64(i)/2, style)
	}
	for h := 0; h < 360; h += 15 {
		style := `stroke="#bbb" stroke-width="0.12"`
		if h%45 == 0 {
			style = `stroke="#888" stroke-width="0.18"`
		}
		p.Line(p.at(float64(h), -p.limit), p.at(float64(h), p.limit), style)
		text, weight := headingFigure(h), "normal"
		if point := headingPoint(h); point != "" {
			text, weight = point, "bold"
		}
		p.Text(onCircle(p.mid, float64(h), polarFigure).Moved(0, 0.36*polarSize), fmt.Sprintf(`class="heading" text-anchor="middle" font-size="%.1f" font-weight="%s"`, polarSize, weight), text)
	}
	p.Text(p.mid.Moved(0, -1), `text-anchor="middle"`, "outside: east")
	p.Text(p.mid.Moved(0, 3), `text-anchor="middle"`, "inside: west")
}

// curve draws the band of one standard uncertainty and the curve.
func (p *polarPlot) curve() {
	for _, side := range []float64{-1, 1} {
		var line []drawing.Spot
		for h := range 362 {
			at := p.data.at(h)
			east := at.east + side*at.sigma
			if h > 360 || at.sigma == 0 || math.Abs(east) > p.limit { // cut off at the ends of the scale
				if len(line) > 1 {
					p.Polyline("band", curveBand, line)
				}
				line = nil
				continue
			}
			line = append(line, p.at(at.heading, east))
		}
	}
	var line []drawing.Spot
	for h := range 360 {
		line = append(line, p.at(float64(h), p.data.at(h).east))
	}
	p.Polygon("curve", curveCurve, line)
}

// marks draws the observations, and what was left out where the scale has room.
func (p *polarPlot) marks() {
	for _, o := range p.data.observed {
		p.circle(p.at(o.heading, o.east))
	}
	for _, o := range within(p.data.rejected, p.limit) {
		p.cross(p.at(o.heading, o.east))
	}
}

// figures writes the scale along the spoke, between headings, where least is drawn.
func (p *polarPlot) figures() {
	boxes := func(spoke float64) (list []drawing.Box) {
		for i := -2; i <= 2; i++ {
			list = append(list, drawing.Around(p.at(spoke, p.limit*float64(i)/2), 5, 1.6))
		}
		return list
	}
	best, least := 0.0, math.Inf(1)
	for spoke := 7.5; spoke < 360; spoke += 15 {
		// Where the spoke is steep the figures have most room, and where it is flat too little.
		crossed := math.Abs(math.Sin(spoke * math.Pi / 180))
		if crossed > 0.85 {
			continue
		}
		for _, b := range boxes(spoke) {
			for h := range 360 {
				if b.Holds(p.at(float64(h), p.data.at(h).east)) {
					crossed++
				}
			}
			for _, o := range append(within(p.data.rejected, p.limit), p.data.observed...) {
				if b.Grown(1).Holds(p.at(o.heading, o.east)) {
					crossed += 5
				}
			}
		}
		if crossed < least {
			best, least = spoke, crossed
		}
	}
	for i := -2; i <= 2; i++ {
		east := p.limit * float64(i) / 2
		p.Text(p.at(best, east).Moved(0, 1), `class="scale" text-anchor="middle" stroke="white" stroke-width="0.9" stroke-linejoin="round" paint-order="stroke"`, eastWestFigure(east))
	}
}

// A polarKey is a line of the legend: a mark and a text.
type polarKey struct {
	mark func(s svgSheet, at drawing.Spot)
	text string
}

// polarLegend returns the lines of the legend.
func (data *plotData) polarLegend() []polarKey {
	line := func(style string) func(svgSheet, drawing.Spot) {
		return func(s svgSheet, at drawing.Spot) { s.Line(at, at.Moved(10, 0), style) }
	}
	keys := []polarKey{{line(curveCurve), "deviation curve: largest " + largestText(data)}}
	for _, p := range data.curve {
		if p.sigma > 0 {
			keys = append(keys, polarKey{line(curveBand), "± one standard uncertainty of the curve"})
			break
		}
	}
	if len(data.observed) > 0 {
		keys = append(keys, polarKey{func(s svgSheet, at drawing.Spot) { s.circle(at.Moved(5, 0)) }, "observation"})
	}
	if len(data.rejected) > 0 {
		limit := roundLimit(reach(data.curve, data.observed), curveLimits...)
		text := rejectedText
		var beyond []string
		for _, o := range data.rejected {
			if math.Abs(o.east) > limit {
				beyond = append(beyond, fmt.Sprintf("%s on %s°C", tenthsText(o.east), headingFigure(int(math.Round(o.heading)))))
			}
		}
		switch {
		case len(beyond) > 3:
			text += fmt.Sprintf("; beyond this scale, and not drawn: %d", len(beyond))
		case len(beyond) > 0:
			text += "; beyond this scale: " + strings.Join(beyond, ", ")
		}
		keys = append(keys, polarKey{func(s svgSheet, at drawing.Spot) { s.cross(at.Moved(5, 0)) }, text})
	}
	return keys
}

// lines returns the text of the legend in lines.
func (k polarKey) lines() []string {
	return drawing.Wrapped(k.text, (polarWidth-12)/polarSize)
}

// writeLegend writes the legend, and how the plot is read.
func (p *polarPlot) writeLegend(y float64, keys []polarKey) {
	for _, k := range keys {
		k.mark(p.svgSheet, drawing.At(0, y-1))
		for _, line := range k.lines() {
			p.Text(drawing.At(12, y), "", line)
			y += polarLine
		}
	}
	p.Text(drawing.At(0, y), "", "Headings are by compass.")
}
