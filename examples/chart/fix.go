package main

import (
	"lubberline.example/angle/drawing"
	"lubberline.example/course/signs"
	"lubberline.example/fix"
	"lubberline.example/fix/plot"
)

func init() {
	register("fix", "a fix or a running fix by position lines", func(data []byte, usage signs.Usage) (*drawing.Sheet, error) {
		file, err := read[fixFile](data)
		if err != nil {
			return nil, err
		}
		f, err := fix.Solve(file.Lines, file.Options)
		if err != nil {
			return nil, err
		}
		return plot.Fix(f, plot.Options{Title: file.Title, Signs: usage, Narrow: file.Narrow})
	})
}

// A fixFile is the file of a fix. The lines are as [fix.Line] writes them as JSON.
type fixFile struct {
	Title   string      `json:"title"`
	Narrow  bool        `json:"narrow"` // for a small screen
	Lines   []fix.Line  `json:"lines"`
	Options fix.Options `json:"options"`
}
