package course

import "math"

// label writes some lines of text for a spot of the dial where they are best read,
// outside of the ring or within the figures, with a line to the spot if they stand
// off from it. With a side, east or west of true north, it stands on that side.
func (d *dial) label(spot dialSpot, outside bool, side float64, lines []string) {
	width, height := 0.0, 3.4*float64(len(lines))
	for _, l := range lines {
		width = max(width, 0.66*dialText*float64(len([]rune(l))))
	}
	best, least := dialBox{}, math.Inf(1)
	for y := 1.0; y+height < 111; y++ {
		for x := 2.0; x+width < dialSize-2; x++ {
			b := dialBox{x, y, x + width, y + height}
			if near, far := b.distances(); outside && near < dialReach+1.5 || !outside && far > dialFigures-3 {
				continue
			}
			cost := 0.0
			if (x+width/2-60)*side < 0 {
				cost = 200
			}
			// Of places as good the first is taken on every machine.
			if cost += d.cost(b, spot, least-cost); cost < least-1e-6 {
				best, least = b, cost
			}
		}
	}
	end := best.nearest(spot)
	if gap := math.Hypot(end.x-spot.x, end.y-spot.y); gap > 4 || !outside && gap > 1 {
		d.line(spot, end, `class="leader" stroke="black" stroke-width="0.2"`)
		for s := 0.0; s <= gap; s++ {
			d.lines = append(d.lines, dialSpot{spot.x + (end.x-spot.x)*s/gap, spot.y + (end.y-spot.y)*s/gap})
		}
	}
	if !outside {
		d.put(`<circle cx="%.2f" cy="%.2f" r="0.5" fill="black"/>`, spot.x, spot.y)
	}
	d.texts(dialSpot{best.left, best.top}, best, lines, ` font-weight="bold"`)
}

// cost tells how bad a place for a text is: what it covers, what a line to it would
// cross, and how far it is from its spot.
// Nothing is added to what is over a limit.
func (d *dial) cost(b dialBox, spot dialSpot, limit float64) float64 {
	end := b.nearest(spot)
	gap := math.Hypot(end.x-spot.x, end.y-spot.y)
	middle := dialSpot{(b.left + b.right) / 2, (b.top + b.bottom) / 2}
	cost := gap + 0.1*math.Hypot(middle.x-spot.x, middle.y-spot.y)
	if cost > limit {
		return cost
	}
	roomy := dialBox{b.left - 0.8, b.top - 0.8, b.right + 0.8, b.bottom + 0.8}
	for _, t := range d.taken {
		if roomy.left < t.right && t.left < roomy.right && roomy.top < t.bottom && t.top < roomy.bottom {
			cost += 1000
		}
	}
	for i := 0; i < len(d.lines) && cost <= limit; i++ {
		if roomy.holds(d.lines[i]) {
			cost += 15
		}
	}
	for s := 2.0; s < gap && cost <= limit; s++ {
		p := dialSpot{spot.x + (end.x-spot.x)*s/gap, spot.y + (end.y-spot.y)*s/gap}
		for _, t := range d.taken {
			if t.holds(p) {
				cost += 60
			}
		}
		for _, l := range d.lines {
			if dx, dy := l.x-p.x, l.y-p.y; dx*dx+dy*dy < 0.5 {
				cost += 8
			}
		}
	}
	return cost
}

// distances are how far the nearest and the farthest spot of a box are from the
// middle of the dial.
func (b dialBox) distances() (near, far float64) {
	n := b.nearest(dialSpot{60, 57})
	return math.Hypot(n.x-60, n.y-57), math.Hypot(max(60-b.left, b.right-60), max(57-b.top, b.bottom-57))
}

// nearest is the spot of the box that is nearest to another.
func (b dialBox) nearest(s dialSpot) dialSpot {
	return dialSpot{min(max(s.x, b.left), b.right), min(max(s.y, b.top), b.bottom)}
}

func (b dialBox) holds(s dialSpot) bool { return b.nearest(s) == s }

// texts writes lines of text on white in a box, which no other text may take. The
// first stands out if there are attributes for it.
func (d *dial) texts(at dialSpot, b dialBox, lines []string, first string) {
	d.put(`<rect x="%.2f" y="%.2f" width="%.2f" height="%.2f" fill="white"/>`, b.left, b.top, b.right-b.left, b.bottom-b.top)
	for i, l := range lines {
		if i > 0 {
			first = ""
		}
		d.put(`<text x="%.2f" y="%.2f" text-anchor="middle"%s>%s</text>`, (b.left+b.right)/2, at.y+3.4*float64(i)+2.75, first, l)
	}
	d.taken = append(d.taken, b)
}
