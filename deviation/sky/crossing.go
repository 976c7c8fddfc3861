package sky

import (
	"time"

	"lubberline.example/angle"
)

// nextCrossing looks for rising or setting.
//
// The altitude is a wave of 24 hours with a slow drift. It is computed each hour. Where it turns
// within an hour close to the horizon, it is also computed at the turn. So between two of these
// times it only rises or only falls.
func nextCrossing(event Event, p angle.Position, after time.Time, within time.Duration) (time.Time, error) {
	s := search{position: p, start: after}
	here := s.at(0)
	for here.time < within {
		next := s.at(min(here.time+time.Hour, within))
		stops := [2]moment{next, next}
		if s.turnsNearHorizon(here, next) {
			stops[0] = s.turn(here, next)
		}
		if s.err != nil {
			return time.Time{}, s.err
		}
		for _, stop := range stops {
			if stop.isUp() != here.isUp() && stop.isUp() == (event == Rise) {
				return after.Add(s.change(here, stop).time), nil
			}
			here = stop
		}
	}
	end, err := Sun(after.Add(within))
	if err != nil {
		return time.Time{}, err
	}
	return time.Time{}, noEvent(event, p, after, within, end)
}

// A search is for rising or setting at a position from a time on. It keeps the first
// error.
type search struct {
	position angle.Position
	start    time.Time
	err      error
}

// A moment is the Sun's height above RiseSetAltitude at a time after the start.
type moment struct {
	time   time.Duration
	height angle.Angle
}

// isUp reports whether the Sun is above the altitude that is looked for.
func (m moment) isUp() bool { return m.height >= 0 }

// at returns the moment some time after the start.
func (s *search) at(t time.Duration) moment {
	sun, err := Sun(s.start.Add(t))
	if err != nil && s.err == nil {
		s.err = err
	}
	return moment{t, sun.From(s.position).Altitude - RiseSetAltitude}
}

// turnsNearHorizon reports whether the altitude turns near the horizon between two times up to an
// hour apart. The Sun may then cross the horizon although it is on the same side of it at both
// times.
func (s *search) turnsNearHorizon(from, to moment) bool {
	// Within an hour of its turn the altitude differs from that of the turn by up
	// to 3.1° (90° times 1 − cos 15°).
	const near = 4 * angle.Degree
	if min(from.height.Abs(), to.height.Abs()) > near {
		return false
	}
	return s.isRising(from) != s.isRising(to)
}

// isRising reports whether the Sun rises at a moment.
func (s *search) isRising(m moment) bool { return s.at(m.time+time.Second).height > m.height }

// turn returns the moment between two at which the altitude turns, by sections of
// the golden ratio.
func (s *search) turn(from, to moment) moment {
	const ratio = 0.6180339887498949
	sign := angle.Angle(-1) // for a lowest point
	if s.isRising(from) {
		sign = 1
	}
	a, b := from.time, to.time
	for b-a > time.Second {
		span := time.Duration(ratio * float64(b-a))
		if sign*s.at(b-span).height > sign*s.at(a+span).height {
			b = a + span
		} else {
			a = b - span
		}
	}
	return s.at(a + (b-a)/2)
}

// change returns the first moment, to the millisecond, at which the Sun is on the same side of the
// horizon as at the later moment.
func (s *search) change(from, to moment) moment {
	for to.time-from.time > time.Millisecond {
		if middle := s.at(from.time + (to.time-from.time)/2); middle.isUp() == to.isUp() {
			to = middle
		} else {
			from = middle
		}
	}
	return to
}
