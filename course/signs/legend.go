package signs

import (
	"slices"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
)

// Legend returns a line of text for each kind drawn so far, after a line that names the usage.
func (p *Pen) Legend() []string {
	all := []string{p.heading()}
	for _, s := range lineSigns {
		if slices.Contains(p.lines, s.LineKind) {
			all = append(all, s.name)
		}
	}
	for _, m := range markNames {
		if slices.Contains(p.marks, m.MarkKind) {
			all = append(all, m.name)
		}
	}
	return all
}

// heading returns the first line of the legend.
func (p *Pen) heading() string {
	return "Signs of " + p.Usage.name() + " (common practice)"
}

// keyRow is the distance of two rows of a key, mm.
const keyRow = 5.0

// Key draws a key with a sample of each kind drawn so far, from a spot at its upper left
// corner. It returns the height that it takes.
func (p *Pen) Key(at drawing.Spot) float64 {
	lines, marks := slices.Clone(p.lines), slices.Clone(p.marks)
	y := 3.0
	p.Sheet.Text(at.Moved(0, y), `font-weight="bold"`, p.heading())
	for _, s := range lineSigns {
		if slices.Contains(lines, s.LineKind) {
			y += keyRow
			p.Line(Line{Kind: s.LineKind, Path: []drawing.Spot{at.Moved(0, y-1), at.Moved(16, y-1)}, Danger: angle.Port})
			p.Sheet.Text(at.Moved(18, y), "", s.name)
		}
	}
	for _, m := range markNames {
		if slices.Contains(marks, m.MarkKind) {
			y += keyRow
			p.Mark(Mark{Kind: m.MarkKind, At: at.Moved(8, y-1), Way: 90})
			p.Sheet.Text(at.Moved(18, y), "", m.name)
		}
	}
	return y + 2
}
