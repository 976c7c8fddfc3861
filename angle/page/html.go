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

// An htmlPage is a page as it is written. Its elements are all closed, and its
// texts escaped without named entities, so that it is well-formed XML.
type htmlPage struct {
	bytes.Buffer
	title   string
	own     string // the attribute of the page's own words
	tables  int
	figures int
}

// trusted is a text that is written as it is.
type trusted string

// line writes elements on a line of their own, with texts escaped.
func (h *htmlPage) line(format string, args ...any) {
	for i, a := range args {
		if text, ok := a.(string); ok {
			args[i] = html.EscapeString(oneline.Of(text))
		}
	}
	fmt.Fprintf(h, format, args...)
	h.WriteByte('\n')
}

// ownWords is the attribute of English words on a page in a language.
func ownWords(language string) string {
	if first, _, _ := strings.Cut(language, "-"); strings.EqualFold(first, "en") {
		return ""
	}
	return ` lang="en"`
}

// part writes a part of the page.
func (h *htmlPage) part(n int, p Part) error {
	if heading := oneline.Of(p.Heading); heading != "" {
		h.line(`<section aria-labelledby="part-%d">`, n)
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
	if strings.TrimSpace(p.Figure) == "" {
		return nil
	}
	if oneline.Of(p.FigureText) == "" {
		return &Error{Part: n, Reason: "the figure has no text that says what it shows"}
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

// named is the first of some names that there is, or the title of the page.
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
		h.table(s.Steps, h.named(s.Title, heading))
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
		own := trusted("")
		if s.Caution == working.Caution {
			own = trusted(h.own)
		}
		h.line(`<p class="caution"%s>%s</p>`, own, caution)
	}
}

// table writes the steps. Words that are too long for a narrow screen are reached
// by scrolling the table alone, with the keyboard too.
func (h *htmlPage) table(steps working.Steps, caption string) {
	h.tables++
	h.line(`<div class="scroll" role="group" aria-labelledby="table-%d" tabindex="0">`, h.tables)
	h.line(`<table>`)
	h.line(`<caption id="table-%d">%s</caption>`, h.tables, caption)
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

// Bounds of a figure, far beyond any drawing of a working.
const (
	mostFigure = 16 << 20 // bytes
	mostDepth  = 1000     // elements within elements
)

// svgElement is the svg element of a drawing, without what stands before and after
// it. It must be well-formed, or the rest of the page would be read as a part of
// it, and need nothing from elsewhere. The prefix is set before its ids.
func svgElement(figure, prefix string) (string, error) {
	if len(figure) > mostFigure {
		return "", fmt.Errorf("%d bytes: want at most %d MiB", len(figure), mostFigure>>20)
	}
	figure = sheetStyle.ReplaceAllLiteralString(figure, "")
	d := xml.NewDecoder(strings.NewReader(figure))
	var first, last int64
	var element strings.Builder
	written := int64(0) // up to where the figure stands in element
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
				return "", fmt.Errorf("want one svg element, got <%.60s>", t.Name.Local)
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
			if depth++; depth > mostDepth {
				return "", fmt.Errorf("more than %d elements within each other", mostDepth)
			}
		case xml.EndElement:
			if depth--; depth == 0 {
				last = d.InputOffset()
			}
		case xml.Directive, xml.ProcInst:
			if depth > 0 { // a <!DOCTYPE> in the midst of the page, say
				return "", errors.New("a directive or a processing instruction within the svg element")
			}
		case xml.Comment:
			// A browser may end a comment of HTML before XML does: <!--> is a whole one.
			if depth > 0 {
				element.WriteString(figure[written:at])
				written = d.InputOffset()
			}
		case xml.CharData:
			if depth == 0 && len(bytes.TrimSpace(t)) > 0 {
				return "", errors.New("text outside of the svg element")
			}
			if strings.HasPrefix(figure[at:], "<![CDATA[") {
				return "", errors.New("a CDATA section: want its text escaped")
			}
		}
	}
}

// sheetStyle is the style by which a drawing of package drawing sets the page it is
// printed on. On a page of HTML it would set that page's.
var sheetStyle = regexp.MustCompile(`<style>@page\{size:[0-9.]+mm [0-9.]+mm;margin:0\}@media print\{svg:root\{height:[0-9.]+mm\}\}</style>\n?`)

// What in a tag names ids: an id, a reference to one, and lists of them.
var (
	ownID       = regexp.MustCompile(`(?i)(\s(?:xml:)?id\s*=\s*["']\s*)`)
	reference   = regexp.MustCompile(`(?i)(\shref\s*=\s*["']\s*#|:href\s*=\s*["']\s*#|url\(\s*(?:"|'|&quot;|&#34;|&apos;|&#39;)?#)`)
	listOfIDs   = regexp.MustCompile(`(?i)\saria-[a-z]+\s*=\s*(?:"[^"]*"|'[^']*')`)
	idListNames = regexp.MustCompile(`(?i)^\saria-(activedescendant|controls|describedby|details|errormessage|flowto|labelledby|owns)\s*=\s*`)
)

// hasID reports whether an attribute may be an id or name one.
func hasID(e xml.StartElement) bool {
	for _, a := range e.Attr {
		if name := strings.ToLower(a.Name.Local); name == "id" || strings.HasPrefix(name, "aria-") || strings.Contains(a.Value, "#") {
			return true
		}
	}
	return false
}

// withPrefix sets a prefix before each id that a tag has or names.
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
