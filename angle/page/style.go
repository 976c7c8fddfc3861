package page

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
.scroll { position: relative; margin: 0.8rem 0; overflow-x: auto; }
.scroll:focus { outline: 3px solid #003a8c; outline-offset: 2px; }
table { width: 100%; border-collapse: collapse; }
caption { text-align: left; font-weight: bold; padding: 0.2rem 0 0.4rem; }
.heard { position: absolute; width: 1px; height: 1px; padding: 0; overflow: hidden; clip-path: inset(50%); }
th, td { text-align: left; vertical-align: top; padding: 0.35rem 0.4rem; border-bottom: 1px solid #767676; overflow-wrap: break-word; }
thead th { border-top: 2px solid #111; border-bottom: 2px solid #111; }
tbody th { font-weight: normal; }
th:first-child, td:first-child { padding-left: 0; }
th:last-child, td:last-child { padding-right: 0; }
.tables { display: flex; flex-wrap: wrap; gap: 0 1.5rem; }
.tables > .scroll { flex: 0 1 auto; max-width: 100%; }
.tables table { width: auto; }
.tables th:first-child { width: auto; }
.tables th, .tables td { padding: 0.15rem 0.6rem 0.15rem 0; overflow-wrap: normal; }
.fields { display: flex; flex-wrap: wrap; gap: 0.4rem 1.5rem; margin: 0.8rem 0; }
.fields p { display: flex; flex: 1 1 12rem; align-items: flex-end; gap: 0.5rem; margin: 0; }
.fields i { flex: 1 1 auto; min-height: 1.8rem; border-bottom: 1px solid #111; }
.lines i { display: block; height: 1.9rem; border-bottom: 1px solid #767676; }
.lines + .fields { flex-wrap: nowrap; gap: 0.5rem; margin: 0; }
.lines + .fields::before { content: ""; flex: 2 1 0; border-bottom: 1px solid #767676; }
.lines + .fields p { flex: 1 1 0; }
footer { max-width: 50rem; margin: 0 auto; padding: 0 1rem 1rem; color: #333; font-size: 0.8rem; overflow-wrap: anywhere; }
footer p { margin: 0.3rem 0; }
.compact { font-size: 0.95rem; line-height: 1.4; }
.compact h1 { font-size: 1.3rem; }
.compact h2 { font-size: 1rem; margin-top: 0.9rem; }
.compact p, .compact ul, .compact figure, .compact .scroll { margin: 0.35rem 0; }
.compact .fields p { margin: 0; }
.compact th, .compact td { padding-top: 0.12rem; padding-bottom: 0.12rem; }
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
.tables th:first-child { width: auto; }
}
@media print {
html { font-size: 10.5pt; }
main { max-width: none; padding: 0; }
h1, h2, caption { break-after: avoid; }
tr, li, figure, .caution { break-inside: avoid; }
p { orphans: 3; widows: 3; }
thead { display: table-header-group; break-after: avoid; }
tbody tr:first-child { break-before: avoid; }
.scroll { overflow: visible; }
th, td { overflow-wrap: anywhere; }
thead th, .value { overflow-wrap: break-word; }
figure div > svg { max-height: 225mm; }
.lines, .fields, footer, .compact section.one { break-inside: avoid; }
.lines { break-before: avoid; }
.lines i, .lines + .fields i { height: var(--line); min-height: 0; }
.lines + .fields { break-before: avoid; }
.tables { gap: 0 8mm; }
.tables th, .tables td { overflow-wrap: normal; }
.compact .tables { font-size: 8pt; line-height: 1.2; gap: 0 6mm; }
.compact .tables th, .compact .tables td { padding: 0.15mm 1.6mm 0.15mm 0; }
.compact h2 { margin-top: 3mm; }
.compact .one { margin-top: 2.5mm; }
.compact .one h2 { float: left; margin: 0 0.6em 0 0; font-size: inherit; line-height: inherit; }
body.footed { display: table; width: 100%; }
.footed main { display: table-row-group; }
.footed footer { display: table-footer-group; font-size: 7.5pt; line-height: 1.3; }
.footed footer p:first-child { padding-top: 3mm; }
.compact { font-size: 9.5pt; }
}
`

// sizes are the styles of the sizes of paper.
var sizes = map[Size]string{
	"":     pageOf("A4", "6.2mm"),
	A4:     pageOf("A4", "6.2mm"),
	Letter: pageOf("letter", "5.4mm"),
}

// pageOf returns the style of a size of paper, with the space between ruled lines.
func pageOf(size, line string) string {
	return "html { --line: " + line + "; }\n@page { size: " + size + "; margin: 18mm 16mm; }\n"
}

// compactMargins are the margins of a compact page.
const compactMargins = "@page { margin: 10mm 16mm; }\n"
