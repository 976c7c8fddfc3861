package main

import (
	"errors"
	"fmt"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/course/signs"
	"lubberline.example/deviation"
	"lubberline.example/deviation/diagram"
	"lubberline.example/deviation/swing"
)

func init() {
	register("deviation-curve", "the deviation curve of a swing", drawCompass(compass.curve))
	register("napier", "Napier's diagram of a swing", drawCompass(compass.napier))
	register("swing-polar", "a swing about the compass, for a small screen", drawCompass(compass.polar))
	register("deviation-card", "a deviation card to post by the compass", drawCard(false))
	register("deviation-rose", "a deviation card about a rose", drawCard(true))
	register("before-after", "the deviations before and after adjusting", drawCompass(compass.beforeAfter))
}

// drawCompass returns a drawer of the pictures of a compass.
func drawCompass(draw func(compass) (*drawing.Sheet, error)) func([]byte, signs.Usage) (*drawing.Sheet, error) {
	return func(data []byte, _ signs.Usage) (*drawing.Sheet, error) {
		c, err := read[compass](data)
		if err != nil {
			return nil, err
		}
		if c.Narrow {
			return nil, errors.New(`"narrow" is for a deviation card alone; swing-polar draws a swing for a small screen`)
		}
		return draw(c)
	}
}

// drawCard returns a drawer of a deviation card.
func drawCard(rose bool) func([]byte, signs.Usage) (*drawing.Sheet, error) {
	return func(data []byte, _ signs.Usage) (*drawing.Sheet, error) {
		c, err := read[compass](data)
		if err != nil {
			return nil, err
		}
		if rose && c.Narrow {
			return nil, errors.New(`"narrow" is for deviation-card: a card about a rose has no narrow form`)
		}
		return c.card(rose)
	}
}

// A compass is the file of a swing.
type compass struct {
	deviation.Details
	Step   *angle.Angle `json:"step"`   // of the card
	Narrow bool         `json:"narrow"` // a card for a small screen
	Swing  []reading    `json:"swing"`
	Before []reading    `json:"before"` // the swing before adjusting
}

// A reading is the deviation on a heading.
type reading struct {
	Heading   angle.Compass       `json:"heading"`
	Deviation deviation.Deviation `json:"deviation"`
}

// plot fits the curve of some readings.
func (c compass) plot(readings []reading) (diagram.Plot, *deviation.Curve, error) {
	var observations []swing.Observation
	for _, r := range readings {
		observations = append(observations, swing.Observation{Heading: r.Heading, Deviation: r.Deviation})
	}
	fit, err := swing.NewFit(observations, swing.FitOptions{Robust: true})
	if err != nil {
		return diagram.Plot{}, nil, err
	}
	p := diagram.Plot{Details: c.Details, Source: fit.Curve}
	for _, r := range fit.Residuals {
		if r.LeftOut {
			p.LeftOut = append(p.LeftOut, r.Observation)
		} else {
			p.Observations = append(p.Observations, r.Observation)
		}
	}
	return p, fit.Curve, nil
}

// curve draws the deviation curve.
func (c compass) curve() (*drawing.Sheet, error) { return c.draw(diagram.Curve) }

// napier draws Napier's diagram.
func (c compass) napier() (*drawing.Sheet, error) { return c.draw(diagram.Napier) }

// polar draws the swing about the compass.
func (c compass) polar() (*drawing.Sheet, error) { return c.draw(diagram.Polar) }

// draw draws a picture of the swing.
func (c compass) draw(picture func(diagram.Plot) (*drawing.Sheet, error)) (*drawing.Sheet, error) {
	p, _, err := c.plot(c.Swing)
	if err != nil {
		return nil, fmt.Errorf("swing: %w", err)
	}
	return picture(p)
}

// card draws a deviation card.
func (c compass) card(rose bool) (*drawing.Sheet, error) {
	_, curve, err := c.plot(c.Swing)
	if err != nil {
		return nil, fmt.Errorf("swing: %w", err)
	}
	step := 15 * angle.Degree
	if c.Step != nil {
		step = *c.Step
	}
	card, err := deviation.NewCard(curve, step, c.Details)
	if err != nil {
		return nil, err
	}
	k := curve.Coefficients()
	return diagram.Card(card, diagram.Options{Rose: rose, Narrow: c.Narrow, Coefficients: &k})
}

// beforeAfter draws two swings on one page.
func (c compass) beforeAfter() (*drawing.Sheet, error) {
	if len(c.Before) == 0 {
		return nil, errors.New(`there is no "before", the swing before adjusting`)
	}
	before, _, err := c.plot(c.Before)
	if err != nil {
		return nil, fmt.Errorf("before: %w", err)
	}
	after, _, err := c.plot(c.Swing)
	if err != nil {
		return nil, fmt.Errorf("swing: %w", err)
	}
	return diagram.BeforeAfter(before, after)
}
