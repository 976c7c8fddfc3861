// Package record reads the small tables that navigators and programs keep, a
// deviation card or a list of bearings, from CSV or JSON, and says of every
// fault on which line it stands.
//
//	rows, err := record.Read(file, record.Columns{Required: []string{"mark", "bearing"}})
//	if err != nil {
//		log.Fatal(err) // such as: line 1: unknown column "time": want mark, bearing
//	}
//	for _, row := range rows {
//		fmt.Println(row.Text("mark"), row.Text("bearing"))
//	}
//
// # Where to begin
//
// For a deviation table, a swing, a chart's roses or waypoints there are readers that
// use this package: [lubberline.example/deviation.ReadTable],
// [lubberline.example/deviation/swing.ReadSwing], [lubberline.example/variation.ReadChart],
// [lubberline.example/course/passage.ReadWaypoints]. For a table of your own name its
// [Columns], call [Read], and give what the figures turn out to be at fault in to
// [Row.Fault], which adds the line.
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

// Columns says which columns a table has.
type Columns struct {
	Required []string // must be there, with something in every row
	Optional []string // may be missing, or empty in a row
}

// A Row is one row of a table.
type Row struct {
	Line   int // where it begins in the file, from 1
	number int // from 1, if the line has other rows; otherwise 0
	fields []field
}

// A field is what stands in a column. A row has few: finding one among them is as
// quick as a map, in far less memory.
type field struct {
	column, text string
	line         int
}

func (r Row) field(column string) (f field, ok bool) {
	for _, f := range r.fields {
		if f.column == column {
			return f, true
		}
	}
	return field{}, false
}

// Text returns what stands in a column, without blanks around it. It is empty
// if the column is optional and has nothing there.
func (r Row) Text(column string) string {
	f, _ := r.field(column)
	return f.text
}

// Has reports whether there is something in a column.
func (r Row) Has(column string) bool { return r.Text(column) != "" }

// Fault returns an [*Error] for what is wrong in a column of this row.
func (r Row) Fault(column string, err error) *Error {
	line := r.Line
	if f, ok := r.field(column); ok {
		line = f.line
	}
	return &Error{Line: line, Row: r.number, Column: column, Err: err}
}

// An Error says where in a file something is wrong, and what.
type Error struct {
	Line   int    // from 1; 0 if the fault is the whole file's
	Row    int    // from 1, where several rows of JSON stand on the line; otherwise 0
	Column string // the name of the column, if it is one column's fault
	Err    error  // what is wrong
}

// Error returns "line 7, deviation: …", or "line 1, row 3, deviation: …" where several
// rows stand on the line.
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

// Bounds of what is read, far beyond any table that is kept.
const (
	MaxBytes    = 16 << 20  // of a file
	MaxRows     = 1_000_000 // of a table
	MaxRowBytes = 64 << 10  // of a row of CSV, with the comments and blank lines before it
)

// Read reads a table. If it begins with [ it is JSON: an array of objects whose
// values are strings or numbers. Otherwise it is CSV, whose first line names the
// columns and whose fields are separated by commas. Lines that begin with # are comments.
// Blank lines and rows of empty fields are passed over. Columns may come in any order.
// A column that is not asked for is refused, since something unread may matter. The
// text is UTF-8, with or without a byte order mark; lines end in LF or CRLF.
//
// Files beyond [MaxBytes], [MaxRows] or [MaxRowBytes] are refused, and no more
// is read of them. Every error is an [*Error]; that of the reader is wrapped. A nil reader
// is refused too.
func Read(r io.Reader, columns Columns) ([]Row, error) {
	if r == nil {
		return nil, &Error{Err: errors.New("no reader: nil")}
	}
	data, err := readAll(r)
	if err != nil {
		return nil, err
	}
	if err := checkText(data); err != nil {
		return nil, err
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	first := bytes.TrimLeft(data, " \t\r\n")
	if len(first) == 0 {
		return nil, &Error{Err: errors.New("the file is empty: want CSV with a line of column names, or a JSON array of objects")}
	}
	var rows []Row
	switch first[0] {
	case '[':
		rows, err = readJSON(data, columns)
	case '{':
		err = &Error{Line: lineAt(data, len(data)-len(first)), Err: errors.New("this is a JSON object: want a JSON array of objects, or CSV")}
	default:
		rows, err = readCSV(data, columns)
	}
	if err != nil {
		return nil, err
	}
	if len(rows) == 0 {
		return nil, &Error{Err: errors.New("there are no rows")}
	}
	for _, row := range rows {
		for _, name := range columns.Required {
			if !row.Has(name) {
				return nil, row.Fault(name, errors.New("nothing here: every row needs this column"))
			}
		}
	}
	return rows, nil
}

// readAll reads a file up to [MaxBytes]. Unlike io.ReadAll it gives up on a reader
// that brings nothing and no error.
func readAll(r io.Reader) ([]byte, error) {
	b := bufio.NewReaderSize(r, 32<<10)
	var data []byte
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
			return nil, &Error{Err: fmt.Errorf("more than %d MiB: want a table of at most that", MaxBytes>>20)}
		}
		data = append(data, ahead...)
		b.Discard(len(ahead))
	}
}

