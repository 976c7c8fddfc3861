package plot

import (
	"math"

	"lubberline.example/angle/drawing"
)

// label writes lines of text for a spot of the dial at the best place, outside the ring or
// within the figures. If the text is not close to the spot, a line leads to it. If side is
// not 0, the text is east (positive) or west of true north.
func (d *dial) label(spot drawing.Spot, outside bool, side float64, lines []string) {
	width, height := 0.0, 3.4*float64(len(lines))
	for _, l := range lines {
		width = max(width, 0.66*dialText*float64(len([]rune(l))))
	}
	best, least := drawing.Box{}, math.Inf(1)
	for y := 1.0; y+height < 111; y++ {
		for x := 2.0; x+width < dialSize-2; x++ {
			b := drawing.Box{Left: x, Top: y, Right: x + width, Bottom: y + height}
			if near, far := distances(b); outside && near < dialReach+1.5 || !outside && far > dialFigures-3 {
				continue
			}
			cost := 0.0
			if (x+width/2-60)*side < 0 {
				cost = 200
			}
			// Among equal places take the first, on every machine.
			if cost += d.cost(b, spot, least-cost); cost < least-1e-6 {
				best, least = b, cost
			}
		}
	}
	end := nearest(best, spot)
	if gap := math.Hypot(end.X-spot.X, end.Y-spot.Y); gap > 4 || !outside && gap > 1 {
		d.Line(spot, end, `class="leader" stroke="black" stroke-width="0.2"`)
		for s := 0.0; s <= gap; s++ {
			d.lines = append(d.lines, drawing.At(spot.X+(end.X-spot.X)*s/gap, spot.Y+(end.Y-spot.Y)*s/gap))
		}
	}
	if !outside {
		d.Put(`<circle cx="%.2f" cy="%.2f" r="0.5" fill="black"/>`, spot.X, spot.Y)
	}
	d.texts(best, lines, ` font-weight="bold"`)
}

// cost rates a place for a text; less is better. It counts what the text covers, what the
// line to it crosses, and the distance from its spot. Above the limit it stops counting.
func (d *dial) cost(b drawing.Box, spot drawing.Spot, limit float64) float64 {
	end := nearest(b, spot)
	gap := math.Hypot(end.X-spot.X, end.Y-spot.Y)
	middle := drawing.At((b.Left+b.Right)/2, (b.Top+b.Bottom)/2)
	cost := gap + 0.1*math.Hypot(middle.X-spot.X, middle.Y-spot.Y)
	if cost > limit {
		return cost
	}
	roomy := b.Grown(0.8)
	for _, t := range d.taken {
		if roomy.Meets(t) {
			cost += 1000
		}
	}
	for i := 0; i < len(d.lines) && cost <= limit; i++ {
		if roomy.Holds(d.lines[i]) {
			cost += 15
		}
	}
	for s := 2.0; s < gap && cost <= limit; s++ {
		p := drawing.At(spot.X+(end.X-spot.X)*s/gap, spot.Y+(end.Y-spot.Y)*s/gap)
		for _, t := range d.taken {
			if t.Holds(p) {
				cost += 60
			}
		}
		for _, l := range d.lines {
			if dx, dy := l.X-p.X, l.Y-p.Y; dx*dx+dy*dy < 0.5 {
				cost += 8
			}
		}
	}
	return cost
}

// distances returns the distances of the nearest and the farthest spot of a box from the
// middle of the dial.
func distances(b drawing.Box) (near, far float64) {
	n := nearest(b, drawing.At(60, 57))
	return math.Hypot(n.X-60, n.Y-57), math.Hypot(max(60-b.Left, b.Right-60), max(57-b.Top, b.Bottom-57))
}

// nearest returns the spot of the box that is nearest to s.
func nearest(b drawing.Box, s drawing.Spot) drawing.Spot {
	return drawing.At(min(max(s.X, b.Left), b.Right), min(max(s.Y, b.Top), b.Bottom))
}

// texts writes lines of text on white in a box, which no other text may take. The
// first stands out if there are attributes for it.
func (d *dial) texts(b drawing.Box, lines []string, first string) {
	d.Rectangle(b, `fill="white"`)
	for i, l := range lines {
		if i > 0 {
			first = ""
		}
		d.Text(drawing.At((b.Left+b.Right)/2, b.Top+3.4*float64(i)+2.75), `text-anchor="middle"`+first, l)
	}
	d.taken = append(d.taken, b)
}
