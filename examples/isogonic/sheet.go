package main

import (
	"bytes"
	"fmt"
	"math"
	"time"
	"unicode/utf8"

	"lubberline.example/angle"
	"lubberline.example/wmm"
)

// A sheet is the map on its page, in units of which it is sheetWidth wide.
type sheet struct {
	projection
	labels [][2]float64 // where names of lines stand already
}

const (
	sheetWidth = 1000
	margin     = 72
	keyHeight  = 112
)

func newSheet(a area) *sheet {
	return &sheet{projection: newProjection(a, margin, margin, sheetWidth-2*margin, 1100)}
}

// draw writes the map. It is in black and grey, so that it prints as it shows:
// westerly lines broken, easterly ones whole, the agonic line heavy.
func (s *sheet) draw(b *bytes.Buffer, e *wmm.Evaluator, date time.Time, lines []wmm.Isogonic) {
	width, height := s.width+2*margin, s.height+2*margin+keyHeight
	fmt.Fprintf(b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %.0f %.0f" width="%.0f" height="%.0f" font-family="serif" font-size="14">`+"\n", width, height, width, height)
	fmt.Fprintf(b, `<title>Lines of equal variation, %s</title>`+"\n", date.Format("2 January 2006"))
	fmt.Fprintf(b, `<rect width="%.0f" height="%.0f" fill="white"/>`+"\n", width, height)
	s.graticule(b)
	// An svg element of its own cuts the lines off at the frame without an id, which
	// another drawing on the same HTML page might have too.
	fmt.Fprintf(b, `<svg x="%.1f" y="%.1f" width="%.1f" height="%.1f" viewBox="%.1f %.1f %.1f %.1f" style="width:%.1fpx;height:%.1fpx;overflow:hidden">`+"\n",
		s.left, s.top, s.width, s.height, s.left, s.top, s.width, s.height, s.width, s.height)
	fmt.Fprintln(b, `<g fill="none" stroke="black" stroke-linejoin="round">`)
	for _, i := range lines {
		style := `stroke-width="1.3"`
		switch {
		case i.Agonic():
			style = `stroke-width="3.2"`
		case i.D < 0:
			style = `stroke-width="1.3" stroke-dasharray="9 4"`
		}
		for _, line := range i.Lines {
			fmt.Fprintf(b, `<path %s d="%s"/>`+"\n", style, s.path(line))
		}
	}
	fmt.Fprintln(b, `</g></svg>`)
	for _, i := range lines {
		for _, line := range i.Lines {
			s.label(b, i.Name(), line)
		}
	}
	fmt.Fprintf(b, `<rect x="%.1f" y="%.1f" width="%.1f" height="%.1f" fill="none" stroke="black" stroke-width="2"/>`+"\n", s.left, s.top, s.width, s.height)
	s.key(b, e, date)
	fmt.Fprintln(b, `</svg>`)
}

// path is the outline of a line. Where it passes the seam of a map of the whole
// earth it goes on beyond the frame, and comes in again on the other side.
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
		if over := x - x0; math.Abs(over) > s.width/2 {
			round := math.Copysign(s.width, over)
			fmt.Fprintf(&b, "L%.1f %.1fM%.1f %.1f", x-round, y, x0+round, y0)
		}
		fmt.Fprintf(&b, "L%.1f %.1f", x, y)
		x0, y0 = x, y
	}
	return b.String()
}

// graticule draws parallels and meridians, and their figures outside the frame.
func (s *sheet) graticule(b *bytes.Buffer) {
	fmt.Fprintln(b, `<g stroke="#999" stroke-width="0.6" fill="#333">`)
	step := roundStep(s.area.width())
	first := s.area.west.Angle().Truncate(step)
	for m := first - step; m <= first+s.area.width()+step; m += step {
		offset := (m - s.area.west.Angle())
		if offset < 0 || offset > s.area.width() {
			continue
		}
		x := s.left + s.width*float64(offset)/float64(s.area.width())
		fmt.Fprintf(b, `<path d="M%.1f %.1fv%.1f"/>`, x, s.top, s.height)
		name := figure(angle.LongitudeFrom(m).Angle(), "E", "W")
		for _, y := range []float64{s.top - 8, s.top + s.height + 19} {
			fmt.Fprintf(b, `<text stroke="none" text-anchor="middle" x="%.1f" y="%.1f">%s</text>`+"\n", x, y, name)
		}
	}
	step = roundStep(s.area.north.Angle() - s.area.south.Angle())
	for p := s.area.south.Angle().Truncate(step) - step; p <= s.area.north.Angle(); p += step {
		if p < s.area.south.Angle() {
			continue
		}
		_, y := s.point(angle.Position{Latitude: angle.Must(angle.LatitudeFrom(p))}, s.left)
		fmt.Fprintf(b, `<path d="M%.1f %.1fh%.1f"/>`, s.left, y, s.width)
		name := figure(p, "N", "S")
		fmt.Fprintf(b, `<text stroke="none" text-anchor="end" x="%.1f" y="%.1f">%s</text>`, s.left-7, y+5, name)
		fmt.Fprintf(b, `<text stroke="none" x="%.1f" y="%.1f">%s</text>`+"\n", s.left+s.width+7, y+5, name)
	}
	fmt.Fprintln(b, `</g>`)
}

