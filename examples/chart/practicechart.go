package main

import (
	"bytes"
	"encoding/json"

	"lubberline.example/angle/drawing"
	"lubberline.example/course/signs"
	"lubberline.example/fix/plot"
	"lubberline.example/fix/practice"
)

func init() {
	register("practice-chart", "a chart of an invented coast, to practise on paper", func(data []byte, _ signs.Usage) (*drawing.Sheet, error) {
		f, err := read[practiceChart](data)
		if err != nil {
			return nil, err
		}
		chart := practice.Orlesk()
		if f.Chart != nil {
			if chart, err = practice.Read(bytes.NewReader(f.Chart)); err != nil {
				return nil, err
			}
		}
		return plot.PracticeChart(chart, plot.PracticeOptions{Scale: f.Scale, Plain: f.Plain})
	})
}

// A practiceChart is the file of a practice chart. Without a chart it is the Orlesk coast.
type practiceChart struct {
	Scale float64         `json:"scale"`
	Plain bool            `json:"plain"` // without names and tidal streams
	Chart json.RawMessage `json:"chart"` // see [practice.Read]
}
