package fix

import (
	"math"

	"lubberline.example/fix/internal/earth"
)

// crossing returns approximately where two bearings cross, in closed form on the plane that
// touches the earth between their marks. It returns false for other lines, near the poles,
// for parallel bearings, and for bearings that meet behind a mark.
func crossing(a, b *Line) (earth.Vector, bool) {
	const nearPole = 0.98 // sine of the latitude, 78.5°
	if a.kind != KindBearing || b.kind != KindBearing || a.moved || b.moved {
		return earth.Vector{}, false
	}
	middle := earth.Upright(a.marks[0].Position).Plus(earth.Upright(b.marks[0].Position))
	length := math.Sqrt(middle.Dot(middle))
	if !(length > 1) { // on opposite sides of the earth
		return earth.Vector{}, false
	}
	middle = middle.Times(1 / length)
	if math.Abs(middle.Z) > nearPole {
		return earth.Vector{}, false
	}
	f := earth.FrameAt(middle)
	to, from := f.Sight(a.a), f.Sight(b.a)
	north, east := 0.0, 0.0
	for range 3 {
		// The meridians converge, so the observer's north differs from that of the middle.
		turn := east * f.Sin / f.Cos / f.Across
		sinA, cosA := math.Sincos(a.want - turn)
		sinB, cosB := math.Sincos(b.want - turn)
		cut := sinA*cosB - cosA*sinB
		if math.Abs(cut) < 1e-9 {
			return earth.Vector{}, false
		}
		offA := ((to.East-from.East)*cosB - (to.North-from.North)*sinB) / cut
		offB := ((to.East-from.East)*cosA - (to.North-from.North)*sinA) / cut
		if !(offA > 0 && offB > 0 && offA < f.Across/4) {
			return earth.Vector{}, false
		}
		north, east = to.North-offA*cosA, to.East-offA*sinA
	}
	return f.Moved(north, east), true
}
