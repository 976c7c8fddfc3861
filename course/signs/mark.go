package signs

import (
	"fmt"
	"math"

	"lubberline.example/angle/drawing"
)

// A MarkKind says what a position on the chart is.
type MarkKind string

// The kinds of marks. An unknown kind is drawn as a dot.
const (
	DeadReckoning MarkKind = "dead-reckoning" // a dead reckoning position (DR)
	Estimated     MarkKind = "estimated"      // an estimated position (EP)
	Fix           MarkKind = "fix"            // a position by lines of one time
	RunningFix    MarkKind = "running-fix"    // a position by a transferred line
	Wind          MarkKind = "wind"           // an arrow that flies with the wind
)

// A Mark is a position to draw, with its time, or an arrow of the wind.
type Mark struct {
	Kind MarkKind
	At   drawing.Spot
	Time string // in four figures, such as 1030; may be empty

	// Way is the direction of the track on the sheet, in degrees clockwise from up. The sign of a
	// dead reckoning position stands across the track. Of a wind, Way is the direction from
	// which it blows. Other kinds do not use it.
	Way float64
}

// marks are the names of all kinds, in the order of the legend.
var markNames = []struct {
	MarkKind
	name string
}{
	{DeadReckoning, "dead reckoning position (DR)"},
	{Estimated, "estimated position (EP)"},
	{Fix, "fix"},
	{RunningFix, "running fix"},
	{Wind, "wind"},
}

// Mark draws a position with its time, or the wind. If the spot or Way is not finite, it draws
// nothing.
func (p *Pen) Mark(m Mark) {
	if sum := m.At.X + m.At.Y + m.Way; p == nil || math.IsNaN(sum) || math.IsInf(sum, 0) {
		return
	}
	p.marks = once(p.marks, m.Kind)
	class, us := string(m.Kind), p.Usage == UnitedStates
	dot := func() {
		p.Sheet.Put(`<circle class="%s" cx="%.2f" cy="%.2f" r="0.35" fill="black"/>`, class, m.At.X, m.At.Y)
	}
	circle := func() {
		p.Sheet.Put(`<circle cx="%.2f" cy="%.2f" r="1.70" %s/>`, m.At.X, m.At.Y, style(0.35))
		dot()
	}
	corners := func(n int, radius, turn float64) {
		var all []drawing.Spot
		for i := range n {
			all = append(all, polar(m.At, turn+360*float64(i)/float64(n), radius))
		}
		p.Sheet.Polygon("frame", style(0.35), all)
		dot()
	}
	text := m.Time
	switch m.Kind {
	case Fix:
		circle()
	case RunningFix:
		circle()
		text = named(us, "R Fix", "R FIX", m.Time)
	case Estimated:
		if us {
			corners(4, 2.1, 45)
		} else {
			corners(3, 2.3, 0)
		}
		text = named(us, "EP", "EP", m.Time)
	case DeadReckoning:
		if us {
			p.halfCircle(m)
			dot()
		} else {
			p.Sheet.Line(polar(m.At, m.Way+90, 1.5), polar(m.At, m.Way-90, 1.5), fmt.Sprintf(`class="%s" `, class)+style(0.35))
		}
		text = named(us, "", "", m.Time)
	case Wind:
		p.wind(m)
		return
	default:
		dot()
	}
	p.avoid(m.At, 1.9)
	label := drawing.Label{Text: text, At: m.At, Gap: 2.4}
	if us && m.Kind == DeadReckoning {
		label.Along, label.Gap = slant(m, text), 0.1
	}
	p.label(label)
}

// named returns the label of a position: the name and the time, or in the United States the
// time and the name.
func named(us bool, name, usName, time string) string {
	switch {
	case name == "":
		return time
	case time == "":
		return name
	case us:
		return time + " " + usName
	}
	return name + " " + time
}

// slant returns a line beside a dead reckoning position, along which its time stands at an angle
// to the track.
func slant(m Mark, text string) []drawing.Spot {
	direction := 45.0
	if math.Abs(math.Remainder(m.Way-direction, 180)) < 20 {
		direction = 135
	}
	near, far := polar(m.At, direction, 2.2), polar(m.At, direction, 2.6+drawing.Letters*drawing.TextWidth(text))
	return []drawing.Spot{near, far}
}

// polar returns the spot in a direction, in degrees from up.
func polar(at drawing.Spot, degrees, radius float64) drawing.Spot {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	return at.Moved(radius*sin, -radius*cos)
}

// halfCircle draws the half circle of a dead reckoning position, on the left of the track.
func (p *Pen) halfCircle(m Mark) {
	a, b := polar(m.At, m.Way+180, 1.6), polar(m.At, m.Way, 1.6)
	p.Sheet.Put(`<path d="M%.2f %.2fA1.6 1.6 0 0 1 %.2f %.2f" %s/>`, a.X, a.Y, b.X, b.Y, style(0.35))
}

// wind draws an arrow that flies with the wind, with feathers at its tail.
func (p *Pen) wind(m Mark) {
	tail, tip := polar(m.At, m.Way, 6), polar(m.At, m.Way+180, 6)
	p.Sheet.Polyline(string(Wind), style(0.3), []drawing.Spot{tail, tip})
	p.arrowhead([]drawing.Spot{tail, tip}, 12, 12)
	for i := range 3 {
		at := polar(m.At, m.Way, 6-1.1*float64(i))
		p.Sheet.Line(at, polar(at, m.Way+35, 2), style(0.3))
	}
	p.avoidLine(tail, tip)
	p.label(drawing.Label{Text: "wind", At: tail, Gap: 2.5})
}
