package working

import (
	"strings"
	"unicode/utf8"

	"lubberline.example/angle/internal/oneline"
)

// Markdown returns the sheet as CommonMark. The title is a heading of the second level, the
// steps are a table, the warnings are a list, and the caution is in italics. The result for
// an empty sheet is empty.
//
// Every text is plain text: Markdown escapes marks and replaces line breaks with spaces. A
// viewer that turns bare addresses into links still does so.
func (s Sheet) Markdown() string { return string(s.AppendMarkdown(nil, 2)) }

// AppendMarkdown appends the text of [Sheet.Markdown], with the title as a heading of a
// level from 1 to 6. A level below 1 counts as 1, and a level above 6 as 6.
func (s Sheet) AppendMarkdown(b []byte, level int) []byte {
	start := len(b)
	block := func() { // an empty line separates blocks
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

// appendMarkdown appends the table. It pads the first two columns with spaces, so that the
// Markdown itself is easy to read.
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
		// Values are aligned to the right.
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
