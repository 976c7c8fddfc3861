package record

import (
	"bytes"
	"encoding/json"
	"slices"
	"strings"
)

// A flatReader reads an array of objects of strings, numbers and null, which most tables in
// JSON are, several times as fast as a [json.Decoder]. At anything else, and at any fault, it
// stops, and the table is read by the decoder, which says what is wrong.
type flatReader struct {
	data    []byte
	at      int
	line    int // of the byte at counted
	counted int
	columns Columns
	names   map[string]string // of the columns, by the text of a key
	width   int               // the number of fields of the last row
}

// readFlat reads a table. It reports false if it has to be read by the decoder.
func readFlat(data []byte, columns Columns) ([]Row, bool) {
	r := &flatReader{data: data, line: 1, columns: columns, names: map[string]string{}}
	if r.skip(); !r.next('[') {
		return nil, false
	}
	var rows []Row
	rowLine, crowded := 0, false
	for r.skip(); !r.next(']'); r.skip() {
		if len(rows) > 0 {
			if !r.next(',') {
				return nil, false
			}
			r.skip()
		}
		if r.at >= len(data) || len(rows) == MaxRows {
			return nil, false
		}
		if line := r.lineHere(); line != rowLine {
			rest, _, _ := bytes.Cut(data[r.at:], []byte("\n"))
			rowLine, crowded = line, bytes.Count(rest, []byte("{")) > 1
		}
		row := Row{Line: rowLine}
		if crowded {
			row.number = len(rows) + 1
		}
		if !r.row(&row) {
			return nil, false
		}
		rows = append(rows, row)
	}
	r.skip()
	return rows, r.at == len(data)
}

// skip passes over spaces.
func (r *flatReader) skip() {
	for r.at < len(r.data) {
		switch r.data[r.at] {
		case ' ', '\t', '\r', '\n':
			r.at++
		default:
			return
		}
	}
}

// next passes over a character, if it is the next.
func (r *flatReader) next(c byte) bool {
	if r.at < len(r.data) && r.data[r.at] == c {
		r.at++
		return true
	}
	return false
}

// lineHere returns the line of the next character.
func (r *flatReader) lineHere() int {
	r.line += bytes.Count(r.data[r.counted:r.at], []byte("\n"))
	r.counted = r.at
	return r.line
}

// row reads an object.
func (r *flatReader) row(row *Row) bool {
	if !r.next('{') {
		return false
	}
	row.fields = make([]field, 0, r.width)
	for r.skip(); !r.next('}'); r.skip() {
		if len(row.fields) > 0 {
			if !r.next(',') {
				return false
			}
			r.skip()
		}
		f := field{line: r.lineHere()}
		raw, ok := r.text()
		if !ok {
			return false
		}
		if f.column, ok = r.names[string(raw)]; !ok {
			f.column = strings.ToLower(string(raw))
			r.names[string(raw)] = f.column
		}
		if r.columns.check(f.column, map[string]bool{}) != nil || slices.ContainsFunc(row.fields, func(g field) bool { return g.column == f.column }) {
			return false
		}
		if r.skip(); !r.next(':') {
			return false
		}
		r.skip()
		if f.text, ok = r.value(slices.Contains(r.columns.Nested, f.column)); !ok {
			return false
		}
		f.text = strings.TrimSpace(f.text)
		row.fields = append(row.fields, f)
	}
	r.width = len(row.fields)
	return true
}

// text reads a string, and returns what is between its quotes. It reports false for an escape.
func (r *flatReader) text() ([]byte, bool) {
	if !r.next('"') {
		return nil, false
	}
	start := r.at
	for ; r.at < len(r.data); r.at++ {
		switch c := r.data[r.at]; {
		case c == '"':
			r.at++
			return r.data[start : r.at-1], true
		case c < ' ' || c == '\\':
			return nil, false
		}
	}
	return nil, false
}

// value reads a string, a number or null; and of a nested column any value.
func (r *flatReader) value(nested bool) (string, bool) {
	start := r.at
	if r.at >= len(r.data) {
		return "", false
	}
	switch r.data[r.at] {
	case '"':
		if text, ok := r.text(); ok {
			return string(text), true
		}
		r.at = start
		var text string
		ok := r.raw() && json.Unmarshal(r.data[start:r.at], &text) == nil
		return text, ok
	case '[', '{', 't', 'f':
		if !nested {
			return "", false
		}
	}
	if !r.raw() || !json.Valid(r.data[start:r.at]) {
		return "", false
	}
	if text := string(r.data[start:r.at]); text != "null" {
		return text, true
	}
	return "", true
}

// raw passes over a value, which may not be valid.
func (r *flatReader) raw() bool {
	depth, quoted := 0, false
	for ; r.at < len(r.data); r.at++ {
		switch c := r.data[r.at]; {
		case quoted && c == '\\':
			r.at++
		case c == '"':
			quoted = !quoted
			if !quoted && depth == 0 {
				r.at++
				return true
			}
		case quoted:
		case c == '[' || c == '{':
			depth++
		case (c == ']' || c == '}') && depth > 0:
			if depth--; depth == 0 {
				r.at++
				return true
			}
		case depth == 0 && strings.IndexByte(" \t\r\n,]}", c) >= 0:
			return true
		}
	}
	return false
}
