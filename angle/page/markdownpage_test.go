package page_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"lubberline.example/angle/page"
	"lubberline.example/angle/working"
)

// TestPageMarkdown holds a page to its text, with paragraphs that look like other blocks.
func TestPageMarkdown(t *testing.T) {
	sheet := working.Sheet{Steps: working.Steps{{What: "Years", Value: "12 years", How: "2014 to 2026"}}}
	doc := page.Page{Title: "One *sheet*", Parts: []page.Part{
		{Heading: "1. variation", Text: []string{"1. not a list", "- nor this", "2014: no list", "", "=== no heading"}, Sheet: &sheet},
		{Heading: "2. dial", Figure: "<svg/>", FigureText: "A dial."},
		{},
	}}
	want := `# One \*sheet\*

## 1. variation

1\. not a list

\- nor this

2014: no list

\=== no heading

| What  |    Value | How |
| :---- | -------: | :-- |
| Years | 12 years | 2014 to 2026 |

## 2. dial

*Figure: A dial.*
`
	if diff := cmp.Diff(want, doc.Markdown()); diff != "" {
		t.Error(diff)
	}
	if got := (page.Page{}).Markdown(); got != "# Working\n" {
		t.Errorf("an empty page is %q", got)
	}
}

// A row that is shorter than the head is filled up with empty cells.
func TestShortRowIsFilledUp(t *testing.T) {
	doc := page.Page{Title: "Table", Parts: []page.Part{{Heading: "A", Tables: []page.Table{{Columns: []string{"One", "Two"}, Rows: [][]string{{"1", "2"}, {"3"}, {}}}}}}}
	for _, want := range []string{"| 1 | 2 |\n", "| 3 |  |\n", "|  |  |\n"} {
		if got := doc.Markdown(); !strings.Contains(got, want) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
}
