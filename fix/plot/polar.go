package plot

import (
	"fmt"
	"math"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
)

const (
	graticuleStyle = `fill="none" stroke="#888" stroke-width="0.2"`

	// maxConvergence is the angle between the meridians at the two sides of a panel from which
	// on meridians are drawn instead of ticks, in degrees.
	maxConvergence = 8.0
)

// isPolar reports whether meridians meet in a panel, or nearly so.
func (v *view) isPolar(c *panel) bool {
	corners := []drawing.Spot{drawing.At(c.Left, c.Top), drawing.At(c.Right, c.Top), drawing.At(c.Right, c.Bottom), drawing.At(c.Left, c.Bottom)}
	round := 0.0
	for i, s := range corners {
		a, b := v.position(c.ground(s)), v.position(c.ground(corners[(i+1)%4]))
		apart := b.Longitude.Sub(a.Longitude).Degrees()
		round += apart
		if math.Abs(apart*a.Latitude.Angle().Sin()) > maxConvergence && math.Abs(a.Latitude.Degrees()) > 60 {
			return true
		}
	}
	return math.Abs(round) > 180 // the pole is within
}

// polar draws meridians and parallels in a panel, with their figures along them.
func (v *view) polar(c *panel) {
	low, high := v.latitudes(c)
	pole := math.Copysign(90, low+high)
	v.Clip("graticule", c.Box, func() {
		for n, step := 0, v.meridianStep(c); n*step < 360; n++ {
			l := float64(n * step)
			v.graticuleLine(c, "meridian", meridianText(n*step), func(part float64) (float64, float64) {
				return low + (high-low)*part, l
			})
		}
		step := parallelStep(high - low)
		for k := math.Ceil(low / step); k*step <= high; k++ {
			lat := k * step
			if math.Abs(lat) > 89.99999 {
				continue
			}
			a, err := angle.LatitudeDegrees(lat)
			if err != nil {
				continue
			}
			decimals := 0
			if step < 1.0/60 {
				decimals = 2
			}
			v.graticuleLine(c, "parallel", fmt.Sprintf("%.*v", decimals, a), func(part float64) (float64, float64) { return lat, 360 * part })
		}
		if s, ok := v.spotOf(c, angle.Must(angle.PositionDegrees(pole, 0))); ok {
			v.Line(s.Moved(-1.5, 0), s.Moved(1.5, 0), `class="pole" stroke="black" stroke-width="0.3"`)
			v.Line(s.Moved(0, -1.5), s.Moved(0, 1.5), `class="pole" stroke="black" stroke-width="0.3"`)
		}
	})
}

// meridianText returns the figure of a meridian, some degrees east: 170°W.
func meridianText(east int) string {
	switch {
	case east == 0 || east == 180:
		return fmt.Sprintf("%03d°", east)
	case east > 180:
		return fmt.Sprintf("%03d°W", 360-east)
	}
	return fmt.Sprintf("%03d°E", east)
}

// latitudes returns the least and the greatest latitude in a panel, in degrees.
func (v *view) latitudes(c *panel) (low, high float64) {
	low, high = 90, -90
	const parts = 24
	for i := range parts + 1 {
		for j := range parts + 1 {
			s := drawing.At(c.Left+(c.Right-c.Left)*float64(i)/parts, c.Top+(c.Bottom-c.Top)*float64(j)/parts)
			l := v.position(c.ground(s)).Latitude.Degrees()
			low, high = min(low, l), max(high, l)
		}
	}
	for _, pole := range []float64{-90, 90} {
		if _, ok := v.spotOf(c, angle.Must(angle.PositionDegrees(pole, 0))); ok {
			low, high = min(low, pole), max(high, pole)
		}
	}
	return low, high
}

// meridianStep returns the degrees between meridians, so that some cross the panel.
func (v *view) meridianStep(c *panel) int {
	if _, ok := v.spotOf(c, angle.Must(angle.PositionDegrees(math.Copysign(90, v.position(ground{}).Latitude.Degrees()), 0))); ok {
		return 30
	}
	a, b := v.position(c.ground(drawing.At(c.Left, (c.Top+c.Bottom)/2))), v.position(c.ground(drawing.At(c.Right, (c.Top+c.Bottom)/2)))
	wide := math.Abs(b.Longitude.Sub(a.Longitude).Degrees())
	for _, step := range []int{1, 2, 5, 10, 15} {
		if wide/float64(step) <= 8 {
			return step
		}
	}
	return 30
}

// parallelStep returns the degrees between parallels over a span of degrees.
func parallelStep(span float64) float64 {
	for _, minutes := range []float64{0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 30, 60, 120, 300} {
		if span*60/minutes <= 6 {
			return minutes / 60
		}
	}
	return 10
}

// graticuleLine draws a line through the places of some degrees of latitude and longitude, with
// a text along it.
func (v *view) graticuleLine(c *panel, class, text string, place func(part float64) (latitude, longitude float64)) {
	const parts = 180
	var path []drawing.Spot
	for i := range parts + 1 {
		lat, lon := place(float64(i) / parts)
		q, err := angle.PositionDegrees(lat, math.Remainder(lon, 360))
		if err != nil {
			continue
		}
		if g, ok := v.onPlane(q); ok {
			path = append(path, c.spot(g))
		}
	}
	v.Polyline(class, graticuleStyle, path)
	var longest []drawing.Spot
	for _, part := range within(path, c.Box) {
		if len(part) > len(longest) {
			longest = part
		}
	}
	if len(longest) > 1 {
		c.labels.Add(drawing.Label{Text: text, Along: longest, Size: v.letters(2.2), Gap: 0.4, Attributes: `class="graticule-figure" fill="#555"`})
	}
}
