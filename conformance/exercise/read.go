package exercise

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"reflect"
	"unicode/utf8"

	"lubberline.example/angle/page"
	"lubberline.example/conformance/slip"
)

// The limits of [Read].
const (
	maxBytes    = 4 << 20 // of a file
	maxProblems = 500     // of a paper
	maxText     = 4000    // characters of a text
)

// The limits of lists in a file.
const (
	maxParagraphs = 50
	maxTables     = 20
	maxTableRows  = 200
	maxColumns    = 50
	maxSlips      = 200 // of a problem
	maxSteps      = 200
)

// paperFile is a paper as JSON.
type paperFile struct {
	Title    string        `json:"title"`
	Passage  []string      `json:"passage,omitempty"`
	Tables   []tableFile   `json:"tables,omitempty"`
	Problems []slip.Stated `json:"problems"`
	Made     string        `json:"made,omitempty"`
}

// tableFile is a table as JSON.
type tableFile struct {
	Caption string     `json:"caption"`
	Columns []string   `json:"columns"`
	Rows    [][]string `json:"rows"`
}

// Read reads a paper from JSON, such as a school writes:
//
//	{"title": "Our paper", "passage": ["A text that all questions share."],
//	 "tables": [{"caption": "Deviation", "columns": ["Compass", "Dev."], "rows": [["000", "2°W"]]}],
//	 "made": "Our college, 2026, version 1",
//	 "problems": [{
//	  "topic": "course to steer", "question": "The course is 112°T … by compass?",
//	  "form": "direction", "north": "C", "answer": "114",
//	  "working": [{"what": "Variation", "value": "5°08′W", "how": "rose of 2015"}],
//	  "slips": [{"slip": "variation-wrong-way", "answer": "103"},
//	            {"slip": "the card of the other compass was used", "answer": "117"}]
//	 }]}
//
// Title and problems are required, and of a problem the question, the form and the answer; see
// [slip.Stated]. A slip is one of [slip.Kinds] or a sentence of your own. [Paper.MarshalJSON]
// writes this form.
//
// Read reads at most 4 MiB, 500 problems and texts of 4,000 characters. For an invalid
// file it returns an [*Error] with the place. It returns errors of the reader unchanged.
func Read(r io.Reader) (Paper, error) {
	if r == nil {
		return Paper{}, &Error{Reason: "the file is nil: give a reader"}
	}
	text, err := io.ReadAll(io.LimitReader(r, maxBytes+1))
	if err != nil {
		return Paper{}, err
	}
	if len(text) > maxBytes {
		return Paper{}, &Error{Reason: fmt.Sprintf("the file has more than %d MiB: split it", maxBytes>>20)}
	}
	var f paperFile
	if err := decode(bytes.TrimPrefix(text, []byte("\ufeff")), &f); err != nil {
		return Paper{}, err
	}
	if err := f.check(); err != nil {
		return Paper{}, err
	}
	p := Paper{Title: f.Title, Passage: f.Passage, Made: f.Made}
	for _, t := range f.Tables {
		p.Tables = append(p.Tables, page.Table(t))
	}
	for i, s := range f.Problems {
		q, err := s.Problem()
		if err != nil {
			return Paper{}, &Error{Where: fmt.Sprintf("problems[%d]", i), Reason: "the problem is not valid", Err: err}
		}
		p.Problems = append(p.Problems, q)
	}
	return p, nil
}

// decode reads a value of JSON with no other fields than those known.
func decode(text []byte, into any) error {
	switch first := bytes.TrimSpace(text); {
	case bytes.HasPrefix(text, []byte("\xff\xfe")) || bytes.HasPrefix(text, []byte("\xfe\xff")):
		return &Error{Where: "line 1", Reason: "the file is not JSON in UTF-8, but in UTF-16: save it as UTF-8"}
	case len(first) == 0:
		return &Error{Where: "line 1", Reason: "the file is empty, and not a paper: write the JSON object of a paper"}
	case first[0] != '{' && string(first) != "null":
		return &Error{Where: "line 1", Reason: "the file is not JSON of a paper: it begins with {"}
	}
	d := json.NewDecoder(bytes.NewReader(text))
	d.DisallowUnknownFields()
	err := d.Decode(into)
	if err == nil {
		if _, more := d.Token(); more != io.EOF {
			return &Error{Where: line(text, d.InputOffset()), Reason: "text after the paper: give one object"}
		}
		return nil
	}
	if e, ok := errors.AsType[*json.SyntaxError](err); ok {
		return &Error{Where: line(text, e.Offset), Reason: "the file is not JSON", Err: err}
	}
	if e, ok := errors.AsType[*json.UnmarshalTypeError](err); ok {
		return &Error{Where: line(text, e.Offset) + ", " + e.Field, Reason: fmt.Sprintf("%.30s is given where %s belongs", e.Value, wanted(e.Type))}
	}
	return &Error{Where: line(text, d.InputOffset()), Reason: "the file is not a paper", Err: err}
}

