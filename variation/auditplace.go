package variation

import (
	"fmt"
	"math"
	"time"

	"lubberline.example/angle"
)

// The radius, the step and the number of directions of the search for a place.
const (
	fitSearch = 10 * angle.Degree // 600 M
	fitStep   = angle.Degree / 2
	fitSides  = 16
)

// fitsAt returns the nearest place around a position where a source gives a figure on a
// date. It returns nil if there is no such place within 600 M. It searches in 16 directions,
// in steps of half a degree, and interpolates between two steps.
func fitsAt(figure angle.Angle, source Source, position angle.Position, date time.Time) *angle.Position {
	off := func(side int, distance angle.Angle) (angle.Angle, bool) {
		v, err := source.VariationAt(away(position, side, distance), date)
		return (figure - v.Angle()).NormalizedSigned(), err == nil
	}
	was, known := off(0, 0)
	if !known {
		return nil
	}
	var offs [fitSides]angle.Angle
	for i := range offs {
		offs[i] = was
	}
	for distance := fitStep; distance <= fitSearch; distance += fitStep {
		var found *angle.Position
		nearest := distance
		for side := range fitSides {
			is, known := off(side, distance)
			was := offs[side]
			offs[side] = is
			// The signs must be opposite, without a jump through 180°.
			if !known || (was < 0) == (is < 0) || (was-is).Abs() > angle.Turn/4 {
				continue
			}
			part := float64(was) / float64(was-is)
			at := distance - fitStep + angle.Angle(math.Round(part*float64(fitStep)))
			if found == nil || at < nearest {
				place := away(position, side, at)
				found, nearest = &place, at
			}
		}
		if found != nil {
			return found
		}
	}
	return nil
}

// away returns the place at a distance on the sphere, in one of the directions, which count from
// north through east.
func away(from angle.Position, side int, distance angle.Angle) angle.Position {
	bearing := angle.Turn / fitSides * angle.Angle(side)
	sinLat, cosLat := from.Latitude.Angle().SinCos()
	sinArc, cosArc := distance.SinCos()
	sinB, cosB := bearing.SinCos()
	up := sinLat*cosArc + cosLat*sinArc*cosB
	east, north := sinB*sinArc*cosLat, cosArc-sinLat*up
	lat := angle.Must(angle.Atan2(up, math.Hypot(sinArc*sinB, cosLat*cosArc-sinLat*sinArc*cosB)))
	lon, err := angle.Atan2(east, north)
	if err != nil { // from a pole
		lon = bearing
	}
	return angle.Position{Latitude: angle.Must(angle.LatitudeFrom(lat)), Longitude: from.Longitude.Add(lon)}
}

// fitsIn returns the latest year up to the date in which the rose would agree. It tries the
// years that differ by one changed figure or by two exchanged ones. It returns 0 if there is
// none.
func (a Audit) fitsIn(source Source) int {
	best := 0
	for _, year := range misreadYears(a.rose.Year) {
		if year <= best || year > a.Now.Date.UTC().Year() {
			continue
		}
		b := Audit{rose: a.rose, position: a.position}
		b.Then = compare(source, a.position, middleOf(year), a.Then.Rose)
		b.firstChange = firstChange(source, a.position, year)
		c := b.firstChange
		change, stated := a.change()
		if b.Then.agrees() && b.Then.judges() && (!stated || c == nil || (change-*c).Abs() <= allowedChange) {
			best = year
		}
	}
	return best
}

// misreadYears returns the years that differ from a year by one figure, or by two neighbouring
// figures exchanged.
func misreadYears(year int) (years []int) {
	figures := []byte(fmt.Sprintf("%04d", year))
	read := func(f []byte) int {
		n := 0
		for _, c := range f {
			n = 10*n + int(c-'0')
		}
		return n
	}
	for i := range figures {
		for c := byte('0'); c <= '9'; c++ {
			other := append([]byte(nil), figures...)
			if other[i] = c; c != figures[i] {
				years = append(years, read(other))
			}
		}
		if i > 0 && figures[i] != figures[i-1] {
			other := append([]byte(nil), figures...)
			other[i], other[i-1] = other[i-1], other[i]
			years = append(years, read(other))
		}
	}
	return years
}
