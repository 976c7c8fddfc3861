package main

import (
	"fmt"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/course/plot"
	"lubberline.example/course/signs"
)

func init() {
	register("plotting-sheet", "an empty Mercator chart to plot on", func(data []byte, _ signs.Usage) (*drawing.Sheet, error) {
		g, err := read[graticule](data)
		if err != nil {
			return nil, err
		}
		p, err := g.plot()
		if err == nil {
			_, err = read[graticule](data, "middle", "scale")
		}
		if err != nil {
			return nil, err
		}
		return plot.PlottingSheet(p)
	})
}

// A graticule is the file of a plotting sheet.
type graticule struct {
	Title  string         `json:"title"`
	Middle angle.Position `json:"middle"`
	Scale  float64        `json:"scale"`  // 75000 for 1:75 000
	Width  float64        `json:"width"`  // mm
	Height float64        `json:"height"` // mm
	Roses  []rose         `json:"roses"`
}

// plot returns the graticule to draw.
func (g graticule) plot() (plot.Graticule, error) {
	p := plot.Graticule{Title: g.Title, Middle: g.Middle, Scale: g.Scale, Width: g.Width, Height: g.Height}
	for i, r := range g.Roses {
		if r.At == nil {
			return p, fmt.Errorf(`rose %d: give its place, "at": "47°06′N 019°02′W"`, i+1)
		}
		rose, err := r.plot()
		if err != nil {
			return p, fmt.Errorf("rose %d: %w", i+1, err)
		}
		p.Roses = append(p.Roses, rose)
	}
	return p, nil
}
