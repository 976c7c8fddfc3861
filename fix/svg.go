package fix

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"math"
	"strings"
	"unicode"
)

// A svgSheet is a drawing on A4 upright. Its unit is the millimetre.
type svgSheet struct{ bytes.Buffer }

const (
	svgLeft, svgRight = 14.0, 196.0 // where text may stand
	svgSmall          = 2.7         // the size of most text
)

// newSVGSheet begins a sheet.
func newSVGSheet(title, description string) *svgSheet {
	s := &svgSheet{}
	s.put(`<svg xmlns="http://www.w3.org/2000/svg" width="210mm" height="297mm" viewBox="0 0 210 297" font-family="sans-serif" font-size="%.1f">`, svgSmall)
	s.put(`<title>%s</title>`, escaped(title))
	s.put(`<desc>%s</desc>`, escaped(description))
	s.put(`<rect width="210" height="297" fill="white"/>`)
	return s
}

// put writes an element on a line of its own.
func (s *svgSheet) put(format string, args ...any) {
	for i, a := range args {
		if f, ok := a.(float64); ok {
			args[i] = hundredth(f)
		}
	}
	fmt.Fprintf(s, format, args...)
	s.WriteByte('\n')
}

// hundredth rounds to what is printed, and leaves no nought with a minus.
func hundredth(mm float64) float64 { return math.Round(mm*100)/100 + 0 }

// text writes one line of text, with attributes beside its place.
func (s *svgSheet) text(x, y float64, attributes, text string) {
	if attributes != "" {
		attributes = " " + attributes
	}
	s.put(`<text x="%.2f" y="%.2f"%s>%s</text>`, x, y, attributes, escaped(text))
}

// line draws a straight line in a style.
func (s *svgSheet) line(x1, y1, x2, y2 float64, style string) {
	s.put(`<line x1="%.2f" y1="%.2f" x2="%.2f" y2="%.2f" %s/>`, x1, y1, x2, y2, style)
}

// path draws a line through points, polyline or polygon.
func (s *svgSheet) path(element, class, style string, points []spot) {
	fmt.Fprintf(s, `<%s class="%s" %s points="`, element, class, style)
	for i, p := range points {
		if i > 0 {
			s.WriteByte(' ')
		}
		fmt.Fprintf(s, "%.2f,%.2f", hundredth(p.x), hundredth(p.y))
	}
	s.put(`"/>`)
}

// circle draws a circle in a style.
func (s *svgSheet) circle(p spot, r float64, class, style string) {
	s.put(`<circle class="%s" cx="%.2f" cy="%.2f" r="%.2f" %s/>`, class, p.x, p.y, r, style)
}

func escaped(text string) string {
	var b strings.Builder
	_ = xml.EscapeText(&b, []byte(text)) // a Builder takes everything
	return b.String()
}

// oneLine is a text without line ends and other characters that control.
func oneLine(text string) string {
	return strings.Join(strings.FieldsFunc(strings.ToValidUTF8(text, "\uFFFD"), func(r rune) bool {
		return unicode.IsSpace(r) || unicode.IsControl(r)
	}), " ")
}

// runeWidth is how wide a character is in its sizes. As the printer's fonts are not
// known, it reckons with wide ones.
func runeWidth(r rune) float64 {
	switch {
	case unicode.Is(unicode.Mn, r):
		return 0
	case r >= 0x1100 && !(r >= 0x2010 && r <= 0x2044):
		return 1
	case strings.ContainsRune("MWmw@%—", r):
		return 0.98
	case strings.ContainsRune("fijlrtI.,:;'’′°!|()/ ", r):
		return 0.42
	case unicode.IsUpper(r):
		return 0.75
	}
	return 0.6
}

// textWidth is how wide a text is in its sizes.
func textWidth(text string) float64 {
	w := 0.0
	for _, r := range text {
		w += runeWidth(r)
	}
	return w
}

// shortened cuts a text that is wider than some times its size.
func shortened(text string, width float64) string {
	runes := []rune(oneLine(text))
	used, fits := 0.0, 0 // in sizes, and in runes with room for the …
	for i, r := range runes {
		used += runeWidth(r)
		if used <= width-1 {
			fits = i + 1
		}
	}
	if used <= width {
		return string(runes)
	}
	return strings.TrimSpace(string(runes[:fits])) + "…"
}

// wrapped breaks a text into lines of a width in its sizes.
func wrapped(text string, width float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		if line != "" && textWidth(line)+textWidth(word)+0.42 > width {
			lines, line = append(lines, line), ""
		}
		if line != "" {
			line += " "
		}
		line += word
	}
	return append(lines, line)
}

// A spot is a place on the sheet in millimetres, x to the right and y down.
type spot struct{ x, y float64 }

// A box is a rectangle on the sheet.
type box struct{ left, top, right, bottom float64 }

func (b box) holds(p spot) bool {
	return p.x >= b.left && p.x <= b.right && p.y >= b.top && p.y <= b.bottom
}

func (b box) meets(o box) bool {
	return b.left < o.right && o.left < b.right && b.top < o.bottom && o.top < b.bottom
}

func (b box) within(o box) bool {
	return b.left >= o.left && b.right <= o.right && b.top >= o.top && b.bottom <= o.bottom
}

func (b box) grown(by float64) box {
	return box{b.left - by, b.top - by, b.right + by, b.bottom + by}
}

// textBox is what a text takes up that begins at a spot on its base line.
func textBox(p spot, text string, size float64) box {
	return box{p.x, p.y - 0.8*size, p.x + size*textWidth(text), p.y + 0.26*size}
}
