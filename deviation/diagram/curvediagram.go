package diagram

import (
	"fmt"
	"math"

	"lubberline.example/angle/drawing"
)

// The deviation curve's place on its sheet.
const (
	curveTop      = 29.5
	curvePerDeg   = 0.56 // mm to a degree of heading
	curveBottom   = curveTop + 360*curvePerDeg
	curveLeft     = 22.0
	curveCurve    = `fill="none" stroke="black" stroke-width="0.5" stroke-linejoin="round"`
	curveBand     = `fill="none" stroke="black" stroke-width="0.2" stroke-dasharray="1.4 0.9"`
	curveRMS      = `fill="none" stroke="black" stroke-width="0.3" stroke-dasharray="0.3 0.9"`
	curveBar      = `stroke="black" stroke-width="0.2"`
	curveNarrow   = 118.0 // right edge of the curve where residuals stand beside it
	residualsLeft = 133.0
)

// The scales of deviation, and the degrees between the lines of each.
var (
	curveLimits = []float64{1, 2, 3, 5, 8, 10, 15, 20, 30, 45, 60, 90}
	curveSteps  = map[float64]float64{1: 0.5, 2: 0.5, 3: 1, 5: 1, 8: 2, 10: 2, 15: 5, 20: 5, 30: 10, 45: 15, 60: 20, 90: 30}
)

// A curvePanel is a scale of deviation beside the headings.
type curvePanel struct {
	left, right float64 // edges, mm
	limit       float64 // degrees at the edges
	step        float64 // degrees between lines
}

// x returns the place of a deviation across the panel, in millimetres.
func (p curvePanel) x(east float64) float64 {
	return (p.left+p.right)/2 + float64(east/p.limit)*(p.right-p.left)/2
}

// at returns the place of a deviation on a heading.
func (p curvePanel) at(heading, east float64) drawing.Spot {
	return drawing.At(p.x(east), curveY(heading))
}

// box is what the panel covers.
func (p curvePanel) box() drawing.Box {
	return drawing.Box{Left: p.left, Top: curveTop, Right: p.right, Bottom: curveBottom}
}

// upright draws a line down the whole panel.
func (s svgSheet) upright(x float64, style string) {
	s.Line(drawing.At(x, curveTop), drawing.At(x, curveBottom), style)
}

// curveY returns the place of a heading down the page, in millimetres.
func curveY(heading float64) float64 { return curveTop + float64(heading*curvePerDeg) }

// Curve draws the deviation curve: compass headings down the page,
// west to the left and east to the right. Where the source states its
// uncertainty, the curve has one standard uncertainty on both sides of it.
// If there are observations, a second panel shows their residuals, observation minus curve. An
// observation that was left out of the curve appears there only if the scale has room.
//
// It returns an [*Error] where there is no source, or its answer can't be drawn.
func Curve(d Plot) (*drawing.Sheet, error) {
	p, err := d.plot()
	if err != nil {
		return nil, err
	}
	s := newSVGSheet("Deviation curve", fmt.Sprintf("Deviation against compass heading, 000 to 360 degrees down the page, west to the left and east to the right; %s", p.describe()), d.Details)

	main := curvePanel{left: curveLeft, right: bodyRight - 2}
	if len(p.observed) > 0 {
		main.right = curveNarrow
	}
	main.limit = roundLimit(reach(p.curve, p.observed), curveLimits...)
	main.step = curveSteps[main.limit]
	s.headings()
	s.panel(main, "Deviation")
	s.Clip("curve-panel", main.box(), func() {
		s.band(main, p, true)
		var line []drawing.Spot
		for h := range 361 {
			at := p.at(h)
			line = append(line, main.at(at.heading, at.east))
		}
		s.Polyline("curve", curveCurve, line)
	})
	s.marks(main, p.observed)
	s.crosses(main, p.rejected)
	s.beyond(main, p.rejected)
	if len(p.observed) > 0 {
		s.residuals(p)
	}
	s.curveLegend(p, len(within(p.rejected, main.limit)) < len(p.rejected))
	s.foot("Find the compass heading at the side and go across to the curve: the scale above and below tells the deviation.",
		"Compass to magnetic: add east, subtract west. Magnetic to compass: the other way.")
	return s.Sheet, nil
}

// headings writes the figures of the headings, which all panels share.
func (s svgSheet) headings() {
	s.Put(`<text transform="translate(%.2f %.2f) rotate(-90)" text-anchor="middle" font-size="3">Heading by compass</text>`, bodyLeft+3, curveY(180))
	for h := 0; h <= 360; h += 15 {
		y := curveY(float64(h)) + 1
		s.Text(drawing.At(curveLeft-4, y), `text-anchor="end"`, headingFigure(h))
		if point := headingPoint(h); point != "" {
			s.Text(drawing.At(curveLeft-11, y), `text-anchor="end" font-weight="bold"`, point)
		}
	}
}

// panel draws the lines and the figures of a panel.
func (s svgSheet) panel(p curvePanel, name string) {
	for h := 0; h <= 360; h += 15 {
		style := `stroke="#bbb" stroke-width="0.12"`
		if h%45 == 0 {
			style = `stroke="#888" stroke-width="0.18"`
		}
		y := curveY(float64(h))
		s.Line(drawing.At(p.left, y), drawing.At(p.right, y), style)
	}
	n := int(math.Round(p.limit / p.step))
	for i := -n; i <= n; i++ {
		x := p.x(float64(i) * p.step)
		style := `stroke="#bbb" stroke-width="0.12"`
		if i == 0 {
			style = `stroke="black" stroke-width="0.3"`
		}
		s.upright(x, style)
		for _, y := range []float64{curveTop - 1.8, curveBottom + 4} {
			s.Text(drawing.At(x, y), `text-anchor="middle"`, eastWestFigure(float64(i)*p.step))
		}
	}
	s.Rectangle(p.box(), `fill="none" stroke="black" stroke-width="0.3"`)
	s.Text(drawing.At((p.left+p.right)/2, curveTop-6.3), `text-anchor="middle" font-size="3" font-weight="bold"`, name)
}

