package slip

import (
	"math"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"lubberline.example/fix"
)

// A plottedLine is a bearing as a learner draws it: straight on a Mercator chart, through the mark
// or through where the mark was moved to.
type plottedLine struct {
	through angle.Position
	bearing angle.True
}

// meeting returns where lines drawn on a chart meet, in degrees. More than two meet in the middle of
// their cocked hat, where near marks count more. If the lines do not meet, or a mark is beside the
// vessel or more than 60 miles off, ok is false. If ahead is true, the same holds for a mark that would
// bear the other way: a learner with a slip does not see that.
//
// It is quick, so that hundreds of slips can be tried. [fix.Solve] finds the right answer.
func meeting(lines []plottedLine, ahead bool) (latitude, longitude float64, ok bool) {
	of := make([]ray, 0, 3)
	x0 := lines[0].through.Longitude.Degrees()
	for _, l := range lines {
		x := math.Remainder(l.through.Longitude.Degrees()-x0, 360) * 60
		a := l.bearing.FromNorth()
		of = append(of, ray{x, sailing.WGS84().MeridionalParts(l.through.Latitude), a.Radians(), a.Sin(), a.Cos()})
	}
	// Begin with the least squares of the distances from the lines: (x − x₀) cos − (y − y₀) sin.
	var n normal
	for _, l := range of {
		n.add(l.cos, -l.sin, l.x*l.cos-l.y*l.sin)
	}
	x, y, ok := n.solve()
	for range 8 {
		if len(of) == 2 || !ok {
			break
		}
		var n normal // then those of the angles
		for _, l := range of {
			east, north := l.x-x, l.y-y
			d2 := east*east + north*north
			n.add(-north/d2, east/d2, math.Remainder(l.bearing-math.Atan2(east, north), 2*math.Pi))
		}
		var dx, dy float64
		dx, dy, ok = n.solve()
		if x, y = x+dx, y+dy; math.Abs(dx)+math.Abs(dy) < 1e-6 {
			break
		}
	}
	if !ok {
		return 0, 0, false
	}
	for _, l := range of {
		along := (l.x-x)*l.sin + (l.y-y)*l.cos
		if !ahead {
			along = math.Abs(along)
		}
		if along <= 0.5 || math.Hypot(l.x-x, l.y-y) > 60/lines[0].through.Latitude.Angle().Cos() {
			return 0, 0, false
		}
	}
	return latitudeOf(y, lines[0].through.Latitude.Degrees()), x0 + x/60, true
}

// A ray is a line on a chart: through a point, in minutes of longitude, in a direction in radians.
type ray struct{ x, y, bearing, sin, cos float64 }

// normal are the normal equations of least squares in two unknowns.
type normal struct{ a, b, c, p, q float64 }

// add adds the equation u·x + v·y = off.
func (n *normal) add(u, v, off float64) {
	n.a, n.b, n.c = n.a+u*u, n.b+u*v, n.c+v*v
	n.p, n.q = n.p+u*off, n.q+v*off
}

// solve returns the unknowns. If the lines are nearly parallel, ok is false.
func (n normal) solve() (x, y float64, ok bool) {
	determinant := n.a*n.c - n.b*n.b
	if !(determinant > 1e-9*(n.a+n.c)*(n.a+n.c)) {
		return 0, 0, false
	}
	return (n.p*n.c - n.q*n.b) / determinant, (n.q*n.a - n.p*n.b) / determinant, true
}

// latitudeOf returns the latitude in degrees that has the meridional parts y, near a latitude.
func latitudeOf(y, near float64) float64 {
	for range 4 {
		l, err := angle.LatitudeDegrees(near)
		if err != nil {
			return math.NaN()
		}
		near += (y - sailing.WGS84().MeridionalParts(l)) * l.Angle().Cos() / 60
	}
	return near
}

// A chartwork finds positions with slips by the lines as drawn, and the right one by [fix.Solve].
type chartwork struct {
	right               angle.Position
	latitude, longitude float64 // of the right one as drawn
}

// chartworkOf returns the chartwork of the right lines.
func chartworkOf(lines []plottedLine, exact []fix.Line) (chartwork, error) {
	f, err := fix.Solve(exact, fix.Options{})
	if err != nil {
		return chartwork{}, err
	}
	w := chartwork{right: f.Position()}
	var ok bool
	if w.latitude, w.longitude, ok = meeting(lines, true); !ok {
		return chartwork{}, &Error{Reason: "the lines do not meet when they are plotted; give others"}
	}
	return w, nil
}

// position returns the number of the position by some lines.
func (w chartwork) position(lines []plottedLine) float64 {
	latitude, longitude, ok := meeting(lines, false)
	if !ok {
		return math.NaN()
	}
	return w.at(latitude, longitude)
}

// at returns the number of a position as drawn, in degrees.
func (w chartwork) at(latitude, longitude float64) float64 {
	return Position.pair(w.right.Latitude.Degrees()+latitude-w.latitude, w.right.Longitude.Degrees()+longitude-w.longitude)
}
