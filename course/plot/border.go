package plot

import (
	"fmt"
	"math"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
)

// The border of a chart, mm. Inside the outer line stands a row of bars, alternately black and
// white, and inside the bars a row of ticks. The figures stand outside.
const (
	borderBars    = 1.1
	borderTicks   = 1.9
	borderWidth   = borderBars + borderTicks
	borderBeside  = 11.5 // for the figures of latitude
	borderAbove   = 4.5  // for the figures of longitude
	borderStyle   = `stroke="black" stroke-width="0.3"`
	borderThin    = `stroke="black" stroke-width="0.12"`
	borderLine    = `stroke="black" stroke-width="0.2"`
	meridianStyle = `class="meridian" stroke="black" stroke-width="0.12"`
	parallelStyle = `class="parallel" stroke="black" stroke-width="0.12"`
)

// A division is how a border is divided, in hundredths of a minute: into ticks, bars of several
// ticks, and lines across the chart at every few bars.
type division struct{ tick, bar, line int }

// hundredths are the steps of a division.
var hundredths = []int{1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 3000, 6000, 12000, 30000, 60000, 90000, 180000}

// divide divides a border on which a minute has at least a length in mm. Lines across the chart
// are apart mm from each other, or more.
func divide(minute, apart float64) division {
	pick := func(least float64, of int) int {
		for _, t := range hundredths {
			if t%of == 0 && minute*float64(t)/100 >= least {
				return t
			}
		}
		return hundredths[len(hundredths)-1]
	}
	tick := pick(0.8, 1)
	bar := pick(3, tick)
	return division{tick, bar, pick(apart, bar)}
}

// graticule draws the parallels and the meridians of a chart, with its border and its figures.
// What inside draws is cut off at the frame, and stands on the lines.
func (m mercator) graticule(s *drawing.Sheet, inside func()) {
	f := m.frame
	// The scale of latitude is the least where the equator is nearest.
	south, north := m.latitude(f.Bottom), m.latitude(f.Top)
	least := 0.0
	if south > 0 {
		least = south
	} else if north < 0 {
		least = north
	}
	minute := m.ordinate(minutesNorth(least)) - m.ordinate(minutesNorth(least+1))
	latitudes, longitudes := divide(minute, 20), divide(m.perMinute, 20)
	if (north-south)*100 < 2*float64(latitudes.line) {
		latitudes = divide(minute, 8)
	}
	s.Clip("chart", f, func() {
		each(south, north, latitudes.line, func(l float64, _ int) {
			y := m.ordinate(minutesNorth(l))
			s.Line(drawing.At(f.Left, y), drawing.At(f.Right, y), parallelStyle)
		})
		each(m.longitude(f.Left), m.longitude(f.Right), longitudes.line, func(l float64, _ int) {
			x := m.abscissa(l)
			s.Line(drawing.At(x, f.Top), drawing.At(x, f.Bottom), meridianStyle)
		})
		inside()
	})
	s.Rectangle(f, `class="frame" fill="none" `+borderLine)
	s.Rectangle(f.Grown(borderTicks), `fill="none" `+borderThin)
	s.Rectangle(f.Grown(borderWidth), `fill="none" `+borderStyle)
	m.upright(s, south, north, latitudes)
	m.level(s, longitudes)
}

// abscissa returns the place of a meridian, which is counted on across the date line.
func (m mercator) abscissa(minutes float64) float64 {
	return m.centre().X + m.perMinute*(minutes-m.middle.Longitude.Angle().Minutes())
}

// each calls f for every multiple of a step in hundredths of a minute, between two numbers of
// minutes.
func each(from, to float64, step int, f func(minutes float64, n int)) {
	const hair = 1e-7 // a multiple on the edge counts
	for n := int(math.Ceil(from*100/float64(step) - hair)); n <= int(math.Floor(to*100/float64(step)+hair)); n++ {
		f(float64(n)*float64(step)/100, n)
	}
}

