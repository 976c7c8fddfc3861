package diagram

import (
	"fmt"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/say"
)

// Measures of a narrow card, mm.
const (
	narrowRow     = 5.6
	narrowLetters = 3.8
)

// narrowCard draws a card for a small screen: its tables below each other, and what else it has as
// blocks.
func narrowCard(card *deviation.Card, o Options) *drawing.Sheet {
	s := svgSheet{drawing.New(bookNarrow+2*bookEdge, 0, titled("Deviation card", card.Details), cardWords(card))}
	s.Caution(svgCaution)
	bottom := bookEdge
	block := func(names, texts []string) {
		widths := make([]float64, len(names))
		for i := range widths {
			widths[i] = bookNarrow // so that the columns stand below each other
		}
		bottom = s.Ruled(drawing.At(bookEdge, bottom), bookLine, widths, names, texts).Bottom
	}
	d, date := card.Details, ""
	if !d.Date.IsZero() {
		date = d.Date.Format("2 January 2006")
	}
	block([]string{"Vessel", "Compass", "Date", "Place", "Adjuster", "Remarks"}, []string{d.Vessel, d.Compass, date, d.Place, d.Adjuster, d.Remarks})
	stated := false
	for i := range 2 {
		stated = s.cardTable(card, i, (bookNarrow+2*bookEdge-tableWidth)/2, bottom+6, narrowRow, narrowLetters) || stated
		bottom += 6 + 8 + narrowRow*float64(len(cardEntries(card)[i]))
	}
	bottom += 3
	coefficients := make([]string, 5)
	if k := o.Coefficients; k != nil {
		for i, x := range []angle.Angle{k.A, k.B, k.C, k.D, k.E} {
			coefficients[i] = say.Signed(x)
		}
	}
	block([]string{"Coefficient A", "B", "C", "D", "E"}, coefficients)
	bottom++
	for _, line := range drawing.Wrapped(cardReading(stated), bookNarrow/drawing.Letters) {
		bottom += 4
		s.Text(drawing.At(bookEdge, bottom), "", line)
	}
	bottom += 3
	block([]string{"Adjuster or observer", "Signature", "Date"}, nil)
	s.SetHeight(bottom + bookEdge)
	return s.Sheet
}

// cardWords says what a card of two tables shows.
func cardWords(card *deviation.Card) string {
	rows := max(len(card.ByCompass), len(card.ByMagnetic))
	return fmt.Sprintf("A deviation card with %d rows: for each heading by compass the deviation and the magnetic heading; for each magnetic course the deviation and the course to steer by compass. %s", rows, described(card))
}
