package page_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"flag"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/angle/page"
	"lubberline.example/angle/working"
)

var update = flag.Bool("update", false, "write the pages to testdata as they are now; then look at them")

// golden compares a text with the one kept in testdata.
func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.MkdirAll("testdata", 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s is otherwise now:\n%s", path, got)
	}
}

// hostile are texts that try to leave their place.
var hostile = []string{
	`<script>alert(1)</script>`, `</title></style><img src=x onerror=alert(1)>`, `"' onmouseover="x`, `a & b &amp; &#60;`,
	"one\ntwo\r\n\r\n# three\t|four|", `*bold* _it_ [a](javascript:x) ![i](x) <b> | \| \\ ` + "`code` ~~no~~ $x$", "\x00\x1b\xff\ufffe", "]]>",
	strings.Repeat("Sankt-Orlesk-im-Nebel", 40), strings.Repeat("very long ", 300), "-->", "{{.}}", "## head ##",
}

// marked is a sheet with a text in all its places.
func marked(text string) working.Sheet {
	return working.Sheet{Title: text, Steps: working.Steps{{What: text, Value: text, How: text}}, Warnings: []working.Warning{{Message: text}}, Caution: text}
}

// leg is the working of an invented leg.
func leg() working.Steps {
	return working.Steps{
		working.Direction("true course", "True course", angle.TrueFrom(104*angle.Degree+15*angle.Minute)).Because("from-the-chart", "from the chart"),
		working.EastWest("variation", "Variation", -(4*angle.Degree+15*angle.Minute)).Because("from-rose", "rose off Orlesk Head"),
		working.Direction("magnetic course", "Magnetic course", angle.MagneticFrom(108*angle.Degree+30*angle.Minute)).Because("variation-west", "variation is west: magnetic is greater than true"),
	}
}

const aLine = `<svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="20mm" viewBox="0 0 40 20"><title>A line</title><line x1="2" y1="10" x2="38" y2="10" stroke="black"/></svg>`

func legs() page.Page {
	sheet := working.Sheet{Title: "Orlesk Head to Minnow Ledge", Steps: append(leg(), working.Step{How: "a remark"}), Warnings: []working.Warning{{Kind: "old-rose", Message: "the rose is old"}, {Message: "no deviation"}}, Caution: working.Caution}
	short := working.Sheet{Steps: leg()[:1]}
	return page.Page{Title: "Worked legs of the Quillon", Parts: []page.Part{
		{Text: []string{"Two legs off the coast of Orlesk.", "All figures are invented."}},
		{Heading: "The first leg", Text: []string{"From the chart to the compass."}, Sheet: &sheet, Figure: aLine + "\n", FigureText: "A line from west to east."},
		{Heading: "The second leg", Sheet: &short},
		{Sheet: &working.Sheet{Title: "No steps"}},
		{},
	}}
}

func written(t *testing.T, p page.Page) string {
	t.Helper()
	var b bytes.Buffer
	if err := page.Write(&b, p); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// An element is one of a page that was read back.
type element struct {
	name string
	attr map[string]string
	text string // all of it
}

// elements reads a page as XML, which it is too, in document order.
func elements(t *testing.T, text string) []*element {
	t.Helper()
	var all, open []*element
	d := xml.NewDecoder(strings.NewReader(text))
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return all
		}
		if err != nil {
			t.Fatalf("%v in\n%s", err, text)
		}
		switch token := token.(type) {
		case xml.StartElement:
			e := &element{name: token.Name.Local, attr: map[string]string{}}
			for _, a := range token.Attr {
				e.attr[a.Name.Local] = a.Value
			}
			all, open = append(all, e), append(open, e)
		case xml.EndElement:
			open = open[:len(open)-1]
		case xml.CharData:
			for _, e := range open {
				e.text += string(token)
			}
		}
	}
}

func named(all []*element, name string) []*element {
	return slices.DeleteFunc(slices.Clone(all), func(e *element) bool { return e.name != name })
}

func TestPagesAreAsKept(t *testing.T) {
	golden(t, "page.html", written(t, legs()))
	golden(t, "page-empty.html", written(t, page.Page{}))
	first := written(t, legs())
	if again := written(t, legs()); again != first {
		t.Error("the same page twice is not the same")
	}
}

