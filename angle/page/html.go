package page

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"html"
	"io"
	"regexp"
	"strings"

	"lubberline.example/angle/internal/oneline"
	"lubberline.example/angle/working"
)

// An htmlPage is the HTML of a page. To be well-formed XML, it closes all elements and
// escapes texts without named entities.
type htmlPage struct {
	bytes.Buffer
	title   string
	own     string // the attribute of the words that the package adds
	tables  int
	figures int
}

// trusted is a text that is written as it is.
type trusted string

// line writes elements on their own line, and escapes texts.
func (h *htmlPage) line(format string, args ...any) {
	for i, a := range args {
		if text, ok := a.(string); ok {
			args[i] = html.EscapeString(oneline.Of(text))
		}
	}
	fmt.Fprintf(h, format, args...)
	h.WriteByte('\n')
}

// ownWords returns the attribute of English words on a page in a language.
func ownWords(language string) string {
	if first, _, _ := strings.Cut(language, "-"); strings.EqualFold(first, "en") {
		return ""
	}
	return ` lang="en"`
}

// part writes a part of the page.
func (h *htmlPage) part(n int, p Part) error {
	if heading := oneline.Of(p.Heading); heading != "" {
		h.line(`<section%s aria-labelledby="part-%d">`, classIf(p.Lines > 0, "one"), n)
		h.line(`<h2 id="part-%d">%s</h2>`, n, heading)
		defer h.line(`</section>`)
	}
	for _, text := range p.Text {
		if oneline.Of(text) != "" {
			h.line(`<p>%s</p>`, text)
		}
	}
	if p.Sheet != nil {
		h.sheet(*p.Sheet, p.Heading)
	}
	if err := h.tablesOf(p.Tables, p.Heading); err != nil {
		return &Error{Part: n, Reason: err.Error()}
	}
	if p.Lines < 0 || p.Lines > maxLines {
		return &Error{Part: n, Reason: fmt.Sprintf("%d ruled lines: give from 0 to %d", p.Lines, maxLines)}
	}
	if lines := p.Lines; lines > 0 && len(p.Fields) > 0 {
		h.ruled(lines - 1) // the blanks stand at the end of the last
	} else {
		h.ruled(lines)
	}
	h.fields(p.Fields)
	if strings.TrimSpace(p.Figure) == "" {
		return nil
	}
	if oneline.Of(p.FigureText) == "" {
		return &Error{Part: n, Reason: "the figure has no text that says what it shows: set FigureText"}
	}
	h.figures++
	figure, err := svgElement(p.Figure, fmt.Sprintf("figure-%d-", h.figures))
	if err != nil {
		return &Error{Part: n, Reason: "the figure can't be shown", Err: err}
	}
	h.line(`<figure>`)
	h.line(`<div role="img" aria-label="%s">`, p.FigureText)
	h.line(`%s`, trusted(figure))
	h.line(`</div>`)
	h.line(`<figcaption><span%s>Figure</span> %d. %s</figcaption>`, trusted(h.own), h.figures, h.named(p.Heading))
	h.line(`</figure>`)
	return nil
}

// named returns the first name that is not empty, or the title of the page.
func (h *htmlPage) named(names ...string) string {
	for _, n := range names {
		if n = oneline.Of(n); n != "" {
			return n
		}
	}
	return h.title
}

// sheet writes a working. The title becomes the caption of the table.
func (h *htmlPage) sheet(s working.Sheet, heading string) {
	switch {
	case len(s.Steps) > 0:
		h.table(s.Steps, h.named(s.Title, heading), heading)
	case oneline.Of(s.Title) != "":
		h.line(`<p class="name">%s</p>`, s.Title)
	}
	if len(s.Warnings) > 0 {
		h.line(`<ul class="warnings">`)
		for _, w := range s.Warnings {
			h.line(`<li><strong%s>Warning:</strong> %s</li>`, trusted(h.own), w.Message)
		}
		h.line(`</ul>`)
	}
	if caution := oneline.Of(s.Caution); caution != "" {
		h.line(`<p class="caution"%s>%s</p>`, h.ofCaution(caution), caution)
	}
}

// table writes the steps. On a narrow screen the table scrolls by itself, also with the
// keyboard.
func (h *htmlPage) table(steps working.Steps, caption, heading string) {
	h.tables++
	h.line(`<div class="scroll" role="group" aria-labelledby="table-%d" tabindex="0">`, h.tables)
	h.line(`<table>`)
	h.caption(caption, heading)
	h.line(`<thead><tr%s><th scope="col">What</th><th scope="col" class="value">Value</th><th scope="col">How</th></tr></thead>`, trusted(h.own))
	h.line(`<tbody>`)
	for _, step := range steps {
		what := fmt.Sprintf(`<th scope="row">%s</th>`, html.EscapeString(oneline.Of(step.What)))
		if oneline.Of(step.What) == "" {
			what = `<td></td>` // no heading for the row
		}
		h.line(`<tr>%s<td class="value">%s</td><td>%s</td></tr>`, trusted(what), step.Value, step.How)
	}
	h.line(`</tbody>`)
	h.line(`</table>`)
	h.line(`</div>`)
}

