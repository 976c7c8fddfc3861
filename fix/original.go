package fix

import (
	"math"
	"slices"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
)

// Original returns the position line as it was observed, before it was transferred, and the run
// over the ground by which it was. For several runs that is the rhumb line from the first
// place to the last. For a line that was not transferred, or by a run of no distance, ok is false.
func (l Line) Original() (original Line, run sailing.Run, ok bool) {
	toward, err := angle.Atan2(l.east, l.north)
	if !l.moved || err != nil {
		return Line{}, sailing.Run{}, false
	}
	run = sailing.Run{Course: angle.TrueFrom(toward), Distance: sailing.Distance(math.Hypot(l.north, l.east))}
	l.steps = slices.Clone(l.steps[:max(0, len(l.steps)-len(l.legs))])
	l.moved, l.north, l.east, l.transfer, l.carried, l.legs = false, 0, 0, sailing.Covariance{}, 0, nil
	if l.lacks&lacksRun != 0 {
		l.lacks &^= lacksRun
		l.stated = l.lacks == 0
	}
	return l, run, true
}

// Observed returns the observed value: 049.8°T, 5.20 M, 25°04.0′, 45 m. For a transit it is the
// bearing of the rear mark from the front one. For a latitude or a longitude it is that.
func (l Line) Observed() string {
	switch l.kind {
	case KindLatitude:
		north, _ := angle.Radians(l.want)
		if latitude, err := angle.LatitudeFrom(north); err == nil {
			return latitude.String()
		}
	case KindLongitude:
		east, _ := angle.Radians(l.want)
		return angle.LongitudeFrom(east).String()
	}
	text, _, _ := l.observed()
	return text
}
