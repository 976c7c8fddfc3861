package plot

import (
	"cmp"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/course/sailing"
)

// A Canvas is a Mercator chart on a sheet, to draw on. [Graticule.Draw] makes it.
type Canvas struct {
	Sheet *drawing.Sheet
	Frame drawing.Box // within the border

	chart mercator
}

// Spot returns the spot of a position on the sheet. It may lie outside the frame.
func (c Canvas) Spot(p angle.Position) drawing.Spot { return c.chart.spot(p) }

// Mile returns the length of a nautical mile on the sheet in a latitude, in millimetres.
func (c Canvas) Mile(l angle.Latitude) float64 { return c.chart.mile(l) }

// Covering returns the graticule that reaches from a southern to a northern latitude and from a
// western to an eastern longitude. West may be greater than east, across the date line.
// Scale is as in [Graticule]. Covering checks nothing: [Graticule.Draw] and [PlottingSheet] do.
func Covering(south, north angle.Latitude, west, east angle.Longitude, scale float64) Graticule {
	earth := sailing.WGS84()
	wide := east.Sub(west)
	if wide < 0 {
		wide += angle.Turn
	}
	// The middle of a frame is where the meridional parts are half way.
	parts := (earth.MeridionalParts(south) + earth.MeridionalParts(north)) / 2
	from, to := south.Angle().Minutes(), north.Angle().Minutes()
	for range 60 {
		if m := (from + to) / 2; earth.MeridionalParts(minutesNorth(m)) < parts {
			from = m
		} else {
			to = m
		}
	}
	g := Graticule{Middle: angle.Position{Latitude: minutesNorth(from), Longitude: west.Add(wide / 2)}, Scale: scale}
	m := newMercator(g.Middle, scale, drawing.Box{})
	m.frame.Right = wide.Minutes() * m.perMinute
	m.frame.Bottom = (earth.MeridionalParts(north) - earth.MeridionalParts(south)) * m.perMinute
	g.Width = m.frame.Right + 2*(borderWidth+borderBeside)
	g.Height = m.frame.Bottom + 2*(borderWidth+borderAbove) + footLine + footRow
	if m.varies() {
		g.Height += 2 * footRow
	}
	return g
}

// Draw draws a Mercator chart as [PlottingSheet] does, with a description in words. It calls inside,
// unless that is nil, to draw what stands on the chart; the frame cuts it off. right and below are
// free room beside and below the chart, each from 0 to 1,200 mm. Errors are those of PlottingSheet.
func (g Graticule) Draw(description string, right, below float64, inside func(Canvas)) (*drawing.Sheet, error) {
	for _, more := range []float64{right, below} {
		if !(more >= 0 && more <= maxSide) {
			return nil, &angle.RangeError{What: "room beside a chart", Value: more, Accepted: "from 0 to 1,200 mm"}
		}
	}
	m, roses, err := g.chartAndRoses()
	if err != nil {
		return nil, err
	}
	g = g.sized()
	s := drawing.New(g.Width+right, g.Height+below, cmp.Or(g.Title, "Mercator chart, "+m.scaleText(g)), description)
	m.graticule(s, func() {
		drawRoses(s, roses)
		if inside != nil {
			inside(Canvas{s, m.frame, m})
		}
	})
	m.foot(s, g)
	return s, nil
}
