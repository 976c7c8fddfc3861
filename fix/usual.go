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
// with the part that was not stated.
func (l *Line) uncertaintyStep() working.Step {
	s := working.Step{Key: "line", What: "Uncertainty of line", Value: "unknown"}
	if k := l.lacking(); k != 0 {
		s.How = fmt.Sprintf("that of the %v is not stated: %s", k, k.remedy())
		return s
	}
	sigma := math.Hypot(l.sigma, math.Hypot(l.ofVariation, l.ofDeviation))
	s.Value = uncertaintyText(sigma)
	if a, err := angle.Radians(sigma); err == nil {
		s.Number, s.Unit = a.Degrees(), "degrees"
	}
	parts := []string{"reading"}
	if l.ofVariation != 0 {
		parts = append(parts, "variation")
	}
	if l.ofDeviation != 0 {
		parts = append(parts, "deviation")
	}
	s.How = "standard uncertainty of " + strings.Join(parts, ", ")
	return s
}

// assumed returns the parts of all lines that have an assumed uncertainty.
func (f Fix) assumed() lacks {
	var k lacks
	for i := range f.lines {
		k |= f.lines[i].assumed
	}
	return k
}

// unknown returns in words which part of which line was not stated, so that the accuracy is
// unknown.
func (f Fix) unknown(names names) string {
	var k lacks
	first, count := -1, 0
	for i := range f.lines {
		if l := f.lines[i].lacking(); l != 0 {
			if first < 0 {
				first = i
			}
			k |= l
			count++
		}
	}
	if first < 0 {
		return "the uncertainties of the lines are not stated"
	}
	of := names.titled(first)
	if count > 1 {
		of = counted(count)
	}
	return fmt.Sprintf("the uncertainty of the %v is not stated for %s: %s", k, of, k.remedy())
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

// asGoodAs returns which uncertainties the ellipse is based on: "stated" or "usual".
func (f Fix) asGoodAs() string {
	if f.assumed() != 0 {
		return "usual"
	}
	return "stated"
}
