package deviation

import (
	"errors"
	"io"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
)

// ReadTable reads a table of deviations from CSV or JSON (see package [record]). The first column
// is named compass or magnetic, for the kind of heading. The column deviation follows, and a column
// uncertainty (one standard deviation) may follow:
//
//	compass,deviation        [{"compass": "000", "deviation": "2°E"},
//	000,2°E                   {"compass": "015", "deviation": "3°30′E"},
//	015,3°30′E                …]
//	030,-1.5
//
// A JSON object {"smooth": true, "rows": […]} gives a smooth table, as by [Table.Smooth].
//
// A figure without a name is in degrees, east positive. A last row on 360 that repeats the row on
// 000 is allowed. Errors are a [*record.Error], which names the line and wraps the [*Error] or
// [*angle.ParseError].
func ReadTable(r io.Reader) (*Table, error) {
	r, smooth, err := tableRows(r)
	if err != nil {
		return nil, err
	}
	rows, err := record.Read(r, record.Columns{
		Required: []string{"deviation"},
		Optional: []string{"compass", "magnetic", "uncertainty"},
	})
	if err != nil {
		return nil, err
	}
	t, err := tableOf(rows)
	if err != nil || !smooth {
		return t, err
	}
	return t.Smooth(), nil
}

// tableOf makes a table of the rows of a file.
func tableOf(rows []record.Row) (*Table, error) {
	switch compass, magnetic := rows[0].Has("compass"), rows[0].Has("magnetic"); {
	case compass && magnetic:
		return nil, rows[0].Fault("magnetic", errors.New("there is a column compass and a column magnetic; give the one by which the table is kept"))
	case compass:
		return readRows(rows, "compass", angle.ParseCompass)
	case magnetic:
		return readRows(rows, "magnetic", angle.ParseMagnetic)
	}
	return nil, &record.Error{Line: rows[0].Line, Err: errors.New("there is no heading; give a column compass or magnetic, the heading by which the table is kept")}
}

// readRows makes a table of the rows of a file, by the heading in a column.
func readRows[H TableHeading](rows []record.Row, column string, parse func(string) (H, error)) (*Table, error) {
	var north H
	table := make([]Row[H], 0, len(rows))
	kept := make([]record.Row, 0, len(rows))
	for i, row := range rows {
		for _, name := range []string{"compass", "magnetic"} {
			if name == column && !row.Has(name) || name != column && row.Has(name) {
				return nil, row.Fault(name, errors.New("every row needs its heading in the column "+column))
			}
		}
		heading, err := parse(row.Text(column))
		if err != nil {
			return nil, row.Fault(column, err)
		}
		d, err := Parse(row.Text("deviation"))
		if err != nil {
			return nil, row.Fault("deviation", err)
		}
		if row.Has("uncertainty") {
			var u angle.Uncertainty
			if err := u.UnmarshalText([]byte(row.Text("uncertainty"))); err != nil {
				return nil, row.Fault("uncertainty", err)
			}
			d = d.WithUncertainty(u)
		}
		closing := i == len(rows)-1 && heading == north && strings.HasPrefix(row.Text(column), "360")
		if closing && len(table) > 0 && table[0].Heading == north && table[0].Deviation == d {
			continue
		}
		table = append(table, Row[H]{heading, d})
		kept = append(kept, row)
	}
	t, err := NewTable(table)
	if e, ok := errors.AsType[*Error](err); ok && e.Kind != NoRows {
		at := column
		if e.Kind == DeviationTooLarge {
			at = "deviation"
		}
		return nil, kept[e.Row].Fault(at, err)
	}
	return t, err
}
