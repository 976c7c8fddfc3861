package sailing

import (
	"math"

	"lubberline.example/angle"
)

// A joined is the shortest line between two places: its courses and its length.
type joined struct {
	sin1, cos1, sin2, cos2 float64 // of the courses at the two ends
	length                 float64 // metres
}

// join finds the shortest line between two places that are not the same. It follows Karney
// (2013), section 4: the places are mirrored and exchanged until the first is south of the
// equator and farther from it than the second, and the second is to the east. Then the course at
// the first is found by which the line meets the second one's latitude in its longitude.
func (e *Ellipsoid) join(from, to angle.Position) joined {
	lat1, lat2 := from.Latitude.Angle(), to.Latitude.Angle()
	difference := to.Longitude.Sub(from.Longitude)
	west, exchanged, mirrored := difference < 0, lat1.Abs() < lat2.Abs(), false
	if exchanged {
		lat1, lat2 = lat2, lat1
	}
	if lat1 > 0 {
		lat1, lat2, mirrored = -lat1, -lat2, true
	}
	g := e.joinSouth(lat1, lat2, difference.Abs())
	if exchanged {
		g.sin1, g.sin2 = g.sin2, g.sin1
		g.cos1, g.cos2 = g.cos2, g.cos1
	}
	if west {
		g.sin1, g.sin2 = -g.sin1, -g.sin2
	}
	if exchanged != mirrored {
		g.cos1, g.cos2 = -g.cos1, -g.cos2
	}
	return g
}

// joinSouth joins two places. The first is in the southern latitude lat1 or on the equator.
// The second is at most as far from the equator, and to the east by at most half a turn.
func (e *Ellipsoid) joinSouth(lat1, lat2, east angle.Angle) joined {
	p := problem{figure: e}
	var norm1, norm2 float64
	p.sinB1, p.cosB1, norm1 = e.reduced(lat1)
	p.sinB2, p.cosB2, norm2 = e.reduced(lat2)
	p.sinEast, p.cosEast = east.SinCos()
	// cos²β₂ − cos²β₁ = sin(β₂−β₁) sin(β₂+β₁) × −1, from differences that are exact.
	less, _ := (lat2 - lat1).SinCos()
	plus, _ := (lat2 + lat1).SinCos()
	scale := (1 - e.f) / (norm1 * norm2)
	p.squares = -less * scale * plus * scale
	p.less = less * scale

	switch {
	case east == 0 || east == angle.Turn/2 || lat1 == -90*angle.Degree:
		// Along a meridian. Over a pole the nearer one is the shorter way.
		return p.solved(p.sinEast, p.cosEast)
	case lat1 == 0 && east.Radians() <= (1-e.f)*math.Pi:
		// Along the equator. Farther round the shortest line leaves it.
		return joined{sin1: 1, sin2: 1, length: e.a * east.Radians()}
	}
	// Newton's method on the course, held between bounds that it narrows. The longitude
	// in which the line reaches lat2 grows with the course from 0 to half a turn.
	sin, cos := p.onSphere()
	lowSin, lowCos, highSin, highCos := 0.0, 1.0, 0.0, -1.0
	for range 100 { // fewer than ten, but for lines nearly to the antipodes
		beyond, slope := p.beyond(sin, cos)
		if beyond == 0 {
			break
		}
		if beyond > 0 {
			highSin, highCos = sin, cos
		} else {
			lowSin, lowCos = sin, cos
		}
		step := -beyond / slope
		if slope > 0 && math.Abs(step) < 1 {
			s, c := math.Sincos(step)
			newSin, newCos := unitOf(sin*c+cos*s, cos*c-sin*s)
			if math.Abs(beyond) < 1e-15 {
				sin, cos = newSin, newCos
				break // Newton's method doubles the digits: what is left is rounding
			}
			if newSin*lowCos-newCos*lowSin > 0 && highSin*newCos-highCos*newSin > 0 {
				sin, cos = newSin, newCos
				continue
			}
			if math.Abs(beyond) < 1e-13 && math.Abs(step) < 1e-15 {
				break // rounding alone puts it beyond the bounds
			}
		}
		newSin, newCos := unitOf(lowSin+highSin, lowCos+highCos)
		if lowSin == 0 && highSin == 0 {
			newSin, newCos = 1, 0 // the first halving, of half a turn
		}
		if newSin == sin && newCos == cos {
			break // the bounds have met
		}
		sin, cos = newSin, newCos
	}
	return p.solved(sin, cos)
}

// A problem is two places to be joined, as [Ellipsoid.joinSouth] takes them.
type problem struct {
	figure                     *Ellipsoid
	sinB1, cosB1, sinB2, cosB2 float64
	sinEast, cosEast           float64 // of the difference of longitude
	less                       float64 // sin(β₂−β₁)
	squares                    float64 // cos²β₂ − cos²β₁
}

