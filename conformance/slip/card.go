package slip

import (
	"lubberline.example/angle"
	"lubberline.example/deviation"
)

// A compassCard is a source of deviation with its rows, if it has any.
type compassCard struct {
	deviation.Source
	byMagnetic bool // kept by magnetic headings
	rows       []cardRow
}

// A cardRow is a row of a card, by the heading that the card is kept by.
type cardRow struct {
	heading   angle.Angle
	deviation deviation.Deviation
}

// cardOf returns a source with its rows.
func cardOf(source deviation.Source) compassCard {
	out := compassCard{Source: source, byMagnetic: byMagnetic(source)}
	table, ok := source.(interface{ Entries() []deviation.Entry })
	if !ok {
		return out
	}
	for _, e := range table.Entries() {
		heading := e.Compass.FromNorth()
		if out.byMagnetic {
			heading = e.Magnetic.FromNorth()
		}
		out.rows = append(out.rows, cardRow{heading, e.Deviation})
	}
	return out
}

// minRows is the least number of rows among which one is taken for another.
const minRows = 4

// look returns the deviation as looked up for a heading: between two rows, or with the slip of
// taking the row of another heading.
func (k compassCard) look(c *calculation, heading angle.Angle, interpolated deviation.Deviation) deviation.Deviation {
	if len(k.rows) < minRows {
		return interpolated
	}
	nearest := c.does(NearestRow)
	way, adjacent := c.way(AdjacentRow, 3)
	if !nearest && !adjacent {
		return interpolated
	}
	n := len(k.rows)
	low := 0
	for i, row := range k.rows { // the last row at or below the heading
		if behind(heading, row.heading) < behind(heading, k.rows[low].heading) {
			low = i
		}
	}
	high := (low + 1) % n
	near, far := low, high
	if behind(heading, k.rows[low].heading) > behind(k.rows[high].heading, heading) {
		near, far = high, low
	}
	at := near
	if adjacent {
		at = []int{far, (low + n - 1) % n, (high + 1) % n}[way]
	}
	return k.rows[at].deviation
}

// behind returns by how many degrees a direction is counterclockwise of another, from 0 to 360.
func behind(from, to angle.Angle) float64 {
	return wrapped((from - to).Degrees(), 360)
}
