package drawing

import "slices"

// Measures of a table that stands as blocks, mm.
const (
	namePart   = 0.4 // of the width, for the names of the columns
	blockApart = 1.5 // between two blocks
)

// stacked draws a table as blocks below each other, and returns the box around them.
func (s *Sheet) stacked(at Spot, line float64, columns int, rows [][]string) Box {
	box := Box{at.X, at.Y, max(at.X, s.width-at.X), at.Y}
	names := rows[0][:min(len(rows[0]), columns)]
	var blocks [][]field
	for _, row := range rows[1:] {
		if f := fields(names, row[:min(len(row), columns)], false); len(f) > 0 {
			blocks = append(blocks, f)
		}
	}
	if blocks == nil && len(rows) > 1 {
		blocks = [][]field{fields(names, nil, true)}
	}
	for i, b := range blocks {
		if i > 0 {
			box.Bottom += blockApart
		}
		box.Bottom = s.block(Box{box.Left, box.Bottom, box.Right, box.Bottom}, line, b)
	}
	return box
}

// A field is a cell of a table, with the name of its column.
type field struct{ name, text string }

// fields returns the cells of a row that are not empty, or all of a blank row.
func fields(names, row []string, blank bool) (all []field) {
	for j := range max(len(names), len(row)) {
		f := field{}
		if j < len(names) {
			f.name = names[j]
		}
		if j < len(row) {
			f.text = row[j]
		}
		if blank || Wrapped(f.text, 1)[0] != "" {
			all = append(all, f)
		}
	}
	return all
}

// block draws a row of a table as a block, from its upper edge, and returns its lower edge. The
// first text is bold. An empty text leaves a line to write on.
func (s *Sheet) block(b Box, line float64, all []field) float64 {
	middle := b.Left + namePart*(b.Right-b.Left)
	for i, f := range all {
		wide, weight := 1.0, ""
		if i == 0 {
			wide, weight = boldWidth, ` font-weight="bold"`
		}
		name := broken(f.name, (middle-b.Left-2*cellMargin)/Letters)
		text := broken(f.text, (b.Right-middle-2*cellMargin)/Letters/wide)
		high := Letters*max(spacingOf(f.name)*float64(len(name)), spacingOf(f.text)*float64(len(text))) + 2*cellMargin
		if f.text == "" {
			high = max(high, line)
		}
		if i > 0 {
			s.Line(At(b.Left, b.Bottom), At(b.Right, b.Bottom), `stroke="black" stroke-width="0.15"`)
		}
		s.lines(At(b.Left+cellMargin, b.Bottom+cellMargin), spacingOf(f.name), `fill="#444"`, name)
		s.lines(At(middle+cellMargin, b.Bottom+cellMargin), spacingOf(f.text), `class="value"`+weight, text)
		b.Bottom += high
	}
	s.Line(At(middle, b.Top), At(middle, b.Bottom), `stroke="black" stroke-width="0.15"`)
	s.Rectangle(b, `fill="none" stroke="black" stroke-width="0.4"`)
	return b.Bottom
}

// lines writes lines of text below a spot.
func (s *Sheet) lines(at Spot, spacing float64, attributes string, lines []string) {
	for i, l := range lines {
		if l != "" { // the base line stands so that the letters are in the middle of their line
			s.Text(at.Moved(0, Letters*(spacing*(float64(i)+0.5)+0.36)), attributes, l)
		}
	}
}

// broken breaks a text into lines of at most width, a multiple of the letter size. It breaks a
// word only if that is wider, and leaves out nothing.
func broken(text string, width float64) (lines []string) {
	for _, line := range Wrapped(text, width) {
		runes := []rune(line)
		for used, i := 0.0, 0; i < len(runes); i++ {
			w := runeWidth(runes[i])
			if used += w; used > width && w > 0 && i > 0 {
				lines = append(lines, string(runes[:i]))
				runes, used, i = slices.Clone(runes[i:]), w, 0
			}
		}
		lines = append(lines, string(runes))
	}
	return lines
}