func TestAPageIsAccessible(t *testing.T) {
	all := elements(t, written(t, legs()))
	if html := named(all, "html"); len(html) != 1 || html[0].attr["lang"] != "en" {
		t.Error("no language")
	}
	if h1 := named(all, "h1"); len(h1) != 1 || h1[0].text != "Worked legs of the Quillon" || named(all, "title")[0].text != h1[0].text {
		t.Error("not one heading of the first level, that is the title")
	}
	ids := map[string]*element{}
	for _, e := range all {
		if id := e.attr["id"]; id != "" {
			if ids[id] != nil {
				t.Errorf("id %s twice", id)
			}
			ids[id] = e
		}
	}
	for _, e := range all {
		if id, ok := e.attr["aria-labelledby"]; ok && (ids[id] == nil || ids[id].text == "") {
			t.Errorf("%s is named by %q, which is nothing", e.name, id)
		}
		if e.name == "th" && e.attr["scope"] == "" {
			t.Errorf("a heading %q without a scope", e.text)
		}
	}
	if n, m := len(named(all, "table")), len(named(all, "caption")); n != 2 || m != n {
		t.Errorf("%d tables, %d captions", n, m)
	}
	if c := named(all, "caption"); c[0].text != "Orlesk Head to Minnow Ledge" || c[1].text != "The second leg" {
		t.Errorf("captions %q, %q", c[0].text, c[1].text)
	}
	figures := slices.DeleteFunc(named(all, "div"), func(e *element) bool { return e.attr["role"] != "img" })
	if len(figures) != 1 || figures[0].attr["aria-label"] != "A line from west to east." {
		t.Error("the figure has no text")
	}
	if c := named(all, "figcaption"); len(c) != 1 || c[0].text != "Figure 1. The first leg" {
		t.Error("the figure has no caption")
	}
}

func TestAPageNeedsNothingElse(t *testing.T) {
	text := written(t, legs())
	for _, e := range elements(t, text) {
		for name := range e.attr {
			if name == "src" || name == "href" || strings.HasPrefix(name, "on") || e.name == "script" || e.name == "link" {
				t.Errorf("<%s %s>", e.name, name)
			}
		}
	}
	if regexp.MustCompile(`url\(|@import`).MatchString(text) {
		t.Error("the style needs another file")
	}
}

// With any text, the page has the same elements as with a harmless text.
func TestNoTextLeavesItsPlaceOnAPage(t *testing.T) {
	build := func(text string) []*element {
		sheet := marked(text)
		return elements(t, written(t, page.Page{Title: text, Parts: []page.Part{{Heading: text, Text: []string{text}, Sheet: &sheet, Figure: aLine, FigureText: text + "."}}}))
	}
	plain := build("plain")
	for _, text := range hostile {
		if text == "\x00\x1b\xff\ufffe" {
			text += "x"
		}
		got := build(text)
		for i, e := range plain {
			if i >= len(got) || got[i].name != e.name || len(got[i].attr) != len(e.attr) {
				t.Fatalf("%.60q: element %d is no %s", text, i, e.name)
			}
		}
		if want := strings.Join(strings.Fields(text), " "); !strings.ContainsAny(text, "\x00") && named(got, "h1")[0].text != want {
			t.Errorf("%.60q reads back as %.60q", want, named(got, "h1")[0].text)
		}
	}
}

func TestWordsOfThePageAreEnglish(t *testing.T) {
	p := legs()
	p.Language = "pt-BR"
	text := written(t, p)
	for _, want := range []string{`<html lang="pt-BR">`, `<strong lang="en">Warning:</strong>`, `<tr lang="en"><th`, `<span lang="en">Figure</span>`, `<p class="caution" lang="en">`} {
		if !strings.Contains(text, want) {
			t.Errorf("no %s", want)
		}
	}
	// Tags with a part of one letter or of figures, from RFC 5646, appendix A (from memory).
	for _, tag := range []string{"de-CH-x-phonebk", "az-Arab-x-AZE-derbend", "de-CH-1901", "en-a-myext-b-another"} {
		if p.Language = tag; !strings.Contains(written(t, p), `<html lang="`+tag+`">`) {
			t.Errorf("no %s", tag)
		}
	}
	p.Language = "EN-gb"
	if strings.Contains(written(t, p), `lang="en"`) {
		t.Error("English marked on an English page")
	}
}

