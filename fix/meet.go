package fix

import (
	"cmp"
	"math"
	"slices"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
	"lubberline.example/fix/internal/earth"
)

// exact is the largest sum of squares of two lines that count as meeting.
const exact = 1e-6

// samePlace is the distance in metres within which two places count as one.
const samePlace = 1

// meets reports whether two lines meet at a state that is not too far from the marks.
func (s *solver) meets(st state) bool {
	return st.ok && st.square <= exact && !s.isFar(earth.FrameAt(st.up).At)
}

// meet finds the places where two lines meet. The fix is the place nearest to the reckoned
// position, if there is one.
func (s *solver) meet(known bool) (Fix, error) {
	if up, ok := crossing(&s.lines[0], &s.lines[1]); ok {
		if st := s.settle(up); s.meets(st) {
			return s.fix(st, 0, known), nil
		}
	}
	var found []state
	search := *s
	search.steps = fewSteps
	for up := range s.beginnings {
		if st := search.settle(up); s.meets(st) && !anyNear(found, st) {
			found = append(found, st)
		}
	}
	if len(found) == 0 {
		return Fix{}, s.explained(&Error{Kind: NoPosition, Reason: "the two lines are parallel, coincide, or do not meet near the marks: check both, or add a line that crosses them", search: true}, state{}, 0)
	}
	if near := s.options.Near; near != nil {
		at := earth.FrameAt(earth.Upright(*near)).At
		slices.SortStableFunc(found, func(a, b state) int {
			x, y := earth.FrameAt(a.up).At.Minus(at), earth.FrameAt(b.up).At.Minus(at)
			return cmp.Compare(x.Dot(x), y.Dot(y))
		})
	}
	f := s.fix(found[0], 0, known)
	for _, st := range found[1:] {
		f.alternatives = append(f.alternatives, earth.Position(st.up))
	}
	return f, nil
}

// A Corner is a corner of the cocked hat, where two lines meet.
type Corner struct {
	A        int            `json:"a"` // the two lines, by their index in Fix.Lines
	B        int            `json:"b"`
	Position angle.Position `json:"position"` // where they meet
	place    earth.Vector
}

// Hat returns the cocked hat: the corners where two lines meet within 60 miles of the fix, and
// its longest side. If a compass error was solved for, it is applied first. Only the first 40
// lines count. Even if three lines are sound, the vessel is inside their cocked hat in only one
// case of four.
func (f Fix) Hat() (corners []Corner, longest sailing.Distance) {
	turns := f.turns()
	for j := range min(len(f.lines), 40) {
		for i := range j {
			pair := []Line{f.lines[i], f.lines[j]}
			if turns != nil { // apply the compass error
				pair[0].want += turns[i]
				pair[1].want += turns[j]
			}
			s := solver{lines: pair}
			st := s.settle(f.state.up)
			at := earth.FrameAt(st.up).At
			d := at.Minus(earth.FrameAt(f.state.up).At)
			if !st.ok || st.square > exact || d.Dot(d) > (60*1852)*(60*1852) {
				continue
			}
			corners = append(corners, Corner{i, j, earth.Position(st.up), at})
		}
	}
	for j, c := range corners {
		for _, o := range corners[:j] {
			d := c.place.Minus(o.place)
			longest = max(longest, sailing.Distance(math.Sqrt(d.Dot(d))))
		}
	}
	return corners, longest
}

// hatSize returns the longest side of the cocked hat of three lines or more. If fewer than
// three of them meet, ok is false.
func (f Fix) hatSize() (longest sailing.Distance, ok bool) {
	if len(f.lines) < 3 {
		return 0, false
	}
	corners, longest := f.Hat()
	return longest, len(corners) >= 3
}

// hatStep returns the size of the cocked hat of three lines or more.
func (f Fix) hatStep() (working.Step, bool) {
	longest, ok := f.hatSize()
	if !ok {
		return working.Step{}, false
	}
	s := working.Step{Key: "cocked hat", What: "Cocked hat", Number: longest.NauticalMiles(), Unit: "nautical miles"}
	s.Value = milesFor(max(longest, sailing.Cable)).of(longest)
	if len(f.lines) > 3 {
		s = s.Because("farthest-corners", "between its farthest corners")
	} else {
		s = s.Because("longest-side", "longest side")
	}
	if !milesFor(sailing.Cable).small(longest) {
		s = s.Because("nearest-corner", nearestDanger)
	}
	return s, true
}

// nearestDanger is the rule for lines that do not meet at one point (common practice).
const nearestDanger = "with a danger near, take the corner nearest to it as the position"