// roundStep is a spacing that divides a width into some six to twelve parts.
func roundStep(width angle.Angle) angle.Angle {
	for _, step := range []angle.Angle{angle.Minute, 2 * angle.Minute, 5 * angle.Minute, 10 * angle.Minute, 30 * angle.Minute,
		angle.Degree, 2 * angle.Degree, 5 * angle.Degree, 10 * angle.Degree, 15 * angle.Degree} {
		if width/step <= 12 {
			return step
		}
	}
	return 30 * angle.Degree
}

// figure names a parallel or a meridian: 40°N, 5°30′W, 0°.
func figure(a angle.Angle, positive, negative string) string {
	text := a.Abs().String()
	if a%angle.Degree == 0 {
		text = string(a.Abs().AppendDegrees(nil, 0))
	}
	switch {
	case a > 0 && a < angle.Turn/2:
		return text + positive
	case a < 0:
		return text + negative
	}
	return text
}

// label writes a line's name on it, where there is room: in the middle if it
// can.
func (s *sheet) label(b *bytes.Buffer, name string, line []angle.Position) {
	if len(line) < 6 {
		return
	}
	for _, part := range []float64{0.5, 0.35, 0.65, 0.2, 0.8} {
		k := 1 + int(part*float64(len(line)-3))
		x, y := s.point(line[k], s.left)
		x2, y2 := s.point(line[k+1], x)
		inside := x > s.left+28 && x < s.left+s.width-28 && y > s.top+28 && y < s.top+s.height-28
		if !inside || !s.free(x, y) {
			continue
		}
		s.labels = append(s.labels, [2]float64{x, y})
		turn := math.Atan((y2-y)/(x2-x)) * 180 / math.Pi
		if math.IsNaN(turn) {
			turn = 0
		}
		// On a white box: dashes between the figures would read as points or signs.
		width := 18 + 7.5*float64(utf8.RuneCountInString(name))
		fmt.Fprintf(b, `<g transform="translate(%.1f %.1f) rotate(%.0f)"><rect x="%.1f" y="-8" width="%.1f" height="16" fill="white"/><text text-anchor="middle" dy="5">%s</text></g>`+"\n", x, y, turn, -width/2, width, name)
		return
	}
}

// free reports whether no other name stands near.
func (s *sheet) free(x, y float64) bool {
	for _, l := range s.labels {
		if math.Hypot(l[0]-x, l[1]-y) < 46 {
			return false
		}
	}
	return true
}

// key writes what the lines mean, under the map.
func (s *sheet) key(b *bytes.Buffer, e *wmm.Evaluator, date time.Time) {
	y := s.top + s.height + 48
	fmt.Fprintf(b, `<g fill="none" stroke="black"><path stroke-width="1.3" d="M%.0f %.0fh46"/><path stroke-width="1.3" stroke-dasharray="9 4" d="M%.0f %.0fh46"/><path stroke-width="3.2" d="M%.0f %.0fh46"/></g>`+"\n",
		s.left, y, s.left+190, y, s.left+380, y)
	for k, text := range []string{"easterly variation", "westerly variation", "no variation (agonic line)"} {
		fmt.Fprintf(b, `<text x="%.0f" y="%.0f">%s</text>`, s.left+54+190*float64(k), y+5, text)
	}
	sigma := ""
	if h := e.Model().Uncertainty().DOffset; h != 0 {
		sigma = fmt.Sprintf(", standard uncertainty %.1f° and more near the dip poles", h)
	}
	fmt.Fprintf(b, "\n"+`<text x="%.0f" y="%.0f">Variation every %v by %s, %s%s.</text>`+"\n",
		s.left, y+30, everyText(s.area.every), e.Model().Name(), date.Format("2 January 2006"), sigma)
	fmt.Fprintf(b, `<text x="%.0f" y="%.0f">No coast is drawn, and no local anomaly; %s.</text>`+"\n", s.left, y+52, s.name)
	fmt.Fprintf(b, `<text x="%.0f" y="%.0f">Not for navigation: use the roses of the chart in force.</text>`+"\n", s.left, y+74)
}

func everyText(a angle.Angle) string {
	if a%angle.Degree == 0 {
		return string(a.AppendDegrees(nil, 0))
	}
	return a.String()
}
