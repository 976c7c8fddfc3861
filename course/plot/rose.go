package plot

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/angle/working"
	"lubberline.example/variation"
)

// A Rose is a compass rose to draw, alone with [CompassRose] or on a chart.
type Rose struct {
	// Legend is what the chart prints at its rose. If it is zero, the rose has the true ring
	// alone. Year is the year to bring the legend up to; if 0, that of the legend.
	Legend variation.Rose
	Year   int

	Diameter float64 // of the outer ring, from 40 to 500 mm; if 0, 80 mm

	// Direction is a line across the rose, as by a ruler, read on both rings. The working stands
	// below. If nil, there is no line. Only [CompassRose] uses it.
	Direction *angle.True

	At angle.Position // its centre on a chart; CompassRose does not use it
}

// CompassRose draws a compass rose for a year. The outer ring is true. The inner ring is magnetic,
// with an arrow to magnetic north. The legend in the middle is brought up to the year: 5°08′W 2026
// (12′E). Printed as a plate, the rose has its diameter exactly, to paste on a chart.
//
// For a diameter or a year out of range it returns an [*angle.RangeError].
func CompassRose(r Rose) (*drawing.Sheet, error) {
	p, err := r.pen()
	if err != nil {
		return nil, err
	}
	margin := 7.0
	var lines []string
	width := p.diameter + 2*margin
	if r.Direction != nil {
		margin = 17
		// From the ring to the texts, mm, and beside them.
		side := 9 + max(wide(p.read(*r.Direction)), wide(p.read(r.Direction.Reciprocal())))
		width = max(p.diameter+2*side, 90)
		for _, l := range p.working() {
			lines = append(lines, drawing.Wrapped(l, (width-4)/drawing.Letters)...)
		}
	}
	height := p.diameter + 2*margin + roseLine*float64(len(lines))
	p.Sheet = drawing.New(width, height, p.title(), p.inWords())
	if r.Direction != nil {
		p.Caution(working.Caution)
	}
	p.centre = drawing.At(width/2, margin+p.diameter/2)
	p.draw()
	for i, l := range lines {
		p.Text(drawing.At(2, p.diameter+2*margin+roseLine*float64(i)+1), "", l)
	}
	return p.Sheet, nil
}

// wide returns the width of the widest of some texts, mm.
func wide(texts []string) float64 {
	widest := 0.0
	for _, t := range texts {
		widest = max(widest, drawing.Letters*drawing.TextWidth(t))
	}
	return widest
}

// roseLine is the height of a line of the working, mm.
const roseLine = 4.0

// The least and the greatest diameter of a rose, mm.
const (
	minRose = 40.0
	maxRose = 500.0
)

// A rosePen draws a rose.
type rosePen struct {
	*drawing.Sheet
	Rose
	projection variation.Projection
	legend     []string // its parts: 5°08′W, 2026, (12′E)
	centre     drawing.Spot
	diameter   float64
	lines      [][2]drawing.Spot // that the legend must not meet
	rings      []figures
	halo       bool // of texts, on the lines of a chart
}

// figures are those of a ring.
type figures struct {
	north, step  float64 // degrees
	inner, outer float64 // radii between which they stand
	half         float64 // of the width of one, with room around it, mm
}

// pen returns a pen without a sheet, or an error if the rose cannot be drawn.
func (r Rose) pen() (*rosePen, error) {
	p := &rosePen{Rose: r, diameter: cmp.Or(r.Diameter, 80)}
	if !(p.diameter >= minRose && p.diameter <= maxRose) {
		return nil, &angle.RangeError{What: "diameter of a compass rose", Value: p.diameter, Accepted: fmt.Sprintf("from %v to %v mm", minRose, maxRose)}
	}
	if !p.magnetic() {
		return p, nil
	}
	var err error
	p.Year = cmp.Or(r.Year, r.Legend.Year)
	if p.projection, err = r.Legend.InYear(p.Year); err != nil {
		return nil, err
	}
	now := r.Legend
	now.Variation, now.Year, now.Step = p.projection.Variation, p.Year, angle.Minute
	for part := range strings.SplitSeq(now.String(), " ") {
		if n := len(p.legend); n > 2 {
			p.legend[n-1] += " " + part
		} else {
			p.legend = append(p.legend, part)
		}
	}
	return p, nil
}

