package main

import (
	"bytes"
	"encoding/json"
	"io"

	"lubberline.example/angle/record"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/deviation/check"
	"lubberline.example/examples/internal/inputs"
)

// An answer is what was found.
type answer struct {
	Invented bool                `json:"invented,omitempty"`
	Check    check.Check         `json:"check"`
	ByCard   deviation.Deviation `json:"deviationByCard"`
	Verdict  check.Verdict       `json:"verdict"`
	Reasons  []working.Warning   `json:"reasons,omitempty"`
	Caution  string              `json:"caution"`
}

// inputsOf are what the card was judged by.
type inputsOf struct {
	Card   json.RawMessage `json:"card"`
	Checks json.RawMessage `json:"checks"` // all, the last of them made now
}

// writeJSON writes what the card was judged by, and what was found.
func writeJSON(w io.Writer, card *deviation.Table, earlier []check.Check, found answer) error {
	var log bytes.Buffer
	if err := check.WriteLog(&log, check.JSON, append(earlier, found.Check)...); err != nil {
		return err
	}
	table, err := json.Marshal(card)
	if err != nil {
		return err
	}
	return inputs.Write(w, inputsOf{table, log.Bytes()}, found)
}

// readLog reads a log of checks, or the checks in the output of -format json. It takes no more of
// a file than package record does.
func readLog(r io.Reader) ([]check.Check, error) {
	data, err := io.ReadAll(io.LimitReader(r, record.MaxBytes+1))
	if err != nil {
		return nil, err
	}
	var in inputsOf
	if isOutput, err := inputs.Read(data, &in); err != nil {
		return nil, err
	} else if isOutput {
		data = inputs.Rows(data, in.Checks)
	}
	return check.ReadLog(bytes.NewReader(data))
}
