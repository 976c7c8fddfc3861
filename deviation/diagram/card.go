package diagram

import (
	"fmt"
	"math"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/say"
)

// Options say how [Card] draws a deviation card, and [RecordBook] a page. The zero value is good.
type Options struct {
	// Rose draws the headings of a card about a rose, not as two tables. The step of the card is
	// then 10° or more, and the rose has no room for uncertainties.
	Rose bool

	// Narrow makes a drawing 92 mm wide, so that a figure can be read on a small screen. The two
	// tables of a card are then below each other. A rose has no narrow form.
	Narrow bool

	Coefficients *deviation.Coefficients // printed on a card; nil if not known
}

// The most rows of a card that can be read from where the helmsman stands.
const (
	maxCardRows = 72 // in steps of 5°
	maxRoseRows = 36 // in steps of 10°
)

// Card draws a deviation card to post by the compass. It has the deviation and the magnetic
// heading by compass heading, and the compass course to steer by magnetic course. Below are the
// coefficients, and room for a signature. Steps below 10° need paper larger than A4.
//
// It returns an [*Error] if the card is nil or has no rows, if its step is below 5°, or if a
// deviation exceeds 90°. It also does for a rose that is to be narrow, or whose step is below 10°.
func Card(card *deviation.Card, o Options) (*drawing.Sheet, error) {
	if card == nil || len(card.ByCompass) == 0 || len(card.ByMagnetic) == 0 {
		return nil, &Error{Observation: -1, Reason: "the card has no rows; make it with deviation.NewCard"}
	}
	if o.Rose && o.Narrow {
		return nil, &Error{Observation: -1, Reason: "a rose has no narrow form; leave out Rose or Narrow"}
	}
	most, step := maxCardRows, "5°"
	if o.Rose {
		most, step = maxRoseRows, "10°"
	}
	if rows := max(len(card.ByCompass), len(card.ByMagnetic)); rows > most {
		return nil, &Error{Observation: -1, Reason: fmt.Sprintf("the card has %d rows, and at most %d can be read; make it with a step of at least %s", rows, most, step)}
	}
	for _, rows := range cardEntries(card) {
		for _, row := range rows {
			if err := drawable(row.Compass, row.Deviation, -1); err != nil {
				return nil, err
			}
		}
	}
	switch {
	case o.Rose:
		return roseCard(card, o), nil
	case o.Narrow:
		return narrowCard(card, o), nil
	}
	return tableCard(card, o), nil
}

// Measures of a card, mm.
const (
	cardHead   = 32.0 // where what is below the details begins
	cardFoot   = 36.0 // coefficients and signatures
	tableWidth = 87.0
	edge       = 0.2 // of the body, for the width of a line
	vesselLine = 6.1 // so that high letters of any script are on the sheet
)

// cardHeader begins a card: the vessel in large letters, and the other details.
func cardHeader(height float64, description string, d deviation.Details) svgSheet {
	s := svgSheet{drawing.New(bodyRight, height, titled("Deviation card", d), description)}
	s.Caution(svgCaution)
	const size, half = 3.2, bodyRight / 2
	vessel := working.OneLine(d.Vessel)
	s.Text(drawing.At(0, vesselLine), `font-size="3.2" fill="#444"`, "Vessel")
	const bold = 1.12 // the width of bold letters, in that of regular ones
	letters := fitting(vessel, (bodyRight-17)/bold, 5.5, 4.5, 3.6)
	s.Text(drawing.At(17, vesselLine), fmt.Sprintf(`font-size="%.1f" font-weight="bold"`, letters), drawing.Shortened(vessel, (bodyRight-17)/letters/bold))
	if vessel == "" {
		s.blank(drawing.At(17, vesselLine+0.8), bodyRight-17)
	}
	date := ""
	if !d.Date.IsZero() {
		date = d.Date.Format("2 January 2006")
	}
	for i, f := range [][2]string{{"Compass", d.Compass}, {"Date", date}, {"Place", d.Place}, {"Adjuster", d.Adjuster}} {
		at := drawing.At(float64(i%2)*half, 12.2+6*float64(i/2))
		if working.OneLine(f[1]) == "" {
			s.Text(at, `font-size="3.2" fill="#444"`, f[0])
			s.blank(at.Moved(17, 0.8), half-20)
			continue
		}
		s.field(at, half-3, size, f)
	}
	if working.OneLine(d.Remarks) != "" {
		s.field(drawing.At(0, 24.2), bodyRight, size, [2]string{"Remarks", d.Remarks})
	}
	return s
}