// magnetic reports whether the rose has a magnetic ring.
func (r Rose) magnetic() bool { return r.Legend != variation.Rose{} }

// read returns what the two rings read in a direction, to a tenth of a degree.
func (p *rosePen) read(t angle.True) []string {
	print := func(d fmt.Formatter, from angle.Angle) string {
		if from.Round(angle.Degree/10)%angle.Degree == 0 {
			return fmt.Sprintf("%.0f", d)
		}
		return fmt.Sprintf("%.1f", d)
	}
	all := []string{print(t, t.FromNorth())}
	if p.magnetic() {
		m := p.projection.Variation.Magnetic(t)
		all = append(all, print(m, m.FromNorth()))
	}
	return all
}

// title returns the title of the plate.
func (p *rosePen) title() string {
	if !p.magnetic() {
		return "Compass rose, true"
	}
	return fmt.Sprintf("Compass rose for %d", p.Year)
}

// inWords says what the rose shows.
func (p *rosePen) inWords() string {
	text := "A compass rose with a true ring."
	if p.magnetic() {
		text = fmt.Sprintf("A compass rose. The outer ring is true. The inner ring is magnetic, with its north %v of true north. The legend is %s.",
			p.projection.Variation, strings.Join(p.legend, " "))
	}
	if p.Direction != nil {
		text += fmt.Sprintf(" A line lies across it, through the centre, from %s to %s.", strings.Join(p.read(p.Direction.Reciprocal()), ", "), strings.Join(p.read(*p.Direction), ", "))
	}
	return text
}

// working returns the lines below a rose with a direction across it.
func (p *rosePen) working() []string {
	on := "Lay the ruler through the centre, from the reciprocal to the direction, and read: %s on the outer ring"
	read := p.read(*p.Direction)
	if !p.magnetic() {
		return []string{fmt.Sprintf(on+".", read[0])}
	}
	lines := []string{fmt.Sprintf(on+", %s on the inner ring.", read[0], read[1])}
	for _, step := range p.projection.Working() {
		lines = append(lines, strings.TrimSpace(step.What+": "+step.Value+". "+sentence(step.How)))
	}
	rule := "magnetic is the same as true"
	switch v := p.projection.Variation.Angle().Round(angle.Minute); {
	case v < 0:
		rule = "variation west, magnetic greater than true"
	case v > 0:
		rule = "variation east, magnetic less than true"
	}
	return append(lines, fmt.Sprintf("True %s, variation %s, magnetic %s: %s.", read[0], p.legend[0], read[1], rule))
}

// sentence returns a text with a full stop.
func sentence(text string) string {
	if text == "" {
		return ""
	}
	return strings.ToUpper(text[:1]) + text[1:] + "."
}

// at returns a spot of the rose, in degrees from true north.
func (p *rosePen) at(degrees, radius float64) drawing.Spot {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	return p.centre.Moved(radius*sin, -radius*cos)
}

// draw draws the rose.
func (p *rosePen) draw() {
	k := min(max(p.diameter/90, 0.6), 1.6) // the sizes of marks on rings
	free := p.ring("true", 0, p.diameter/2, k)
	p.north(k)
	if p.magnetic() {
		east := p.projection.Variation.Angle().Degrees()
		free = p.ring("magnetic", east, free-0.6*k, k)
		p.arrow(east, free, k)
	}
	p.Line(p.centre.Moved(-1, 0), p.centre.Moved(1, 0), roseThin)
	p.Line(p.centre.Moved(0, -1), p.centre.Moved(0, 1), roseThin)
	if p.Direction != nil {
		p.across()
	}
	if p.magnetic() {
		p.write(free - 1)
	}
}

// The styles of thin lines, of the direction laid across, and of other lines.
const (
	roseThin  = `stroke="black" stroke-width="0.15"`
	roseRuler = `class="direction" stroke="black" stroke-width="0.5"`
	roseLines = `stroke="black" stroke-width="0.25"`
)

