// Package page writes worked answers as a page to read on a screen or to print: HTML in
// one file, or Markdown.
//
//	doc := page.Page{
//		Title: "Out of Orlesk Bay (invented)",
//		Parts: []page.Part{{Heading: "The variation", Sheet: &sheet}}, // a working.Sheet
//	}
//	if err := page.Write(file, doc); err != nil {
//		log.Fatal(err)
//	}
//
// # Where to begin
//
// Fill in a [Page] with a [Part] for each problem, and call [Write] for HTML or
// [Page.Markdown] for Markdown. Every answer of this module has a
// [lubberline.example/angle/working.Sheet] for [Part.Sheet].
package page
