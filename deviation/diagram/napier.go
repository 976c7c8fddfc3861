package diagram

import (
	"fmt"
	"math"

	"lubberline.example/angle/drawing"
)

// The place of Napier's diagram on its sheet. The axis goes on beyond the ends
// of a column, so that a line can be followed out and back there.
const (
	napierTop    = 23.5
	napierHeight = 220.5
	napierOver   = 15 // degrees of the axis before and after a column
	napierEvery  = 15 // degrees between lines
	napierWidest = 45 // degrees for which two columns have room

	napierDotted = `stroke="#333" stroke-width="0.3" stroke-linecap="round" stroke-dasharray="0.01 0.85"`
	napierPlain  = `stroke="#777" stroke-width="0.15"`
)

// The lines leave the axis at 60°, and so rise or fall at 30° to the level.
var (
	sin60 = math.Sqrt(3) / 2
	tan30 = 1 / math.Sqrt(3)
)

// A napierColumn is a stretch of the diagram's axis. Places in it are counted
// in millimetres from the axis and from heading 000 on it, wherever that is.
type napierColumn struct {
	svgSheet
	data       *plotData
	class      string
	from, to   int     // headings at the ends
	limit      float64 // deviation at the sides
	axis       float64 // x of the axis on the sheet
	perDeg     float64 // mm to a degree along the axis
	low, high  float64 // ends, mm
	half       float64 // half its width, mm
	firstPoint int     // the curve's points, from beyond the ends
	lastPoint  int
}

// napierPlace returns the place of a deviation on a compass heading: along the dotted line from the
// heading, at a distance equal to the deviation.
func napierPlace(heading, east, perDeg float64) drawing.Spot {
	return drawing.At(perDeg*east*sin60, perDeg*(heading+east/2))
}

// box is what the column covers.
func (c *napierColumn) box() drawing.Box {
	return drawing.Box{Left: -c.half, Top: c.low, Right: c.half, Bottom: c.high}
}

// Napier draws Napier's diagram, on which compass headings are
// turned into magnetic ones and back with pencil and triangle, without adding
// or subtracting. Headings go down the page, in two columns where no deviation
// is larger than 45°, and east is to the right.
//
// It returns an [*Error] where there is no source, or its answer can't be drawn.
func Napier(d Plot) (*drawing.Sheet, error) {
	p, err := d.plot()
	if err != nil {
		return nil, err
	}
	limit := roundLimit(mostEast(p.curve, p.observed), 20, 30, napierWidest, 60, 90)
	s := newSVGSheet("Napier’s diagram", fmt.Sprintf("Napier’s diagram of the deviation: headings down a vertical axis, crossed each 15 degrees by dotted and plain lines at 60 degrees to it, east to the right, with the curve of the deviation; %s", p.describe()), d.Details)
	if limit > napierWidest {
		s.napierColumn(p, "napier-whole", 0, 360, limit, 91)
	} else {
		s.napierColumn(p, "napier-east", 0, 180, limit, 44)
		s.napierColumn(p, "napier-west", 180, 360, limit, 138)
	}
	s.napierLegend(p, limit)
	s.foot("From compass to magnetic: go out along the dotted line to the curve and back along the plain line.",
		"From magnetic to compass: out along the plain, back along the dotted. Between lines, go parallel to them.")
	return s.Sheet, nil
}

// napierColumn draws one column.
func (s svgSheet) napierColumn(p *plotData, class string, from, to int, limit, axis float64) {
	k := napierHeight / float64(to-from+2*napierOver)
	beyond := int(limit/2) + 1
	c := &napierColumn{
		svgSheet: s, data: p, class: class, from: from, to: to, limit: limit, axis: axis, perDeg: k,
		low: k * float64(from-napierOver), high: k * float64(to+napierOver), half: k * limit * sin60,
		firstPoint: from - napierOver - beyond, lastPoint: to + napierOver + beyond,
	}
	s.Put(`<g transform="translate(%.2f %.2f)">`, axis, napierTop-c.low)
	c.lines()
	c.graduation()
	c.figures()
	c.curve()
	s.Put(`</g>`)
}

// lines draws both families and the frame.
func (c *napierColumn) lines() {
	c.Clip(c.class, c.box(), func() {
		rise := c.half * tan30
		first := c.firstPoint - c.firstPoint%napierEvery
		for h := first; h <= c.lastPoint; h += napierEvery {
			y := c.perDeg * float64(h)
			c.Line(drawing.At(-c.half, y+rise), drawing.At(c.half, y-rise), napierPlain)
			// Two halves, so that a dot stands on the axis and the others lie the
			// same way on both sides of it.
			axis := drawing.At(0, y)
			c.Line(axis, drawing.At(c.half, y+rise), napierDotted)
			c.Line(axis, drawing.At(-c.half, y-rise), napierDotted)
		}
	})
	c.Rectangle(c.box(), `fill="none" stroke="black" stroke-width="0.25"`)
}

