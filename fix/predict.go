package fix

import (
	"math"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"lubberline.example/fix/internal/earth"
)

// predicted holds the residual of a line at a place, and how the expected value changes as
// the place moves a metre north or east. Angles are in radians.
type predicted struct {
	left        float64 // observed minus expected
	north, east float64
}

// expect predicts a line at a frame. For a transferred line it uses the place where the
// vessel was when the line was observed.
func (l *Line) expect(f *earth.Frame) predicted {
	if l.moved {
		back := earth.FrameAt(l.before(f))
		return l.here(&back)
	}
	return l.here(f)
}

// before returns the vertical of the place where the vessel was before the run: back along
// the rhumb line, or near a pole in a straight line.
func (l *Line) before(f *earth.Frame) earth.Vector {
	direction, err := angle.Atan2(-l.east, -l.north)
	if err != nil {
		return f.Up // no run
	}
	p, err := sailing.WGS84().Follow(earth.Position(f.Up), sailing.Run{Course: angle.TrueFrom(direction), Distance: sailing.Distance(math.Hypot(l.north, l.east))})
	if err != nil {
		return f.Moved(-l.north, -l.east)
	}
	return earth.Upright(p)
}

// shortWay returns an angle in radians the short way round, from −π to π. Within two turns it is
// exactly math.Remainder of a turn, and several times as fast.
func shortWay(a float64) float64 {
	switch {
	case math.Abs(a) <= math.Pi:
		return a
	case math.Abs(a) <= 3*math.Pi:
		return a - math.Copysign(2*math.Pi, a)
	}
	return math.Remainder(a, 2*math.Pi)
}

// here predicts a line at the place where it was observed.
func (l *Line) here(f *earth.Frame) predicted {
	switch l.kind {
	case KindBearing:
		s := f.Sight(l.a)
		p := predicted{left: shortWay(l.want - s.Azimuth)}
		p.north, p.east = f.Slope(s)
		return p
	case KindTransit, KindHorizontalAngle:
		a, b := f.Sight(l.a), f.Sight(l.b)
		p := predicted{left: shortWay(l.want - (a.Azimuth - b.Azimuth))}
		an, ae := f.Slope(a)
		bn, be := f.Slope(b)
		p.north, p.east = an-bn, ae-be
		return p
	case KindRange:
		d, n, e := f.Surface(l.a)
		return predicted{l.want - d, n, e}
	case KindLatitude:
		return predicted{(l.want - math.Atan2(f.Sin, f.Cos)) * f.Meridian, 1, 0}
	case KindLongitude:
		// The distance from the plane of the meridian, which also changes smoothly at a pole.
		// On the other side of the earth, the distance along the parallel leads back.
		off := shortWay(l.want - math.Atan2(f.Up.Y, f.Up.X))
		if math.Abs(off) >= math.Pi/2 {
			return predicted{off * f.Across * f.Cos, 0, 1}
		}
		s, c := math.Sincos(off)
		return predicted{s * f.Across * f.Cos, s * f.Sin, c}
	}
	const step = 10 // metres either way
	at := func(north, east float64) float64 { return l.other(earth.Position(f.Moved(north, east))) }
	return predicted{l.want - at(0, 0), (at(step, 0) - at(-step, 0)) / (2 * step), (at(0, step) - at(0, -step)) / (2 * step)}
}

// weight returns one divided by the variance of a line at a place, including the variance of
// its transfer.
func (l *Line) weight(p predicted) float64 {
	s := l.sigma
	v := s * s
	if !l.stated {
		v = l.nominal(p)
	}
	if l.moved {
		t := l.transfer
		if l.sharedLegs != nil {
			t = l.without
		}
		v += p.north*p.north*t.North + p.east*p.east*t.East + 2*p.north*p.east*t.Both
	}
	return 1 / v
}

// nominal returns the variance by which a line of unstated uncertainty is weighted. The
// standard uncertainty is 1° for an angle, 2 % of a distance, and 300 m for a latitude or a
// longitude. For another quantity it corresponds to 300 m across the line.
func (l *Line) nominal(p predicted) float64 {
	s := 300.0
	switch l.kind {
	case KindBearing, KindTransit, KindHorizontalAngle:
		s = math.Pi / 180
	case KindRange:
		s = 0.02 * l.want
	case KindOther:
		if slope := math.Hypot(p.north, p.east); slope > 0 {
			s *= slope
		}
	}
	return s * s
}
