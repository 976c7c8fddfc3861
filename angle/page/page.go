package page

import (
	"bytes"
	"fmt"
	"io"

	"lubberline.example/angle/internal/oneline"
	"lubberline.example/angle/working"
)

// A Page is a document of worked problems, to be read on a screen or printed.
type Page struct {
	// Title stands at the head of the page. Left out it is "Working".
	Title string

	// Language is that of the texts, as a tag such as "en" or "pt-BR". Left out it
	// is "en". The page's few words of its own are English, and marked so.
	Language string

	// Parts are the sections, in order. There may be none.
	Parts []Part
}

// A Part is a section of a page. What is left out of it does not show.
type Part struct {
	Heading string         // plain text, of the second level
	Text    []string       // paragraphs, plain text
	Sheet   *working.Sheet // the working; nil for none

	// Figure is a drawing as SVG. It may hold shapes, text, what they are painted with,
	// and references within itself. Any other element or attribute is refused: scripts,
	// style sheets, animation, links, images, HTML. Comments are left out. Its ids get the figure's number before
	// them, so that they are unique on the page, and the page style by which a drawing
	// of package drawing prints on one sheet is taken out.
	Figure string

	// FigureText says in words what the figure shows, for those who can't see it.
	// A figure must have one.
	FigureText string
}

// A Error reports a page that can't be written.
type Error struct {
	Part   int    // counted from 1; 0 for the page itself
	Reason string // what is wrong, and what would do
	Err    error  // of the XML of a figure, or nil
}

// Error says what is wrong, and in which part.
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

// Unwrap returns what is wrong with the XML of a figure.
func (e *Error) Unwrap() error { return e.Err }

// Write writes a page as one HTML file that needs no other: no scripts, no
// fonts or pictures from elsewhere. It can be read from 320 pixels of width on,
// printed on A4, and followed with a screen reader. The file is well-formed XML
// too. Texts are plain text, whatever they hold. The same page is always the same
// bytes.
//
// It writes all or nothing, in one call. It returns an [*Error] for a nil writer, a language
// that is not a tag, a figure without FigureText, and a figure that is not one
// well-formed svg element, that holds more than shapes and text, or that has more
// than 16 MiB or more than 1000 elements within each other; and the writer's error
// unchanged.
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
	// Should a figure ask for something after all, the browser won't fetch it.
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

// isLanguage reports whether a text has the form of a language tag: parts of 1 to
// 8 letters and digits, the first of 2 letters or more and no digits.
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

// pageStyle is how the page looks. It has no & and no <, which would be marks in
// XML. All text is darker than #333 on white, a contrast of 12 to 1.
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
