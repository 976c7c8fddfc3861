package harmonic

import (
	"lubberline.example/angle"
)

// A Sector is the part of the circle from one heading clockwise to another.
type Sector struct{ From, To angle.Angle }

// wideSector is the width from which a sector without a heading gives a warning. Eight headings at
// equal steps by compass may be this far apart by magnetic heading.
const wideSector = 60 * angle.Degree

// WideSectors are those without a heading, of headings that rise.
func WideSectors(headings []angle.Angle) []Sector {
	var wide []Sector
	for i, h := range headings {
		next := headings[(i+1)%len(headings)]
		if gap := (next - h).Normalized(); gap > wideSector {
			wide = append(wide, Sector{h, next})
		}
	}
	return wide
}

// Has reports whether a heading lies in the sector, its ends apart.
func (s Sector) Has(z angle.Angle) bool {
	past := (z - s.From).Normalized()
	return past > 0 && past < (s.To-s.From).Normalized()
}
