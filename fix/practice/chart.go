package practice

import (
	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"lubberline.example/course/tidal"
	"lubberline.example/fix"
	"lubberline.example/variation"
)

// A Chart is a chart for practice. [Orlesk] returns one, and [Read] reads one. The zero value is an
// empty chart at 0° N 0° E.
type Chart struct {
	Name string `json:"name"`
	Note string `json:"note,omitempty"` // printed below the name, such as what depths count from

	// The limits of the chart. West may be greater than East, across the date line.
	South angle.Latitude  `json:"south"`
	North angle.Latitude  `json:"north"`
	West  angle.Longitude `json:"west"`
	East  angle.Longitude `json:"east"`

	Marks      []Mark           `json:"marks,omitempty"`
	Dangers    []Danger         `json:"dangers,omitempty"`
	Names      []Name           `json:"names,omitempty"` // of places, printed on the chart
	Anchorages []angle.Position `json:"anchorages,omitempty"`

	// Roses are the compass roses, as a source of variation. Nil if there are none.
	Roses *variation.Chart `json:"roses,omitempty"`

	// Tidal is the table of the tidal streams. Nil if there is none. Its places are the tidal
	// diamonds.
	Tidal *tidal.Table `json:"tidal,omitempty"`

	Soundings []Sounding         `json:"soundings,omitempty"`
	Contours  []Contour          `json:"contours,omitempty"`
	Land      [][]angle.Position `json:"land,omitempty"` // outlines; each is closed from its last position to its first
}

// A MarkKind says what stands at a mark.
type MarkKind string

// The kinds of marks.
const (
	Light  MarkKind = "light"
	Beacon MarkKind = "beacon"
	Tower  MarkKind = "tower"
	Church MarkKind = "church"
	Buoy   MarkKind = "buoy" // a floating mark: it may be off its station
	Summit MarkKind = "summit"
)

// A Mark is a charted object, with what the chart says of it.
type Mark struct {
	fix.Mark
	Kind   MarkKind         `json:"kind"`
	Light  string           `json:"light,omitempty"` // its character, such as Fl(3) 15s; empty if unlit
	Height sailing.Distance `json:"height,omitzero"` // of the light or the top above high water; 0 if not charted
	Range  sailing.Distance `json:"range,omitzero"`  // of the light; 0 if not charted
}

// A DangerKind says what a danger is.
type DangerKind string

// The kinds of dangers.
const (
	Rock  DangerKind = "rock"
	Shoal DangerKind = "shoal"
	Wreck DangerKind = "wreck"
)

// A Danger is a charted danger and the foul water about it.
type Danger struct {
	Name     string           `json:"name,omitempty"`
	Position angle.Position   `json:"position"`
	Kind     DangerKind       `json:"kind"`
	Depth    sailing.Distance `json:"depth"`  // over it; below zero if it dries
	Radius   sailing.Distance `json:"radius"` // of the foul water about it
}

// A Sounding is a charted depth at a position. Depth is below zero if the place dries.
type Sounding struct {
	Position angle.Position   `json:"position"`
	Depth    sailing.Distance `json:"depth"`
}

// A Contour is a line of equal depth.
type Contour struct {
	Depth sailing.Distance `json:"depth"`
	Line  []angle.Position `json:"line"`
}

// A Name is a name printed on the chart about a position.
type Name struct {
	Text     string         `json:"text"`
	Position angle.Position `json:"position"`
	Size     float64        `json:"size,omitempty"` // of its letters, mm; 0 is the usual size
}

// Mark returns the mark with a name. If there is none, it returns false.
func (c Chart) Mark(name string) (Mark, bool) {
	for _, m := range c.Marks {
		if m.Name == name {
			return m, true
		}
	}
	return Mark{}, false
}

// Danger returns the danger with a name. If there is none, it returns false.
func (c Chart) Danger(name string) (Danger, bool) {
	for _, d := range c.Dangers {
		if d.Name == name {
			return d, true
		}
	}
	return Danger{}, false
}

// Contains reports whether a position lies within the limits of the chart, or on them.
func (c Chart) Contains(p angle.Position) bool {
	return p.Latitude.Angle() >= c.South.Angle() && p.Latitude.Angle() <= c.North.Angle() &&
		eastOf(p.Longitude, c.West) <= eastOf(c.East, c.West)
}

// InWater reports whether a position lies on the chart and not on land. It says nothing of the
// depth there.
func (c Chart) InWater(p angle.Position) bool {
	if !c.Contains(p) {
		return false
	}
	for _, outline := range c.Land {
		if c.within(p, outline) {
			return false
		}
	}
	return true
}

// within reports whether a position lies within an outline. Positions are taken east and west of
// the middle of the chart, which may be the date line.
func (c Chart) within(p angle.Position, outline []angle.Position) bool {
	middle := c.West.Add(eastOf(c.East, c.West) / 2)
	inside := false
	x, y := p.Longitude.Sub(middle).Degrees(), p.Latitude.Degrees()
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		ax, ay := a.Longitude.Sub(middle).Degrees(), a.Latitude.Degrees()
		bx, by := b.Longitude.Sub(middle).Degrees(), b.Latitude.Degrees()
		if (ay > y) != (by > y) && x < ax+(bx-ax)*(y-ay)/(by-ay) {
			inside = !inside
		}
	}
	return inside
}

// eastOf returns how far a longitude lies east of another, from 0 up to a turn.
func eastOf(a, b angle.Longitude) angle.Angle {
	d := a.Sub(b)
	if d < 0 {
		d += angle.Turn
	}
	return d
}
