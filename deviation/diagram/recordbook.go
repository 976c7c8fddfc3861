package diagram

import (
	"fmt"
	"strings"

	"lubberline.example/angle/drawing"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/deviation/check"
)

// Measures of a page of a compass record book on A4 lying, mm.
const (
	bookWidth  = 270.0
	bookNarrow = 91.4
	bookEdge   = 0.3 // so that no line is cut
	bookLine   = 8.0 // the height of a line
	bookLines  = 16  // for checks
)

// bookWidths are the widths of the columns of [check.RecordBook].
var bookWidths = []float64{20, 21, 14, 20, 32, 17, 16, 14, 19, 27, 19, 18, 33}

// RecordBook draws a page of a compass record book, ruled to be written on by hand. The
// checks are filled in; without checks the page is blank. Of the details it shows the vessel,
// the compass, and the place and date of the swing.
//
// A page of A4 has room for 16 checks. With more checks the paper is larger. On a narrow page each
// check is a block, without what is blank. The other options have no effect.
func RecordBook(details deviation.Details, o Options, checks ...check.Check) *drawing.Sheet {
	width, lines := bookWidth, bookLines
	if o.Narrow {
		width, lines = bookNarrow, 1
	}
	columns, rows := check.RecordBook(checks...)
	columns[0] = "Date and time, UTC"
	described := make([]string, 0, len(rows))
	for _, row := range rows {
		var words []string
		for _, text := range row {
			if text != "" {
				words = append(words, text)
			}
		}
		described = append(described, strings.Join(words, " "))
	}
	table := append([][]string{columns}, rows...)
	for len(table) < 1+lines {
		table = append(table, nil)
	}
	date := ""
	if !details.Date.IsZero() {
		date = details.Date.Format("2 January 2006")
	}
	s := drawing.New(width+2*bookEdge, 0, titled("Compass record book", details),
		fmt.Sprintf("A page of a compass record book, ruled, with these columns: %s. Checks filled in: %d. %s",
			strings.Join(columns, ", "), len(rows), strings.Join(described, "; ")))
	s.Caution(working.Caution)
	head := s.Ruled(drawing.At(bookEdge, bookEdge), bookLine, []float64{70, 60, 60, 40, 40}, []string{"Vessel", "Compass", "Swung at", "Date of the card", "Page"},
		[]string{details.Vessel, details.Compass, details.Place, date, ""})
	bottom := s.Ruled(drawing.At(bookEdge, head.Bottom+3), bookLine, bookWidths, table...).Bottom
	for _, line := range bookRules {
		for _, part := range drawing.Wrapped(line, width/drawing.Letters) {
			bottom += 4
			s.Text(drawing.At(bookEdge, bottom), "", part)
		}
	}
	s.SetHeight(bottom + 1)
	return s
}

// bookRules say how the page is filled in.
var bookRules = []string{
	"Error = true − compass, east (E) positive. Deviation = error − variation. Check once a watch where possible, and after each large change of course (common practice).",
	deviation.AdjusterCaution,
}
