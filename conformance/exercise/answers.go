package exercise

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"lubberline.example/angle/record"
	"lubberline.example/conformance/slip"
)

// errRow reports a row of answers that is too long.
var errRow = fmt.Errorf("the row is longer than %d KiB: end each row with a line break, and close each quote", record.MaxRowBytes>>10)

// A rowReader reads a file up to a limit that moves with the rows. A quote that is not closed
// could otherwise take in the whole file.
type rowReader struct {
	r       io.Reader
	read    int64
	allowed int64
}

// Read reads from the file. It fails beyond the limit.
func (l *rowReader) Read(b []byte) (int, error) {
	if l.read >= l.allowed {
		return 0, errRow
	}
	n, err := l.r.Read(b)
	l.read += int64(n)
	return n, err
}

// An answerReader reads rows of answers.
type answerReader struct {
	paper   Paper
	keys    []map[string]bool // the figures of each problem
	rows    *rowReader
	csv     *csv.Reader
	columns []string
	isText  bool // the first line is UTF-8
	seen    map[answered]bool
	line    int // of the last row
}

// answered is an answer of a learner to a question.
type answered struct {
	name     string
	question int
}

// A given is a row of answers.
type given struct {
	answered
	entries []slip.Entry
}

// fixedColumns are the columns that are not figures.
var fixedColumns = []string{"name", "question"}

// newAnswerReader reads the first line of a file of answers, which names the columns.
func newAnswerReader(p Paper, r io.Reader) (*answerReader, error) {
	if r == nil {
		return nil, &record.Error{Err: errors.New("the file of answers is nil: give a reader")}
	}
	// The buffers of both readers may read ahead.
	const ahead = 2 * 4096
	a := &answerReader{paper: p, rows: &rowReader{r: r, allowed: record.MaxRowBytes + ahead}, seen: map[answered]bool{}}
	for _, q := range p.Problems {
		keys := map[string]bool{"answer": true}
		for _, f := range q.Figures() {
			keys[f.Key] = true
		}
		a.keys = append(a.keys, keys)
	}
	b := bufio.NewReader(a.rows)
	if mark, err := b.Peek(3); err == nil && bytes.Equal(mark, []byte("\ufeff")) { // of some spreadsheets
		b.Discard(3)
	}
	first, _ := b.Peek(4096)
	a.csv = csv.NewReader(b)
	a.csv.Comment, a.csv.FieldsPerRecord, a.csv.TrimLeadingSpace = '#', -1, true
	a.csv.Comma = separator(first)
	header, err := a.csv.Read()
	if errors.Is(err, io.EOF) {
		return nil, &record.Error{Err: errors.New("the file of answers is empty: give the columns name, question and answer")}
	}
	if err != nil {
		return nil, faultOf(err, 1)
	}
	line, _ := a.csv.FieldPos(0)
	a.isText = true
	for _, name := range header {
		a.isText = a.isText && utf8.ValidString(name)
		a.columns = append(a.columns, strings.ToLower(plain(name)))
	}
	return a, a.checkColumns(line)
}

// separator returns the separator of the first line that is not a comment.
func separator(text []byte) rune {
	for line := range bytes.Lines(text) {
		if line = bytes.TrimSpace(line); len(line) == 0 || line[0] == '#' {
			continue
		}
		for _, sign := range ";\t" {
			if bytes.ContainsRune(line, sign) && !bytes.ContainsRune(line, ',') {
				return sign
			}
		}
		break
	}
	return ','
}

// checkColumns checks the names of the columns.
func (a *answerReader) checkColumns(line int) error {
	accepted := append(slices.Clone(fixedColumns), "answer")
	for _, q := range a.paper.Problems {
		for _, f := range q.Figures() {
			if !slices.Contains(accepted, f.Key) {
				accepted = append(accepted, f.Key)
			}
		}
	}
	figures := 0
	for i, name := range a.columns {
		switch {
		case !a.isText:
			return &record.Error{Line: line, Err: fmt.Errorf("the file is not UTF-8: save it as CSV in UTF-8; the columns are %s", strings.Join(accepted, ", "))}
		case !slices.Contains(accepted, name):
			return &record.Error{Line: line, Err: fmt.Errorf("the column %.60q is unknown; the columns are %s", name, strings.Join(accepted, ", "))}
		case slices.Contains(a.columns[:i], name):
			return &record.Error{Line: line, Err: fmt.Errorf("the column %q stands twice: give it once", name)}
		case !slices.Contains(fixedColumns, name):
			figures++
		}
	}
	if figures == 0 || !slices.Contains(a.columns, "question") {
		return &record.Error{Line: line, Err: errors.New("the first line must name the columns question and answer, such as name,question,answer")}
	}
	return nil
}

// next returns the next row of answers, or io.EOF.
func (a *answerReader) next() (given, error) {
	for {
		a.rows.allowed = a.csv.InputOffset() + record.MaxRowBytes + 2*4096 + 3
		cells, err := a.csv.Read()
		if errors.Is(err, io.EOF) {
			return given{}, io.EOF
		}
		if err != nil {
			return given{}, faultOf(err, a.line+1)
		}
		if !slices.ContainsFunc(cells, func(c string) bool { return strings.TrimSpace(c) != "" }) {
			continue
		}
		a.line, _ = a.csv.FieldPos(0)
		return a.row(a.line, cells)
	}
}

// row reads the cells of a row.
func (a *answerReader) row(line int, cells []string) (given, error) {
	if len(cells) != len(a.columns) {
		return given{}, &record.Error{Line: line, Err: fmt.Errorf("the row has %d cells; give %d, as in the first line", len(cells), len(a.columns))}
	}
	var g given
	for i, column := range a.columns {
		text := plain(cells[i])
		if !utf8.ValidString(text) {
			return given{}, &record.Error{Line: line, Column: column, Err: errors.New("the text is not UTF-8: save the file as CSV in UTF-8")}
		}
		switch column {
		case "name":
			g.name = text
		case "question":
			n, err := strconv.Atoi(text)
			if err != nil || n < 1 || n > len(a.paper.Problems) {
				return given{}, &record.Error{Line: line, Column: column, Err: fmt.Errorf("question %.60q: write a number from 1 to %d", text, len(a.paper.Problems))}
			}
			g.question = n
		default:
			if text != "" {
				g.entries = append(g.entries, slip.Entry{Key: column, Text: text})
			}
		}
	}
	for _, e := range g.entries {
		if !a.keys[g.question-1][e.Key] {
			return given{}, &record.Error{Line: line, Column: e.Key, Err: fmt.Errorf("question %d has no such figure: leave the cell empty", g.question)}
		}
	}
	if a.seen[g.answered] {
		return given{}, &record.Error{Line: line, Column: "question", Err: fmt.Errorf("question %d of %.60q stands twice: give each question once for each name", g.question, g.name)}
	}
	if len(a.seen) == record.MaxRows {
		return given{}, &record.Error{Line: line, Err: fmt.Errorf("more than %d rows: split the file", record.MaxRows)}
	}
	a.seen[g.answered] = true
	return g, nil
}

// faultOf adds the line to an error of the CSV reader. After says on which line or after it.
func faultOf(err error, after int) error {
	if e, ok := errors.AsType[*csv.ParseError](err); ok {
		return &record.Error{Line: e.Line, Err: e.Err}
	}
	return &record.Error{Line: after, Err: err}
}

// plain returns a cell without spaces around it, and without the apostrophe of [record.Cell].
func plain(text string) string {
	text = strings.TrimSpace(text)
	if rest, has := strings.CutPrefix(text, "'"); has && record.Cell(rest) == text {
		return rest
	}
	return text
}