// blank draws a line to write on.
func (s svgSheet) blank(at drawing.Spot, width float64) {
	s.Line(at, at.Moved(width, 0), `class="blank" stroke="black" stroke-width="0.2"`)
}

// cardFooter draws the coefficients, what the figures are, and the room for a signature.
func (s svgSheet) cardFooter(top float64, o Options, stated bool) {
	s.Text(drawing.At(0, top+5), `font-size="3.2"`, "Coefficients")
	var figures [5]string
	if k := o.Coefficients; k != nil {
		for i, x := range []angle.Angle{k.A, k.B, k.C, k.D, k.E} {
			figures[i] = say.Signed(x)
		}
	}
	for i, figure := range figures {
		at := drawing.At(28+31*float64(i), top+5)
		s.Text(at, `font-size="3.2"`, "ABCDE"[i:i+1])
		if figure == "" {
			s.blank(at.Moved(5, 0.8), 20)
			continue
		}
		s.Text(at.Moved(5, 0), `font-size="3.2"`, figure)
	}
	s.Text(drawing.At(0, top+10), "", cardReading(stated))
	third := bodyRight / 3
	for i, name := range []string{"Adjuster or observer", "Signature", "Date"} {
		at := drawing.At(third*float64(i), top+26)
		s.blank(at, third-5)
		s.Text(at.Moved(0, 3.6), `fill="#444"`, name)
	}
}

// cardReading says how the figures of a card are read.
func cardReading(stated bool) string {
	line := "East: magnetic is more than compass. West: magnetic is less."
	if stated {
		line += " ± is one standard uncertainty."
	}
	return line
}

// tableCard draws a card as two tables.
func tableCard(card *deviation.Card, o Options) *drawing.Sheet {
	rows := max(len(card.ByCompass), len(card.ByMagnetic))
	// On A4 if there is room. A row is from 3.6 to 7 mm high.
	row := min(7, max(3.6, (bodyHeight-cardHead-cardFoot-12)/float64(rows)))
	bottom := cardHead + 12 + row*float64(rows)
	s := cardHeader(bottom+cardFoot, cardWords(card), card.Details)
	stated := false
	for i := range 2 {
		left := edge + float64(i)*(bodyRight-2*edge-tableWidth)
		stated = s.cardTable(card, i, left, cardHead, row, min(4, 0.72*row)) || stated
	}
	s.cardFooter(bottom, o, stated)
	return s.Sheet
}

// cardEntries returns the rows of the two tables.
func cardEntries(card *deviation.Card) [2][]deviation.Entry {
	return [2][]deviation.Entry{card.ByCompass, card.ByMagnetic}
}

// cardTable draws one of the two tables of a card, below the base line of its title, with rows of a
// height and letters of a size. It reports whether the figures state their uncertainty.
func (s svgSheet) cardTable(card *deviation.Card, i int, left, title, row, size float64) (stated bool) {
	s.Text(drawing.At(left+tableWidth/2, title), `text-anchor="middle" font-size="4" font-weight="bold"`, [2]string{"By compass", "To steer"}[i])
	for c, name := range [2][3]string{{"heading by compass", "deviation", "magnetic heading"}, {"magnetic course", "deviation", "steer by compass"}}[i] {
		s.Text(drawing.At(left+cardColumns[c], title+6), `text-anchor="middle"`, name)
	}
	top, entries := title+8, cardEntries(card)[i]
	for r, e := range entries {
		cells := cardCells(card.Step, e, i == 0)
		stated = stated || strings.Contains(cells[1], "±")
		s.row(left, top+row*float64(r), row, size, r%2 == 1, cells)
	}
	s.Rectangle(drawing.Box{Left: left, Top: top, Right: left + tableWidth, Bottom: top + row*float64(len(entries))}, `fill="none" stroke="black" stroke-width="0.3"`)
	return stated
}

