package signs

import (
	"math"
	"slices"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
)

// A LineKind says what a line on the chart is.
type LineKind string

// The kinds of lines. An unknown kind is drawn as a thin line.
const (
	WaterTrack      LineKind = "water-track"      // the course through the water; without leeway it is the course steered
	Heading         LineKind = "heading"          // the course steered, if leeway makes the water track differ
	GroundTrack     LineKind = "ground-track"     // the course made good, or the track of a plan
	Stream          LineKind = "stream"           // set and drift of a tidal stream or current
	BearingLine     LineKind = "bearing-line"     // the position line of a bearing
	RangeLine       LineKind = "range-line"       // the position line of a distance off or of a body
	TransferredLine LineKind = "transferred-line" // a position line moved along the run
	ClearingLine    LineKind = "clearing-line"    // hatched on the side of the danger
)

// A Line is a line to draw, with the texts that stand beside it, as they are printed. An empty text
// is left out.
type Line struct {
	Kind LineKind

	// Path has two spots, or more for an arc. It leads from the beginning of a track to its
	// end, and from the mark of a bearing to the outer end of its line.
	Path []drawing.Spot

	Direction string // such as 049°T
	Speed     string // such as 5.5 kn; of a stream, its rate
	Time      string // such as 1030; of a transferred line both times, 1000–1030
	Note      string // such as NLT on a clearing line, or a distance

	// Danger is the side of the danger, looking along the path of a clearing line. If unset,
	// the line has no hatch.
	Danger angle.Side
}

// A lineSign is how a kind of line is drawn.
type lineSign struct {
	name   string // in the legend
	width  float64
	dashes string
	heads  int // arrowheads of the Commonwealth usage
	both   bool
	ends   bool // the arrowheads stand at the ends, and not in the middle

	// direction and speed stand before the figures in the usage of the United States.
	direction, speed string
}

// lineSigns are the signs of all kinds, in the order of the legend.
var lineSigns = []struct {
	LineKind
	lineSign
}{
	{WaterTrack, lineSign{name: "course steered, water track", width: 0.35, heads: 1, direction: "C ", speed: "S "}},
	{Heading, lineSign{name: "heading; from it to the water track is the leeway", width: 0.25, dashes: "3 1.2"}},
	{GroundTrack, lineSign{name: "ground track", width: 0.5, heads: 2, direction: "TR ", speed: "SOA "}},
	{Stream, lineSign{name: "tidal stream or current", width: 0.35, heads: 3, direction: "SET ", speed: "DRIFT "}},
	{BearingLine, lineSign{name: "position line of a bearing", width: 0.3, heads: 1, ends: true}},
	{RangeLine, lineSign{name: "position line of a distance or a body", width: 0.3, heads: 1, ends: true, both: true}},
	{TransferredLine, lineSign{name: "transferred position line", width: 0.3, heads: 2, ends: true, both: true}},
	{ClearingLine, lineSign{name: "clearing line, hatched on the side of the danger", width: 0.4}},
}

// sign returns how a kind is drawn. An unknown kind is a thin line.
func (k LineKind) sign() lineSign {
	for _, s := range lineSigns {
		if s.LineKind == k {
			return s.lineSign
		}
	}
	return lineSign{name: string(k), width: 0.2}
}

// Line draws a line with its arrowheads, hatch and texts. It draws no path without length, and none
// whose spots are not finite.
func (p *Pen) Line(l Line) {
	whole := length(l.Path)
	if p == nil || !(whole > 0) || math.IsInf(whole, 0) {
		return
	}
	p.lines = once(p.lines, l.Kind)
	s := l.Kind.sign()
	dashes := ""
	if s.dashes != "" {
		dashes = ` stroke-dasharray="` + s.dashes + `"`
	}
	p.Sheet.Polyline(string(l.Kind), style(s.width)+dashes, l.Path)
	p.arrowheads(s, l.Path, whole)
	if l.Kind == ClearingLine {
		p.hatch(l.Path, whole, l.Danger)
	}
	p.avoidLine(l.Path...)
	// The texts keep off the arrowheads beside them.
	above, below := p.texts(l, s)
	p.label(drawing.Label{Text: above, Along: l.Path, Gap: 1.2, Below: l.Danger == angle.Port && l.Kind == ClearingLine})
	p.label(drawing.Label{Text: below, Along: l.Path, Gap: 1.2, Below: true})
}

