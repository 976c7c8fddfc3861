package plot

import (
	"fmt"
	"iter"
	"math"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
)

// graticule draws the ticks of latitude and longitude on the frame, with figures at
// the left and below. Near a pole it draws meridians and parallels instead.
func (v *view) graticule(c *panel) {
	if v.isPolar(c) {
		v.polar(c)
		return
	}
	v.ticks(c)
}

// ticks draws the ticks on the frame.
func (v *view) ticks(c *panel) {
	position := func(s drawing.Spot) angle.Position { return v.position(c.ground(s)) }
	latitude := func(s drawing.Spot) float64 { return position(s).Latitude.Angle().Minutes() }
	longitude := func(s drawing.Spot) float64 { return position(s).Longitude.Angle().Minutes() }
	leftTop, rightTop := drawing.At(c.Left, c.Top), drawing.At(c.Right, c.Top)
	leftBottom, rightBottom := drawing.At(c.Left, c.Bottom), drawing.At(c.Right, c.Bottom)

	const style = `stroke="black" stroke-width="0.3"`
	figured, lowest := math.Inf(1), c.Top // where the last figure stands, and the lowest
	left := newFrameSide(leftBottom, leftTop, latitude)
	for at, m := range left.ticks() {
		v.Line(at, at.Moved(1.8, 0), style)
		if l, err := angle.LatitudeFrom(minutes(m)); err == nil && math.Abs(figured-at.Y) >= 4 {
			lowest = max(lowest, at.Y)
			v.Text(at.Moved(-1, 0.9), `text-anchor="end"`, fmt.Sprintf("%.*v", left.decimals, l))
			figured = at.Y
		}
	}
	for at := range newFrameSide(rightBottom, rightTop, latitude).ticks() {
		v.Line(at, at.Moved(-1.8, 0), style)
	}
	figured = c.Left - 100
	bottom := newFrameSide(leftBottom, rightBottom, longitude)
	for at, m := range bottom.ticks() {
		v.Line(at, at.Moved(0, -1.8), style)
		text := fmt.Sprintf("%.*v", bottom.decimals, angle.LongitudeFrom(minutes(math.Remainder(m, 360*60))))
		half := drawing.Letters * drawing.TextWidth(text) / 2
		// It keeps off the figures of latitude, and off what stands at the right of the panel.
		if at.X-figured >= 21 && at.X+half <= c.Right+0.5 && (at.X-half > c.Left || lowest < c.Bottom-3) {
			v.Text(at.Moved(0, 3.4), `text-anchor="middle"`, text)
			figured = at.X
		}
	}
	for at := range newFrameSide(leftTop, rightTop, longitude).ticks() {
		v.Line(at, at.Moved(0, 1.8), style)
	}
}

// minutes returns an angle of some minutes of arc, to a thousandth of a second.
func minutes(m float64) angle.Angle {
	a, err := angle.Minutes(m)
	if err != nil {
		return 0
	}
	return a.Round(angle.Second / 1000)
}

// A frameSide is a side of a frame with the latitude or the longitude along it.
type frameSide struct {
	places   []drawing.Spot // evenly along it
	minutes  []float64      // at the places; they go on over the date line
	step     float64        // minutes between ticks
	decimals int            // of the figures of the ticks
}

// newFrameSide returns the side between two spots, with the value that of gives at each spot.
func newFrameSide(from, to drawing.Spot, of func(drawing.Spot) float64) frameSide {
	const parts = 60
	f := frameSide{places: make([]drawing.Spot, parts+1), minutes: make([]float64, parts+1), step: 1800}
	span := 0.0
	for i := range f.places {
		f.places[i] = between(from, to, float64(i)/parts)
		f.minutes[i] = of(f.places[i])
		if i > 0 {
			f.minutes[i] = f.minutes[i-1] + math.Remainder(f.minutes[i]-f.minutes[i-1], 360*60)
			span += math.Abs(f.minutes[i] - f.minutes[i-1])
		}
	}
	for _, n := range []float64{0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 30, 60, 120, 300, 600} {
		if span/n <= 7 {
			f.step = n
			break
		}
	}
	for n := f.step; n < 0.9999 && f.decimals < 3; n *= 10 {
		f.decimals++
	}
	return f
}

// ticks yields the spots where whole steps lie, and their minutes.
func (f frameSide) ticks() iter.Seq2[drawing.Spot, float64] {
	return func(yield func(drawing.Spot, float64) bool) {
		for i := range len(f.places) - 1 {
			u, v := f.minutes[i], f.minutes[i+1]
			for k := math.Floor(min(u, v)/f.step) + 1; k*f.step <= max(u, v); k++ {
				at := between(f.places[i], f.places[i+1], (k*f.step-u)/(v-u))
				if !yield(at, k*f.step) {
					return
				}
			}
		}
	}
}

// between returns the spot some part of the way from one to another.
func between(a, b drawing.Spot, part float64) drawing.Spot {
	return drawing.At(a.X+(b.X-a.X)*part, a.Y+(b.Y-a.Y)*part)
}
