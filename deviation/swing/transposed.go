package swing

import "lubberline.example/angle"

// HeadingTransposed: two figures of the heading were exchanged, as 075 for 057. All other headings
// are at equal steps, and the corrected heading fills the gap.
const HeadingTransposed Slip = "heading-transposed"

// transposed finds the reading with two figures of its heading exchanged. The other headings are at
// equal steps with one gap, and the corrected heading fills the gap. All headings must be whole
// degrees.
func transposed(observations []Observation) (index int, meant angle.Compass, ok bool) {
	n := len(observations)
	if n < five+3 || angle.Turn%angle.Angle(n) != 0 {
		return 0, meant, false
	}
	step := angle.Turn / angle.Angle(n)
	// At least two in three headings must be on the grid.
	for _, base := range observations[:3] {
		taken := make([]bool, n)
		off := -1
		several := false
		for i, o := range observations {
			past := o.Heading.Sub(base.Heading).Normalized()
			place := past / step
			if past%step == 0 && !taken[place] {
				taken[place] = true
				continue
			}
			several = several || off >= 0 || past%step == 0 // of two readings on one heading, either may be wrong
			off = i
		}
		if off < 0 || several {
			continue
		}
		for place, there := range taken {
			if there {
				continue
			}
			missing := base.Heading.Add(step * angle.Angle(place))
			if exchanged(observations[off].Heading, missing) {
				return off, missing, true
			}
		}
	}
	return 0, meant, false
}

// exchanged reports whether two headings of whole degrees differ by two figures exchanged.
func exchanged(a, b angle.Compass) bool {
	if a == b || a.FromNorth()%angle.Degree != 0 || b.FromNorth()%angle.Degree != 0 {
		return false
	}
	x, y := int(a.FromNorth()/angle.Degree), int(b.FromNorth()/angle.Degree)
	p := [3]int{x / 100, x / 10 % 10, x % 10}
	q := [3]int{y / 100, y / 10 % 10, y % 10}
	for _, pair := range [][2]int{{0, 1}, {1, 2}, {0, 2}} {
		r := p
		r[pair[0]], r[pair[1]] = r[pair[1]], r[pair[0]]
		if r == q {
			return true
		}
	}
	return false
}