func TestPagesThatAreRefused(t *testing.T) {
	with := func(figure, text string) page.Page {
		return page.Page{Parts: []page.Part{{Heading: "fine"}, {Figure: figure, FigureText: text}}}
	}
	svg := func(inside string) page.Page { return with("<svg>"+inside+"</svg>", "text") }
	for name, c := range map[string]struct {
		doc  page.Page
		part int
		want string
	}{
		"language":      {page.Page{Language: `en" x="`}, 0, "language tag"},
		"one letter":    {page.Page{Language: "e"}, 0, "language tag"},
		"ends in -":     {page.Page{Language: "en-"}, 0, "language tag"},
		"no text":       {with(aLine, " \n"), 2, "no text"},
		"no svg":        {with("<p>x</p>", "text"), 2, "<p> outside its svg element"},
		"only text":     {with("x", "text"), 2, "can't be shown"},
		"only comment":  {with("<!-- x -->", "text"), 2, "can't be shown"},
		"two":           {with(aLine+aLine, "text"), 2, "write one svg element"},
		"text after":    {with(aLine+"x", "text"), 2, "outside"},
		"not closed":    {with("<svg><g></svg>", "text"), 2, "can't be shown"},
		"cut":           {with("<svg><g>", "text"), 2, "can't be shown"},
		"script":        {svg("<script>x</script>"), 2, "<script>"},
		"style":         {svg("<style>p{}</style>"), 2, "<style>"},
		"HTML":          {svg("<foreignObject/>"), 2, "<foreignObject>"},
		"event":         {svg(`<g onclick="x"/>`), 2, "onclick"},
		"image":         {svg(`<image href="https://example.org/x.png"/>`), 2, "<image>"},
		"set":           {svg(`<a href="#x"><set attributeName="href" to="javascript:alert(1)"/></a>`), 2, "<a>"},
		"animate":       {svg(`<g><animate attributeName="onclick" values="alert(1)"/></g>`), 2, "<animate>"},
		"form":          {svg(`<form action="https://example.org"><input/></form>`), 2, "<form>"},
		"meta":          {svg(`<meta http-equiv="refresh" content="0;url=https://example.org"/>`), 2, "<meta>"},
		"instruction":   {svg(`<?xml-stylesheet href="x.css"?>`), 2, "processing instruction"},
		"CDATA":         {svg(`<text><![CDATA[<script>alert(1)</script>]]></text>`), 2, "CDATA"},
		"HTML in title": {svg(`<title><img src="x" onerror="alert(1)"/></title>`), 2, "<img>"},
		"capitals":      {svg(`<g ONLOAD="alert(1)"/>`), 2, "ONLOAD"},
		"SCRIPT":        {svg(`<SCRIPT>alert(1)</SCRIPT>`), 2, "<SCRIPT>"},
		"another space": {svg(`<x:g xmlns:x="http://www.w3.org/1999/xhtml"/>`), 2, "<g>"},
		"base":          {svg(`<g xml:base="https://example.org/"/>`), 2, "base"},
		"escaped url":   {svg(`<g style="fill:\75rl(x.svg)"/>`), 2, "style"},
		"import":        {svg(`<g style="@import 'x.css'"/>`), 2, "style"},
		"hidden url":    {svg(`<g style="fill:u/**/rl(x.svg) url(#a) url(x)"/>`), 2, "style"},
		"javascript":    {svg(`<use href="javascript:alert(1)"/>`), 2, "href"},
		"feature image": {svg(`<filter><feImage href="https://example.org/x.png"/></filter>`), 2, "<filter>"},
		"old reference": {svg(`<use xmlns:xlink="http://www.w3.org/1999/xlink" xlink:href="x.svg#a"/>`), 2, "href"},
		"style's file":  {svg(`<g style="fill:url(x.svg#a)"/>`), 2, "style"},
	} {
		var b bytes.Buffer
		err := page.Write(&b, c.doc)
		var refused *page.Error
		if !errors.As(err, &refused) || refused.Part != c.part || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", name, err)
		}
		if b.Len() > 0 {
			t.Errorf("%s: refused, and %d bytes written", name, b.Len())
		}
		if refused != nil && errors.Unwrap(err) != refused.Err {
			t.Errorf("%s: wraps %v", name, errors.Unwrap(err))
		}
	}
	for _, inside := range []string{`<use href="#a"/>`, `<g fill="url(#a)"/>`, `<!-- x -->`} {
		if err := page.Write(io.Discard, svg(inside)); err != nil {
			t.Errorf("%s: %v", inside, err)
		}
	}
	// A browser ends some comments before XML does: none of them reaches the page.
	if text := written(t, svg(`<g><!--><img src=x onerror=alert(1)>--></g>`)); strings.Contains(text, "onerror") || !strings.Contains(text, "<svg><g></g></svg>") {
		t.Error("a comment of a figure is on the page")
	}
	// A comment outside the drawing changes nothing.
	if text := written(t, with("<?xml version=\"1.0\"?>\n<!-- before -->"+aLine+"<!-- after -->", "text")); text != written(t, with(aLine, "text")) {
		t.Errorf("with comments outside its drawing the page is\n%s", text)
	}
	// What stands before the drawing in a file of its own is no part of it.
	if text := written(t, with("<?xml version=\"1.0\"?>\n<!DOCTYPE svg>\n"+aLine, "text")); strings.Contains(text, "<?xml") || strings.Count(text, "<!DOCTYPE") != 1 {
		t.Error("the head of the drawing's file is on the page")
	}
}

