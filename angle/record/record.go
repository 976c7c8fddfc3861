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
// [lubberline.example/deviation.ReadSwing], [lubberline.example/variation.ReadChart],
// [lubberline.example/course/passage.ReadWaypoints]. For a table of one's own name its
// [Columns], call [Read], and give what the figures turn out to be at fault in to
// [Row.Fault], which adds the line.
package record

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
)

// Columns says which columns a table has.
type Columns struct {
	Required []string // must be there, with something in every row
	Optional []string // may be missing, or empty in a row
}

// A Row is one row of a table.
type Row struct {
	Line   int // where it begins in the file, from 1
	fields map[string]field
}

type field struct {
	text string
	line int
}

// Text returns what stands in a column, without blanks around it. It is empty
// if the column is optional and has nothing there.
func (r Row) Text(column string) string { return r.fields[column].text }

// Has reports whether there is something in a column.
func (r Row) Has(column string) bool { return r.fields[column].text != "" }

// Fault returns an [*Error] for what is wrong in a column of this row.
func (r Row) Fault(column string, err error) *Error {
	line := r.Line
	if f, ok := r.fields[column]; ok {
		line = f.line
	}
	return &Error{Line: line, Column: column, Err: err}
}

// An Error says where in a file something is wrong, and what.
type Error struct {
	Line   int    // from 1; 0 if the fault is the whole file's
	Column string // the name of the column, if it is one column's fault
	Err    error  // what is wrong
}

// Error returns "line 7, deviation: …".
func (e *Error) Error() string {
	var b strings.Builder
	if e.Line > 0 {
		fmt.Fprintf(&b, "line %d", e.Line)
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

// Read reads a table. If it begins with [ it is JSON: an array of objects whose
// values are strings or numbers. Otherwise it is CSV, whose first line names the
// columns; lines that begin with # are comments. Columns may come in any order,
// but those not asked for are refused, since something unread may matter. Every
// error is an [*Error].
func Read(r io.Reader, columns Columns) ([]Row, error) {
	buffered := bufio.NewReader(r)
	first, err := firstByte(buffered)
	if err == io.EOF {
		return nil, &Error{Err: errors.New("the file is empty: want CSV with a line of column names, or a JSON array of objects")}
	}
	if err != nil {
		return nil, &Error{Err: err}
	}
	var rows []Row
	if first == '[' {
		rows, err = readJSON(buffered, columns)
	} else {
		rows, err = readCSV(buffered, columns)
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

// firstByte peeks at the first byte that is not blank, past a byte order mark.
func firstByte(r *bufio.Reader) (byte, error) {
	if mark, err := r.Peek(3); err == nil && bytes.Equal(mark, []byte("\ufeff")) {
		r.Discard(3)
	}
	for n := 1; ; n++ {
		ahead, err := r.Peek(n)
		if len(ahead) < n {
			if err == bufio.ErrBufferFull {
				return ' ', nil // a page of blanks: let the CSV reader say so
			}
			return 0, err
		}
		if b := ahead[n-1]; b != ' ' && b != '\t' && b != '\r' && b != '\n' {
			return b, nil
		}
	}
}

func readCSV(r io.Reader, columns Columns) ([]Row, error) {
	c := csv.NewReader(r)
	c.Comment = '#'
	c.FieldsPerRecord = -1 // counted here, for a message of our own
	c.TrimLeadingSpace = true
	header, err := c.Read()
	if err != nil {
		return nil, csvError(err)
	}
	headerLine, _ := c.FieldPos(0)
	seen := map[string]bool{}
	for i, name := range header {
		name = strings.ToLower(strings.TrimSpace(name))
		header[i] = name
		if err := columns.check(name, seen); err != nil {
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
		record, err := c.Read()
		if err == io.EOF {
			return rows, nil
		}
		if err != nil {
			return nil, csvError(err)
		}
		line, _ := c.FieldPos(0)
		if len(record) != len(header) {
			return nil, &Error{Line: line, Err: fmt.Errorf("%d fields under %d columns", len(record), len(header))}
		}
		row := Row{Line: line, fields: make(map[string]field, len(record))}
		for i, text := range record {
			at, _ := c.FieldPos(i)
			row.fields[header[i]] = field{strings.TrimSpace(text), at}
		}
		rows = append(rows, row)
	}
}

func csvError(err error) error {
	if err == io.EOF {
		return &Error{Err: errors.New("no line of column names")}
	}
	var parse *csv.ParseError
	if errors.As(err, &parse) {
		return &Error{Line: parse.Line, Err: parse.Err}
	}
	return &Error{Err: err}
}

// check refuses a column that is not asked for, or is there twice.
func (c Columns) check(name string, seen map[string]bool) error {
	if !slices.Contains(c.Required, name) && !slices.Contains(c.Optional, name) {
		return fmt.Errorf("unknown column %q: want %s", name, c)
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

func readJSON(r io.Reader, columns Columns) ([]Row, error) {
	data, err := io.ReadAll(r)
	if err != nil {
		return nil, &Error{Err: err}
	}
	d := json.NewDecoder(bytes.NewReader(data))
	d.UseNumber()
	lineAt := func(offset int64) int { return 1 + bytes.Count(data[:min(offset, int64(len(data)))], []byte("\n")) }
	// line is the line of what comes next, past blanks and punctuation.
	line := func() int {
		at := d.InputOffset()
		for at < int64(len(data)) && strings.IndexByte(" \t\r\n,:", data[at]) >= 0 {
			at++
		}
		return lineAt(at)
	}
	fault := func(err error) error {
		var syntax *json.SyntaxError
		if errors.As(err, &syntax) {
			return &Error{Line: lineAt(syntax.Offset), Err: err}
		}
		if err == io.EOF || err == io.ErrUnexpectedEOF {
			err = errors.New("the file ends before the array does")
		}
		return &Error{Line: lineAt(d.InputOffset()), Err: err}
	}
	if _, err := d.Token(); err != nil { // the bracket already seen
		return nil, fault(err)
	}
	var rows []Row
	for d.More() {
		row := Row{Line: line(), fields: map[string]field{}}
		open, err := d.Token()
		if err != nil {
			return nil, fault(err)
		}
		if open != json.Delim('{') {
			return nil, &Error{Line: row.Line, Err: errors.New("want an object for each row")}
		}
		seen := map[string]bool{}
		for d.More() {
			at := line()
			key, err := d.Token()
			if err != nil {
				return nil, fault(err)
			}
			name := strings.ToLower(key.(string)) // the decoder gives strings as keys
			if err := columns.check(name, seen); err != nil {
				return nil, &Error{Line: at, Err: err}
			}
			value, err := d.Token()
			if err != nil {
				return nil, fault(err)
			}
			switch v := value.(type) {
			case string:
				row.fields[name] = field{strings.TrimSpace(v), at}
			case json.Number:
				row.fields[name] = field{v.String(), at}
			case nil:
				row.fields[name] = field{"", at}
			default:
				return nil, &Error{Line: at, Column: name, Err: errors.New("want a string or a number")}
			}
		}
		if _, err := d.Token(); err != nil {
			return nil, fault(err)
		}
		rows = append(rows, row)
	}
	if _, err := d.Token(); err != nil {
		return nil, fault(err)
	}
	if _, err := d.Token(); err != io.EOF {
		return nil, &Error{Line: line(), Err: errors.New("want nothing after the array")}
	}
	return rows, nil
}
