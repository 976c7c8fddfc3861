package fix

import (
	"cmp"
	"math"
	"slices"

	"lubberline.example/angle"
	"lubberline.example/fix/internal/earth"
)

// begin settles from the reckoned positions in the options, and from places about the marks.
// It returns the best state, and the other places that fit about as well.
func (s *solver) begin() (state, []angle.Position, error) {
	var found []state
	astray := state{square: math.Inf(1)}
	chosen := s.chosen()
	began := 0
	search := *s
	for up := range s.beginnings {
		if began++; began > fewBeginnings {
			search.steps = fewSteps
		}
		st := search.settle(up)
		if !st.ok || !finite(st.square) {
			continue
		}
		if s.isAstray(st) {
			if st.square < astray.square {
				astray = st
			}
			continue
		}
		if chosen {
			return st, nil, nil
		}
		found = append(found, st)
	}
	switch {
	case began == 0:
		return state{}, nil, &Error{Kind: TooFewLines, Reason: "the lines have no mark, so that there is no place to begin the search: set Options.Near to the reckoned position"}
	case len(found) == 0 && astray.ok:
		return astray, nil, &Error{Kind: NoPosition, Reason: s.astray(astray), search: true}
	case len(found) == 0:
		return state{}, nil, &Error{Kind: NoPosition, Reason: noPosition, search: true}
	case len(found) == 1:
		return found[0], nil, nil
	}
	slices.SortStableFunc(found, func(a, b state) int { return cmp.Compare(a.square, b.square) })
	best := found[0]
	others := []state{best}
	for _, st := range found[1:] {
		if st.square > best.square+asGood {
			continue
		}
		if !anyNear(others, st) {
			others = append(others, st)
		}
	}
	var places []angle.Position
	for _, st := range others[1:] {
		places = append(places, earth.Position(st.up))
	}
	return best, places, nil
}

// chosen reports whether the options say where the vessel is.
func (s *solver) chosen() bool { return s.options.Near != nil || s.prior.used }

// fewBeginnings is how many beginnings are tried with all steps.
const fewBeginnings = 3

// noPosition is the reason if the search finds no position.
const noPosition = "the lines give no position: they are parallel, coincide, or do not meet near the marks; add a line that crosses them, or correct one"

// asGood is how much larger the sum of squares of another place may be if it fits about as
// well: two standard uncertainties.
const asGood = 4

// anyNear reports whether a state is at the same place as one of several.
func anyNear(places []state, st state) bool {
	at := earth.FrameAt(st.up).At
	for _, other := range places {
		if d := earth.FrameAt(other.up).At.Minus(at); d.Dot(d) < samePlace*samePlace {
			return true
		}
	}
	return false
}

// beginnings yields the places to begin from: the reckoned positions, then rings about the
// middle of the marks.
func (s *solver) beginnings(yield func(earth.Vector) bool) {
	if s.options.Near != nil && !yield(earth.Upright(*s.options.Near)) {
		return
	}
	if s.prior.used && !yield(s.prior.frame.Up) {
		return
	}
	middle, ok := s.middle()
	if !ok {
		return
	}
	f := earth.FrameAt(middle)
	if !yield(middle) {
		return
	}
	for _, radius := range []float64{2_000, 10_000, 40_000} {
		for i := range 8 {
			sin, cos := math.Sincos(float64(i) * math.Pi / 4)
			if !yield(f.Moved(radius*cos, radius*sin)) {
				return
			}
		}
	}
}

// middle returns the vertical of the middle of the marks. Without marks it is where a
// latitude and a longitude meet.
func (s *solver) middle() (earth.Vector, bool) {
	var sum earth.Vector
	latitude, longitude := math.NaN(), math.NaN()
	for i := range s.lines {
		l := &s.lines[i]
		for _, m := range l.marks {
			sum = sum.Plus(earth.Upright(m.Position))
		}
		switch l.kind {
		case KindLatitude:
			latitude = l.want
		case KindLongitude:
			longitude = l.want
		}
	}
	if length := math.Sqrt(sum.Dot(sum)); length > 1e-9 {
		return sum.Times(1 / length), true
	}
	if !math.IsNaN(latitude) && !math.IsNaN(longitude) {
		s, c := math.Sincos(latitude)
		sl, cl := math.Sincos(longitude)
		return earth.Vector{X: c * cl, Y: c * sl, Z: s}, true
	}
	return earth.Vector{}, false
}