// failing takes nothing.
type failing struct{ calls int }

var errFull = errors.New("disk full")

func (f *failing) Write([]byte) (int, error) { f.calls++; return 0, errFull }

func TestAWritersErrorComesBack(t *testing.T) {
	f := &failing{}
	if err := page.Write(f, legs()); err != errFull || f.calls != 1 {
		t.Errorf("%v after %d calls", err, f.calls)
	}
}

// The ids of a figure differ from those of other figures and of the page. Otherwise
// the box of the first drawing cuts off the second.
func TestFiguresKeepTheirIDsApart(t *testing.T) {
	figure := `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" aria-labelledby="part-1 table-1">` +
		`<title id='part-1'>id="x" url(#x)</title><clipPath id = "table-1"><rect width="1" height="1"/></clipPath>` +
		`<g clip-path="url(#table-1)" style="mask:url(#table-1)"><use xlink:href="#part-1"/><use href='#part-1'/></g></svg>`
	var b bytes.Buffer
	part := page.Part{Heading: "A", Sheet: &working.Sheet{Steps: working.Steps{{What: "a"}}}, Figure: figure, FigureText: "A square."}
	if err := page.Write(&b, page.Page{Parts: []page.Part{part, part}}); err != nil {
		t.Fatal(err)
	}
	ids := map[string]bool{}
	for _, e := range elements(t, b.String()) {
		if id, has := e.attr["id"]; has {
			if ids[id] {
				t.Errorf("id %s stands twice", id)
			}
			ids[id] = true
		}
	}
	for _, want := range []string{
		`<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" aria-labelledby="figure-2-part-1 figure-2-table-1"><title id='figure-2-part-1'>id="x" url(#x)</title><clipPath id = "figure-2-table-1"><rect width="1" height="1"/></clipPath>`,
		`<g clip-path="url(#figure-2-table-1)" style="mask:url(#figure-2-table-1)"><use xlink:href="#figure-2-part-1"/><use href='#figure-2-part-1'/></g></svg>`,
	} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("no %s in\n%s", want, &b)
		}
	}
}

// The style by which a drawing sets its own page would set that of the whole document.
func TestPageIgnoresFigureStyle(t *testing.T) {
	sheet := drawing.New(180, 250, "Orlesk Bay", "Nothing.")
	for form, ground := range map[drawing.Form]string{drawing.Plate: `<rect width="210"`, drawing.Figure: `<rect width="180"`} {
		var drawn, b bytes.Buffer
		if err := sheet.WriteSVG(&drawn, form); err != nil {
			t.Fatal(err)
		}
		if err := page.Write(&b, page.Page{Parts: []page.Part{{Figure: drawn.String(), FigureText: "Nothing."}}}); err != nil {
			t.Fatal(err)
		}
		if strings.Count(b.String(), "@page") != 1 || strings.Count(b.String(), "<style>") != 1 || strings.Contains(b.String(), ":root") || !strings.Contains(b.String(), ground) {
			t.Errorf("%s: %s", form, &b)
		}
	}
}
