package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
	"lubberline.example/deviation"
	"lubberline.example/examples/internal/inputs"
	"lubberline.example/fix"
)

// inputsOf are what the fix was found from, as they stand in the output.
type inputsOf struct {
	Invented     bool   `json:"invented,omitempty"`
	Rose         string `json:"rose"`
	Date         string `json:"date"`
	Head         string `json:"head"`
	Near         string `json:"near"`
	Eye          string `json:"eye"`
	CompassError bool   `json:"compassError,omitempty"`
	Usual        bool   `json:"usual,omitempty"`
	Card         any    `json:"card,omitempty"`
	Lines        any    `json:"lines"`
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
	return inputs.Write(w,
		inputsOf{j.invented, j.options.rose, j.date, j.options.head, j.options.near, j.options.eye, j.compassError, j.usual, j.deviations, inputs.Texts(t.rows, columns)},
		found,
	)
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
	r := recalled{table: data, invented: bytes.Equal(data, inventedLines) || bytes.Equal(data, inventedSextant)}
	var card, lines json.RawMessage
	in := inputsOf{Card: &card, Lines: &lines}
	if isOutput, err := inputs.Read(data, &in); err != nil || !isOutput {
		return r, err
	}
	if lines == nil {
		return r, errors.New(`the JSON has no lines in its inputs; give an array of lines, or what -format json wrote: {"inputs": {"lines": [ … ]}}`)
	}
	o.places = map[string]string{}
	for name, text := range map[string]struct {
		value string
		flag  *string
	}{"rose": {in.Rose, &o.rose}, "date": {in.Date, &o.date}, "head": {in.Head, &o.head}, "near": {in.Near, &o.near}, "eye": {in.Eye, &o.eye}} {
		if text.value != "" && !given[name] {
			*text.flag = text.value
			o.places[name] = fmt.Sprintf("%s: line %d, %s", o.lines, inputs.Line(data, name), name)
		}
	}
	if !given["compass-error"] {
		o.compassError = in.CompassError
	}
	if !given["usual"] {
		o.usual = in.Usual
	}
	if card != nil && !given["card"] {
		o.places["card"] = fmt.Sprintf("%s: line %d, card", o.lines, inputs.Line(data, "card"))
		var err error
		if r.deviations, err = deviation.ReadTable(bytes.NewReader(inputs.Rows(data, card))); err != nil {
			return r, fmt.Errorf("card: %w", err)
		}
	}
	r.invented, r.table = in.Invented, inputs.Rows(data, lines)
	return r, nil
}
