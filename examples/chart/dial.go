package main

import (
	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/course"
	"lubberline.example/course/plot"
	"lubberline.example/course/signs"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

func init() {
	register("dial", "a heading or a bearing between true, magnetic and compass", func(data []byte, _ signs.Usage) (*drawing.Sheet, error) {
		d, err := read[dial](data, "heading", "variation", "deviation")
		if err != nil {
			return nil, err
		}
		h, err := course.FromCompass(d.Heading, course.With{Variation: d.Variation, Deviation: d.Deviation})
		if err != nil {
			return nil, err
		}
		if d.Bearing != nil {
			return plot.BearingDial(h.BearingFromCompass(*d.Bearing)), nil
		}
		return plot.HeadingDial(h), nil
	})
}

// A dial is the file of a dial.
type dial struct {
	Heading   angle.Compass       `json:"heading"` // by compass
	Bearing   *angle.Compass      `json:"bearing"` // by compass; without it the dial is that of the heading
	Variation variation.Variation `json:"variation"`
	Deviation deviation.Deviation `json:"deviation"` // on the heading
}
