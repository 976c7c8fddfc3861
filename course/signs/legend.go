package signs

import (
	"slices"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
)

// Legend returns a line of text for each kind drawn so far, after a line that names the usage.
func (p *Pen) Legend() []string {
	if p == nil {
		return nil
	}
	all := []string{p.heading()}
	for _, s := range lineSigns {
		if slices.Contains(p.lines, s.LineKind) {
			all = append(all, s.in(p.Usage))
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

// The parts of a key, mm.
const (
	keyRow    = 4.6  // from one row to the next
	keyColumn = 82.0 // the width of a column
)

// Key draws a key with a sample of each kind drawn so far, in as many columns as the width has
// room for. The spot is its upper left corner. Key returns its height. Widths and heights are in
// millimetres.
func (p *Pen) Key(at drawing.Spot, width float64) float64 {
	if p == nil {
		return 0
	}
	p.Sheet.Text(at.Moved(0, 2.8), `font-weight="bold"`, p.heading())
	samples := Pen{Sheet: p.Sheet, Usage: p.Usage}
	columns := max(int(width/keyColumn), 1)
	n := 0
	place := func(name string) drawing.Spot {
		s := at.Moved(keyColumn*float64(n%columns), 6.4+keyRow*float64(n/columns))
		n++
		p.Sheet.Text(s.Moved(16, 0.95), "", name)
		return s
	}
	for _, s := range lineSigns {
		if slices.Contains(p.lines, s.LineKind) {
			from := place(s.in(p.Usage))
			samples.Line(Line{Kind: s.LineKind, Path: []drawing.Spot{from, from.Moved(14, 0)}, Danger: angle.Port})
		}
	}
	for _, m := range markNames {
		if slices.Contains(p.marks, m.MarkKind) {
			from := place(m.name)
			if m.MarkKind == DeadReckoning { // it stands on a track
				p.Sheet.Line(from, from.Moved(14, 0), style(0.35))
			}
			samples.Mark(Mark{Kind: m.MarkKind, At: from.Moved(7, 0), Way: 90})
		}
	}
	return 5 + keyRow*float64((n+columns-1)/columns)
}

// in returns the name of a kind of line in a usage, with the letters that stand before its
// figures.
func (s lineSign) in(u Usage) string {
	if u != UnitedStates || s.direction == "" {
		return s.name
	}
	return s.name + " (" + strings.TrimSpace(s.direction) + ", " + strings.TrimSpace(s.speed) + ")"
}
