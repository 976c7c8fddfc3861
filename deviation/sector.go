package deviation

import (
	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

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

// has reports whether a heading lies in the sector, its ends apart.
func (s sector) has(z angle.Angle) bool {
	past := (z - s.from).Normalized()
	return past > 0 && past < (s.to-s.from).Normalized()
}

// warning says that nothing was observed in the sector.
func (s sector) warning(by By) working.Warning {
	return warn(NotObserved, "nothing was observed from %s to %s: the curve goes there by the other headings alone", headingText(by, s.from), headingText(by, s.to))
}
