package working

import (
	"strings"
	"unicode/utf8"

	"lubberline.example/angle/internal/oneline"
)

// Markdown returns the sheet as CommonMark with one table: the title as a heading
// of the second level, the steps as a table of what, value and how, the warnings
// as a list, and the caution in italics. Of an empty sheet it is empty.
//
// Every text is taken as plain text: what would be a mark in it is escaped, and
// line ends become spaces, so that no text can leave its place. Only a viewer that
// makes links of bare addresses will still do so.
func (s Sheet) Markdown() string { return string(s.AppendMarkdown(nil, 2)) }

// AppendMarkdown appends the sheet as [Sheet.Markdown] gives it, with its title as
// a heading of a level from 1 to 6; other levels count as the nearest of them.
func (s Sheet) AppendMarkdown(b []byte, level int) []byte {
	start := len(b)
	block := func() { // blocks are parted by an empty line
		if len(b) > start {
			b = append(b, '\n')
		}
	}
	if title := oneline.Markdown(s.Title); title != "" {
		b = append(b, strings.Repeat("#", min(max(level, 1), 6))...)
		b = append(append(append(b, ' '), title...), '\n')
	}
	if len(s.Steps) > 0 {
		block()
		b = s.Steps.appendMarkdown(b)
	}
	listed := false
	for _, w := range s.Warnings {
		if !listed {
			block()
			listed = true
		}
		line := strings.TrimRight("- **Warning:** "+oneline.Markdown(w.Message), " ")
		b = append(append(b, line...), '\n')
	}
	if caution := oneline.Markdown(s.Caution); caution != "" {
		block()
		b = append(append(append(b, '*'), caution...), "*\n"...)
	}
	return b
}

// appendMarkdown appends the table. The first two columns are filled up with
// spaces, so that it can be read as it is; the last is too wide for that.
func (s Steps) appendMarkdown(b []byte) []byte {
	rows := [][3]string{{"What", "Value", "How"}}
	for _, step := range s {
		rows = append(rows, [3]string{oneline.Markdown(step.What), oneline.Markdown(step.Value), oneline.Markdown(step.How)})
	}
	what, value := 0, 0
	for _, r := range rows {
		what = max(what, utf8.RuneCountInString(r[0]))
		value = max(value, utf8.RuneCountInString(r[1]))
	}
	for i, r := range rows {
		b = append(append(b, "| "...), r[0]...)
		b = append(b, strings.Repeat(" ", what-utf8.RuneCountInString(r[0]))...)
		b = append(b, " | "...)
		// Figures stand under one another to the right.
		b = append(b, strings.Repeat(" ", value-utf8.RuneCountInString(r[1]))...)
		b = append(append(b, r[1]...), " | "...)
		b = append(append(b, r[2]...), " |\n"...)
		if i == 0 {
			b = append(append(b, "| :"...), strings.Repeat("-", what-1)...)
			b = append(append(b, " | "...), strings.Repeat("-", value-1)...)
			b = append(b, ": | :-- |\n"...)
		}
	}
	return b
}
