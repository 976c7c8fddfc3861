package main

import (
	"encoding/json"
	"fmt"
	"os"
	"strconv"

	"lubberline.example/course/decklog"
	"lubberline.example/examples/internal/inputs"
)

// inputsOf are what the log was reckoned from, as they stand in the output.
type inputsOf struct {
	Place      string `json:"place"`
	HighWaters string `json:"hw"`
	Heights    string `json:"heights"`
	ByVectors  bool   `json:"byVectors,omitempty"`
	Log        any    `json:"log"`
	Roses      any    `json:"roses"`
	Deviation  any    `json:"deviation"`
	Tidal      any    `json:"tidal,omitempty"`
	Mile       any    `json:"mile,omitempty"`
}

// recall reads the file of -log. If it is the output of -format json, its inputs set the files and
// the flags that are not on the command line.
func (o *options) recall() error {
	name := *o.files["log"]
	if name == "" {
		return nil
	}
	data, err := os.ReadFile(name)
	if err != nil {
		return err
	}
	files := map[string]*json.RawMessage{}
	for _, table := range tables {
		files[table] = new(json.RawMessage)
	}
	in := inputsOf{Log: files["log"], Roses: files["roses"], Deviation: files["deviation"], Tidal: files["tidal"], Mile: files["mile"]}
	if isOutput, err := inputs.Read(data, &in); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	} else if !isOutput {
		return nil
	}
	o.recalled = map[string]json.RawMessage{}
	for table, rows := range files {
		if len(*rows) > 0 {
			o.recalled[table] = *rows
		}
	}
	for flag, set := range map[string]func(){
		"place": func() { o.place = in.Place }, "hw": func() { o.hw = in.HighWaters }, "heights": func() { o.heights = in.Heights }, "by-vectors": func() { o.byVectors = in.ByVectors },
	} {
		if !o.given[flag] {
			set()
		}
	}
	return nil
}

// rowsOf returns the runs over a measured mile as rows, as readMile reads them.
func rowsOf(m decklog.MeasuredMile) []map[string]string {
	var rows []map[string]string
	for _, run := range m.Runs {
		rows = append(rows, map[string]string{
			"course": run.Course.String(), "seconds": strconv.FormatFloat(run.Lasts.Seconds(), 'f', -1, 64), "log": strconv.FormatFloat(run.Log.NauticalMiles(), 'f', -1, 64),
		})
	}
	return rows
}