// onSphere is the course at the first place on the auxiliary sphere, where to begin.
func (p *problem) onSphere() (sin, cos float64) {
	sin = p.cosB2 * p.sinEast
	// cos β₁ sin β₂ − sin β₁ cos β₂ cos λ, which loses no digits at short distances.
	half := p.sinEast * p.sinEast / (1 + p.cosEast)
	if p.cosEast < 0 {
		half = 1 - p.cosEast
	}
	cos = p.less + p.sinB1*p.cosB2*half
	length := math.Hypot(sin, cos)
	if length == 0 {
		return 1, 0
	}
	return sin / length, cos / length
}

// courses completes a course at the first place by what follows from it.
type courses struct {
	line                       geodesicLine
	sin2, cos2                 float64 // course at the second place
	sinS1, cosS1, sinS2, cosS2 float64 // of σ
	sum, arc                   float64 // σ₁ + σ₂ and σ₂ − σ₁
	sinW1, cosW1, sinW2, cosW2 float64 // of ω
}

// courses returns the line that leaves the first place on a course.
func (p *problem) courses(sin, cos float64) (c courses) {
	if p.sinB1 == 0 && cos == 0 {
		cos = -1e-200 // on the equator due east is the limit of courses south of it
	}
	sin0 := sin * p.cosB1
	c.line = p.figure.line(sin0, math.Hypot(cos, sin*p.sinB1))
	if p.cosB2 != p.cosB1 {
		c.sin2 = sin0 / p.cosB2
	} else {
		c.sin2 = sin
	}
	if p.squares != 0 {
		c.cos2 = math.Sqrt(max(0, cos*p.cosB1*cos*p.cosB1+p.squares)) / p.cosB2
	} else {
		c.cos2 = math.Abs(cos)
	}
	c.sinS1, c.cosS1 = unitOf(p.sinB1, cos*p.cosB1)
	c.sinS2, c.cosS2 = unitOf(p.sinB2, c.cos2*p.cosB2)
	c.sinW1, c.cosW1 = unitOf(sin0*p.sinB1, cos*p.cosB1)
	c.sinW2, c.cosW2 = unitOf(sin0*p.sinB2, c.cos2*p.cosB2)
	c.arc = math.Atan2(max(0, c.cosS1*c.sinS2-c.sinS1*c.cosS2), c.cosS1*c.cosS2+c.sinS1*c.sinS2)
	c.sum = math.Atan2(c.sinS1*c.cosS2+c.cosS1*c.sinS2, c.cosS1*c.cosS2-c.sinS1*c.sinS2)
	return c
}

// unitOf returns a sine and a cosine of length 1; 0 and 1 if both are zero.
func unitOf(sin, cos float64) (float64, float64) {
	length := math.Hypot(sin, cos)
	if length == 0 {
		return 0, 1
	}
	return sin / length, cos / length
}

// beyond follows the line that leaves the first place on a course to the latitude of the
// second. It returns how far east of the second place that is, in radians, and how fast this
// changes with the course.
func (p *problem) beyond(sin, cos float64) (beyond, slope float64) {
	c := p.courses(sin, cos)
	f := p.figure.f
	sinW := max(0, c.cosW1*c.sinW2-c.sinW1*c.cosW2)
	cosW := c.cosW1*c.cosW2 + c.sinW1*c.sinW2
	beyond = math.Atan2(sinW*p.cosEast-cosW*p.sinEast, cosW*p.cosEast+sinW*p.sinEast)
	if f != 0 {
		longitudes := c.line.longitudes()
		beyond -= f * c.line.sin0 * longitudes.between(c.sum, c.arc)
	}
	if c.cos2 == 0 {
		if p.sinB1 == 0 {
			return beyond, 0
		}
		return beyond, -2 * (1 - f) * math.Sqrt(1+p.figure.e2/(1-p.figure.e2)*p.sinB1*p.sinB1) / p.sinB1
	}
	bends := c.line.bends()
	k2 := c.line.k2
	reduced := math.Sqrt(1+k2*c.sinS2*c.sinS2)*c.cosS1*c.sinS2 - math.Sqrt(1+k2*c.sinS1*c.sinS1)*c.sinS1*c.cosS2 - c.cosS1*c.cosS2*bends.between(c.sum, c.arc)
	return beyond, reduced * (1 - f) / (c.cos2 * p.cosB2)
}

// solved is the line with a course at the first place.
func (p *problem) solved(sin, cos float64) joined {
	c := p.courses(sin, cos)
	lengths := c.line.lengths()
	return joined{sin, cos, c.sin2, c.cos2, lengths.between(c.sum, c.arc) * p.figure.polar()}
}
