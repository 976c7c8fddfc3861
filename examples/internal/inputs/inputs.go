// Package inputs writes the JSON output of an example, and reads the inputs in it again: the
// object {"inputs": …, "results": …}.
package inputs

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strings"

	"lubberline.example/angle/record"
)

// Write writes the inputs and the results.
func Write(w io.Writer, in, results any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(struct {
		Inputs  any `json:"inputs"`
		Results any `json:"results"`
	}{in, results})
}

// Read reads the inputs into a pointer to a struct. If the data are no JSON object, such as CSV
// or an array, it returns false. An input that the struct does not have is an error. Errors
// have the line; see [record.Error].
func Read(data []byte, into any) (bool, error) {
	data = trim(data)
	if text := bytes.TrimLeft(data, " \t\r\n"); len(text) == 0 || text[0] != '{' {
		return false, nil
	}
	if err := json.Unmarshal(data, new(any)); err != nil { // also of what follows the object
		return true, fault(data, err)
	}
	file := struct {
		Inputs  any `json:"inputs"`
		Results any `json:"results"` // not used: they are found again
	}{Inputs: into}
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	if err := d.Decode(&file); err != nil {
		return true, fault(data, err)
	}
	return true, nil
}

// Rows returns the rows of an input as a file of their own, for [record.Read]. Blank lines
// before them keep the line numbers.
func Rows(data []byte, rows json.RawMessage) []byte {
	at := max(bytes.Index(data, rows), 0)
	return append(bytes.Repeat([]byte("\n"), bytes.Count(data[:at], []byte("\n"))), rows...)
}

// Line returns the line where an input stands.
func Line(data []byte, input string) int {
	at := regexp.MustCompile(`(?s)"inputs".*?"` + regexp.QuoteMeta(input) + `"\s*:`).FindIndex(data)
	if at == nil {
		return 1
	}
	return 1 + bytes.Count(data[:at[1]], []byte("\n"))
}

// Texts returns the rows of a table as JSON has them: each column that has text.
func Texts(rows []record.Row, columns record.Columns) []map[string]string {
	var all []map[string]string
	for _, row := range rows {
		texts := map[string]string{}
		for _, names := range [][]string{columns.Required, columns.Optional} {
			for _, column := range names {
				if row.Has(column) {
					texts[column] = row.Text(column)
				}
			}
		}
		all = append(all, texts)
	}
	return all
}

// trim returns the data without a byte order mark.
func trim(data []byte) []byte { return bytes.TrimPrefix(data, []byte("\ufeff")) }

// fault adds the line to an error of the JSON itself.
func fault(data []byte, err error) error {
	var offset int64
	if syntax, ok := errors.AsType[*json.SyntaxError](err); ok {
		offset = syntax.Offset
	} else if wrong, ok := errors.AsType[*json.UnmarshalTypeError](err); ok {
		offset = wrong.Offset
		err = fmt.Errorf("%s has a JSON %s; write it as -format json does", wrong.Field, wrong.Value)
	}
	if unknown, ok := strings.CutPrefix(err.Error(), "json: unknown field "); ok {
		return &record.Error{Line: Line(data, strings.Trim(unknown, `"`)), Err: fmt.Errorf("there is no input %s; write inputs as -format json does", unknown)}
	}
	if offset == 0 {
		return err
	}
	return &record.Error{Line: 1 + bytes.Count(data[:min(int(offset), len(data))], []byte("\n")), Err: err}
}
