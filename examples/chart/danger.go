package main

import (
	"fmt"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/course/sailing"
	"lubberline.example/course/signs"
	"lubberline.example/fix"
	"lubberline.example/fix/danger"
	"lubberline.example/fix/plot"
)

func init() {
	register("clearing", "clearing bearings, hatched on the side of the danger", limits(func(f dangerFile, p *plot.DangerPlan) error {
		for _, m := range f.Marks {
			if m.LeaveTo != angle.Port && m.LeaveTo != angle.Starboard {
				return fmt.Errorf("\"leaveTo\" of %v is %q: write port or starboard", m.Mark, m.LeaveTo)
			}
			c, err := danger.NewClearingBearing(m.Mark, f.Danger.Position, f.Danger.Margin, m.LeaveTo)
			if err != nil {
				return err
			}
			p.Bearings = append(p.Bearings, c)
		}
		return nil
	}))
	register("danger-circle", "the circle of a horizontal danger angle between two marks", limits(func(f dangerFile, p *plot.DangerPlan) error {
		for i := 1; i < len(f.Marks); i++ {
			left, right := f.Marks[i-1].Mark, f.Marks[i].Mark
			a, err := danger.HorizontalAngle(left, right, f.Danger.Position, f.Danger.Margin, f.Pass)
			if err != nil {
				return err
			}
			p.Horizontal = append(p.Horizontal, plot.HorizontalLimit{Left: left, Right: right, Angle: a})
		}
		return nil
	}))
	register("vertical-danger", "the circle of a vertical danger angle", limits(func(f dangerFile, p *plot.DangerPlan) error {
		for _, m := range f.Marks {
			off := sailing.WGS84().Rhumb(m.Position, f.Danger.Position).Distance
			if f.Pass == danger.Inside {
				off -= f.Danger.Margin
			} else {
				off += f.Danger.Margin
			}
			a, err := danger.VerticalAngle(m.Height, off, f.Pass)
			if err != nil {
				return err
			}
			p.Vertical = append(p.Vertical, plot.VerticalLimit{Mark: m.Mark, Height: m.Height, Angle: a})
		}
		return nil
	}))
}

// limits returns a drawer that adds limits to the plan of a file.
func limits(add func(f dangerFile, p *plot.DangerPlan) error) func(data []byte, usage signs.Usage) (*drawing.Sheet, error) {
	return func(data []byte, usage signs.Usage) (*drawing.Sheet, error) {
		f, err := read[dangerFile](data, "danger.position", "danger.margin", "marks.position")
		if err != nil {
			return nil, err
		}
		p := plot.DangerPlan{Title: f.Title, Signs: usage, Narrow: f.Narrow, Dangers: []plot.Danger{f.Danger}}
		if err := add(f, &p); err != nil {
			return nil, err
		}
		return plot.Dangers(p)
	}
}

// A dangerFile is the file of a danger and the marks that keep clear of it.
type dangerFile struct {
	Title  string       `json:"title"`
	Narrow bool         `json:"narrow"` // for a small screen
	Danger plot.Danger  `json:"danger"`
	Pass   danger.Pass  `json:"pass"`  // outside or inside; not of clearing bearings
	Marks  []dangerMark `json:"marks"` // for a horizontal angle from left to right
}

// A dangerMark is a mark that keeps clear of a danger.
type dangerMark struct {
	fix.Mark
	Height  sailing.Distance `json:"height,omitzero"` // for a vertical angle
	LeaveTo angle.Side       `json:"leaveTo"`         // for a clearing bearing: the side of the danger, as the vessel heads for the mark
}
