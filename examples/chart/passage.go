package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/course/passage"
	"lubberline.example/course/plot"
	"lubberline.example/course/sailing"
	"lubberline.example/course/signs"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

func init() {
	register("passage", "a passage plan on a Mercator chart, leg by leg", drawVoyage)
	register("passage-small", "a passage plan for a small screen, its figures in a list", drawVoyage)
}

// drawVoyage draws a passage from its file.
func drawVoyage(data []byte, usage signs.Usage) (*drawing.Sheet, error) {
	v, err := read[voyage](data)
	if err != nil {
		return nil, err
	}
	plan, err := v.plan()
	if err != nil {
		return nil, err
	}
	p, err := passage.New(plan)
	if err != nil {
		return nil, err
	}
	v.Roses = slices.DeleteFunc(v.Roses, func(r rose) bool { return r.Diameter == 0 })
	g, err := v.graticule.plot()
	if err != nil {
		return nil, err
	}
	return plot.Passage(p, g, usage)
}

// A voyage is the file of a passage. Its roses give the variation too; a rose without a diameter
// is not drawn. The middle and the scale may be left out.
type voyage struct {
	graticule

	Depart   time.Time     `json:"depart"`
	Speed    sailing.Speed `json:"speed"`
	WindFrom *angle.True   `json:"windFrom"`
	Leeway   angle.Angle   `json:"leeway"`

	// Tables, as examples/passage reads them.
	Waypoints json.RawMessage `json:"waypoints"`
	Deviation json.RawMessage `json:"deviation"`
	Streams   json.RawMessage `json:"streams"`
}

// plan returns the plan to work.
func (v voyage) plan() (passage.Plan, error) {
	p := passage.Plan{Name: v.Title, Depart: v.Depart, Speed: v.Speed, WindFrom: v.WindFrom, Leeway: v.Leeway}
	if len(v.Waypoints) == 0 || len(v.Deviation) == 0 || len(v.Roses) == 0 {
		return p, errors.New(`a passage needs "waypoints", "deviation" and "roses"; chart -kind passage -example shows them`)
	}
	var roses []variation.ChartRose
	for i, r := range v.Roses {
		legend, err := variation.ParseLegend(r.Legend)
		if err != nil {
			return p, fmt.Errorf("rose %d: %w", i+1, err)
		}
		if r.At == nil {
			return p, fmt.Errorf(`rose %d: give its place, "at": "47°06′N 019°02′W"`, i+1)
		}
		roses = append(roses, variation.ChartRose{Position: *r.At, Rose: legend})
	}
	chart, err := variation.NewChart("the chart", roses...)
	if err != nil {
		return p, err
	}
	p.Variation = chart
	if p.Waypoints, err = passage.ReadWaypoints(bytes.NewReader(v.Waypoints)); err != nil {
		return p, fmt.Errorf("waypoints: %w", err)
	}
	if p.Deviation, err = deviation.ReadTable(bytes.NewReader(v.Deviation)); err != nil {
		return p, fmt.Errorf("deviation: %w", err)
	}
	if len(v.Streams) > 0 {
		streams, err := passage.ReadStreams(bytes.NewReader(v.Streams))
		if err != nil {
			return p, fmt.Errorf("streams: %w", err)
		}
		p.Streams = streams
	}
	return p, nil
}
