package drawing

import (
	"bytes"
	"fmt"
	"io"
	"io/fs"
	"math"
)

// A Form is how a sheet is written.
type Form string

const (
	// Plate is a page to print, with the title above the body and the caution below it. The
	// paper is the smallest of A4, A3 and A2, upright or lying, that holds the body at full
	// scale. A larger body has paper of its own size. One millimetre of the sheet is one
	// millimetre on paper.
	Plate Form = "plate"

	// Figure is the body alone, as wide as its place on a web page, up to a third more than
	// full scale. In a dark colour scheme it is white on black. It has no ids, so several can
	// stand on one page.
	Figure Form = "figure"
)

// Measures of a plate, mm.
const (
	plateMargin  = 10.0 // around what is drawn
	titleSize    = 5.0  // of letters
	titleLine    = 6.5
	cautionLine  = 3.6
	plateSpacing = 3.0 // between the body and what is above and below it
)

// figureStyle turns black and white round on a dark screen. The names of its classes keep it
// off the rest of the web page.
const figureStyle = `<style>@media screen and (prefers-color-scheme:dark){.lubberline-figure{filter:invert(.93) hue-rotate(180deg)}}</style>`

// WriteSVG writes the sheet as SVG in one call of w.Write, as [Plate] or as [Figure]. The sheet
// does not change. WriteSVG returns the writer's error unchanged. If w is nil, or the form is
// unknown, it returns a [*fs.PathError] for [fs.ErrInvalid]. It also does if the width or the
// height of the sheet is not above zero and finite. A sheet that [New] did not make has no size.
//
// A plate has a style element with its page size and no margins. This style applies to a whole
// HTML page: for a figure on a web page use [Figure].
func (s *Sheet) WriteSVG(w io.Writer, form Form) error {
	if w == nil {
		return &fs.PathError{Op: "write", Path: "a drawing to a nil writer", Err: fs.ErrInvalid}
	}
	if s == nil || !(s.width > 0 && s.height > 0) || math.IsInf(s.width+s.height, 0) {
		return &fs.PathError{Op: "write", Path: "a drawing without a width and a height above 0 mm, which New gives it", Err: fs.ErrInvalid}
	}
	var b bytes.Buffer
	switch form {
	case Plate:
		s.plate(&b)
	case Figure:
		fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" class="lubberline-figure" role="img" width="100%%" style="max-width:%gmm" viewBox="0 0 %g %g" font-family="sans-serif" font-size="%g">`+"\n", hundredth(s.width*4/3), s.width, s.height, Letters)
		s.names(&b)
		fmt.Fprintf(&b, "%s\n"+`<rect width="%g" height="%g" fill="white"/>`+"\n", figureStyle, s.width, s.height)
		b.Write(s.drawn.Bytes())
	default:
		return &fs.PathError{Op: "write", Path: fmt.Sprintf("a drawing in the form %q, neither plate nor figure", form), Err: fs.ErrInvalid}
	}
	b.WriteString("</svg>\n")
	_, err := w.Write(b.Bytes())
	return err
}

// names writes the title and the description for readers that do not see the drawing.
func (s *Sheet) names(b *bytes.Buffer) {
	fmt.Fprintf(b, "<title>%s</title>\n<desc>%s</desc>\n", escaped(s.title), escaped(s.description))
}

// plate writes all of a plate but its end.
func (s *Sheet) plate(b *bytes.Buffer) {
	page, title, caution := s.paper()
	fmt.Fprintf(b, `<svg xmlns="http://www.w3.org/2000/svg" width="%gmm" height="%gmm" viewBox="0 0 %g %g" font-family="sans-serif" font-size="%g">`+"\n", page.X, page.Y, page.X, page.Y, Letters)
	s.names(b)
	left, top := hundredth((page.X-s.width)/2), plateMargin
	if len(title) > 0 {
		top += titleLine*float64(len(title)) + plateSpacing
	}
	b.WriteString(printStyle(page, left, hundredth(top)))
	fmt.Fprintf(b, `<rect width="%g" height="%g" fill="white"/>`+"\n", page.X, page.Y)
	for i, line := range title {
		fmt.Fprintf(b, `<text x="%g" y="%g" font-size="%g" font-weight="bold">%s</text>`+"\n", hundredth(min(left, plateMargin+4)), hundredth(plateMargin+titleLine*float64(i)+0.8*titleSize), titleSize, escaped(line))
	}
	fmt.Fprintf(b, `<g class="body" transform="translate(%g %g)">`+"\n", left, hundredth(top))
	b.Write(s.drawn.Bytes())
	b.WriteString("</g>\n")
	for i, line := range caution {
		fmt.Fprintf(b, `<text x="%g" y="%g" font-weight="bold">%s</text>`+"\n", hundredth(min(left, plateMargin+4)), hundredth(page.Y-plateMargin-cautionLine*float64(len(caution)-1-i)-0.6), escaped(line))
	}
}

// printStyle returns the style of a printed plate whose body stands at a place. It is a little lower
// than its page: viewers round up, and would print an empty second sheet. What is drawn is enlarged
// by as much, so that a millimetre stays one.
func printStyle(page Spot, left, top float64) string {
	height := page.Y - 0.5
	scale := fmt.Sprintf("scale(%.7f)", page.Y/height)
	return fmt.Sprintf("<style>@page{size:%gmm %gmm;margin:0}@media print{svg:root{height:%gmm}svg:root>*{transform-origin:%gpx 0;transform:%s}svg:root>.body{transform:%s translate(%gpx,%gpx)}}</style>\n",
		page.X, page.Y, height, page.X/2, scale, scale, left, top)
}

// paper returns the size of the page of a plate, and the lines of its title and its caution.
func (s *Sheet) paper() (page Spot, title, caution []string) {
	fit := func(page Spot) bool {
		room := page.X - 2*plateMargin
		title, caution = nil, nil
		height := s.height + 2*plateMargin
		if s.title != "" {
			wide := room / titleSize / boldWidth
			title = Wrapped(Shortened(s.title, 2.5*wide), wide)
			height += titleLine*float64(len(title)) + plateSpacing
		}
		if s.caution != "" {
			caution = Wrapped(s.caution, room/Letters/boldWidth)
			height += cautionLine*float64(len(caution)) + plateSpacing
		}
		for _, lines := range []struct {
			of   []string
			room float64
		}{{title, room / titleSize / boldWidth}, {caution, room / Letters / boldWidth}} {
			for i, l := range lines.of {
				lines.of[i] = Shortened(l, lines.room)
			}
		}
		return s.width <= room && height <= page.Y
	}
	for _, page := range []Spot{{210, 297}, {297, 210}, {297, 420}, {420, 297}, {420, 594}, {594, 420}} {
		if fit(page) {
			return page, title, caution
		}
	}
	page = At(max(210, math.Ceil(s.width+2*plateMargin)), 0)
	fit(page)
	page.Y = math.Ceil(s.height + 2*plateMargin + 2*plateSpacing + titleLine*float64(len(title)) + cautionLine*float64(len(caution)))
	return page, title, caution
}

// boldWidth is the width of bold letters, in that of regular ones.
const boldWidth = 1.12
