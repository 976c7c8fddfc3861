package main

import (
	"bytes"
	"encoding/json"
	"fmt"

	"lubberline.example/angle/drawing"
	"lubberline.example/course/signs"
	"lubberline.example/deviation"
	"lubberline.example/deviation/check"
	"lubberline.example/deviation/diagram"
)

func init() {
	register("record-book", "a page of a compass record book, ruled, with the checks filled in", func(data []byte, _ signs.Usage) (*drawing.Sheet, error) {
		b, err := read[recordBook](data)
		if err != nil {
			return nil, err
		}
		var checks []check.Check
		if len(b.Checks) > 0 {
			if checks, err = check.ReadLog(bytes.NewReader(b.Checks)); err != nil {
				return nil, fmt.Errorf("checks: %w", err)
			}
		}
		return diagram.RecordBook(b.Details, diagram.Options{Narrow: b.Narrow}, checks...), nil
	})
}

// A recordBook is the file of a page of a compass record book. Without checks it is blank.
type recordBook struct {
	deviation.Details
	Narrow bool            `json:"narrow"` // for a small screen
	Checks json.RawMessage `json:"checks"` // as [check.ReadLog] reads them
}