// wanted names what JSON a type takes.
func wanted(t reflect.Type) string {
	switch t.Kind() {
	case reflect.String:
		return "a text"
	case reflect.Slice:
		return "a list"
	case reflect.Float64, reflect.Int:
		return "a number"
	}
	return "an object"
}

// line returns the line of an offset in words.
func line(text []byte, offset int64) string {
	return fmt.Sprintf("line %d", 1+bytes.Count(text[:min(max(offset, 0), int64(len(text)))], []byte("\n")))
}

// A checker finds the first fault of a file.
type checker struct{ err error }

// text checks the length of a text.
func (c *checker) text(text, where string, args ...any) {
	if c.err == nil && utf8.RuneCountInString(text) > maxText {
		c.err = &Error{Where: fmt.Sprintf(where, args...), Reason: fmt.Sprintf("the text has more than %d characters", maxText)}
	}
}

// count checks the length of a list.
func (c *checker) count(n, limit int, where string, args ...any) {
	if c.err == nil && n > limit {
		c.err = &Error{Where: fmt.Sprintf(where, args...), Reason: fmt.Sprintf("%d entries: give at most %d", n, limit)}
	}
}

// check checks the sizes of a file.
func (f paperFile) check() error {
	c := &checker{}
	c.text(f.Title, "title")
	c.text(f.Made, "made")
	c.count(len(f.Passage), maxParagraphs, "passage")
	for i, text := range f.Passage {
		c.text(text, "passage[%d]", i)
	}
	c.count(len(f.Tables), maxTables, "tables")
	for i, t := range f.Tables {
		t.check(c, i)
	}
	c.count(len(f.Problems), maxProblems, "problems")
	if c.err == nil && len(f.Problems) == 0 {
		return &Error{Where: "problems", Reason: "the paper has no problems: give at least one"}
	}
	for i, s := range f.Problems {
		checkProblem(c, s, i)
	}
	return c.err
}

// check checks the sizes of a table.
func (t tableFile) check(c *checker, i int) {
	c.text(t.Caption, "tables[%d].caption", i)
	c.count(len(t.Columns), maxColumns, "tables[%d].columns", i)
	c.count(len(t.Rows), maxTableRows, "tables[%d].rows", i)
	for _, text := range t.Columns {
		c.text(text, "tables[%d].columns", i)
	}
	for j, row := range t.Rows {
		c.count(len(row), len(t.Columns), "tables[%d].rows[%d]", i, j)
		for _, text := range row {
			c.text(text, "tables[%d].rows[%d]", i, j)
		}
	}
}

// checkProblem checks the sizes of a problem.
func checkProblem(c *checker, s slip.Stated, i int) {
	c.text(s.Topic, "problems[%d].topic", i)
	c.text(s.Question, "problems[%d].question", i)
	c.text(s.Answer, "problems[%d].answer", i)
	c.count(len(s.Working), maxSteps, "problems[%d].working", i)
	for j, step := range s.Working {
		c.text(step.What+step.Value+step.How, "problems[%d].working[%d]", i, j)
	}
	c.count(len(s.Slips), maxSlips, "problems[%d].slips", i)
	for j, w := range s.Slips {
		c.text(string(w.Slip)+w.Answer, "problems[%d].slips[%d]", i, j)
	}
}

// MarshalJSON returns the paper in the form of [Read]. The problems state their answers and the
// answers of their single slips. A paper that is read back knows these slips and those of figures,
// but no figures on the way. To keep a paper of [New] with all of them, keep its [Options]. For a
// problem without an answer it returns an [*Error].
func (p Paper) MarshalJSON() ([]byte, error) {
	f := paperFile{Title: p.Title, Passage: p.Passage, Made: p.Made, Problems: []slip.Stated{}}
	for _, t := range p.Tables {
		f.Tables = append(f.Tables, tableFile(t))
	}
	for i, q := range p.Problems {
		s, err := slip.State(q)
		if err != nil {
			return nil, &Error{Where: fmt.Sprintf("problems[%d]", i), Reason: "the problem can't be stated", Err: err}
		}
		f.Problems = append(f.Problems, s)
	}
	return json.Marshal(f)
}
