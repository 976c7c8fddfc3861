package page_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"

	"lubberline.example/angle/page"
)

// For any figure and any text, a written page is well-formed, runs nothing and needs no
// other file.
func FuzzWrite(f *testing.F) {
	for _, figure := range []string{
		`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1 1"><path d="M0 0"/></svg>`,
		`<?xml version="1.0"?><!-- a dial --><svg><a href="#x"><text>045°T</text></a></svg>`,
		`<svg><script>1</script></svg>`, `<svg onload="x"/>`, `<svg><use href="other.svg"/></svg>`,
		`<svg fill="url(#a) url(x)"/>`, `</svg><svg>`, `<svg/>x`, `<svg><![CDATA[</svg>]]></svg>`,
		`<!DOCTYPE svg [<!ENTITY a "b">]><svg>&a;</svg>`, `<x:svg xmlns:x="y"/>`,
	} {
		f.Add(figure, "045°T & <b>")
	}
	f.Fuzz(func(t *testing.T, figure, text string) {
		var out bytes.Buffer
		err := page.Write(&out, page.Page{
			Title: text,
			Parts: []page.Part{{Heading: text, Text: []string{text}, Figure: figure, FigureText: "a figure " + text}},
		})
		if err != nil {
			if e, ok := errors.AsType[*page.Error](err); !ok || e.Part != 1 || out.Len() > 0 {
				t.Fatalf("%#v, %d bytes written", err, out.Len())
			}
			return
		}
		d := xml.NewDecoder(&out)
		for {
			token, err := d.Token()
			if errors.Is(err, io.EOF) {
				return
			}
			if err != nil {
				t.Fatalf("not well-formed: %v", err)
			}
			e, ok := token.(xml.StartElement)
			if !ok {
				continue
			}
			if strings.EqualFold(e.Name.Local, "script") {
				t.Fatal("a script")
			}
			for _, a := range e.Attr {
				if strings.HasPrefix(strings.ToLower(a.Name.Local), "on") {
					t.Fatalf("a script: %s", a.Name.Local)
				}
			}
		}
	})
}
