package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/course/decklog"
	"lubberline.example/course/passage"
	"lubberline.example/course/plot"
	"lubberline.example/course/sailing"
	"lubberline.example/course/signs"
	"lubberline.example/course/stream"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

func init() {
	register("deck-log", "a page of a deck log, ruled, with the reckoning of a log filled in", func(data []byte, _ signs.Usage) (*drawing.Sheet, error) {
		l, err := read[deckLog](data)
		if err != nil {
			return nil, err
		}
		return l.draw()
	})
	register("passage-plan", "a form for a passage plan, ruled, with the legs filled in", func(data []byte, _ signs.Usage) (*drawing.Sheet, error) {
		p, err := read[passagePlan](data)
		if err != nil {
			return nil, err
		}
		return p.draw()
	})
}

// A compassUse is what a log or a plan needs to convert courses.
type compassUse struct {
	Roses json.RawMessage `json:"roses"` // as [variation.ReadChart] reads them
	Card  json.RawMessage `json:"card"`  // as [deviation.ReadTable] reads it
}

// sources reads the roses and the card.
func (c compassUse) sources() (*variation.Chart, *deviation.Table, error) {
	chart, err := rowsOf("roses", c.Roses, func(r io.Reader) (*variation.Chart, error) { return variation.ReadChart("chart", r) })
	if err != nil {
		return nil, nil, err
	}
	card, err := rowsOf("card", c.Card, deviation.ReadTable)
	return chart, card, err
}

// rowsOf reads the rows of a table in a file.
func rowsOf[V any](name string, rows json.RawMessage, reader func(io.Reader) (V, error)) (V, error) {
	v, err := reader(bytes.NewReader(rows))
	if err != nil {
		err = fmt.Errorf("%s: %w", name, err)
	}
	return v, err
}

// A deckLog is the file of a page of a deck log. Without rows it is blank.
type deckLog struct {
	Vessel string `json:"vessel"`
	compassUse
	Factor float64         `json:"factor"` // of the log; 1 if left out
	Narrow bool            `json:"narrow"` // for a small screen
	Rows   json.RawMessage `json:"rows"`   // as [decklog.ReadLog] reads them
}

// draw reckons the log, and draws the page.
func (l deckLog) draw() (*drawing.Sheet, error) {
	if len(l.Rows) == 0 {
		return plot.DeckLog(decklog.Reckoning{}, plot.Page{Vessel: l.Vessel, Narrow: l.Narrow}), nil
	}
	rows, err := rowsOf("rows", l.Rows, decklog.ReadLog)
	if err != nil {
		return nil, err
	}
	chart, card, err := l.sources()
	if err != nil {
		return nil, err
	}
	r, err := rows.Reckon(decklog.Options{Factor: decklog.Factor{Value: l.Factor}, Variation: chart, Deviation: card})
	if err != nil {
		return nil, err
	}
	return plot.DeckLog(r, plot.Page{Vessel: l.Vessel, Narrow: l.Narrow}), nil
}

// A passagePlan is the file of a form for a passage plan. Without waypoints it is blank.
type passagePlan struct {
	Vessel string `json:"vessel"`
	compassUse
	Depart    time.Time       `json:"depart"`
	Speed     sailing.Speed   `json:"speed"`
	Stream    *stream.Stream  `json:"stream"`
	WindFrom  *angle.True     `json:"windFrom"`
	Leeway    angle.Angle     `json:"leeway"`
	Narrow    bool            `json:"narrow"`    // for a small screen
	Waypoints json.RawMessage `json:"waypoints"` // as [passage.ReadWaypoints] reads them
}

// draw works the passage, and draws the form.
func (p passagePlan) draw() (*drawing.Sheet, error) {
	if len(p.Waypoints) == 0 {
		return plot.PassagePlan(nil, plot.Page{Vessel: p.Vessel, Narrow: p.Narrow}), nil
	}
	points, err := rowsOf("waypoints", p.Waypoints, passage.ReadWaypoints)
	if err != nil {
		return nil, err
	}
	chart, card, err := p.sources()
	if err != nil {
		return nil, err
	}
	plan := passage.Plan{Waypoints: points, Depart: p.Depart, Speed: p.Speed, Variation: chart, Deviation: card, WindFrom: p.WindFrom, Leeway: p.Leeway}
	if p.Stream != nil {
		plan.Streams = *p.Stream
	}
	worked, err := passage.New(plan)
	if err != nil {
		return nil, err
	}
	return plot.PassagePlan(worked, plot.Page{Vessel: p.Vessel, Narrow: p.Narrow}), nil
}
