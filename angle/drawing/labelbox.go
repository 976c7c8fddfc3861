package drawing

import "math"

// A turned is a rectangle that may be turned, as the box of a text along a line is.
type turned struct {
	middle       Spot
	across, high float64 // half its width and half its height
	sin, cos     float64 // of its turn, clockwise
}

// turnedAt returns a rectangle with its middle at a spot, turned clockwise by radians.
func turnedAt(middle Spot, across, high, turn float64) turned {
	sin, cos := math.Sincos(turn)
	return turned{middle, across, high, sin, cos}
}

// asTurned returns a box as a rectangle that is not turned.
func (b Box) asTurned() turned {
	return turned{At((b.Left+b.Right)/2, (b.Top+b.Bottom)/2), (b.Right - b.Left) / 2, (b.Bottom - b.Top) / 2, 0, 1}
}

// in returns a spot in the axes of the rectangle, from its middle.
func (r turned) in(s Spot) Spot {
	x, y := s.X-r.middle.X, s.Y-r.middle.Y
	return At(x*r.cos+y*r.sin, y*r.cos-x*r.sin)
}

// out returns a spot of the sheet from one in the axes of the rectangle.
func (r turned) out(s Spot) Spot {
	return r.middle.Moved(s.X*r.cos-s.Y*r.sin, s.X*r.sin+s.Y*r.cos)
}

// grown returns the rectangle with each side moved outward.
func (r turned) grown(by float64) turned {
	r.across, r.high = r.across+by, r.high+by
	return r
}

// bounds returns the smallest box that holds the rectangle.
func (r turned) bounds() Box {
	return Around(r.middle, math.Abs(r.across*r.cos)+math.Abs(r.high*r.sin), math.Abs(r.across*r.sin)+math.Abs(r.high*r.cos))
}

// meets reports whether two rectangles overlap: whether no side of either parts them.
func (r turned) meets(other turned) bool {
	return r.bounds().Meets(other.bounds()) && !r.parted(other) && !other.parted(r)
}

// parted reports whether a side of the rectangle parts it from another.
func (r turned) parted(other turned) bool {
	m := r.in(other.middle)
	sin, cos := other.sin*r.cos-other.cos*r.sin, other.cos*r.cos+other.sin*r.sin
	across := math.Abs(other.across*cos) + math.Abs(other.high*sin)
	high := math.Abs(other.across*sin) + math.Abs(other.high*cos)
	return math.Abs(m.X) >= r.across+across || math.Abs(m.Y) >= r.high+high
}

// crossed reports whether a straight line from one spot to another passes through the
// rectangle.
func (r turned) crossed(from, to Spot) bool {
	low, high := r.within(from, to)
	return low < high
}

// within returns between which parts of a straight line, from 0 to 1, it is in the rectangle.
// If low is not less than high, it is nowhere in it.
func (r turned) within(from, to Spot) (low, high float64) {
	a, b := r.in(from), r.in(to)
	low, high = 0.0, 1.0
	for _, side := range [2][3]float64{{a.X, b.X, r.across}, {a.Y, b.Y, r.high}} {
		begin, step := side[0], side[1]-side[0]
		if step == 0 {
			if math.Abs(begin) >= side[2] {
				return 1, 0
			}
			continue
		}
		u, v := (-side[2]-begin)/step, (side[2]-begin)/step
		low, high = max(low, min(u, v)), min(high, max(u, v))
	}
	return low, high
}

// nearest returns the spot of the rectangle that is nearest to s.
func (r turned) nearest(s Spot) Spot {
	m := r.in(s)
	return r.out(At(min(max(m.X, -r.across), r.across), min(max(m.Y, -r.high), r.high)))
}
