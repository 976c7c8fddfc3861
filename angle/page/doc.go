// Package page writes workings and drawings as one page, to read on a screen or to print.
// The page is a single HTML file, or Markdown.
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
// Make a [Page] with a [Part] for each problem. Then call [Write] for HTML or
// [Page.Markdown] for Markdown. The methods named Working in this module return a
// [lubberline.example/angle/working.Sheet] for [Part.Sheet].
package page
