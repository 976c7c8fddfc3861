package drawing

// A Spot is a place on the sheet in millimetres, x to the right and y down.
type Spot struct{ X, Y float64 }

// At is the spot x to the right and y down, in millimetres.
func At(x, y float64) Spot { return Spot{x, y} }

// Moved is the spot so much farther to the right and down.
func (s Spot) Moved(right, down float64) Spot { return Spot{s.X + right, s.Y + down} }

// A Box is a rectangle on the sheet.
type Box struct{ Left, Top, Right, Bottom float64 }

// Around is the box that reaches from a spot so far to the left and to the right, and so
// far up and down.
func Around(s Spot, across, upright float64) Box {
	return Box{s.X - across, s.Y - upright, s.X + across, s.Y + upright}
}

// Holds reports whether a spot lies in the box or on its edge.
func (b Box) Holds(s Spot) bool {
	return s.X >= b.Left && s.X <= b.Right && s.Y >= b.Top && s.Y <= b.Bottom
}

// Meets reports whether two boxes cover some of the same. Boxes that only touch do not.
func (b Box) Meets(other Box) bool {
	return b.Left < other.Right && other.Left < b.Right && b.Top < other.Bottom && other.Top < b.Bottom
}

// Within reports whether the box lies wholly in another, whose edges it may touch.
func (b Box) Within(outer Box) bool {
	return b.Left >= outer.Left && b.Right <= outer.Right && b.Top >= outer.Top && b.Bottom <= outer.Bottom
}

// Grown is the box with each edge farther out, or with a negative amount farther in.
func (b Box) Grown(by float64) Box {
	return Box{b.Left - by, b.Top - by, b.Right + by, b.Bottom + by}
}