// checkText refuses what is no text in UTF-8: the decoder of JSON would put another
// character in its place and say nothing.
func checkText(data []byte) error {
	if bytes.HasPrefix(data, []byte("\xff\xfe")) || bytes.HasPrefix(data, []byte("\xfe\xff")) {
		return &Error{Line: 1, Err: errors.New("the file is in UTF-16: want UTF-8")}
	}
	for at := 0; at < len(data); {
		r, width := utf8.DecodeRune(data[at:])
		if r == utf8.RuneError && width == 1 {
			return &Error{Line: lineAt(data, at), Err: fmt.Errorf("a byte %#x that is not UTF-8: want text in UTF-8", data[at])}
		}
		at += width
	}
	return nil
}

// lineAt is the line on which an offset lies.
func lineAt(data []byte, at int) int { return 1 + bytes.Count(data[:at], []byte("\n")) }

var errTooManyRows = fmt.Errorf("more than %d rows: want a table of at most that", MaxRows)

func readCSV(data []byte, columns Columns) ([]Row, error) {
	lines := &lineReader{rest: data}
	c := csv.NewReader(lines)
	c.Comment = '#'
	c.FieldsPerRecord = -1 // counted here, for a message of our own
	c.TrimLeadingSpace = true
	header, err := lines.next(c)
	if err != nil {
		return nil, csvError(err)
	}
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
			return nil, &Error{Line: headerLine, Err: fmt.Errorf("no column %q: want %s", name, columns)}
		}
	}
	var rows []Row
	for {
		record, err := lines.next(c)
		if err == io.EOF {
			return rows, nil
		}
		if err != nil {
			return nil, csvError(err)
		}
		line, _ := c.FieldPos(0)
		if blank(record) {
			continue // as a spreadsheet writes an empty row
		}
		if len(record) != len(header) {
			return nil, &Error{Line: line, Err: fmt.Errorf("%d fields under %d columns%s", len(record), len(header), hint(record, len(header)))}
		}
		if len(rows) == MaxRows {
			return nil, &Error{Line: line, Err: errTooManyRows}
		}
		row := Row{Line: line, fields: make([]field, len(record))}
		for i, text := range record {
			at, _ := c.FieldPos(i)
			row.fields[i] = field{header[i], fromCell(strings.TrimSpace(text)), at}
		}
		rows = append(rows, row)
	}
}

// formula are the characters with which a cell begins that a spreadsheet may take for a
// formula (OWASP, CSV Injection).
const formula = "=+-@\t\r"

// Cell returns a text from outside, a name, as a cell of CSV that no spreadsheet takes for
// a formula: with an apostrophe before it if it begins with = + - @, a tab or a carriage
// return. [Read] takes the apostrophe off again. Figures of the program's own need no Cell.
func Cell(text string) string {
	if text = strings.TrimSpace(text); text != "" && strings.ContainsRune(formula, rune(text[0])) || isCell(text) {
		return "'" + text
	}
	return text
}

// isCell reports whether a text is what [Cell] makes of a formula, or of a text like that.
func isCell(text string) bool {
	rest := strings.TrimLeft(text, "'")
	return rest != text && rest != "" && strings.ContainsRune(formula, rune(rest[0]))
}

// fromCell takes off the apostrophe of [Cell].
func fromCell(text string) string {
	if isCell(text) {
		return text[1:]
	}
	return text
}

// otherSeparator names what separates the columns of a header that is one field, unless
// nothing does.
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

// blank reports whether a row holds nothing.
func blank(record []string) bool {
	return !slices.ContainsFunc(record, func(text string) bool { return strings.TrimSpace(text) != "" })
}

// hint says what makes a row of another number of fields than the header: another
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
	return ""
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

// A lineReader gives a file out line by line, so that what is read for a row of CSV
// is counted: a line of commas alone takes forty times its size as fields.
type lineReader struct {
	rest  []byte
	line  int // of what was given out last
	begun int // the line with which the row began
	bytes int // of the row
}

// next reads the next row.
func (l *lineReader) next(c *csv.Reader) ([]string, error) {
	l.begun, l.bytes = l.line+1, 0
	return c.Read()
}

// Read gives out what is left of a line, or as much of it as there is room for.
func (l *lineReader) Read(p []byte) (int, error) {
	if len(l.rest) == 0 {
		return 0, io.EOF
	}
	if l.bytes > MaxRowBytes {
		return 0, &Error{Line: l.begun, Err: fmt.Errorf("more than %d KiB in one row: want a row of at most that, and its quotes closed", MaxRowBytes>>10)}
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

func csvError(err error) error {
	if err == io.EOF {
		return &Error{Err: errors.New("no line of column names")}
	}
	if parse, ok := errors.AsType[*csv.ParseError](err); ok {
		return &Error{Line: parse.Line, Err: parse.Err}
	}
	return err // that of the lineReader
}

// check refuses a column that is not asked for, or is there twice.
func (c Columns) check(name string, seen map[string]bool) error {
	if !slices.Contains(c.Required, name) && !slices.Contains(c.Optional, name) {
		return fmt.Errorf("unknown column %.60q: want %s", name, c)
	}
	if seen[name] {
		return fmt.Errorf("column %q twice", name)
	}
	seen[name] = true
	return nil
}

// String lists the columns for a message.
func (c Columns) String() string {
	s := strings.Join(c.Required, ", ")
	if len(c.Optional) > 0 {
		s += " (and, where wanted, " + strings.Join(c.Optional, ", ") + ")"
	}
	return s
}
