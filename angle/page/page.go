package page

import (
	"bytes"
	"fmt"
	"io"

	"lubberline.example/angle/internal/oneline"
	"lubberline.example/angle/working"
)

// A Page is a document of worked problems.
type Page struct {
	// Title is the heading of the page. If empty, it is "Working".
	Title string

	// Language is the language of your texts, as a tag such as "en" or "pt-BR". If empty,
	// it is "en". The package adds a few words, which are English and marked as English.
	Language string

	// Parts are the sections, in order. A page may have none.
	Parts []Part

	Size    Size     // of the paper to print on; A4 if empty
	Compact bool     // small type and little space, for a sheet to hand out
	Fields  []string // labels of blanks to fill in by hand, below the title: "Name"

	// Foot and Caution stand at the end of the page on a screen, and at the foot of each
	// sheet on paper.
	Foot    string
	Caution string
}

// A Part is a section of a page. Empty fields are not shown.
type Part struct {
	Heading string         // plain text, a heading of the second level
	Text    []string       // paragraphs of plain text
	Sheet   *working.Sheet // the working, or nil
	Tables  []Table        // side by side where there is room

	// Lines is the number of ruled lines to write on, at most 100. Fields are the
	// labels of blanks to fill in by hand, such as "Answer". The blanks stand at the end of
	// the last line.
	Lines  int
	Fields []string

	// Figure is a drawing as SVG. It may have shapes, text, paints and references within
	// itself. Write returns an error for any other element or attribute, such as scripts,
	// style sheets, animation, links, images and HTML.
	//
	// Write removes comments, and the page size and the dark scheme that package drawing
	// sets: a page is black on white. It puts the number of the figure before each id, so that
	// ids are unique on the page.
	Figure string

	// FigureText says in words what the figure shows, for people who can't see it. It is
	// required if there is a figure.
	FigureText string
}

// An Error reports a page that can't be written.
type Error struct {
	Part   int    // from 1; 0 for the page itself
	Reason string // what is wrong, and what is accepted
	Err    error  // what is wrong with the XML of a figure, or nil
}

// Error returns the reason and the number of the part.
func (e *Error) Error() string {
	text := "page: " + e.Reason
	if e.Part > 0 {
		text = fmt.Sprintf("page: part %d: %s", e.Part, e.Reason)
	}
	if e.Err != nil {
		text += fmt.Sprintf(": %.300v", e.Err) // it may name an element as long as the figure
	}
	return text
}

// Unwrap returns e.Err.
func (e *Error) Unwrap() error { return e.Err }

// Write writes a page as a single HTML file, without scripts and without files from
// elsewhere. It fits screens from 320 pixels wide and paper of p.Size, and works with a
// screen reader. The file is also well-formed XML. Texts are plain text, and are escaped.
// The same page always gives the same bytes.
//
// Write writes the whole page in one call of w.Write, or nothing. It returns the writer's
// error unchanged. It returns an [*Error] if w is nil, if Language is not a language
// tag, or if Size is unknown. It also returns one for a table with a row that is longer
// than its columns, and for more than 100 lines. It returns one if a figure has no
// FigureText or is invalid. A valid figure is one well-formed svg element with only shapes
// and text. It has at most 16 MiB, and at most 1000 nested elements.
func Write(w io.Writer, p Page) error {
	if w == nil {
		return &Error{Reason: "the writer is nil: give one such as a file"}
	}
	if p.Title = oneline.Of(p.Title); p.Title == "" {
		p.Title = "Working"
	}
	if p.Language == "" {
		p.Language = "en"
	}
	if !isLanguage(p.Language) {
		return &Error{Reason: fmt.Sprintf("language %.40q is not a language tag: write one such as en or pt-BR", p.Language)}
	}
	size, ok := sizes[p.Size]
	if !ok {
		return &Error{Reason: fmt.Sprintf("size of paper %.40q is unknown: give %s or %s", p.Size, A4, Letter)}
	}
	if p.Compact {
		size += compactMargins
	}
	h := &htmlPage{title: p.Title, own: ownWords(p.Language)}
	h.line(`<!DOCTYPE html>`)
	h.line(`<html lang="%s">`, p.Language)
	h.line(`<head>`)
	h.line(`<meta charset="utf-8"/>`)
	h.line(`<meta name="viewport" content="width=device-width, initial-scale=1"/>`)
	// If a figure still refers to another file, the browser does not load it.
	h.line(`<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'"/>`)
	h.line(`<title>%s</title>`, p.Title)
	h.line(`<style>%s</style>`, trusted(pageStyle+size))
	h.line(`</head>`)
	h.line(`<body%s>`, bodyClass(p))
	h.line(`<main>`)
	h.line(`<h1>%s</h1>`, p.Title)
	h.fields(p.Fields)
	for i, part := range p.Parts {
		if err := h.part(i+1, part); err != nil {
			return err
		}
	}
	h.line(`</main>`)
	h.foot(p.Foot, p.Caution)
	h.line(`</body>`)
	h.line(`</html>`)
	_, err := w.Write(h.Bytes())
	return err
}

// isLanguage reports whether a text has the form of a language tag: parts of 1 to 8
// letters and digits. The first part has at least 2 letters and no digits.
func isLanguage(tag string) bool {
	for i, part := range bytes.Split([]byte(tag), []byte("-")) {
		if len(part) < 1 || len(part) > 8 || i == 0 && len(part) < 2 {
			return false
		}
		for _, c := range part {
			letter := 'a' <= c|0x20 && c|0x20 <= 'z'
			if !letter && (i == 0 || c < '0' || c > '9') {
				return false
			}
		}
	}
	return true
}
