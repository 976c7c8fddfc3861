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
}

// A Part is a section of a page. Empty fields are not shown.
type Part struct {
	Heading string         // plain text, a heading of the second level
	Text    []string       // paragraphs of plain text
	Sheet   *working.Sheet // the working, or nil

	// Figure is a drawing as SVG. It may have shapes, text, paints and references within
	// itself. Write returns an error for any other element or attribute, such as scripts,
	// style sheets, animation, links, images and HTML.
	//
	// Write removes comments, and the page size that package drawing sets. It puts the
	// number of the figure before each id, so that ids are unique on the page.
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
// elsewhere. It fits screens from 320 pixels wide and paper of size A4, and works with a
// screen reader. The file is also well-formed XML. Texts are plain text, and are escaped.
// The same page always gives the same bytes.
//
// Write writes the whole page in one call of w.Write, or nothing. It returns the writer's
// error unchanged. It returns an [*Error] if w is nil, or if Language is not a language
// tag. It also returns one if a figure has no FigureText or is invalid. A valid figure is
// one well-formed svg element with only shapes and text. It has at most 16 MiB, and at
// most 1000 nested elements.
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
	h := &htmlPage{title: p.Title, own: ownWords(p.Language)}
	h.line(`<!DOCTYPE html>`)
	h.line(`<html lang="%s">`, p.Language)
	h.line(`<head>`)
	h.line(`<meta charset="utf-8"/>`)
	h.line(`<meta name="viewport" content="width=device-width, initial-scale=1"/>`)
	// If a figure still refers to another file, the browser does not load it.
	h.line(`<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'"/>`)
	h.line(`<title>%s</title>`, p.Title)
	h.line(`<style>%s</style>`, trusted(pageStyle))
	h.line(`</head>`)
	h.line(`<body>`)
	h.line(`<main>`)
	h.line(`<h1>%s</h1>`, p.Title)
	for i, part := range p.Parts {
		if err := h.part(i+1, part); err != nil {
			return err
		}
	}
	h.line(`</main>`)
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

// pageStyle is the style sheet of the page. It has no & and no <, which XML reserves. All
// text is #333 or darker on white, a contrast of at least 12 to 1.
const pageStyle = `
*, *::before, *::after { box-sizing: border-box; }
html { background: #fff; color: #111; font: 100%/1.5 "DejaVu Sans", Verdana, sans-serif; -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body { margin: 0; }
main { max-width: 50rem; margin: 0 auto; padding: 1rem; overflow-wrap: anywhere; }
h1, h2 { line-height: 1.25; margin: 0; }
h1 { font-size: 1.6rem; padding-bottom: 0.4rem; border-bottom: 3px double #111; }
h2 { font-size: 1.2rem; margin-top: 2rem; }
p, ul, figure { margin: 0.8rem 0; }
.scroll { margin: 0.8rem 0; overflow-x: auto; }
.scroll:focus { outline: 3px solid #003a8c; outline-offset: 2px; }
table { width: 100%; border-collapse: collapse; }
caption { text-align: left; font-weight: bold; padding: 0.2rem 0 0.4rem; }
th, td { text-align: left; vertical-align: top; padding: 0.35rem 0.4rem; border-bottom: 1px solid #767676; overflow-wrap: break-word; }
thead th { border-top: 2px solid #111; border-bottom: 2px solid #111; }
tbody th { font-weight: normal; }
th:first-child, td:first-child { padding-left: 0; }
th:last-child, td:last-child { padding-right: 0; }
.value { text-align: right; font-variant-numeric: tabular-nums; }
.name { font-weight: bold; }
.warnings { padding-left: 0.8rem; border-left: 4px solid #111; list-style: none; }
.caution { font-style: italic; color: #333; }
figure div > svg { display: block; max-width: 100%; height: auto; margin: 0 auto; }
figcaption { margin-top: 0.4rem; text-align: center; color: #333; }
@media (max-width: 30rem) {
main { padding: 0.8rem; }
table { font-size: 0.875rem; }
th, td { padding: 0.3rem 0.25rem; }
}
@media print, (min-width: 40rem) {
th:first-child { width: 28%; }
}
@page { size: A4; margin: 18mm 16mm; }
@media print {
html { font-size: 10.5pt; }
main { max-width: none; padding: 0; }
h1, h2, caption { break-after: avoid; }
tr, li, figure, .caution { break-inside: avoid; }
p { orphans: 3; widows: 3; }
thead { display: table-header-group; }
.scroll { overflow: visible; }
th, td { overflow-wrap: anywhere; }
thead th, .value { overflow-wrap: break-word; }
figure div > svg { max-height: 235mm; }
}
`
