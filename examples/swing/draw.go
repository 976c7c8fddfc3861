package main

import (
	"bytes"
	"os"
	"path/filepath"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/deviation"
	"lubberline.example/deviation/diagram"
	"lubberline.example/deviation/swing"
)

// A picture is a drawing and the name of its file.
type picture struct {
	name string
	draw func() (*drawing.Sheet, error)
}

// draw writes the drawings, and returns their files.
func (j job) draw(fit *swing.Fit) ([]string, error) {
	var err error
	out := j.out
	if out == "" {
		out, err = os.MkdirTemp("", "swing-")
	} else {
		err = os.MkdirAll(out, 0o755)
	}
	if err != nil {
		return nil, err
	}
	var files []string
	for _, p := range j.pictures(fit) {
		sheet, err := p.draw()
		if err != nil {
			return nil, err
		}
		var b bytes.Buffer
		if err := sheet.WriteSVG(&b, drawing.Plate); err != nil {
			return nil, err
		}
		file := filepath.Join(out, p.name)
		if err := os.WriteFile(file, b.Bytes(), 0o644); err != nil {
			return nil, err
		}
		files = append(files, file)
	}
	return files, nil
}

// pictures are the drawings of a swing.
func (j job) pictures(fit *swing.Fit) []picture {
	plot := diagram.Plot{Details: j.details, Source: fit.Curve}
	for _, r := range fit.Residuals {
		if r.LeftOut {
			plot.LeftOut = append(plot.LeftOut, r.Observation)
		} else {
			plot.Observations = append(plot.Observations, r.Observation)
		}
	}
	list := []picture{
		{"card.svg", func() (*drawing.Sheet, error) {
			// In smaller steps a card does not fit on A4.
			card, err := deviation.NewCard(fit.Curve, max(j.step, 10*angle.Degree), j.details)
			if err != nil {
				return nil, err
			}
			k := fit.Curve.Coefficients()
			return diagram.Card(card, diagram.Options{Coefficients: &k})
		}},
		{"curve.svg", func() (*drawing.Sheet, error) { return diagram.Curve(plot) }},
		{"napier.svg", func() (*drawing.Sheet, error) { return diagram.Napier(plot) }},
		{"polar.svg", func() (*drawing.Sheet, error) { return diagram.Polar(plot) }},
	}
	if j.lesson {
		list = append(list, picture{"before-after.svg", func() (*drawing.Sheet, error) {
			l, err := j.teach(fit)
			if err != nil {
				return nil, err
			}
			return diagram.BeforeAfter(plot, diagram.Plot{Details: l.Residual.Details, Source: l.curve})
		}})
	}
	return list
}
