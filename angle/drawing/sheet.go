package drawing

import (
	"bytes"
	"fmt"
	"math"
	"slices"

	"lubberline.example/angle/internal/oneline"
)

// Letters is the size of texts on a sheet, mm. A text may have its own font-size.
const Letters = 2.7

// A Sheet is a drawing: the body of a picture, in millimetres from its upper left corner.
// Make one with [New], and write it with [Sheet.WriteSVG]. A nil Sheet draws nothing, and WriteSVG
// returns an error for it.
type Sheet struct {
	width, height               float64 // of the body, mm
	title, description, caution string
	drawn                       bytes.Buffer
}

// New returns a white sheet of a width and a height in mm. The title stands above the body of a
// plate, and names the drawing to a screen reader. The description says in words what the
// drawing shows. It is not drawn.
//
// A figure 90 mm wide can still be read on a screen 320 pixels wide. A body of at most 190 by
// about 250 mm fits on A4.
func New(width, height float64, title, description string) *Sheet {
	return &Sheet{width: hundredth(width), height: hundredth(height), title: oneline.Of(title), description: oneline.Of(description)}
}

// SetHeight sets the height of the body, in mm. Use it if the height is known only when all is
// drawn.
func (s *Sheet) SetHeight(height float64) {
	if s != nil {
		s.height = hundredth(height)
	}
}

// Caution sets the text at the foot of a plate. Figures do not have it.
func (s *Sheet) Caution(text string) {
	if s != nil {
		s.caution = oneline.Of(text)
	}
}

// Description returns the text alternative of the drawing: in words, what it shows.
func (s *Sheet) Description() string {
	if s == nil {
		return ""
	}
	return s.description
}

// Put writes an element on its own line, with the format and arguments of [fmt.Sprintf].
// It rounds arguments of type float64 to a hundredth. It escapes nothing.
func (s *Sheet) Put(format string, args ...any) {
	if s == nil {
		return
	}
	args = slices.Clone(args)
	for i, a := range args {
		if f, ok := a.(float64); ok {
			args[i] = hundredth(f)
		}
	}
	fmt.Fprintf(&s.drawn, format, args...)
	s.drawn.WriteByte('\n')
}

// hundredth rounds to a hundredth. It never returns a negative zero. It rounds to a millionth first: the
// last bits of a place differ between machines, and must not decide a half.
func hundredth(mm float64) float64 { return math.Round(math.Round(mm*1e6)/1e4)/100 + 0 }

// Text writes a text on one line, from a spot on its base line. It may have more
// attributes, such as text-anchor="middle".
func (s *Sheet) Text(at Spot, attributes, text string) {
	if attributes != "" {
		attributes = " " + attributes
	}
	s.Put(`<text x="%.2f" y="%.2f"%s>%s</text>`, at.X, at.Y, attributes, escaped(text))
}

// Line draws a straight line. The attributes are those of the element, such as stroke="black"
// stroke-width="0.3".
func (s *Sheet) Line(from, to Spot, attributes string) {
	s.Put(`<line x1="%.2f" y1="%.2f" x2="%.2f" y2="%.2f" %s/>`, from.X, from.Y, to.X, to.Y, attributes)
}

// Polyline draws a line through some spots. The element has a class, and other attributes as in
// [Sheet.Line].
func (s *Sheet) Polyline(class, attributes string, spots []Spot) {
	s.path("polyline", class, attributes, spots)
}

// Polygon is [Sheet.Polyline] with a line back to the first spot.
func (s *Sheet) Polygon(class, attributes string, spots []Spot) {
	s.path("polygon", class, attributes, spots)
}

// path draws an element that has points.
func (s *Sheet) path(element, class, attributes string, spots []Spot) {
	if s == nil {
		return
	}
	fmt.Fprintf(&s.drawn, `<%s class="%s" %s points="`, element, class, attributes)
	for i, p := range spots {
		if i > 0 {
			s.drawn.WriteByte(' ')
		}
		fmt.Fprintf(&s.drawn, "%.2f,%.2f", hundredth(p.X), hundredth(p.Y))
	}
	s.Put(`"/>`)
}

// Rectangle draws a box, with attributes as in [Sheet.Line].
func (s *Sheet) Rectangle(b Box, attributes string) {
	s.Put(`<rect x="%.2f" y="%.2f" width="%.2f" height="%.2f" %s/>`, b.Left, b.Top, b.Right-b.Left, b.Bottom-b.Top, attributes)
}

// Clip calls inside, and shows only the part of its drawing that lies in the box. It writes
// an inner svg element of a class. The element has no id, so any number of drawings can
// stand on one page. Its size is also a style, so that no style of the page changes it.
func (s *Sheet) Clip(class string, b Box, inside func()) {
	width, height := b.Right-b.Left, b.Bottom-b.Top
	s.Put(`<svg class="%s" x="%.2f" y="%.2f" width="%.2f" height="%.2f" viewBox="%.2f %.2f %.2f %.2f" style="width:%.2fpx;height:%.2fpx;overflow:hidden">`,
		class, b.Left, b.Top, width, height, b.Left, b.Top, width, height, width, height)
	inside()
	s.Put(`</svg>`)
}
