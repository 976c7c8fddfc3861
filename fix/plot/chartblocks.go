package plot

import (
	"cmp"
	"fmt"
	"math"

	"lubberline.example/angle/drawing"
	"lubberline.example/angle/working"
	"lubberline.example/course/tidal"
)

// A block is a text on a chart in a frame of its own, such as the title.
type block struct {
	width, height float64
	draw          func(at drawing.Spot) // from its upper left corner
}

// besideChart is the room for blocks beside a chart, mm.
const besideChart = 134.0

// allBlocks returns the title and the tidal table.
func (p *practicePlot) allBlocks() []block {
	all := []block{p.title()}
	if p.Tidal == nil || p.o.Plain {
		return all
	}
	const most = 4 // places side by side
	for from := 0; from < len(p.Tidal.Places); from += most {
		all = append(all, p.tidalTable(p.Tidal.Places[from:min(from+most, len(p.Tidal.Places))]))
	}
	return all
}

// blocks draws the title and the tidal table where they cover least, on land if there is room.
func (p *practicePlot) blocks() {
	for _, s := range p.Soundings {
		p.depth = append(p.depth, p.Spot(s.Position))
	}
	step := max(3, (p.Frame.Right-p.Frame.Left)/80)
	for _, b := range p.allBlocks() {
		best, least := p.best(b, step)
		if least >= covering {
			p.crowded = true
		}
		p.framed(b, best)
	}
}

// best returns where a block covers least, and how much it covers there.
func (p *practicePlot) best(b block, step float64) (best drawing.Spot, least float64) {
	best, least = drawing.At(p.Frame.Left+2, p.Frame.Top+2), math.Inf(1)
	for y := p.Frame.Top + 2; y+b.height <= p.Frame.Bottom-2; y += step {
		for x := p.Frame.Right - 2 - b.width; x >= p.Frame.Left+2; x -= step {
			if c := p.covers(drawing.Box{Left: x, Top: y, Right: x + b.width, Bottom: y + b.height}, least); c < least {
				best, least = drawing.At(x, y), c
			}
		}
	}
	return best, least
}

// framed draws a block in its frame.
func (p *practicePlot) framed(b block, at drawing.Spot) {
	box := drawing.Box{Left: at.X, Top: at.Y, Right: at.X + b.width, Bottom: at.Y + b.height}
	p.Rectangle(box, `class="block" fill="white" stroke="black" stroke-width="0.3"`)
	b.draw(at)
	p.taken = append(p.taken, box.Grown(0.5))
}

// covering is the cost of a symbol that is covered.
const covering = 1000

// covers returns how much a box would cover, or something more than enough: symbols count most,
// then the coast, then depths.
func (p *practicePlot) covers(b drawing.Box, enough float64) float64 {
	cost := 0.0
	for _, t := range p.taken {
		if b.Meets(t) {
			cost += covering
		}
	}
	for _, r := range p.rings {
		if b.Meets(drawing.Around(r.Spot, r.radius, r.radius)) {
			cost += covering
		}
	}
	wide := b.Grown(1.5)
	for _, n := range p.Names {
		if wide.Grown(8).Holds(p.Spot(n.Position)) {
			cost += 200
		}
	}
	for _, m := range p.Marks {
		if b.Grown(14).Holds(p.Spot(m.Position)) { // room for its name
			cost += 100
		}
	}
	if cost >= enough {
		return cost
	}
	for _, s := range p.coast {
		if wide.Holds(s) {
			cost += 20
		}
	}
	for _, s := range p.depth {
		if wide.Holds(s) {
			cost += 5
		}
	}
	return cost
}

// title returns the title of the chart.
func (p *practicePlot) title() block {
	const width = 74.0
	type line struct {
		text string
		size float64
		bold bool
	}
	lines := []line{{working.OneLine(p.Name), 5, true}, {"PRACTICE CHART", 3.2, true}, {notForNavigation, 3.6, true}}
	note := fmt.Sprintf("%s Mercator projection on WGS 84. Contours to 5 m are dotted, to 10 m dashed, to 20 m dashed and dotted. Roses have the variation of the year printed in them.", working.OneLine(p.Note))
	for _, text := range drawing.Wrapped(note, (width-6)/drawing.Letters) {
		lines = append(lines, line{text, drawing.Letters, false})
	}
	height := 3.0
	for _, l := range lines {
		height += 1.4 * l.size
	}
	return block{width, height, func(at drawing.Spot) {
		y := at.Y + 1
		for _, l := range lines {
			y += 1.4 * l.size
			attributes, room := fmt.Sprintf(`class="title" text-anchor="middle" font-size="%g"`, l.size), (width-4)/l.size
			if l.bold {
				attributes, room = attributes+` font-weight="bold"`, room/boldWidth
			}
			p.Text(drawing.At(at.X+width/2, y), attributes, drawing.Shortened(l.text, room))
		}
	}}
}

