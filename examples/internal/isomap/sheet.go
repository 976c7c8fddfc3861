package isomap

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"math"
	"unicode/utf8"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/wmm"
)

// A sheet is the map on its page.
type sheet struct {
	projection
	page   spot         // its width and height
	taken  []label      // the places of the figures that are written
	over   bytes.Buffer // figures of the graticule, drawn over the lines
	title  string
	date   string
	model  *wmm.Model
	survey survey
}

// A label is a figure on the sheet. Its length is the diameter of a circle around it.
type label struct {
	spot
	length float64
}

const (
	margin    = 78
	head      = 48 // for the figures of the meridians
	keyHeight = 164
	narrowKey = 296
)

// newSheet returns a sheet for an area.
func newSheet(a Area) *sheet {
	s := &sheet{projection: newProjection(a, margin, head, a.widest(), a.highest())}
	s.page = spot{max(s.width, textWidth) + 2*margin, head + s.height + keyHeight}
	if a.Narrow {
		s.page = spot{narrowWidth + 2*margin, head + s.height + narrowKey}
	}
	s.left = (s.page.x - s.width) / 2
	return s
}

// changeStyle is that of lines of equal annual change.
const changeStyle = `stroke-width="1.7" stroke-dasharray="0 5" stroke-linecap="round"`

// unit is the length on paper of a unit in which the map is drawn, mm.
const unit = 0.186

// draw writes the map, in black and grey for printers. Westerly lines are broken, easterly
// lines are whole, and the agonic line is heavy.
func (s *sheet) draw(e *wmm.Evaluator, lines []wmm.Isogonic) (*drawing.Sheet, error) {
	b := &bytes.Buffer{}
	fmt.Fprintf(b, `<g font-size="14" transform="scale(%g)">`+"\n", unit)
	s.graticule(b)
	// An inner svg element cuts off the lines at the frame. Unlike a clip path it needs no
	// id, which another drawing on the same HTML page might have too.
	fmt.Fprintf(b, `<svg x="%.1f" y="%.1f" width="%.1f" height="%.1f" viewBox="%.1f %.1f %.1f %.1f" style="width:%.1fpx;height:%.1fpx;overflow:hidden">`+"\n",
		s.left, s.top, s.width, s.height, s.left, s.top, s.width, s.height, s.width, s.height)
	fmt.Fprintln(b, `<g fill="none" stroke="black" stroke-linejoin="round">`)
	for _, i := range lines {
		style := `stroke-width="1.3"`
		switch {
		case i.D == 0:
			style = `stroke-width="3.2"`
		case i.D < 0:
			style = `stroke-width="1.3" stroke-dasharray="9 4"`
		}
		for _, line := range i.Lines {
			fmt.Fprintf(b, `<path %s d="%s"/>`+"\n", style, s.path(line))
		}
	}
	changes, err := s.area.changeLines(e, s.survey)
	if err != nil {
		return nil, err
	}
	for _, c := range changes {
		for _, line := range c.lines {
			fmt.Fprintf(b, `<path class="change" %s d="%s"/>`+"\n", changeStyle, s.path(line))
		}
	}
	fmt.Fprintln(b, `</g></svg>`)
	fmt.Fprintf(b, "<g fill=\"#333\">%s</g>\n", s.over.Bytes())
	// A narrow map has no room for more than the annual change in the middle.
	if len(changes) == 0 {
		if err := s.changes(b, e, 50); err != nil {
			return nil, err
		}
	}
	for _, i := range lines {
		for _, line := range i.Lines {
			s.label(b, name(i), line, "")
		}
	}
	for _, c := range changes {
		for _, line := range c.lines {
			s.label(b, "("+minutes(c.change)+")", line, ` font-style="italic"`)
		}
	}
	if err := s.changes(b, e, 50); err != nil {
		return nil, err
	}
	s.frame(b)
	s.key(b, len(lines) > 0, len(changes) > 0)
	fmt.Fprint(b, `</g>`)
	drawn := drawing.New(unit*s.page.x, unit*s.page.y, s.title, s.inWords(len(changes) > 0))
	drawn.Put("%s", b.String())
	return drawn, nil
}

// inWords says what the map shows.
func (s *sheet) inWords(changes bool) string {
	a := s.area
	text := fmt.Sprintf("A map of magnetic variation from %v to %v and from %v to %v, by %s for %s, %s. Isogonic lines every %s, from %s to %s.",
		a.South, a.North, a.West, a.East, s.model.Name(), s.date, s.kind, short(a.Every), figure(s.survey.from.NormalizedSigned(), "E", "W"), figure(s.survey.to.NormalizedSigned(), "E", "W"))
	if changes {
		text += fmt.Sprintf(" Lines of equal annual change every %g′, from %s to %s.", s.survey.changeSpacing(), minutes(s.survey.least), minutes(s.survey.most))
	}
	return text
}

