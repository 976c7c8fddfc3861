package fix

import "math"

// crossing returns about where two bearings cross, in closed form on the plane through
// the middle of their marks. It reports false for other lines, near the poles, and
// where the bearings run parallel or their lines meet behind a mark.
func crossing(a, b *Line) (vector, bool) {
	const nearPole = 0.98 // sine of the latitude, 78.5°
	if a.kind != KindBearing || b.kind != KindBearing || a.moved || b.moved {
		return vector{}, false
	}
	middle := upright(a.marks[0].Position).plus(upright(b.marks[0].Position))
	length := math.Sqrt(middle.dot(middle))
	if !(length > 1) { // on opposite sides of the earth
		return vector{}, false
	}
	middle = middle.times(1 / length)
	if math.Abs(middle.z) > nearPole {
		return vector{}, false
	}
	f := frameAt(middle)
	to, from := f.sight(a.a), f.sight(b.a)
	north, east := 0.0, 0.0
	for range 3 {
		// The observer's north turns from that of the middle as the meridians converge.
		turn := east * f.sin / f.cos / f.across
		sinA, cosA := math.Sincos(a.want - turn)
		sinB, cosB := math.Sincos(b.want - turn)
		cut := sinA*cosB - cosA*sinB
		if math.Abs(cut) < 1e-9 {
			return vector{}, false
		}
		offA := ((to.east-from.east)*cosB - (to.north-from.north)*sinB) / cut
		offB := ((to.east-from.east)*cosA - (to.north-from.north)*sinA) / cut
		if !(offA > 0 && offB > 0 && offA < f.across/4) {
			return vector{}, false
		}
		north, east = to.north-offA*cosA, to.east-offA*sinA
	}
	return f.moved(north, east), true
}
