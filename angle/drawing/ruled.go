package drawing

import (
	"fmt"
	"slices"
	"strings"
)

// Measures of a ruled table, mm.
const (
	cellMargin   = 0.8 // between a rule and a text
	cellSpacing  = 1.2 // of the lines of a text in Latin letters, as a multiple of their size
	leastLetters = 2.0 // in a cell
	headLetters  = 2.4
)

// Ruled draws a table ruled to be written on, from its upper left corner, and returns its
// box. The widths of the columns and the height of a line are in mm. The first row has the
// headings of the columns. An empty row, or cell, is left blank.
//
// A text that is too wide for its cell is wrapped, then made smaller, and at last shortened.
//
// A table that is wider than the sheet stands as blocks below each other, as wide as the sheet. A
// block is a row, with the name of each column beside its text. There no text is made smaller or
// shortened. Empty cells and rows are left out. If all are empty, there is one block to write on.
func (s *Sheet) Ruled(at Spot, line float64, widths []float64, rows ...[]string) Box {
	box := Box{at.X, at.Y, at.X, at.Y}
	for _, w := range widths {
		box.Right += w
	}
	if s != nil && box.Right > s.width+0.01 && len(rows) > 0 {
		return s.stacked(at, line, len(widths), rows)
	}
	heights := make([]float64, len(rows))
	for i := range rows {
		heights[i] = line
		if i == 0 {
			heights[i] = headHeight(widths, rows[i])
		}
		box.Bottom += heights[i]
	}
	y := at.Y
	for i, row := range rows {
		x := at.X
		for j, w := range widths {
			if j < len(row) {
				s.cell(Box{x, y, x + w, y + heights[i]}, row[j], i == 0)
			}
			x += w
		}
		y += heights[i]
		if i < len(rows)-1 {
			style := `stroke="black" stroke-width="0.15"`
			if i == 0 {
				style = `stroke="black" stroke-width="0.4"`
			}
			s.Line(At(box.Left, y), At(box.Right, y), style)
		}
	}
	x := at.X
	for _, w := range widths[:max(0, len(widths)-1)] {
		x += w
		s.Line(At(x, box.Top), At(x, box.Bottom), `stroke="black" stroke-width="0.15"`)
	}
	s.Rectangle(box, `fill="none" stroke="black" stroke-width="0.4"`)
	return box
}

// headHeight returns the height of the row of headings.
func headHeight(widths []float64, row []string) float64 {
	high := cellSpacing
	for j, text := range row {
		if j < len(widths) {
			lines := len(Wrapped(text, (widths[j]-2*cellMargin)/headLetters/boldWidth))
			high = max(high, spacingOf(text)*float64(min(lines, 4)))
		}
	}
	return headLetters*high + 2*cellMargin
}

// spacingOf returns the distance of the lines of a text in a cell, as a multiple of its letters.
func spacingOf(text string) float64 {
	if strings.ContainsFunc(text, isTall) {
		return tallUp + tallDown
	}
	return cellSpacing
}

// cell writes the text of a cell.
func (s *Sheet) cell(b Box, text string, head bool) {
	size, lines := fitted(text, b, head)
	attributes := fmt.Sprintf(`font-size="%g"`, size)
	if head {
		attributes += ` font-weight="bold"`
	}
	// In the middle of the height.
	spacing := size * spacingOf(text)
	y := (b.Top+b.Bottom)/2 - spacing*float64(len(lines)-1)/2 + 0.36*size
	for i, l := range lines {
		if l != "" {
			s.Text(At(b.Left+cellMargin, y+spacing*float64(i)), attributes, l)
		}
	}
}

// fitted returns the size of the letters with which a text fits into a cell, and its lines.
func fitted(text string, b Box, head bool) (float64, []string) {
	sizes, wide := []float64{Letters, 2.4, 2.2, leastLetters}, 1.0
	if head {
		sizes, wide = []float64{headLetters, leastLetters}, boldWidth
	}
	spacing := spacingOf(text)
	for _, size := range sizes {
		room := (b.Right - b.Left - 2*cellMargin) / size / wide
		lines := Wrapped(text, room)
		fits := size*spacing*float64(len(lines)) <= b.Bottom-b.Top-cellMargin &&
			!slices.ContainsFunc(lines, func(l string) bool { return TextWidth(l) > room })
		if fits {
			return size, lines
		}
		if size > leastLetters {
			continue
		}
		most := max(1, int((b.Bottom-b.Top-cellMargin)/(size*spacing)))
		if len(lines) > most {
			lines = append(lines[:most-1:most-1], strings.Join(lines[most-1:], " "))
		}
		for i, l := range lines {
			lines[i] = Shortened(l, room)
		}
		return size, lines
	}
	return Letters, nil
}
