package plot

import (
	"math"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/course/sailing"
)

// A mercator is a part of a Mercator chart on WGS84, in a frame on a sheet.
type mercator struct {
	middle    angle.Position
	frame     drawing.Box
	perMinute float64 // mm to a minute of longitude
	parts     float64 // meridional parts of the middle
}

// maxMercator is the latitude in which a Mercator chart ends here, in degrees.
const maxMercator = 85.0

// newMercator returns a chart with a position in the middle of a frame, and a scale of 1 to some
// number in the latitude of that position.
func newMercator(middle angle.Position, scale float64, frame drawing.Box) mercator {
	minute := sailing.WGS84().DegreeOfLongitude(middle.Latitude).Metres() / 60
	return mercator{middle, frame, 1000 * minute / scale, sailing.WGS84().MeridionalParts(middle.Latitude)}
}

// centre returns the middle of the frame.
func (m mercator) centre() drawing.Spot {
	return drawing.At((m.frame.Left+m.frame.Right)/2, (m.frame.Top+m.frame.Bottom)/2)
}

// spot returns the place of a position on the sheet.
func (m mercator) spot(p angle.Position) drawing.Spot {
	east := p.Longitude.Sub(m.middle.Longitude).Minutes()
	return drawing.At(m.centre().X+m.perMinute*east, m.ordinate(p.Latitude))
}

// ordinate returns the place of a parallel on the sheet.
func (m mercator) ordinate(l angle.Latitude) float64 {
	return m.centre().Y - m.perMinute*(sailing.WGS84().MeridionalParts(l)-m.parts)
}

// latitude returns the latitude of a place on the sheet, in minutes north. It finds it by
// halving, since meridional parts increase with the latitude.
func (m mercator) latitude(y float64) float64 {
	south, north := -maxMercator*60, maxMercator*60
	for range 60 {
		middle := (south + north) / 2
		if m.ordinate(minutesNorth(middle)) > y {
			south = middle
		} else {
			north = middle
		}
	}
	return (south + north) / 2
}

// longitude returns the longitude of a place on the sheet, in minutes east. Across the date
// line it goes on beyond 180°.
func (m mercator) longitude(x float64) float64 {
	return m.middle.Longitude.Angle().Minutes() + (x-m.centre().X)/m.perMinute
}

// minutesNorth returns the latitude of some minutes north, at most 90°.
func minutesNorth(minutes float64) angle.Latitude {
	a := angle.Angle(math.Round(min(max(minutes, -5400), 5400) * float64(angle.Minute)))
	return angle.Must(angle.LatitudeFrom(a))
}

// minutesEast returns the longitude of some minutes east.
func minutesEast(minutes float64) angle.Longitude {
	return angle.LongitudeFrom(angle.Angle(math.Round(minutes * float64(angle.Minute))))
}

// mile returns the length of a nautical mile in a latitude on the sheet, mm.
func (m mercator) mile(l angle.Latitude) float64 {
	return m.perMinute * 60 / sailing.WGS84().DegreeOfLongitude(l).NauticalMiles()
}
