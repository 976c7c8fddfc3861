package drawing

import (
	"bytes"
	"fmt"
	"io"
	"io/fs"
	"math"
	"slices"
)

// A Format is the size of a sheet and of its letters.
type Format struct {
	Width, Height float64 // mm
	Letters       float64 // default size of texts, mm
	Font          string  // font families as SVG lists them; if empty, sans-serif
}

// Measures of [A4], mm.
const (
	A4Left, A4Right = 14.0, 196.0 // left and right edge of the text
	A4Letters       = 2.7         // default size of texts
)

// A4 returns the format of an upright A4 sheet.
func A4() Format { return Format{Width: 210, Height: 297, Letters: A4Letters} }

// fullPage is the least side of a sheet that does not fit between the margins of a page,
// mm.
const fullPage = 250.0

// A Sheet is a drawing. Make one with [New].
type Sheet struct{ drawn bytes.Buffer }

// New returns a white sheet. A viewer may show the title on a tab. The description says in
// words what the drawing shows. Neither is drawn.
//
// A sheet with a side of 250 mm or more is a full page. It has a style element with its page
// size and no margins, so that a browser prints it on one sheet of paper. The style applies
// to a whole HTML page: remove it if you put the drawing into one. Write of package
// [lubberline.example/angle/page] removes it.
func New(f Format, title, description string) *Sheet {
	if f.Font == "" {
		f.Font = "sans-serif"
	}
	width, height := hundredth(f.Width), hundredth(f.Height)
	s := &Sheet{}
	s.Put(`<svg xmlns="http://www.w3.org/2000/svg" width="%gmm" height="%gmm" viewBox="0 0 %g %g" font-family="%s" font-size="%.1f">`, width, height, width, height, f.Font, f.Letters)
	s.Put(`<title>%s</title>`, escaped(title))
	s.Put(`<desc>%s</desc>`, escaped(description))
	if max(width, height) >= fullPage {
		// A little less than the page: viewers round up, and would print an empty second sheet.
		s.Put(`<style>@page{size:%gmm %gmm;margin:0}@media print{svg:root{height:%gmm}}</style>`, width, height, height-0.5)
	}
	s.Put(`<rect width="%g" height="%g" fill="white"/>`, width, height)
	return s
}

// WriteTo writes the whole drawing in one call of w.Write. The sheet does not change. It
// returns the number of bytes written and the writer's error unchanged. If w is nil, it
// returns a [*fs.PathError] for [fs.ErrInvalid].
func (s *Sheet) WriteTo(w io.Writer) (int64, error) {
	if w == nil {
		return 0, &fs.PathError{Op: "write", Path: "a drawing to a nil writer", Err: fs.ErrInvalid}
	}
	n, err := w.Write(slices.Concat(s.drawn.Bytes(), []byte("</svg>\n")))
	return int64(n), err
}

// Put writes an element on its own line, with the format and arguments of [fmt.Sprintf].
// It rounds arguments of type float64 to a hundredth. It escapes nothing.
func (s *Sheet) Put(format string, args ...any) {
	args = slices.Clone(args)
	for i, a := range args {
		if f, ok := a.(float64); ok {
			args[i] = hundredth(f)
		}
	}
	fmt.Fprintf(&s.drawn, format, args...)
	s.drawn.WriteByte('\n')
}

// hundredth rounds to a hundredth. It never returns a negative zero.
func hundredth(mm float64) float64 { return math.Round(mm*100)/100 + 0 }

// Text writes a text on one line, from a spot on its base line. It may have more
// attributes, such as text-anchor="middle".
func (s *Sheet) Text(at Spot, attributes, text string) {
	if attributes != "" {
		attributes = " " + attributes
	}
	s.Put(`<text x="%.2f" y="%.2f"%s>%s</text>`, at.X, at.Y, attributes, escaped(text))
}

// Line draws a straight line. The style is its attributes: stroke="black"
// stroke-width="0.3".
func (s *Sheet) Line(from, to Spot, style string) {
	s.Put(`<line x1="%.2f" y1="%.2f" x2="%.2f" y2="%.2f" %s/>`, from.X, from.Y, to.X, to.Y, style)
}

// Polyline draws a line through some spots.
func (s *Sheet) Polyline(class, style string, spots []Spot) {
	s.path("polyline", class, style, spots)
}

// Polygon draws a line through some spots and back to the first.
func (s *Sheet) Polygon(class, style string, spots []Spot) {
	s.path("polygon", class, style, spots)
}

// path draws an element that has points.
func (s *Sheet) path(element, class, style string, spots []Spot) {
	fmt.Fprintf(&s.drawn, `<%s class="%s" %s points="`, element, class, style)
	for i, p := range spots {
		if i > 0 {
			s.drawn.WriteByte(' ')
		}
		fmt.Fprintf(&s.drawn, "%.2f,%.2f", hundredth(p.X), hundredth(p.Y))
	}
	s.Put(`"/>`)
}

// Rectangle draws a box. The style is its attributes.
func (s *Sheet) Rectangle(b Box, style string) {
	s.Put(`<rect x="%.2f" y="%.2f" width="%.2f" height="%.2f" %s/>`, b.Left, b.Top, b.Right-b.Left, b.Bottom-b.Top, style)
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
