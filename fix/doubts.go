package fix

import (
	"math"
	"time"

	"gonum.org/v1/gonum/stat/distuv"

	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
	"lubberline.example/fix/internal/earth"
)

// doubts returns the warnings that do not follow from the uncertainties of the lines. They are
// about the reckoned position, times, the order of marks, and uncertainties that are not stated.
func (f Fix) doubts() []working.Warning {
	var out []working.Warning
	names := namesOf(f.lines)
	if p, ok := f.reckoned(); ok && f.isFarFromReckoned() {
		run := sailing.WGS84().Rhumb(p, f.position)
		out = append(out, working.Warn(FarFromReckoned, "far-from-reckoned", "the position is %s from the reckoned position, toward %s, more than the uncertainties allow: check the marks, the bearings and the reckoning",
			milesFor(run.Distance).of(run.Distance), bearingText(run.Course)))
	}
	if !f.known && f.degreesOfFreedom > 0 {
		out = append(out, f.hatWarnings()...)
	}
	if early, late, apart := f.timesDiffer(); early >= 0 {
		out = append(out, f.timesWarning(names, early, late, apart))
	}
	for i := range f.lines {
		l := &f.lines[i]
		if l.kind != KindTransit {
			continue
		}
		at := earth.FrameAt(f.state.up)
		if l.moved {
			at = earth.FrameAt(l.before(&at))
		}
		front, _, _ := at.Surface(l.a)
		rear, _, _ := at.Surface(l.b)
		if front > rear {
			out = append(out, working.Warn(TransitReversed, "transit-reversed", "the front mark of the transit, %v, is farther off than the rear mark, %v: the marks may be exchanged, or the position is on the wrong side of them",
				l.marks[0], l.marks[1]))
		}
	}
	k := f.assumed()
	if k&lacksReading != 0 {
		out = append(out, working.Warn(UncertaintyAssumed, "uncertainty-assumed-reading", "the uncertainty of the reading was not stated: a usual one is assumed, and the accuracy is only as good as that"))
	}
	if k&lacksVariation != 0 {
		out = append(out, working.Warn(UncertaintyAssumed, "uncertainty-assumed-variation", "the uncertainty of the variation was not stated: a usual one is assumed, and the accuracy is only as good as that"))
	}
	if k&lacksDeviation != 0 {
		out = append(out, working.Warn(UncertaintyAssumed, "uncertainty-assumed-deviation", "the uncertainty of the deviation was not stated: a usual one is assumed, and the accuracy is only as good as that"))
	}
	if !f.known && f.partlyStated() {
		out = append(out, f.unknown(names)...)
	}
	return out
}

// largeHat is the size from which a cocked hat of unstated uncertainties has a warning.
const largeHat = sailing.NauticalMile / 2

// hatWarnings returns a warning if lines of unstated uncertainty have a large cocked hat. It
// does too if they miss each other by more than usual lines do in 99 of 100 cases.
func (f Fix) hatWarnings() []working.Warning {
	longest, ok := f.hatSize()
	size := milesFor(max(longest, sailing.Cable)).of(longest)
	switch unusual := f.usualProbability() < suspicionLevel; {
	case unusual && ok:
		return []working.Warning{working.Warn(LargeCockedHat, "large-cocked-hat-unusual", "the lines miss each other by up to %s, more than usual errors explain: one line may be wrong, so observe again; "+nearestDanger, size)}
	case unusual:
		return []working.Warning{working.Warn(LargeCockedHat, "lines-miss-unusual", "the lines miss each other, more than usual errors explain: one line may be wrong, so observe again; "+nearestDanger)}
	case ok && longest >= largeHat:
		return []working.Warning{working.Warn(LargeCockedHat, "large-cocked-hat", "the lines miss each other by up to %s, and their uncertainties are not stated: "+nearestDanger, size)}
	}
	return nil
}

