package drawing

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"lubberline.example/angle/internal/oneline"
)

// A Label is a text to be placed by [Labels].
type Label struct {
	Text string // each "\n" begins another line

	// At is what the text belongs to, such as the middle of a symbol. Along is a line along
	// which the text stands, turned as the line is: along the longest part of it in the room.
	// At is not used if Along has two spots or more.
	At    Spot
	Along []Spot

	Below      bool    // below the line or the spot, if there is room, rather than above
	Gap        float64 // between the spot or the line and the text, mm; if 0, 2 from a spot and 0.9 from a line
	Size       float64 // of the letters, mm; if 0, Letters
	Attributes string  // of the text element, such as font-style="italic"
}

// Labels places texts on a sheet so that they overlap neither each other nor what is drawn.
// Draw the lines and symbols of a picture first, and name them to Labels with Avoid and AvoidLine.
// Add all labels, then
// call [Labels.Draw] once.
type Labels struct {
	Room Box // no label leaves it

	boxes  []turned
	lines  [][]Spot
	labels []*placing
}

// Avoid keeps labels off some boxes, such as those around symbols.
func (l *Labels) Avoid(boxes ...Box) {
	for _, b := range boxes {
		l.boxes = append(l.boxes, b.asTurned())
	}
}

// AvoidLine keeps labels off a line through some spots.
func (l *Labels) AvoidLine(spots ...Spot) {
	if len(spots) > 1 {
		l.lines = append(l.lines, slices.Clone(spots))
	}
}

// Add adds a label. A label without text is left out.
func (l *Labels) Add(label Label) {
	if oneline.Of(label.Text) != "" {
		l.labels = append(l.labels, newPlacing(label))
	}
}

// Draw places all labels that were added, and writes them on the sheet. If a label has no room
// at its place, it stands in free room nearby and a thin line leads to it. Draw returns the
// labels for which there is no room at all: list them in the legend.
//
// Draw reckons with a wide font, since that of the viewer is unknown.
func (l *Labels) Draw(s *Sheet) (left []Label) {
	for _, p := range l.labels {
		p.line = l.visible(p.Along)
		p.choices = slices.DeleteFunc(p.places(), func(r place) bool { return !l.free(r.box) })
	}
	order := slices.Clone(l.labels)
	slices.SortStableFunc(order, func(a, b *placing) int { return cmp.Compare(len(a.choices), len(b.choices)) })
	for _, p := range order {
		if !l.settle(p) {
			l.rearrange(p)
		}
	}
	for _, p := range order {
		if p.at == nil {
			l.leadOut(p)
		}
	}
	for _, p := range l.labels {
		if p.at == nil {
			left = append(left, p.Label)
			continue
		}
		p.draw(s)
	}
	l.labels = nil
	return left
}

// A placing is a label that is being placed.
type placing struct {
	Label
	line    []Spot  // the part of Along that is in the room
	shapes  []shape // its text as given, then broken into two lines if that is narrower
	choices []place // where there is room beside what is drawn, the best first
	at      *place  // where it stands; nil if nowhere yet
}

// A shape is a text as lines, with the size of the rectangle that it fills.
type shape struct {
	texts        []string
	across, high float64 // half the width and half the height
	rise         float64 // from the base line of the first line to the upper edge
	spacing      float64 // from a base line to the next
}

// A place is where a label may stand.
type place struct {
	box    turned
	shape  shape
	side   float64 // 1 if the text begins at the left edge of the box, -1 if it ends at the right one
	leader []Spot  // if it is led out, the ends of the line that leads to it
}

// leastBroken is the width of a text that may be broken into two lines, as a multiple of the
// letter size.
const leastBroken = 6

// lineHeight is the distance of two lines of a label in Latin letters, as a multiple of the
// letter size.
const lineHeight = 1.25

// newPlacing measures a label.
func newPlacing(label Label) *placing {
	p := &placing{Label: label}
	if !(p.Size > 0) {
		p.Size = Letters
	}
	var texts []string
	for text := range strings.SplitSeq(label.Text, "\n") {
		texts = append(texts, oneline.Of(text))
	}
	p.shapes = []shape{p.shape(texts)}
	if len(texts) == 1 && TextWidth(texts[0]) > leastBroken {
		if texts = Wrapped(texts[0], 0.6*TextWidth(texts[0])); len(texts) == 2 {
			p.shapes = append(p.shapes, p.shape(texts))
		}
	}
	return p
}

