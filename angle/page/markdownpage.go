package page

import (
	"regexp"
	"strings"

	"lubberline.example/angle/internal/oneline"
)

// beginsBlock matches the beginning of a text that Markdown would not read as a paragraph: a
// list, a rule, or the underline of a heading.
var beginsBlock = regexp.MustCompile(`^(?:[-+=]|[0-9]+[.)])`)

// Markdown returns the page as CommonMark, with a heading of the second level for each
// part. It writes FigureText instead of a figure, and no ruled lines. Texts are plain text, and
// are escaped; see [lubberline.example/angle/working.Sheet.Markdown].
func (p Page) Markdown() string {
	var blocks []string
	add := func(before, text, after string) {
		if text = oneline.Markdown(text); text != "" {
			blocks = append(blocks, before+text+after+"\n")
		}
	}
	title := p.Title
	if oneline.Markdown(title) == "" {
		title = "Working"
	}
	add("# ", title, "")
	blanks := func(labels []string) {
		for _, label := range labels {
			add("", label, ":")
		}
	}
	blanks(p.Fields)
	for _, part := range p.Parts {
		add("## ", part.Heading, "")
		for _, text := range part.Text {
			if text = oneline.Markdown(text); text == "" {
				continue
			}
			if at := beginsBlock.FindStringIndex(text); at != nil {
				text = text[:at[1]-1] + `\` + text[at[1]-1:]
			}
			blocks = append(blocks, text+"\n")
		}
		add("*Figure: ", part.FigureText, "*")
		if part.Sheet != nil {
			if sheet := string(part.Sheet.AppendMarkdown(nil, 3)); sheet != "" {
				blocks = append(blocks, sheet)
			}
		}
		for _, t := range part.Tables {
			add("**", t.Caption, "**")
			if text := t.markdown(); text != "" {
				blocks = append(blocks, text)
			}
		}
		blanks(part.Fields)
	}
	add("", p.Foot, "")
	add("*", p.Caution, "*")
	return strings.Join(blocks, "\n")
}

// markdown returns the table as Markdown.
func (t Table) markdown() string {
	if len(t.Columns) == 0 {
		return ""
	}
	var b strings.Builder
	row := func(cells []string) {
		for i := range t.Columns {
			cell := ""
			if i < len(cells) {
				cell = oneline.Markdown(cells[i])
			}
			b.WriteString("| " + cell + " ")
		}
		b.WriteString("|\n")
	}
	row(t.Columns)
	b.WriteString(strings.Repeat("| :-- ", len(t.Columns)) + "|\n")
	for _, cells := range t.Rows {
		row(cells)
	}
	return b.String()
}