// described names the deviations of a card on the principal headings by compass.
func described(card *deviation.Card) string {
	var list []string
	for _, e := range card.ByCompass {
		if h := e.Compass.FromNorth(); h%(45*angle.Degree) == 0 {
			list = append(list, headingPoint(int(h/angle.Degree))+" "+tenthsText(e.Deviation.Angle().Degrees()))
		}
	}
	if list == nil {
		return ""
	}
	return "Deviation by compass: " + strings.Join(list, ", ") + "."
}

// cardColumns are the middles of a table's columns.
var cardColumns = [3]float64{15, 43.5, 72}

// row draws a row of a table. The heading asked for and the one found are bold.
func (s svgSheet) row(left, top, height, size float64, shaded bool, cells [3]string) {
	if shaded {
		s.Rectangle(drawing.Box{Left: left, Top: top, Right: left + tableWidth, Bottom: top + height}, `fill="#ececec" stroke="none"`)
	}
	for c, text := range cells {
		weight := "bold"
		if c == 1 {
			weight = "normal"
		}
		s.Text(drawing.At(left+cardColumns[c], top+height/2+0.36*size), fmt.Sprintf(`class="cell" text-anchor="middle" font-size="%.2f" font-weight="%s"`, size, weight), text)
	}
}

// cardCells returns the texts of a row: the heading asked for, the deviation, the heading found.
// That is the sum of the printed figures.
func cardCells(step angle.Angle, e deviation.Entry, byCompass bool) [3]string {
	printed := deviation.East(e.Deviation.Angle().Round(angle.Degree / 10))
	d := strings.TrimSpace(say.Tenths(e.Deviation.EastWest))
	if byCompass {
		return [3]string{cardHeading(step, e.Compass.FromNorth()) + "C", d, tenth(printed.Magnetic(e.Compass).FromNorth()) + "M"}
	}
	return [3]string{cardHeading(step, e.Magnetic.FromNorth()) + "M", d, tenth(printed.Compass(e.Magnetic).FromNorth()) + "C"}
}

// cardHeading prints a heading of the card's own steps: whole degrees, or degrees and minutes
// for points.
func cardHeading(step, h angle.Angle) string {
	switch {
	case step%angle.Degree == 0 && h%angle.Degree == 0:
		return fmt.Sprintf("%03d°", int(h/angle.Degree))
	case h%angle.Minute == 0:
		return strings.TrimSuffix(fmt.Sprintf("%.0v", angle.CompassFrom(h)), "C")
	}
	return strings.TrimSuffix(fmt.Sprintf("%.1v", angle.CompassFrom(h)), "C")
}

// tenth prints a direction to a tenth of a degree.
func tenth(h angle.Angle) string {
	n := int(h.Round(angle.Degree/10).Normalized() / (angle.Degree / 10))
	return fmt.Sprintf("%03d.%d°", n/10, n%10)
}

// Radii of the rings of a rose card, mm. Two rings of figures stand further apart than a figure is
// wide.
const (
	roseOuter    = 90.8
	roseMagnetic = 86.0 // middle of the ring of magnetic courses
	roseSteer    = 76.3
	roseTicks    = 70.5 // outer edge of the graduation
	roseInner    = 67.5
	roseCompass  = 62.0
	roseFound    = 52.0
	roseHub      = 47.0
)

