package page

import (
	"fmt"
	"html"
	"strings"

	"lubberline.example/angle/internal/oneline"
	"lubberline.example/angle/working"
)

// A Size is a size of paper to print on. The empty Size is [A4].
type Size string

// The sizes of paper.
const (
	A4     Size = "A4"
	Letter Size = "letter" // 8½ by 11 inches
)

// maxLines is the greatest number of ruled lines in a [Part].
const maxLines = 100

// A Table is a table of plain texts. The first cell of a row is the heading of the row. A row
// may be shorter than Columns.
type Table struct {
	Caption string
	Columns []string
	Rows    [][]string
}

// classIf returns a class attribute if it is needed.
func classIf(needed bool, name string) trusted {
	if !needed {
		return ""
	}
	return trusted(` class="` + name + `"`)
}

// tablesOf writes tables side by side. Each scrolls by itself if the screen is narrow.
func (h *htmlPage) tablesOf(tables []Table, heading string) error {
	if len(tables) == 0 {
		return nil
	}
	h.line(`<div class="tables">`)
	for _, t := range tables {
		h.tables++
		h.line(`<div class="scroll" role="group" aria-labelledby="table-%d" tabindex="0">`, h.tables)
		h.line(`<table>`)
		h.caption(h.named(t.Caption), heading)
		h.line(`<thead>%s</thead>`, trusted(headings(t.Columns)))
		h.line(`<tbody>`)
		for i, row := range t.Rows {
			if len(row) > len(t.Columns) {
				return fmt.Errorf("row %d of the table %.60q has %d cells: give at most %d, one for each column", i+1, t.Caption, len(row), len(t.Columns))
			}
			h.line(`<tr>%s</tr>`, trusted(cells(row)))
		}
		h.line(`</tbody>`)
		h.line(`</table>`)
		h.line(`</div>`)
	}
	h.line(`</div>`)
	return nil
}

// headings returns the row of the headings of columns. An empty heading is a plain cell.
func headings(columns []string) string {
	var b strings.Builder
	b.WriteString("<tr>")
	for _, c := range columns {
		if c = html.EscapeString(oneline.Of(c)); c == "" {
			b.WriteString("<td></td>")
			continue
		}
		b.WriteString(`<th scope="col">` + c + `</th>`)
	}
	b.WriteString("</tr>")
	return b.String()
}

// cells returns the cells of a row.
func cells(row []string) string {
	var b strings.Builder
	for i, c := range row {
		c = html.EscapeString(oneline.Of(c))
		if i == 0 && c != "" {
			b.WriteString(`<th scope="row">` + c + `</th>`)
			continue
		}
		b.WriteString(`<td>` + c + `</td>`)
	}
	return b.String()
}

// fields writes blanks with their labels.
func (h *htmlPage) fields(labels []string) {
	if len(labels) == 0 {
		return
	}
	h.line(`<div class="fields">`)
	for _, label := range labels {
		h.line(`<p>%s <i></i></p>`, label)
	}
	h.line(`</div>`)
}

// ruled writes ruled lines. They are borders, since browsers print no backgrounds.
func (h *htmlPage) ruled(n int) {
	if n > 0 {
		h.line(`<div class="lines" aria-hidden="true">%s</div>`, trusted(strings.Repeat("<i></i>", n)))
	}
}

// foot writes the foot of the page, unless it is empty.
func (h *htmlPage) foot(foot, caution string) {
	foot, caution = oneline.Of(foot), oneline.Of(caution)
	if foot == "" && caution == "" {
		return
	}
	h.line(`<footer>`)
	if foot != "" {
		h.line(`<p>%s</p>`, foot)
	}
	if caution != "" {
		h.line(`<p class="caution"%s>%s</p>`, h.ofCaution(caution), caution)
	}
	h.line(`</footer>`)
}

// ofCaution returns the attribute of the language of a caution.
func (h *htmlPage) ofCaution(caution string) trusted {
	if caution == working.Caution {
		return trusted(h.own)
	}
	return ""
}

// bodyClass returns the classes of the body.
func bodyClass(p Page) trusted {
	var names []string
	if p.Compact {
		names = append(names, "compact")
	}
	if oneline.Of(p.Foot+p.Caution) != "" {
		names = append(names, "footed")
	}
	return classIf(len(names) > 0, strings.Join(names, " "))
}