// The arrowheads of lines, mm.
const (
	headLength = 2.2
	headHalf   = 0.85
	headApart  = 1.6 // from one arrowhead to the next
)

// arrowheads draws the arrowheads of the Commonwealth usage. In that of the United States only
// a stream has one, at its end.
func (p *Pen) arrowheads(s lineSign, path []drawing.Spot, whole float64) {
	heads, ends := s.heads, s.ends
	if p.Usage == UnitedStates {
		if s.speed == "DRIFT " {
			p.arrowhead(path, whole, whole)
		}
		return
	}
	// A short line has its arrowheads closer together, and smaller ones.
	for i := range heads {
		back := float64(i) * min(headApart, whole/8)
		if !ends {
			p.arrowhead(path, whole*s.part()+min(headApart, whole/8)*float64(heads-1)/2+headLength/2-back, whole)
			continue
		}
		p.arrowhead(path, whole-back, whole)
		if s.both {
			p.arrowhead(reversed(path), whole-back, whole)
		}
	}
}

// part returns where the arrowheads stand between the ends of a line. Those of a ground track stand
// apart from those of the water track beside it.
func (s lineSign) part() float64 {
	switch s.heads {
	case 1:
		return 0.42
	case 2:
		return 0.6
	}
	return 0.5
}

// reversed returns a path from its end to its beginning.
func reversed(path []drawing.Spot) []drawing.Spot {
	back := slices.Clone(path)
	slices.Reverse(back)
	return back
}

// arrowhead draws one arrowhead with its tip at a distance along a path.
func (p *Pen) arrowhead(path []drawing.Spot, distance, whole float64) {
	tip, way := along(path, distance)
	size := min(1, whole/6)
	l, h := headLength*size, headHalf*size
	wing := func(side float64) drawing.Spot {
		return tip.Moved(-l*way.X-side*h*way.Y, -l*way.Y+side*h*way.X)
	}
	head := []drawing.Spot{wing(-1), tip, wing(1)}
	p.Sheet.Polyline("arrowhead", style(0.35), head)
	p.avoidLine(head...)
}

// hatch draws short strokes from a clearing line to the side of the danger.
func (p *Pen) hatch(path []drawing.Spot, whole float64, danger angle.Side) {
	side := 1.0 // to starboard, y down
	switch danger {
	case angle.Port:
		side = -1
	case angle.Starboard:
	default:
		return
	}
	for d := 0.75; d < whole; d += 1.5 {
		at, way := along(path, d)
		to := at.Moved(1.4*(-way.X-side*way.Y), 1.4*(-way.Y+side*way.X))
		p.Sheet.Line(at, to, style(0.2))
		p.avoidLine(at, to)
	}
}

// texts returns what stands above and below a line.
func (p *Pen) texts(l Line, s lineSign) (above, below string) {
	join := func(parts ...string) string {
		return strings.Join(slices.DeleteFunc(parts, func(s string) bool { return s == "" }), " ")
	}
	before := func(name, text string) string {
		if text == "" {
			return ""
		}
		return name + text
	}
	us := p.Usage == UnitedStates
	switch {
	case l.Kind == ClearingLine:
		return join(l.Note, l.Direction), ""
	case us && s.ends:
		return l.Time, join(l.Direction, l.Note)
	case us && l.Speed != "" && l.Note != "":
		return join(l.Time, before(s.direction, l.Direction)), s.speed + l.Speed + ", " + l.Note
	case us:
		return join(l.Time, before(s.direction, l.Direction)), join(before(s.speed, l.Speed), l.Note)
	case s.ends:
		return join(l.Time, l.Direction), l.Note
	case l.Kind == Stream && l.Speed != "":
		return join(l.Time, l.Direction, "("+l.Speed+")"), l.Note
	}
	return join(l.Time, l.Direction, l.Speed), l.Note
}
