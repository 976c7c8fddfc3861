package record

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
)

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
	if err := columns.checkHeader(header); err != nil {
		return nil, &Error{Line: headerLine, Err: err}
	}
	var rows []Row
	var room []field // of the rows to come
	for {
		record, err := lines.next(c)
		if err == io.EOF {
			return rows, nil
		} else if err != nil {
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

// checkHeader returns an error if the names of the columns are not those that are asked for. It
// makes them lower case.
func (c Columns) checkHeader(header []string) error {
	seen := map[string]bool{}
	for i, name := range header {
		name = strings.ToLower(strings.TrimSpace(name))
		header[i] = name
		if err := c.check(name, seen); err != nil {
			if separator := otherSeparator(header); separator != "" {
				err = fmt.Errorf("the columns are separated by %s: separate them by commas", separator)
			}
			return err
		}
	}
	for _, name := range c.Required {
		if !seen[name] {
			return fmt.Errorf("no column %q; the columns are %s", name, c)
		}
	}
	return nil
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
		switch parse.Err {
		case csv.ErrBareQuote:
			return &Error{Line: parse.Line, Err: fmt.Errorf("%w: for seconds write ″, or put the cell in quotes and double each quote inside it", parse.Err)}
		case csv.ErrQuote:
			return &Error{Line: parse.Line, Err: fmt.Errorf("%w: close each quote, and double each quote inside a cell", parse.Err)}
		}
		return &Error{Line: parse.Line, Err: parse.Err}
	}
	return err // the lineReader's error
}
