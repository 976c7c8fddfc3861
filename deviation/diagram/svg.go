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
	s := svgSheet{drawing.New(bodyRight, bodyHeight, title+of(d), description)}
	s.Caution(svgCaution)
	fields := [][2]string{{"Vessel", d.Vessel}, {"Compass", d.Compass}, {"Place", d.Place}, {"Date", ""}, {"Adjuster", d.Adjuster}}
	if !d.Date.IsZero() {
		fields[3][1] = d.Date.Format("2 January 2006")
	}
	const size, half = 3.2, (bodyRight - bodyLeft) / 2
	at := drawing.At(bodyLeft, 3.2)
	for _, f := range fields {
		if working.OneLine(f[1]) == "" {
			continue
		}
		s.field(at, half-3, size, f)
		if at.X += half; at.X > bodyLeft+half {
			at.X, at.Y = bodyLeft, at.Y+4.8
		}
	}
	if at.X > bodyLeft {
		at.X, at.Y = bodyLeft, at.Y+4.8
	}
	if working.OneLine(d.Remarks) != "" {
		s.field(at, 2*half, size, [2]string{"Remarks", d.Remarks})
	}
	return s
}

// of names the vessel and the compass in a title, which may be shown on a tab.
func of(d deviation.Details) string {
	var text string
	for _, t := range []string{d.Vessel, d.Compass} {
		if t = drawing.Shortened(t, 40); t != "" {
			text += ", " + t
		}
	}
	return text
}

// field writes a name and its text, shortened to a width.
func (s svgSheet) field(at drawing.Spot, width, size float64, f [2]string) {
	const name = 17
	s.Text(at, fmt.Sprintf(`font-size="%.1f" fill="#444"`, size), f[0])
	s.Text(at.Moved(name, 0), fmt.Sprintf(`font-size="%.1f"`, size), drawing.Shortened(f[1], (width-name)/size))
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
