package drawing

import (
	"bytes"
	"fmt"
	"io"
	"io/fs"
	"math"
	"slices"
)

// A Format is a sheet's size and its letters.
type Format struct {
	Width, Height float64 // mm
	Letters       float64 // size of the texts that state none, mm
	Font          string  // families as SVG lists them; empty means sans-serif
}

// Measures of [A4], mm.
const (
	A4Left, A4Right = 14.0, 196.0 // the edges between which text stands
	A4Letters       = 2.7         // the size of most text
)

// A4 is a sheet of A4 upright.
func A4() Format { return Format{Width: 210, Height: 297, Letters: A4Letters} }

// fullPage is from where on a sheet does not fit between the margins of a page, mm.
const fullPage = 250.0

// A Sheet is a drawing that is being made. Make one with [New].
type Sheet struct{ drawn bytes.Buffer }

// New begins a white sheet. The title is its name, which a viewer may show on a tab; the
// description says in words what it shows. Neither is drawn.
//
// A sheet with a side of 250 mm or more is a full page. It sets the page it is printed
// on, its own size without margins, so that a browser prints the file on one sheet of
// paper. That is a style element. A style holds for a whole HTML page: take it out of a
// drawing that you write into one by hand. Write of package page does so itself.
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
		// A hair less than the page: viewers round, and would begin a second, empty sheet.
		s.Put(`<style>@page{size:%gmm %gmm;margin:0}@media print{svg:root{height:%gmm}}</style>`, width, height, height-0.5)
	}
	s.Put(`<rect width="%g" height="%g" fill="white"/>`, width, height)
	return s
}

// WriteTo ends the drawing and writes it in one piece, so that no half of one is left
// where drawing fails. The sheet stays as it was. It returns how many bytes were
// written, and the writer's error unchanged. If w is nil it returns a [*fs.PathError] for
// [fs.ErrInvalid].
func (s *Sheet) WriteTo(w io.Writer) (int64, error) {
	if w == nil {
		return 0, &fs.PathError{Op: "write", Path: "a drawing to a nil writer", Err: fs.ErrInvalid}
	}
	n, err := w.Write(slices.Concat(s.drawn.Bytes(), []byte("</svg>\n")))
	return int64(n), err
}

// Put writes an element on a line of its own, by a format as of [fmt.Sprintf]. The
// float64s among the arguments are rounded to a hundredth first; nothing is escaped.
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

// hundredth rounds to what is printed, and prints no zero with a minus.
func hundredth(mm float64) float64 { return math.Round(mm*100)/100 + 0 }

// Text writes a text on one line, from a spot on its base line, with
// attributes beside its place: text-anchor="middle".
func (s *Sheet) Text(at Spot, attributes, text string) {
	if attributes != "" {
		attributes = " " + attributes
	}
	s.Put(`<text x="%.2f" y="%.2f"%s>%s</text>`, at.X, at.Y, attributes, escaped(text))
}

// Line draws a straight line in a style: stroke="black" stroke-width="0.3".
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

// Rectangle draws a box in a style.
func (s *Sheet) Rectangle(b Box, style string) {
	s.Put(`<rect x="%.2f" y="%.2f" width="%.2f" height="%.2f" %s/>`, b.Left, b.Top, b.Right-b.Left, b.Bottom-b.Top, style)
}

// Clip draws what inside draws, of which only the part in the box is seen. The class
// names it. It is an svg element within the drawing, which has no id: any number of
// drawings may stand on one page. Its size is a style too, so that no rule of the page
// for svg elements changes it.
func (s *Sheet) Clip(class string, b Box, inside func()) {
	width, height := b.Right-b.Left, b.Bottom-b.Top
	s.Put(`<svg class="%s" x="%.2f" y="%.2f" width="%.2f" height="%.2f" viewBox="%.2f %.2f %.2f %.2f" style="width:%.2fpx;height:%.2fpx;overflow:hidden">`,
		class, b.Left, b.Top, width, height, b.Left, b.Top, width, height, width, height)
	inside()
	s.Put(`</svg>`)
}
