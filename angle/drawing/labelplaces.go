package drawing

import (
	"math"
	"slices"
)

// degreesOf returns an angle by its sine and cosine.
func degreesOf(sin, cos float64) float64 { return math.Atan2(sin, cos) * 180 / math.Pi }

// places returns where a label may stand, the best place first.
func (p *placing) places() []place {
	switch {
	case len(p.line) > 1:
		return p.along()
	case len(p.Along) > 1: // nothing of the line is in the room
		return nil
	}
	return p.beside(p.At, or(p.Gap, 2), 1, 1.6, 2.4)
}

// or returns a length, or another if it is not more than 0.
func or(length, otherwise float64) float64 {
	if length > 0 {
		return length
	}
	return otherwise
}

// beside returns level places beside a spot, at some multiples of a gap: to the right, to the left,
// above and below. On each side the first is in the middle, the next toward its ends.
func (p *placing) beside(at Spot, gap float64, multiples ...float64) (out []place) {
	order := [4]Spot{{1, 0}, {-1, 0}, {0, -1}, {0, 1}}
	if p.Below {
		order = [4]Spot{{0, 1}, {1, 0}, {-1, 0}, {0, -1}}
	}
	for _, shape := range p.shapes {
		for _, m := range multiples {
			for _, slide := range [5]float64{0, -0.55, 0.55, -1, 1} {
				for _, d := range order {
					// At the end of a side the gap is across the corner.
					x, y := m*gap, slide*(shape.high+0.7*m*gap)
					if math.Abs(slide) == 1 {
						x *= 0.7
					}
					x += shape.across
					if d.X == 0 {
						x, y = slide*(shape.across+0.7*m*gap), m*gap+shape.high
						if math.Abs(slide) == 1 {
							continue // the corners are done
						}
						y *= d.Y
					} else {
						x *= d.X
					}
					out = append(out, place{box: turnedAt(at.Moved(x, y), shape.across, shape.high, 0), shape: shape, side: d.X})
				}
			}
		}
	}
	return out
}

// along returns places along the line of a label, turned as it is, from the middle outward.
// Then follow level places beside the line.
func (p *placing) along() (out []place) {
	line := newMeasured(p.line)
	gap, shape := or(p.Gap, 0.9), p.shapes[0]
	sides := [2]float64{-1, 1}
	if p.Below {
		sides = [2]float64{1, -1}
	}
	var level []place
	for _, way := range line.ways(shape.across) {
		from, to := line.at(way-shape.across), line.at(way+shape.across)
		if from == to {
			continue
		}
		turn := upright(math.Atan2(to.Y-from.Y, to.X-from.X))
		box := turnedAt(At((from.X+to.X)/2, (from.Y+to.Y)/2), shape.across, shape.high, turn)
		above, below := line.bulge(way-shape.across, way+shape.across, box)
		for _, side := range sides {
			bulge := below
			if side < 0 {
				bulge = above
			}
			if bulge > 1.5 { // the line turns: the text would not stand along it
				continue
			}
			moved := box
			moved.middle = box.out(At(0, side*(gap+bulge+shape.high)))
			out = append(out, place{box: moved, shape: shape})
		}
		level = append(level, p.beside(line.at(way), or(p.Gap, 1.2), 1)...)
	}
	return append(out, level...)
}

// upright turns a direction by half a turn if a text along it would be upside down. A text
// along an upright line is read from below to above.
func upright(turn float64) float64 {
	switch turn = math.Remainder(turn, 2*math.Pi); {
	case turn > math.Pi/2-1e-6:
		return turn - math.Pi
	case turn < -math.Pi/2-1e-6:
		return turn + math.Pi
	}
	return turn
}

// A measuredLine is a line with the way along it to each of its spots.
type measuredLine struct {
	spots []Spot
	to    []float64
}

// newMeasured measures a line.
func newMeasured(spots []Spot) measuredLine {
	m := measuredLine{spots: spots, to: make([]float64, len(spots))}
	for i := 1; i < len(spots); i++ {
		m.to[i] = m.to[i-1] + math.Hypot(spots[i].X-spots[i-1].X, spots[i].Y-spots[i-1].Y)
	}
	return m
}

