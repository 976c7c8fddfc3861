package isomap

import (
	"fmt"

	"lubberline.example/angle"
	"lubberline.example/wmm"
)

// An Area is the area of the map, and the spacing of its lines.
type Area struct {
	South, North angle.Latitude
	West, East   angle.Longitude
	Every        angle.Angle // between two lines; if 0, the map chooses
	Narrow       bool        // for a small screen: a map 95 mm wide, with fewer lines
}

// widest and highest return the maximum width and height of the map, in units of the sheet.
func (a Area) widest() float64 {
	if a.Narrow {
		return narrowWidth
	}
	return mapWidth
}

func (a Area) highest() float64 {
	if a.Narrow {
		return narrowHeight
	}
	return mapHeight
}

// width returns the width of the area eastward. From a meridian to itself it is the whole
// turn.
func (a Area) width() angle.Angle {
	if w := a.East.Sub(a.West).Normalized(); w != 0 {
		return w
	}
	return angle.Turn
}

// height returns the height of the area in latitude.
func (a Area) height() angle.Angle { return a.North.Angle() - a.South.Angle() }

// middle returns the place in the middle of the area.
func (a Area) middle() angle.Position {
	return angle.Position{
		Latitude:  angle.Must(angle.LatitudeFrom(a.South.Angle() + a.height()/2)),
		Longitude: a.West.Add(a.width() / 2),
	}
}

// Check returns an error if the area is too small or too narrow to draw.
func (a Area) Check() error {
	if a.height() < angle.Degree/10 {
		return fmt.Errorf("from %v to %v: give a northern edge at least 0.1° north of the southern one", a.South, a.North)
	}
	if a.width() < angle.Degree/10 {
		return fmt.Errorf("from %v to %v: give an eastern edge at least 0.1° east of the western one", a.West, a.East)
	}
	if p := newProjection(a, 0, 0, a.widest(), a.highest()); p.width < minSide || p.height < minSide {
		return fmt.Errorf("the area is %v high and %v wide, too narrow to draw: give one whose longer side is at most %d times the shorter one", a.height(), a.width(), int(min(a.widest(), a.highest())/minSide))
	}
	return nil
}

// grid returns the grid for the lines: 180 steps each way, from edge to edge.
func (a Area) grid() wmm.Grid {
	fit := func(whole angle.Angle) angle.Angle { return whole / 180 }
	return wmm.Grid{
		South: a.South, North: a.North, West: a.West, Width: a.width(),
		LatitudeStep:  fit(a.height()),
		LongitudeStep: fit(a.width()),
	}
}

// A survey is the range of the variation in an area, and that of the annual change, with its
// value in the middle.
type survey struct {
	from, to            angle.Angle // not normalized; a turn apart if all variations occur
	change, least, most float64     // minutes a year, east positive
	changeKnown         bool        // false if a compass is of no use anywhere
	narrow              bool        // the map is, and has fewer lines
}

// look surveys the area at 21 by 21 places.
func (a Area) look(e *wmm.Evaluator) (survey, error) {
	s := survey{narrow: a.Narrow}
	first := true
	const steps = 20
	var row, last [steps + 1]angle.Angle
	for i := range steps + 1 {
		lat := angle.Must(angle.LatitudeFrom(a.South.Angle() + a.height()/steps*angle.Angle(i)))
		for j := range steps + 1 {
			p := angle.Position{Latitude: lat, Longitude: a.West.Add(a.width() / steps * angle.Angle(j))}
			f, rates, err := e.FieldAndRates(p, 0)
			if err != nil {
				return s, err
			}
			d, err := f.D()
			if err != nil || f.Zone() == wmm.BlackoutZone {
				// Around a dip pole all variations occur.
				s.from, s.to, first = -angle.Turn/2, angle.Turn/2, false
				row[j] = 0
				continue
			}
			// Take the turn from the neighbour, so that there is no jump at 180°.
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
	if s.to-s.from >= angle.Turn-angle.Degree || a.North.Angle() == angle.Turn/4 || a.South.Angle() == -angle.Turn/4 {
		s.from, s.to = -angle.Turn/2, angle.Turn/2
	}
	if f, rates, err := e.FieldAndRates(a.middle(), 0); err == nil {
		s.change = 60 * rates.D(f)
	}
	return s, nil
}

// steps are the spacings that the program chooses from.
var steps = []angle.Angle{
	angle.Minute, 2 * angle.Minute, 5 * angle.Minute, 10 * angle.Minute, 15 * angle.Minute, 30 * angle.Minute,
	angle.Degree, 2 * angle.Degree, 5 * angle.Degree, 10 * angle.Degree,
}

// spacing returns the smallest of the steps that gives at most 12 lines, or 7 on a narrow map.
func (s survey) spacing() angle.Angle {
	lines := angle.Angle(12)
	if s.narrow {
		lines = 7
	}
	for _, step := range steps {
		if s.to-s.from < lines*step {
			return step
		}
	}
	return 10 * angle.Degree
}

// levels returns the variations of the lines to draw.
func (s survey) levels(every angle.Angle) []angle.Angle {
	if s.to-s.from == angle.Turn {
		return wmm.Levels((-angle.Turn / 2).Truncate(every), angle.Turn/2, every)
	}
	// One step more each way, since the survey may have missed the extremes.
	return wmm.Levels((s.from - every).Truncate(every), (s.to + every).Truncate(every), every)
}