// shape measures some lines of text.
func (p *placing) shape(texts []string) shape {
	s := shape{texts: texts}
	wide := 1.0
	if strings.Contains(p.Attributes, "bold") {
		wide = boldWidth
	}
	up, down, spacing := 0.8, 0.26, lineHeight
	for _, text := range texts {
		s.across = max(s.across, p.Size*wide*TextWidth(text)/2)
		if strings.ContainsFunc(text, isTall) {
			up, down, spacing = tallUp, tallDown, tallUp+tallDown
		}
	}
	s.rise, s.spacing = up*p.Size, spacing*p.Size
	s.high = (p.Size*(up+down) + s.spacing*float64(len(texts)-1)) / 2
	return s
}

// free reports whether a rectangle is in the room and covers nothing that is drawn.
func (l *Labels) free(r turned) bool {
	if !r.bounds().Within(l.Room) {
		return false
	}
	near := r.bounds()
	for _, b := range l.boxes {
		if r.meets(b) {
			return false
		}
	}
	const clearance = 0.6
	near, r = near.Grown(clearance), r.grown(clearance)
	for _, line := range l.lines {
		for i := range len(line) - 1 {
			a, b := line[i], line[i+1]
			if max(a.X, b.X) < near.Left || min(a.X, b.X) > near.Right || max(a.Y, b.Y) < near.Top || min(a.Y, b.Y) > near.Bottom {
				continue
			}
			if r.crossed(a, b) {
				return false
			}
		}
	}
	return true
}

// apart is the distance between two labels, mm.
const apart = 0.5

// covers returns the placed labels that a place of another would cover.
func (l *Labels) covers(r place, of *placing) (covered []*placing) {
	wide := r.box.grown(apart)
	for _, p := range l.labels {
		if p == of || p.at == nil {
			continue
		}
		if wide.meets(p.at.box) || p.at.leader != nil && wide.crossed(p.at.leader[0], p.at.leader[1]) ||
			r.leader != nil && p.at.box.grown(apart).crossed(r.leader[0], r.leader[1]) {
			covered = append(covered, p)
		}
	}
	return covered
}

// settle gives a label the first of its choices that covers no other label.
func (l *Labels) settle(p *placing) bool {
	for i := range p.choices {
		if len(l.covers(p.choices[i], p)) == 0 {
			p.at = &p.choices[i]
			return true
		}
	}
	return false
}

// rearrange moves other labels, to make room for one that has none. It reports whether it
// succeeded. The labels that have moved for it already stay.
func (l *Labels) rearrange(p *placing, moved ...*placing) bool {
	moved = append(moved, p)
	for i := range p.choices {
		covered := l.covers(p.choices[i], p)
		if len(covered) != 1 || slices.Contains(moved, covered[0]) {
			continue
		}
		other, was := covered[0], covered[0].at
		p.at, other.at = &p.choices[i], nil
		if l.settle(other) || len(moved) < 3 && l.rearrange(other, moved...) {
			return true
		}
		p.at, other.at = nil, was
	}
	return false
}

// draw writes a placed label.
func (p *placing) draw(s *Sheet) {
	r := p.at.box
	if p.at.leader != nil {
		s.Line(p.at.leader[0], p.at.leader[1], `class="leader" stroke="black" stroke-width="0.2"`)
	}
	attributes := p.Attributes
	if p.Size != Letters {
		attributes += fmt.Sprintf(` font-size="%g"`, hundredth(p.Size))
	}
	for i, text := range p.at.shape.texts {
		at := r.out(At(-p.at.side*p.at.shape.across, p.at.shape.rise-p.at.shape.high+p.at.shape.spacing*float64(i)))
		if r.sin == 0 {
			anchor := map[float64]string{-1: "end", 0: "middle", 1: "start"}[p.at.side]
			s.Text(at, `text-anchor="`+anchor+`"`+spaced(attributes), text)
			continue
		}
		s.Put(`<text transform="translate(%.2f %.2f) rotate(%.2f)" text-anchor="middle"%s>%s</text>`, at.X, at.Y, degreesOf(r.sin, r.cos), spaced(attributes), escaped(text))
	}
}

// spaced puts a space before attributes.
func spaced(attributes string) string {
	if attributes = strings.TrimSpace(attributes); attributes != "" {
		return " " + attributes
	}
	return ""
}