// ring draws a ring with its graduation inside the radius, and returns the radius that is free
// inside it. North is turned by some degrees.
func (p *rosePen) ring(class string, north, radius, k float64) float64 {
	p.Put(`<circle class="%s" cx="%.2f" cy="%.2f" r="%.2f" fill="none" stroke="black" stroke-width="0.3"/>`, class, p.centre.X, p.centre.Y, radius)
	degree := radius * math.Pi / 180
	every := 5
	for _, e := range []int{2, 1} {
		if degree*float64(e) >= 0.45 {
			every = e
		}
	}
	for i := 0; i < 360; i += every {
		l, style := 1.1*k, roseThin
		switch {
		case i%10 == 0:
			l, style = 2.6*k, roseLines
		case i%5 == 0:
			l, style = 1.8*k, roseLines
		}
		p.Line(p.at(north+float64(i), radius), p.at(north+float64(i), radius-l), style)
	}
	letters := min(max(2.7*k, 2.1), 3.4)
	// Figures every 10° if they have room in smaller letters.
	if fit := (radius - 3*k - 2) * math.Pi / 18 / (drawing.TextWidth("000") + 0.4); fit >= 1.75 {
		letters = min(letters, fit)
	}
	base := radius - 3*k - 0.78*letters // line of the figures
	step := 30
	if base*math.Pi/18 >= letters*(drawing.TextWidth("000")+0.3) {
		step = 10
	}
	for i := 0; i < 360; i += step {
		at, turn := p.at(north+float64(i), base), north+float64(i)
		p.Text(at, p.haloed()+fmt.Sprintf(`text-anchor="middle" font-size="%.2f" transform="rotate(%.2f %.2f %.2f)"`, letters, turn, at.X, at.Y), fmt.Sprintf("%03d", i))
	}
	p.rings = append(p.rings, figures{north, float64(step), base - 0.4, base + 0.85*letters, letters*drawing.TextWidth("000")/2 + 0.3})
	return base - 0.5*k
}

// north draws the mark of true north, a star of four points on the outer ring.
func (p *rosePen) north(k float64) {
	middle := p.at(0, p.diameter/2+2.6*k)
	var star []drawing.Spot
	for i := range 8 {
		r := 2.2 * k
		if i%2 == 1 {
			r = 0.6 * k
		}
		sin, cos := math.Sincos(float64(i) * math.Pi / 4)
		star = append(star, middle.Moved(r*sin, -r*cos))
	}
	p.Polygon("north", `fill="black"`, star)
}

// arrow draws the arrow to magnetic north, with half a head, from near the centre to the ring.
func (p *rosePen) arrow(north, radius, k float64) {
	tail, tip := p.at(north, radius*0.3), p.at(north, radius)
	p.Line(tail, tip, roseLines)
	p.lines = append(p.lines, [2]drawing.Spot{tail, tip})
	wide := 1.6 * k / radius * 180 / math.Pi
	p.Polygon("magnetic-north", `fill="black"`, []drawing.Spot{tip, p.at(north+wide, radius-4*k), p.at(north, radius-3.2*k)})
}

// across draws the direction laid across the rose, with its readings at both ends.
func (p *rosePen) across() {
	d := p.Direction.Degrees()
	r := p.diameter / 2
	from, to := p.at(d+180, r+4), p.at(d, r+5)
	p.ruler(d+180, r+4)
	p.ruler(d, r+5)
	p.Polygon("direction-arrow", `fill="black"`, []drawing.Spot{p.at(d, r+7), p.at(d-1.3*80/p.diameter, r+4), p.at(d+1.3*80/p.diameter, r+4)})
	p.lines = append(p.lines, [2]drawing.Spot{from, to})
	for i, end := range []angle.True{*p.Direction, p.Direction.Reciprocal()} {
		texts := p.read(end)
		sin, cos := math.Sincos(end.Degrees() * math.Pi / 180)
		high := 3.2 * float64(len(texts))
		// The box of the texts touches the end of the line.
		out := r + 8 - 3*float64(i) + min(wide(texts)/2/max(math.Abs(sin), 1e-9), high/2/max(math.Abs(cos), 1e-9))
		middle := p.at(end.Degrees(), out)
		for n, t := range texts {
			p.Text(middle.Moved(0, -high/2+3.2*float64(n)+2.5), `text-anchor="middle" font-weight="bold"`, t)
		}
	}
}