// caption writes the name of a table. A name that is the heading above it is for screen readers alone.
func (h *htmlPage) caption(name, heading string) {
	h.line(`<caption%s id="table-%d">%s</caption>`, classIf(oneline.Of(name) == oneline.Of(heading), "heard"), h.tables, name)
}

// The limits of a figure.
const (
	maxFigure = 16 << 20 // bytes
	maxDepth  = 1000     // elements within elements
)

// svgElement returns the svg element of a drawing, with a prefix before its ids. It returns
// an error if the element needs another file. It also returns one if the element is not
// well-formed, since it could then take in the rest of the page.
func svgElement(figure, prefix string) (string, error) {
	if len(figure) > maxFigure {
		return "", fmt.Errorf("the figure has %d bytes: make it at most %d MiB", len(figure), maxFigure>>20)
	}
	figure = sheetStyle.ReplaceAllLiteralString(figure, "")
	d := xml.NewDecoder(strings.NewReader(figure))
	var first, last int64
	var element strings.Builder
	written := int64(0) // the offset up to which element has the figure
	for depth := 0; ; {
		at := d.InputOffset()
		token, err := d.Token()
		if errors.Is(err, io.EOF) && last > 0 {
			element.WriteString(figure[written:last])
			return element.String(), nil
		}
		if err != nil {
			return "", err
		}
		switch t := token.(type) {
		case xml.StartElement:
			if depth == 0 && (t.Name.Local != "svg" || last > 0) {
				return "", fmt.Errorf("the figure has a <%.60s> outside its svg element: write one svg element", t.Name.Local)
			}
			if depth == 0 {
				first = at
				written = first
			}
			if hasID(t) {
				element.WriteString(figure[written:at])
				element.WriteString(withPrefix(figure[at:d.InputOffset()], prefix))
				written = d.InputOffset()
			}
			if err := allowed(t); err != nil {
				return "", err
			}
			if depth++; depth > maxDepth {
				return "", fmt.Errorf("the figure has more than %d nested elements, the maximum: use fewer", maxDepth)
			}
		case xml.EndElement:
			if depth--; depth == 0 {
				last = d.InputOffset()
			}
		case xml.Directive, xml.ProcInst:
			if depth > 0 { // such as a <!DOCTYPE> within the page
				return "", errors.New("the svg element has a directive or a processing instruction: remove it")
			}
		case xml.Comment:
			// In HTML a comment may end sooner than in XML: <!--> is a whole comment.
			if depth > 0 {
				element.WriteString(figure[written:at])
				written = d.InputOffset()
			}
		case xml.CharData:
			if depth == 0 && len(bytes.TrimSpace(t)) > 0 {
				return "", errors.New("the figure has text outside its svg element: remove it")
			}
			if strings.HasPrefix(figure[at:], "<![CDATA[") {
				return "", errors.New("the figure has a CDATA section: write escaped text")
			}
		}
	}
}

// sheetStyle matches the styles in which package drawing sets the page size, and turns black
// and white round on a dark screen. In an HTML page the first would set the size of the whole
// page. The page is white on every screen.
var sheetStyle = regexp.MustCompile(`<style>@media screen and \(prefers-color-scheme:dark\)\{\.lubberline-figure\{filter:[a-z0-9(). -]+\}\}</style>\n?|<style>@page\{size:[0-9.]+mm [0-9.]+mm;margin:0\}@media print\{svg:root\{height:[0-9.]+mm\}(?:svg:root>[a-z.*]+\{[a-z0-9:;(). ,-]+\})*\}</style>\n?`)

// The ids in a tag: an id, a reference to an id, and lists of ids.
var (
	ownID       = regexp.MustCompile(`(?i)(\s(?:xml:)?id\s*=\s*["']\s*)`)
	reference   = regexp.MustCompile(`(?i)(\shref\s*=\s*["']\s*#|:href\s*=\s*["']\s*#|url\(\s*(?:"|'|&quot;|&#34;|&apos;|&#39;)?#)`)
	listOfIDs   = regexp.MustCompile(`(?i)\saria-[a-z]+\s*=\s*(?:"[^"]*"|'[^']*')`)
	idListNames = regexp.MustCompile(`(?i)^\saria-(activedescendant|controls|describedby|details|errormessage|flowto|labelledby|owns)\s*=\s*`)
)

// hasID reports whether an attribute may be an id or refer to one.
func hasID(e xml.StartElement) bool {
	for _, a := range e.Attr {
		if name := strings.ToLower(a.Name.Local); name == "id" || strings.HasPrefix(name, "aria-") || strings.Contains(a.Value, "#") {
			return true
		}
	}
	return false
}

// withPrefix puts a prefix before each id in a tag, and before each reference to an id.
func withPrefix(tag, prefix string) string {
	tag = ownID.ReplaceAllString(tag, "${1}"+prefix)
	tag = reference.ReplaceAllString(tag, "${1}"+prefix)
	return listOfIDs.ReplaceAllStringFunc(tag, func(attribute string) string {
		name := idListNames.FindString(attribute)
		if name == "" {
			return attribute
		}
		quote := attribute[len(name):][:1]
		ids := strings.Fields(strings.Trim(attribute[len(name):], quote))
		for i := range ids {
			ids[i] = prefix + ids[i]
		}
		return name + quote + strings.Join(ids, " ") + quote
	})
}