// roseCard draws a card about a rose.
func roseCard(card *deviation.Card, o Options) *drawing.Sheet {
	const centre = cardHead - 4 + roseOuter
	s := cardHeader(centre+roseOuter+cardFoot, fmt.Sprintf("A deviation card about a rose with %d headings: outside the graduation each magnetic course with the course to steer by compass, inside it each heading by compass with the magnetic heading. %s", len(card.ByMagnetic), described(card)), card.Details)
	mid := drawing.At(bodyRight/2, centre)
	for _, r := range []float64{roseOuter, roseTicks, roseInner, roseHub} {
		s.Put(`<circle cx="%.2f" cy="%.2f" r="%.2f" fill="none" stroke="black" stroke-width="0.3"/>`, mid.X, mid.Y, r)
	}
	for h := range 360 {
		inward := 1.0
		switch {
		case h%10 == 0:
			inward = roseTicks - roseInner
		case h%5 == 0:
			inward = 2
		}
		s.Line(onCircle(mid, float64(h), roseTicks), onCircle(mid, float64(h), roseTicks-inward), `stroke="black" stroke-width="0.2"`)
	}
	const size = 3.0
	write := func(at angle.Angle, r float64, text, style string) {
		spot := onCircle(mid, at.Degrees(), r).Moved(0, 0.36*size)
		s.Text(spot, fmt.Sprintf(`class="cell" text-anchor="middle" font-size="%.1f"%s`, size, style), text)
	}
	for _, e := range card.ByMagnetic {
		write(e.Magnetic.FromNorth(), roseMagnetic, roseHeading(e.Magnetic.FromNorth()), ` font-weight="bold"`)
		write(e.Magnetic.FromNorth(), roseSteer, roseFigure(cardCells(card.Step, e, false)), "")
	}
	for _, e := range card.ByCompass {
		write(e.Compass.FromNorth(), roseCompass, roseHeading(e.Compass.FromNorth()), ` font-weight="bold"`)
		write(e.Compass.FromNorth(), roseFound, roseFigure(cardCells(card.Step, e, true)), "")
	}
	s.roseHub(mid)
	s.cardFooter(centre+roseOuter, o, false)
	return s.Sheet
}

// roseFigure returns the figure of the heading found. The ring says by which north it is.
func roseFigure(cells [3]string) string { return strings.TrimRight(cells[2], "°CM") }

// roseHeading prints a heading of the rose in degrees: 045, 011¼, or to a tenth.
func roseHeading(h angle.Angle) string {
	quarters := h / (angle.Degree / 4)
	if h%(angle.Degree/4) != 0 {
		return strings.TrimSuffix(tenth(h), "°")
	}
	return fmt.Sprintf("%03d%s", int(quarters/4), [...]string{"", "¼", "½", "¾"}[quarters%4])
}

// roseHub draws north and the rings' key inside the rose.
func (s svgSheet) roseHub(mid drawing.Spot) {
	tip := mid.Moved(0, -roseHub+2)
	s.Polygon("north", `fill="black"`, []drawing.Spot{tip, tip.Moved(2.2, 9), tip.Moved(0, 7), tip.Moved(-2.2, 9)})
	s.Text(tip.Moved(0, 15), `text-anchor="middle" font-size="5" font-weight="bold"`, "N")
	for _, l := range []struct {
		down float64
		bold bool
		text string
	}{
		{-15, true, "To steer: the two outer rings"},
		{-9.5, false, "Find the magnetic course (bold, outside)."},
		{-4.5, false, "Steer by compass the figure inside it."},
		{7, true, "By compass: the two inner rings"},
		{12.5, false, "Find the heading by compass (bold, outside)."},
		{17.5, false, "The figure inside it is the magnetic heading."},
		{28, false, "Between headings, interpolate."},
	} {
		weight := "normal"
		if l.bold {
			weight = "bold"
		}
		s.Text(mid.Moved(0, l.down), fmt.Sprintf(`text-anchor="middle" font-size="3.2" font-weight="%s"`, weight), l.text)
	}
}

// onCircle returns the place of a heading on a circle, with north up.
func onCircle(mid drawing.Spot, heading, r float64) drawing.Spot {
	sin, cos := math.Sincos(heading * math.Pi / 180)
	return mid.Moved(float64(r*sin), -float64(r*cos))
}