// ruler draws half of the direction, from the centre outward, and leaves out the figures that
// it would cross.
func (p *rosePen) ruler(d, end float64) {
	from := 0.0
	for i := len(p.rings) - 1; i >= 0; i-- {
		f := p.rings[i]
		off := math.Abs(math.Remainder(d-f.north, f.step)) * math.Pi / 180 * f.inner
		if off < f.half {
			p.Line(p.at(d, from), p.at(d, f.inner), roseRuler)
			from = f.outer
		}
	}
	p.Line(p.at(d, from), p.at(d, end), roseRuler)
}

// haloed returns the attributes of a white edge around texts on the lines of a chart.
func (p *rosePen) haloed() string {
	if !p.halo {
		return ""
	}
	return `stroke="white" stroke-width="0.7" paint-order="stroke" `
}

// write writes the legend in the middle, as near to the centre as it meets no line.
func (p *rosePen) write(radius float64) {
	letters := min(drawing.Letters*max(1, p.diameter/120), 5)
	form, place := p.place(radius, letters)
	for form == nil && letters > 1.5 {
		letters -= 0.1
		form, place = p.place(radius, letters)
	}
	for i, l := range form {
		p.Text(place.Moved(0, letters*(0.85+1.25*float64(i))), p.haloed()+fmt.Sprintf(`class="legend" text-anchor="middle" font-size="%.2f"`, letters), l)
	}
}

// place finds the place of the legend, in one line or more: the middle of its upper edge. It
// returns no lines if there is no room in the radius.
func (p *rosePen) place(radius, letters float64) (form []string, place drawing.Spot) {
	forms := [][]string{{strings.Join(p.legend, " ")}, {p.legend[0] + " " + p.legend[1], strings.Join(p.legend[2:], " ")}, p.legend}
	if len(p.legend) == 2 {
		forms = [][]string{forms[0], p.legend}
	}
	least := math.Inf(1)
	for n, lines := range forms {
		wide, high := 0.0, letters*(1.25*float64(len(lines))-0.25)
		for _, l := range lines {
			wide = max(wide, letters*drawing.TextWidth(l))
		}
		for x := -radius; x <= radius; x += radius / 12 {
			for y := -radius; y <= radius; y += radius / 12 {
				if math.Hypot(math.Abs(x)+wide/2, math.Abs(y)+high/2) > radius || p.meets(p.centre.Moved(x, y), wide/2+1, high/2+0.8) {
					continue
				}
				if cost := math.Hypot(x, y) + 2*math.Abs(x) + float64(n)*radius/3; cost < least-1e-9 {
					least, form, place = cost, lines, p.centre.Moved(x, y-high/2)
				}
			}
		}
	}
	return form, place
}

// meets reports whether a box about a spot meets one of the lines, or the mark of the centre.
func (p *rosePen) meets(at drawing.Spot, across, upright float64) bool {
	box := drawing.Around(at, across, upright)
	if box.Meets(drawing.Around(p.centre, 1, 1)) {
		return true
	}
	for _, l := range p.lines {
		bounds := drawing.Box{Left: min(l[0].X, l[1].X), Top: min(l[0].Y, l[1].Y), Right: max(l[0].X, l[1].X), Bottom: max(l[0].Y, l[1].Y)}
		if !bounds.Grown(1e-6).Meets(box) {
			continue
		}
		// The line passes by if all corners are on one side of it.
		left, right := false, false
		for _, c := range []drawing.Spot{{X: box.Left, Y: box.Top}, {X: box.Right, Y: box.Top}, {X: box.Left, Y: box.Bottom}, {X: box.Right, Y: box.Bottom}} {
			side := float64((l[1].X-l[0].X)*(c.Y-l[0].Y)) - float64((l[1].Y-l[0].Y)*(c.X-l[0].X))
			left, right = left || side <= 0, right || side >= 0
		}
		if left && right {
			return true
		}
	}
	return false
}
