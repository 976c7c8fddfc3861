package diagram

import (
	"fmt"
	"strconv"

	"lubberline.example/angle/drawing"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
)

// Measures of a drawing that fits on A4 upright, mm.
const (
	bodyLeft, bodyRight = 0.0, 182.0
	bodyHeight          = 260.5
)

// An svgSheet is a drawing of a compass on A4 upright.
type svgSheet struct{ *drawing.Sheet }

// svgCaution stands at the foot of every sheet.
const svgCaution = "Holds for the vessel as it was when swung. Check often; adjusting is the work of a compass adjuster."

// newSVGSheet begins a sheet with its title and its details.
func newSVGSheet(title, description string, d deviation.Details) svgSheet {
	s := svgSheet{drawing.New(bodyRight, bodyHeight, titled(title, d), description)}
	s.Caution(svgCaution)
	newFields(d).draw(s, bodyRight)
	return s
}

// detailFields are the details of a sheet that are known, and the remarks.
type detailFields struct {
	fields  [][2]string
	remarks string
}

// newFields returns the details that are known.
func newFields(d deviation.Details) (f detailFields) {
	date := ""
	if !d.Date.IsZero() {
		date = d.Date.Format("2 January 2006")
	}
	for _, field := range [][2]string{{"Vessel", d.Vessel}, {"Compass", d.Compass}, {"Place", d.Place}, {"Date", date}, {"Adjuster", d.Adjuster}} {
		if working.OneLine(field[1]) != "" {
			f.fields = append(f.fields, field)
		}
	}
	if working.OneLine(d.Remarks) != "" {
		f.remarks = d.Remarks
	}
	return f
}

// columns returns in how many columns the details stand on a sheet of a width.
func (f detailFields) columns(width float64) int {
	if width < bodyRight {
		return 1
	}
	return 2
}

// height returns how much of the top of a sheet of a width the details take, mm.
func (f detailFields) height(width float64) float64 {
	n := f.columns(width)
	lines := (len(f.fields) + n - 1) / n
	if f.remarks != "" {
		lines++
	}
	return 4.8 * float64(lines)
}

// draw writes the details in columns, and the remarks below them.
func (f detailFields) draw(s svgSheet, width float64) {
	const size, line = 3.2, 4.8
	n := f.columns(width)
	for i, field := range f.fields {
		wide := width / float64(n)
		s.field(drawing.At(bodyLeft+wide*float64(i%n), 3.6+line*float64(i/n)), wide-3*float64(n-1), size, field)
	}
	if f.remarks != "" {
		s.field(drawing.At(bodyLeft, f.height(width)-line+3.6), width, size, [2]string{"Remarks", f.remarks})
	}
}

// titleRoom is the width of a title on A4, as a multiple of the letter size. The body is as high
// as A4 has room for below one line of title.
const titleRoom = 33

// titled adds the vessel, shortened if need be, and the compass to a title if they fit on one line
// of A4.
func titled(title string, d deviation.Details) string {
	if t := working.OneLine(d.Vessel); t != "" {
		title = drawing.Shortened(title+", "+t, titleRoom)
	}
	if t := working.OneLine(d.Compass); t != "" && drawing.TextWidth(title+", "+t) <= titleRoom {
		title += ", " + t
	}
	return title
}

// field writes a name and its text, in smaller letters or shortened if it is wider than its place.
func (s svgSheet) field(at drawing.Spot, width, size float64, f [2]string) {
	const name = 17
	s.Text(at, fmt.Sprintf(`font-size="%.1f" fill="#444"`, size), f[0])
	letters := fitting(f[1], width-name, size, drawing.Letters)
	s.Text(at.Moved(name, 0), fmt.Sprintf(`font-size="%.1f"`, letters), drawing.Shortened(f[1], (width-name)/letters))
}

// fitting returns the first of some sizes of letters in which a text fits a width, or the last.
func fitting(text string, width float64, sizes ...float64) float64 {
	for _, size := range sizes {
		if drawing.TextWidth(working.OneLine(text))*size <= width {
			return size
		}
	}
	return sizes[len(sizes)-1]
}

// foot says at the end of the sheet how it is read.
func (s svgSheet) foot(reading ...string) {
	for i, line := range reading {
		s.Text(drawing.At(bodyLeft, 255.5+4*float64(i)), "", line)
	}
}

// circle draws the mark of an observation.
func (s svgSheet) circle(at drawing.Spot) {
	s.Put(`<circle class="observation" cx="%.2f" cy="%.2f" r="0.9" fill="white" stroke="black" stroke-width="0.3"/>`, at.X, at.Y)
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
