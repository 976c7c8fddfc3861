package plot

import (
	"math"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/course/signs"
)

// sign draws a line, and keeps where it is.
func (p *passagePen) sign(l signs.Line) {
	p.note(l.Path)
	p.Line(l)
}

// note keeps where a line is.
func (p *passagePen) note(path []drawing.Spot) {
	for i := 1; i < len(path); i++ {
		a, b := path[i-1], path[i]
		n := math.Ceil(math.Hypot(b.X-a.X, b.Y-a.Y)/2) + 1
		if !(n < 10_000) {
			continue
		}
		for k := range int(n) + 1 {
			part := float64(k) / n
			p.drawn = append(p.drawn, drawing.At(a.X+(b.X-a.X)*part, a.Y+(b.Y-a.Y)*part))
		}
	}
}

// wind draws the arrow of the wind as near to a spot as it is clear of the lines and the roses. If
// there is no such room, it is not drawn: the notes have its direction.
func (p *passagePen) wind(from angle.True, near drawing.Spot, roses []*rosePen) {
	const clear = 11.0 // of the middle of the arrow, which is 12 mm long
	at, least := drawing.Spot{}, math.Inf(1)
	room := p.frame.Grown(-clear)
	for x := room.Left; x <= room.Right; x += 3 {
		for y := room.Top; y <= room.Bottom; y += 3 {
			s := drawing.At(x, y)
			if off := apart(s, near); off < least && p.clear(s, clear, roses) {
				at, least = s, off
			}
		}
	}
	if !math.IsInf(least, 1) {
		p.Mark(signs.Mark{Kind: signs.Wind, At: at, Way: from.Degrees()})
	}
}

// clear reports whether no line and no rose is nearer to a spot than some distance.
func (p *passagePen) clear(s drawing.Spot, distance float64, roses []*rosePen) bool {
	for _, r := range roses {
		if apart(s, r.centre) < r.diameter/2+distance {
			return false
		}
	}
	for _, d := range p.drawn {
		if apart(s, d) < distance {
			return false
		}
	}
	return true
}

// apart returns the distance of two spots.
func apart(a, b drawing.Spot) float64 { return math.Hypot(a.X-b.X, a.Y-b.Y) }
