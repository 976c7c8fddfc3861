package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
	"lubberline.example/deviation"
	"lubberline.example/fix"
)

// inputs are what the fix was found from, as they stand in the output.
type inputs struct {
	Invented     bool             `json:"invented,omitempty"`
	Rose         string           `json:"rose"`
	Date         string           `json:"date"`
	Head         string           `json:"head"`
	Near         string           `json:"near"`
	Eye          string           `json:"eye"`
	CompassError bool             `json:"compassError,omitempty"`
	Usual        bool             `json:"usual,omitempty"`
	Card         *deviation.Table `json:"card,omitempty"`
	Lines        any              `json:"lines"`
}

// results are what was found.
type results struct {
	Position angle.Position    `json:"position"`
	Ellipse  *sailing.Ellipse  `json:"ellipse,omitempty"` // 95 %; left out if it is unknown or the lines do not agree
	Others   []angle.Position  `json:"alternatives,omitempty"`
	Doubtful []fix.Suspicion   `json:"suspicions,omitempty"`
	Warnings []working.Warning `json:"warnings,omitempty"`
	Sheets   []working.Sheet   `json:"sheets"`
}

// writeJSON writes the inputs and the results.
func (j job) writeJSON(w io.Writer, t table, f fix.Fix) error {
	found := results{Position: f.Position(), Others: f.Alternatives(), Doubtful: f.Suspicions(), Warnings: f.Warnings(), Sheets: sheets(t, f)}
	if _, known := f.Covariance(); known && f.Probability() >= 0.01 {
		ellipse, err := f.Ellipse(0.95)
		if err != nil {
			return err
		}
		found.Ellipse = &ellipse
	}
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(struct {
		Inputs  inputs  `json:"inputs"`
		Results results `json:"results"`
	}{
		inputs{j.invented, j.options.rose, j.date, j.options.head, j.options.near, j.options.eye, j.compassError, j.usual, j.deviations, t.inputs()},
		found,
	})
}

// recalled is what a file of lines holds.
type recalled struct {
	table      []byte // the lines alone
	deviations *deviation.Table
	invented   bool
}

// recall reads a file of lines. If it is the output of -format json, its inputs set the flags
// that are not on the command line.
func (o *options) recall(data []byte, given map[string]bool) (recalled, error) {
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	r := recalled{table: data, invented: bytes.Equal(data, inventedLines) || bytes.Equal(data, inventedSextant)}
	if text := bytes.TrimLeft(data, " \t\r\n"); len(text) == 0 || text[0] != '{' {
		return r, nil
	}
	var lines json.RawMessage
	file := struct {
		Inputs  *inputs `json:"inputs"`
		Results any     `json:"results"` // not used: they are found again
	}{Inputs: &inputs{Lines: &lines}}
	if err := json.Unmarshal(data, new(any)); err != nil { // also of what follows the object
		return r, jsonFault(data, err)
	}
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	if err := d.Decode(&file); err != nil {
		return r, jsonFault(data, err)
	}
	if file.Inputs == nil || lines == nil {
		return r, errors.New(`the JSON has no lines in its inputs; give an array of lines, or what -format json wrote: {"inputs": {"lines": [ … ]}}`)
	}
	in := *file.Inputs
	o.places = map[string]string{}
	for name, text := range map[string]struct {
		value string
		flag  *string
	}{"rose": {in.Rose, &o.rose}, "date": {in.Date, &o.date}, "head": {in.Head, &o.head}, "near": {in.Near, &o.near}, "eye": {in.Eye, &o.eye}} {
		if text.value != "" && !given[name] {
			*text.flag = text.value
			o.places[name] = fmt.Sprintf("%s: line %d, %s", o.lines, lineOf(data, name), name)
		}
	}
	if !given["compass-error"] {
		o.compassError = in.CompassError
	}
	if !given["usual"] {
		o.usual = in.Usual
	}
	if !given["card"] {
		r.deviations = in.Card
	}
	r.invented = in.Invented
	// Blank lines before the lines keep the line numbers of messages.
	at := max(bytes.Index(data, lines), 0)
	r.table = append(bytes.Repeat([]byte("\n"), bytes.Count(data[:at], []byte("\n"))), lines...)
	return r, nil
}

// lineOf returns the line where an input stands.
func lineOf(data []byte, input string) int {
	at := regexp.MustCompile(`"inputs"(?s:.*?)"` + regexp.QuoteMeta(input) + `"\s*:`).FindIndex(data)
	if at == nil {
		return 1
	}
	return 1 + bytes.Count(data[:at[1]], []byte("\n"))
}

// jsonFault adds the line to an error of the JSON itself.
func jsonFault(data []byte, err error) error {
	var offset int64
	if syntax, ok := errors.AsType[*json.SyntaxError](err); ok {
		offset = syntax.Offset
	} else if wrong, ok := errors.AsType[*json.UnmarshalTypeError](err); ok {
		offset = wrong.Offset
		err = fmt.Errorf("%s has a JSON %s; write it as -format json does", wrong.Field, wrong.Value)
	}
	if unknown, ok := strings.CutPrefix(err.Error(), "json: unknown field "); ok {
		return &record.Error{Line: lineOf(data, strings.Trim(unknown, `"`)), Err: fmt.Errorf("there is no input %s; write inputs as -format json does", unknown)}
	}
	if offset == 0 {
		return err
	}
	return &record.Error{Line: 1 + bytes.Count(data[:min(int(offset), len(data))], []byte("\n")), Err: err}
}
