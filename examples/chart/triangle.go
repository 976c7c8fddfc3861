package main

import (
	"errors"
	"fmt"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/course/plot"
	"lubberline.example/course/sailing"
	"lubberline.example/course/signs"
	"lubberline.example/course/stream"
)

func init() {
	register("triangle", "a stream triangle: course to steer, or course made good", func(data []byte, usage signs.Usage) (*drawing.Sheet, error) {
		t, err := read[triangle](data)
		if err != nil {
			return nil, err
		}
		needs := []string{"speed", "stream.set", "stream.rate"}
		if t.Hours != nil {
			needs = needs[:1]
		}
		if _, err = read[triangle](data, needs...); err != nil {
			return nil, err
		}
		p, err := t.plot()
		if err != nil {
			return nil, err
		}
		p.Signs = usage
		return plot.StreamTriangle(p)
	})
}

// A triangle is the file of a stream triangle. It has a track to make good, or a course to
// steer, or two positions and the streams of the hours between them.
type triangle struct {
	Track  *angle.True    `json:"track"`
	Course *angle.True    `json:"course"` // through the water
	Speed  sailing.Speed  `json:"speed"`  // through the water
	Stream stream.Stream  `json:"stream"`
	Lasts  string         `json:"lasts"` // 2h24m; an hour if empty
	Width  float64        `json:"width"` // of the drawing, mm
	Leeway *stream.Leeway `json:"leeway"`

	From   *angle.Position `json:"from"`
	To     *angle.Position `json:"to"`
	Begins time.Time       `json:"begins"`
	Hours  *stream.Hourly  `json:"hours"`
}

// plot returns the triangle to draw.
func (t triangle) plot() (plot.Triangle, error) {
	p := plot.Triangle{Begins: t.Begins, Width: t.Width}
	if t.Leeway != nil {
		p.Leeway = *t.Leeway
	}
	var err error
	if t.Lasts != "" {
		if p.Lasts, err = time.ParseDuration(t.Lasts); err != nil {
			return p, fmt.Errorf("lasts %q: write a time such as 2h24m", t.Lasts)
		}
	}
	switch {
	case t.From != nil && t.To != nil && t.Hours != nil:
		p.Crossing, err = stream.CourseToSteerAcross(*t.From, *t.To, t.Begins, t.Speed, *t.Hours)
	case t.Track != nil:
		p.Steering, err = stream.CourseToSteer(*t.Track, t.Speed, t.Stream)
		// If no course makes good the track, the drawing shows why.
		if strong, ok := errors.AsType[*stream.Error](err); ok && strong.Kind == stream.TooStrong {
			p.Steering, p.Track, err = strong.Nearest, t.Track, nil
		}
	case t.Course != nil:
		p.MadeGood = true
		p.Steering, err = stream.MadeGood(stream.Motion{Course: *t.Course, Speed: t.Speed}, t.Stream)
	default:
		err = errors.New("give a track, a course, or from, to and hours")
	}
	return p, err
}