// graduation draws the axis, and the scale of deviation at the column's head.
func (c *napierColumn) graduation() {
	c.Line(drawing.At(0, c.low), drawing.At(0, c.high), `stroke="black" stroke-width="0.3"`)
	every := 1
	if c.perDeg < 1 {
		every = 5 // ticks must not run together
	}
	for h := c.from - napierOver; h <= c.to+napierOver; h += every {
		length := 0.5
		switch {
		case h%15 == 0:
			length = 1.4
		case h%5 == 0:
			length = 1
		}
		y := c.perDeg * float64(h)
		c.Line(drawing.At(-length, y), drawing.At(length, y), `stroke="black" stroke-width="0.15"`)
	}
	ticks, figures := 5, 15
	switch {
	case c.limit <= 20:
		figures = 20 // no room for more
	case c.limit > napierWidest:
		ticks, figures = 10, 30
	}
	most := int(c.limit)
	for d := -most; d <= most; d += ticks {
		x := napierPlace(0, float64(d), c.perDeg).X
		c.Line(drawing.At(x, c.low-0.9), drawing.At(x, c.low), `stroke="black" stroke-width="0.2"`)
		if d%figures == 0 {
			c.Text(drawing.At(x, c.low-1.8), `text-anchor="middle"`, eastWestFigure(float64(d)))
		}
	}
}

// figures writes the headings beside the axis, on the side where the curve does
// not pass.
func (c *napierColumn) figures() {
	for h := c.from - napierOver; h <= c.to+napierOver; h += napierEvery {
		if h == c.from-napierOver || h == c.to+napierOver {
			continue // on the frame
		}
		y := c.perDeg * float64(h)
		figure, point := headingFigure(h), headingPoint(h)
		const halo = `font-weight="%s" stroke="white" stroke-width="0.8" stroke-linejoin="round" paint-order="stroke" text-anchor="%s"`
		weight := "normal"
		if point != "" {
			weight = "bold"
		}
		if c.crossed(y, -1) < c.crossed(y, 1) {
			c.Text(drawing.At(-2.2, y+1), fmt.Sprintf(halo, weight, "end"), spaced(point, figure))
		} else {
			c.Text(drawing.At(2.2, y+1), fmt.Sprintf(halo, weight, "start"), spaced(figure, point))
		}
	}
}

// spaced joins two texts with a space, if there are two.
func spaced(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + " " + b
}

// crossed weighs what is drawn where a figure might stand on a side of the axis.
func (c *napierColumn) crossed(at, side float64) int {
	n := 0
	count := func(heading, east float64, weight int) {
		s := napierPlace(heading, east, c.perDeg)
		if x := side * s.X; x > 0.8 && x < 13 && math.Abs(s.Y-at) < 2.2 {
			n += weight
		}
	}
	for h := c.firstPoint; h <= c.lastPoint; h++ {
		count(float64(h), c.data.at(h).east, 1)
	}
	for _, o := range append(within(c.data.rejected, c.limit), c.data.observed...) {
		for _, turn := range []float64{-360, 0, 360} {
			count(o.heading+turn, o.east, 2)
		}
	}
	return n
}

// curve draws the curve and the observations.
func (c *napierColumn) curve() {
	roomy := c.box()
	roomy.Left, roomy.Right = roomy.Left-0.3, roomy.Right+0.3
	c.Clip(c.class+"-curve", roomy, func() {
		var line []drawing.Spot
		for h := c.firstPoint; h <= c.lastPoint; h++ {
			line = append(line, napierPlace(float64(h), c.data.at(h).east, c.perDeg))
		}
		c.Polyline("curve", curveCurve, line)
	})
	c.each(c.data.observed, c.circle)
	c.each(within(c.data.rejected, c.limit), c.cross)
}

// each draws a mark for each point that lies in the column.
func (c *napierColumn) each(points []plotPoint, mark func(drawing.Spot)) {
	for _, o := range points {
		for _, turn := range []float64{-360, 0, 360} {
			if s := napierPlace(o.heading+turn, o.east, c.perDeg); s.Y >= c.low && s.Y <= c.high {
				mark(s)
			}
		}
	}
}

// napierLegend says what each kind of line is.
func (s svgSheet) napierLegend(p *plotData, limit float64) {
	y := 250.5
	x := bodyLeft
	if len(p.rejected) > 0 { // a line of their own
		y -= 2.3
		s.cross(drawing.At(x+4.5, y+2.7))
		s.Text(drawing.At(x+10.5, y+3.7), "", p.rejectedWithin(limit))
	}
	for _, l := range [][2]string{
		{curveCurve, "deviation curve"},
		{napierDotted, "dotted: from compass headings"},
		{napierPlain, "plain: from magnetic headings"},
	} {
		s.Line(drawing.At(x, y-1), drawing.At(x+9, y-1), l[0])
		s.Text(drawing.At(x+10.5, y), "", l[1])
		x += 15 + 1.55*float64(len(l[1]))
	}
	if len(p.observed) > 0 {
		s.circle(drawing.At(x+2, y-1))
		s.Text(drawing.At(x+4.5, y), "", "observation")
	}
}
