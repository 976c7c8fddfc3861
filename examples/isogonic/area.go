package main

import (
	"fmt"

	"lubberline.example/angle"
	"lubberline.example/wmm"
)

// An area is what the map shows, and how densely.
type area struct {
	south, north angle.Latitude
	west, east   angle.Longitude
	every        angle.Angle // between lines; 0 chooses
}

// width is how far the area reaches eastward; from a meridian to itself is round
// the earth.
func (a area) width() angle.Angle {
	if w := a.east.Sub(a.west).Normalized(); w != 0 {
		return w
	}
	return angle.Turn
}

func (a area) height() angle.Angle { return a.north.Angle() - a.south.Angle() }

// middle is the place in the middle of the area.
func (a area) middle() angle.Position {
	return angle.Position{
		Latitude:  angle.Must(angle.LatitudeFrom(a.south.Angle() + a.height()/2)),
		Longitude: a.west.Add(a.width() / 2),
	}
}

func (a area) check() error {
	if a.height() < angle.Degree/10 {
		return fmt.Errorf("from %v to %v: want the northern edge at least 0.1° north of the southern", a.south, a.north)
	}
	if a.width() < angle.Degree/10 {
		return fmt.Errorf("from %v to %v: want the eastern edge at least 0.1° east of the western", a.west, a.east)
	}
	if p := newProjection(a, 0, 0, mapWidth, mapHeight); p.width < leastSide || p.height < leastSide {
		return fmt.Errorf("%v high and %v wide: too narrow to draw; want neither side of the map over %d times the other", a.height(), a.width(), int(mapHeight/leastSide))
	}
	return nil
}

// grid looks for lines about 180 times across the area, and ends on its edges.
func (a area) grid() wmm.Grid {
	fit := func(whole angle.Angle) angle.Angle { return whole / 180 }
	return wmm.Grid{
		South: a.south, North: a.north, West: a.west, Width: a.width(),
		LatitudeStep:  fit(a.height()),
		LongitudeStep: fit(a.width()),
	}
}

// A survey is what the field is over an area: the variation from the westernmost to the
// easternmost, and the annual change in the middle and from least to most.
type survey struct {
	from, to            angle.Angle // not normalized; a turn apart where all variations occur
	change, least, most float64     // minutes a year, east positive
	changeKnown         bool        // false where the compass is of no use anywhere
}

// look surveys an area at 21 by 21 places.
func (a area) look(e *wmm.Evaluator) (survey, error) {
	var s survey
	first := true
	const steps = 20
	var row, last [steps + 1]angle.Angle
	for i := range steps + 1 {
		lat := angle.Must(angle.LatitudeFrom(a.south.Angle() + a.height()/steps*angle.Angle(i)))
		for j := range steps + 1 {
			p := angle.Position{Latitude: lat, Longitude: a.west.Add(a.width() / steps * angle.Angle(j))}
			f, rates, err := e.FieldAndRates(p, 0)
			if err != nil {
				return s, err
			}
			d, err := f.D()
			if err != nil || f.Zone() == wmm.BlackoutZone {
				// About a dip pole all variations occur.
				s.from, s.to, first = -angle.Turn/2, angle.Turn/2, false
				row[j] = 0
				continue
			}
			// Beside its neighbour, so that a cut at 180° is no jump.
			switch {
			case first:
				s.from, s.to, first = d, d, false
			case j > 0:
				d = row[j-1] + (d - row[j-1]).NormalizedSigned()
			case i > 0:
				d = last[0] + (d - last[0]).NormalizedSigned()
			}
			row[j] = d
			s.from, s.to = min(s.from, d), max(s.to, d)
			c := 60 * rates.D(f)
			if !s.changeKnown {
				s.least, s.most, s.changeKnown = c, c, true
			}
			s.least, s.most = min(s.least, c), max(s.most, c)
		}
		last = row
	}
	if s.to-s.from >= angle.Turn-angle.Degree || a.north.Angle() == angle.Turn/4 || a.south.Angle() == -angle.Turn/4 {
		s.from, s.to = -angle.Turn/2, angle.Turn/2
	}
	if f, rates, err := e.FieldAndRates(a.middle(), 0); err == nil {
		s.change = 60 * rates.D(f)
	}
	return s, nil
}

// steps are the spacings of lines to choose from.
var steps = []angle.Angle{
	angle.Minute, 2 * angle.Minute, 5 * angle.Minute, 10 * angle.Minute, 15 * angle.Minute, 30 * angle.Minute,
	angle.Degree, 2 * angle.Degree, 5 * angle.Degree, 10 * angle.Degree,
}

// spacing returns the smallest of the steps that gives at most 12 lines.
func (s survey) spacing() angle.Angle {
	for _, step := range steps {
		if s.to-s.from < 12*step {
			return step
		}
	}
	return 10 * angle.Degree
}

// levels are the variations of the lines to draw.
func (s survey) levels(every angle.Angle) []angle.Angle {
	if s.to-s.from == angle.Turn {
		return wmm.Levels((-angle.Turn / 2).Truncate(every), angle.Turn/2, every)
	}
	// A step beyond what was found between the places looked at.
	return wmm.Levels((s.from - every).Truncate(every), (s.to + every).Truncate(every), every)
}
