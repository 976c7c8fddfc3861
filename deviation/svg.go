package deviation

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"
)

// An svgSheet is a drawing on A4 upright. Its unit is the millimetre.
type svgSheet struct{ bytes.Buffer }

const (
	svgLeft, svgRight = 14.0, 196.0 // where text may stand
	svgSmall          = 2.7         // the size of most text
)

// svgCaution stands at the foot of every sheet.
const svgCaution = "Holds for the vessel as she was when swung. Check often; adjusting is the work of a compass adjuster."

// newSVGSheet begins a sheet with its title and its details.
func newSVGSheet(title, description string, d Details) *svgSheet {
	s := &svgSheet{}
	s.put(`<svg xmlns="http://www.w3.org/2000/svg" width="210mm" height="297mm" viewBox="0 0 210 297" font-family="sans-serif" font-size="%.1f">`, svgSmall)
	s.put(`<title>%s</title>`, escaped(title+of(d)))
	s.put(`<desc>%s</desc>`, escaped(description))
	s.put(`<rect width="210" height="297" fill="white"/>`)
	s.text(svgLeft, 18, `font-size="6" font-weight="bold"`, title)
	fields := [][2]string{{"Vessel", d.Vessel}, {"Compass", d.Compass}, {"Place", d.Place}, {"Date", ""}, {"Adjuster", d.Adjuster}}
	if !d.Date.IsZero() {
		fields[3][1] = d.Date.Format("2 January 2006")
	}
	const size, half = 3.2, (svgRight - svgLeft) / 2
	x, y := svgLeft, 25.0
	for _, f := range fields {
		if oneLine(f[1]) == "" {
			continue
		}
		s.field(x, y, half-3, size, f)
		if x += half; x > svgLeft+half {
			x, y = svgLeft, y+4.8
		}
	}
	if x > svgLeft {
		y += 4.8
	}
	if oneLine(d.Remarks) != "" {
		s.field(svgLeft, y, 2*half, size, [2]string{"Remarks", d.Remarks})
	}
	return s
}

// of names the vessel and the compass in a title, which may be shown on a tab.
func of(d Details) string {
	var text string
	for _, t := range []string{d.Vessel, d.Compass} {
		if t = shortened(t, 40); t != "" {
			text += ", " + t
		}
	}
	return text
}

// field writes a name and its text, shortened to a width.
func (s *svgSheet) field(x, y, width, size float64, f [2]string) {
	const name = 17
	s.text(x, y, fmt.Sprintf(`font-size="%.1f" fill="#444"`, size), f[0])
	s.text(x+name, y, fmt.Sprintf(`font-size="%.1f"`, size), shortened(f[1], (width-name)/size))
}

// foot ends the sheet with how it is read, and the caution.
func (s *svgSheet) foot(reading ...string) {
	for i, line := range reading {
		s.text(svgLeft, 281+4*float64(i), "", line)
	}
	s.text(svgLeft, 290, `font-weight="bold"`, svgCaution)
	s.put(`</svg>`)
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

// polyline draws a line through points.
func (s *svgSheet) polyline(class, style string, points [][2]float64) {
	fmt.Fprintf(s, `<polyline class="%s" %s points="`, class, style)
	for i, p := range points {
		if i > 0 {
			s.WriteByte(' ')
		}
		fmt.Fprintf(s, "%.2f,%.2f", hundredth(p[0]), hundredth(p[1]))
	}
	s.put(`"/>`)
}

// circle draws the mark of an observation.
func (s *svgSheet) circle(x, y float64) {
	s.put(`<circle class="observation" cx="%.2f" cy="%.2f" r="0.9" fill="white" stroke="black" stroke-width="0.3"/>`, x, y)
}

// clip begins a group of which only what lies in a rectangle is seen.
func (s *svgSheet) clip(id string, x, y, width, height float64) {
	s.put(`<clipPath id="%s"><rect x="%.2f" y="%.2f" width="%.2f" height="%.2f"/></clipPath>`, id, x, y, width, height)
	s.put(`<g clip-path="url(#%s)">`, id)
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

// shortened cuts a text that is wider than some times its size. As the printer's
// fonts are not known, it reckons with wide ones.
func shortened(text string, width float64) string {
	runes := []rune(oneLine(text))
	used, fits := 0.0, 0 // in sizes, and in runes with room for the …
	for i, r := range runes {
		switch {
		case unicode.Is(unicode.Mn, r):
		case r >= 0x1100:
			used++
		case strings.ContainsRune("MWmw@%—", r):
			used += 0.98
		case strings.ContainsRune("fijlrtI.,:;'’!|()/ ", r):
			used += 0.42
		case unicode.IsUpper(r):
			used += 0.75
		default:
			used += 0.6
		}
		if used <= width-1 {
			fits = i + 1
		}
	}
	if used <= width {
		return string(runes)
	}
	return strings.TrimSpace(string(runes[:fits])) + "…"
}

// headingFigure is a heading in three figures, 360 where it ends the circle.
func headingFigure(h int) string {
	if h != 360 {
		h = ((h % 360) + 360) % 360
	}
	return fmt.Sprintf("%03d", h)
}

// headingPoint is the letter of a cardinal or intercardinal heading, empty for
// others.
func headingPoint(h int) string {
	if h%45 != 0 {
		return ""
	}
	return [...]string{"N", "NE", "E", "SE", "S", "SW", "W", "NW"}[((h%360)+360)%360/45]
}

// eastWestFigure names a place on a scale of deviation: 2°W, 0°, 0.5°E.
func eastWestFigure(east float64) string {
	name := ""
	switch {
	case east > 0:
		name = "E"
	case east < 0:
		name, east = "W", -east
	}
	return strconv.FormatFloat(east, 'f', -1, 64) + "°" + name
}

// roundLimit is the first of some limits that is not exceeded, or the last.
func roundLimit(reach float64, limits ...float64) float64 {
	for _, l := range limits {
		if reach <= l {
			return l
		}
	}
	return limits[len(limits)-1]
}