// timesWarning returns the warning of two lines whose times differ. The index len(f.lines) is
// the prior. If the speed is known, it says how far the vessel moved meanwhile.
func (f Fix) timesWarning(names names, early, late int, apart time.Duration) working.Warning {
	speed, between := f.solver.options.Speed, inHours(apart)
	d := speed.For(apart)
	moved := milesFor(d).of(d)
	switch {
	case early == len(f.lines) && speed > 0:
		return working.Warn(TimesDiffer, "line-after-reckoned-moved", "%s was observed %s after the reckoned position, and at %v the vessel moved %s meanwhile: reckon a run to that time first", names.of(late), between, speed, moved)
	case early == len(f.lines):
		return working.Warn(TimesDiffer, "line-after-reckoned", "%s was observed %s after the reckoned position: reckon a run to that time first", names.of(late), between)
	case late == len(f.lines) && speed > 0:
		return working.Warn(TimesDiffer, "line-before-reckoned-moved", "%s was observed %s before the reckoned position, and at %v the vessel moved %s meanwhile: transfer the line by the run between", names.of(early), between, speed, moved)
	case late == len(f.lines):
		return working.Warn(TimesDiffer, "line-before-reckoned", "%s was observed %s before the reckoned position: transfer the line by the run between", names.of(early), between)
	case speed > 0:
		return working.Warn(TimesDiffer, "times-differ-moved", "%s was observed %s before %s, and at %v the vessel moved %s meanwhile: transfer the earlier line by the run between (a running fix), or observe both at one time", names.of(early), between, names.of(late), speed, moved)
	}
	return working.Warn(TimesDiffer, "times-differ", "%s was observed %s before %s: transfer the earlier line by the run between (a running fix), or observe both at one time", names.of(early), between, names.of(late))
}

// usualProbability returns how often lines of usual uncertainties disagree as much.
func (f Fix) usualProbability() float64 {
	sum := 0.0
	for i := range f.lines {
		l := f.lines[i].given()
		if l.assume(); !l.stated {
			continue
		}
		sigma := math.Hypot(l.sigma, math.Hypot(l.ofVariation, l.ofDeviation))
		sum += f.residuals[i].Value * f.residuals[i].Value / (sigma * sigma)
	}
	return distuv.ChiSquared{K: float64(f.degreesOfFreedom)}.Survival(sum)
}

// maxApart is the longest time between lines of one round, if the speed is unknown.
const maxApart = 5 * time.Minute

// timesDiffer returns the two lines whose times are farthest apart, and the time between them.
// Lines transferred by a run of unknown time do not count. The index len(f.lines) means the
// prior. If the vessel moved less than the uncertainty of the lines, or times are unknown,
// early is below 0.
func (f Fix) timesDiffer() (early, late int, apart time.Duration) {
	early, late = -1, -1
	var first, last time.Time
	take := func(i int, t time.Time) {
		if t.IsZero() {
			return
		}
		if early < 0 || t.Before(first) {
			early, first = i, t
		}
		if late < 0 || t.After(last) {
			late, last = i, t
		}
	}
	for i := range f.lines {
		if l := &f.lines[i]; !l.time.IsZero() && l.carried >= 0 {
			take(i, l.time.Add(l.carried))
		}
	}
	if p := f.solver.options.Prior; p != nil {
		take(len(f.lines), p.Time)
	}
	apart = last.Sub(first)
	limit := maxApart
	if speed := f.solver.options.Speed; speed > 0 {
		limit = f.stillness(speed, early, late)
	}
	if early < 0 || apart <= limit {
		return -1, -1, 0
	}
	return early, late, apart
}

// stillness returns how long the vessel may run before one of the lines is wrong by its own
// standard uncertainty, but at least a minute.
func (f Fix) stillness(speed sailing.Speed, lines ...int) time.Duration {
	at := earth.FrameAt(f.state.up)
	across := math.Inf(1)
	for _, i := range lines {
		if i < 0 || i >= len(f.lines) {
			continue
		}
		l := &f.lines[i]
		p := l.expect(&at)
		if slope := math.Hypot(p.north, p.east); slope > 0 {
			across = min(across, 1/(slope*math.Sqrt(l.weight(p))))
		}
	}
	seconds := across / float64(speed)
	if !(seconds < maxApart.Seconds()*100) {
		return maxApart * 100
	}
	return max(time.Minute, time.Duration(seconds*float64(time.Second)))
}
