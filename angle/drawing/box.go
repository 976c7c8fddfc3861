package drawing

// A Spot is a place on the sheet in millimetres, x to the right and y down.
type Spot struct{ X, Y float64 }

// At returns the spot x to the right and y down, in millimetres.
func At(x, y float64) Spot { return Spot{x, y} }

// Moved returns the spot moved to the right and down, in millimetres.
func (s Spot) Moved(right, down float64) Spot { return Spot{s.X + right, s.Y + down} }

// A Box is a rectangle on the sheet.
type Box struct{ Left, Top, Right, Bottom float64 }

// Around returns the box around a spot. It extends across to the left and to the right,
// and upright up and down.
func Around(s Spot, across, upright float64) Box {
	return Box{s.X - across, s.Y - upright, s.X + across, s.Y + upright}
}

// Holds reports whether a spot lies in the box or on its edge.
func (b Box) Holds(s Spot) bool {
	return s.X >= b.Left && s.X <= b.Right && s.Y >= b.Top && s.Y <= b.Bottom
}

// Meets reports whether two boxes overlap. Boxes that only touch do not overlap.
func (b Box) Meets(other Box) bool {
	return b.Left < other.Right && other.Left < b.Right && b.Top < other.Bottom && other.Top < b.Bottom
}

// Within reports whether the box lies wholly in another. It may touch its edges.
func (b Box) Within(outer Box) bool {
	return b.Left >= outer.Left && b.Right <= outer.Right && b.Top >= outer.Top && b.Bottom <= outer.Bottom
}

// Grown returns the box with each edge moved outward, or inward if by is negative.
func (b Box) Grown(by float64) Box {
	return Box{b.Left - by, b.Top - by, b.Right + by, b.Bottom + by}
}