// The measures of a tidal table, mm.
const (
	tidalRow    = 3.5
	tidalHours  = 13.0
	tidalColumn = 29.0
)

// tidalTable returns the table of some places.
func (p *practicePlot) tidalTable(places []tidal.Place) block {
	first, last := 6, -6
	for _, t := range places {
		for _, h := range t.Hours {
			first, last = min(first, h.Hour), max(last, h.Hour)
		}
	}
	width := max(tidalHours+tidalColumn*float64(len(places)), 58)
	head := drawing.Wrapped(fmt.Sprintf("Tidal streams by the hours of high water at %s", cmp.Or(working.OneLine(p.Tidal.Port), "the standard port")), (width-4)/drawing.Letters)
	if p.Tidal.SpringRange > 0 {
		head = append(head, fmt.Sprintf("Mean ranges: springs %.1f m, neaps %.1f m", p.Tidal.SpringRange.Metres(), p.Tidal.NeapRange.Metres()))
	}
	rows := float64(len(head)) + 3 + float64(max(0, last-first+1))
	return block{width, tidalRow*rows + 3, func(at drawing.Spot) {
		y := at.Y + 1
		row := func() float64 { y += tidalRow; return y }
		for _, text := range head {
			p.Text(drawing.At(at.X+2, row()), "", drawing.Shortened(text, (width-3)/drawing.Letters))
		}
		p.tidalHead(at.X+tidalHours, row, places)
		p.Line(drawing.At(at.X, y+1), drawing.At(at.X+width, y+1), stroke)
		for hour := first; hour <= last; hour++ {
			base := row() + 0.5
			p.Text(drawing.At(at.X+tidalHours-2, base), `class="tidal-hour" text-anchor="end"`, hourText(hour))
			for i, t := range places {
				for _, h := range t.Hours {
					if h.Hour == hour {
						p.tidalCells(at.X+tidalHours+tidalColumn*float64(i), base, h)
					}
				}
			}
		}
	}}
}

// tidalHead writes the letters of the places, their positions and the columns.
func (p *practicePlot) tidalHead(x float64, row func() float64, places []tidal.Place) {
	y := row()
	for i, t := range places {
		p.Text(drawing.At(x+tidalColumn*float64(i)+tidalColumn/2, y), `class="tidal-place" text-anchor="middle" font-weight="bold"`, "\u25c7 "+working.OneLine(t.Name))
	}
	y = row()
	for i, t := range places {
		p.Text(drawing.At(x+tidalColumn*float64(i)+tidalColumn/2, y), `text-anchor="middle" font-size="2.1"`, fmt.Sprintf("%.0v", *t.Position))
	}
	y = row()
	for i := range places {
		left := x + tidalColumn*float64(i)
		for j, text := range []string{"set", "sp", "np"} {
			p.Text(drawing.At(left+tidalColumns[j], y), `text-anchor="end"`, text)
		}
	}
}

// tidalColumns are the right edges of the columns of a place, mm.
var tidalColumns = [3]float64{11, 19, 27}

// tidalCells writes the set and the rates of an hour.
func (p *practicePlot) tidalCells(left, y float64, h tidal.Hour) {
	set := fmt.Sprintf("%03.0f°", math.Mod(math.Round(h.Set.FromNorth().Degrees()), 360))
	if h.Springs == 0 && h.Neaps == 0 {
		set = "slack"
	}
	for j, text := range []string{set, fmt.Sprintf("%.1f", h.Springs.Knots()), fmt.Sprintf("%.1f", h.Neaps.Knots())} {
		if set == "slack" && j > 0 {
			text = "–"
		}
		p.Text(drawing.At(left+tidalColumns[j], y), `class="tidal-cell" text-anchor="end"`, text)
	}
}

// hourText returns an hour of the table: −6, HW, +3.
func hourText(hour int) string {
	switch {
	case hour < 0:
		return fmt.Sprintf("\u2212%d", -hour)
	case hour > 0:
		return fmt.Sprintf("+%d", hour)
	}
	return "HW"
}