// length returns the length of the line.
func (m measuredLine) length() float64 { return m.to[len(m.to)-1] }

// at returns the spot at a way along the line. Before its beginning and beyond its end, the
// line goes on straight.
func (m measuredLine) at(way float64) Spot {
	i, _ := slices.BinarySearch(m.to, way)
	i = min(max(i, 1), len(m.to)-1)
	for i > 1 && m.to[i] == m.to[i-1] {
		i--
	}
	a, b, part := m.spots[i-1], m.spots[i], 0.0
	if d := m.to[i] - m.to[i-1]; d > 0 {
		part = (way - m.to[i-1]) / d
	}
	return At(a.X+(b.X-a.X)*part, a.Y+(b.Y-a.Y)*part)
}

// ways returns where the middle of a text may stand along the line, from the middle of the
// line outward. The text has half a width. On a shorter line it stands in the middle.
func (m measuredLine) ways(across float64) []float64 {
	middle, reach := m.length()/2, m.length()/2-across
	if !(reach > 0) {
		return []float64{middle}
	}
	const most = 30 // on each side
	step := max(1.5, reach/most)
	out := []float64{middle}
	for d := step; d <= reach; d += step {
		out = append(out, middle+d, middle-d)
	}
	return append(out, middle+reach, middle-reach)
}

// bulge returns how far the line reaches above and below the middle line of a rectangle,
// between two ways along it.
func (m measuredLine) bulge(from, to float64, box turned) (above, below float64) {
	for i, s := range m.spots {
		if m.to[i] > from && m.to[i] < to {
			y := box.in(s).Y
			above, below = max(above, -y), max(below, y)
		}
	}
	return above, below
}

// visible returns the longest part of a line that lies in the room.
func (l *Labels) visible(line []Spot) []Spot {
	room := l.Room.asTurned()
	var part, best []Spot
	end := func() {
		if len(part) > 1 && (len(best) < 2 || newMeasured(part).length() > newMeasured(best).length()) {
			best = part
		}
		part = nil
	}
	for i := range len(line) - 1 {
		a, b := line[i], line[i+1]
		low, high := room.within(a, b)
		if !(low < high) {
			end()
			continue
		}
		between := func(part float64) Spot { return At(a.X+(b.X-a.X)*part, a.Y+(b.Y-a.Y)*part) }
		if low > 0 {
			end()
		}
		if len(part) == 0 {
			part = append(part, between(low))
		}
		part = append(part, between(high))
		if high < 1 {
			end()
		}
	}
	end()
	return best
}

// leadOut gives a label a place in free room, with a line that leads to it.
func (l *Labels) leadOut(p *placing) {
	anchors := []Spot{p.At}
	if len(p.Along) > 1 {
		anchors = nil
	}
	if len(p.line) > 1 {
		line := newMeasured(p.line)
		for _, part := range []float64{0.5, 0.35, 0.65, 0.2, 0.8} {
			anchors = append(anchors, line.at(part*line.length()))
		}
	}
	const directions = 24
	for away := 4.0; away <= 80; away += 2 {
		for _, anchor := range anchors {
			if !l.Room.Holds(anchor) {
				continue
			}
			for k := range directions * len(p.shapes) {
				shape := p.shapes[k/directions]
				sin, cos := math.Sincos(2 * math.Pi * (float64(k) + 0.5) / directions)
				middle := anchor.Moved(away*cos+math.Copysign(shape.across, cos), away*sin+math.Copysign(shape.high, sin))
				r := place{box: turnedAt(middle, shape.across, shape.high, 0), shape: shape, side: math.Copysign(1, cos)}
				end := r.box.grown(0.4).nearest(anchor)
				r.leader = []Spot{anchor, end}
				if l.free(r.box) && l.reaches(r) && len(l.covers(r, p)) == 0 {
					p.at = &r
					return
				}
			}
		}
	}
}

// reaches reports whether the line to a label passes through no symbol but its own.
func (l *Labels) reaches(r place) bool {
	for _, b := range l.boxes {
		if b.crossed(r.leader[0], r.leader[1]) && !b.bounds().Holds(r.leader[0]) {
			return false
		}
	}
	return true
}