// escaped returns a text for XML.
func escaped(text string) string {
	var b bytes.Buffer
	xml.EscapeText(&b, []byte(text))
	return b.String()
}

// name returns the label of a line, to whole minutes: 4°W, 0°30′E, 0°.
func name(i wmm.Isogonic) string {
	return figure(i.D, "E", "W")
}

// frame draws the edge of the area.
func (s *sheet) frame(b *bytes.Buffer) {
	if s.kind != polar {
		fmt.Fprintf(b, `<rect x="%.1f" y="%.1f" width="%.1f" height="%.1f" fill="none" stroke="black" stroke-width="2"/>`+"\n", s.left, s.top, s.width, s.height)
		return
	}
	outline := s.area.outline()
	side := len(outline) / 4
	for k, at := range outline {
		if s.area.width() == angle.Turn && k/side%2 == 1 {
			continue // the seam is not an edge
		}
		letter := "L"
		switch {
		case k == 0:
			letter = `<path fill="none" stroke="black" stroke-width="2" d="M`
		case s.area.width() == angle.Turn && k%side == 0:
			letter = "M"
		}
		near := s.left
		if k >= side/2 && k < 2*side+side/2 {
			near += s.width
		}
		x, y := s.point(at, near)
		fmt.Fprintf(b, "%s%.1f %.1f", letter, x, y)
	}
	fmt.Fprintln(b, `"/>`)
}

// path returns the path of a line. Where the line crosses the seam of a map of the whole earth,
// the path ends beyond the frame and begins again on the other side.
func (s *sheet) path(line []angle.Position) string {
	var b bytes.Buffer
	var x0, y0 float64
	for k, p := range line {
		if k == 0 {
			x0, y0 = s.point(p, s.left)
			fmt.Fprintf(&b, "M%.1f %.1f", x0, y0)
			continue
		}
		x, y := s.point(p, x0)
		if over := x - x0; s.kind != polar && math.Abs(over) > s.width/2 {
			round := math.Copysign(s.width, over)
			fmt.Fprintf(&b, "L%.1f %.1fM%.1f %.1f", x-round, y, x0+round, y0)
		}
		fmt.Fprintf(&b, "L%.1f %.1f", x, y)
		x0, y0 = x, y
	}
	return b.String()
}

// label writes the name of a line on it, where there is room, if possible in the middle.
func (s *sheet) label(b *bytes.Buffer, name string, line []angle.Position, style string) {
	if len(line) < 6 {
		return
	}
	for _, part := range []float64{0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9} {
		k := 1 + int(part*float64(len(line)-3))
		x, y := s.point(line[k], s.left)
		x2, y2 := s.point(line[k+1], x)
		if s.room(line[k]) < textLength(name)/2+4 {
			continue
		}
		turn := math.Atan((y2-y)/(x2-x)) * 180 / math.Pi
		if math.IsNaN(turn) {
			turn = 0
		}
		if s.onMap(b, spot{x, y}, turn, name, style) {
			return
		}
	}
}

// onMap writes a figure on the map, turned by an angle. It reports whether there was room. The
// figure stands on a white box, since dashes beside it could look like points or signs.
func (s *sheet) onMap(b *bytes.Buffer, at spot, turn float64, name, style string) bool {
	length := textLength(name)
	if !s.take(at, length) {
		return false
	}
	fmt.Fprintf(b, `<g transform="translate(%.1f %.1f) rotate(%.0f)"><rect x="%.1f" y="-8" width="%.1f" height="16" stroke="none" fill="white"/><text stroke="none" text-anchor="middle" dy="5"%s>%s</text></g>`+"\n", at.x, at.y, turn, -length/2, length, style, name)
	return true
}

// textLength returns the length of a figure on the sheet, with a margin.
func textLength(name string) float64 { return 10 + 7.5*float64(utf8.RuneCountInString(name)) }

// take reports whether there is room for a figure, and if so reserves it.
func (s *sheet) take(at spot, length float64) bool {
	if at.x < length/2 || at.x > s.page.x-length/2 || at.y < 14 || at.y > s.page.y-10 {
		return false
	}
	for _, l := range s.taken {
		if math.Hypot(l.x-at.x, l.y-at.y) < (l.length+length)/2 && (math.Abs(l.y-at.y) < 18 || math.Abs(l.x-at.x) < (l.length+length)/2 && !s.outside(at) && !s.outside(l.spot)) {
			return false
		}
	}
	s.taken = append(s.taken, label{at, length})
	return true
}

// outside reports whether a spot is outside the frame, where figures are not turned.
func (s *sheet) outside(at spot) bool {
	return s.kind != polar && (at.x < s.left || at.x > s.left+s.width || at.y < s.top || at.y > s.top+s.height)
}
