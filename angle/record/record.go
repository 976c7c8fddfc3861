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
	"encoding/csv"
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

// Text returns the text in a column, without spaces around it. It is empty if the column
// is optional and empty in this row.
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
type Error struct {
	Line   int    // from 1; 0 if the whole file is wrong
	Row    int    // from 1, if several rows of JSON stand on the line; otherwise 0
	Column string // the name of the column; empty if the fault is not in one column
	Err    error  // what is wrong
}

// Error returns "line 7, deviation: …", or "line 1, row 3, deviation: …" if several rows
// stand on the line.
func (e *Error) Error() string {
	var b strings.Builder
	if e.Line > 0 {
		fmt.Fprintf(&b, "line %d", e.Line)
		if e.Row > 0 {
			fmt.Fprintf(&b, ", row %d", e.Row)
		}
		if e.Column != "" {
			b.WriteString(", ")
		}
	}
	b.WriteString(e.Column)
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

// roomFor is the number of rows for which there is room at a time.
const roomFor = 1000

// readCSV reads a table with a line of column names.
func readCSV(data []byte, columns Columns) ([]Row, error) {
	lines := &lineReader{rest: data}
	c := csv.NewReader(lines)
	c.Comment = '#'
	c.FieldsPerRecord = -1 // counted below, for a better message
	c.TrimLeadingSpace = true
	c.ReuseRecord = true
	header, err := lines.next(c)
	if err != nil {
		return nil, csvError(err)
	}
	header = slices.Clone(header)
	headerLine, _ := c.FieldPos(0)
	seen := map[string]bool{}
	for i, name := range header {
		name = strings.ToLower(strings.TrimSpace(name))
		header[i] = name
		if err := columns.check(name, seen); err != nil {
			if separator := otherSeparator(header); separator != "" {
				err = fmt.Errorf("the columns are separated by %s: separate them by commas", separator)
			}
			return nil, &Error{Line: headerLine, Err: err}
		}
	}
	for _, name := range columns.Required {
		if !seen[name] {
			return nil, &Error{Line: headerLine, Err: fmt.Errorf("no column %q; the columns are %s", name, columns)}
		}
	}
	var rows []Row
	var room []field // of the rows to come
	for {
		record, err := lines.next(c)
		if err == io.EOF {
			return rows, nil
		}
		if err != nil {
			return rows, csvError(err)
		}
		line, _ := c.FieldPos(0)
		if blank(record) {
			continue // a spreadsheet's empty row
		}
		if len(record) != len(header) {
			return rows, &Error{Line: line, Err: fmt.Errorf("%d fields under %d columns%s", len(record), len(header), hint(record, len(header)))}
		}
		if len(rows) == MaxRows {
			return rows, &Error{Line: line, Err: errTooManyRows}
		}
		if len(room) < len(record) {
			left := 1 + bytes.Count(lines.rest, []byte("\n"))
			rows = slices.Grow(rows, min(left, roomFor))
			room = make([]field, len(record)*min(left, roomFor))
		}
		row := Row{Line: line, fields: room[:len(record):len(record)]}
		room = room[len(record):]
		for i, text := range record {
			at, _ := c.FieldPos(i)
			row.fields[i] = field{header[i], fromCell(strings.TrimSpace(text)), at}
		}
		rows = append(rows, row)
	}
}

// formula holds the characters at the start of a cell that a spreadsheet may read as a
// formula (OWASP, CSV Injection).
const formula = "=+-@\t\r"

// Cell returns a text as a CSV cell that no spreadsheet reads as a formula. Cell puts an
// apostrophe before a text that begins with = + - @, a tab or a carriage return. [Read]
// removes it again. Use it for names from outside the program, not for figures.
func Cell(text string) string {
	if text = strings.TrimSpace(text); text != "" && strings.ContainsRune(formula, rune(text[0])) || isCell(text) {
		return "'" + text
	}
	return text
}

// isCell reports whether a text has an apostrophe of [Cell].
func isCell(text string) bool {
	rest := strings.TrimLeft(text, "'")
	return rest != text && rest != "" && strings.ContainsRune(formula, rune(rest[0]))
}

// fromCell removes the apostrophe of [Cell].
func fromCell(text string) string {
	if isCell(text) {
		return text[1:]
	}
	return text
}

// otherSeparator names the separator of a header that was read as one field. It is empty
// if there is no separator.
func otherSeparator(header []string) string {
	if len(header) != 1 {
		return ""
	}
	for _, s := range []struct{ mark, name string }{{";", "semicolons"}, {"\t", "tabs"}, {"|", "bars"}} {
		if strings.Contains(header[0], s.mark) {
			return s.name
		}
	}
	return ""
}

// blank reports whether all fields of a row are empty.
func blank(record []string) bool {
	return !slices.ContainsFunc(record, func(text string) bool { return strings.TrimSpace(text) != "" })
}

// hint says why a row may have a different number of fields from the header: another
// separator, or decimal commas.
func hint(record []string, columns int) string {
	if separator := otherSeparator(record); separator != "" {
		return fmt.Sprintf("; the row is separated by %s: separate the fields by commas", separator)
	}
	for i := 1; i < len(record) && len(record) > columns; i++ {
		whole, part := strings.TrimSpace(record[i-1]), record[i]
		if whole != "" && isDigit(whole[len(whole)-1]) && part != "" && isDigit(part[0]) {
			return "; if a figure has a decimal comma, use a point: 7.5, not 7,5"
		}
	}
	return ": write one field for each column"
}

// isDigit reports whether a character is a digit of ASCII.
func isDigit(c byte) bool { return '0' <= c && c <= '9' }

// A lineReader returns a file line by line and counts the bytes of each CSV row. Without a
// limit, a long line of commas would take forty times its size in memory.
type lineReader struct {
	rest  []byte
	line  int // the line returned last
	begun int // the line where the row began
	bytes int // bytes of the row
}

// next reads the next row.
func (l *lineReader) next(c *csv.Reader) ([]string, error) {
	l.begun, l.bytes = l.line+1, 0
	return c.Read()
}

// Read returns the rest of a line, or as much of it as fits into p.
func (l *lineReader) Read(p []byte) (int, error) {
	if len(l.rest) == 0 {
		return 0, io.EOF
	}
	if l.bytes > MaxRowBytes {
		return 0, &Error{Line: l.begun, Err: fmt.Errorf("more than %d KiB in one row, the maximum: check that its quotes are closed", MaxRowBytes>>10)}
	}
	line := l.rest[:min(len(p), len(l.rest))]
	if end := bytes.IndexByte(line, '\n'); end >= 0 {
		line = line[:end+1]
		l.line++
	}
	n := copy(p, line)
	l.rest, l.bytes = l.rest[n:], l.bytes+n
	return n, nil
}

// csvError returns an error of the CSV reader with its line.
func csvError(err error) error {
	if err == io.EOF {
		return &Error{Err: errors.New("no column names: write them on the first line")}
	}
	if parse, ok := errors.AsType[*csv.ParseError](err); ok {
		return &Error{Line: parse.Line, Err: parse.Err}
	}
	return err // the lineReader's error
}

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
