package main

import (
	"fmt"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/course/signs"
	"lubberline.example/examples/internal/isomap"
)

func init() {
	register("isogonic", "a map of magnetic variation and its annual change", drawRegion)
	register("isogonic-small", "a map of magnetic variation for a small screen", drawRegion)
}

// drawRegion draws a map from its file.
func drawRegion(data []byte, _ signs.Usage) (*drawing.Sheet, error) {
	f, err := read[region](data)
	if err != nil {
		return nil, err
	}
	date, err := time.Parse(time.DateOnly, f.Date)
	if err != nil {
		return nil, fmt.Errorf("date %q: write it as 2026-07-02", f.Date)
	}
	a := isomap.Area{South: f.South, North: f.North, West: f.West, East: f.East, Every: f.Every.Round(angle.Second), Narrow: f.Narrow}
	if err := isomap.CheckEvery(a.Every); err != nil {
		return nil, fmt.Errorf("every %v: %w", f.Every, err)
	}
	if err := isomap.CheckTitle(f.Title); err != nil {
		return nil, err
	}
	if err := a.Check(); err != nil {
		return nil, err
	}
	if _, err := read[region](data, "south", "north", "west", "east"); err != nil {
		return nil, err
	}
	m, err := isomap.New(a, f.Title, date)
	if err != nil {
		return nil, err
	}
	return m.Draw()
}

// A region is the file of a map of variation. It runs eastward from west to east.
type region struct {
	Title  string          `json:"title"`
	South  angle.Latitude  `json:"south"`
	North  angle.Latitude  `json:"north"`
	West   angle.Longitude `json:"west"`
	East   angle.Longitude `json:"east"`
	Every  angle.Angle     `json:"every"` // between two lines; if left out, the map chooses
	Date   string          `json:"date"`
	Narrow bool            `json:"narrow"` // for a small screen
}
