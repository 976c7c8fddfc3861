package passage

import (
	"cmp"
	"math"
	"slices"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
)

// suspect adds the warnings of the streams to the first leg. Then it adds warnings of speeds and
// positions that are probably slips.
func (p *Passage) suspect() {
	if s, warns := p.plan.Streams.(interface{ Warnings() []working.Warning }); warns {
		p.Legs[0].doubts = append(p.Legs[0].doubts, s.Warnings()...)
	}
	for i := range p.Legs {
		l := &p.Legs[i]
		if i == 0 && unitForgotten(p.plan.Speed) {
			l.doubts = append(l.doubts, working.Warn(UnitForgotten, "unit-forgotten", "the speed is %v, which is %g m/s: for %g kn write %g*sailing.Knot", p.plan.Speed, perSecond(p.plan.Speed), perSecond(p.plan.Speed), perSecond(p.plan.Speed)))
		}
		if w := l.To; unitForgotten(w.Speed) {
			l.doubts = append(l.doubts, working.Warn(UnitForgotten, "unit-forgotten-to", "the speed to %v is %v, which is %g m/s: for %g kn write %g*sailing.Knot", w, w.Speed, perSecond(w.Speed), perSecond(w.Speed), perSecond(w.Speed)))
		}
	}
	p.suspectPositions()
}

// unitForgotten reports whether a speed is a round number of metres a second, and no round
// number of knots: 5.5, where 5.5*sailing.Knot is meant.
func unitForgotten(s sailing.Speed) bool {
	round := func(x float64) bool { return math.Abs(x*20-math.Round(x*20)) < 1e-6 }
	return s > 0 && round(float64(s)) && !round(s.Knots())
}

// perSecond is a speed in metres a second, to a thousandth.
func perSecond(s sailing.Speed) float64 { return math.Round(float64(s)*1000) / 1000 }

// Bounds of what a slip in a waypoint must explain.
const (
	slipLong    = 200 * sailing.NauticalMile // of the legs at a waypoint together, as given
	slipMirror  = 600 * sailing.NauticalMile // the same for a wrong name: many coasts lie on both sides of a meridian
	slipShorter = 20                         // times shorter without the slip
)

// A slip in a waypoint would explain why the legs at it are very long.
type slip struct {
	waypoint     int
	means        string
	right        angle.Position
	given, short sailing.Distance // of the legs at the waypoint, as given and without the slip
}

// suspectPositions adds the slips in waypoints to the legs. It begins with the slip that explains
// most, so that the neighbours of a wrong waypoint are not suspected.
func (p *Passage) suspectPositions() {
	points := make([]angle.Position, len(p.plan.Waypoints))
	for i, w := range p.plan.Waypoints {
		points[i] = w.Position
	}
	var found []slip
	for i := range points {
		if p.rhumbsAt(i) < slipLong {
			continue
		}
		if s, ok := slipAt(points, i); ok {
			found = append(found, s)
		}
	}
	slices.SortStableFunc(found, func(s, t slip) int { return cmp.Compare(t.given-t.short, s.given-s.short) })
	for _, s := range found {
		s, ok := slipAt(points, s.waypoint)
		if !ok {
			continue
		}
		points[s.waypoint] = s.right
		w := p.plan.Waypoints[s.waypoint]
		l := &p.Legs[max(s.waypoint-1, 0)]
		switch {
		case len(points) == 2:
			l.doubts = append(l.doubts, working.Warn(PositionDoubtful, "both-positions-doubtful", "check both positions: the leg is %v long; with %s in one of them it would be %v", s.given, s.means, s.short))
		case s.waypoint == 0:
			l.doubts = append(l.doubts, working.Warn(PositionDoubtful, "first-position-doubtful", "check the position of %s, %v: the leg from it is %v long; with %s it would be %v, and the leg %v", w, w.Position, s.given, s.means, s.right, s.short))
		case s.waypoint == len(points)-1:
			l.doubts = append(l.doubts, working.Warn(PositionDoubtful, "last-position-doubtful", "check the position of %s, %v: the leg to it is %v long; with %s it would be %v, and the leg %v", w, w.Position, s.given, s.means, s.right, s.short))
		default:
			l.doubts = append(l.doubts, working.Warn(PositionDoubtful, "position-doubtful", "check the position of %s, %v: the legs to it and from it are %v together; with %s it would be %v, and they %v", w, w.Position, s.given, s.means, s.right, s.short))
		}
	}
}

// rhumbsAt returns the distance by rhumb line of the legs at a waypoint together.
func (p *Passage) rhumbsAt(waypoint int) (total sailing.Distance) {
	legs := p.Legs[max(waypoint-1, 0):min(waypoint+1, len(p.Legs))]
	for i := range legs {
		l := &legs[i]
		if l.To.GreatCircle {
			total += sailing.WGS84().Rhumb(l.From.Position, l.To.Position).Distance
		} else {
			total += l.Distance
		}
	}
	return total
}

// slipAt is a slip in a waypoint: latitude and longitude exchanged, or a wrong name, E for W or N
// for S.
func slipAt(points []angle.Position, i int) (slip, bool) {
	length := func(at angle.Position) (total sailing.Distance) {
		if i > 0 {
			total += sailing.WGS84().Rhumb(points[i-1], at).Distance
		}
		if i+1 < len(points) {
			total += sailing.WGS84().Rhumb(at, points[i+1]).Distance
		}
		return total
	}
	given := length(points[i])
	if given < slipLong {
		return slip{}, false
	}
	latitude, longitude := points[i].Latitude.Angle(), points[i].Longitude.Angle()
	for _, try := range []struct {
		long                sailing.Distance
		latitude, longitude angle.Angle
		means               string
	}{
		{slipLong, longitude, latitude, "latitude and longitude exchanged"},
		{slipMirror, latitude, -longitude, "E and W exchanged"},
		{slipMirror, -latitude, longitude, "N and S exchanged"},
	} {
		l, err := angle.LatitudeFrom(try.latitude)
		if err != nil || given < try.long {
			continue
		}
		right := angle.Position{Latitude: l, Longitude: angle.LongitudeFrom(try.longitude)}
		if short := length(right); short < given/slipShorter {
			return slip{i, try.means, right, given, short}, true
		}
	}
	return slip{}, false
}
