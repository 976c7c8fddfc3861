package deviation

import "lubberline.example/angle"

// A sector is the part of the circle from one heading clockwise to another.
type sector struct{ from, to angle.Angle }

// wideSector is from where on a sector without a heading is warned of: eight headings
// at equal steps by compass may lie so far apart by magnetic heading.
const wideSector = 60 * angle.Degree

// wideSectors are those without a heading, of headings that rise.
func wideSectors(headings []angle.Angle) []sector {
	var wide []sector
	for i, h := range headings {
		next := headings[(i+1)%len(headings)]
		if gap := (next - h).Normalized(); gap > wideSector {
			wide = append(wide, sector{h, next})
		}
	}
	return wide
}

// unobserved returns the sector that a heading lies in and no observation does, its
// ends apart.
func (c *Curve) unobserved(z angle.Angle) (from, to angle.Angle, ok bool) {
	for _, s := range c.gaps {
		if past := (z - s.from).Normalized(); past > 0 && past < (s.to-s.from).Normalized() {
			return s.from, s.to, true
		}
	}
	return 0, 0, false
}
