package page_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"

	"lubberline.example/angle/page"
	"lubberline.example/angle/working"
)

// handout is a sheet to hand out.
func handout() page.Page {
	return page.Page{
		Title: "Sheet <1>", Size: page.Letter, Compact: true, Fields: []string{"Name", "Date & place"},
		Foot: "Seed 7", Caution: working.Caution,
		Parts: []page.Part{
			{Tables: []page.Table{{Caption: "Card", Columns: []string{"Head", "Dev."}, Rows: [][]string{{"000", "2°W"}, {"090"}, {"", "<b>"}}}, {}}},
			{Heading: "1", Text: []string{"A question?"}, Lines: 4, Fields: []string{"Answer"}},
			{Heading: "2", Lines: 2},
		},
	}
}

// A sheet has its blanks, its ruled lines, its size of paper and its foot, and is well-formed.
func TestHandout(t *testing.T) {
	got := written(t, handout())
	for text, n := range map[string]int{
		"<p>Name <i></i></p>": 1, "Date &amp; place": 1, "size: letter": 1, "<footer>": 1, working.Caution: 1, `<body class="compact footed">`: 1,
		`<div class="lines" aria-hidden="true"><i></i><i></i><i></i></div>`: 1, // the answer is on the fourth
		`<div class="lines" aria-hidden="true"><i></i><i></i></div>`:        1,
		`<th scope="row">000</th><td>2°W</td>`:                              1, "<td></td><td>&lt;b&gt;</td>": 1,
	} {
		if strings.Count(got, text) != n {
			t.Errorf("%q stands %d times, want %d", text, strings.Count(got, text), n)
		}
	}
	d := xml.NewDecoder(strings.NewReader(got))
	for {
		if _, err := d.Token(); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			t.Fatal(err)
		}
	}
	if markdown := handout().Markdown(); !strings.Contains(markdown, "| 000 | 2°W |\n| 090 |  |\n") || !strings.Contains(markdown, "Seed 7\n") {
		t.Error(markdown)
	}
}

// What can't be printed is refused.
func TestHandoutFaults(t *testing.T) {
	for name, change := range map[string]func(*page.Page){
		"size":       func(p *page.Page) { p.Size = "A0" },
		"long row":   func(p *page.Page) { p.Parts[0].Tables[0].Rows[0] = []string{"1", "2", "3"} },
		"many lines": func(p *page.Page) { p.Parts[1].Lines = 101 },
		"no lines":   func(p *page.Page) { p.Parts[1].Lines = -1 },
	} {
		p := handout()
		change(&p)
		var b bytes.Buffer
		err := page.Write(&b, p)
		if _, ok := errors.AsType[*page.Error](err); !ok || b.Len() > 0 {
			t.Errorf("%s: %v, %d bytes", name, err, b.Len())
		}
	}
}

// The name of a table that is the heading above it is not shown twice, but is kept for screen
// readers.
func TestNameOfTableIsShownOnce(t *testing.T) {
	sheet := &working.Sheet{Steps: working.Steps{{What: "a", Value: "b"}}}
	titled := &working.Sheet{Title: "Course", Steps: sheet.Steps}
	var b strings.Builder
	if err := page.Write(&b, page.Page{Parts: []page.Part{
		{Heading: "Leg 1", Sheet: sheet, Tables: []page.Table{{Caption: "Card"}, {Caption: " Leg  1"}}},
		{Heading: "Leg 2", Sheet: titled}, {Sheet: sheet},
	}}); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		`<caption class="heard" id="table-1">Leg 1</caption>`, `<caption id="table-2">Card</caption>`, `<caption class="heard" id="table-3">Leg 1</caption>`,
		`<caption id="table-4">Course</caption>`, `<caption id="table-5">Working</caption>`,
	} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("no %s", want)
		}
	}
}
