// Package page writes workings and drawings as one page, to read on a screen or to print.
// The page is a single HTML file, or Markdown.
//
//	rose, err := variation.MustParseLegend("7°20′W 2015 (12′E)").InYear(2026)
//	if err != nil {
//		log.Fatal(err)
//	}
//	sheet := working.Sheet{Steps: rose.Working()}
//	doc := page.Page{
//		Title: "Out of Orlesk Bay (invented)",
//		Parts: []page.Part{{Heading: "The variation", Sheet: &sheet}},
//	}
//	if err := page.Write(os.Stdout, doc); err != nil {
//		log.Fatal(err)
//	}
//
// # Where to begin
//
// Make a [Page] with a [Part] for each problem. Then call [Write] for HTML or
// [Page.Markdown] for Markdown. The methods named Working in this module return a
// [lubberline.example/angle/working.Sheet] for [Part.Sheet].
package page
