package practice

import (
	"bytes"
	_ "embed"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
)

//go:embed orlesk.json
var orlesk []byte

// Orlesk returns the chart of the Orlesk coast, which is invented. Each call returns a new one.
func Orlesk() Chart {
	c, err := Read(bytes.NewReader(orlesk))
	if err != nil {
		panic(err) // a test reads it
	}
	return c
}

// Limits of what Read accepts.
const (
	maxBytes  = 4 << 20
	maxPlaces = 50_000 // of the land, the contours and the soundings together
	maxMarks  = 500    // also of dangers, names and anchorages
	maxText   = 200    // bytes of a text
	maxTable  = 26     // places of the tidal table
)

// Read reads a chart from JSON with the fields of [Chart]. Positions are texts such as
// 47°08.4′N 019°00.0′W, and distances have units: 38 m, 18 M. Roses are rows with name,
// position and legend, and the tidal table has the rows of
// [lubberline.example/course/tidal.ReadTable].
//
// It reads at most 4 MiB with 50,000 places. For an invalid chart it returns an [*Error] with
// the first fault. Errors of the reader are returned unchanged.
func Read(r io.Reader) (Chart, error) {
	if r == nil {
		return Chart{}, invalid("the reader of the chart is nil: give one, such as a file")
	}
	data, err := io.ReadAll(io.LimitReader(r, maxBytes+1))
	if err != nil {
		return Chart{}, err
	}
	if len(data) > maxBytes {
		return Chart{}, invalid("the file has more than %d MiB, the maximum: leave soundings or points of lines out", maxBytes>>20)
	}
	d := json.NewDecoder(bytes.NewReader(bytes.TrimPrefix(data, []byte("\ufeff"))))
	d.DisallowUnknownFields()
	var c Chart
	if err := d.Decode(&c); err != nil {
		return Chart{}, invalid("the chart is not JSON with the fields of a chart, such as {\"name\": …}: %w", err)
	}
	if _, err := d.Token(); !errors.Is(err, io.EOF) {
		return Chart{}, invalid("more follows after the chart: give one chart a file")
	}
	return c, c.check()
}

// An Error reports a file that holds no usable chart.
type Error struct {
	Reason string // what is wrong, and what to change
	Err    error  // of the value at fault; nil if there is none
}

// Error returns the reason.
func (e *Error) Error() string { return "practice: " + e.Reason }

// Unwrap returns the error of the value at fault.
func (e *Error) Unwrap() error { return e.Err }

// invalid returns the error of a chart that cannot be used.
func invalid(format string, args ...any) error {
	err := fmt.Errorf(format, args...)
	return &Error{Reason: err.Error(), Err: errors.Unwrap(err)}
}

// check returns what is wrong with a chart.
func (c *Chart) check() error {
	switch {
	case c.Name == "":
		return invalid("the chart has no name: give one, such as \"name\": \"Orlesk coast\"")
	case c.South.Angle() >= c.North.Angle():
		return invalid("the south limit %v is not south of the north limit %v: exchange them", c.South, c.North)
	case c.South.Angle() < -85*angle.Degree || c.North.Angle() > 85*angle.Degree:
		return invalid("the chart goes beyond 85° of latitude, where a Mercator chart serves no more: choose waters nearer to the equator")
	case c.West == c.East || eastOf(c.East, c.West) > 120*angle.Degree:
		return invalid("the west limit %v and the east limit %v have nothing or more than 120° between them: choose nearer ones", c.West, c.East)
	case len(c.Marks) > maxMarks || len(c.Dangers) > maxMarks || len(c.Names) > maxMarks || len(c.Anchorages) > maxMarks:
		return invalid("more than %d marks, dangers, names or anchorages, the maximum: leave some out", maxMarks)
	}
	places := len(c.Soundings)
	for _, l := range c.Land {
		places += len(l)
	}
	for _, l := range c.Contours {
		places += len(l.Line)
	}
	if places > maxPlaces {
		return invalid("%d soundings and points of lines; the maximum is %d: leave some out", places, maxPlaces)
	}
	for _, check := range []func() error{c.checkMarks, c.checkDangers, c.checkDepths, c.checkTexts, c.checkTidal} {
		if err := check(); err != nil {
			return err
		}
	}
	return nil
}

// outside returns the error of something that lies outside the limits of the chart.
func (c *Chart) outside(what string, p angle.Position) error {
	return invalid("%s at %v lies outside the limits of the chart, %v to %v and %v to %v: give its position", what, p, c.South, c.North, c.West, c.East)
}

