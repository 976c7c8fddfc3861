// Package record reads small tables from CSV or JSON, such as a deviation card or a list of
// bearings. Every error says on which line the fault is.
//
//	rows, err := record.Read(os.Stdin, record.Columns{Required: []string{"mark", "bearing"}})
//	if err != nil {
//		log.Fatal(err) // such as: line 1: unknown column "time"; the columns are mark, bearing
//	}
//	for _, row := range rows {
//		fmt.Println(row.Text("mark"), row.Text("bearing"))
//	}
//
// # Where to begin
//
// These readers use this package:
//
//   - a deviation card: [lubberline.example/deviation.ReadTable]
//   - a swing: [lubberline.example/deviation/swing.ReadSwing]
//   - a chart's roses: [lubberline.example/variation.ReadChart]
//   - waypoints: [lubberline.example/course/passage.ReadWaypoints]
//
// For your own table, name its [Columns] and call [Read]. If a value is wrong, return
// [Row.Fault], which adds the line to your error.
package record

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"
)

// Columns names the columns of a table.
type Columns struct {
	Required []string // must have a value in every row
	Optional []string // may be missing, or empty in a row

	// Nested are columns of Optional that may also hold any other value of JSON, such as
	// an array. Its text is then the JSON.
	Nested []string

	// Partial asks Read to return the rows before a fault together with the error, so that
	// a broken line of a log loses no other.
	Partial bool
}

// A Row is one row of a table.
type Row struct {
	Line   int // the line where the row begins, from 1
	number int // from 1, if the line has other rows; otherwise 0
	fields []field
}

// A field is the text in one column. A row has few fields, so a search is as fast as a map
// and takes less memory.
type field struct {
	column, text string
	line         int
}

// field returns the field in a column. It reports false if the row has none.
func (r Row) field(column string) (f field, ok bool) {
	for _, f := range r.fields {
		if f.column == column {
			return f, true
		}
	}
	return field{}, false
}

// Text returns the text in a column, without spaces around it. It is empty if the cell is, or if
// the table has no such column.
func (r Row) Text(column string) string {
	f, _ := r.field(column)
	return f.text
}

// Has reports whether a column has text in this row.
func (r Row) Has(column string) bool { return r.Text(column) != "" }

// Fault returns an [*Error] that adds the line and the column to err.
func (r Row) Fault(column string, err error) *Error {
	line := r.Line
	if f, ok := r.field(column); ok {
		line = f.line
	}
	return &Error{Line: line, Row: r.number, Column: column, Err: err}
}

// An Error says what is wrong in a file, and where.
//
// If Err is or wraps an error of an exported type, such as an [*lubberline.example/angle.ParseError],
// a value is at fault. Otherwise the form of the table is: the file is empty, a column is missing
// or unknown, or a required value is. The text of Err says which.
type Error struct {
	Line   int    // from 1; 0 if it is not known, or the whole file is wrong
	Row    int    // from 1, if several rows of JSON stand on the line, or the line is not known; otherwise 0
	Column string // the name of the column; empty if the fault is not in one column
	Err    error  // what is wrong
}

// Error returns "line 7, deviation: …", or "line 1, row 3, deviation: …" if several rows
// stand on the line. Without a line it returns "row 3, deviation: …".
func (e *Error) Error() string {
	var b strings.Builder
	part := func(format string, value any) {
		if b.Len() > 0 {
			b.WriteString(", ")
		}
		fmt.Fprintf(&b, format, value)
	}
	if e.Line > 0 {
		part("line %d", e.Line)
	}
	if e.Row > 0 {
		part("row %d", e.Row)
	}
	if e.Column != "" {
		part("%s", e.Column)
	}
	if b.Len() > 0 {
		b.WriteString(": ")
	}
	b.WriteString(e.Err.Error())
	return b.String()
}

// Unwrap returns what is wrong, without the place.
func (e *Error) Unwrap() error { return e.Err }

// The limits of [Read].
const (
	MaxBytes    = 16 << 20  // of a file
	MaxRows     = 1_000_000 // of a table
	MaxRowBytes = 64 << 10  // of a row of CSV, with the comments and blank lines before it
)

