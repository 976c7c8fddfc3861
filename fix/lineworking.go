package fix

import (
	"fmt"
	"math"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
	"lubberline.example/fix/internal/earth"
)

// words returns a kind as it is written in a sentence.
func (k Kind) words() string { return strings.ReplaceAll(string(k), "-", " ") }

// titled returns the kind and the name of a line.
func (l *Line) titled() string {
	switch l.kind {
	case KindLatitude, KindLongitude, KindOther:
		return l.name
	case KindTransit, KindHorizontalAngle:
		return l.kind.words() + ", " + l.name
	case KindRange:
		return l.kind.words() + " " + l.name
	}
	return l.kind.words() + " of " + l.name
}

// observed returns the observed value as text and as a number in a unit. For a latitude or a
// longitude the text is empty, since the name contains it.
func (l *Line) observed() (text string, number float64, unit string) {
	degrees, _ := angle.Radians(l.want)
	switch l.kind {
	case KindBearing:
		t := angle.TrueFrom(degrees)
		return fmt.Sprintf("%.1f", t), t.Degrees(), working.DegreesFromNorth
	case KindHorizontalAngle:
		return fmt.Sprintf("%.1v", degrees), degrees.Degrees(), "degrees"
	case KindRange:
		d := sailing.Distance(l.want)
		return fmt.Sprintf("%.2f M", d.NauticalMiles()), d.NauticalMiles(), "nautical miles"
	case KindOther:
		return strings.TrimSpace(fmt.Sprintf("%g %s", l.want, l.unit)), l.want, l.unit
	case KindTransit:
		t := earth.BearingBetween(l.marks[0].Position, l.marks[1].Position)
		return fmt.Sprintf("%.1f", t), t.Degrees(), working.DegreesFromNorth
	case KindLatitude:
		return "", degrees.Degrees(), "degrees, north positive"
	case KindLongitude:
		return "", degrees.Degrees(), "degrees, east positive"
	}
	return "", 0, ""
}

// known returns the standard uncertainty of a line as text, with the errors that it shares and
// without the transfer. If it is unknown, the text is empty.
func (l *Line) known(m miles) string {
	if !l.stated {
		return ""
	}
	sigma := math.Hypot(l.sigma, math.Hypot(l.ofVariation, l.ofDeviation))
	switch {
	case l.isAngle():
		return uncertaintyText(sigma)
	case l.kind == KindOther:
		return strings.TrimSpace(fmt.Sprintf("±%g %s", sigma, l.unit))
	}
	d := sailing.Distance(sigma)
	if m.small(d) {
		m = milesFor(d)
	}
	return "±" + m.of(d)
}

// assumption returns which parts have an assumed uncertainty, or an empty text.
func (l *Line) assumption() string {
	if l.assumed == 0 {
		return ""
	}
	return fmt.Sprintf(" (%v assumed)", l.assumed)
}

// run returns the distance and the course by which a line was transferred. If it was not, or by
// a run of no distance, ok is false.
func (l *Line) run() (distance string, course angle.True, ok bool) {
	a, err := angle.Atan2(l.east, l.north)
	if !l.moved || err != nil {
		return "", course, false
	}
	d := sailing.Distance(math.Hypot(l.north, l.east))
	return milesFor(d).of(d), angle.TrueFrom(a), true
}

// String returns what was observed, with its standard uncertainty: bearing of Orlesk Head
// light 049.8°T ±1°.
func (l Line) String() string {
	if l.steps == nil {
		return "empty line"
	}
	text, _, _ := l.observed()
	if c := l.clock(); c != "" {
		text += " at " + c
	}
	text = strings.Join(strings.Fields(l.titled()+" "+text+" "+l.known(milesFor(max(sailing.Cable, sailing.Distance(l.sigma))))+l.assumption()), " ")
	if distance, course, ok := l.run(); ok {
		text += fmt.Sprintf(", transferred %s along %.1f", distance, course)
	}
	return text
}

// Residual returns the residual of the line at a position: the difference between what was
// observed and what is expected there. Offset is how far the position line passes from it.
// Errors that the line shares with others count as its own.
func (l Line) Residual(at angle.Position) Residual {
	if l.steps == nil {
		return Residual{}
	}
	f := earth.FrameAt(earth.Upright(at))
	p := l.expect(&f)
	r := Residual{Value: p.left, Ratio: p.left / math.Sqrt(1/l.weight(p)+l.ofVariation*l.ofVariation+l.ofDeviation*l.ofDeviation)}
	r.Offset, r.Toward = p.passes(p.left)
	return r
}

// passes returns how far a line passes whose residual is given, and the direction in which
// the observed value increases.
func (p predicted) passes(left float64) (offset sailing.Distance, toward angle.True) {
	slope := math.Hypot(p.north, p.east)
	if !(slope > 0) {
		return 0, angle.True{}
	}
	if a, err := angle.Atan2(p.east, p.north); err == nil {
		toward = angle.TrueFrom(a)
	}
	return sailing.Distance(left / slope), toward
}

// String returns how far the line passes and on which side: 0.12 M off toward 034°T.
func (r Residual) String() string {
	off, toward := r.passes(milesFor(max(r.Offset, -r.Offset, sailing.Cable)))
	if off == "" {
		return "through the position"
	}
	return fmt.Sprintf("%s off toward %s", off, toward)
}

// passes returns how far from the fix a line passes, and toward which direction. If it passes
// through the fix, both are empty.
func (r Residual) passes(m miles) (distance, direction string) {
	off, toward := r.Offset, r.Toward
	if off < 0 {
		off, toward = -off, toward.Reciprocal()
	}
	if m.small(off) {
		return "", ""
	}
	return m.of(off), bearingText(toward)
}

// withSlope adds to the step of a [LineFromFunc] how its value changes about the fix. Other
// steps stay as they are.
func (l *Line) withSlope(s working.Step, f *earth.Frame) working.Step {
	if l.kind != KindOther {
		return s
	}
	p := l.expect(f)
	steep := math.Hypot(p.north, p.east) * 1852
	toward, err := angle.Atan2(p.east, p.north)
	if err != nil || !finite(steep) {
		return s.Because("value-constant-here", "does not change with the position here")
	}
	return s.Because("value-increases", "increases by %s in 1 M toward %s", strings.TrimSpace(fmt.Sprintf("%.3g %s", steep, l.unit)), bearingText(angle.TrueFrom(toward)))
}