// upright draws the divisions of latitude at the left and at the right edge.
func (m mercator) upright(s *drawing.Sheet, south, north float64, d division) {
	f := m.frame
	each(south, north, d.tick, func(l float64, n int) {
		y, long := m.ordinate(minutesNorth(l)), tickLength(n, d)
		s.Line(drawing.At(f.Left, y), drawing.At(f.Left-long, y), `class="latitude-tick" `+borderThin)
		s.Line(drawing.At(f.Right, y), drawing.At(f.Right+long, y), `class="latitude-tick" `+borderThin)
	})
	each(south-float64(d.bar)/100, north, 2*d.bar, func(l float64, _ int) {
		bottom := min(m.ordinate(minutesNorth(l)), f.Bottom)
		top := max(m.ordinate(minutesNorth(l+float64(d.bar)/100)), f.Top)
		for _, x := range []float64{f.Left - borderWidth, f.Right + borderTicks} {
			if bottom > top {
				s.Rectangle(drawing.Box{Left: x, Top: top, Right: x + borderBars, Bottom: bottom}, `fill="black"`)
			}
		}
	})
	each(south, north, d.line, func(l float64, _ int) {
		lines := figureLines(minutesNorth(l).Angle(), "N", "S", "%.0f")
		for i, text := range lines {
			y := m.ordinate(minutesNorth(l)) + 1 - 1.6*float64(len(lines)-1) + 3.2*float64(i)
			s.Text(drawing.At(f.Left-borderWidth-1, y), `class="latitude" text-anchor="end"`, text)
			s.Text(drawing.At(f.Right+borderWidth+1, y), "", text)
		}
	})
}

// level draws the divisions of longitude at the upper and at the lower edge.
func (m mercator) level(s *drawing.Sheet, d division) {
	f := m.frame
	west, east := m.longitude(f.Left), m.longitude(f.Right)
	each(west, east, d.tick, func(l float64, n int) {
		x, long := m.abscissa(l), tickLength(n, d)
		s.Line(drawing.At(x, f.Top), drawing.At(x, f.Top-long), `class="longitude-tick" `+borderThin)
		s.Line(drawing.At(x, f.Bottom), drawing.At(x, f.Bottom+long), `class="longitude-tick" `+borderThin)
	})
	each(west-float64(d.bar)/100, east, 2*d.bar, func(l float64, _ int) {
		left := max(m.abscissa(l), f.Left)
		right := min(m.abscissa(l+float64(d.bar)/100), f.Right)
		for _, y := range []float64{f.Top - borderWidth, f.Bottom + borderTicks} {
			if right > left {
				s.Rectangle(drawing.Box{Left: left, Top: y, Right: right, Bottom: y + borderBars}, `fill="black"`)
			}
		}
	})
	each(west, east, d.line, func(l float64, _ int) {
		text := ""
		for _, part := range figureLines(minutesEast(l).Angle(), "E", "W", "%03.0f") {
			text += part
		}
		x := m.abscissa(l)
		s.Text(drawing.At(x, f.Top-borderWidth-1), `class="longitude" text-anchor="middle"`, text)
		s.Text(drawing.At(x, f.Bottom+borderWidth+3), `text-anchor="middle"`, text)
	})
}

// tickLength returns the length of a tick: longer at half a bar, and at each bar.
func tickLength(n int, d division) float64 {
	switch at := n * d.tick; {
	case at%d.bar == 0:
		return borderTicks
	case at%(d.bar/2) == 0 && d.bar%(2*d.tick) == 0:
		return 0.75 * borderTicks
	}
	return borderTicks / 2
}

// figureLines returns the figures of a parallel or a meridian: 47°N, or 47° and 10.5′N. The
// degrees have a format.
func figureLines(a angle.Angle, positive, negative, degrees string) []string {
	name := ""
	switch {
	case a > 0 && a < angle.Turn/2:
		name = positive
	case a < 0 && a > -angle.Turn/2:
		name = negative
	}
	n := a.Abs().Round(angle.Minute / 100)
	whole := n.Truncate(angle.Degree)
	text := fmt.Sprintf(degrees, whole.Degrees()) + "°"
	switch rest := n - whole; {
	case rest == 0:
		return []string{text + name}
	case rest%angle.Minute == 0:
		return []string{text, fmt.Sprintf("%02.0f′", rest.Minutes()) + name}
	case rest%(angle.Minute/10) == 0:
		return []string{text, fmt.Sprintf("%04.1f′", rest.Minutes()) + name}
	default:
		return []string{text, fmt.Sprintf("%05.2f′", rest.Minutes()) + name}
	}
}