// Read reads a table. If the file begins with [ it is JSON: an array of objects whose
// values are strings or numbers. Otherwise it is CSV with commas, and its first line names
// the columns. Lines that begin with # are comments. Read skips blank lines and rows of
// empty fields. Columns may stand in any order. The text is UTF-8, with or without a byte
// order mark. Lines end in LF or CRLF.
//
// Every error is an [*Error]. Read returns one for a column that is not in columns, since
// it may matter. It also returns one if r is nil, if r fails (it wraps that error), and if
// the file is beyond [MaxBytes], [MaxRows] or [MaxRowBytes].
func Read(r io.Reader, columns Columns) ([]Row, error) {
	if r == nil {
		return nil, &Error{Err: errors.New("no reader: it is nil; give an open file")}
	}
	data, err := readAll(r)
	if err != nil {
		return nil, err
	}
	if err := checkText(data); err != nil {
		if !columns.Partial {
			return nil, err
		}
		before, _ := read(data[:lineStart(data, err.Line)], columns)
		return before, err
	}
	return read(data, columns)
}

// lineStart returns the offset at which a line begins.
func lineStart(data []byte, line int) int {
	at := 0
	for ; line > 1; line-- {
		at += 1 + bytes.IndexByte(data[at:], '\n')
	}
	return at
}

// read reads a table from UTF-8.
func read(data []byte, columns Columns) ([]Row, error) {
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	first := bytes.TrimLeft(data, " \t\r\n")
	if len(first) == 0 {
		return nil, &Error{Err: errors.New("the file is empty: write CSV with a line of column names, or a JSON array of objects")}
	}
	var rows []Row
	var err error
	switch first[0] {
	case '[':
		var flat bool
		if rows, flat = readFlat(data, columns); !flat {
			rows, err = readJSON(data, columns)
		}
	case '{':
		err = &Error{Line: lineAt(data, len(data)-len(first)), Err: errors.New("this is a JSON object: write a JSON array of objects, or CSV")}
	default:
		rows, err = readCSV(data, columns)
	}
	if err != nil && !columns.Partial {
		return nil, err
	}
	if err == nil && len(rows) == 0 {
		return nil, &Error{Err: errors.New("the table has no rows: write at least one")}
	}
	for i, row := range rows {
		for _, name := range columns.Required {
			if !row.Has(name) {
				fault := row.Fault(name, errors.New("empty: every row needs a value in this column"))
				if !columns.Partial {
					return nil, fault
				}
				return rows[:i:i], fault
			}
		}
	}
	return rows, err
}

// readAll reads a file up to [MaxBytes]. Unlike io.ReadAll it stops if the reader keeps
// returning neither bytes nor an error.
func readAll(r io.Reader) ([]byte, error) {
	b := bufio.NewReaderSize(r, 32<<10)
	var data []byte
	if known, ok := r.(interface{ Len() int }); ok {
		data = make([]byte, 0, max(0, min(known.Len(), MaxBytes)))
	}
	for {
		_, err := b.Peek(1)
		if err == io.EOF {
			return data, nil
		}
		if err != nil {
			return nil, &Error{Line: lineAt(data, len(data)), Err: err}
		}
		ahead, _ := b.Peek(b.Buffered())
		if len(data)+len(ahead) > MaxBytes {
			return nil, &Error{Err: fmt.Errorf("the file has more than %d MiB, the maximum: split it", MaxBytes>>20)}
		}
		data = append(data, ahead...)
		b.Discard(len(ahead))
	}
}

// checkText returns an error if the data are not UTF-8. The JSON decoder would replace the
// bytes without an error.
func checkText(data []byte) *Error {
	if bytes.HasPrefix(data, []byte("\xff\xfe")) || bytes.HasPrefix(data, []byte("\xfe\xff")) {
		return &Error{Line: 1, Err: errors.New("the file is in UTF-16: save it as UTF-8")}
	}
	for at := 0; at < len(data); {
		r, width := utf8.DecodeRune(data[at:])
		if r == utf8.RuneError && width == 1 {
			return &Error{Line: lineAt(data, at), Err: fmt.Errorf("byte %#x is not UTF-8: save the file as UTF-8", data[at])}
		}
		at += width
	}
	return nil
}

// lineAt returns the line of an offset.
func lineAt(data []byte, at int) int { return 1 + bytes.Count(data[:at], []byte("\n")) }

var errTooManyRows = fmt.Errorf("more than %d rows, the maximum: split the file", MaxRows)

// check returns an error for an unknown column, or for a column that occurs twice.
func (c Columns) check(name string, seen map[string]bool) error {
	if !slices.Contains(c.Required, name) && !slices.Contains(c.Optional, name) {
		return fmt.Errorf("unknown column %.60q; the columns are %s", name, c)
	}
	if seen[name] {
		return fmt.Errorf("the column %q occurs twice: remove one", name)
	}
	seen[name] = true
	return nil
}

// String lists the columns for a message.
func (c Columns) String() string {
	s := strings.Join(c.Required, ", ")
	if len(c.Optional) > 0 {
		s += " (optional: " + strings.Join(c.Optional, ", ") + ")"
	}
	return s
}
