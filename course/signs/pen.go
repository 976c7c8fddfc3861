package signs

import (
	"fmt"
	"math"
	"slices"

	"lubberline.example/angle/drawing"
)

// A Pen draws signs on a sheet, and keeps the kinds that it has drawn for the legend. Without a
// sheet it draws nothing. A pen is not safe for concurrent use.
type Pen struct {
	Sheet *drawing.Sheet
	Usage Usage

	// Labels places the texts beside lines and marks, where they cover nothing that the pen has
	// drawn. Call its Draw at the end to write them. If nil, the pen writes no texts.
	Labels *drawing.Labels

	lines []LineKind
	marks []MarkKind
}

// halo is the white edge around texts.
const halo = `stroke="white" stroke-width="0.7" paint-order="stroke"`

// label adds a text to be placed.
func (p *Pen) label(l drawing.Label) {
	if p.Labels != nil {
		l.Attributes = halo
		p.Labels.Add(l)
	}
}

// avoidLine keeps labels off a line.
func (p *Pen) avoidLine(spots ...drawing.Spot) {
	if p.Labels != nil {
		p.Labels.AvoidLine(spots...)
	}
}

// avoid keeps labels off a mark.
func (p *Pen) avoid(at drawing.Spot, radius float64) {
	if p.Labels != nil {
		p.Labels.Avoid(drawing.Around(at, radius, radius))
	}
}

// style returns the attributes of a line of a width in millimetres.
func style(width float64) string {
	return fmt.Sprintf(`fill="none" stroke="black" stroke-width="%.2f"`, width)
}

// once adds a value to a list that does not have it.
func once[T comparable](all []T, v T) []T {
	if slices.Contains(all, v) {
		return all
	}
	return append(all, v)
}

// length returns the length of a path.
func length(path []drawing.Spot) float64 {
	sum := 0.0
	for i := 1; i < len(path); i++ {
		sum += math.Hypot(path[i].X-path[i-1].X, path[i].Y-path[i-1].Y)
	}
	return sum
}

// along returns the spot at a distance along a path, and the direction of the path there as a
// unit vector. Before its beginning and beyond its end the path goes on straight.
func along(path []drawing.Spot, distance float64) (at, way drawing.Spot) {
	for i := 1; i < len(path); i++ {
		a, b := path[i-1], path[i]
		l := math.Hypot(b.X-a.X, b.Y-a.Y)
		if l == 0 {
			continue
		}
		way = drawing.At((b.X-a.X)/l, (b.Y-a.Y)/l)
		at = a.Moved(way.X*distance, way.Y*distance)
		if distance <= l {
			return at, way
		}
		distance -= l
	}
	return at, way
}
