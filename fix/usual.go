package fix

import (
	"fmt"
	"math"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// lacks are the parts of a line's uncertainty that were not stated.
type lacks uint8

const (
	lacksReading lacks = 1 << iota
	lacksVariation
	lacksDeviation
	lacksRun // of a transfer
)

// The usual standard uncertainties, taken where [Options.UsualUncertainties] asks for them
// (common practice in a small vessel).
const (
	usualVariation = 0.5 * math.Pi / 180
	usualDeviation = 1 * math.Pi / 180
	usualBearing   = 2 * math.Pi / 180
	usualSextant   = 0.1 * math.Pi / 180
	usualRange     = 0.05  // of the distance
	usualLeast     = 50.   // metres, for a short distance
	usualAltitude  = 1852. // metres, of a latitude or a longitude
)

// String returns the names of the parts, such as "variation and deviation".
func (k lacks) String() string {
	var parts []string
	for _, p := range []struct {
		lacks
		name string
	}{{lacksReading, "reading"}, {lacksVariation, "variation"}, {lacksDeviation, "deviation"}, {lacksRun, "run of the transfer"}} {
		if k&p.lacks != 0 {
			parts = append(parts, p.name)
		}
	}
	if n := len(parts); n > 1 {
		parts = append(parts[:n-2:n-2], parts[n-2]+" and "+parts[n-1])
	}
	return strings.Join(parts, ", ")
}

// remedy returns how to state what is missing.
func (k lacks) remedy() string {
	const usual = "or take usual uncertainties"
	switch {
	case k&lacksRun != 0:
		return "state those of the run's heading, speed and stream"
	case k&lacksVariation != 0:
		return "state it, as in 6°W ±0°30′, " + usual
	case k&lacksDeviation != 0:
		return "state it, as in deviation 2°E ±1°, " + usual
	}
	return "state it, " + usual
}

// lacking returns the parts that were not stated. If it returns none, the uncertainty of the
// line is stated.
func (l *Line) lacking() lacks {
	if l.stated {
		return 0
	}
	k := l.lacks
	if k == 0 || !l.isAngle() && l.sigma == 0 {
		k |= lacksReading
	}
	return k
}

// assume sets usual uncertainties for the parts that were not stated. For a depth or a run
// there is no usual uncertainty, and the line stays as it is.
func (l *Line) assume() {
	k := l.lacking()
	if k == 0 || k&lacksRun != 0 || l.kind == KindOther {
		return
	}
	if k&lacksReading != 0 {
		switch l.kind {
		case KindBearing:
			l.sigma = usualBearing
		case KindTransit, KindHorizontalAngle:
			l.sigma = usualSextant
		case KindRange:
			l.sigma = max(usualRange*l.want, usualLeast)
		default:
			l.sigma = usualAltitude
		}
	}
	if k&lacksVariation != 0 {
		l.ofVariation = usualVariation
	}
	if k&lacksDeviation != 0 {
		l.ofDeviation = usualDeviation
	}
	l.stated, l.assumed = true, k
}

// given returns the line without assumed uncertainties.
func (l Line) given() Line {
	if l.assumed == 0 {
		return l
	}
	l.stated, l.lacks = false, l.lacks|l.assumed
	if l.assumed&lacksReading != 0 {
		l.sigma = 0
	}
	if l.assumed&lacksVariation != 0 {
		l.ofVariation = 0
	}
	if l.assumed&lacksDeviation != 0 {
		l.ofDeviation = 0
	}
	if !l.isAngle() {
		l.lacks &^= lacksReading // as it was made
	}
	l.assumed = 0
	return l
}

// uncertaintyStep returns the step with the standard uncertainty of a converted bearing, or
// with the parts that were not stated.
func (l *Line) uncertaintyStep() working.Step {
	s := working.Step{Key: "line", What: "Uncertainty of line", Value: "unknown"}
	if k := l.lacking(); k != 0 {
		if k&lacksVariation != 0 {
			s = s.Because("line-variation-unstated", "that of the variation is not stated: state it, as in 6°W ±0°30′, or take usual uncertainties")
		}
		if k&lacksDeviation != 0 {
			s = s.Because("line-deviation-unstated", "that of the deviation is not stated: state it, as in deviation 2°E ±1°, or take usual uncertainties")
		}
		if k&lacksReading != 0 {
			s = s.Because("line-reading-unstated", "that of the reading is not stated: state it, or take usual uncertainties")
		}
		return s
	}
	sigma := math.Hypot(l.sigma, math.Hypot(l.ofVariation, l.ofDeviation))
	s.Value = uncertaintyText(sigma)
	if a, err := angle.Radians(sigma); err == nil {
		s.Number, s.Unit = a.Degrees(), "degrees"
	}
	switch {
	case l.ofVariation != 0 && l.ofDeviation != 0:
		return s.Because("line-uncertainty-of-all", "standard uncertainty of reading, variation and deviation")
	case l.ofVariation != 0:
		return s.Because("line-uncertainty-of-variation", "standard uncertainty of reading and variation")
	case l.ofDeviation != 0:
		return s.Because("line-uncertainty-of-deviation", "standard uncertainty of reading and deviation")
	}
	return s.Because("line-uncertainty-of-reading", "standard uncertainty of reading")
}

// assumed returns the parts of all lines that have an assumed uncertainty.
func (f Fix) assumed() lacks {
	var k lacks
	for i := range f.lines {
		k |= f.lines[i].assumed
	}
	return k
}

// What is printed about a part of the uncertainty of lines that was not stated.
const (
	runUnstated       = "the uncertainty of the run of the transfer is not stated for %s: state those of the run's heading, speed and stream"
	variationUnstated = "the uncertainty of the variation is not stated for %s: state it, as in 6°W ±0°30′, or take usual uncertainties"
	deviationUnstated = "the uncertainty of the deviation is not stated for %s: state it, as in deviation 2°E ±1°, or take usual uncertainties"
	readingUnstated   = "the uncertainty of the reading is not stated for %s: state it, or take usual uncertainties"
)

// lacking returns the names of the lines that lack a part of the uncertainty. Of many it
// returns the first three and an ellipsis.
func (f Fix) lacking(part lacks, names names) string {
	var of []string
	for i := range f.lines {
		if f.lines[i].lacking()&part == 0 {
			continue
		}
		if len(of) == 3 {
			of = append(of, "…")
			break
		}
		of = append(of, names.of(i))
	}
	return strings.Join(of, ", ")
}

// unknown returns the warnings of the parts that were not stated, so that the accuracy is
// unknown.
func (f Fix) unknown(names names) []working.Warning {
	var out []working.Warning
	if of := f.lacking(lacksRun, names); of != "" {
		out = append(out, working.Warn(UncertaintyUnknown, "run-unstated", runUnstated, of))
	}
	if of := f.lacking(lacksVariation, names); of != "" {
		out = append(out, working.Warn(UncertaintyUnknown, "variation-unstated", variationUnstated, of))
	}
	if of := f.lacking(lacksDeviation, names); of != "" {
		out = append(out, working.Warn(UncertaintyUnknown, "deviation-unstated", deviationUnstated, of))
	}
	if of := f.lacking(lacksReading, names); of != "" {
		out = append(out, working.Warn(UncertaintyUnknown, "reading-unstated", readingUnstated, of))
	}
	return out
}

// withUnknown returns a step with what [Fix.unknown] says as reasons.
func (f Fix) withUnknown(s working.Step, names names) working.Step {
	if of := f.lacking(lacksRun, names); of != "" {
		s = s.Because("run-unstated", runUnstated, of)
	}
	if of := f.lacking(lacksVariation, names); of != "" {
		s = s.Because("variation-unstated", variationUnstated, of)
	}
	if of := f.lacking(lacksDeviation, names); of != "" {
		s = s.Because("deviation-unstated", deviationUnstated, of)
	}
	if of := f.lacking(lacksReading, names); of != "" {
		s = s.Because("reading-unstated", readingUnstated, of)
	}
	return s
}

// mixed returns the error if only some of the lines have a stated uncertainty.
func mixed(lines []Line) error {
	names := namesOf(lines)
	with, without := -1, -1
	for i := range lines {
		if lines[i].stated && with < 0 {
			with = i
		}
		if !lines[i].stated && without < 0 {
			without = i
		}
	}
	k := lines[without].lacking()
	return &Error{Kind: UncertaintyMissing, Reason: fmt.Sprintf("the uncertainty of the %v is not stated for %s, but is for %s: %s, or state none",
		k, names.titled(without), names.titled(with), k.remedy())}
}

// partlyStated reports whether a line has an uncertainty of which only a part is stated, for
// example without that of the variation.
func (f Fix) partlyStated() bool {
	for i := range f.lines {
		if l := &f.lines[i]; !l.stated && (l.sigma != 0 || l.ofVariation != 0 || l.ofDeviation != 0 || l.lacks&lacksRun != 0) {
			return true
		}
	}
	return false
}
