package main

import (
	"fmt"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/course/plot"
	"lubberline.example/course/signs"
	"lubberline.example/variation"
)

func init() {
	register("rose", "a compass rose for a year, to paste on a chart or to teach", func(data []byte, _ signs.Usage) (*drawing.Sheet, error) {
		r, err := read[rose](data)
		if err != nil {
			return nil, err
		}
		p, err := r.plot()
		if err != nil {
			return nil, err
		}
		return plot.CompassRose(p)
	})
}

// A rose is the file of a compass rose. Without a legend the rose is true.
type rose struct {
	At        *angle.Position `json:"at"` // on a chart
	Legend    string          `json:"legend"`
	Year      int             `json:"year"`
	Diameter  float64         `json:"diameter"`  // mm
	Direction *angle.True     `json:"direction"` // laid across it
}

// plot returns the rose to draw.
func (r rose) plot() (plot.Rose, error) {
	p := plot.Rose{Year: r.Year, Diameter: r.Diameter, Direction: r.Direction}
	if r.At != nil {
		p.At = *r.At
	}
	if r.Legend != "" {
		legend, err := variation.ParseLegend(r.Legend)
		if err != nil {
			return p, fmt.Errorf("legend: %w", err)
		}
		p.Legend = legend
	}
	return p, nil
}