// band draws one standard uncertainty to both sides of the curve, or of zero,
// on the headings where it is stated and more than zero.
func (s svgSheet) band(p curvePanel, data *plotData, onCurve bool) {
	for _, side := range []float64{-1, 1} {
		var line []drawing.Spot
		for h := range 362 {
			at := data.at(h)
			if h > 360 || at.sigma == 0 {
				if len(line) > 1 {
					s.Polyline("band", curveBand, line)
				}
				line = nil
				continue
			}
			// What lies far outside is cut off in any case, and drawing it
			// there could be taken for an error.
			east := side * min(at.sigma, 2*p.limit)
			if onCurve {
				east += at.east
			}
			line = append(line, p.at(at.heading, east))
		}
	}
}

// marks draws observations with their uncertainties, one on north at both ends.
func (s svgSheet) marks(p curvePanel, points []plotPoint) {
	for _, o := range points {
		at := []float64{o.heading}
		if o.heading == 0 {
			at = append(at, 360)
		}
		for _, h := range at {
			if o.stated {
				west, east := max(o.east-o.sigma, -p.limit), min(o.east+o.sigma, p.limit)
				s.Line(p.at(h, west), p.at(h, east), curveBar)
				for _, end := range []float64{o.east - o.sigma, o.east + o.sigma} {
					if math.Abs(end) > p.limit {
						continue // it goes on beyond the panel
					}
					x, y := p.x(end), curveY(h)
					s.Line(drawing.At(x, y-0.6), drawing.At(x, y+0.6), curveBar)
				}
			}
			s.circle(p.at(h, o.east))
		}
	}
}

// crosses draws what was left out, where there is room for it.
func (s svgSheet) crosses(p curvePanel, points []plotPoint) {
	for _, o := range within(points, p.limit) {
		s.cross(p.at(o.heading, o.east))
		if o.heading == 0 {
			s.cross(p.at(360, o.east))
		}
	}
}

// beyond draws what was left out and lies beyond the scale: at the edge, with its
// figure.
func (s svgSheet) beyond(p curvePanel, points []plotPoint) {
	for _, o := range points {
		if math.Abs(o.east) <= p.limit {
			continue
		}
		edge, into, anchor := p.right, -2.0, "end"
		if o.east < 0 {
			edge, into, anchor = p.left, 2, "start"
		}
		at := drawing.At(edge, curveY(o.heading))
		s.cross(at)
		s.Text(at.Moved(into, -0.6), fmt.Sprintf(`text-anchor="%s"`, anchor), eastWestFigure(math.Round(o.east*10)/10))
	}
}

// residuals draws what the observations leave over.
func (s svgSheet) residuals(data *plotData) {
	p := curvePanel{left: residualsLeft, right: bodyRight - 2}
	p.limit = roundLimit(reach(data.residuals), 0.5, 1, 2, 4, 10, 20, 40, 90, 180)
	p.step = p.limit / 2
	s.panel(p, "Observation − curve")
	s.Clip("residuals-panel", p.box(), func() {
		s.band(p, data, false)
		rms := rootMeanSquare(data.residuals)
		for _, side := range []float64{-1, 1} {
			s.upright(p.x(side*rms), curveRMS)
		}
	})
	s.marks(p, data.residuals)
	s.crosses(p, data.rejectedResiduals)
}

// rootMeanSquare returns the root mean square of the deviations.
func rootMeanSquare(points []plotPoint) float64 {
	sum := 0.0
	for _, p := range points {
		sum += float64(p.east * p.east)
	}
	return math.Sqrt(sum / float64(max(1, len(points))))
}

// curveLegend says what each kind of line is, where there is one, and whether some of
// what was left out is beyond the scale.
func (s svgSheet) curveLegend(data *plotData, beyond bool) {
	x, y := bodyLeft, curveBottom+10
	next := func(width float64, mark func(at drawing.Spot), text string) {
		if x+width > bodyRight {
			x, y = bodyLeft, y+4.5
		}
		mark(drawing.At(x, y-1))
		s.Text(drawing.At(x+12, y), "", text)
		x += width
	}
	line := func(style string) func(drawing.Spot) {
		return func(at drawing.Spot) { s.Line(at, at.Moved(10, 0), style) }
	}
	next(40, line(curveCurve), "deviation curve")
	for _, p := range data.curve {
		if p.sigma > 0 {
			next(73, line(curveBand), "± one standard uncertainty of the curve")
			break
		}
	}
	if len(data.rejected) > 0 {
		text, width := rejectedText, 65.0
		if beyond {
			text, width = text+"; at the edge: beyond the scale", 85
		}
		next(width, func(at drawing.Spot) { s.cross(at.Moved(5, 0)) }, text)
	}
	if len(data.observed) == 0 {
		return
	}
	text := "observation"
	for _, o := range data.observed {
		if o.stated {
			text += ", with ± its standard uncertainty"
			break
		}
	}
	next(80, func(at drawing.Spot) { s.circle(at.Moved(5, 0)) }, text)
	next(90, line(curveRMS), fmt.Sprintf("± root mean square of observation − curve: %.2f°", rootMeanSquare(data.residuals)))
}