// checkMarks returns what is wrong with the marks.
func (c *Chart) checkMarks() error {
	seen := map[string]bool{}
	for _, m := range c.Marks {
		switch {
		case m.Name == "":
			return invalid("the mark at %v has no name: give one", m.Position)
		case seen[m.Name]:
			return invalid("two marks are named %.40q: give one of them another name", m.Name)
		case !slices.Contains([]MarkKind{Light, Beacon, Tower, Church, Buoy, Summit}, m.Kind):
			return invalid("%.40q: the kind %.20q is unknown: write light, beacon, tower, church, buoy or summit", m.Name, m.Kind)
		case !from(m.Height, 0, 9000) || !from(m.Range, 0, 100*sailing.NauticalMile):
			return invalid("%.40q: give a height from 0 m to 9000 m and a range from 0 M to 100 M", m.Name)
		case !c.Contains(m.Position):
			return c.outside(fmt.Sprintf("%.40q", m.Name), m.Position)
		}
		seen[m.Name] = true
	}
	return nil
}

// checkDangers returns what is wrong with the dangers.
func (c *Chart) checkDangers() error {
	for _, d := range c.Dangers {
		switch {
		case !slices.Contains([]DangerKind{Rock, Shoal, Wreck}, d.Kind):
			return invalid("the danger at %v: the kind %.20q is unknown: write rock, shoal or wreck", d.Position, d.Kind)
		case !from(d.Depth, -20, 12000) || !from(d.Radius, 0, 100*sailing.NauticalMile):
			return invalid("the danger at %v: give a depth from -20 m to 12000 m and a radius from 0 M to 100 M", d.Position)
		case !c.Contains(d.Position):
			return c.outside("a danger", d.Position)
		}
	}
	return nil
}

// from reports whether a distance is at least one number of metres and at most another.
func from(d sailing.Distance, least, most sailing.Distance) bool {
	return d >= least && d <= most && !math.IsNaN(float64(d))
}

// checkDepths returns what is wrong with the soundings, the contours and the land.
func (c *Chart) checkDepths() error {
	for _, s := range c.Soundings {
		if !from(s.Depth, -20, 12000) {
			return invalid("the sounding at %v: give a depth from -20 m to 12000 m", s.Position)
		}
		if !c.Contains(s.Position) {
			return c.outside("a sounding", s.Position)
		}
	}
	for _, l := range c.Contours {
		if !from(l.Depth, -20, 12000) || len(l.Line) < 2 {
			return invalid("a contour of %v with %d positions: give a depth from -20 m to 12000 m and two or more positions", l.Depth, len(l.Line))
		}
	}
	for i, l := range c.Land {
		if len(l) < 3 {
			return invalid("outline %d of the land has %d positions: give three or more", i+1, len(l))
		}
	}
	return nil
}

// checkTexts returns what is wrong with the names and other texts.
func (c *Chart) checkTexts() error {
	texts := []string{c.Name, c.Note}
	for _, m := range c.Marks {
		texts = append(texts, m.Name, m.Light)
	}
	for _, d := range c.Dangers {
		texts = append(texts, d.Name)
	}
	for _, n := range c.Names {
		if n.Text == "" || !(n.Size >= 0 && n.Size <= 20) {
			return invalid("the name at %v: give a text, and a size from 0 to 20 mm", n.Position)
		}
		texts = append(texts, n.Text)
	}
	for _, t := range texts {
		if len(t) > maxText {
			return invalid("the text %.40q is longer than %d bytes, the maximum: shorten it", t, maxText)
		}
	}
	return nil
}

// checkTidal returns what is wrong with the places of the tidal table and of the roses.
func (c *Chart) checkTidal() error {
	for _, r := range c.Roses.Roses() {
		if !c.Contains(r.Position) {
			return c.outside(fmt.Sprintf("the rose %.40q", r.Name), r.Position)
		}
	}
	if c.Tidal == nil {
		return nil
	}
	if len(c.Tidal.Places) > maxTable {
		return invalid("the tidal table has %d places; the maximum is %d: leave some out", len(c.Tidal.Places), maxTable)
	}
	for _, p := range c.Tidal.Places {
		switch {
		case p.Position == nil:
			return invalid("the place %.20q of the tidal table has no position: give it in one of its rows", p.Name)
		case !c.Contains(*p.Position):
			return c.outside(fmt.Sprintf("the place %.20q of the tidal table", p.Name), *p.Position)
		case len(p.Name) > 8:
			return invalid("the place %.20q of the tidal table has a long name: give it a letter, such as A", p.Name)
		}
	}
	return nil
}
