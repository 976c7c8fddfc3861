package main

import (
	"cmp"
	"fmt"
	"math"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/angle/working"
	"lubberline.example/course/signs"
)

func init() {
	register("signs", "the signs of a usage, each as it is drawn and labelled", func(data []byte, usage signs.Usage) (*drawing.Sheet, error) {
		f, err := read[gallery](data)
		if err != nil {
			return nil, err
		}
		return f.draw(usage)
	})
}

// A gallery is the file of the signs: the figures that stand beside them.
type gallery struct {
	Title   string     `json:"title"`
	Heading angle.True `json:"heading"`
	Water   angle.True `json:"water"`  // the course through the water
	Ground  angle.True `json:"ground"` // the course made good
	Set     angle.True `json:"set"`
	Bearing angle.True `json:"bearing"`
	Time    string     `json:"time"`  // of the fix, in four figures
	Later   string     `json:"later"` // of the running fix
}

// draw draws a run with all signs above, and their key below.
func (g gallery) draw(usage signs.Usage) (*drawing.Sheet, error) {
	for _, text := range []string{g.Time, g.Later} {
		if len(text) != 4 {
			return nil, fmt.Errorf("the time %q does not have four figures: write it as 1030", text)
		}
	}
	const width, height, key = 94.0, 84.0, 68.0
	words := "The signs of lines and positions in the usage " + string(cmp.Or(usage, signs.Commonwealth)) + ", around a run from a fix to a running fix, with a key."
	s := drawing.New(width, height+key, cmp.Or(g.Title, "Signs on the chart"), words)
	s.Caution(working.Caution)
	labels := &drawing.Labels{Room: drawing.Box{Right: width, Bottom: height}}
	pen := signs.Pen{Sheet: s, Usage: usage, Labels: labels}
	text := func(t angle.True) string { return fmt.Sprintf("%.0f", t) }
	way := func(at drawing.Spot, t angle.True, length float64) drawing.Spot {
		sin, cos := math.Sincos(t.Degrees() * math.Pi / 180)
		return at.Moved(length*sin, -length*cos)
	}
	fix := drawing.At(15, 60)
	water := way(fix, g.Water, 47)
	stream := way(water, g.Set, 15.2)
	pen.Mark(signs.Mark{Kind: signs.Fix, At: fix, Time: g.Time})
	pen.Line(signs.Line{Kind: signs.WaterTrack, Path: []drawing.Spot{fix, water}, Direction: text(g.Water), Speed: "5.5 kn"})
	pen.Line(signs.Line{Kind: signs.Heading, Path: []drawing.Spot{fix, way(fix, g.Heading, 31)}, Direction: "heading " + text(g.Heading)})
	pen.Line(signs.Line{Kind: signs.Stream, Path: []drawing.Spot{water, stream}, Direction: text(g.Set), Speed: "1.4 kn"})
	pen.Line(signs.Line{Kind: signs.GroundTrack, Path: []drawing.Spot{fix, stream}, Direction: text(g.Ground)})
	pen.Mark(signs.Mark{Kind: signs.DeadReckoning, At: water, Time: g.Later, Way: g.Water.Degrees()})
	pen.Mark(signs.Mark{Kind: signs.Estimated, At: stream, Time: g.Later})
	pen.Line(signs.Line{Kind: signs.BearingLine, Path: []drawing.Spot{way(fix, g.Bearing, 38), way(fix, g.Bearing, -14)}, Direction: text(g.Bearing), Time: g.Time})
	running := stream.Moved(3, 6)
	pen.Line(signs.Line{Kind: signs.TransferredLine, Path: []drawing.Spot{way(running, g.Bearing, 22), way(running, g.Bearing, -22)}, Direction: text(g.Bearing), Time: g.Time + "–" + g.Later})
	var arc []drawing.Spot
	mark := running.Moved(-5, 36)
	for i := range 31 {
		arc = append(arc, way(mark, angle.TrueFrom(angle.Angle(i-8)*2*angle.Degree), math.Hypot(5, 36)))
	}
	pen.Line(signs.Line{Kind: signs.RangeLine, Path: arc, Time: g.Later, Note: "5.0 M"})
	pen.Mark(signs.Mark{Kind: signs.RunningFix, At: running, Time: g.Later})
	pen.Line(signs.Line{Kind: signs.ClearingLine, Path: []drawing.Spot{drawing.At(6, 81), drawing.At(52, 70.4)}, Direction: "077°T", Note: "NLT", Danger: angle.Starboard})
	pen.Mark(signs.Mark{Kind: signs.Wind, At: drawing.At(10, 13), Way: g.Heading.Degrees() - 60})
	for _, l := range labels.Draw(s) {
		return nil, fmt.Errorf("there is no room for %q: give other directions", l.Text)
	}
	pen.Key(drawing.At(4, height+2), 80)
	return s, nil
}
