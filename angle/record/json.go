package record

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"slices"
	"strings"
)

// A jsonReader reads an array of objects and counts lines.
type jsonReader struct {
	*json.Decoder
	data    []byte
	counted int // the offset up to which lines are counted
	line    int
	rowLine int  // the line of the row last begun
	crowded bool // whether more than one row begins on it
}

// at returns the line of an offset. Offsets mostly increase, so at counts only the lines
// after the last offset; otherwise the time would grow as the square of the rows.
func (d *jsonReader) at(offset int64) int {
	to := int(min(offset, int64(len(d.data))))
	if to < d.counted {
		return lineAt(d.data, to)
	}
	d.line += bytes.Count(d.data[d.counted:to], []byte("\n"))
	d.counted = to
	return d.line
}

// next returns the line of the next value, after spaces and punctuation.
func (d *jsonReader) next() int { return d.at(d.ahead()) }

// ahead returns the offset of the next value.
func (d *jsonReader) ahead() int64 {
	at := d.InputOffset()
	for at < int64(len(d.data)) && strings.IndexByte(" \t\r\n,:", d.data[at]) >= 0 {
		at++
	}
	return at
}

// begin returns the line of the next row. At the first row of a line it checks whether
// other rows begin there.
func (d *jsonReader) begin() int {
	at := d.ahead()
	if line := d.at(at); line != d.rowLine {
		rest, _, _ := bytes.Cut(d.data[at:], []byte("\n"))
		d.rowLine, d.crowded = line, bytes.Count(rest, []byte("{")) > 1
	}
	return d.rowLine
}

// fault returns an error of the decoder with its line.
func (d *jsonReader) fault(err error) error {
	if syntax, ok := errors.AsType[*json.SyntaxError](err); ok {
		return &Error{Line: d.at(syntax.Offset), Err: err}
	}
	if err == io.EOF || err == io.ErrUnexpectedEOF {
		err = errors.New("the file ends before the array ends: write its closing ]")
	}
	return &Error{Line: d.at(d.InputOffset()), Err: err}
}

// readJSON reads an array of objects.
func readJSON(data []byte, columns Columns) ([]Row, error) {
	d := &jsonReader{Decoder: json.NewDecoder(bytes.NewReader(data)), data: data, line: 1}
	d.UseNumber()
	if _, err := d.Token(); err != nil { // the bracket already seen
		return nil, d.fault(err)
	}
	var rows []Row
	for d.More() {
		row, err := d.row(columns)
		if d.crowded {
			row.number = len(rows) + 1
		}
		if e, ok := errors.AsType[*Error](err); ok {
			e.Row = row.number
		}
		if err != nil {
			return rows, err
		}
		if len(rows) == MaxRows {
			return rows, &Error{Line: row.Line, Err: errTooManyRows}
		}
		rows = append(rows, row)
	}
	if _, err := d.Token(); err != nil {
		return rows, d.fault(err)
	}
	if _, err := d.Token(); err != io.EOF {
		return rows, &Error{Line: d.next(), Err: errors.New("there is text after the array: remove it")}
	}
	return rows, nil
}

// row reads one object.
func (d *jsonReader) row(columns Columns) (Row, error) {
	row := Row{Line: d.begin()}
	open, err := d.Token()
	if err != nil {
		return row, d.fault(err)
	}
	if open != json.Delim('{') {
		return row, &Error{Line: row.Line, Err: errors.New("this row is not an object: write an object for each row, such as {\"heading\": \"035\"}")}
	}
	seen := map[string]bool{}
	for d.More() {
		at := d.next()
		key, err := d.Token()
		if err != nil {
			return row, d.fault(err)
		}
		name := strings.ToLower(key.(string)) // the decoder gives strings as keys
		if err := columns.check(name, seen); err != nil {
			return row, &Error{Line: at, Err: err}
		}
		if slices.Contains(columns.Nested, name) {
			var raw json.RawMessage
			if err := d.Decode(&raw); err != nil {
				return row, d.fault(err)
			}
			text := string(raw)
			switch {
			case raw[0] == '"':
				if err := json.Unmarshal(raw, &text); err != nil {
					return row, d.fault(err)
				}
			case text == "null":
				text = ""
			}
			row.fields = append(row.fields, field{name, strings.TrimSpace(text), at})
			continue
		}
		value, err := d.Token()
		if err != nil {
			return row, d.fault(err)
		}
		switch v := value.(type) {
		case string:
			row.fields = append(row.fields, field{name, strings.TrimSpace(v), at})
		case json.Number:
			row.fields = append(row.fields, field{name, v.String(), at})
		case nil:
			row.fields = append(row.fields, field{name, "", at})
		default:
			return row, &Error{Line: at, Column: name, Err: errors.New("this value is of another kind: write a string or a number, such as \"4°15′W\" or 4.25")}
		}
	}
	if _, err := d.Token(); err != nil {
		return row, d.fault(err)
	}
	return row, nil
}
